package strings

import (
	"errors"
	"fmt"
	"math"
)

// Setup is how a string runs over the frets. All in mm. Heights are those of
// the string's underside over the plane of the fret tops.
type Setup struct {
	Scale    float64
	Frets    int     // of twelve equal steps, at least 12
	AtNut    float64 // height at the nut
	Action12 float64 // height at fret 12
	Nut      bool    // the nut may be moved, too; otherwise the saddle alone
	Ends     Ends    // how the string is held at nut, fret and saddle
}

// Estimate is what Compensate found.
type Estimate struct {
	Saddle float64   // move the saddle this far from the nut, beyond the scale, mm
	Nut    float64   // move the nut's edge this far towards the bridge, mm
	Cents  []float64 // what remains, fret 1 first: positive is sharp
}

// Compensate estimates the shifts of saddle and nut for a string.
//
// A fretted note is sharp of its ideal because pressing stretches the string
// (Hooke's law over the lengthened path nut – fret top – saddle) and because a
// stiff string sounds higher the shorter it is (see String.TensionAt). The model
// is that of Varieschi and Gower, American Journal of Physics 78, 2010 (from
// memory), without the dip of the finger behind the fret; pressing hard makes
// every note sharper than said here. How the ends are held matters most: ask
// with Clamped and with Carried and take the two as a range.
//
// With the saddle alone, fret 12 is made the exact octave. With the nut, too,
// both are chosen for the least sum of squared errors in cents over all frets.
func Compensate(s String, u Setup) (Estimate, error) {
	if err := errors.Join(s.Check(), u.check()); err != nil {
		return Estimate{}, err
	}
	m := model{s, u}
	var e Estimate
	if u.Nut {
		e.Nut, e.Saddle = m.leastSquares()
	} else {
		e.Saddle = m.octave()
	}
	e.Cents = m.errors(e.Nut, e.Saddle)
	for _, c := range e.Cents {
		if math.IsNaN(c) || math.IsInf(c, 0) {
			return Estimate{}, errors.New("no shift of nut and saddle tunes this string: is it slack, or far too stiff for its length?")
		}
	}
	return e, nil
}

func (u Setup) check() error {
	switch {
	case !(u.Scale >= 100 && u.Scale <= 2000):
		return fmt.Errorf("scale %g mm: allowed are 100 to 2000", u.Scale)
	case u.Frets < 12 || u.Frets > 60:
		return fmt.Errorf("%d frets: allowed are 12 to 60", u.Frets)
	case !(u.AtNut >= 0 && u.AtNut <= 5):
		return fmt.Errorf("height %g mm at the nut: allowed are 0 to 5", u.AtNut)
	case u.Ends > Hinged:
		return fmt.Errorf("unknown kind of ends %d", u.Ends)
	case !(u.Action12 > 0 && u.Action12 <= 10 && u.Action12*2 > u.AtNut):
		return fmt.Errorf("action %g mm at fret 12: allowed are above 0 and up to 10, and over half the height at the nut", u.Action12)
	}
	return nil
}

// model is a string in its setup.
type model struct {
	s String
	u Setup
}

// errors returns the error of each fret in cents against twelve equal steps from
// the open string, for given shifts.
func (m model) errors(nut, saddle float64) []float64 {
	out := make([]float64, m.u.Frets)
	m.fill(out, 0, nut, saddle)
	return out
}

// fill is errors for as many frets as out holds, after the first ones.
func (m model) fill(out []float64, first int, nut, saddle float64) {
	slope := (m.u.Action12 - m.u.AtNut) / (m.u.Scale / 2)
	end := m.u.Scale + saddle
	top := m.u.AtNut + slope*end // height at the saddle
	open := math.Hypot(end-nut, top-m.u.AtNut)
	t0, mu := m.s.TensionAt(open, m.u.Ends), m.s.MassPerLength()
	for i := range out {
		fret := float64(first + i + 1)
		x := m.u.Scale * (1 - math.Exp2(-fret/12))
		sounding := math.Hypot(end-x, top)
		strain := (math.Hypot(x-nut, m.u.AtNut) + sounding - open) / open
		t := t0 + m.s.stretch()*strain
		f := Frequency(mu/(1+strain), sounding, t) * m.s.stiffening(sounding, t, m.u.Ends)
		out[i] = 1200*math.Log2(f/m.s.Pitch) - 100*fret
	}
}

// octave returns the saddle shift that makes fret 12 an exact octave. A longer
// string sounds flatter at every fret, fretted ones more than the open: the error
// falls with the shift, so bisection finds it.
func (m model) octave() float64 {
	lo, hi := -m.u.Scale/20, m.u.Scale/20
	var twelfth [1]float64
	for i := 0; i < 100; i++ {
		mid, was := (lo+hi)/2, [2]float64{lo, hi}
		if m.fill(twelfth[:], 11, 0, mid); twelfth[0] > 0 {
			lo = mid
		} else {
			hi = mid
		}
		if was == [2]float64{lo, hi} {
			break // nothing lies between the two
		}
	}
	return (lo + hi) / 2
}

// leastSquares returns the shifts of nut and saddle with the least sum of
// squared errors, by Gauss and Newton's iteration with derivatives by
// differences. The errors are nearly linear in both, so few steps are needed.
func (m model) leastSquares() (nut, saddle float64) {
	const h = 1e-3 // mm
	for i := 0; i < 20; i++ {
		e := m.errors(nut, saddle)
		dn, ds := m.errors(nut+h, saddle), m.errors(nut, saddle+h)
		var nn, ns, ss, ne, se float64
		for k := range e {
			a, b := (dn[k]-e[k])/h, (ds[k]-e[k])/h
			nn, ns, ss = nn+a*a, ns+a*b, ss+b*b
			ne, se = ne+a*e[k], se+b*e[k]
		}
		det := nn*ss - ns*ns
		stepN, stepS := (ns*se-ss*ne)/det, (ns*ne-nn*se)/det
		nut, saddle = nut+stepN, saddle+stepS
		if math.Abs(stepN)+math.Abs(stepS) < 1e-9 {
			break
		}
	}
	return nut, saddle
}
