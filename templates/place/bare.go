package place

import "math"

// bare fills in the covered length and the stretches without a key.
func (s *Set) bare(l Line, all []Station, r Rules) {
	half := r.KeyLength / 2
	at := 0.0
	gap := func(from, to float64) {
		if to-from < 1 { // shorter than a station apart
			return
		}
		st := Stretch{From: from, To: to}
		mid, near := (from+to)/2, math.Inf(1)
		for _, x := range all {
			if d := math.Abs(x.S - mid); x.Block != nil && d < near && x.S >= from-half && x.S <= to+half {
				st.Block, near = x.Block, d
			}
		}
		s.Bare = append(s.Bare, st)
	}
	for _, k := range s.Keys {
		lo, hi := max(at, k.S-k.half(r)), min(l.Length(), k.S+k.half(r))
		gap(at, lo)
		if hi > lo {
			s.Covered += hi - lo
		}
		at = max(at, hi)
	}
	gap(at, l.Length())
}
