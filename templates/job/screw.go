package job

import (
	"fmt"
	"math"

	"routwright/geom"
	"routwright/templates/design"
	"routwright/templates/limit"
	"routwright/templates/part"
	"routwright/templates/wood"
)

const (
	bossWidth    = 10.0 // of the ledge at a screw, mm; common practice
	bossHollow   = 15.0 // least radius of the hollows between bosses, mm; common practice
	screwGauge   = 4    // of a cover's screws; common practice
	screwLength  = 12.7 // half an inch; common practice
	screwPitch   = 75.0 // about a screw every so many mm round a cover; common practice
	leastScrews  = 3    // two let a cover tip
	screwBeside  = 2.0  // wood beside a screw's shank, mm; common practice
	screwNearest = 15.0 // between two screws, mm; common practice
	siteStep     = 1.0  // places tried, mm
	siteSlide    = 0.2  // of the pitch that a screw may leave its even place
	siteGain     = 0.4  // mm further out that a mm of that must gain
	sitesUneven  = 1.5  // times the even pitch that two neighbours may be apart
)

// WoodUnder returns how much wood lies under a point at depth z, mm, towards the
// front: down to the first void that comes within wall mm of its axis, or to
// the front. Voids of the named group do not count. The part is the void, if
// one ends the wood.
func (j *Job) WoodUnder(p geom.Point, z, wall float64, group string) (left float64, by *part.Part) {
	left = z
	for i := range j.Parts {
		v := &j.Parts[i]
		if v.Adds || v.Kind == part.Recess || v.Group == group { // a recess is filled with wood
			continue
		}
		for _, b := range v.Solids {
			if _, d := geom.IndexOf(b.Plan).Closest(p); d >= wall && !b.Plan.Contains(p) {
				continue
			}
			if top, floor := b.Top.At(p), b.Floor.At(p); top < z {
				if w := math.Max(0, z-floor); w < left {
					left, by = w, v
				}
			}
		}
		for _, b := range v.Bores {
			near, slope := b.From, 0.0
			if !b.Square() {
				near, slope = b.Nearest(p)
			}
			if near.Flat().Dist(p) >= wall+b.D/2 {
				continue
			}
			top, floor := math.Min(b.From.Z, b.To.Z), math.Max(b.From.Z, b.To.Z)
			if !b.Square() { // the hole as high as it stands there, over the width that counts
				half := b.D/2*math.Hypot(1, slope) + (wall+b.D/2)*slope
				top, floor = math.Max(top-b.D/2, near.Z-half), math.Min(floor+b.D/2, near.Z+half)
			}
			if top < z {
				if w := math.Max(0, z-floor); w < left {
					left, by = w, v
				}
			}
		}
	}
	return left, by
}

// beside is a void that a screw keeps away from.
type beside struct {
	part  part.Part
	index *geom.Index
}

// site judges places for the screws of one cover.
type site struct {
	s       *solver
	l       *lid
	radius  float64 // of the shank
	grip    float64 // length of screw in the wood
	outline *geom.Index
	cavity  *geom.Index
	voids   []beside // of the depths of the rebate
	keys    []geom.Region
}

// hindrance is what forbids a screw at a place; the zero one is none.
type hindrance struct {
	by         string
	have, need float64
}

// blocked returns what forbids a screw at p. With warn set the checks' warnings
// count as well as their stops.
func (t *site) blocked(p geom.Point, warn bool) hindrance {
	edge, apart := limit.VoidToOutline.Stop, limit.VoidToVoid.Stop
	if warn {
		edge, apart = limit.VoidToOutline.Warn, limit.VoidToVoid.Warn
	}
	boss := t.s.bossRadius(t.l)
	if t.outline != nil {
		if _, d := t.outline.Closest(p); d < edge+boss || !t.outline.Contains(p) {
			return hindrance{"the edge of the body", d, edge + boss}
		}
	}
	if _, d := t.cavity.Closest(p); d < t.radius+screwBeside-geom.Coincident || t.cavity.Contains(p) {
		return hindrance{"the cavity", d, t.radius + screwBeside}
	}
	for _, v := range t.voids {
		if _, d := v.index.Closest(p); d < apart+boss || v.index.Contains(p) {
			return hindrance{v.part.String(), d, apart + boss}
		}
	}
	need := math.Max(limit.ScrewWood.Stop, t.grip+limit.ScrewTip.Stop)
	if left, by := t.s.WoodUnder(p, t.s.Thickness-t.l.deep, t.radius+screwBeside, t.l.group); left < need {
		under := "the front"
		if by != nil {
			under = by.String()
		}
		return hindrance{under + " under it", left, need}
	}
	for _, k := range t.keys {
		if d := edgeDistance(k, p); d < limit.ScrewToKey.Stop || k.Contains(p) {
			return hindrance{"a key", d, limit.ScrewToKey.Stop}
		}
	}
	return hindrance{}
}

func edgeDistance(r geom.Region, p geom.Point) float64 {
	_, d := geom.IndexOf(r).Closest(p)
	return d
}

// newSite gathers what the screws of a cover keep away from.
func (s *solver) newSite(l *lid, radius, grip float64) *site {
	t := &site{s: s, l: l, radius: radius, grip: grip, cavity: geom.IndexOf(l.cavity)}
	if s.Outline != nil {
		t.outline = geom.IndexOf(s.Outline)
	}
	top := s.Thickness - l.deep
	for _, v := range s.Voids() {
		if _, floor := v.Range(); v.Group != l.group && floor > top {
			t.voids = append(t.voids, beside{v, geom.IndexOf(v.Plan())})
		}
	}
	// Keys are let in after the cavities. Those placed by hand are known, each
	// lies inside its box; those that the program places keep off the rebate.
	d := s.d.Keys
	half := func(v design.Val[design.Length], def float64) float64 {
		if v.Set() {
			def = float64(v.V)
		}
		return def/2 + float64(d.Border.V+d.GlueLine.V)
	}
	x, y := half(d.Length, defaultKeyLength), half(d.Ends, defaultKeyEnds)
	depth := s.Thickness / 4
	if d.Depth.Set() {
		depth = float64(d.Depth.V)
	}
	for _, e := range s.d.Key {
		back := e.Face.V == "back" || !e.Face.Set() && d.Face.V == "back"
		if !back && top-grip > depth+limit.ScrewToKey.Stop {
			continue // far above it
		}
		place := geom.Pose(e.At.V, geom.Angle(e.Angle.V)*geom.Degree)
		t.keys = append(t.keys, geom.Region{place.Path(geom.Rect(geom.Pt(0, 0), 2*x, 2*y))})
	}
	return t
}

// coverScrews returns the places of a cover's screws: those given, or solved.
func (s *solver) coverScrews(l *lid) ([]geom.Point, bool) {
	s.screwOf(l)
	t := s.newSite(l, wood.ScrewDiameter(l.gauge)/2, l.long-l.thick)
	if t.grip <= 0 {
		s.fail(l.Table.At, l.key+".screw.length",
			fmt.Sprintf("%s mm through a cover of %s mm", design.MM(l.long), design.MM(l.thick)),
			fmt.Sprintf("a screw that holds in at least %s mm of wood", design.MM(limit.ScrewWood.Stop)),
			"use longer screws")
		return nil, false
	}
	if v := l.Screw.At; v.Set() {
		for i, p := range v.V {
			if _, d := t.cavity.Closest(p); d < t.radius || t.cavity.Contains(p) {
				s.fail(v.At, fmt.Sprintf("%s.screw.at %d", l.key, i+1),
					fmt.Sprintf("x %s, y %s, over the cavity", design.MM(p.X), design.MM(p.Y)), "a place on the ledge",
					fmt.Sprintf("move it at least %s mm away from the cavity", design.MM(t.radius+screwBeside)))
				return nil, false
			}
		}
		return v.V, true
	}
	// The ledge is wider at the screws: where it is cut, they stand there.
	for _, mark := range []design.Val[bool]{l.Screw.Cut, l.Cover.Cutter.Done} {
		was, made := s.held(part.Screw, design.Slug("screws "+l.name), mark)
		if !made || l.Screw.Count.Set() && l.Screw.Count.V != len(was.Bores) {
			continue
		}
		var at []geom.Point
		for _, b := range was.Bores {
			at = append(at, b.From.Flat())
		}
		s.solved(l.key+".screw.at", fmt.Sprintf("%d places", len(at)), asCut)
		return at, true
	}
	places, why := t.solve()
	if places == nil {
		s.fail(l.Table.At, l.key+".screw", "no places for its screws: "+why,
			fmt.Sprintf("wood of %s mm under each, clear of voids, keys and the edge",
				design.MM(math.Max(limit.ScrewWood.Stop, t.grip+limit.ScrewTip.Stop))),
			"give shorter screws or other places, screw = {length = …, at = [[x, y], …]}, or move the cavity")
		return nil, false
	}
	s.solved(l.key+".screw.at", fmt.Sprintf("%d places", len(places)),
		fmt.Sprintf("about one every %s mm, in wood that is thick enough; the ledge is %s mm wide there",
			design.MM(screwPitch), design.MM(math.Max(bossWidth, l.ledge))))
	return places, true
}

// screwOf settles gauge and length of a cover's screws.
func (s *solver) screwOf(l *lid) {
	l.gauge = screwGauge
	if l.Screw.Gauge.Set() {
		l.gauge = l.Screw.Gauge.V
	} else {
		s.assume(l.key+".screw.gauge", fmt.Sprint(l.gauge), "usual for a cover")
	}
	l.long = s.length(l.Screw.Length, l.key+".screw.length", screwLength, "half an inch")
}

// solve returns places round the ledge, as even as the wood allows and as far
// out as that leaves free, or why there are none.
func (t *site) solve() ([]geom.Point, string) {
	line, err := t.line()
	if err != nil {
		return nil, err.Error()
	}
	pts := along(line)
	whole := line.Length()
	want := max(leastScrews, int(math.Round(whole/screwPitch)))
	least := leastScrews
	if t.l.Screw.Count.Set() {
		want = t.l.Screw.Count.V
		least = want
	}
	why := ""
	for _, warn := range []bool{true, false} {
		free := make([]bool, len(pts))
		var met []hindrance
		for i, p := range pts {
			h := t.blocked(p, warn)
			if free[i] = h.by == ""; !free[i] {
				met = append(met, h)
			}
		}
		why = commonest(met, len(pts))
		for n := want; n >= least; n-- {
			if got := spread(pts, free, n); got != nil {
				return got, ""
			}
		}
	}
	return nil, why
}

// line returns the closed line that the screws stand on: the middle of the
// widened ledge, of a cover at hand half a boss inside its edge.
func (t *site) line() (geom.Path, error) {
	var c geom.Calc
	var r geom.Region
	if t.l.Outline.Set() {
		r = c.Offset(t.l.plan, -bossWidth/2, geom.Round)
	} else {
		r = c.Offset(t.l.cavity, math.Max(bossWidth, t.l.ledge)/2, geom.Round)
	}
	if err := c.Err(); err != nil {
		return nil, err
	}
	if r = solid(r); len(r) != 1 {
		return nil, fmt.Errorf("the ledge is no single ring")
	}
	return r[0], nil
}

// along returns points evenly along a closed line, about siteStep apart.
func along(p geom.Path) []geom.Point {
	n := int(math.Ceil(p.Length() / siteStep))
	step := p.Length() / float64(n)
	pts := make([]geom.Point, 0, n)
	at, next := 0.0, 0.0
	for _, e := range p {
		l := e.Length()
		for len(pts) < n && next < at+l {
			pts = append(pts, e.At((next-at)/l))
			next += step
		}
		at += l
	}
	return pts
}

// commonest says what stood in the way of most of the places tried, with the
// best that it left.
func commonest(met []hindrance, tried int) string {
	count := map[string]int{}
	best := hindrance{}
	for _, h := range met {
		count[h.by]++
		if n, m := count[h.by], count[best.by]; best.by == "" || n > m {
			best = h
		}
	}
	if best.by == "" {
		return "the ledge is too short for so many"
	}
	for _, h := range met {
		if h.by == best.by {
			best.have = math.Max(best.have, h.have)
		}
	}
	return fmt.Sprintf("%s forbids %d of %d places tried: %s mm at most, %s needed", best.by, count[best.by], tried,
		design.MM(best.have), design.MM(best.need))
}

// spread returns n free points of an even closed row, near even places, each as
// far from the middle as a slide of a fifth of the pitch allows; of all turns of
// the row the one that stands furthest out. nil where the wood does not allow
// it.
func spread(pts []geom.Point, free []bool, n int) []geom.Point {
	m := len(pts)
	if n < 1 || m < n {
		return nil
	}
	mid := geom.BoxOf(pts...).Center()
	pitch := float64(m) / float64(n)
	slide := int(pitch * siteSlide)
	var best []geom.Point
	far := 0.0
	for turn := 0; turn < int(math.Ceil(pitch)); turn++ {
		got := make([]int, 0, n)
		sum := 0.0
		for k := range n {
			i, ok := nearPlace(pts, free, mid, int(math.Round(float64(turn)+float64(k)*pitch))%m, slide, int(pitch/2))
			if !ok {
				break
			}
			got = append(got, i)
			sum += pts[i].Dist(mid)
		}
		if len(got) == n && evenly(pts, got, pitch) && (best == nil || sum > far+geom.Coincident) {
			far, best = sum, nil
			for _, i := range got {
				best = append(best, pts[i])
			}
		}
	}
	return best
}

// nearPlace returns the free point within slide of i that stands furthest from
// mid, less siteGain for each mm that it leaves its even place by; else the nearest
// free one within reach.
func nearPlace(pts []geom.Point, free []bool, mid geom.Point, i, slide, reach int) (at int, ok bool) {
	m := len(pts)
	best := 0.0
	for d := 0; d <= reach && (d <= slide || !ok); d++ {
		for _, j := range [2]int{i + d, i - d} {
			j = (j%m + m) % m
			if far := pts[j].Dist(mid) - siteGain*float64(d)*siteStep; free[j] && (!ok || far > best+geom.Coincident) {
				at, best, ok = j, far, true
			}
		}
	}
	return at, ok
}

// evenly reports whether neighbours of a closed row are neither too near nor too
// far apart.
func evenly(pts []geom.Point, row []int, pitch float64) bool {
	m := len(pts)
	for k, i := range row {
		j := row[(k+1)%len(row)]
		gap := ((j-i)%m + m) % m
		if len(row) > 1 && (float64(gap) > pitch*sitesUneven || pts[i].Dist(pts[j]) < screwNearest) {
			return false
		}
	}
	return true
}

// addScrews adds the pilot holes of a cover's screws to the job and the holes
// that they pass to the cover.
func (s *solver) addScrews(l *lid, cover *part.Part, places []geom.Point) {
	if len(places) == 0 {
		return
	}
	density := 0.0
	if w, err := wood.Lookup(s.d.Slab.Wood.V); err == nil {
		density = w.Density
	}
	pilot, err := wood.Pilot(l.gauge, density)
	if err != nil {
		s.fail(l.Screw.Gauge.At, l.key+".screw.gauge", fmt.Sprint(l.gauge), err.Error(), "name a gauge of the charts")
		return
	}
	shank := math.Round(wood.ScrewDiameter(l.gauge)*10) / 10
	p := part.Part{ID: s.id("screws " + l.name), Name: l.name, Kind: part.Screw, Face: part.Back, Group: l.group,
		At: l.Table.At}
	seat := s.Thickness - l.deep
	for _, q := range places {
		p.Bores = append(p.Bores, part.Bore{From: part.Point{X: q.X, Y: q.Y, Z: seat},
			To: part.Point{X: q.X, Y: q.Y, Z: seat - math.Max(0, l.long-l.thick)}, D: pilot,
			Words: fmt.Sprintf("cover screw, gauge %d, pilot", l.gauge)})
		cover.Bores = append(cover.Bores, part.Bore{From: part.Point{X: q.X, Y: q.Y, Z: s.Thickness},
			To: part.Point{X: q.X, Y: q.Y, Z: s.Thickness - l.thick}, D: shank,
			Words: fmt.Sprintf("cover screw, gauge %d, through", l.gauge)})
	}
	s.Parts = append(s.Parts, s.settle(p, l.Screw.Cut))
	s.solved(l.key+".screw pilot", design.MM(pilot)+" mm", "gauge "+fmt.Sprint(l.gauge)+"; "+wood.PilotSource)
}
