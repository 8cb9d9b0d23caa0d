package geom

import (
	"math"
	"math/rand"
	"testing"
)

// fuzzLoop reads a loop off bytes: points on a grid of 1/4 mm with a nudge, and
// bulges, so that vertices coincide and edges overlap often.
func fuzzLoop(data []byte) Path {
	var ps []Point
	var bulge []float64
	for ; len(data) >= 4 && len(ps) < 24; data = data[4:] {
		x, y := float64(int8(data[0]))/4, float64(int8(data[1]))/4
		// Up to 1.5e-7, which is nothing, or from 1e-4 on: what lies between may
		// bend back on itself within the tolerance of Check.
		nudge := math.Pow(10, -12+float64(data[2]>>4))
		if nudge > 1e-8 {
			nudge = math.Min(1e4*nudge, 1)
		}
		ps = append(ps, Pt(x+nudge*float64(data[2]&15), y))
		bulge = append(bulge, float64(int8(data[3]))/100)
	}
	var p Path
	for i := range ps {
		s := ArcBulge(ps[i], ps[(i+1)%len(ps)], bulge[i])
		if s.A.Dist(s.B) < 2*Coincident {
			s = Line(s.A, s.B)
		}
		p = append(p, s)
	}
	return p
}

// fuzzRegion makes a sound region of two loops, if they are.
func fuzzRegion(data []byte) (Region, bool) {
	r := Region{fuzzLoop(data)}
	if len(r[0]) < 2 || r.Check() != nil || r.Area() < Weld*r.Perimeter() {
		return nil, false // a loop narrower than Weld is nothing
	}
	return r, true
}

// FuzzOffset grows and shrinks whatever loop the bytes make. A sound region must
// give a right result; any other must neither panic nor give an unsound one.
func FuzzOffset(f *testing.F) {
	f.Add([]byte("0123456789abcdefghijklmnop"), 3.0)
	f.Add([]byte{0, 0, 0, 0, 100, 0, 0, 30, 100, 100, 0, 0, 0, 100, 0, 200}, -2.0)
	f.Fuzz(func(t *testing.T, data []byte, d float64) {
		if !(math.Abs(d) < 1e3) || math.Abs(d) < 1e-3 {
			return
		}
		var c Calc
		r, ok := fuzzRegion(data)
		if !ok {
			o := c.Offset(Region{fuzzLoop(data)}, d, Round)
			if c.Err() == nil && o.Check() != nil {
				t.Error(o.Check())
			}
			return
		}
		o := c.Offset(r, d, Round)
		if c.Err() != nil {
			t.Fatal(c.Err())
		}
		if err := offsetFault(rand.New(rand.NewSource(1)), r, o, d, Weld); err != nil {
			t.Errorf("%v by %g: %v", r, d, err)
		}
	})
}

// FuzzBoolean runs the four operations on two loops.
func FuzzBoolean(f *testing.F) {
	f.Add([]byte("0123456789abcdefghijklmnop"), []byte("ponmlkjihgfedcba9876543210"))
	f.Fuzz(func(t *testing.T, x, y []byte) {
		var c Calc
		a, ok := fuzzRegion(x)
		b, ok2 := fuzzRegion(y)
		if !ok || !ok2 {
			a, b = Region{fuzzLoop(x)}, Region{fuzzLoop(y)}
		}
		got := [4]Region{c.Union(a, b), c.Intersect(a, b), c.Subtract(a, b), c.Xor(a, b)}
		if !ok || !ok2 {
			return
		}
		if c.Err() != nil {
			t.Fatal(c.Err())
		}
		if err := booleanFault(rand.New(rand.NewSource(1)), a, b, got); err != nil {
			t.Errorf("%v and %v: %v", a, b, err)
		}
	})
}

// FuzzOffsetPath grows the open path of the bytes.
func FuzzOffsetPath(f *testing.F) {
	f.Add([]byte("0123456789abcdefghijklmnop"), 3.0)
	f.Fuzz(func(t *testing.T, data []byte, d float64) {
		p := fuzzLoop(data)
		if len(p) < 2 || !(d < 1e3) || d < 1e-3 {
			return
		}
		p = p[:len(p)-1]
		if p.Check() != nil {
			return
		}
		var c Calc
		o := c.OffsetPath(p, d)
		if c.Err() != nil {
			t.Fatal(c.Err())
		}
		if err := o.Check(); err != nil {
			t.Errorf("%v by %g: %v", p, d, err)
		}
	})
}
