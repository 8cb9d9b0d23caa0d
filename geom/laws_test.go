package geom

import (
	"math"
	"math/rand"
	"strings"
	"testing"
)

// near reports an error unless got is want within slack.
func near(t *testing.T, what string, got, want, slack float64) {
	t.Helper()
	if !(math.Abs(got-want) <= slack) {
		t.Errorf("%s = %.9g, want %.9g ± %.2g", what, got, want, slack)
	}
}

// sound fails the test for an error of c or a region that is not sound.
func sound(t *testing.T, c *Calc, r Region) {
	t.Helper()
	if c.Err() != nil {
		t.Fatal(c.Err())
	}
	if err := r.Check(); err != nil {
		t.Fatal(err)
	}
}

// convex returns a random convex region: the points are on an ellipse, in order.
func convex(rng *rand.Rand) Region {
	n := 3 + rng.Intn(9)
	ps := make([]Point, n)
	for i := range ps {
		u := Angle(2 * math.Pi * (float64(i) + 0.8*rng.Float64()) / float64(n)).Unit()
		ps[i] = Pt(60*u.X, 35*u.Y)
	}
	return Region{Polygon(ps...)}
}

// Steiner's formula for the parallel body of a convex set K: area A + P·d + π·d²,
// perimeter P + 2π·d. From J. Steiner, "Über parallele Flächen", 1840, as given
// in any text on integral geometry.
func TestSteiner(t *testing.T) {
	rng := rand.New(rand.NewSource(*seed))
	for n := 0; n < 200; n++ {
		r, d := convex(rng), between(rng, 0.01, 80)
		var c Calc
		o := c.Offset(r, d, Round)
		sound(t, &c, o)
		near(t, "area", o.Area(), r.Area()+r.Perimeter()*d+math.Pi*d*d, 1e-6)
		near(t, "perimeter", o.Perimeter(), r.Perimeter()+2*math.Pi*d, 1e-8)
	}
}

func TestOffsetsAdd(t *testing.T) {
	rng := rand.New(rand.NewSource(*seed))
	for n := 0; n < 200; n++ {
		r, a, b := convex(rng), between(rng, 0.01, 30), between(rng, 0.01, 30)
		var c Calc
		once, twice := c.Offset(r, a+b, Round), c.Offset(c.Offset(r, a, Round), b, Round)
		sound(t, &c, twice)
		near(t, "area of the difference", c.Xor(once, twice).Area(), 0, 1e-5*once.Perimeter())
		// Shrinking back gives the convex shape again.
		near(t, "area there and back", c.Xor(c.Offset(once, -a-b, Round), r).Area(), 0, 1e-5*r.Perimeter())
	}
}

// Erosion undoes dilation on a shape whose hollows are all wider than the
// distance, and the first variation of area is the perimeter.
func TestRegularShape(t *testing.T) {
	r := Region{bodyArcs(100)}
	for _, d := range []float64{0.5, 2, 8} {
		var c Calc
		o := c.Offset(c.Offset(r, d, Round), -d, Round)
		sound(t, &c, o)
		near(t, "area of the difference", c.Xor(o, r).Area(), 0, 2e-5*r.Perimeter())
		o = c.Offset(c.Offset(r, -d, Round), d, Round)
		near(t, "area of the difference", c.Xor(o, r).Area(), 0, 2e-5*r.Perimeter())
	}
	var c Calc
	const d = 1e-3
	grown := c.Offset(r, d, Round).Area() - r.Area()
	near(t, "area gained", grown, r.Perimeter()*d+math.Pi*d*d, 1e-7)
}

func TestUnionInOnePass(t *testing.T) {
	rng := rand.New(rand.NewSource(*seed))
	for n := 0; n < 40; n++ {
		var rs []Region
		var one Region
		var c Calc
		for i := 0; i < 12; i++ {
			p := Pose(Pt(between(rng, 0, 100), between(rng, 0, 100)), Angle(rng.Intn(4))).Path(RoundedRect(Pt(0, 0), 30, 20, 4))
			rs = append(rs, Region{p})
			one = c.Union(one, Region{p})
		}
		all := c.Union(rs...)
		sound(t, &c, all)
		near(t, "area of the difference", c.Xor(all, one).Area(), 0, 1e-4)
	}
}

// A neck of a width of exactly two distances, or up to Coincident more, does not
// survive; one clearly wider does.
func TestNeckOfExactlyOneCutter(t *testing.T) {
	rng := rand.New(rand.NewSource(*seed))
	for _, tt := range []struct {
		more  float64
		loops int
	}{{-1e-3, 2}, {-1e-9, 2}, {0, 2}, {1e-12, 2}, {1e-9, 2}, {5e-7, 2}, {1e-5, 1}, {1e-3, 1}} {
		for n := 0; n < 20; n++ {
			d := between(rng, 1, 6)
			var c Calc
			o := c.Offset(dumbbell(rng, 2*d+tt.more), -d, Round)
			sound(t, &c, o)
			if len(o) != tt.loops {
				t.Errorf("neck 2d%+g: %d loops, want %d", tt.more, len(o), tt.loops)
			}
		}
	}
}

func TestOffsetPath(t *testing.T) {
	var c Calc
	slot := c.OffsetPath(Polyline(Pt(0, 0), Pt(50, 0)), 3)
	sound(t, &c, slot)
	near(t, "area of a slot", slot.Area(), 300+math.Pi*9, 1e-9)

	arc := Path{ArcSweep(Pt(0, 0), 20, 0, 2)}
	slot = c.OffsetPath(arc, 3)
	sound(t, &c, slot)
	near(t, "area of a curved slot", slot.Area(), 2*20*6+math.Pi*9, 1e-9)

	ring := c.OffsetPath(Circle(Pt(0, 0), 20), 3)
	sound(t, &c, ring)
	near(t, "area of a ring", ring.Area(), math.Pi*(23*23-17*17), 1e-9)
	ring = c.OffsetPath(Circle(Pt(0, 0), 20).Reversed(), 3)
	near(t, "area of a ring travelled clockwise", ring.Area(), math.Pi*(23*23-17*17), 1e-9)
	disc := c.OffsetPath(Circle(Pt(0, 0), 2), 3)
	sound(t, &c, disc)
	near(t, "area of a ring without a hole", disc.Area(), math.Pi*25, 1e-9)

	if r := c.OffsetPath(arc, 0); r != nil {
		t.Error("a path grown by nothing is not empty")
	}
	dot := c.OffsetPath(Path{Line(Pt(1, 1), Pt(1, 1))}, 3)
	sound(t, &c, dot)
	near(t, "area of a plunge", dot.Area(), 9*math.Pi, 1e-9)
}

func TestOffsetPathRandom(t *testing.T) {
	rng := rand.New(rand.NewSource(*seed))
	for n := 0; n < 300; n++ {
		own := rng.Int63()
		rng := rand.New(rand.NewSource(own))
		var p Path
		at := Pt(0, 0)
		for i := 0; i < 1+rng.Intn(8); i++ {
			to := Pt(between(rng, -50, 50), between(rng, -50, 50))
			p = append(p, ArcBulge(at, to, float64(rng.Intn(2))*between(rng, -1.5, 1.5)))
			at = to
		}
		tr, k := pose(rng)
		p, d := tr.Path(p), k*between(rng, 0.1, 20)
		var c Calc
		o := c.OffsetPath(p, d)
		if c.Err() != nil {
			t.Errorf("case %d: %v", own, c.Err())
			continue
		}
		if err := o.Check(); err != nil {
			t.Errorf("case %d: %v", own, err)
		}
		for _, q := range probes(rng, 24, Region{p}, o) {
			dist := math.Inf(1)
			for _, s := range p {
				dist = math.Min(dist, s.Closest(q).Dist(q))
			}
			if math.Abs(dist-d) < margin {
				continue
			}
			if _, in := depth(o, q); in != (dist < d) {
				t.Errorf("case %d: %v lies %.6f from a path grown by %.6f, inside = %v", own, q, dist, d, in)
				break
			}
		}
	}
}

func TestMitre(t *testing.T) {
	var c Calc
	o := c.Offset(Region{Rect(Pt(0, 0), 40, 20)}, 3, Mitre)
	sound(t, &c, o)
	near(t, "area", o.Area(), 46*26, 1e-9)
	if o.Segs() != 4 {
		t.Errorf("%d segments, want 4", o.Segs())
	}
	// A hole's corners point inward when it shrinks, so it stays sharp too.
	ring := Region{Rect(Pt(0, 0), 80, 60), Rect(Pt(0, 0), 40, 20).Reversed()}
	o = c.Offset(ring, 3, Mitre)
	sound(t, &c, o)
	near(t, "area", o.Area(), 86*66-34*14, 1e-9)
	o = c.Offset(ring, -3, Mitre)
	sound(t, &c, o)
	near(t, "area", o.Area(), 74*54-46*26, 1e-9)
	// A point too sharp for the limit is rounded.
	spike := Region{Polygon(Pt(0, 0), Pt(100, 0), Pt(0, 10))}
	o = c.Offset(spike, 1, Mitre)
	sound(t, &c, o)
	if b := o.Bounds(); b.Max.X > 101+1e-9 {
		t.Errorf("the point reaches x = %g", b.Max.X)
	}
}

// Trivial and unsound input gives an empty region or an error, never a panic.
func TestOddInput(t *testing.T) {
	sq := Region{Rect(Pt(0, 0), 10, 10)}
	nan := Region{Polygon(Pt(0, 0), Pt(math.NaN(), 0), Pt(0, 10))}
	open := Region{Polyline(Pt(0, 0), Pt(10, 0), Pt(10, 10))}
	dot := Region{Path{Line(Pt(3, 3), Pt(3, 3))}}
	twice := Region{Polygon(Pt(0, 0), Pt(0, 0), Pt(10, 0), Pt(10, 10), Pt(10, 10))}
	for _, tt := range []struct {
		name string
		r    Region
		want string
	}{
		{"nan", nan, "loop 0: vertex 0: a coordinate is not a finite number"},
		{"open", open, "loop 0: vertex 1: the path is open"},
	} {
		var c Calc
		if c.Offset(tt.r, 1, Round); c.Err() == nil || !strings.Contains(c.Err().Error(), tt.want) {
			t.Errorf("%s: error %v, want %q", tt.name, c.Err(), tt.want)
		}
		if c.Union(sq) != nil {
			t.Errorf("%s: the error did not stick", tt.name)
		}
	}
	var c Calc
	for _, r := range []Region{nil, {}, {nil}, dot} {
		for _, d := range []float64{-1, 1} {
			if o := c.Offset(r, d, Round); o.Area() > math.Pi+1e-9 {
				t.Errorf("%v grown by %g: %v", r, d, o)
			}
		}
		if got := c.Union(sq, r).Area(); got != 100 {
			t.Errorf("union with nothing has area %g", got)
		}
		if got := c.Intersect(sq, r).Area(); got != 0 {
			t.Errorf("intersection with nothing has area %g", got)
		}
	}
	near(t, "double vertices", c.Offset(twice, 1, Round).Area(), 50+20+10*math.Sqrt2+math.Pi, 1e-9)
	near(t, "double vertices", c.Offset(twice, -1, Round).Area(), 50*math.Pow(1-1/(10-5*math.Sqrt2), 2), 1e-9)
	if c.Intersect() != nil || c.Union() != nil || c.Subtract(nil) != nil {
		t.Error("an operation on nothing is not empty")
	}
	if c.Err() != nil {
		t.Error(c.Err())
	}
	c = Calc{}
	if c.Offset(sq, math.NaN(), Round); c.Err() == nil {
		t.Error("a distance that is no number is accepted")
	}
}

func TestCheckRefuses(t *testing.T) {
	for _, tt := range []struct {
		name string
		r    Region
		want string
	}{
		{"clockwise", Region{Rect(Pt(0, 0), 10, 10).Reversed()}, "loop 0"},
		{"figure of eight", Region{Polygon(Pt(0, 0), Pt(10, 10), Pt(10, 0), Pt(0, 10))}, "loop 0"},
		{"crossing loops", Region{Rect(Pt(0, 0), 10, 10), Rect(Pt(5, 5), 10, 10)}, "crosses"},
		{"twice", Region{Rect(Pt(0, 0), 10, 10), Rect(Pt(0, 0), 10, 10)}, "runs together"},
		{"solid in solid", Region{Rect(Pt(0, 0), 10, 10), Rect(Pt(0, 0), 5, 5)}, "loop 1"},
		{"shared wall", Region{Rect(Pt(0, 0), 10, 10), Rect(Pt(10, 0), 10, 10)}, "runs together"},
		{"hole alone", Region{Rect(Pt(0, 0), 10, 10), Circle(Pt(20, 0), 3).Reversed()}, "loop 1"},
	} {
		if err := tt.r.Check(); err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: %v, want %q", tt.name, err, tt.want)
		}
	}
	for _, r := range []Region{
		nil,
		{Rect(Pt(0, 0), 10, 10), Rect(Pt(0, 0), 5, 5).Reversed()},
		{Rect(Pt(0, 0), 10, 10), Rect(Pt(10, 10), 10, 10)}, // touching at a corner
		{Circle(Pt(0, 0), 10), Circle(Pt(20, 0), 10)},      // tangent
	} {
		if err := r.Check(); err != nil {
			t.Error(err)
		}
	}
}
