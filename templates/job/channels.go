package job

import (
	"fmt"
	"math"
	"slices"
	"sync"

	"routwright/geom"
	"routwright/templates/design"
	"routwright/templates/drill"
	"routwright/templates/limit"
	"routwright/templates/part"
	"routwright/templates/space"
)

// Channel is a hole drilled for wires. Its bore is the part of kind part.Channel
// with its ID; without a path there is none.
type Channel struct {
	ID     string
	Name   string // "tail to control"
	Join   [2]string
	Ends   [2]drill.Void
	Groups []string     // of the parts that it joins and passes, which it may meet
	Pass   []drill.Void // on its way
	D      float64
	Drill  float64 // length of the drill that stands out of the chuck, mm
	Chuck  float64
	Ground bool // for the wire from the bridge
	Found  bool
	Path   drill.Path
	Given  bool // by the builder
	At     design.Pos
}

// From returns the void that the drill comes from.
func (c Channel) From() drill.Void {
	if c.Path.Back {
		return c.Ends[1]
	}
	return c.Ends[0]
}

// To returns the void that it runs into.
func (c Channel) To() drill.Void {
	if c.Path.Back {
		return c.Ends[0]
	}
	return c.Ends[1]
}

// Guided reports whether a guide on a face leads the drill: not where it is led by
// the bore of the jack, or lies in the neck pocket.
func (c Channel) Guided() bool { return c.Found && !c.From().Side && !c.From().Open }

// Common practice: channels 6–8, ground wire 3; a long drill stands 300 out of a
// hand drill whose chuck is some 35 across.
const (
	defaultChannel = 7.0
	defaultGround  = 3.0
	defaultLong    = 300.0
	defaultChuck   = 35.0
	// onWall is how far off a cavity's wall a measured place may lie, mm.
	onWall = 0.5
	// Under the plate of a fixed bridge: as wide as the strings' spread and so far
	// behind the bridge line; common practice, the plate reaches further.
	plateFrom, plateTo = -22.0, -6.0
	defaultPlate       = 50.0
)

// channels solves the drilled holes, once everything that they must pass by is
// placed.
func (s *solver) channels() {
	if s.Outline == nil {
		return
	}
	grounded := false
	for i, c := range s.d.Channel {
		k := fmt.Sprintf("channel %d", i+1)
		grounded = grounded || s.joins(c, "bridge")
		s.channel(c, k)
	}
	if s.d.Bridge.Present && !grounded {
		s.ground()
	}
}

func (s *solver) joins(c design.Channel, name string) bool {
	for _, n := range c.Join.V {
		if n == name {
			return true
		}
	}
	return false
}

func (s *solver) channel(c design.Channel, k string) {
	if len(c.Join.V) != 2 {
		s.fail(c.Table.At, k+".join", fmt.Sprintf("%d names", len(c.Join.V)), "the names of two cavities", "join = [\"…\", \"…\"]")
		return
	}
	ch := Channel{At: c.Table.At, Ground: s.joins(c, "bridge")}
	for i, n := range c.Join.V {
		v, group, ok := s.drillVoid(n)
		if !ok {
			s.noVoid(c.Join.At, k+".join", n, "jack", "pocket", "bridge")
			return
		}
		ch.Join[i], ch.Ends[i], ch.Groups = n, v, append(ch.Groups, group)
	}
	for _, n := range c.Pass.V {
		v, group, ok := s.drillVoid(n)
		if !ok || v.Plate {
			s.noVoid(c.Pass.At, k+".through", n)
			return
		}
		ch.Pass, ch.Groups = append(ch.Pass, v), append(ch.Groups, group)
	}
	if ch.Groups[0] == ch.Groups[1] {
		s.fail(c.Join.At, k+".join", fmt.Sprintf("%q twice", ch.Join[0]), "two cavities", "name the other one")
		return
	}
	d, why := defaultChannel, "6–8 for wires"
	if ch.Ground {
		d, why = defaultGround, "for a ground wire"
	}
	ch.D = s.length(c.D, k+".d", d, why)
	ch.Drill, ch.Chuck = s.longDrill(c, k, ch.D)
	s.namedChannel(&ch)
	if c.From.Set() != c.To.Set() {
		s.fail(c.Table.At, k, "one end of the path", "both from and to, or neither", "give the other end, or let the program find the path")
		return
	}
	if c.From.Set() {
		if !s.givenPath(&ch, c, k) {
			return
		}
	} else {
		ch.Path, ch.Found = drill.Find(ch.Ends[0], ch.Ends[1], s.Job.DrillRules(ch))
		s.solvedPath(ch, k)
	}
	s.addChannel(ch)
}

func (s *solver) namedChannel(c *Channel) {
	c.Name = c.Join[0] + " to " + c.Join[1]
	c.ID = s.id("channel " + c.Name)
}

// longDrill returns the length that stands out of the chuck, and the chuck.
func (s *solver) longDrill(c design.Channel, k string, d float64) (long, chuck float64) {
	long, why := defaultLong, "a long drill: measure what stands out of the chuck"
	if !c.Length.Set() {
		for _, r := range s.d.Drill {
			if math.Abs(float64(r.D.V)-d) < 0.1 && r.Length.Set() {
				long, why = float64(r.Length.V), "the drill of that diameter in the rack"
			}
		}
	}
	return s.length(c.Length, k+".drill_length", long, why), s.length(c.Chuck, k+".chuck", defaultChuck, "of a hand drill")
}

func (s *solver) solvedPath(c Channel, k string) {
	if !c.Found {
		s.solved(k, "no path", "no straight hole keeps clear of everything")
		return
	}
	s.solved(k, fmt.Sprintf("from x %s, y %s, %s mm deep, at %s°, %s mm long", design.MM(c.Path.From.X), design.MM(c.Path.From.Y), design.MM(c.Path.From.Z), design.MM(c.Path.Angle(c.From()).Degrees()), design.MM(c.Path.Length())), "the shortest way past everything that must stay")
}

func (s *solver) addChannel(c Channel) {
	if c.Found {
		b := c.Path.Bore(c.D)
		b.Words = "wire channel"
		s.Parts = append(s.Parts, part.Part{ID: c.ID, Name: c.Name, Kind: part.Channel, Group: c.ID, At: c.At, Bores: []part.Bore{b}})
	}
	s.Channels = append(s.Channels, c)
}

// givenPath takes the path that the builder measured, if its ends lie on the
// walls of the two cavities.
func (s *solver) givenPath(ch *Channel, c design.Channel, k string) bool {
	var ends [2]part.Point
	for i, v := range []design.Val[[3]design.Length]{c.From, c.To} {
		key := k + [2]string{".from", ".to"}[i]
		p := part.Point{X: float64(v.V[0]), Y: float64(v.V[1]), Z: float64(v.V[2])}
		end := ch.Ends[i]
		q, off := geom.IndexOf(end.Plan).Closest(p.Flat())
		if end.Plate && end.Plan.Contains(p.Flat()) {
			q, off = p.Flat(), 0
		}
		if off > onWall {
			s.fail(v.At, key, fmt.Sprintf("[%s, %s], %s mm off the wall of %s", design.MM(p.X), design.MM(p.Y), design.MM(off), ch.Join[i]), fmt.Sprintf("a place on it, as [%s, %s]", design.MM(q.X), design.MM(q.Y)), "measure again")
			return false
		}
		if !end.Plate && (p.Z < end.Top || p.Z > end.Floor) {
			s.fail(v.At, key, fmt.Sprintf("%s mm deep, over a wall of %s that stands from %s to %s", design.MM(p.Z), ch.Join[i], design.MM(end.Top), design.MM(end.Floor)), "a depth on that wall, below the finished front", "measure from the front")
			return false
		}
		ends[i] = part.Point{X: q.X, Y: q.Y, Z: p.Z}
	}
	if d := ends[0].Flat().Dist(ends[1].Flat()); d < 1 { // no direction to drill in
		s.fail(c.To.At, k+".to", design.MM(d)+" mm from where the drill goes in, seen from the front", "at least 1 mm of wood between the two cavities", "measure again")
		return false
	}
	path, ok := drill.Given(ends[0], ends[1], ch.Ends[0], ch.Ends[1], ch.D, s.Thickness)
	if !ok {
		s.fail(c.From.At, k+".from", "a direction in which the drill does not lie in "+ch.Join[0], "a path that the drill reaches from inside", "turn the path, or drill it from the other cavity")
		return false
	}
	ch.Path, ch.Found, ch.Given = path, true, true
	return true
}

// ground proposes the hole for the bridge's ground wire when the design does not:
// the shortest to any back cavity, else to a pickup.
func (s *solver) ground() {
	v, group, ok := s.drillVoid("bridge")
	if !ok {
		return
	}
	for _, kind := range []part.Kind{part.Cavity, part.Pickup} {
		var tried []Channel
		for _, p := range s.OfKind(kind) {
			to, g, ok := s.drillVoid(p.Name)
			if !ok {
				continue
			}
			tried = append(tried, Channel{
				Join: [2]string{"bridge", p.Name}, Ends: [2]drill.Void{v, to}, Groups: []string{group, g},
				D: defaultGround, Drill: defaultLong, Chuck: defaultChuck, Ground: true, At: s.d.Bridge.Table.At,
			})
		}
		var wg sync.WaitGroup
		for i := range tried {
			c := &tried[i]
			wg.Go(func() { c.Path, c.Found = drill.Find(v, c.Ends[1], s.Job.DrillRules(*c)) })
		}
		wg.Wait()
		var best Channel
		for _, c := range tried {
			if c.Found && (!best.Found || c.Path.Length() < best.Path.Length()) {
				best = c
			}
		}
		if best.Found {
			s.namedChannel(&best)
			s.assume(best.ID+" d", design.MM(best.D)+" mm", "for a ground wire")
			s.solvedPath(best, best.ID)
			s.addChannel(best)
			return
		}
	}
}

// drillVoid returns a void as a drill meets it, and the group that it belongs to.
func (s *solver) drillVoid(name string) (drill.Void, string, bool) {
	if name == "bridge" {
		return s.bridgeVoid()
	}
	if name == "pocket" {
		for _, p := range s.OfKind(part.Pocket) {
			return s.pocketVoid(p), p.Group, true
		}
	}
	p, ok := s.voidNamed(name)
	if !ok {
		return drill.Void{}, "", false
	}
	if p.Kind == part.JackHole {
		return s.jackVoid(p), p.Group, true
	}
	top, floor := p.Range()
	return drill.Void{Name: name, Plan: p.Plan(), Top: top, Floor: floor, Face: p.Face}, p.Group, true
}

// jackVoid returns the bore of the jack as a void: the square prism inside the
// cylinder of one in the edge, the cylinder of one on the front.
func (s *solver) jackVoid(p part.Part) drill.Void {
	b := p.Bores[0]
	if s.Jack.Front() {
		return drill.Void{Name: "jack", Plan: geom.Region{geom.Circle(b.From.Flat(), b.D/2)}, Floor: b.To.Z}
	}
	side := b.D / math.Sqrt2
	mid := b.From.Flat().Lerp(b.To.Flat(), 0.5)
	plan := geom.Pose(mid, s.Jack.In.Angle()).Region(geom.Region{geom.Rect(geom.Pt(0, 0), b.Length(), side)})
	return drill.Void{Name: "jack", Plan: plan, Top: b.From.Z - side/2, Floor: b.From.Z + side/2, Side: true, Mouth: s.Jack.At}
}

// pocketVoid returns the neck pocket as a void: as deep as its floor is everywhere,
// open at its end towards the head.
func (s *solver) pocketVoid(p part.Part) drill.Void {
	b := p.Plan().Bounds()
	v := drill.Void{Name: "pocket", Plan: p.Plan(), Open: true, Mouth: geom.Pt(b.Center().X, b.Max.Y)}
	for _, e := range p.Solids {
		// Its floor's shallowest place: the top of a solid that begins there.
		shallow, _ := part.Solid{Plan: e.Plan, Top: e.Floor, Floor: e.Floor}.Extremes()
		v.Floor = math.Max(v.Floor, shallow.Z)
	}
	return v
}

// bridgeVoid returns where the ground wire meets the bridge: a post's hole, or
// the wood under the plate of a fixed bridge.
func (s *solver) bridgeVoid() (drill.Void, string, bool) {
	for _, p := range s.OfKind(part.Post) {
		for _, b := range p.Bores {
			if b.Square() {
				return drill.Void{Name: "bridge", Plan: geom.Region{geom.Circle(b.From.Flat(), b.D/2)}, Top: math.Min(b.From.Z, b.To.Z), Floor: math.Max(b.From.Z, b.To.Z)}, p.Group, true
			}
		}
	}
	if !s.d.Bridge.Present {
		return drill.Void{}, "", false
	}
	w := defaultPlate
	if v := s.d.Strings.Spread.Bridge; v.Set() {
		w = float64(v.V)
	}
	plan := geom.Region{geom.Rect(geom.Pt(0, (plateFrom+plateTo)/2), w, plateTo-plateFrom)}
	return drill.Void{Name: "bridge", Plan: plan, Plate: true}, "bridge", true
}

// DrillRules returns what a channel must keep to, by the limits of the checks.
func (j *Job) DrillRules(c Channel) drill.Rules {
	r := drill.Rules{
		Thickness: j.Thickness, D: c.D, Length: c.Drill, Chuck: c.Chuck,
		Stop: limit.Channel.Stop, Warn: limit.Channel.Warn, Edge: j.Edge, Through: c.Pass,
	}
	for _, p := range j.Parts {
		if !inBody(p.Kind) || p.ID == c.ID || p.Kind != part.Screw && slices.Contains(c.Groups, p.Group) {
			continue
		}
		if p.Kind == part.Screw {
			p = withWood(p)
		}
		l := limit.Channel
		switch p.Kind {
		case part.Pickup, part.Cavity, part.Rebate, part.Chamber, part.Pocket, part.JackHole:
			l = limit.VoidToVoid
		}
		o := drill.Obstacle{Stop: l.Stop, Warn: l.Warn}
		if p.Kind == part.Channel {
			o.Round = p.Bores[0].D / 2
			p.Bores = []part.Bore{p.Bores[0]}
			p.Bores[0].D = 0
		}
		o.Body = space.Of(p)
		r.Obstacles = append(r.Obstacles, o)
	}
	return r
}

// withWood returns the pilot holes of screws as long as the wood that the screws
// need: what they hold in, and some beyond their tips.
func withWood(p part.Part) part.Part {
	bores := make([]part.Bore, len(p.Bores))
	for i, b := range p.Bores {
		if l := b.Length(); l > 0 {
			b.To = b.From.Lerp(b.To, math.Max(limit.ScrewWood.Stop, l+limit.ScrewTip.Stop)/l)
		}
		bores[i] = b
	}
	p.Bores = bores
	return p
}

// inBody reports whether parts of a kind are cut or drilled out of the body.
func inBody(k part.Kind) bool {
	switch k {
	case part.Pickup, part.Cavity, part.Rebate, part.Chamber, part.Pocket, part.JackHole,
		part.Recess, part.Contour, part.Channel, part.Seat, part.Shaft, part.Post, part.StringHole, part.Screw:
		return true
	}
	return false
}
