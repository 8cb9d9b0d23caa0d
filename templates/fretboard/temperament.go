package fretboard

import (
	"errors"
	"fmt"
	"math"
	"strconv"
)

// Temperament gives the interval from the open string to each fret. It repeats
// at the octave, ratio 2. The zero Temperament is twelve equal steps.
type Temperament struct {
	n    int       // steps to the octave; 0 means 12
	list []float64 // log2 of the ratio of steps 0 … n; nil when the steps are equal
}

// Limits of the divisions of an octave. Fewer than 1 is no scale; the upper
// limit only stops a slip of the pen: 144 steps at a scale of 650 mm already
// lie 3 mm apart at the nut.
const (
	minDivisions = 1
	maxDivisions = 144
)

// octaveSlack is how far, in octaves, the last value of a list may miss the
// octave and still be it: 1e-6 cent. Lists are written with fewer digits.
const octaveSlack = 1e-6 / 1200

// Equal returns the division of the octave into n equal steps, 1 to 144.
func Equal(n int) (Temperament, error) {
	if n < minDivisions || n > maxDivisions {
		return Temperament{}, fmt.Errorf("%d equal steps to the octave: allowed are %d to %d", n, minDivisions, maxDivisions)
	}
	return Temperament{n: n}, nil
}

// Ratios returns the temperament whose frets stand at the given ratios to the
// open string, rising, above 1 and up to 2. The octave 2 closes the list,
// written or not, and the list repeats above it. All errors at once.
func Ratios(ratios []float64) (Temperament, error) {
	logs := make([]float64, len(ratios))
	for i, r := range ratios {
		logs[i] = math.Log2(r)
	}
	return fromLogs(logs, func(i int) string { return strconv.FormatFloat(ratios[i], 'g', 10, 64) }, "a ratio above 1 and up to 2")
}

// Cents returns the temperament whose frets stand at the given cents above the
// open string, rising, above 0 and up to 1200 (a cent is 1/1200 of an octave).
// The octave closes the list, written or not. All errors at once.
func Cents(cents []float64) (Temperament, error) {
	logs := make([]float64, len(cents))
	for i, c := range cents {
		logs[i] = c / 1200
	}
	return fromLogs(logs, func(i int) string { return strconv.FormatFloat(cents[i], 'g', 10, 64) + " cents" }, "above 0 and up to 1200 cents")
}

// fromLogs builds a temperament from intervals in octaves; word(i) repeats the
// value as it was given.
func fromLogs(logs []float64, word func(int) string, allowed string) (Temperament, error) {
	var errs []error
	if len(logs) == 0 {
		errs = append(errs, errors.New("the list of intervals is empty: give one for each fret of the first octave"))
	}
	if len(logs) > maxDivisions {
		errs = append(errs, fmt.Errorf("the list has %d intervals: at most %d are allowed", len(logs), maxDivisions))
	}
	last := 0.0
	for i, l := range logs {
		switch {
		case !(l > 0 && l <= 1+octaveSlack): // also catches NaN
			errs = append(errs, fmt.Errorf("interval %d is %s: it must be %s; the octave repeats by itself", i+1, word(i), allowed))
			continue
		case l <= last:
			errs = append(errs, fmt.Errorf("interval %d is %s, not above the one before it: list them rising, each once", i+1, word(i)))
		}
		last = math.Max(last, l)
	}
	if len(errs) > 0 {
		return Temperament{}, errors.Join(errs...)
	}
	list := append([]float64{0}, logs...)
	if math.Abs(list[len(list)-1]-1) <= octaveSlack {
		list[len(list)-1] = 1
	} else {
		list = append(list, 1)
	}
	return Temperament{n: len(list) - 1, list: list}, nil
}

// Steps returns the number of frets to the octave.
func (t Temperament) Steps() int {
	if t.n == 0 {
		return 12
	}
	return t.n
}

// IsEqual reports whether all steps are the same.
func (t Temperament) IsEqual() bool { return t.list == nil }

// String returns what the temperament is, in words for a title block.
func (t Temperament) String() string {
	if t.IsEqual() {
		return fmt.Sprintf("%d equal steps to the octave", t.Steps())
	}
	return fmt.Sprintf("list of %d steps to the octave", t.Steps())
}

// Cents returns the interval from the open string to place x, counted in
// frets. Between frets it is divided evenly in cents; negative x lies behind
// the nut.
func (t Temperament) Cents(x float64) float64 {
	whole, rest := t.split(x)
	return 1200 * (whole + rest)
}

// split returns the interval to place x as whole octaves and a rest in [0, 1)
// octaves, so that octaves come out exact.
func (t Temperament) split(x float64) (whole, rest float64) {
	n := float64(t.Steps())
	whole = math.Floor(x / n)
	step := x - whole*n
	if t.list == nil {
		return whole, step / n
	}
	i := int(math.Floor(step))
	if i >= t.n { // rounding put step at n
		return whole + 1, 0
	}
	return whole, t.list[i] + (step-float64(i))*(t.list[i+1]-t.list[i])
}

// Fraction returns the part of the string that lies between the nut and place
// x, counted in frets: 1 − 2^(−x/N) for N equal steps, 1 − 1/ratio for a list.
// ISO 16 fixes no temperament; the octave is the ratio 2, and a string's pitch
// goes as one over its length (Mersenne's law). Octaves are exact.
func (t Temperament) Fraction(x float64) float64 {
	whole, rest := t.split(x)
	k := math.Exp2(-whole)
	// 1 − k·2^−rest, arranged so that a short distance keeps its digits.
	return (1 - k) - k*math.Expm1(-rest*math.Ln2)
}

// Position returns the distance from the nut to fret n in the unit of scale,
// within 1e-9 mm of scale·(1 − 2^(−n/N)) for equal steps.
func (t Temperament) Position(scale float64, n int) float64 {
	return scale * t.Fraction(float64(n))
}
