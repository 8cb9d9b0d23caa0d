package geom

// flattenError is how far the chords of the last resort keep from their arcs, in
// mm: a tenth of Budget.
const flattenError = Budget / 10

// addChords adds an arc as chords of one source.
func (a *arrangement) addChords(s Seg) {
	if a.arcs == nil {
		a.arcs = map[int32]Seg{}
	}
	a.arcs[a.given] = s
	// Under a ten-millionth of the radius there would be no end of chords.
	ps := Path{s}.Flatten(max(flattenError, 1e-7*s.Radius))
	for i := 1; i < len(ps); i++ {
		a.push(Line(ps[i-1], ps[i]))
	}
}

// refitted returns r with arcs for the runs of chords that stand for them, or r
// itself should the arcs cross something that the chords do not.
func (a *arrangement) refitted(r Region) Region {
	out := make(Region, len(r))
	for i, p := range r {
		out[i] = a.refitLoop(p, a.sources[i])
	}
	if out.Check() != nil {
		return r
	}
	return out
}

// refitLoop joins the chords of p that follow one another on one arc.
func (a *arrangement) refitLoop(p Path, src []int32) Path {
	var out Path
	last := int32(0)
	for k, s := range p {
		arc, ok := a.arcs[src[k]]
		if !ok {
			out, last = append(out, s), 0
			continue
		}
		m := arc
		m.A, m.B, m.Turn = s.A, s.B, 1
		if s.A.Sub(arc.Center).Cross(s.B.Sub(arc.Center)) < 0 {
			m.Turn = -1
		}
		m = m.onEnds()
		if n := len(out); n > 0 && last == src[k] && out[n-1].Turn == m.Turn {
			// Less than a half turn so far, or the ends do not settle the centre.
			whole := out[n-1]
			whole.B = m.B
			if v, w := whole.A.Sub(arc.Center), whole.B.Sub(arc.Center); v.Cross(w)*float64(m.Turn) > 0 {
				out[n-1] = whole.onEnds()
				continue
			}
		}
		out, last = append(out, m), src[k]
	}
	if len(out) < 2 {
		return p
	}
	return out
}
