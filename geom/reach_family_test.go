package geom

import (
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
)

// How many cases of each family TestReachFamilies runs, and the seed of the
// first. By hand: go test ./geom -run ReachFamilies -reach.cases 100000 -v
var (
	reachCases = flag.Int("reach.cases", 250, "cases of each family of reach and distance")
	reachSeed  = flag.Uint64("reach.seed", 1, "seed of the first case")
)

// family makes the case of a seed and returns what is wrong with the answer, ""
// if nothing, or skip.
type family struct {
	name string
	try  func(rng *rand.Rand) string
}

const skip = "skip"

var reachFamilies = []family{
	{"distance of paths", tryDistance},
	{"distance of near-tangent arcs", tryNearTangent},
	{"enclosing circle", tryEnclosing},
	{"largest clearing disc", tryClearing},
	{"opening of stars", func(rng *rand.Rand) string {
		return tryOpening(rng, Region{starOf(rng, Pt(0, 0), 30, 4+rng.IntN(20))}, 0.5+6*rng.Float64())
	}},
	{"opening of smooth outlines with holes", func(rng *rand.Rand) string {
		r := Region{roundStar(rng, 4+rng.IntN(8)), Circle(Pt(rng.Float64()*4, 1), 3).Reversed()}
		return tryOpening(rng, r, 0.5+6*rng.Float64())
	}},
	{"opening at exact degeneracies", tryExactOpening},
}

func TestReachFamilies(t *testing.T) {
	for _, f := range reachFamilies {
		t.Run(f.name, func(t *testing.T) {
			t.Parallel()
			bad, skipped := 0, 0
			for i := range *reachCases {
				seed := *reachSeed + uint64(i)
				switch s := f.try(rand.New(rand.NewPCG(seed, 77))); {
				case s == skip:
					skipped++
				case s != "":
					if bad++; bad <= 5 {
						t.Errorf("seed %d: %s", seed, s)
					}
				}
			}
			t.Logf("%d cases, %d unsound and skipped, %d bad", *reachCases, skipped, bad)
		})
	}
}

func tryDistance(rng *rand.Rand) string {
	a := starOf(rng, Pt(0, 0), 20, 3+rng.IntN(40))
	b := starOf(rng, Pt(70*rng.Float64(), 10), 15, 3+rng.IntN(40))
	want := gap{d2: math.Inf(1)}
	for k := range a {
		for l := range b {
			want.segs(&a[k], &b[l])
		}
	}
	t := reachPoses()[rng.IntN(6)].t
	d, pa, pb := PathDistance(t.Path(a).From(rng.IntN(9)), t.Path(b).Reversed())
	if w := math.Sqrt(want.d2); math.Abs(d-w) > 1e-9 || math.Abs(pa.Dist(pb)-d) > 1e-9 {
		return fmt.Sprintf("%.12g, all pairs %.12g, witnesses %.12g", d, w, pa.Dist(pb))
	}
	// No denser sampling beats it.
	if s := bySampling(a, b, 3); s < d-1e-9 {
		return fmt.Sprintf("%.12g, sampled %.12g", d, s)
	}
	return ""
}

// Two arcs whose circles touch but for 10^-12 … 10^-3 mm, from in or outside.
func tryNearTangent(rng *rand.Rand) string {
	ra, rb := 1+99*rng.Float64(), 1+99*rng.Float64()
	e := math.Copysign(math.Pow(10, -12+9*rng.Float64()), rng.Float64()-0.5)
	l, at := ra+rb+e, Angle(0)
	want := math.Max(0, e)
	if rng.IntN(2) == 0 {
		rb = ra * (0.1 + 0.8*rng.Float64())
		l, at = ra-rb+e, math.Pi
		want = math.Max(0, -e)
	}
	turn := Angle(rng.Float64() * 2 * math.Pi)
	half := Angle(0.2 + rng.Float64())
	a := ArcSweep(Pt(0, 0), ra, turn-half, 2*half)
	b := ArcSweep(Pt(0, 0).Add(turn.Unit().Mul(l)), rb, turn+math.Pi-at-half, 2*half)
	d, _, _ := SegDistance(a, b)
	if math.Abs(d-want) > 1e-11 {
		return fmt.Sprintf("gap of %.6g is found as %.6g", want, d)
	}
	return ""
}

func tryEnclosing(rng *rand.Rand) string {
	p := starOf(rng, Pt(5, -3), 30, 3+rng.IntN(20))
	d := EnclosingCircle(p)
	_, far := p.farthest(d.Center)
	if far != d.Radius {
		return fmt.Sprintf("radius %.17g, farthest %.17g", d.Radius, far)
	}
	// A step in any direction makes it no smaller (the function is convex).
	for k := range 16 {
		for _, step := range []float64{1e-2, 1e-4} {
			q := d.Center.Add((Angle(k) * math.Pi / 8).Unit().Mul(step))
			if _, f := p.farthest(q); f < d.Radius*(1-1e-9) {
				return fmt.Sprintf("radius %.12g, but %.12g about a place %g beside", d.Radius, f, step)
			}
		}
	}
	return ""
}

func tryClearing(rng *rand.Rand) string {
	r := Region{roundStar(rng, 3+rng.IntN(9))}
	if r.Check() != nil {
		return skip
	}
	c := Pt(0, 0).Add((Angle(rng.Float64() * 7)).Unit().Mul(9 * rng.Float64()))
	if d, _, _ := PathDistance(Circle(c, 4), r[0]); d > 0.5 && IndexOf(r).Contains(c) {
		r = append(r, Circle(c, 4).Reversed())
	}
	have, _ := LargestClearing(r)
	want := rolling(r, math.Max(0.1, math.Min(0.5, have/3))) // too large by step²/8·have or so
	if have > want*1.001 || have < want*0.97 {
		return fmt.Sprintf("clears with %.6g, rolling finds %.6g", have, want)
	}
	// Opening by it takes nothing, by 2 % more takes something.
	var k Calc
	lost := r.Area() - k.Open(r, have).Area()
	some := r.Area() - k.Open(r, have*1.02).Area()
	if k.Err() != nil {
		return k.Err().Error()
	}
	if lost > 1e-6*r.Perimeter() || some <= lost {
		return fmt.Sprintf("clears with %.6g: opening takes %.3g mm², a larger one %.3g", have, lost, some)
	}
	return ""
}

func tryOpening(rng *rand.Rand, r Region, radius float64) string {
	if r.Check() != nil {
		return skip
	}
	var c Calc
	o := c.Open(r, radius)
	twice := c.Open(o, radius)
	out := c.Subtract(o, r)
	nooks := c.Residue(r, radius)
	if c.Err() != nil {
		return c.Err().Error()
	}
	slack := 4e-6 * (1 + r.Perimeter())
	var sum float64
	for _, n := range nooks {
		sum += n.Area
		if n.Area < 0 || n.Depth < 0 {
			return fmt.Sprintf("a nook of area %g and depth %g", n.Area, n.Depth)
		}
	}
	switch {
	case math.Abs(twice.Area()-o.Area()) > slack:
		return fmt.Sprintf("radius %.6g: opened %.9g mm², twice %.9g", radius, o.Area(), twice.Area())
	case out.Area() > slack:
		return fmt.Sprintf("radius %.6g: %.3g mm² of the opening lie outside", radius, out.Area())
	case math.Abs(sum-(r.Area()-o.Area())) > slack:
		return fmt.Sprintf("radius %.6g: nooks of %.9g mm², want %.9g", radius, sum, r.Area()-o.Area())
	}
	// Places at random: cleared exactly if a disc inside holds them; whatever is
	// cleared lies in the disc's reach of the inset.
	idx, open := IndexOf(r), IndexOf(o)
	for _, n := range nooks {
		if o.Empty() {
			break
		}
		if _, d := open.Closest(n.Corner); math.Abs(d-n.Depth) > 1e-12 {
			return fmt.Sprintf("radius %.6g: depth %.9g at %v, really %.9g", radius, n.Depth, n.Corner, d)
		}
		for _, p := range n.Region {
			for _, s := range p {
				for k := range 10 {
					if _, d := open.Closest(s.At(float64(k) / 10)); d > n.Depth+1e-7 {
						return fmt.Sprintf("radius %.6g: depth %.9g at %v, but %.9g at %v", radius, n.Depth, n.Corner, d, s.At(float64(k)/10))
					}
				}
			}
		}
	}
	// What is as wide as the disc counts as passable, so ask a little inside.
	inset := IndexOf(c.Offset(r, -radius+RollSlack, Round))
	b := r.Bounds()
	for range 30 {
		p := Pt(b.Min.X+rng.Float64()*b.W(), b.Min.Y+rng.Float64()*b.H())
		if !idx.Contains(p) {
			continue
		}
		_, d := inset.Closest(p)
		if inset.Contains(p) {
			d = 0
		}
		if math.Abs(d-radius) > 1e-4 && open.Contains(p) != (d < radius) {
			return fmt.Sprintf("radius %.6g: %v is %.6g from the inset, cleared: %v", radius, p, d, open.Contains(p))
		}
	}
	return ""
}

// Slots, necks and fillets of exactly the disc's size.
func tryExactOpening(rng *rand.Rand) string {
	radius := 0.5 * float64(1+rng.IntN(12))
	var r Region
	switch rng.IntN(5) {
	case 0:
		r = Region{RoundedRect(Pt(0, 0), 60, 40, radius)}
	case 1:
		r = Region{Stadium(Pt(0, 0), Pt(30, 20), radius)}
	case 2: // a plate with a hole one disc from its edge
		r = Region{Rect(Pt(0, 0), 80, 60), Circle(Pt(40-2*radius-5, 0), 5).Reversed()}
	case 3: // two chambers joined by a neck of one disc
		w := radius
		r = Region{Polygon(Pt(-40, -20), Pt(-10, -20), Pt(-10, -w), Pt(10, -w), Pt(10, -20), Pt(40, -20),
			Pt(40, 20), Pt(10, 20), Pt(10, w), Pt(-10, w), Pt(-10, 20), Pt(-40, 20))}
	case 4: // a round chamber of one disc on a wide one
		var c Calc
		r = c.Union(Region{Rect(Pt(0, 0), 60, 40)}, Region{Circle(Pt(30, 0), radius)})
	}
	r = reachPoses()[rng.IntN(6)].of(r)
	return tryOpening(rng, r, radius)
}
