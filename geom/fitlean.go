package geom

// leans are the shares of the best angle (see turned) at which a node may be
// crossed. Where the change of curvature changes itself, others than the whole of
// it let the next biarc, or the one before, reach farther.
var leans = []float64{1, 0.6}

// ratios are those of the tangent lengths that are tried: where the change of
// curvature changes itself, the two arcs of a biarc should not be alike.
var ratios = []float64{1, 0.8, 1.25, 0.6, 1.67}

// leaningMost is the number of arcs of a fit up to which leaning is tried: it saves
// some four in a hundred for three times the time, an outline's worth of which is
// some hundredths of a second.
const leaningMost = 400

// reached is a node that a number of biarcs reach, the last of them, and the node
// before it.
type reached struct {
	at   station
	next int // the first station after it
	segs pair
	from *reached
}

// leaning returns the biarcs along s, each as long as it can be, with the choice of
// the angle at every node and of the ratio of every biarc: for each number of biarcs the farthest node is kept for
// each lean, and of the chains that first reach the end one is returned; nil if
// none does. Some twenty times the cost of greedy.
func (f *fitter) leaning(s section) Path {
	defer func() { f.lean, f.ratio = 1, 1 }()
	f.guess, f.plain = 8, false
	front := []*reached{{at: s[0], next: 1}}
	for len(front) > 0 {
		var ahead []*reached
		for _, lean := range leans {
			f.lean = lean
			var far *reached
			for _, r := range front {
				for _, f.ratio = range ratios {
					b, next, segs := f.longest(s, r.at, r.next)
					if segs.n > 0 && (far == nil || b.s > far.at.s) {
						far = &reached{b, next, segs, r}
					}
				}
			}
			switch {
			case far == nil:
			case far.next == len(s):
				return far.path()
			default:
				ahead = append(ahead, far)
			}
		}
		front = ahead
	}
	return nil
}

// path returns all biarcs up to r.
func (r *reached) path() Path {
	if r.from == nil {
		return nil
	}
	return append(r.from.path(), r.segs.path()...)
}
