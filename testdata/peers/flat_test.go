package peers

import (
	"flag"
	"math"
	"math/rand/v2"
	"testing"

	sf "github.com/peterstace/simplefeatures/geom"

	"routwright/geom"
)

var (
	seed  = flag.Uint64("seed", 1, "seed of the random cases")
	cases = flag.Int("cases", 0, "random cases of each test; 0: its own count")
)

// random returns the source of random numbers of a test, and how many cases to
// run; both are printed.
func random(t *testing.T, usual int) (*rand.Rand, int) {
	t.Helper()
	n := usual
	if *cases > 0 {
		n = *cases
	}
	t.Logf("seed %d, %d cases", *seed, n)
	return rand.New(rand.NewPCG(*seed, 0)), n
}

// chord is the flattening of arcs, mm.
const chord = 3e-5

// loops are closed polygons: a region flattened.
type loops [][][2]float64

// flatten returns r with its arcs as chords within chord mm.
func flatten(r geom.Region) loops { return within(r, chord) }

// within returns r with its arcs as chords within tol mm.
func within(r geom.Region, tol float64) loops {
	var out loops
	for _, p := range r {
		var l [][2]float64
		for _, q := range p.Flatten(tol) {
			l = append(l, [2]float64{q.X, q.Y})
		}
		out = append(out, l)
	}
	return out
}

// area is the shoelace sum.
func (ls loops) area() float64 {
	var a float64
	for _, l := range ls {
		for i, p := range l {
			q := l[(i+1)%len(l)]
			a += p[0]*q[1] - q[0]*p[1]
		}
	}
	return a / 2
}

// edges visits all chords.
func (ls loops) edges(visit func(a, b [2]float64)) {
	for _, l := range ls {
		for i, p := range l {
			visit(p, l[(i+1)%len(l)])
		}
	}
}

func (ls loops) length() (n float64) {
	ls.edges(func(a, b [2]float64) { n += math.Hypot(b[0]-a[0], b[1]-a[1]) })
	return n
}

// signed returns the distance from p to the nearest edge, negative outside. By
// looking at every edge: nothing to go wrong.
func (ls loops) signed(p [2]float64) float64 {
	least, in := math.Inf(1), false
	ls.edges(func(a, b [2]float64) {
		vx, vy, wx, wy := b[0]-a[0], b[1]-a[1], p[0]-a[0], p[1]-a[1]
		t := 0.0
		if n := vx*vx + vy*vy; n > 0 {
			t = max(0, min(1, (wx*vx+wy*vy)/n))
		}
		dx, dy := wx-t*vx, wy-t*vy
		least = min(least, dx*dx+dy*dy)
		if (a[1] > p[1]) != (b[1] > p[1]) && p[0] < a[0]+(p[1]-a[1])/(b[1]-a[1])*vx {
			in = !in
		}
	})
	if d := math.Sqrt(least); in {
		return d
	} else {
		return -d
	}
}

// walk visits places every step mm or less along the edges.
func (ls loops) walk(step float64, visit func(p [2]float64)) {
	ls.edges(func(a, b [2]float64) {
		n := int(math.Ceil(math.Hypot(b[0]-a[0], b[1]-a[1])/step)) + 1
		for i := range n {
			t := float64(i) / float64(n)
			visit([2]float64{a[0] + t*(b[0]-a[0]), a[1] + t*(b[1]-a[1])})
		}
	})
}

// hausdorff returns how far the edges of a and b part, looked at from places
// every step mm of both.
func hausdorff(a, b loops, step float64) float64 {
	var most float64
	for _, ab := range [2][2]loops{{a, b}, {b, a}} {
		ab[0].walk(step, func(p [2]float64) { most = max(most, math.Abs(ab[1].signed(p))) })
	}
	return most
}

// polygon returns r for simplefeatures.
func polygon(r geom.Region) sf.Geometry {
	var all []sf.Polygon
	for _, piece := range r.Components() {
		var rings []sf.LineString
		for _, l := range flatten(piece) {
			rings = append(rings, ring(l))
		}
		all = append(all, sf.NewPolygon(rings))
	}
	if len(all) == 1 {
		return all[0].AsGeometry()
	}
	return sf.NewMultiPolygon(all).AsGeometry()
}

func ring(l [][2]float64) sf.LineString {
	xy := make([]float64, 0, 2*len(l)+2)
	for _, q := range l {
		xy = append(xy, q[0], q[1])
	}
	return sf.NewLineString(sf.NewSequence(append(xy, l[0][0], l[0][1]), sf.DimXY))
}

// fromPeer returns the rings of a result of simplefeatures.
func fromPeer(g sf.Geometry) loops {
	var out loops
	add := func(p sf.Polygon) {
		for _, r := range p.ForceCCW().DumpRings() {
			s := r.Coordinates()
			var l [][2]float64
			for i := range s.Length() - 1 {
				q := s.GetXY(i)
				l = append(l, [2]float64{q.X, q.Y})
			}
			out = append(out, l)
		}
	}
	var take func(g sf.Geometry)
	take = func(g sf.Geometry) {
		switch g.Type() {
		case sf.TypePolygon:
			if !g.IsEmpty() {
				add(g.MustAsPolygon())
			}
		case sf.TypeMultiPolygon:
			m := g.MustAsMultiPolygon()
			for i := range m.NumPolygons() {
				add(m.PolygonN(i))
			}
		case sf.TypeGeometryCollection:
			c := g.MustAsGeometryCollection()
			for i := range c.NumGeometries() {
				take(c.GeometryN(i))
			}
		}
	}
	take(g)
	return out
}

// between returns a random number from a to b.
func between(r *rand.Rand, a, b float64) float64 { return a + (b-a)*r.Float64() }

// star is a random outline of n corners, filleted where fillet allows.
func star(r *rand.Rand, size float64, fillet float64) geom.Path {
	n := 4 + r.IntN(8)
	ps := make([]geom.Point, n)
	for i := range ps {
		a := geom.Angle(2 * math.Pi * (float64(i) + between(r, -0.3, 0.3)) / float64(n))
		ps[i] = geom.Pt(0, 0).Add(a.Unit().Mul(size * between(r, 0.5, 1)))
	}
	p := geom.Polygon(ps...)
	for i := len(p) - 1; i >= 0 && fillet > 0; i-- {
		if q, err := p.Fillet(i, fillet*between(r, 0.3, 1)); err == nil {
			p = q
		}
	}
	return p
}
