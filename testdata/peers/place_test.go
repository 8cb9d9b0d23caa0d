package peers

import (
	"fmt"
	"math"
	"testing"

	sf "github.com/peterstace/simplefeatures/geom"

	"routwright/geom"
	"routwright/templates/key"
	"routwright/templates/place"
	"routwright/templates/tool"
)

// Least wood round a key, mm: to a void on its face, to the finished outline, to
// another key, in the order of checks 14, 16 and 20. Common practice.
const leastVoid, leastOutline, leastKeys = 4.0, 6.0, 8.0

// Near a limit two programs may differ by their rounding and by the flattening.
const grey = 1e-4

// On random slabs, cracks and layouts no hard rule is broken, and no allowed place
// is refused, as simplefeatures judges it on flattened polygons.
func TestPlacesBreakNoRule(t *testing.T) {
	rnd, n := random(t, 60)
	keys, stations, both := 0, 0, 0
	for i := range n {
		name := fmt.Sprintf("seed %d, case %d", *seed, i)
		body := geom.Region{star(rnd, between(rnd, 120, 220), 30)}
		var voids []geom.Region
		for range rnd.IntN(10) {
			c := geom.Pt(between(rnd, -120, 120), between(rnd, -120, 120))
			w, h := between(rnd, 15, 90), between(rnd, 15, 45)
			voids = append(voids, geom.Region{geom.Pose(c, geom.Angle(between(rnd, 0, 3))).Path(geom.RoundedRect(geom.Pt(0, 0), w, h, between(rnd, 2, 7)))})
		}
		ps := []geom.Point{geom.Pt(between(rnd, -80, 80), -150)}
		turn := geom.Angle(math.Pi / 2)
		for range 3 + rnd.IntN(6) {
			turn += geom.Angle(between(rnd, -0.5, 0.5))
			ps = append(ps, ps[len(ps)-1].Add(turn.Unit().Mul(between(rnd, 15, 60))))
		}
		l := place.Line{Path: geom.Polyline(ps...), FirstTip: rnd.IntN(2) == 0, LastTip: rnd.IntN(2) == 0, Opening: []float64{0.2, 1, rnd.Float64()}}
		length := between(rnd, 30, 75)
		fit, err := key.Make(key.Spec{Length: length, Ends: length * 0.42, Waist: length * 0.2, Gap: 0.08, Corners: key.Chiselled}, tool.Tool{Bit: "b", Cutter: 6.35, Follower: 6.35})
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		r := place.Rules{KeyLength: length, Between: leastKeys, Tip: 25, Allowed: func(plan geom.Region, at geom.Point) *place.Block {
			return forbids(body, voids, plan, at)
		}}
		st := place.Stations(l, fit.Recess, r, nil)
		if rnd.IntN(3) == 0 { // a graduated set
			st = withShorter(t, l, st, r, fit.Spec)
		}
		outline, cavities := polygon(body), []sf.Geometry{}
		for _, v := range voids {
			cavities = append(cavities, polygon(v))
		}
		// Every fifteenth station by the outside judge, who takes his time.
		for k := 0; k < len(st); k += 15 {
			m := margin(outline, cavities, st[k].Plan)
			stations++
			if legal := st[k].Block == nil; math.Abs(m) > grey && legal != (m > 0) {
				t.Errorf("%s: station at %.0f: allowed %v, but its margin is %.5f mm", name, st[k].S, legal, m)
			}
		}
		set := place.Solve(l, st, r)
		crack := flatCrack(ps)
		if rnd.IntN(3) == 0 { // keys on both faces that may not lie over each other
			both++
			var back place.Set
			set, back = place.SolveBoth(place.Side{Line: l, Stations: st}, place.Side{Line: l, Stations: st}, r, func(a, b geom.Region) bool {
				d, _, _ := geom.Distance(a, b)
				return d > 0
			})
			judgeSet(t, name+", back", back, outline, cavities, crack)
			for _, a := range set.Keys {
				for _, b := range back.Keys {
					if x, err := sf.Intersection(polygon(a.Plan), polygon(b.Plan)); err == nil && x.Area() > 1e-3 {
						t.Errorf("%s: the keys at %.0f and %.0f lie over each other on %.4f mm²", name, a.S, b.S, x.Area())
					}
				}
			}
			if len(back.Keys) == 0 && len(set.Keys) > 1 {
				t.Errorf("%s: no key on the back, %d on the front", name, len(set.Keys))
			}
			keys += len(back.Keys)
		}
		keys += len(set.Keys)
		judgeSet(t, name, set, outline, cavities, crack)
		if len(set.Keys) == 0 {
			for _, s := range st {
				if m := margin(outline, cavities, s.Plan); m > grey {
					t.Fatalf("%s: no key, but %.0f is legal by %.4f mm", name, s.S, m)
				}
			}
		}
	}
	t.Logf("%d keys and %d stations judged, %d cases on both faces", keys, stations, both)
}

// withShorter adds stations of a key of 0.7 of the length.
func withShorter(t *testing.T, l place.Line, st []place.Station, r place.Rules, s key.Spec) []place.Station {
	t.Helper()
	for i := range st {
		st[i].Length, st[i].Waist = s.Length, s.Waist
	}
	s.Length, s.Ends, s.Waist = 0.7*s.Length, 0.7*s.Ends, 0.7*s.Waist
	fit, err := key.Make(s, tool.Tool{Bit: "b", Cutter: 3, Follower: 3})
	if err != nil {
		t.Fatal(err)
	}
	r.KeyLength = s.Length
	short := place.Stations(l, fit.Recess, r, nil)
	for i := range short {
		short[i].Size, short[i].Length, short[i].Waist = 1, s.Length, s.Waist
	}
	return place.Merge(st, short)
}

// judgeSet judges the keys of one face from outside.
func judgeSet(t *testing.T, name string, set place.Set, outline sf.Geometry, cavities []sf.Geometry, crack sf.Geometry) {
	t.Helper()
	for k, a := range set.Keys {
		if m := margin(outline, cavities, a.Plan); m < -grey {
			t.Errorf("%s: the key at %.0f breaks a rule by %.5f mm", name, a.S, -m)
		}
		for _, b := range set.Keys[:k] {
			if d, _ := sf.Distance(polygon(a.Plan), polygon(b.Plan)); d < leastKeys-grey {
				t.Errorf("%s: keys at %.0f and %.0f are %.5f mm apart", name, b.S, a.S, d)
			}
		}
		c := sf.NewPoint(sf.Coordinates{XY: sf.XY{X: a.At.X, Y: a.At.Y}}).AsGeometry()
		if d, _ := sf.Distance(c, crack); d > 1e-6 {
			t.Errorf("%s: the waist of the key at %.0f lies %.6f off the crack", name, a.S, d)
		}
	}
}

func flatCrack(ps []geom.Point) sf.Geometry {
	var xy []float64
	for _, p := range ps {
		xy = append(xy, p.X, p.Y)
	}
	return sf.NewLineString(sf.NewSequence(xy, sf.DimXY)).AsGeometry()
}

// forbids is the rule as the program's own kernel tells it.
func forbids(body geom.Region, voids []geom.Region, plan geom.Region, at geom.Point) *place.Block {
	if d, _, _ := geom.PathDistance(plan[0], body[0]); d < leastOutline || !body.Contains(at) {
		return &place.Block{By: "outline", Have: d, Need: leastOutline}
	}
	for _, v := range voids {
		if d, _, _ := geom.Distance(plan, v); d < leastVoid {
			return &place.Block{By: "cavity", Have: d, Need: leastVoid}
		}
	}
	return nil
}

// margin returns by how much a key keeps the rules, mm; below 0 it breaks one.
func margin(outline sf.Geometry, voids []sf.Geometry, plan geom.Region) float64 {
	k := polygon(plan)
	edge := outline.Boundary()
	d, _ := sf.Distance(k.Boundary(), edge)
	m := d - leastOutline
	if in, err := sf.Within(k, outline); err != nil || !in {
		return -1
	}
	for _, v := range voids {
		d, _ := sf.Distance(k, v)
		m = min(m, d-leastVoid)
	}
	return m
}
