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
	for round := 0; round < 20; round++ {
		k := int(math.Ceil(sum[len(sum)-1] / 2))
		nodes := f.spread(s, sum, max(1, k))
		p, errs, halved := f.fill(s, nodes)
		if best == nil || len(p) < len(best) {
			best = p
		}
		if !halved && round > 2 {
			break
		}
		s.correct(sum, nodes, errs, (0.98-0.012*float64(round))*f.tol)
	}
	return best
}

// correct scales sum between the nodes towards the cube root of the error there
// over the error wanted.
func (s section) correct(sum []float64, nodes []station, errs []float64, want float64) {
	old := append([]float64{}, sum...)
	i := 1
	for j, e := range errs {
		g := min(1.5, max(0.6, math.Pow(e/want, 0.25))) // a little less than the root: it settles
		for ; i < len(s) && (s[i].s <= nodes[j+1].s || j == len(errs)-1); i++ {
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
		nodes = append(nodes, f.between(s, i, min(1, max(0, r))))
	}
	nodes = append(nodes, s[len(s)-1])
	for j := 1; j < k; j++ {
		h := (nodes[j+1].s - nodes[j-1].s) / 4
		nodes[j] = s.turned(nodes[j], h, 1)
	}
	return nodes
}

// fill returns the biarcs between the nodes, those that do not hold halved, the
// error of each before that, and whether any was halved. Round a biarc that does
// not hold the nodes take the direction of the curve: then a short enough biarc
// holds anywhere, over a jump of curvature too.
func (f *fitter) fill(s section, nodes []station) (p Path, errs []float64, halved bool) {
	plain := append([]station{}, nodes...)
	fits := make([]pair, len(nodes))
	for j := 1; j < len(nodes); j++ {
		a, b := nodes[j-1], nodes[j]
		q, e := f.evenest(a, b, s.inside(a.s, b.s))
		errs = append(errs, e)
		fits[j] = q
		if !(e <= f.tol) {
			halved = true
			fits[j] = pair{}
			plain[j-1].dir, plain[j].dir = s.direction(plain[j-1]), s.direction(plain[j])
		}
	}
	for j := 1; j < len(nodes); j++ {
		a, b := plain[j-1], plain[j]
		if fits[j].n > 0 && a.dir == nodes[j-1].dir && b.dir == nodes[j].dir {
			p = append(p, fits[j].path()...)
			continue
		}
		p = append(p, f.halve(s, a, b, 0)...)
	}
	return p, errs, halved
}

// evenest returns the biarc from a to b of the ratio with the least error.
func (f *fitter) evenest(a, b station, between []station) (best pair, least float64) {
	defer func() { f.ratio = 1 }()
	least = math.Inf(1)
	for _, f.ratio = range ratios {
		if q, e := f.measured(a, b, between, least); e < least {
			best, least = q, e
		}
	}
	return best, least
}

// direction returns the direction of the curve at a node; ends keep theirs.
func (s section) direction(a station) Vec {
	if a.s <= s[0].s || a.s >= s[len(s)-1].s {
		return a.dir
	}
	return a.trueDir()
}

// halve returns the biarc from a to b, or those of its halves if it does not
// hold. Where even a piece between two stations does not, a line remains.
func (f *fitter) halve(s section, a, b station, depth int) Path {
	if q, ok := f.biarc(a, b, s.inside(a.s, b.s)); ok {
		return Path(q.path())
	}
	if b.s-a.s < stationGap || depth > 30 {
		return Path{Line(a.at, b.at)}
	}
	l := (a.s + b.s) / 2
	i := sort.Search(len(s), func(i int) bool { return s[i].s > l }) - 1
	i = max(0, min(i, len(s)-2))
	m := f.between(s, i, (l-s[i].s)/(s[i+1].s-s[i].s))
	return append(f.halve(s, a, m, depth+1), f.halve(s, m, b, depth+1)...)
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
