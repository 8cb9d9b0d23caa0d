package neck

import (
	"math"
	"testing"
	"testing/quick"

	"routwright/geom"
)

// The worked example of a bolted neck; the figures were computed by hand from
// the triangle, to the last decimal given.
func TestSolveWorked(t *testing.T) {
	s := Setup{Saddle: 19, Above: 6, Fret: 1.1, Action: 1.7, Nut: 0.4, Scale: 628.65, Joint: 628.65 * (1 - math.Exp2(-16.0/12))}
	got, err := Solve(s)
	if err != nil {
		t.Fatal(err)
	}
	if a := got.Angle.Degrees(); math.Abs(a-2.0450) > 5e-5 {
		t.Errorf("angle %.5f°, want 2.0450°", a)
	}
	if math.Abs(got.ToSaddle-249.17) > 5e-3 {
		t.Errorf("joint to saddle %.4f mm, want 249.17", got.ToSaddle)
	}
}

// A ray laid along the leaning board, and a string laid over the frets by its
// two heights, meet the saddle where Solve says.
func TestSolveAgainstRays(t *testing.T) {
	f := func(a, b, c, d, e, g uint8) bool {
		u := func(v uint8, lo, hi float64) float64 { return lo + (hi-lo)*float64(v)/255 }
		s := Setup{Saddle: u(a, 6, 30), Above: u(b, 0, 12), Fret: u(c, 0.8, 1.5), Action: u(d, 1, 3), Nut: u(e, 0, 1), Scale: u(g, 500, 900)}
		s.Joint = s.Scale * u(a^d, 0.5, 0.75)
		got, err := Solve(s)
		if err != nil {
			return false
		}
		// x along the body from the joint to the saddle, y up from the front.
		along := geom.Vec{X: math.Cos(float64(got.Angle)), Y: math.Sin(float64(got.Angle))}
		up := geom.Vec{X: -along.Y, Y: along.X}
		joint := geom.Pt(0, s.Above)
		at := func(x, over float64) geom.Point { // x from the nut along the board
			return joint.Add(along.Mul(x - s.Joint)).Add(up.Mul(s.Fret + over))
		}
		nut, mid := at(0, s.Nut), at(s.Scale/2, s.Action)
		end := nut.Add(mid.Sub(nut).Mul(2)) // the string runs straight, the middle is half way
		back, to := s.SaddleAt(got.Angle)
		return math.Abs(end.Y-s.Saddle) < 1e-9 && math.Abs(end.X-got.ToSaddle) < 1e-9 &&
			math.Abs(back-s.Saddle) < 1e-9 && math.Abs(to-got.ToSaddle) < 1e-9
	}
	if err := quick.Check(f, nil); err != nil {
		t.Error(err)
	}
}

func TestSolveRefuses(t *testing.T) {
	for _, s := range []Setup{
		{Saddle: 19, Scale: 600, Joint: 600},
		{Saddle: 900, Scale: 600, Joint: 400},
		{Saddle: math.NaN(), Scale: 600, Joint: 400},
	} {
		if got, err := Solve(s); err == nil {
			t.Errorf("%+v: got %+v, want an error", s, got)
		}
	}
}
