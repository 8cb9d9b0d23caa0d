package geom

import (
	"math"
	"sort"
)

// balanced returns the biarcs along s with nodes spread so that all arcs share
// the error, nil if s is too short for that. An arc of length l along a curve
// whose curvature changes by k per length has the error k·l³/125 (see turned), so
// the arcs per length are the cube root of k/(125·tol); their sum along s says
// how many are needed, and the nodes stand at equal parts of it. The errors that
// the biarcs then have correct that sum, a few times. Where a biarc does not
// hold, it is halved; the fewest segments are taken.
func (f *fitter) balanced(s section) Path {
	sum := s.arcsNeeded(f.tol)
	if total := sum[len(sum)-1]; !(total > 2) || len(s) < 4 || total > 1e5 {
		return nil
	}
	var best Path
	for round := 0; round < 12; round++ {
		k := int(math.Ceil(sum[len(sum)-1] / 2))
		nodes := f.spread(s, sum, max(1, k))
		p, halved := f.fill(s, nodes)
		if best == nil || len(p) < len(best) {
			best = p
		}
		if !halved && round > 2 {
			break
		}
		f.correct(s, sum, nodes, 0.97-0.02*float64(round))
	}
	return best
}

// correct scales sum between the nodes by the cube root of the error there over
// the tolerance.
func (f *fitter) correct(s section, sum []float64, nodes []station, share float64) {
	old := append([]float64{}, sum...)
	i := 1
	for j := 1; j < len(nodes); j++ {
		a, b := nodes[j-1], nodes[j]
		_, e := f.measured(a, b, s.inside(a.s, b.s), math.Inf(1))
		g := math.Min(1.5, math.Max(0.6, math.Pow(e/(share*f.tol), 0.25)))
		for ; i < len(s) && (s[i].s <= b.s || j == len(nodes)-1); i++ {
			sum[i] = sum[i-1] + (old[i]-old[i-1])*g
		}
	}
}

// arcsNeeded returns the number of arcs that the tolerance asks for from the
// start of s to each station.
func (s section) arcsNeeded(tol float64) []float64 {
	n := len(s)
	// The curvature between stations, then its change at each station.
	kappa := make([]float64, n-1)
	for i := range kappa {
		kappa[i] = (s[i+1].theta - s[i].theta) / (s[i+1].s - s[i].s)
	}
	change := make([]float64, n)
	for i := 1; i+1 < n; i++ {
		change[i] = math.Abs(kappa[i]-kappa[i-1]) / ((s[i+1].s - s[i-1].s) / 2)
	}
	change[0], change[n-1] = change[1], change[n-2]
	sum := make([]float64, n)
	for i := 1; i < n; i++ {
		c := math.Cbrt((change[i-1] + change[i]) / 2 / (125 * tol))
		sum[i] = sum[i-1] + c*(s[i].s-s[i-1].s)
	}
	return sum
}

// spread returns k + 1 nodes at equal parts of sum.
func (f *fitter) spread(s section, sum []float64, k int) []station {
	nodes := make([]station, 0, k+1)
	nodes = append(nodes, s[0])
	total := sum[len(sum)-1]
	i := 0
	for j := 1; j < k; j++ {
		want := total * float64(j) / float64(k)
		for i+2 < len(s) && sum[i+1] < want {
			i++
		}
		r := 0.5
		if d := sum[i+1] - sum[i]; d > 0 {
			r = (want - sum[i]) / d
		}
		nodes = append(nodes, f.between(s, i, math.Min(1, math.Max(0, r))))
	}
	nodes = append(nodes, s[len(s)-1])
	for j := 1; j < k; j++ {
		h := (nodes[j+1].s - nodes[j-1].s) / 4
		nodes[j] = s.turned(nodes[j], h)
	}
	return nodes
}

// fill returns the biarcs between the nodes, those that do not hold halved, and
// whether any was.
func (f *fitter) fill(s section, nodes []station) (Path, bool) {
	var p Path
	halved := false
	for j := 1; j < len(nodes); j++ {
		a, b := nodes[j-1], nodes[j]
		if q, ok := f.biarc(a, b, s.inside(a.s, b.s)); ok {
			p = append(p, q...)
			continue
		}
		halved = true
		p = append(p, f.halve(s, a, b, 0)...)
	}
	return p, halved
}

// halve returns the biarcs from a to b where one does not hold.
func (f *fitter) halve(s section, a, b station, depth int) Path {
	in := s.inside(a.s, b.s)
	if len(in) == 0 || depth > 30 {
		return Path{Line(a.at, b.at)}
	}
	l := (a.s + b.s) / 2
	i := sort.Search(len(s), func(i int) bool { return s[i].s > l }) - 1
	i = max(0, min(i, len(s)-2))
	m := f.between(s, i, (l-s[i].s)/(s[i+1].s-s[i].s))
	m = s.turned(m, (b.s-a.s)/4)
	var p Path
	for _, e := range [2][2]station{{a, m}, {m, b}} {
		q, ok := f.biarc(e[0], e[1], s.inside(e[0].s, e[1].s))
		if !ok {
			q = f.halve(s, e[0], e[1], depth+1)
		}
		p = append(p, q...)
	}
	return p
}

// inside returns the stations strictly between the lengths a and b.
func (s section) inside(a, b float64) []station {
	i := sort.Search(len(s), func(i int) bool { return s[i].s > a })
	j := sort.Search(len(s), func(i int) bool { return s[i].s >= b })
	if i >= j {
		return nil
	}
	return s[i:j]
}
