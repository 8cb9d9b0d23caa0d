package design

import (
	"math"
	"strconv"
	"strings"

	"routwright/templates/design/toml"
)

const ratioExamples = `a ratio above 1 and up to 2 such as "3/2", "5:4" or 1.25`

// ratio decodes an interval as a ratio to the open string: a number, or a
// fraction in quotes.
func (d *decoder) ratio(f *field, v *toml.Value, key string) (Ratio, bool) {
	r, words := math.NaN(), ""
	switch v.Kind {
	case toml.Integer, toml.Float:
		r, words = v.Float, v.Raw
	case toml.String:
		words = toml.Quote(v.Text)
		r = fraction(v.Text)
	default:
		return 0, d.wrong(f, ratioType, v, key)
	}
	if !(r > 1 && r <= 2) {
		return 0, d.fail(v.At, key, words, f.of(ratioType, d.unit), "the open string is 1, the octave 2; the list repeats above it")
	}
	return Ratio(r), true
}

// fraction reads "3/2" or "3:2"; NaN when it is none.
func fraction(s string) float64 {
	num, den, ok := strings.Cut(strings.Replace(s, ":", "/", 1), "/")
	a, err1 := strconv.ParseFloat(strings.TrimSpace(num), 64)
	if !ok {
		den = "1"
	}
	b, err2 := strconv.ParseFloat(strings.TrimSpace(den), 64)
	if err1 != nil || err2 != nil {
		return math.NaN()
	}
	return a / b
}
