package geom

import (
	"math"
	"sort"
)

// Chords returns the stretches of the endless line through a and b that lie in
// r, in order, as distances in mm from a towards b. Exact for arcs; a line that
// runs along an edge counts as just left of it, seen from a. No stretches when a
// and b are one point. O(n).
func (r Region) Chords(a, b Point) [][2]float64 {
	u := b.Sub(a).Unit()
	if u == (Vec{}) {
		return nil
	}
	var ts []float64
	for _, p := range r {
		for _, s := range p {
			ts = chordCuts(s, a, u, ts)
		}
	}
	sort.Float64s(ts)
	var out [][2]float64
	for i := 0; i+1 < len(ts); i += 2 {
		if n := len(out); n > 0 && ts[i]-out[n-1][1] < Coincident {
			out[n-1][1] = ts[i+1] // the line passes a vertex
			continue
		}
		if ts[i+1]-ts[i] >= Coincident {
			out = append(out, [2]float64{ts[i], ts[i+1]})
		}
	}
	return out
}

// chordCuts appends where s crosses the line through a along the unit vector u.
// Heights over the line decide, half open, on pieces that only rise or fall, so
// that a crossing at a joint is counted once.
func chordCuts(s Seg, a Point, u Vec, ts []float64) []float64 {
	high := func(p Point) float64 { return u.Cross(p.Sub(a)) }
	if s.Turn == 0 {
		h, k := high(s.A), high(s.B)
		if (h > 0) == (k > 0) {
			return ts
		}
		t := h / (h - k)
		return append(ts, s.A.Lerp(s.B, t).Sub(a).Dot(u))
	}
	c, m := high(s.Center), s.Center.Sub(a).Dot(u)
	if math.Abs(c) > s.Radius+Coincident {
		return ts
	}
	start, sweep := float64(s.A.Sub(s.Center).Angle()-u.Angle()), float64(s.Sweep())
	// The arc turns over where its direction from the centre is square to u.
	var at [6]float64
	n := 1
	for k := -3; k <= 3 && n < 5; k++ {
		if t := (math.Pi/2 + float64(k)*math.Pi - start) / sweep; t > 1e-12 && t < 1-1e-12 {
			at[n] = t
			n++
		}
	}
	sort.Float64s(at[1:n])
	at[n] = 1
	for i := 0; i < n; i++ {
		h, k := c+s.Radius*math.Sin(start+at[i]*sweep), c+s.Radius*math.Sin(start+at[i+1]*sweep)
		if i == 0 {
			h = high(s.A) // the same number as the neighbour's
		}
		if i == n-1 {
			k = high(s.B)
		}
		if (h > 0) == (k > 0) {
			continue
		}
		side := math.Cos(start + (at[i]+at[i+1])/2*sweep)
		t := m + math.Copysign(math.Sqrt(max(0, s.Radius*s.Radius-c*c)), side)
		ts = append(ts, t)
	}
	return ts
}
