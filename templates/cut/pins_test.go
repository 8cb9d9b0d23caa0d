package cut_test

import (
	"math"
	"testing"

	"routwright/geom"
	"routwright/templates/cut"
)

// The wrong poses of two pins, tried by hand: each motion is made on the holes
// and the best of a fine search over shifts and small turns is compared.
func TestPoses(t *testing.T) {
	pins := []cut.Pin{{Name: "P", At: geom.Pt(-130, 110), D: 8}, {Name: "Q", At: geom.Pt(150, 80), D: 6}}
	v := pins[1].At.Sub(pins[0].At)
	for _, p := range cut.Poses(pins) {
		switch p.Words {
		case "turned over about the centre line":
			// The holes' vector (280, −30) becomes (−280, −30); P's hole may lie over
			// Q, so that (280, 30) is compared: 60 apart, half at each pin.
			if p.Seats || math.Abs(p.Miss-30) > 1e-9 {
				t.Errorf("%+v, want a miss of 30", p)
			}
		case "turned over end for end":
			if p.Seats || math.Abs(p.Miss-30) > 1e-9 {
				t.Errorf("%+v, want a miss of 30", p)
			}
		case "turned half round, the holes exchanged":
			if p.Seats || math.Abs(p.Miss-2) > 1e-9 {
				t.Errorf("%+v: pins of 8 and 6 mm must not exchange", p)
			}
		case "turned over about the line through the pins":
			lean := math.Abs(math.Atan2(v.Y, v.X)) * 180 / math.Pi
			if !p.Seats || math.Abs(p.Askew-2*lean) > 1e-9 {
				t.Errorf("%+v, want %g° askew", p, 2*lean)
			}
		default:
			t.Errorf("a pose that is not tried: %+v", p)
		}
	}
}

// The pins lie in the waste, clear of everything, and no pair of the grid makes
// smaller sheets: brute force without the shortcut.
func TestSolvePins(t *testing.T) {
	blank := geom.Region{geom.Rect(geom.Pt(0, 0), 420, 520)}
	outline := geom.Region{geom.RoundedRect(geom.Pt(0, 0), 320, 420, 120)}
	sheets := []geom.Box{geom.BoxOf(geom.Pt(-80, 0), geom.Pt(80, 120)), geom.BoxOf(geom.Pt(40, -150), geom.Pt(150, -20))}
	crack := geom.Polyline(geom.Pt(-150, -200), geom.Pt(-150, -100))
	pins, err := cut.SolvePins(blank, outline, []geom.Path{crack}, sheets, 8)
	if err != nil {
		t.Fatal(err)
	}
	area := func(p, q geom.Point) float64 {
		b := geom.BoxOf(p, q).Grow(cut.PinRoom)
		a := b.W() * b.H()
		for _, s := range sheets {
			u := s.Union(b)
			a += u.W() * u.H()
		}
		return a
	}
	clear := func(p geom.Point) bool {
		if outline.Contains(p) || !blank.Contains(p) {
			return false
		}
		for _, e := range [][2]any{{blank[0], 12.0}, {outline[0], 12.0}, {crack, 15.0}} {
			for _, s := range e[0].(geom.Path) {
				if s.Closest(p).Dist(p) < e[1].(float64) {
					return false
				}
			}
		}
		return true
	}
	p, q := pins[0].At, pins[1].At
	if !clear(p) || !clear(q) || pins[0].D == pins[1].D {
		t.Errorf("pins %+v", pins)
	}
	best := math.Inf(1)
	for x := -210.0; x < 0; x += 10 {
		for y := -260.0; y <= 260; y += 10 {
			if !clear(geom.Pt(x, y)) {
				continue
			}
			for u := 10.0; u <= 210; u += 10 {
				for w := -260.0; w <= 260; w += 10 {
					a, b := geom.Pt(x, y), geom.Pt(u, w)
					if a.Dist(b) >= 250 && math.Abs(-x-u) >= 15 && math.Abs(y-w) >= 30 && clear(b) {
						best = math.Min(best, area(a, b))
					}
				}
			}
		}
	}
	if area(p, q) > best+1e-6 {
		t.Errorf("sheets of %g mm², brute force finds %g", area(p, q), best)
	}
}
