package geom

import (
	"fmt"
	"math"
	"testing"
)

// What a disc leaves in a corner, by the closed forms of the fillet (the same
// as in the reference file), for every angle.
func TestResidueOfOneCorner(t *testing.T) {
	for _, deg := range []float64{5, 20, 45, 60, 75, 90, 110, 120, 150, 170, 178} {
		for _, r := range []float64{0.4, 3, 6.35} {
			th := deg * math.Pi / 180
			tan := r / math.Tan(th/2)
			depth := r * (1/math.Sin(th/2) - 1)
			area := r * r * (1/math.Tan(th/2) - (math.Pi-th)/2)
			// A kite: the corner, two sides of 3 tangents, far end rounded by a
			// disc so that only this corner holds anything back.
			l := 3*tan + 2*r
			a, b := Pt(l, 0), Pt(0, 0).Add(Angle(th).Unit().Mul(l))
			big := l * math.Tan(th/2)
			m := Pt(0, 0).Add(Angle(th / 2).Unit().Mul(l / math.Cos(th/2)))
			if big <= r {
				continue
			}
			p := Path{Line(Pt(0, 0), a), ArcAbout(m, a, b, 1), Line(b, Pt(0, 0))}
			for _, s := range reachPoses()[:6] {
				var c Calc
				nooks := c.Residue(s.of(Region{p}), r)
				what := fmt.Sprintf("corner of %g°, radius %g, %s", deg, r, s.name)
				if c.Err() != nil || len(nooks) != 1 {
					t.Errorf("%s: %d nooks, error %v", what, len(nooks), c.Err())
					continue
				}
				n := nooks[0]
				sameLength(t, what+": depth", n.Depth, depth, 1e-7*(1+depth))
				sameLength(t, what+": area", n.Area, area, 1e-6*(1+2*tan))
				sameLength(t, what+": tangent before", n.Tangents[0], tan, 2e-6*(1+tan))
				sameLength(t, what+": tangent after", n.Tangents[1], tan, 2e-6*(1+tan))
				sameLength(t, what+": corner", n.Corner.Dist(s.t.Point(Pt(0, 0))), 0, 1e-6)
			}
		}
	}
}

func TestResidueOfTightArc(t *testing.T) {
	// A slot end of radius 4 cleared with 5 … nothing fits; corners of radius 4
	// in a rectangle cleared with 5 leave depth (5 − 4)·(√2 − 1).
	r := Region{RoundedRect(Pt(0, 0), 60, 40, 4)}
	var c Calc
	nooks := c.Residue(r, 5)
	if c.Err() != nil || len(nooks) != 4 {
		t.Fatalf("%d nooks, error %v", len(nooks), c.Err())
	}
	for _, n := range nooks {
		sameLength(t, "depth", n.Depth, math.Sqrt2-1, 1e-7)
		sameLength(t, "area", n.Area, (1-math.Pi/4)*(25-16), 1e-5)
		if n.Plain() {
			t.Errorf("a rounded corner has no tangent lengths, got %v", n.Tangents)
		}
	}
	if n := c.Residue(Region{Stadium(Pt(0, 0), Pt(30, 0), 4)}, 5); len(n) != 1 || !math.IsInf(n[0].Depth, 1) {
		t.Errorf("a slot that no disc fits is left whole: %v", n)
	}
	if n := c.Residue(r, 4-1e-4); len(n) != 0 {
		t.Errorf("a disc smaller than every corner leaves nothing: %v", n)
	}
	if n := c.Residue(r, 4); len(n) != 0 {
		t.Errorf("a disc as small as every corner leaves nothing: %v", n)
	}
	if n := c.Residue(nil, 4); c.Err() != nil || len(n) != 0 {
		t.Errorf("nothing leaves nothing: %v, %v", n, c.Err())
	}
}

// What is left between two cleared chambers is deepest in the middle of the
// neck's walls, not at a vertex.
func TestResidueOfNeck(t *testing.T) {
	bell := Region{Polygon(
		Pt(-40, -20), Pt(-10, -20), Pt(-10, -3), Pt(10, -3), Pt(10, -20), Pt(40, -20),
		Pt(40, 20), Pt(10, 20), Pt(10, 3), Pt(-10, 3), Pt(-10, 20), Pt(-40, 20))}
	for _, s := range reachPoses()[:6] {
		var c Calc
		nooks := c.Residue(s.of(bell), 5)
		if c.Err() != nil || len(nooks) != 9 {
			t.Fatalf("%s: %d nooks, error %v", s.name, len(nooks), c.Err())
		}
		// The disc rests on the corners (10, ±3), its centre at 10 + √(5² − 3²) = 14.
		want := math.Hypot(14, 3) - 5
		sameLength(t, s.name+": depth", nooks[0].Depth, want, 1e-7)
		if nooks[0].Plain() {
			t.Errorf("%s: a neck is no plain corner", s.name)
		}
	}
}

// The stated rule for a width of exactly one disc: passable.
func TestOpenOfExactWidth(t *testing.T) {
	bell := Region{Polygon(
		Pt(-40, -20), Pt(-10, -20), Pt(-10, -5), Pt(10, -5), Pt(10, -20), Pt(40, -20),
		Pt(40, 20), Pt(10, 20), Pt(10, 5), Pt(-10, 5), Pt(-10, 20), Pt(-40, 20))}
	for _, s := range reachPoses()[:6] {
		for _, tt := range []struct {
			radius float64
			pieces int
		}{{5, 1}, {5 + RollSlack/2, 1}, {5 - RollSlack, 1}, {5 + 2*RollSlack, 2}, {4, 1}} {
			var c Calc
			o := c.Open(s.of(bell), tt.radius)
			if n := len(o.Components()); c.Err() != nil || n != tt.pieces {
				t.Errorf("%s: a neck of 10 opened by %.9g is in %d pieces, want %d (%v)", s.name, tt.radius, n, tt.pieces, c.Err())
			}
			if tt.radius == 5 { // all is cleared but the eight corners of the chambers
				sameLength(t, s.name+": area", bell[0].Area()-o.Area(), 8*(1-math.Pi/4)*25, 1e-3)
			}
		}
	}
}

// A slot as wide as its cutter is cleared, and what is as wide as the guide is
// followed, whatever the cutter: (r shrunk by guide) grown by cut.
func TestRollOfExactWidth(t *testing.T) {
	slot := Region{Stadium(Pt(0, 0), Pt(60, 0), 3.175)}
	gap := Region{Rect(Pt(0, 0), 40, 30), Rect(Pt(47, 0), 40, 30)} // 7 mm between
	for _, s := range reachPoses()[:6] {
		var c Calc
		for _, cut := range []float64{3.175, 2, 6} {
			want := math.Pi*cut*cut + 60*2*cut
			sameLength(t, s.name+": slot", c.RollInside(s.of(slot), 3.175, cut).Area(), want, 1e-3)
		}
		if n := c.Residue(s.of(slot), 3.175); len(n) != 0 {
			t.Errorf("%s: a cutter of the slot's width leaves %v", s.name, n)
		}
		sameLength(t, s.name+": gap", c.Close(s.of(gap), 3.5).Area(), 2400, 1e-3)
		sameLength(t, s.name+": narrow gap", c.Close(s.of(gap), 3.5001).Area(), 2400+7*30-2*fillBetween(3.5001, 7), 1e-3)
		sameLength(t, s.name+": male", c.RollOutside(s.of(gap), 3.5, 3).Area(), 2*(40.0*30+0.5*140+math.Pi/4), 1e-3)
		if c.Err() != nil {
			t.Error(c.Err())
		}
	}
	var c Calc
	r := Region{Rect(Pt(0, 0), 30, 20)}
	sameLength(t, "no radii", c.RollInside(r, 0, -1).Area(), 600, 0)
	sameLength(t, "guide only", c.RollInside(r, 4, 0).Area(), 22*12, 1e-9)
	sameLength(t, "cutter only", c.RollOutside(r, 0, 4).Area(), 22*12, 1e-9)
}

// fillBetween is the area that a disc of radius r dips into a gap of width w
// narrower than itself: a circular segment.
func fillBetween(r, w float64) float64 {
	th := 2 * math.Asin(w/2/r)
	return r * r / 2 * (th - math.Sin(th))
}

// Opening lies inside, is idempotent and grows as the disc shrinks; closing the
// other way round.
func TestOpenAndCloseLaws(t *testing.T) {
	rng := seeded(t, 61)
	for i := range 150 {
		r := Region{starOf(rng, Pt(0, 0), 30, 4+rng.IntN(20))}
		if i%3 == 0 {
			r = Region{roundStar(rng, 4+rng.IntN(8))}
		}
		if r.Check() != nil {
			continue
		}
		radius := 0.5 + 6*rng.Float64()
		var c Calc
		o, l := c.Open(r, radius), c.Close(r, radius)
		oo, ll := c.Open(o, radius), c.Close(l, radius)
		if c.Err() != nil {
			t.Errorf("%s: %v", label(i, "open"), c.Err())
			continue
		}
		slack := 4e-6 * (1 + r.Perimeter())
		sameLength(t, label(i, "opened twice"), oo.Area(), o.Area(), slack)
		sameLength(t, label(i, "closed twice"), ll.Area(), l.Area(), slack)
		sameLength(t, label(i, "opening outside"), c.Subtract(o, r).Area(), 0, slack)
		sameLength(t, label(i, "closing inside"), c.Subtract(r, l).Area(), 0, slack)
		if s := c.Open(r, radius/2); c.Subtract(o, s).Area() > slack {
			t.Errorf("%s: the smaller disc clears less", label(i, "open"))
		}
		var sum float64
		for _, n := range c.Residue(r, radius) {
			sum += n.Area
		}
		sameLength(t, label(i, "residue"), sum, r.Area()-o.Area(), slack)
		if c.Err() != nil {
			t.Errorf("%s: %v", label(i, "laws"), c.Err())
		}
	}
}

// A point is cleared exactly if some disc inside holds it: against the distance
// field on a dense grid.
func TestOpenAgainstGrid(t *testing.T) {
	rng := seeded(t, 71)
	const step = 0.25
	for i := range 8 {
		r := Region{starOf(rng, Pt(0, 0), 12, 5+rng.IntN(12))}
		if r.Check() != nil {
			continue
		}
		radius := 1.5 + 2*rng.Float64()
		var c Calc
		open := IndexOf(c.Open(r, radius))
		idx := IndexOf(r)
		var centres []Point
		for x := -20.0; x <= 20; x += step {
			for y := -20.0; y <= 20; y += step {
				if p := Pt(x, y); idx.Contains(p) {
					if _, d := idx.Closest(p); d >= radius {
						centres = append(centres, p)
					}
				}
			}
		}
		for x := -20.0; x <= 20; x += 3 * step {
			for y := -20.0; y <= 20; y += 3 * step {
				p := Pt(x+0.1, y+0.07)
				near := math.Inf(1)
				for _, q := range centres {
					near = math.Min(near, p.Dist(q))
				}
				_, edge := open.Closest(p)
				in := open.Contains(p)
				// Every centre of the grid is a true one; a true one may lie a
				// grid cell away from the nearest of them, or in a neck further.
				if near < radius-1e-5 && !in && edge > 1e-5 {
					t.Fatalf("case %d: %v is covered by a disc but not in the opening", i, p)
				}
				if in && edge > 1e-5 && near > radius+1 {
					t.Fatalf("case %d: %v is in the opening, the nearest disc %g off", i, p, near-radius)
				}
			}
		}
	}
}

func BenchmarkOpen266Arcs(b *testing.B) {
	r := Region{outlineOf(Pt(0, 0), 200, 0.1, 266)}
	var c Calc
	b.ReportAllocs()
	for b.Loop() {
		c.Open(r, 6.35)
	}
}

func BenchmarkResiduePocket(b *testing.B) {
	r := Region{Rect(Pt(0, 0), 92, 40)}
	var c Calc
	b.ReportAllocs()
	for b.Loop() {
		c.Residue(r, 6.35)
	}
}
