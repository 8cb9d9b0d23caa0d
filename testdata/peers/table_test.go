//go:build native

package peers

import (
	"fmt"
	"math"
	"runtime"
	"sort"
	"testing"
	"time"

	"routwright/geom"
	"routwright/testdata/peers/native"
)

// wavy is a smooth closed outline of about 1.1 m round as n chords.
func wavy(n int) geom.Path {
	ps := make([]geom.Point, n)
	for i := range ps {
		a := geom.Angle(2 * math.Pi * float64(i) / float64(n))
		r := 150 + 30*math.Cos(2*float64(a)) + 12*math.Sin(5*float64(a))
		ps[i] = geom.Pt(0, 0).Add(a.Unit().Mul(r))
	}
	return geom.Polygon(ps...)
}

// arcs is the same outline as tangent arcs.
func arcs(t *testing.T) geom.Path {
	var ps []geom.Point
	ps = append(ps, wavy(4000).Vertices()...)
	p, err := geom.FitPolyline(ps, true, 1e-3, 0)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// median runs every function in turn, three rounds of at least 60 ms each, and
// returns the median time of one call of each.
func median(fs ...func()) []time.Duration {
	all := make([][]time.Duration, len(fs))
	for range 3 {
		for i, f := range fs {
			runtime.GC()
			n := 0
			start := time.Now()
			for n == 0 || time.Since(start) < 60*time.Millisecond {
				f()
				n++
			}
			all[i] = append(all[i], time.Since(start)/time.Duration(n))
		}
	}
	out := make([]time.Duration, len(fs))
	for i, a := range all {
		sort.Slice(a, func(x, y int) bool { return a[x] < a[y] })
		out[i] = a[1]
	}
	return out
}

// TestTable prints times beside those of GEOS and Clipper in the same run. It
// judges nothing: times drift.
func TestTable(t *testing.T) {
	clipper, geos := native.Versions()
	fmt.Printf("\nGEOS %s, Clipper %s, %s\n", geos, clipper, runtime.Version())
	fmt.Printf("%-34s %12s %12s %7s %12s %7s  %s\n", "", "ours", "GEOS", "ratio", "Clipper", "ratio", "vertices ours/GEOS/Clipper; worst deviation of GEOS, Clipper from ours")
	var c geom.Calc
	row := func(name string, ts []time.Duration, more string) {
		ratio := func(i int) (string, string) {
			if i >= len(ts) {
				return "-", "-"
			}
			return ts[i].String(), fmt.Sprintf("%.2f", float64(ts[0])/float64(ts[i]))
		}
		g, gr := ratio(1)
		k, kr := ratio(2)
		fmt.Printf("%-34s %12s %12s %7s %12s %7s  %s\n", name, ts[0], g, gr, k, kr, more)
	}
	offset := func(name string, p geom.Path, chords geom.Path) {
		r := geom.Region{p}
		flat := native.Paths(flatten(geom.Region{chords})).Flatten()
		g := flat.Geos()
		fs := []func(){func() { c.Offset(r, -8, geom.Round) }, func() { g.Buffer(-8, 16).Free() }}
		if len(chords) <= 5000 { // beyond, minutes
			fs = append(fs, func() { flat.Offset(-8, 5e-3, 0) })
		}
		ts := median(fs...)
		ours := c.Offset(r, -8, geom.Round)
		b := g.Buffer(-8, 16)
		more := fmt.Sprintf("%d/%d", ours.Segs(), points(b.Paths()))
		if len(chords) <= 5000 {
			k := flat.Offset(-8, 5e-3, 0)
			more += fmt.Sprintf("/%d; %.2g, %.2g mm", points(k), off(ours, b.Paths()), off(ours, k))
		}
		row(name, ts, more)
	}
	body := arcs(t)
	offset(fmt.Sprintf("offset inward, %d arcs (5k chords)", len(body)), body, wavy(5000))
	for _, n := range []int{5000, 50000, 200000} {
		offset(fmt.Sprintf("offset inward, %d chords", n), wavy(n), wavy(n))
	}

	var rects []geom.Region
	var pieces []native.Geos
	var holes native.Paths
	for i := range 12 {
		at := geom.Pt(0, 0).Add((geom.Angle(i) * 30 * geom.Degree).Unit().Mul(60 + 30*float64(i%3)))
		q := geom.Region{geom.Pose(at, geom.Angle(i)).Path(geom.RoundedRect(geom.Pt(0, 0), 45, 18, 4))}
		rects = append(rects, q)
		l := native.Paths(within(q, 5e-3))
		pieces = append(pieces, l.Flatten().Geos())
		holes = append(holes, l...)
	}
	cut := func(name string, p geom.Path) {
		r := geom.Region{p}
		flat := native.Paths(flatten(geom.Region{wavy(5000)})).Flatten()
		g, h := flat.Geos(), holes.Flatten()
		ts := median(func() { c.Subtract(r, rects...) }, func() {
			at := g
			for i, q := range pieces {
				d := at.Difference(q)
				if i > 0 {
					at.Free()
				}
				at = d
			}
			at.Free()
		}, func() { flat.Boolean(native.Difference, h) })
		row(name, ts, fmt.Sprintf("%d/-/%d; GEOS piece by piece, as the rectangles meet", c.Subtract(r, rects...).Segs(), points(flat.Boolean(native.Difference, h))))
	}
	cut("body less 12 rectangles, arcs", body)
	cut("body less 12 rectangles, 5k chords", wavy(5000))

	x := geom.IndexOf(geom.Region{wavy(5000)})
	g := native.Paths(flatten(geom.Region{wavy(5000)})).Flatten().Geos()
	prep := g.Prepare()
	xy := make([]float64, 0, 2000)
	for i := range 1000 {
		p := geom.Pt(0, 0).Add(geom.Angle(float64(i) * 2.399963).Unit().Mul(200 * math.Sqrt(float64(i)/1000)))
		xy = append(xy, p.X, p.Y)
	}
	in := 0
	ts := median(func() {
		in = 0
		for i := 0; i < len(xy); i += 2 {
			if x.Contains(geom.Pt(xy[i], xy[i+1])) {
				in++
			}
		}
	}, func() { prep.Count(xy) })
	row("1000 points in 5k chords", ts, fmt.Sprintf("%d inside, GEOS %d", in, prep.Count(xy)))

	a := geom.Region{wavy(5000)}
	b := geom.Translate(geom.Vec{X: 400, Y: 30}).Region(a)
	h := native.Paths(flatten(b)).Flatten().Geos()
	var d float64
	ts = median(func() { d, _, _ = geom.Distance(a, b) }, func() { g.Distance(h) })
	row("least distance, 5k to 5k", ts, fmt.Sprintf("%.9f mm, GEOS %.9f", d, g.Distance(h)))
	if c.Err() != nil || c.Fallbacks > 0 || math.Abs(d-g.Distance(h)) > 1e-9 || in != prep.Count(xy) {
		t.Errorf("error %v, fallbacks %d, distance %g, points %d", c.Err(), c.Fallbacks, d, in)
	}
}

func points(ps native.Paths) (n int) {
	for _, p := range ps {
		n += len(p)
	}
	return n
}

// off is how far the vertices of a peer's result lie from our edge, at most.
func off(r geom.Region, ps native.Paths) (most float64) {
	x := geom.IndexOf(r)
	for _, p := range ps {
		for _, q := range p {
			_, d := x.Closest(geom.Pt(q[0], q[1]))
			most = max(most, d)
		}
	}
	return most
}
