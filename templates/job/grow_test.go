package job

import (
	"math"
	"math/rand"
	"testing"

	"github.com/google/go-cmp/cmp"

	"routwright/geom"
)

// Two round rooms of radius R at a distance d, joined by discs of radius ρ that
// touch both: a disc's middle stands h = √((R+ρ)² − d²/4) off the line between
// them, the neck is 2(h − ρ) wide. The smallest ρ for a neck n is in closed form
// (d²/4 + n²/4 − R²)/(2R − n).
func TestGrowTwoRounds(t *testing.T) {
	for _, tt := range []struct{ R, d, neck, hollow float64 }{
		{17.5, 50, 13.2, 8}, {17.5, 100, 13.2, 8}, {12, 60, 8, 8}, {15, 180, 10, 8}, {17.5, 36, 13.2, 8}, {17.5, 20, 8, 8},
	} {
		want := math.Max(tt.hollow, (tt.d*tt.d/4+tt.neck*tt.neck/4-tt.R*tt.R)/(2*tt.R-tt.neck))
		var c geom.Calc
		r, radius, ok := grow(&c, []geom.Region{{geom.Circle(geom.Pt(0, 0), tt.R)}, {geom.Circle(geom.Pt(tt.d, 0), tt.R)}}, tt.hollow, tt.neck)
		if !ok || c.Err() != nil {
			t.Fatalf("%+v: %v", tt, c.Err())
		}
		if radius < want-1e-6 || radius > want+growStep+1e-6 {
			t.Errorf("%+v: joined by %.2f, want %.3f to %.3f", tt, radius, want, want+growStep)
		}
		if len(r) != 1 {
			t.Errorf("%+v: %d loops", tt, len(r))
		}
	}
}

// Whatever stands in a cavity: it is one piece without islands, keeps the wall
// from every body, a round cutter of the corner's radius clears it wholly, its
// hollows are no tighter than asked, and the next smaller disc would not do.
func TestGrowRandom(t *testing.T) {
	rnd := rand.New(rand.NewSource(7))
	for n := 0; n < 60; n++ {
		wall, corner := 2+6*rnd.Float64(), 3.2+5*rnd.Float64()
		neck := math.Max(2*corner+overTheCutter, wireRoom)
		hollow := corner + 4*rnd.Float64()
		var cs []control
		for i := 0; i < 1+rnd.Intn(5); i++ {
			c := control{body: 10 + 20*rnd.Float64()}
			c.At = geom.Pt(120*rnd.Float64(), 100*rnd.Float64())
			c.place = geom.Pose(c.At, geom.Angle(2*math.Pi*rnd.Float64()))
			c.Body = geom.Region{geom.Circle(c.At, c.body/2)}
			if rnd.Intn(2) == 0 {
				c.body, c.l, c.w = 0, 15+40*rnd.Float64(), 8+20*rnd.Float64()
				c.Body = geom.Region{c.place.Path(geom.RoundedRect(geom.Pt(0, 0), c.l, c.w, boxCorner))}
			}
			cs = append(cs, c)
		}
		var c geom.Calc
		room := rooms(cs, wall, corner, neck)
		r, radius, ok := grow(&c, room, hollow, neck)
		if !ok || c.Err() != nil {
			t.Fatalf("%d: %v", n, c.Err())
		}
		if len(r) != 1 {
			t.Errorf("%d: %d loops", n, len(r))
		}
		for i, e := range cs {
			if out := c.Subtract(e.Body, r); out.Area() > 0 {
				t.Fatalf("%d: body %d stands outside", n, i)
			}
			for _, p := range e.Body {
				if d, _, _ := geom.PathDistance(p, r[0]); d < wall-1e-5 {
					t.Errorf("%d: body %d has %.4f of room, want %.4f", n, i, d, wall)
				}
			}
		}
		if left := c.Subtract(r, c.Open(r, corner)).Area(); left > geom.Budget {
			t.Errorf("%d: a cutter of radius %.2f leaves %.4f mm²", n, corner, left)
		}
		if _, out := geom.TightestRadius(r); out.Radius < hollow-1e-4 {
			t.Errorf("%d: a hollow of radius %.3f, want %.3f", n, out.Radius, hollow)
		}
		if less := radius - growStep; less >= hollow {
			small := solid(c.Close(c.Union(room...), less))
			if len(c.Offset(small, -neck/2, geom.Round).Components()) == 1 {
				t.Errorf("%d: %.1f would do, %.1f was taken", n, less, radius)
			}
		}
		var again geom.Calc
		if s, _, _ := grow(&again, rooms(cs, wall, corner, neck), hollow, neck); !cmp.Equal(r, s) {
			t.Errorf("%d: another outline the second time", n)
		}
	}
}

// Places are taken evenly where all are free, and kept off those that are not.
func TestSpread(t *testing.T) {
	ring := along(geom.Circle(geom.Pt(0, 0), 50))
	if len(ring) != 315 { // 2π · 50, a place every millimetre
		t.Fatalf("%d places", len(ring))
	}
	free := make([]bool, len(ring))
	for i := range free {
		free[i] = true
	}
	for n := 2; n < 9; n++ {
		got := spread(ring, free, n)
		if len(got) != n {
			t.Fatalf("%d of %d places", len(got), n)
		}
		for i, p := range got {
			want := 2 * 50 * math.Sin(math.Pi/float64(n))
			if d := p.Dist(got[(i+1)%n]); math.Abs(d-want) > 2 {
				t.Errorf("%d places: %.2f apart, want %.2f", n, d, want)
			}
		}
	}
	for i := range free {
		free[i] = ring[i].X < 20
	}
	for _, p := range spread(ring, free, 4) {
		if p.X >= 20 {
			t.Errorf("a screw at %v", p)
		}
	}
	for i := range free {
		free[i] = ring[i].X < -20
	}
	if got := spread(ring, free, 3); got != nil {
		t.Errorf("three screws on one side: %v", got)
	}
}

// A box room keeps its wall at the corners and its own corners cuttable.
func TestBoxRoom(t *testing.T) {
	place := geom.Pose(geom.Pt(3, 4), 0.3)
	for _, tt := range []struct{ l, w, wall, corner, least float64 }{
		{34, 20, 5, 8, 6.6}, {34, 20, 5, 3, 4}, {60, 6, 1, 8, 8.25}, {20, 20, 9, 9, 9.25}, {12, 12, 0.5, 9, 9.25},
	} {
		body := place.Path(geom.RoundedRect(geom.Pt(0, 0), tt.l, tt.w, boxCorner))
		r := boxRoom(place, tt.l, tt.w, boxCorner, tt.wall, tt.corner, tt.least)
		if d, _, _ := geom.PathDistance(body, r[0]); d < tt.wall-1e-9 {
			t.Errorf("%+v: room of %.4f", tt, d)
		}
		if in, _ := geom.TightestRadius(r); in.Radius < tt.corner-1e-9 {
			t.Errorf("%+v: corner of %.4f", tt, in.Radius)
		}
		if w := geom.InscribedCircle(r).Radius; w < tt.least-1e-6 {
			t.Errorf("%+v: half width %.4f", tt, w)
		}
	}
}
