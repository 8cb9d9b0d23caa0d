package job

import (
	"fmt"
	"math"

	"routwright/geom"
	"routwright/templates/design"
	"routwright/templates/limit"
	"routwright/templates/part"
	"routwright/templates/space"
)

// EdgeBit is the bit that rounds or chamfers the edge, and where it cannot reach.
type EdgeBit struct {
	Words   string  // "roundover 4 mm, bearing 12.7 mm"
	Bearing float64 // diameter, mm
	Missed  geom.Region
	// Missed lies outside the outline, in the inside curves that the bearing
	// bridges: there the edge is finished by hand.
}

// Contour is a bevel, cut or carved area with what is drawn of it. Its wood is
// the part of kind part.Contour with its ID.
type Contour struct {
	ID, Kind string
	Face     part.Face
	Plan     geom.Region
	Depth    float64 // at the deepest, mm
	Deepest  geom.Point
	Levels   []ContourLevel
	// Facets are level strips or planes that stand for a curved section; Out is
	// how much deeper than the curve they lie at most.
	Facets int
	Out    float64
	// Of a bevel or cut: the place on the outline that it is measured from, the
	// direction into the body, how far it runs that way, and its profile there:
	// depths at distances from the inner line.
	At      geom.Point
	In      geom.Vec
	Profile []geom.Point
}

// ContourLevel is a line of equal depth on the face, to be drawn on the wood.
type ContourLevel struct {
	Depth float64
	Lines []geom.Path
}

const (
	// facetOut is how much deeper than a round section its facets may lie: less
	// than a rasp leaves; common practice.
	facetOut = 0.1
	// levelStep is the least depth between lines of equal depth; common practice:
	// two or three strokes of a rasp.
	levelStep = 2.0
)

// steepestBevel is the most depth over its run that a bevel may have: 45° for a
// flat one; a round one of half its run ends at 53°. Common practice: steeper it
// is no bevel but a step.
var steepestBevel = map[bool]float64{true: 1, false: 0.5}

// bevel is what is usual for a kind of contour: common practice, the middle of
// forearm 12–18 over 60–90 and belly 12–16 over 70–100.
type bevel struct {
	face            part.Face
	depth, reach, y float64
	span            float64 // 0: as the inner line makes it
	words           string
}

var bevels = map[string]bevel{
	"forearm": {part.Front, 15, 75, -40, 0, "usual for a forearm bevel"},
	"belly":   {part.Back, 14, 85, 90, 220, "usual for a belly cut"},
}

// edge solves what is done to the edge of the body.
func (s *solver) edge() {
	if s.Outline == nil {
		return
	}
	d := s.d.Body.Edge
	if d.Roundover.Set() && d.Chamfer.Set() {
		s.fail(d.Chamfer.At, "body.edge.chamfer", "a chamfer beside a roundover", "one of the two", "delete one of them")
		return
	}
	p := space.Profile{Roundover: float64(d.Roundover.V), Chamfer: float64(d.Chamfer.V)}
	s.Edge = space.NewEdge(s.Outline, s.Thickness, p, p)
	if p.Size() == 0 {
		return
	}
	at, words := d.Roundover.At, "roundover"
	if p.Chamfer > 0 {
		at, words = d.Chamfer.At, "chamfer"
	}
	bearing := s.length(d.Bearing, "body.edge.bearing", defaultEdgeBearing, "measure the bearing of the bit")
	height := s.length(d.Height, "body.edge.bearing_height", defaultEdgeHeight, "measure the bearing of the bit")
	if most := (s.Thickness - height) / 2; p.Size() > most {
		s.fail(at, "body.edge."+words, design.MM(p.Size())+" mm on both faces of "+design.MM(s.Thickness)+" mm", fmt.Sprintf("at most %s mm, so that the bearing, %s mm high, has an edge to run on", design.MM(most), design.MM(height)), "use a smaller bit")
		return
	}
	var c geom.Calc
	s.EdgeBit = &EdgeBit{
		Words:   fmt.Sprintf("%s %s mm, bearing %s mm", words, design.MM(p.Size()), design.MM(bearing)),
		Bearing: bearing,
		Missed:  c.Subtract(c.Close(s.Outline, bearing/2), s.Outline),
	}
	if err := c.Err(); err != nil {
		s.fail(at, "body.edge", err.Error(), "an outline that a bearing can follow", "change the measures of the body")
	}
}

// contours solves the wood that is taken off the faces for comfort.
func (s *solver) contours() {
	if s.Outline == nil {
		return
	}
	for i, c := range s.d.Body.Contour {
		k := fmt.Sprintf("body.contour %d", i+1)
		if c.Kind.V == "carved" {
			s.carved(c, k)
			continue
		}
		s.bevel(c, k)
	}
}

// bevel solves a forearm bevel or belly cut: the wood outside a straight inner
// line, whose depth grows from nothing there to its full depth at the outline.
func (s *solver) bevel(c design.Contour, k string) {
	kind := c.Kind.V
	if !c.Kind.Set() {
		kind = "forearm"
		s.assume(k+".kind", kind, "no kind was given")
	}
	b := bevels[kind]
	depth := s.length(c.Depth, k+".depth", b.depth, b.words)
	reach := s.length(c.Reach, k+".reach", b.reach, b.words)
	y := s.length(c.Y, k+".y", b.y, b.words+": try it sitting")
	side := 1.0
	if c.Side.V != "treble" {
		side = -1
		if !c.Side.Set() {
			s.assume(k+".side", "bass", "the side that lies uppermost in playing")
		}
	}
	at, in, ok := s.onOutline(side, y)
	if !ok {
		o := s.Outline.Bounds()
		s.fail(c.Y.At, k+".y", design.MM(y)+" mm", fmt.Sprintf("a place on the outline, from %s to %s mm", design.MM(o.Min.Y), design.MM(o.Max.Y)), "measure from the bridge line")
		return
	}
	in = in.Rotate(geom.Angle(c.Angle.V) * geom.Degree)
	if !s.deepEnough(c.Depth.At, k+".depth", depth, c.At) {
		return
	}
	span := b.span
	if c.Span.Set() || span > 0 {
		span = s.length(c.Span, k+".span", span, b.words)
	}
	plan, ok := s.beyondLine(at, in, reach, span)
	if !ok {
		s.fail(c.Reach.At, k+".reach", design.MM(reach)+" mm from the outline at y "+design.MM(y), "a line that parts a piece from the body there", "let it reach less far, or move it")
		return
	}
	// Along in, how far before the place the outline reaches at most, where the
	// cut has its full depth.
	full := plan
	if span > 0 {
		var calc geom.Calc
		full = calc.Intersect(plan, band(at, in.Left(), -span/4, span/4))
	}
	turned := geom.Rotate(-in.Angle())
	ahead := math.Max(0, turned.Point(at).X-turned.Region(full).Bounds().Min.X)
	run := reach + ahead
	if ahead > geom.Coincident {
		s.solved(k+".depth", fmt.Sprintf("%s mm, %s mm beyond the place named", design.MM(depth), design.MM(ahead)), "the outline bulges furthest there")
	}
	flat := c.Section.V != "round"
	if !c.Section.Set() {
		s.assume(k+".section", "flat", "one plane, which a straightedge checks")
	}
	if most := steepestBevel[flat] * run; depth > most {
		at := c.Depth.At
		if at.IsZero() {
			at = c.At
		}
		s.fail(at, k+".depth", fmt.Sprintf("%s mm over %s mm", design.MM(depth), design.MM(run)), fmt.Sprintf("at most %s mm, so that it does not end steeper than 45° or so", design.MM(most)), "take less wood, or let it reach further")
		return
	}
	profile, out := bevelProfile(run, depth, flat)
	solids := s.facets(plan, at, in, reach, profile, runOuts(at, in, span, depth), b.face)
	s.addContour(kind, b.face, plan, solids, depth, c, func(t *Contour) {
		t.At, t.In, t.Profile, t.Facets, t.Out = at, in, profile, len(solids), out
	})
}

// bevelProfile returns the profile of a bevel as points (distance from the inner
// line, depth), and how much deeper than the true section the chords lie. A
// round section is an arc that is level at the inner line: R − √(R² − x²).
func bevelProfile(run, depth float64, flat bool) ([]geom.Point, float64) {
	if flat {
		return []geom.Point{{}, {X: run, Y: depth}}, 0
	}
	r := (run*run + depth*depth) / (2 * depth)
	sweep := math.Atan2(run, r-depth)
	// A chord's sagitta lies square to it: straight down it is more by the secant.
	n := int(math.Ceil(sweep / (2 * math.Acos(1-facetOut*math.Cos(sweep)/r))))
	pts := make([]geom.Point, n+1)
	for i := range pts {
		a := sweep * float64(i) / float64(n)
		pts[i] = geom.Pt(r*math.Sin(a), r*(1-math.Cos(a)))
	}
	pts[n] = geom.Pt(run, depth)
	return pts, r * (1 - math.Cos(sweep/float64(2*n))) / math.Cos(sweep)
}

// runOuts returns the depths of the two planes that end a cut of a given span:
// nothing at its ends, the full depth a quarter of the span from them.
func runOuts(at geom.Point, in geom.Vec, span, depth float64) []part.Plane {
	if span == 0 {
		return nil
	}
	k := depth / (span / 4)
	var out []part.Plane
	for _, along := range [2]geom.Vec{in.Left(), in.Left().Neg()} {
		end := at.Add(along.Mul(span / 2))
		out = append(out, part.Plane{Z: k * (along.X*end.X + along.Y*end.Y), DX: -k * along.X, DY: -k * along.Y})
	}
	return out
}

// facets returns the solids of a bevel: one a piece of its profile, and what the
// planes that end it leave of each. Everywhere the shallowest plane counts.
func (s *solver) facets(plan geom.Region, at geom.Point, in geom.Vec, reach float64, profile []geom.Point, ends []part.Plane, f part.Face) []part.Solid {
	var c geom.Calc
	var solids []part.Solid
	inner := at.Add(in.Mul(reach))
	for i := 1; i < len(profile); i++ {
		a, b := profile[i-1], profile[i]
		strip := plan
		if len(profile) > 2 {
			from := -b.X
			if i == len(profile)-1 { // the outline may bulge further where the cut runs out
				from = -wide
			}
			strip = c.Intersect(plan, band(inner, in, from, -a.X))
		}
		k := (b.Y - a.Y) / (b.X - a.X)
		// depth = a.Y + k·(x − a.X), x = in·(inner − p).
		planes := append([]part.Plane{{Z: a.Y + k*(in.X*inner.X+in.Y*inner.Y-a.X), DX: -k * in.X, DY: -k * in.Y}}, ends...)
		for n, p := range planes {
			piece := strip
			for m, q := range planes {
				if m != n {
					piece = c.Intersect(piece, notBelow(part.Plane{Z: q.Z - p.Z, DX: q.DX - p.DX, DY: q.DY - p.DY}))
				}
			}
			if piece.Area() > geom.Budget {
				solids = append(solids, s.fromFace(piece, p, f))
			}
		}
	}
	if err := c.Err(); err != nil {
		s.fail(s.d.Body.At, "body.contour", err.Error(), "a contour that can be cut into planes", "move it a little")
	}
	return solids
}

// notBelow returns the half plane where a sloped height is 0 or more.
func notBelow(h part.Plane) geom.Region {
	slope := geom.Vec{X: h.DX, Y: h.DY}
	on := geom.Pt(0, 0).Add(slope.Mul(-h.Z / slope.Dot(slope)))
	return band(on, slope.Unit(), 0, wide)
}

// fromFace returns the solid between a face and a surface so deep from it.
func (s *solver) fromFace(plan geom.Region, depth part.Plane, f part.Face) part.Solid {
	if f == part.Back {
		return part.Solid{Plan: plan, Top: part.Plane{Z: s.Thickness - depth.Z, DX: -depth.DX, DY: -depth.DY}, Floor: part.Level(s.Thickness)}
	}
	return part.Solid{Plan: plan, Top: part.Level(0), Floor: depth}
}

// wide is how far a half plane is drawn, mm: over any body.
const wide = 2000

// band returns the strip between two lines square to in, so far from p along in.
func band(p geom.Point, in geom.Vec, from, to float64) geom.Region {
	mid := p.Add(in.Mul((from + to) / 2))
	return geom.Pose(mid, in.Angle()).Region(geom.Region{geom.Rect(geom.Pt(0, 0), to-from, wide)})
}

// beyondLine returns the piece of the outline on the outer side of a line, that
// which at belongs to; ok is false when the line parts nothing from the body.
// A span keeps what lies within half of it on either side.
func (s *solver) beyondLine(at geom.Point, in geom.Vec, reach, span float64) (geom.Region, bool) {
	var c geom.Calc
	cut := c.Intersect(s.Outline, band(at, in, -wide, reach))
	if span > 0 {
		cut = c.Intersect(cut, band(at, in.Left(), -span/2, span/2))
	}
	if c.Err() != nil || cut.Empty() || cut.Area() > s.Outline.Area()/2 {
		return nil, false
	}
	near := at.Add(in.Mul(math.Min(reach, 1) / 2))
	for _, piece := range cut.Components() {
		if piece.Contains(near) {
			return piece, true
		}
	}
	return nil, false
}

// onOutline returns the outermost place of the outline at height y on one side,
// −1 the bass, and the direction square into the body there.
func (s *solver) onOutline(side, y float64) (at geom.Point, in geom.Vec, ok bool) {
	best := math.Inf(-1)
	for _, loop := range s.Outline {
		for _, e := range loop {
			for _, t := range crossings(e, y) {
				if p := e.At(t); p.X*side > best {
					best, at, in, ok = p.X*side, p, e.Tangent(t).Left(), true
				}
			}
		}
	}
	return at, in, ok
}

// crossings returns where along a segment, from 0 to 1, it crosses the height y.
func crossings(e geom.Seg, y float64) []float64 {
	if !e.IsArc() {
		if t := (y - e.A.Y) / (e.B.Y - e.A.Y); t >= 0 && t <= 1 {
			return []float64{t}
		}
		return nil
	}
	h := y - e.Center.Y
	if math.Abs(h) > e.Radius {
		return nil
	}
	w := math.Sqrt((e.Radius - h) * (e.Radius + h))
	var out []float64
	start := e.A.Sub(e.Center).Angle()
	for _, x := range [2]float64{w, -w} {
		turn := math.Mod(float64((geom.Vec{X: x, Y: h}).Angle()-start)*float64(e.Turn), 2*math.Pi)
		if turn < 0 {
			turn += 2 * math.Pi
		}
		if t := turn / math.Abs(float64(e.Sweep())); t <= 1 {
			out = append(out, t)
		}
	}
	return out
}

// deepEnough refuses a contour that would go through the body.
func (s *solver) deepEnough(at design.Pos, key string, depth float64, table design.Pos) bool {
	if at.IsZero() {
		at = table
	}
	if most := s.Thickness - limit.Floor.Stop; depth > most {
		s.fail(at, key, design.MM(depth)+" mm in a body of "+design.MM(s.Thickness)+" mm", "at most "+design.MM(most)+" mm, which leaves "+design.MM(limit.Floor.Stop)+" mm", "take less wood")
		return false
	}
	return true
}

// carved solves an area of the builder's own: level, or a plane through three
// measured places.
func (s *solver) carved(c design.Contour, k string) {
	if !c.Outline.Set() {
		s.fail(c.At, k+".outline", "nothing", "three corners [x, y] or more", "draw the area on the layout and read its corners")
		return
	}
	p := geom.Polygon(c.Outline.V...)
	if p.Area() < 0 {
		p = p.Reversed()
	}
	if err := (geom.Region{p}).Check(); err != nil {
		s.fail(c.Outline.At, k+".outline", err.Error(), "corners in order, round an outline that does not cross itself", "put the corners in order")
		return
	}
	face := part.Front
	if c.Face.V == "back" {
		face = part.Back
	}
	floor, ok := s.carvedFloor(c, k)
	if !ok {
		return
	}
	var calc geom.Calc
	plan := calc.Intersect(geom.Region{p}, s.Outline)
	if !floor.Level() { // only where the plane lies below the face
		plan = calc.Intersect(plan, notBelow(floor))
	}
	if calc.Err() != nil || plan.Area() < geom.Budget {
		s.fail(c.Outline.At, k+".outline", "an area that takes no wood", "an area on the body, whose depths lie below the face", "measure its corners and depths again")
		return
	}
	solid := part.Solid{Plan: plan, Floor: floor}
	_, deepest := solid.Extremes()
	at := c.Depth.At
	if c.Depths.Set() {
		at = c.Depths.At
	}
	if !s.deepEnough(at, k+".depth", deepest.Z, c.At) {
		return
	}
	s.addContour("carved", face, plan, []part.Solid{s.fromFace(plan, floor, face)}, deepest.Z, c, func(t *Contour) { t.Facets = 1 })
}

// carvedFloor returns the depth of a carved area below its own face.
func (s *solver) carvedFloor(c design.Contour, k string) (part.Plane, bool) {
	if !c.Depths.Set() {
		if !c.Depth.Set() {
			s.fail(c.At, k+".depth", "nothing", "a depth, or three places depths = [[x, y, depth], …]", "say how deep it is carved")
			return part.Plane{}, false
		}
		return part.Level(float64(c.Depth.V)), true
	}
	var x, y, z [3]float64
	for i, r := range c.Depths.V {
		x[i], y[i], z[i] = float64(r[0]), float64(r[1]), float64(r[2])
	}
	ax, ay, bx, by := x[1]-x[0], y[1]-y[0], x[2]-x[0], y[2]-y[0]
	det := ax*by - ay*bx
	// The height of the triangle over its longest side says how well it holds.
	side := math.Max(math.Hypot(ax, ay), math.Max(math.Hypot(bx, by), math.Hypot(bx-ax, by-ay)))
	if side == 0 || math.Abs(det)/side < 5 { // under 5 mm a reading error of 0.5 tilts the plane by 10 %
		s.fail(c.Depths.At, k+".depths", "three places on one line", "places at least 5 mm off the line through the other two", "measure a third place beside it")
		return part.Plane{}, false
	}
	p := part.Plane{DX: ((z[1]-z[0])*by - (z[2]-z[0])*ay) / det, DY: ((z[2]-z[0])*ax - (z[1]-z[0])*bx) / det}
	p.Z = z[0] - p.DX*x[0] - p.DY*y[0]
	return p, true
}

// addContour adds a contour and its part.
func (s *solver) addContour(kind string, f part.Face, plan geom.Region, solids []part.Solid, depth float64, d design.Contour, more func(*Contour)) {
	if len(solids) == 0 {
		return
	}
	name := kind
	id := s.id("contour " + name)
	p := s.settle(part.Part{ID: id, Name: name, Kind: part.Contour, Face: f, Group: id, At: d.At, Solids: solids}, d.Cut)
	solids = p.Solids
	s.Parts = append(s.Parts, p)
	c := Contour{ID: id, Kind: kind, Face: f, Plan: plan, Depth: depth}
	more(&c)
	c.Deepest = deepestOf(solids, f)
	step := levelStep
	for depth/step > 8 { // more lines than can be told apart
		step += levelStep
	}
	for d := 0.0; d < depth-geom.Budget; d += step {
		if lines := levelLines(solids, f, s.Thickness, d); len(lines) > 0 {
			c.Levels = append(c.Levels, ContourLevel{d, lines})
		}
	}
	s.Contours = append(s.Contours, c)
}

func deepestOf(solids []part.Solid, f part.Face) geom.Point {
	var at geom.Point
	most := math.Inf(-1)
	for _, b := range solids {
		top, floor := b.Extremes()
		p, d := floor, floor.Z
		if f == part.Back {
			p, d = top, -top.Z
		}
		if d > most {
			most, at = d, p.Flat()
		}
	}
	return at
}

// levelLines returns the lines where the sloped surfaces lie d deep from their
// face, as far as the wood goes.
func levelLines(solids []part.Solid, f part.Face, thickness, d float64) []geom.Path {
	var c geom.Calc
	var out []geom.Path
	for _, b := range solids {
		s := b.Floor
		if f == part.Back {
			s = part.Plane{Z: thickness - b.Top.Z, DX: -b.Top.DX, DY: -b.Top.DY}
		}
		slope := geom.Vec{X: s.DX, Y: s.DY}
		k := slope.Len()
		if k < 1e-9 {
			continue
		}
		// The surface lies d deep where slope·p = d − Z.
		on := geom.Pt(0, 0).Add(slope.Mul((d - s.Z) / (k * k)))
		deeper := c.Intersect(b.Plan, band(on, slope.Unit(), 0, wide))
		for _, loop := range deeper {
			for _, e := range loop {
				if !e.IsArc() && math.Abs(e.A.Sub(on).Dot(slope)) < geom.Budget*k && math.Abs(e.B.Sub(on).Dot(slope)) < geom.Budget*k {
					out = append(out, geom.Path{e})
				}
			}
		}
	}
	if c.Err() != nil {
		return nil // the lines are a help; the solids stand
	}
	return out
}
