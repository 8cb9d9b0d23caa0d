package design

import (
	"fmt"
	"math"
	"math/big"
	"regexp"
	"strconv"
	"strings"

	"routwright/templates/design/toml"
)

// Units of a plain number in the file.
const (
	Millimetre = "mm"
	Inch       = "in"
)

// unitMM is how many millimetres each unit holds, exactly. The inch: 25.4 mm by
// the international yard and pound agreement of 1959.
var unitMM = map[string]*big.Rat{
	"mm":   big.NewRat(1, 1),
	"cm":   big.NewRat(10, 1),
	"in":   big.NewRat(254, 10),
	"thou": big.NewRat(254, 10000),
}

// unitNames are the ways to write a unit.
var unitNames = map[string]string{
	"mm": "mm", "cm": "cm", "thou": "thou",
	"in": "in", "inch": "in", "inches": "in", `"`: "in", "″": "in", "”": "in", "''": "in",
}

const lengthExamples = `a length such as 44.5 mm, 4.45 cm, 25 1/2 in, 1-3/4", 10 thou`

// lengthForm splits a length into sign, whole or decimal number, fraction and
// unit.
var lengthForm = regexp.MustCompile(`^([+-]?)(?:([0-9]+)/([0-9]+)|([0-9]+(?:\.[0-9]+)?)(?:[ -]([0-9]+)/([0-9]+))?) ?([^0-9 /].*)?$`)

// fractionSigns are the fractions that have a sign of their own.
var fractionSigns = strings.NewReplacer(
	"½", " 1/2", "¼", " 1/4", "¾", " 3/4", "⅛", " 1/8", "⅜", " 3/8", "⅝", " 5/8", "⅞", " 7/8", "⅓", " 1/3", "⅔", " 2/3",
	"\u2044", "/", "\u2212", "-", "\u2013", "-", "\u00a0", " ", "\u2009", " ", "\u202f", " ", "\t", " ")

// ParseLength reads a length as builders write it: a whole or decimal number, a
// fraction, or a whole number and a fraction, with or without a unit (mm, cm,
// in, thou). A number alone is in the given unit, "mm" or "in". The result is
// the binary number nearest to the exact length. The error is an Error without
// place and key.
func ParseLength(s, unit string) (Length, error) {
	bad := func(allowed, cure string) (Length, error) {
		return 0, Errorf(Pos{}, "", toml.Quote(s), allowed, cure)
	}
	const longest = 400 // characters; the arithmetic is exact
	if len(s) > longest {
		return bad(lengthExamples, "write a shorter number")
	}
	m := lengthForm.FindStringSubmatch(tidy(s))
	if m == nil || strings.HasPrefix(m[7], ",") {
		if t := strings.Replace(s, ",", ".", 1); t != s && strings.Count(s, ",") == 1 {
			if _, err := ParseLength(t, unit); err == nil {
				return bad(lengthExamples, "write the decimal point as a point: "+t)
			}
		}
		return bad(lengthExamples, "write a number and its unit")
	}
	sign, number, above, below, name := m[1], m[4], m[2]+m[5], m[3]+m[6], m[7]
	sum := new(big.Rat)
	if number != "" {
		sum.SetString(number)
	}
	if above != "" {
		if strings.Trim(below, "0") == "" {
			return bad(lengthExamples, "a fraction of 0 parts is no length: mend the number below the stroke")
		}
		f, _ := new(big.Rat).SetString(above + "/" + below)
		if number != "" && (strings.Contains(number, ".") || f.Cmp(big.NewRat(1, 1)) >= 0) {
			return bad("a whole number before a fraction smaller than 1", "write it as 25 1/2, or as 25.5")
		}
		sum.Add(sum, f)
	}
	if name == "" {
		name = unit
	}
	u, ok := unitNames[name]
	if !ok {
		return bad(lengthExamples, cureFor(name, []string{"mm", "cm", "in", "inch", "thou"}, "use one of the units mm, cm, in or thou"))
	}
	sum.Mul(sum, unitMM[u])
	if sign == "-" {
		sum.Neg(sum)
	}
	v, _ := sum.Float64()
	return Length(v), nil
}

// tidy brings the ways to type a length to one: signs to fractions, one blank
// between parts, small letters.
func tidy(s string) string {
	s = strings.ToLower(strings.Join(strings.Fields(fractionSigns.Replace(s)), " "))
	s = strings.TrimSuffix(s, ".") // "in."
	s = strings.ReplaceAll(s, " / ", "/")
	return strings.Replace(s, "- ", "-", 1)
}

// plainLength returns the length of a number of the file in its units. raw is
// the number as written: its decimal is converted, not the binary nearest to it.
func plainLength(raw string, v float64, unit string) Length {
	if l, err := ParseLength(strings.ReplaceAll(raw, "_", ""), unit); err == nil {
		return l
	}
	if unit == Inch { // an exponent, or hexadecimal
		v *= 25.4
	}
	return Length(v)
}

// String returns the length in mm with every decimal that it has, and the unit:
// ParseLength returns the same length.
func (l Length) String() string {
	return strconv.FormatFloat(float64(l), 'f', -1, 64) + " mm"
}

// In returns the length in a unit of the file, "mm" or "in", for a message: to
// 3 decimals in mm, 4 in inches, trailing zeros dropped.
func (l Length) In(unit string) string {
	v, decimals := float64(l), 3
	if unit == Inch {
		v, decimals = v/25.4, 4
	}
	return trimZeros(strconv.FormatFloat(v, 'f', decimals, 64)) + " " + unit
}

// trimZeros drops zeros after the decimal point.
func trimZeros(s string) string {
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	if s == "-0" {
		return "0"
	}
	return s
}

// boundIn prints a bound of a range in a unit of the file, rounded inward so
// that what is printed is allowed: up is the rounding direction.
func boundIn(l Length, unit string, up bool) string {
	if unit != Inch {
		return l.In(unit)
	}
	const decimals = 3
	exact, _ := new(big.Rat).SetString(strconv.FormatFloat(float64(l), 'f', -1, 64))
	exact.Quo(exact, unitMM["in"])
	scaled := new(big.Rat).Mul(exact, big.NewRat(1000, 1))
	n := new(big.Int).Div(scaled.Num(), scaled.Denom()) // rounds down
	if up && !scaled.IsInt() {
		n.Add(n, big.NewInt(1))
	}
	return trimZeros(new(big.Rat).SetFrac(n, big.NewInt(1000)).FloatString(decimals)) + " in"
}

// Inches returns a length as a ruler in inches shows it, to the nearest 64th:
// "25 1/2 in", and how much the length is more than that, in mm.
func Inches(mm float64) (text string, over float64) {
	n := int64(math.Round(mm / 25.4 * 64))
	over = mm - float64(n)*25.4/64
	sign := ""
	if n < 0 {
		sign, n = "-", -n
	}
	whole, num, den := n/64, n%64, int64(64)
	for num != 0 && num%2 == 0 {
		num, den = num/2, den/2
	}
	switch {
	case num == 0:
		return fmt.Sprintf("%s%d in", sign, whole), over
	case whole == 0:
		return fmt.Sprintf("%s%d/%d in", sign, num, den), over
	}
	return fmt.Sprintf("%s%d %d/%d in", sign, whole, num, den), over
}
