package toml

import (
	"strconv"
	"strings"
	"unicode/utf8"
)

// basic reads a "basic string" on one line.
func (r *reader) basic() (string, bool) {
	start := r.i
	r.i++
	var b strings.Builder
	for {
		if r.lineBroken() {
			return "", r.open(start, `"`)
		}
		switch c := r.src[r.i]; {
		case c == '"':
			r.i++
			return b.String(), true
		case c == '\\':
			if !r.escape(&b) {
				return "", false
			}
		case control(c):
			return "", r.controlInText()
		default:
			b.WriteByte(c)
			r.i++
		}
	}
}

// literal reads a 'literal string' on one line.
func (r *reader) literal() (string, bool) {
	start := r.i
	r.i++
	for !r.lineBroken() {
		c := r.src[r.i]
		if c == '\'' {
			r.i++
			return r.src[start+1 : r.i-1], true
		}
		if control(c) {
			return "", r.controlInText()
		}
		r.i++
	}
	return "", r.open(start, "'")
}

// lineBroken reports the end of the line or of the file.
func (r *reader) lineBroken() bool {
	return r.i >= len(r.src) || r.src[r.i] == '\n' || r.has("\r\n")
}

func (r *reader) open(start int, quote string) bool {
	return r.fail(start, r.word(start)+" without its closing quote", "a text closed by "+quote, "close the text with "+quote)
}

func (r *reader) controlInText() bool {
	return r.fail(r.i, "a control character in a text", "letters, signs and tabs", `delete it, or write it as \u and four digits`)
}

// long reads a string in triple quotes, which may run over lines.
func (r *reader) long(quote byte) (string, bool) {
	start, three := r.i, strings.Repeat(string(quote), 3)
	r.i += 3
	r.newline() // directly after the quotes it does not count
	var b strings.Builder
	for r.i < len(r.src) {
		c := r.src[r.i]
		switch {
		case r.has(three):
			r.i += 3
			// Up to two more quotes belong to the text.
			for n := 0; n < 2 && r.peek(0) == quote; n++ {
				b.WriteByte(quote)
				r.i++
			}
			return b.String(), true
		case c == '\\' && quote == '"':
			if r.foldsLine() {
				continue
			}
			if !r.escape(&b) {
				return "", false
			}
		case r.has("\r\n"):
			b.WriteString("\r\n")
			r.i += 2
		case c == '\n':
			b.WriteByte(c)
			r.i++
		case control(c):
			return "", r.controlInText()
		default:
			b.WriteByte(c)
			r.i++
		}
	}
	return "", r.open(start, three)
}

// foldsLine skips a backslash at the end of a line with all white space after.
func (r *reader) foldsLine() bool {
	i := r.i
	r.i++
	r.space()
	if !r.newline() {
		r.i = i
		return false
	}
	for {
		r.space()
		if !r.newline() {
			return true
		}
	}
}

// escape reads one escape sequence of a basic string.
func (r *reader) escape(b *strings.Builder) bool {
	c := r.peek(1)
	if at := strings.IndexByte(`btnfr"\`, c); c != 0 && at >= 0 {
		b.WriteByte("\b\t\n\f\r\"\\"[at])
		r.i += 2
		return true
	}
	digits := map[byte]int{'u': 4, 'U': 8}[c]
	if digits == 0 {
		return r.fail(r.i, r.word(r.i)+` after a backslash`, `\b \t \n \f \r \" \\ \uXXXX \UXXXXXXXX`, `write \\ for a backslash, / in a file name, or single quotes round the text`)
	}
	end := min(r.i+2+digits, len(r.src))
	hex := r.src[r.i+2 : end]
	n, err := strconv.ParseUint(hex, 16, 32)
	if err != nil || len(hex) != digits || strings.ContainsAny(hex, "+-_") || n > utf8.MaxRune || !utf8.ValidRune(rune(n)) {
		return r.fail(r.i, r.word(r.i), `\u with four or \U with eight hexadecimal digits of a Unicode character`, "mend the digits")
	}
	b.WriteRune(rune(n))
	r.i = end
	return true
}
