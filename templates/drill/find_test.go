package drill_test

import (
	"flag"
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"routwright/geom"
	"routwright/templates/drill"
	"routwright/templates/part"
	"routwright/templates/space"
)

var layouts = flag.Int("layouts", 20, "random layouts to search")

// layout is two cavities with things between and beside them.
type layout struct {
	a, b  drill.Void
	rules drill.Rules
	solid []part.Part // the obstacles
}

func randomLayout(rng *rand.Rand) layout {
	const thick = 45
	f := func(lo, hi float64) float64 { return lo + rng.Float64()*(hi-lo) }
	void := func(name string, x float64) drill.Void {
		v := drill.Void{Name: name, Plan: geom.Pose(geom.Pt(x, f(-15, 15)), geom.Angle(f(-0.5, 0.5))).Region(geom.Region{geom.RoundedRect(geom.Pt(0, 0), f(22, 70), f(30, 90), f(3, 8))})}
		if rng.IntN(2) == 0 {
			v.Face, v.Top, v.Floor = part.Front, 0, f(16, 25)
		} else {
			v.Face, v.Top, v.Floor = part.Back, thick-f(25, 39), thick
		}
		return v
	}
	l := layout{a: void("a", -f(45, 60)), b: void("b", f(45, 60))}
	l.rules = drill.Rules{
		Thickness: thick, D: f(5, 8), Length: f(200, 320), Chuck: f(28, 40), Stop: 3, Warn: 5,
		Edge: space.NewEdge(geom.Region{geom.RoundedRect(geom.Pt(0, 0), 320, 260, 60)}, thick, space.Profile{Roundover: 4}, space.Profile{Roundover: 4}),
	}
	for range rng.IntN(8) {
		p := part.Part{ID: "o", Kind: part.Recess}
		w, h := f(10, 30), f(10, 60)
		s := part.Solid{Plan: geom.Pose(geom.Pt(f(-30, 30), f(-50, 50)), geom.Angle(f(0, 3))).Region(geom.Region{geom.Rect(geom.Pt(0, 0), w, h)})}
		switch rng.IntN(3) {
		case 0:
			s.Top, s.Floor = part.Level(0), part.Level(f(8, 15))
		case 1:
			s.Top, s.Floor = part.Level(thick-f(8, 25)), part.Level(thick)
		default:
			s.Plan = geom.Region{geom.Rect(s.Plan.Centroid(), 4, 4)}
			s.Top, s.Floor = part.Level(0), part.Level(thick)
		}
		p.Solids = []part.Solid{s}
		var c geom.Calc
		if !c.Intersect(s.Plan, c.Union(l.a.Plan, l.b.Plan)).Empty() {
			continue
		}
		l.solid = append(l.solid, p)
		l.rules.Obstacles = append(l.rules.Obstacles, drill.Obstacle{Body: space.Of(p), Stop: 3, Warn: 5})
	}
	return l
}

// The judge of the tests knows nothing of package space: it walks along the axis
// and measures to prisms by Pythagoras, and it draws its rays through polygons.
type judge struct {
	layout
	poly map[string][]geom.Point
	keep []*geom.Index
	edge *geom.Index
}

func newJudge(l layout) *judge {
	j := &judge{layout: l, poly: map[string][]geom.Point{
		"a": l.a.Plan[0].Flatten(0.002), "b": l.b.Plan[0].Flatten(0.002)}}
	for _, p := range l.solid {
		j.keep = append(j.keep, geom.IndexOf(p.Plan()))
	}
	j.edge = geom.IndexOf(l.rules.Edge.Outline)
	return j
}

// least returns the wood between the hole's side and what is nearest to it.
func (j *judge) least(from, to part.Point) float64 {
	least := math.Min(math.Min(from.Z, to.Z), j.rules.Thickness-math.Max(from.Z, to.Z))
	n := math.Ceil(from.Dist(to) / 0.5)
	for i := 0.0; i <= n; i++ {
		p := from.Lerp(to, i/n)
		for k, s := range j.solid {
			d := 0.0
			if !j.keep[k].Contains(p.Flat()) {
				_, d = j.keep[k].Closest(p.Flat())
			}
			dz := math.Max(0, math.Max(s.Solids[0].Top.Z-p.Z, p.Z-s.Solids[0].Floor.Z))
			least = math.Min(least, math.Hypot(d, dz))
		}
		_, d := j.edge.Closest(p.Flat())
		least = math.Min(least, d) // the layouts keep the rounds far off
	}
	return least - j.rules.D/2
}

// cross returns how far along u the sides of a polygon are crossed.
func cross(poly []geom.Point, o geom.Point, u geom.Vec) (ts []float64) {
	for i, a := range poly {
		b := poly[(i+1)%len(poly)]
		va, vb := a.Sub(o), b.Sub(o)
		ca, cb := u.Cross(va), u.Cross(vb)
		if (ca < 0) == (cb < 0) {
			continue
		}
		k := ca / (ca - cb)
		if t := va.Dot(u) + k*(vb.Dot(u)-va.Dot(u)); t > 0 {
			ts = append(ts, t)
		}
	}
	return ts
}

func least(ts []float64) float64 {
	m := math.Inf(1)
	for _, t := range ts {
		m = math.Min(m, t)
	}
	return m
}

// clears reports whether a drill clears rim and chuck, and opens both walls with
// its whole width.
func (j *judge) clears(from, to drill.Void, d, phi, run, rim, slack float64) bool {
	r := j.rules
	q, t := r.D/2/math.Cos(phi), math.Tan(phi)
	lo, hi := to.Top, to.Floor
	floor := from.Floor
	if from.Face == part.Back {
		lo, hi, floor = r.Thickness-to.Floor, r.Thickness-to.Top, r.Thickness-from.Top
	}
	e := d + run*t
	return rim*t >= d+q-slack && d-q >= -slack && d+q <= floor+slack && e-q >= lo-slack && e+q <= hi+slack &&
		(r.Length-run/math.Cos(phi))*math.Sin(phi)-d >= r.Chuck/2*math.Cos(phi)-slack
}

// brute looks at every millimetre of the walls and every degree.
func (j *judge) brute() (part.Point, part.Point, bool) {
	for pass := range 2 {
		from, to := j.a, j.b
		if pass == 1 {
			from, to = j.b, j.a
		}
		fp, tp := j.poly[from.Name], j.poly[to.Name]
		for i, a := range fp {
			b := fp[(i+1)%len(fp)]
			out := b.Sub(a).Unit().Left().Neg()
			for s := 0.0; s < a.Dist(b); s++ {
				at := a.Lerp(b, s/a.Dist(b))
				for deg := range 360 {
					u := (geom.Angle(deg) * geom.Degree).Unit()
					if u.Dot(out) < 0.5 {
						continue
					}
					run := least(cross(tp, at, u))
					if math.IsInf(run, 1) || least(cross(fp, at.Add(u.Mul(0.01)), u)) < run {
						continue
					}
					side := u.Left().Mul(j.rules.D / 2)
					if len(cross(tp, at.Add(side), u)) == 0 || len(cross(tp, at.Add(side.Neg()), u)) == 0 {
						continue
					}
					rim, ok := math.Inf(1), true
					for _, o := range []float64{-1, -0.5, 0, 0.5, 1} {
						p := at.Add(side.Mul(o)).Add(u.Mul(-0.01))
						ts := cross(fp, p, u.Neg())
						far, near := 0.0, least(ts)
						for _, t := range ts {
							far = math.Max(far, t)
						}
						switch len(ts) { // convex cavities: in, or before it
						case 1:
							rim = math.Min(rim, far)
						case 2:
							rim = math.Min(rim, far)
							ok = ok && near < j.rules.D*math.Sqrt(3)
						default:
							ok = false
						}
					}
					if !ok {
						continue
					}
					for k := 1; k <= 75; k++ {
						phi := float64(k) * math.Pi / 180
						for d := 1.0; d < j.rules.Thickness; d++ {
							if !j.clears(from, to, d, phi, run, rim, 0) {
								continue
							}
							z, fall := d, run*math.Tan(phi)
							if from.Face == part.Back {
								z, fall = j.rules.Thickness-d, -fall
							}
							p := part.Point{X: at.X, Y: at.Y, Z: z}
							end := at.Add(u.Mul(run))
							q := part.Point{X: end.X, Y: end.Y, Z: z + fall}
							if j.least(p, q) >= 3 {
								return p, q, true
							}
						}
					}
				}
			}
		}
	}
	return part.Point{}, part.Point{}, false
}

// No proposed path breaks a rule, and one is proposed whenever brute force finds
// one.
func TestFindAgainstBruteForce(t *testing.T) {
	n := *layouts
	if testing.Short() {
		n = min(n, 6)
	}
	rng := rand.New(rand.NewPCG(8, 3))
	found, none := 0, 0
	var most, all time.Duration
	for i := range n {
		l := randomLayout(rng)
		j := newJudge(l)
		began := time.Now()
		p, ok := drill.Find(l.a, l.b, l.rules)
		spent := time.Since(began)
		began = time.Now()
		again, _ := drill.Find(l.a, l.b, l.rules)
		spent = min(spent, time.Since(began)) // other work on the machine aside
		if again != p {
			t.Errorf("layout %d: another path the second time", i)
		}
		most, all = max(most, spent), all+spent
		if !ok {
			none++
			if a, b, ok := j.brute(); ok {
				t.Errorf("layout %d: nothing found, but %v to %v keeps to the rules", i, a, b)
			}
			continue
		}
		found++
		from, to := l.a, l.b
		if p.Back {
			from, to = to, from
		}
		if w := j.least(p.From, p.To); w < 3-1e-3 {
			t.Errorf("layout %d: %.4f mm of wood: %+v", i, w, p)
		}
		if !j.clears(from, to, p.Entry, float64(p.Angle(from)), p.Run(), p.Rim, 1e-6) {
			t.Errorf("layout %d: rim, chuck or walls: %+v", i, p)
		}
		// The ends lie on the walls, and the rim is where the path says.
		u := p.Heading()
		if d := geomEdge(from.Plan, p.From.Flat()); d > 1e-6 {
			t.Errorf("layout %d: enters %.6f off the wall", i, d)
		}
		if d := geomEdge(to.Plan, p.To.Flat()); d > 1e-6 {
			t.Errorf("layout %d: comes out %.6f off the wall", i, d)
		}
		if w := least(cross(j.poly[from.Name], p.From.Flat().Add(u.Mul(-0.01)), u.Neg())); p.Rim > w+0.02 {
			t.Errorf("layout %d: rim %.3f, the cavity ends at %.3f", i, p.Rim, w)
		}
	}
	t.Logf("%d layouts: %d with a path, %d without; %v in the mean, %v at most", n, found, none, all/time.Duration(n), most)
	if found == 0 || none == 0 {
		t.Error("the layouts do not try both")
	}
}

func geomEdge(r geom.Region, p geom.Point) float64 {
	_, d := geom.IndexOf(r).Closest(p)
	return d
}

// The rim: entry 14 down, drill 8, cavity of 80: the steepest of flat angles is
// 12.75°, by ℓ·tan φ = d + q/(2·cos φ); common practice's worked example.
func TestRim(t *testing.T) {
	from := drill.Void{Face: part.Front, Floor: 30}
	at := func(deg float64) float64 {
		run := 60.0
		p := drill.Path{From: part.Point{Z: 14}, To: part.Point{X: run, Z: 14 + run*math.Tan(deg*math.Pi/180)}, Rim: 80, Entry: 14}
		return p.RimClear(from, 8)
	}
	if at(12.7) > 0 || at(12.8) < 0 {
		t.Errorf("clear by %.3f at 12.7°, %.3f at 12.8°", at(12.7), at(12.8))
	}
	if d := 60 * math.Tan(12.75*math.Pi/180); math.Abs(d-13.6) > 0.05 {
		t.Errorf("falls %.2f over 60, want 13.6", d)
	}
}
