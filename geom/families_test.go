package geom

import (
	"flag"
	"fmt"
	"math"
	"math/rand"
	"testing"
)

var (
	cases = flag.Int("cases", 300, "cases of each family of shapes")
	seed  = flag.Int64("seed", 7, "seed of the families")
)

// between returns a number in [lo, hi).
func between(rng *rand.Rand, lo, hi float64) float64 { return lo + (hi-lo)*rng.Float64() }

// tiny returns a length of either sign, each decade from 1e-12 to 1e-3 as likely,
// and now and then 0.
func tiny(rng *rand.Rand) float64 {
	if rng.Intn(8) == 0 {
		return 0
	}
	return math.Copysign(math.Pow(10, between(rng, -12, -3)), rng.Float64()-0.5)
}

// pose returns a random similarity of the kind that shapes must survive.
func pose(rng *rand.Rand) (Transform, float64) {
	k := math.Pow(10, between(rng, -2, 1.3)) // the largest come to 2 m
	switch rng.Intn(4) {
	case 0:
		k = 1
	case 1:
		return Translate(Vec{between(rng, -1000, 1000), between(rng, -1000, 1000)}), 1
	}
	t := Scale(k)
	if rng.Intn(2) == 0 {
		t = t.Then(MirrorX())
	}
	if rng.Intn(3) > 0 {
		t = t.Then(Rotate(Angle(between(rng, 0, 7))))
	}
	return t.Then(Translate(Vec{between(rng, -1000, 1000), between(rng, -1000, 1000)})), k
}

// posed returns r moved by t, with every loop started at a random vertex.
func posed(rng *rand.Rand, t Transform, r Region) Region {
	r = t.Region(r)
	for i, p := range r {
		r[i] = p.From(rng.Intn(len(p)))
	}
	return r
}

// starRegion returns a star of n points, its corners filleted.
func starRegion(rng *rand.Rand) Region {
	n := 2 * (3 + rng.Intn(6))
	ps := make([]Point, n)
	in := between(rng, 15, 45)
	for i := range ps {
		r := 50.0
		if i%2 == 1 {
			r = in
		}
		ps[i] = Pt(0, 0).Add(Angle(2 * math.Pi * float64(i) / float64(n)).Unit().Mul(r))
	}
	p := Polygon(ps...)
	q, err := p.FilletAll(between(rng, 0.5, 4))
	if err != nil {
		q = p
	}
	return Region{q}
}

// dumbbell returns two squares or discs joined by a neck of the given width.
func dumbbell(rng *rand.Rand, width float64) Region {
	h, l := width/2, between(rng, 5, 30)
	if rng.Intn(2) == 0 {
		return Region{Polygon(Pt(-l-30, -15), Pt(-l, -15), Pt(-l, -h), Pt(l, -h), Pt(l, -15), Pt(l+30, -15),
			Pt(l+30, 15), Pt(l, 15), Pt(l, h), Pt(-l, h), Pt(-l, 15), Pt(-l-30, 15))}
	}
	const r = 15.0
	x := math.Sqrt(r*r - h*h)
	cl, cr := Pt(-l-x, 0), Pt(l+x, 0)
	a, b, c, d := Pt(-l, -h), Pt(l, -h), Pt(l, h), Pt(-l, h)
	half := func(o, from, to Point) []Seg {
		m := o.Add(o.Sub(from.Lerp(to, 0.5)).Unit().Mul(r))
		return []Seg{ArcAbout(o, from, m, 1), ArcAbout(o, m, to, 1)}
	}
	p := Path{Line(a, b)}
	p = append(p, half(cr, b, c)...)
	p = append(p, Line(c, d))
	p = append(p, half(cl, d, a)...)
	return Region{p}
}

// comb returns a block with slots of the given width, square or round ended.
func comb(rng *rand.Rand, width float64) Region {
	n := 2 + rng.Intn(5)
	pitch := width + between(rng, 1, 12)
	depth := between(rng, 4, 40)
	round := rng.Intn(2) == 0
	var p Path
	at := Pt(0, 0)
	to := func(x, y float64) { q := Pt(x, y); p = append(p, Line(at, q)); at = q }
	l := float64(n)*pitch + pitch - width
	to(l, 0)
	to(l, 60)
	for i := n - 1; i >= 0; i-- {
		x := float64(i)*pitch + pitch - width
		to(x+width, 60)
		to(x+width, 60-depth)
		if round {
			q := Pt(x, 60-depth)
			p = append(p, ArcAbout(Pt(x+width/2, 60-depth), at, q, -1))
			at = q
		} else {
			to(x, 60-depth)
		}
		to(x, 60)
	}
	to(0, 60)
	to(0, 0)
	return Region{p}
}

// jittered returns r with extra vertices at tiny distances from others.
func jittered(rng *rand.Rand, r Region) Region {
	var out Region
	for _, p := range r {
		var q Path
		for _, s := range p {
			if e := math.Abs(tiny(rng)); e > 2e-6 && s.Length() > 1 && rng.Intn(2) == 0 {
				u, v := s.Split(e / s.Length())
				q = append(q, u, v)
				continue
			}
			q = append(q, s)
		}
		out = append(out, q)
	}
	return out
}

type offsetFamily struct {
	name string
	make func(rng *rand.Rand) (Region, float64)
}

type booleanFamily struct {
	name string
	make func(rng *rand.Rand) (Region, Region)
}

// The oracles go through all segments for each probe, so of the families with many
// there are fewer cases.
func (f offsetFamily) share() int  { return share(f.name) }
func (f booleanFamily) share() int { return share(f.name) }

func share(name string) int {
	switch name {
	case "dense", "noise", "body":
		return 4
	}
	return 1
}

// starts returns from how many vertices a case is started: from every one of small
// loops, from three of large ones.
func starts(rs ...Region) int {
	n := 0
	for _, r := range rs {
		for _, p := range r {
			n = max(n, len(p))
		}
	}
	if n > 40 {
		return 3
	}
	return n
}

// fromVertex returns r with every loop started k vertices on, or sevens of them
// where loops are large.
func fromVertex(r Region, k int) Region {
	out := make(Region, len(r))
	for i, p := range r {
		if len(p) > 40 {
			k = len(p) / 7 * (1 + 2*k)
		}
		out[i] = p.From(k % len(p))
	}
	return out
}

// same returns an error unless o is as sound as want and has its area.
func same(c *Calc, o, want Region) error {
	if c.Err() != nil {
		return c.Err()
	}
	if err := o.Check(); err != nil {
		return err
	}
	if e := math.Abs(o.Area() - want.Area()); e > 5e-6*(o.Perimeter()+want.Perimeter()+1) {
		return fmt.Errorf("started from another vertex the area is off by %g mm²", e)
	}
	return nil
}

// offsetFamilies make a region and a distance.
var offsetFamilies = []offsetFamily{
	{"stars", func(rng *rand.Rand) (Region, float64) { return starRegion(rng), between(rng, -20, 20) }},
	{"bulges", func(rng *rand.Rand) (Region, float64) {
		return Region{randomLoop(rng, Pt(0, 0), 50)}, between(rng, -20, 15)
	}},
	{"dumb-bell", func(rng *rand.Rand) (Region, float64) {
		d := between(rng, 0.5, 6)
		return dumbbell(rng, 2*d+tiny(rng)), -d
	}},
	{"comb", func(rng *rand.Rand) (Region, float64) {
		d := between(rng, 0.5, 6)
		return comb(rng, 2*d+tiny(rng)), d
	}},
	{"circle", func(rng *rand.Rand) (Region, float64) {
		r := between(rng, 0.1, 100)
		c := Circle(Pt(0, 0), r)
		if rng.Intn(2) == 0 {
			return Region{c}, -r + tiny(rng)
		}
		return Region{Rect(Pt(0, 0), 3*r, 3*r), c.Reversed()}, r + tiny(rng)
	}},
	{"radius", func(rng *rand.Rand) (Region, float64) {
		d := between(rng, 0.5, 8)
		return Region{RoundedRect(Pt(0, 0), between(rng, 2*d+1, 90), between(rng, 2*d+1, 60), d+tiny(rng))}, -d
	}},
	{"slot", func(rng *rand.Rand) (Region, float64) {
		d := between(rng, 0.5, 8)
		return Region{Stadium(Pt(0, 0), Pt(between(rng, 1, 50), 0), d+tiny(rng))}, -d
	}},
	{"near", func(rng *rand.Rand) (Region, float64) {
		return jittered(rng, Region{randomLoop(rng, Pt(0, 0), 50)}), between(rng, -15, 15)
	}},
	{"holes", func(rng *rand.Rand) (Region, float64) {
		// Two holes whose wall is twice the distance, almost.
		d, r, s := between(rng, 0.5, 5), between(rng, 1, 15), between(rng, 1, 15)
		l := r + s + 2*d + tiny(rng)
		return Region{Rect(Pt(0, 0), 120, 90), Circle(Pt(-l/2, 0), r).Reversed(), Circle(Pt(l/2, 0), s).Reversed()}, -d
	}},
	{"dense", func(rng *rand.Rand) (Region, float64) {
		return Region{bodyLoop(60 + rng.Intn(300))}, between(rng, -110, 90)
	}},
	{"body", func(rng *rand.Rand) (Region, float64) {
		return Region{bodyArcs(60 + rng.Intn(100))}, between(rng, -110, 90)
	}},
	{"noise", func(rng *rand.Rand) (Region, float64) {
		p := bodyLoop(200).Vertices()
		for i := range p {
			p[i] = p[i].Add(Vec{between(rng, -0.3, 0.3), between(rng, -0.3, 0.3)})
		}
		return Region{Polygon(p...)}, between(rng, -60, 60)
	}},
}

// depth returns the signed distance of q to the edge of rs, and whether q is in
// it: by brute force, the oracle of the tests.
func depth(r Region, q Point) (float64, bool) {
	d, w := math.Inf(1), 0
	for _, p := range r {
		for _, s := range p {
			d = math.Min(d, s.Closest(q).Dist(q))
		}
		w += p.Winding(q)
	}
	return d, w > 0
}

// probes returns points to test: at random in the box, and close to edges.
func probes(rng *rand.Rand, n int, rs ...Region) []Point {
	var b Box
	var all []Seg
	for _, r := range rs {
		b = b.Union(r.Bounds())
		for _, p := range r {
			all = append(all, p...)
		}
	}
	var out []Point
	for i := 0; i < n; i++ {
		if i%3 == 0 || len(all) == 0 {
			out = append(out, Pt(between(rng, b.Min.X, b.Max.X), between(rng, b.Min.Y, b.Max.Y)))
			continue
		}
		s := all[rng.Intn(len(all))]
		t := rng.Float64()
		off := math.Copysign(math.Pow(10, between(rng, -4.5, 0.5)), rng.Float64()-0.5)
		out = append(out, s.At(t).Add(s.Tangent(t).Left().Mul(off)))
	}
	return out
}

// margin is how close to an edge a probe may lie and not be asked about: the
// tolerance of both curves that meet there, on slopes down to a fifth.
const margin = 2e-5

// offsetFault returns what is wrong with o as the offset of r by d, or nil; its
// edge may be off by slack.
func offsetFault(rng *rand.Rand, r, o Region, d, slack float64) error {
	if err := o.Check(); err != nil {
		return err
	}
	for _, q := range probes(rng, 24, r, o) {
		dist, in := depth(r, q)
		if in {
			dist = -dist
		}
		if math.Abs(dist-d) < margin {
			continue
		}
		if _, got := depth(o, q); got != (dist < d) {
			return fmt.Errorf("%v lies %.6f from the edge, inside = %v", q, dist, got)
		}
	}
	for i, p := range o {
		// Every segment of a small loop, some sixty of a large one.
		step := 1 + len(p)/60
		for k := rng.Intn(step); k < len(p); k += step {
			s := p[k]
			for _, t := range [3]float64{0, 0.5, 0.21} {
				if dist, in := depth(r, s.At(t)); math.Abs(dist-math.Abs(d)) > slack || in != (d < 0) {
					return fmt.Errorf("loop %d vertex %d at %.2f lies %.9f from the edge", i, k, t, dist)
				}
			}
		}
	}
	return nil
}

func TestOffsetFamilies(t *testing.T) {
	t.Logf("seed %d", *seed)
	for _, f := range offsetFamilies {
		t.Run(f.name, func(t *testing.T) {
			rng := rand.New(rand.NewSource(*seed))
			bad, done, fallbacks := 0, 0, 0
			for n := 0; n < *cases/f.share(); n++ {
				own := rng.Int63()
				rng := rand.New(rand.NewSource(own))
				r, d := f.make(rng)
				if r.Check() != nil {
					continue
				}
				tr, k := pose(rng)
				r, d = posed(rng, tr, r), d*k
				if r.Check() != nil {
					continue
				}
				done++
				var c Calc
				o := c.Offset(r, d, Round)
				fallbacks += c.Fallbacks
				if c.Fallbacks > 0 {
					t.Logf("case %d: fallback", own)
				}
				err := c.Err()
				if err == nil {
					err = offsetFault(rng, r, o, d, 5e-6)
				}
				for k := 0; k < starts(r) && err == nil; k++ {
					var again Calc
					err = same(&again, again.Offset(fromVertex(r, k), d, Round), o)
					fallbacks += again.Fallbacks
				}
				if err != nil {
					if bad++; bad <= 5 {
						t.Errorf("case %d d %.9g scale %.3g: %v", own, d, k, err)
					}
				}
			}
			t.Logf("%d cases, %d wrong, %d fallbacks", done, bad, fallbacks)
		})
	}
}

// booleanFamilies make two regions.
var booleanFamilies = []booleanFamily{
	{"random", func(rng *rand.Rand) (Region, Region) {
		return Region{randomLoop(rng, Pt(0, 0), 50)}, Region{randomLoop(rng, Pt(between(rng, -40, 40), between(rng, -40, 40)), 50)}
	}},
	{"shared wall", func(rng *rand.Rand) (Region, Region) {
		w := between(rng, 10, 60)
		return Region{Rect(Pt(0, 0), w, 30)}, Region{Rect(Pt((w+40)/2+tiny(rng), between(rng, -20, 20)), 40, between(rng, 5, 60))}
	}},
	{"one circle", func(rng *rand.Rand) (Region, Region) {
		r := between(rng, 5, 50)
		sector := func() Region {
			from, sweep := Angle(between(rng, 0, 6)), Angle(between(rng, 0.3, 5))
			s := ArcSweep(Pt(tiny(rng), tiny(rng)), r, from, sweep)
			o := Pt(0, 0).Add((from + sweep/2).Unit().Mul(between(rng, 0.1, 0.3) * r))
			if sweep > 3 {
				o = Pt(0, 0)
			}
			return Region{{s, Line(s.B, o), Line(o, s.A)}}
		}
		return sector(), sector()
	}},
	{"tangent circles", func(rng *rand.Rand) (Region, Region) {
		r, s := between(rng, 1, 50), between(rng, 1, 50)
		l := r + s
		if rng.Intn(2) == 0 {
			l = math.Abs(r - s)
		}
		u := Angle(between(rng, 0, 7)).Unit()
		return Region{Circle(Pt(0, 0), r)}, Region{Circle(Pt(0, 0).Add(u.Mul(l+tiny(rng))), s)}
	}},
	{"tangent slots", func(rng *rand.Rand) (Region, Region) {
		r, s := between(rng, 1, 10), between(rng, 1, 10)
		x := between(rng, -30, 30)
		y := r + s
		if rng.Intn(2) == 0 {
			y = r - s
		}
		return Region{Stadium(Pt(-30, 0), Pt(30, 0), r)}, Region{Stadium(Pt(x, y+tiny(rng)), Pt(x+between(rng, 1, 60), y+tiny(rng)), s)}
	}},
	{"copies", func(rng *rand.Rand) (Region, Region) {
		a := Region{randomLoop(rng, Pt(0, 0), 50)}
		return a, Translate(Vec{tiny(rng), tiny(rng)}).Region(a)
	}},
	{"turned copies", func(rng *rand.Rand) (Region, Region) {
		a := starRegion(rng)
		return a, Rotate(Angle(tiny(rng) / 50)).Region(a)
	}},
	{"scaled copies", func(rng *rand.Rand) (Region, Region) {
		a := Region{bodyArcs(20 + rng.Intn(40))}
		return a, Scale(1 + tiny(rng)/100).Region(a)
	}},
	{"rebate", func(rng *rand.Rand) (Region, Region) {
		var c Calc
		a := starRegion(rng)
		return a, c.Offset(a, between(rng, -3, 3)+tiny(rng), Round)
	}},
	{"dense", func(rng *rand.Rand) (Region, Region) {
		n := 60 + rng.Intn(200)
		a := Region{bodyLoop(n)}
		return a, Pose(Pt(tiny(rng), tiny(rng)), Angle(float64(rng.Intn(2)))).Region(Region{bodyLoop(2 * n)})
	}},
}

// booleanFault returns what is wrong with the four operations on a and b.
func booleanFault(rng *rand.Rand, a, b Region, got [4]Region) error {
	for k, o := range got {
		if err := o.Check(); err != nil {
			return fmt.Errorf("operation %d: %w", k, err)
		}
	}
	for _, q := range probes(rng, 30, a, b) {
		da, ina := depth(a, q)
		db, inb := depth(b, q)
		if da < margin || db < margin {
			continue
		}
		want := [4]bool{ina || inb, ina && inb, ina && !inb, ina != inb}
		for k, o := range got {
			if _, in := depth(o, q); in != want[k] {
				return fmt.Errorf("operation %d: %v, %.6f and %.6f from the edges, inside = %v", k, q, da, db, in)
			}
		}
	}
	slack := 5e-6 * (a.Perimeter() + b.Perimeter() + 1)
	u, n, s, x := got[0].Area(), got[1].Area(), got[2].Area(), got[3].Area()
	if e := u + n - a.Area() - b.Area(); math.Abs(e) > slack {
		return fmt.Errorf("union and intersection are off by %g mm²", e)
	}
	if e := s + n - a.Area(); math.Abs(e) > slack {
		return fmt.Errorf("difference and intersection are off by %g mm²", e)
	}
	if e := x + n - u; math.Abs(e) > slack {
		return fmt.Errorf("exclusive-or and intersection are off by %g mm²", e)
	}
	return nil
}

func TestBooleanFamilies(t *testing.T) {
	t.Logf("seed %d", *seed)
	for _, f := range booleanFamilies {
		t.Run(f.name, func(t *testing.T) {
			rng := rand.New(rand.NewSource(*seed))
			bad, done, fallbacks := 0, 0, 0
			for n := 0; n < *cases/f.share(); n++ {
				own := rng.Int63()
				rng := rand.New(rand.NewSource(own))
				a, b := f.make(rng)
				tr, k := pose(rng)
				a, b = posed(rng, tr, a), posed(rng, tr, b)
				if a.Check() != nil || b.Check() != nil {
					continue
				}
				done++
				var c Calc
				got := [4]Region{c.Union(a, b), c.Intersect(a, b), c.Subtract(a, b), c.Xor(a, b)}
				fallbacks += c.Fallbacks
				if c.Fallbacks > 0 {
					t.Logf("case %d: fallback", own)
				}
				err := c.Err()
				if err == nil {
					err = booleanFault(rng, a, b, got)
				}
				for k := 0; k < starts(a, b) && err == nil; k++ {
					var again Calc
					a, b := fromVertex(a, k), fromVertex(b, k)
					switch op := k & 3; op { // each operation from every fourth vertex
					case 0:
						err = same(&again, again.Union(a, b), got[op])
					case 1:
						err = same(&again, again.Intersect(a, b), got[op])
					case 2:
						err = same(&again, again.Subtract(a, b), got[op])
					case 3:
						err = same(&again, again.Xor(a, b), got[op])
					}
					fallbacks += again.Fallbacks
				}
				if err != nil {
					if bad++; bad <= 5 {
						t.Errorf("case %d scale %.3g: %v", own, k, err)
					}
				}
			}
			t.Logf("%d cases, %d wrong, %d fallbacks", done, bad, fallbacks)
		})
	}
}

// The families at 1e-2 to 1e2 times their size of about 0.1 to 0.3 m, with the
// tolerances as they are. At 1e3 times, 300 m, circles that touch keep within
// Coincident for longer than Check takes for a touch: one boolean in some thousands
// is not sound there.
func TestScaledFamilies(t *testing.T) {
	t.Logf("seed %d", *seed)
	for _, k := range []float64{1e-2, 1e-1, 1, 10, 100} {
		done, fallbacks := 0, 0
		for _, f := range offsetFamilies {
			rng := rand.New(rand.NewSource(*seed))
			for n := 0; n < *cases/10/f.share(); n++ {
				r, d := f.make(rng)
				r, d = Scale(k).Region(r), d*k
				if r.Check() != nil {
					continue
				}
				var c Calc
				o := c.Offset(r, d, Round)
				err := c.Err()
				if err == nil {
					err = offsetFault(rng, r, o, d, 5e-6)
				}
				if err != nil {
					t.Errorf("%s %d, scale %g, by %.9g: %v", f.name, n, k, d, err)
				}
				done++
				fallbacks += c.Fallbacks
			}
		}
		for _, f := range booleanFamilies {
			rng := rand.New(rand.NewSource(*seed))
			for n := 0; n < *cases/10/f.share(); n++ {
				a, b := f.make(rng)
				a, b = Scale(k).Region(a), Scale(k).Region(b)
				if a.Check() != nil || b.Check() != nil {
					continue
				}
				var c Calc
				got := [4]Region{c.Union(a, b), c.Intersect(a, b), c.Subtract(a, b), c.Xor(a, b)}
				err := c.Err()
				if err == nil {
					err = booleanFault(rng, a, b, got)
				}
				if err != nil {
					t.Errorf("%s %d, scale %g: %v", f.name, n, k, err)
				}
				done++
				fallbacks += c.Fallbacks
			}
		}
		t.Logf("scale %g: %d cases, %d fallbacks", k, done, fallbacks)
	}
}
