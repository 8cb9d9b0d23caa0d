package toml

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"time"
)

// The forms of numbers and dates, from the grammar of TOML 1.0 (toml.abnf).
var (
	decimalForm = regexp.MustCompile(`^[+-]?(0|[1-9](_?[0-9])*)$`)
	radixForm   = regexp.MustCompile(`^0(x[0-9A-Fa-f](_?[0-9A-Fa-f])*|o[0-7](_?[0-7])*|b[01](_?[01])*)$`)
	floatForm   = regexp.MustCompile(`^[+-]?(0|[1-9](_?[0-9])*)(\.[0-9](_?[0-9])*)?([eE][+-]?[0-9](_?[0-9])*)?$`)
	specialForm = regexp.MustCompile(`^[+-]?(inf|nan)$`)
	dateForm    = regexp.MustCompile(`^([0-9]{4}-[0-9]{2}-[0-9]{2})([Tt ]([0-9]{2}:[0-9]{2}:[0-9]{2})(\.[0-9]+)?([Zz]|[+-][0-9]{2}:[0-9]{2})?)?$`)
	timeForm    = regexp.MustCompile(`^([0-9]{2}:[0-9]{2}:[0-9]{2})(\.[0-9]+)?$`)
	daySpace    = regexp.MustCompile(`^[0-9]{4}-[0-9]{2}-[0-9]{2} [0-9]{2}:`)
)

// bareword returns the text of a value without quotes or brackets: up to a
// blank, a comma, a bracket, a comment or the line's end. A date may hold one
// blank before its time.
func (r *reader) bareword() string {
	const ends = " \t\r\n,]}#"
	rest := r.src[r.i:]
	from := 0
	if daySpace.MatchString(rest) {
		from = len("2006-01-02 ")
	}
	if n := strings.IndexAny(rest[from:], ends); n >= 0 {
		return rest[:from+n]
	}
	return rest
}

// scalar reads a number, boolean or date into v.
func (r *reader) scalar(v *Value) bool {
	w := r.bareword()
	v.Raw = w
	plain := strings.ReplaceAll(w, "_", "")
	var err error
	switch {
	case w == "true" || w == "false":
		v.Kind, v.Bool = Bool, w == "true"
	case decimalForm.MatchString(w):
		v.Kind = Integer
		v.Int, err = strconv.ParseInt(plain, 10, 64)
		v.Float = float64(v.Int)
	case radixForm.MatchString(w):
		v.Kind = Integer
		v.Int, err = strconv.ParseInt(plain, 0, 64)
		v.Float = float64(v.Int)
	case specialForm.MatchString(w) || floatForm.MatchString(w):
		v.Kind = Float
		// A number out of range becomes infinite, which its reader refuses.
		v.Float, _ = strconv.ParseFloat(plain, 64)
	case dateForm.MatchString(w) || timeForm.MatchString(w):
		v.Kind = Date
		if !validDate(w) {
			return r.fail(r.i, Quote(w), "a day and a time that exist", "mend the date")
		}
	default:
		return r.notScalar(w)
	}
	if err != nil {
		return r.fail(r.i, Quote(w), "whole numbers of at most 18 digits", "use a smaller number")
	}
	if more := strings.TrimLeft(r.src[r.i+len(w):], " \t"); more != "" && !strings.ContainsRune("\r\n,]}#", rune(more[0])) {
		return r.notScalar(w) // 25 1/2 in
	}
	r.i += len(w)
	return true
}

// validDate reports whether the day and the time of a well-formed date exist. A
// leap second is allowed, as in RFC 3339.
func validDate(s string) bool {
	clock := s
	if m := dateForm.FindStringSubmatch(s); m != nil {
		if _, err := time.Parse("2006-01-02", m[1]); err != nil {
			return false
		}
		if m[2] == "" {
			return true
		}
		if zone := m[5]; len(zone) == 6 && (zone[1:3] > "23" || zone[4:6] > "59") {
			return false
		}
		clock = m[3]
	} else {
		clock = timeForm.FindStringSubmatch(s)[1]
	}
	return clock[0:2] <= "23" && clock[3:5] <= "59" && clock[6:8] <= "60"
}

// The usual slips of the hand, each with its cure.
var slips = []struct {
	form *regexp.Regexp
	tell func(w, rest string) (given, allowed, cure string)
}{
	{regexp.MustCompile(`^$`), func(w, rest string) (string, string, string) {
		return "no value after the equals sign", "a number, a text in quotes, a [list], a {table}, true or false", "write the value, or delete the line"
	}},
	{regexp.MustCompile(`^[+-]?[0-9]+\.[0-9]*\.`), func(w, rest string) (string, string, string) {
		return Quote(w), "one decimal point", "write the number again"
	}},
	{regexp.MustCompile(`^[+-]?\.[0-9]+$`), func(w, rest string) (string, string, string) {
		return Quote(w), "a digit before the decimal point", "write " + strings.Replace(w, ".", "0.", 1)
	}},
	{regexp.MustCompile(`^[+-]?[0-9]+\.$`), func(w, rest string) (string, string, string) {
		return Quote(w), "a digit after the decimal point", "write " + w + "0"
	}},
	{regexp.MustCompile(`^[+-]?0+[0-9]`), func(w, rest string) (string, string, string) {
		return Quote(w), "a number without a leading zero", "write " + noZeros(w)
	}},
	{regexp.MustCompile(`^(?i:true|false|yes|no|on|off)$`), func(w, rest string) (string, string, string) {
		yes := strings.ContainsAny(w[:1], "tTyY") || strings.EqualFold(w, "on")
		return Quote(w), "true or false", fmt.Sprintf("write %v", yes)
	}},
	{regexp.MustCompile(`^[+-]?([0-9½¼¾⅛⅜⅝⅞]|['"])`), func(w, rest string) (string, string, string) {
		return Quote(rest), "a plain number, or a text in quotes", "a length with its own unit stands in quotes: \"25 1/2 in\", \"44.5 mm\""
	}},
	{regexp.MustCompile(`^[“”„‘’‚«»″′]`), func(w, rest string) (string, string, string) {
		return Quote(rest), "straight quotes, \" or '", "type the quotes again in a plain text editor"
	}},
	{regexp.MustCompile(`^\pL`), func(w, rest string) (string, string, string) {
		return Quote(rest) + " without quotes", "a text in quotes", "write \"" + strings.Trim(rest, "\"'") + "\""
	}},
	{regexp.MustCompile(``), func(w, rest string) (string, string, string) {
		return Quote(rest), "a number, a text in quotes, a [list], a {table}, true or false", "write the value anew"
	}},
}

// notScalar explains a value that is none.
func (r *reader) notScalar(w string) bool {
	rest, _, _ := strings.Cut(r.ahead(r.i), "\n")
	rest, _, _ = strings.Cut(rest, "#")
	if r.depth > 0 {
		if n := strings.IndexAny(rest, ",]}"); n >= 0 {
			rest = rest[:n]
		}
	}
	rest = strings.TrimSpace(rest)
	for _, s := range slips {
		if s.form.MatchString(w) {
			given, allowed, cure := s.tell(w, rest)
			return r.fail(r.i, given, allowed, cure)
		}
	}
	return false
}

// noZeros drops the leading zeros of a number.
func noZeros(w string) string {
	sign := ""
	if w[0] == '+' || w[0] == '-' {
		sign, w = w[:1], w[1:]
	}
	w = strings.TrimLeft(w, "0")
	if w == "" || w[0] < '0' || w[0] > '9' {
		w = "0" + w
	}
	return sign + w
}
