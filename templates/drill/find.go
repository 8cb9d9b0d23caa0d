package drill

import (
	"cmp"
	"math"
	"runtime"
	"slices"
	"sync"
	"sync/atomic"

	"routwright/geom"
	"routwright/templates/part"
)

// Steps of the search: along the wall in mm, round the compass and down in
// degrees. The first pass is coarse; the second finds what only fits there.
var passes = []struct {
	along float64
	turn  int // steps a degree
}{{1, 1}, {0.5, 1}}

const (
	flattest, steepest = 1, 75 // degrees of a drill to the face
	// deeper is the step of the entry's depth in mm, within what the rim, the
	// cavities and the faces allow.
	deeper = 1.0
	// room is what a path that wants no warning leaves at the rim and under the
	// chuck, mm; common practice: a long drill bends.
	room = 1.0
)

// line is a direction of a drill in plan: from a place of the wall, so far
// through the wood to the other void, so far back to the rim.
type line struct {
	at       geom.Point
	u        geom.Vec
	run, rim float64
	back     bool
	pass     []span // of the voids that it runs through
}

// span is a stretch of a direction in a void on the way, and the void's depths.
type span struct{ near, far, top, floor float64 }

// Find returns the path through the least wood that keeps to the rules: with the
// wood that warnings ask for if there is one, else with the least. ok is false
// when the search finds none. Deterministic.
func Find(a, b Void, r Rules) (Path, bool) {
	fences := [2][]fence{r.fences(false), r.fences(true)}
	for _, s := range passes {
		lines := r.bothWays(a, b, s.along, s.turn)
		order := make([]int, len(lines))
		for i := range order {
			order[i] = i
		}
		slices.SortFunc(order, func(i, k int) int {
			return cmp.Or(cmp.Compare(lines[i].run, lines[k].run), cmp.Compare(i, k))
		})
		var second Path
		have := false
		try := func(i int) (t trial) {
			l := lines[i]
			from, to := a, b
			if l.back {
				from, to = b, a
			}
			if !r.measure(&l, from, to) || !r.possible(l, from, to, s.turn) {
				return t
			}
			if t.first, t.found = r.along(l, from, to, s.turn, true, fences[1]); !t.found && !have {
				t.second, t.have = r.along(l, from, to, s.turn, false, fences[0])
			}
			return t
		}
		// Several directions at a time, on all processors, but judged in order: what
		// comes after the first that serves was tried in vain. So few at first.
		most := 1
		if n := runtime.GOMAXPROCS(0); n > 1 {
			most = 16 * n
		}
		for n := min(2, most); len(order) > 0; n = min(2*n, most) {
			n = min(n, len(order))
			for _, t := range tryAll(order[:n], try) {
				if t.found {
					return t.first, true
				}
				if !have && t.have {
					second, have = t.second, true
				}
			}
			order = order[n:]
		}
		if have {
			return second, true
		}
	}
	return Path{}, false
}

// trial is what a direction has to offer: a path that no warning is said of, else
// one that keeps to the limits.
type trial struct {
	first, second Path
	found, have   bool
}

// tryAll tries directions on all processors.
func tryAll(which []int, try func(i int) trial) []trial {
	out := make([]trial, len(which))
	var wg sync.WaitGroup
	var next atomic.Int64
	work := func() {
		for i := int(next.Add(1)) - 1; i < len(which); i = int(next.Add(1)) - 1 {
			out[i] = try(which[i])
		}
	}
	for range min(len(which), runtime.GOMAXPROCS(0)) - 1 {
		wg.Go(work)
	}
	work()
	wg.Wait()
	return out
}

// bothWays returns the directions from a to b, then those from b to a.
func (r Rules) bothWays(a, b Void, step float64, turn int) []line {
	var there, back []line
	var wg sync.WaitGroup
	wg.Go(func() { back = r.lines(b, a, step, turn, true) })
	there = r.lines(a, b, step, turn, false)
	wg.Wait()
	return append(there, back...)
}

// fence is the plan of a level obstacle grown by grow, in which a path must keep
// high or deep enough: by up over its top or under its floor. Where the axis
// runs within grow of the plan, the obstacle is nearer than hypot(grow, up) where
// it is not so. A fence that is kept says nothing; one that is not saves the
// measuring.
type fence struct {
	plan       geom.Region
	box        geom.Box
	top, floor float64
	up         float64
}

func (r Rules) fences(warn bool) []fence {
	var out []fence
	var c geom.Calc
	for _, o := range r.Obstacles {
		d := r.D/2 + o.Stop
		if warn {
			d = r.D/2 + o.Warn
		}
		for _, s := range o.Body.Part.Solids {
			if !s.Top.Level() || !s.Floor.Level() {
				continue
			}
			for _, k := range [3]float64{0, 0.7, 0.95} {
				plan := s.Plan
				if k > 0 {
					plan = c.Offset(s.Plan, k*d, geom.Round)
				}
				out = append(out, fence{plan, plan.Bounds(), s.Top.Z, s.Floor.Z, d * math.Sqrt(1-k*k)})
			}
		}
	}
	if c.Err() != nil {
		return nil
	}
	return out
}

// gate is a stretch of a direction over which a fence holds: a drill that enters
// d below its face and falls t a mm is too near if d lies between high − far·t
// and low − near·t.
type gate struct{ near, far, high, low float64 }

// gates returns the gates of a direction, in depths from the face that the drill
// comes from.
func (r Rules) gates(l line, from Void, fences []fence) []gate {
	var out []gate
	end := l.at.Add(l.u.Mul(l.run))
	box := geom.BoxOf(l.at, end)
	for i := range fences {
		f := &fences[i]
		if !f.box.Overlaps(box) {
			continue
		}
		ts := Ray(f.plan, l.at, l.u, 0)
		if len(ts)%2 == 1 {
			ts = append([]float64{0}, ts...)
		}
		high, low := f.top-f.up, f.floor+f.up
		if from.Face == part.Back {
			high, low = r.Thickness-low, r.Thickness-high
		}
		for k := 0; k+1 < len(ts) && ts[k] < l.run; k += 2 {
			out = append(out, gate{ts[k], min(ts[k+1], l.run), high, low})
		}
	}
	return out
}

// through returns the least depth from d on that no gate forbids at a fall of t a
// mm.
func through(gates []gate, d, t float64) float64 {
	for again := true; again; {
		again = false
		for _, g := range gates {
			lo := g.high - max(g.near*t, g.far*t)
			hi := g.low - min(g.near*t, g.far*t)
			if d > lo+1e-9 && d < hi-1e-9 {
				d, again = hi, true
			}
		}
	}
	return d
}

// lines returns the directions from the wall of one void to the other, not yet
// measured.
func (r Rules) lines(from, to Void, step float64, turn int, back bool) []line {
	var out []line
	var ts []float64
	box := to.Plan.Bounds().Grow(r.D)
	each := func(at geom.Point, square geom.Vec) {
		for _, deg := range bearing(at, box, turn) {
			u := (geom.Angle(deg) / geom.Angle(turn) * geom.Degree).Unit()
			if square != (geom.Vec{}) && u.Dot(square) < math.Cos(float64(Skew))-1e-9 {
				continue
			}
			// An odd number of crossings: over it already, no wall between.
			if ts = ray(ts[:0], to.Plan, at, u, 0); len(ts) > 0 && len(ts)%2 == 0 {
				out = append(out, line{at: at, u: u, run: ts[0], back: back})
			}
		}
	}
	if from.Plate {
		box := from.Plan.Bounds()
		for x := box.Min.X + step/2; x < box.Max.X; x += 4 * step {
			for y := box.Min.Y + step/2; y < box.Max.Y; y += 4 * step {
				if p := geom.Pt(x, y); from.Plan.Contains(p) {
					each(p, geom.Vec{})
				}
			}
		}
		return out
	}
	for _, loop := range from.Plan {
		for _, e := range loop {
			n := max(1, math.Floor(e.Length()/step))
			for i := 0.0; i < n; i++ {
				t := (i + 0.5) / n
				square := e.Tangent(t).Left().Neg()
				if (from.Side || from.Open) && square.Dot(e.At(t).Sub(from.Mouth)) < e.At(t).Dist(from.Mouth)*0.7 {
					continue // only its end, seen from its mouth
				}
				each(e.At(t), square)
			}
		}
	}
	return out
}

// bearing returns the whole steps of the compass from p that a box spans.
func bearing(p geom.Point, box geom.Box, turn int) []int {
	if box.Contains(p) {
		all := make([]int, 360*turn)
		for i := range all {
			all[i] = i
		}
		return all
	}
	mid := box.Center().Sub(p).Angle()
	lo, hi := 0.0, 0.0
	for _, c := range [4]geom.Point{box.Min, box.Max, {X: box.Min.X, Y: box.Max.Y}, {X: box.Max.X, Y: box.Min.Y}} {
		d := math.Remainder(float64(c.Sub(p).Angle()-mid), 2*math.Pi)
		lo, hi = min(lo, d), max(hi, d)
	}
	k := float64(turn) / float64(geom.Degree)
	var out []int
	for i := math.Ceil((float64(mid) + lo) * k); i <= (float64(mid)+hi)*k; i++ {
		out = append(out, int(i))
	}
	return out
}

// measure looks at a direction in plan; false when the drill does not run from
// the one void into the other that way with its full width.
func (r Rules) measure(l *line, from, to Void) bool {
	l.rim = math.Inf(1)
	const off = 1e-6 // off the wall itself
	if !from.Plate {
		if own := Ray(from.Plan, l.at, l.u, off); len(own) > 0 && own[0] < l.run {
			return false // through the same void again
		}
	}
	side := l.u.Left().Mul(r.D / 2)
	for _, o := range [2]geom.Point{l.at.Add(side), l.at.Add(side.Neg())} {
		if len(Ray(to.Plan, o, l.u, 0)) == 0 {
			return false
		}
	}
	l.pass = nil
	for _, v := range r.Through {
		s := span{near: math.Inf(1), far: math.Inf(-1), top: v.Top, floor: v.Floor}
		for _, o := range [3]geom.Point{l.at, l.at.Add(side), l.at.Add(side.Neg())} {
			ts := Ray(v.Plan, o, l.u, 0)
			if len(ts) < 2 || len(ts)%2 == 1 || ts[1] > l.run {
				return false
			}
			s.near, s.far = min(s.near, ts[0]), max(s.far, ts[1])
		}
		l.pass = append(l.pass, s)
	}
	if from.Plate {
		l.rim = 0
		return true
	}
	rim, ok := rimBehind(l.at, l.u, from, r.D)
	l.rim = rim
	return ok
}

// rimBehind returns how far behind a place of the wall the rim lies, over the
// width of a drill; ok is false where the drill does not lie in the void.
func rimBehind(at geom.Point, u geom.Vec, from Void, d float64) (float64, bool) {
	rim := math.Inf(1)
	side := u.Left().Mul(d / 2)
	for i, o := range [3]geom.Point{at.Add(u.Mul(-1e-6)), at.Add(side), at.Add(side.Neg())} {
		ts := Ray(from.Plan, o, u.Neg(), 0)
		if len(ts)%2 == 0 && i > 0 { // starts in the wood beside the wall
			if len(ts) == 0 || ts[0] > d*math.Tan(float64(Skew)) {
				return 0, false
			}
			ts = ts[1:]
		}
		if len(ts) == 0 {
			return 0, false
		}
		rim = min(rim, ts[0])
	}
	// A corner between the three.
	for _, loop := range from.Plan {
		for _, e := range loop {
			v := e.A.Sub(at)
			if x := -v.Dot(u); math.Abs(v.Cross(u)) < d/2 && x > d && x < rim {
				rim = x
			}
		}
	}
	return rim, true
}

// along tries the angles and depths of one direction, the flattest first.
func (r Rules) along(l line, from, to Void, turn int, warn bool, fences []fence) (Path, bool) {
	clear, spare := r.Stop, 0.0
	if warn {
		clear, spare = r.Warn, room
	}
	lo, hi := r.angles(l, from, clear, turn)
	var gates []gate
	ready := false
	for k := lo; k <= hi; k++ {
		phi := float64(k) / float64(turn) * float64(geom.Degree)
		least, most := r.depths(l, from, to, phi, clear, spare)
		if least > most {
			continue
		}
		if !ready {
			gates, ready = r.gates(l, from, fences), true
		}
		t := math.Tan(phi)
		for d := through(gates, least, t); d <= most+1e-9; d = through(gates, d+deeper, t) {
			if p := r.path(l, from, d, phi); r.keeps(p, from, to, warn) {
				return p, true
			}
		}
	}
	return Path{}, false
}

// possible reports whether a direction has a depth at any angle, obstacles aside.
func (r Rules) possible(l line, from, to Void, turn int) bool {
	lo, hi := r.angles(l, from, r.Stop, turn)
	for k := lo; k <= hi; k++ {
		if least, most := r.depths(l, from, to, float64(k)/float64(turn)*float64(geom.Degree), r.Stop, 0); least <= most {
			return true
		}
	}
	return false
}

// angles returns between which steps of the angle a direction is worth trying:
// flatter ones do not clear the rim with the shallowest entry, steeper ones come
// out of the other face.
func (r Rules) angles(l line, from Void, clear float64, turn int) (lo, hi int) {
	if from.Side {
		return -15 * turn, 15 * turn // a hole at the edge lets a drill no steeper through; common practice
	}
	steps := float64(turn) / float64(geom.Degree)
	lo, hi = flattest*turn, steepest*turn
	if from.Open {
		lo = 0
	}
	if from.Plate {
		lo = max(lo, int(math.Ceil((90-Skew.Degrees())*float64(turn)-1e-9))) // flatter it skids on the face
	} else if !from.Open {
		// ℓ·tan φ ≥ d + q/2 with the shallowest d.
		lo = max(lo, int(math.Atan((r.D+clear)/l.rim)*steps))
	}
	return lo, min(hi, int(math.Atan((r.Thickness-r.D-clear)/l.run)*steps)+1)
}

// depths returns between which depths below its own face a drill at angle phi
// may enter: by the faces, the walls of both voids, the rim and the chuck. Empty
// when least is over most. spare is left at the rim and under the chuck.
func (r Rules) depths(l line, from, to Void, phi, clear, spare float64) (least, most float64) {
	sin, cos := math.Sincos(phi)
	tan := sin / cos
	half, fall := r.D/(2*cos), l.run*tan
	own := func(v Void) (float64, float64) { // its depths from the face of from
		if from.Face == part.Back {
			return r.Thickness - v.Floor, r.Thickness - v.Top
		}
		return v.Top, v.Floor
	}
	top, floor := own(to)
	least = max(r.D/2+clear, top+half-fall)
	most = min(floor-half-fall, r.Thickness-r.D/2-clear-fall)
	for _, s := range l.pass {
		top, floor := own(Void{Top: s.top, Floor: s.floor})
		least = max(least, top+half-min(s.near*tan, s.far*tan))
		most = min(most, floor-half-max(s.near*tan, s.far*tan))
	}
	if from.Plate {
		if top+half-fall > 0 || most < 0 {
			return 1, 0
		}
		return 0, 0
	}
	ftop, ffloor := own(from)
	least = max(least, ftop+half)
	most = min(most, ffloor-half)
	if from.Side {
		// Within the hole at its mouth too.
		back := l.at.Dist(from.Mouth) * tan
		return max(least, ftop+half+back), min(most, ffloor-half+back)
	}
	if from.Open {
		return least, most
	}
	most = min(most, l.rim*tan-half-spare)
	return least, min(most, r.Length*sin-fall-r.Chuck/2*cos-spare)
}

// path returns the path of a direction at an angle and a depth below the face
// that the drill comes from.
func (r Rules) path(l line, from Void, d, phi float64) Path {
	z, fall := d, l.run*math.Tan(phi)
	if from.Face == part.Back {
		z, fall = r.Thickness-d, -fall
	}
	end := l.at.Add(l.u.Mul(l.run))
	return Path{
		From: part.Point{X: l.at.X, Y: l.at.Y, Z: z}, To: part.Point{X: end.X, Y: end.Y, Z: z + fall},
		Back: l.back, Rim: l.rim, Entry: d,
	}
}

// keeps reports whether a path keeps away from everything by what the rules ask
// for: what Judge finds, stopping at the first. The depths see to the faces.
func (r Rules) keeps(p Path, from, to Void, warn bool) bool {
	if p.ChuckClear(from, r) < 0 {
		return false
	}
	axis, half := r.axis(p), r.D/2
	for _, o := range r.Obstacles {
		clear := o.Stop
		if warn {
			clear = o.Warn
		}
		if d, _ := o.gap(axis, half, clear); d < clear-1e-9 {
			return false
		}
	}
	clear := r.Stop
	if warn {
		clear = r.Warn
	}
	return r.Edge == nil || r.Edge.Far(p.From.Flat(), p.To.Flat(), clear+half) || axis.ToEdge(r.Edge).D-half >= clear-1e-9
}

// Given returns the path between two places that the builder names, with what it
// needs to be judged: the first on the wall of from.
func Given(from, to part.Point, start, end Void, d, thickness float64) (Path, bool) {
	p := Path{From: from, To: to, Rim: math.Inf(1), Entry: from.Z}
	if start.Face == part.Back {
		p.Entry = thickness - from.Z
	}
	switch {
	case start.Plate:
		p.Rim = 0
	case !start.Side && !start.Open:
		rim, ok := rimBehind(from.Flat(), p.Heading(), start, d)
		if !ok {
			return p, false
		}
		p.Rim = rim
	}
	return p, true
}
