package ingest

import (
	"math"
	"sort"

	"routwright/geom"
)

const maxPairs = 50_000_000

// crossings returns up to four places where the closed path p crosses or
// touches itself, and how many there are. It looks at chords within
// geom.CurveToArc of p, swept in x: O(n log n) for an outline. It gives up on a
// drawing that would take more than maxPairs looks; the kernel's own check
// follows in any case.
func crossings(p geom.Path) (at []geom.Point, n int) {
	v := p.Flatten(geom.CurveToArc)
	type chord struct {
		a, b   geom.Point
		i      int
		x0, x1 float64
	}
	cs := make([]chord, len(v))
	for i := range v {
		a, b := v[i], v[(i+1)%len(v)]
		cs[i] = chord{a, b, i, min(a.X, b.X), max(a.X, b.X)}
	}
	sort.Slice(cs, func(i, j int) bool { return cs[i].x0 < cs[j].x0 })
	var active []chord
	looks := 0
	for _, c := range cs {
		if looks += len(active); looks > maxPairs {
			return at, n
		}
		keep := active[:0]
		for _, d := range active {
			if d.x1 < c.x0 {
				continue
			}
			keep = append(keep, d)
			x, hit := meet(c.a, c.b, d.a, d.b)
			if !hit {
				continue
			}
			if gap := (c.i - d.i + len(v)) % len(v); gap == 1 || gap == len(v)-1 {
				if !folds(c.a, c.b, d.a, d.b) {
					continue
				}
			}
			if n++; len(at) < 4 && !holds(at, x) {
				at = append(at, x)
			}
		}
		active = append(keep, c)
	}
	return at, n
}

func holds(at []geom.Point, x geom.Point) bool {
	for _, p := range at {
		if p.Dist(x) < 0.1 {
			return true
		}
	}
	return false
}

// folds reports whether two chords with one shared end run back over one
// another.
func folds(a, b, c, d geom.Point) bool {
	switch {
	case b == c:
		a, b = b, a
	case a == d:
		c, d = d, c
	case a == c:
	case b == d:
		a, b, c, d = b, a, d, c
	default:
		return true
	}
	u, v := b.Sub(a), d.Sub(a)
	return u.Dot(v) > 0 && math.Abs(u.Cross(v)) <= geom.Coincident*min(u.Len(), v.Len())
}

// meet returns a point that the segments a–b and c–d share, within Coincident.
func meet(a, b, c, d geom.Point) (geom.Point, bool) {
	if max(a.Y, b.Y) < min(c.Y, d.Y) || max(c.Y, d.Y) < min(a.Y, b.Y) {
		return geom.Point{}, false
	}
	u, v, w := b.Sub(a), d.Sub(c), c.Sub(a)
	den := u.Cross(v)
	if den != 0 {
		if s, t := w.Cross(v)/den, w.Cross(u)/den; s >= 0 && s <= 1 && t >= 0 && t <= 1 {
			return a.Lerp(b, s), true
		}
	}
	for _, q := range [2]geom.Point{c, d} {
		if geom.Line(a, b).Closest(q).Dist(q) < geom.Coincident {
			return q, true
		}
	}
	for _, q := range [2]geom.Point{a, b} {
		if geom.Line(c, d).Closest(q).Dist(q) < geom.Coincident {
			return q, true
		}
	}
	return geom.Point{}, false
}
