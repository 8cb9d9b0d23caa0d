package fretboard

import (
	"fmt"
	"math"
)

// MMPerInch is exact: the international inch of 1959.
const MMPerInch = 25.4

// Sixtyfourth is a length in inches as a rule shows it: whole inches and a
// fraction in lowest terms, the denominator at most 64.
type Sixtyfourth struct {
	Whole, Num, Den int     // Num 0 with Den 1 when there is no fraction
	Error           float64 // inches that the fraction is longer than the length
}

// Nearest64th returns the 64th of an inch nearest to a length in mm, halves
// away from zero, mm from 0 to 1e9.
func Nearest64th(mm float64) Sixtyfourth {
	n := int(math.Round(mm / MMPerInch * 64))
	s := Sixtyfourth{Whole: n / 64, Num: n % 64, Den: 64, Error: float64(n)/64 - mm/MMPerInch}
	for s.Num%2 == 0 && s.Den > 1 {
		s.Num, s.Den = s.Num/2, s.Den/2
	}
	return s
}

// String returns "12 3/4", "3/64", "7" or "0".
func (s Sixtyfourth) String() string {
	switch {
	case s.Num == 0:
		return fmt.Sprint(s.Whole)
	case s.Whole == 0:
		return fmt.Sprintf("%d/%d", s.Num, s.Den)
	}
	return fmt.Sprintf("%d %d/%d", s.Whole, s.Num, s.Den)
}

// ErrorWords returns the error with its sign and four decimals, "0.0000" when
// it rounds to nothing.
func (s Sixtyfourth) ErrorWords() string {
	if w := fmt.Sprintf("%+.4f", s.Error); w != "-0.0000" && w != "+0.0000" {
		return w
	}
	return "0.0000"
}
