package job

import (
	"fmt"
	"math"

	"routwright/geom"
	"routwright/templates/design"
	"routwright/templates/part"
	"routwright/templates/wood"
)

// Bridge is where the bridge stands. Places are on the finished front, lengths in
// mm; strings run from the bass side.
type Bridge struct {
	Kind   string
	Height [2]float64 // least and greatest of the saddles' tops over the front
	Travel float64    // of each saddle along its string
	Aside  float64    // middle of the bridge from the middle line of the strings' own, + treble
	Behind float64    // of two posts: the saddles, in the middle of their travel, behind them
	Lines  []Saddle
	Posts  []geom.Point // bass, treble; nil for a fixed bridge
	Plate  geom.Region  // of a fixed bridge, nil where its size is not given
	Pitch  float64      // between neighbouring strings
}

// Saddle is one saddle.
type Saddle struct {
	At geom.Point // where the uncompensated scale ends on its string
	// Want is how far behind that the string wants its saddle; From and To what
	// the saddle's travel reaches.
	Want, From, To float64
}

// Spare returns the travel that is left on the nearer side, mm; negative where
// the saddle does not reach.
func (s Saddle) Spare() float64 { return math.Min(s.Want-s.From, s.To-s.Want) }

// Of bridges; common practice, to be measured on the bridge in hand.
const (
	fixedTravel    = 9.0 // 8–10
	postTravel     = 8.0
	wantTreble     = 1.75 // S + 1.5–2
	wantBass       = 4.0  // S + 3–5
	postSpacing    = 74.0
	postHole       = 11.0 // 8–12
	postDepth      = 20.0
	tailBehind     = 45.0
	tailSpacing    = 82.0
	stringBehind   = 22.0 // string holes behind the bridge's line
	stringHole     = 3.2
	ferruleHole    = 8.0
	ferruleDepth   = 8.0
	bridgeScrew    = 6 // gauge
	bridgeScrewLen = 19.0
)

// bridge solves the place of the bridge from the solved, or the fitted, neck.
func (s *solver) bridge() {
	d := s.d.Bridge
	if !d.Present || s.Board == nil {
		return
	}
	b := &Bridge{Kind: s.bridgeKind(), Height: s.saddleRange(), Aside: float64(d.Aside.V)}
	if n := s.Neck; !d.Aside.Set() && n != nil && n.Fitted != nil {
		b.Aside = n.Fitted.Aside // over the neck as it lies
	}
	if !d.Kind.Set() {
		s.assume("bridge.kind", b.Kind, "the simplest to place")
	}
	travel := fixedTravel
	if b.Kind != "fixed" {
		travel = postTravel
	}
	b.Travel = s.length(d.Travel, "bridge.travel", travel, "measure how far a saddle moves")
	s.Bridge = b
	s.saddles(b)
	switch b.Kind {
	case "fixed":
		s.fixedBridge(b, d)
	default:
		s.postBridge(b, d)
	}
	if d.Through.Present {
		s.stringsThrough(b, d)
	} else if b.Kind == "two-post" {
		s.tailpiece(b, d)
	}
}

// saddles says where each string wants its saddle.
func (s *solver) saddles(b *Bridge) {
	lines := s.Board.Strings
	n := len(lines)
	shift := 0.0
	if s.Neck != nil && s.Neck.Fitted != nil {
		shift = s.Neck.Fitted.Shift
	}
	for i := n - 1; i >= 0; i-- { // string 1 is the highest
		k := 0.5
		if n > 1 {
			k = float64(i) / float64(n-1) // 0 at the treble side
		}
		want := wantTreble + k*(wantBass-wantTreble)
		if len(s.Compensation) == n {
			want = s.Compensation[n-1-i]
		}
		p := lines[i].Saddle
		b.Lines = append(b.Lines, Saddle{At: geom.Pt(p.X+b.Aside, p.Y+shift), Want: want})
	}
	if n > 1 {
		b.Pitch = b.Lines[0].At.Dist(b.Lines[n-1].At) / float64(n-1)
	}
	if len(s.Compensation) == n {
		s.solved("compensation", fmt.Sprintf("%s mm at the bass string to %s at the treble string", design.MM(b.Lines[0].Want), design.MM(b.Lines[n-1].Want)), "an estimate from the strings' gauges, pitches and action; the saddles' travel takes up the rest")
		return
	}
	s.assume("compensation", fmt.Sprintf("%s mm at the treble string to %s at the bass string", design.MM(wantTreble), design.MM(wantBass)), "an estimate: every set of strings wants its own, the saddles' travel takes up the rest")
}

// slope returns the change of y over x along the line through the outer saddles.
func (b *Bridge) slope() float64 {
	f, l := b.Lines[0].At, b.Lines[len(b.Lines)-1].At
	if f.X == l.X {
		return 0
	}
	return (l.Y - f.Y) / (l.X - f.X)
}

// on returns the point of the bridge's own line at x from its middle, y mm towards
// the neck.
func (b *Bridge) on(x, y float64) geom.Point {
	f, l := b.Lines[0].At, b.Lines[len(b.Lines)-1].At
	mid := f.Lerp(l, 0.5)
	return geom.Pt(mid.X+x, mid.Y+b.slope()*x+y)
}

// fixedBridge places a bridge that is screwed to the body: the middle of its
// saddles' travel where the strings want it.
func (s *solver) fixedBridge(b *Bridge, d design.Bridge) {
	n := len(b.Lines)
	fore := b.Travel/2 - (b.Lines[0].Want+b.Lines[n-1].Want)/2
	was, drilled := s.held(part.Screw, "bridge-screws", d.Cut)
	switch {
	case d.At.Set():
		fore = float64(d.At.V)
	case drilled && d.Screws.Set() && len(was.Bores) == len(d.Screws.V):
		q := d.Screws.V[0]
		fore = was.Bores[0].From.Y - b.on(q.X, q.Y).Y
		s.solved("bridge.at", design.MM(fore)+" mm", "its screw holes are drilled there")
	default:
		s.solved("bridge.at", design.MM(fore)+" mm", "the saddles in the middle of their travel at the compensation that the strings want")
	}
	for i := range b.Lines {
		b.Lines[i].From, b.Lines[i].To = -fore, -fore+b.Travel
	}
	if d.Plate.Set() {
		long, wide := float64(d.Plate.V[0]), float64(d.Plate.V[1])
		back := s.length(d.PlateBack, "bridge.plate_behind", long*3/4, "measure the plate from the foremost saddles")
		lo, hi := fore-back, fore-back+long
		b.Plate = geom.Region{geom.Polygon(b.on(-wide/2, lo), b.on(wide/2, lo), b.on(wide/2, hi), b.on(-wide/2, hi))}
	}
	if !d.Screws.Set() {
		return
	}
	gauge := d.Screw.Gauge.Or(bridgeScrew)
	if !d.Screw.Gauge.Set() {
		s.assume("bridge.screw.gauge", fmt.Sprint(bridgeScrew), "measure the screws")
	}
	long := s.length(d.Screw.Length, "bridge.screw.length", bridgeScrewLen, "measure the screws")
	pilot, err := wood.Pilot(gauge.V, s.pilotDensity())
	if err != nil {
		s.fail(d.Screw.Gauge.At, "bridge.screw.gauge", fmt.Sprint(gauge.V), err.Error(), "name a gauge of the charts")
		return
	}
	if long >= s.Thickness {
		s.fail(d.Screw.Length.At, "bridge.screw.length", design.MM(long)+" mm in a body of "+design.MM(s.Thickness)+" mm", "screws shorter than the wood", "use shorter screws")
		return
	}
	p := part.Part{ID: s.id("bridge screws"), Name: "bridge", Kind: part.Screw, Face: part.Front, Group: "bridge", At: d.Table.At}
	for _, q := range d.Screws.V {
		p.Bores = append(p.Bores, part.Down(b.on(q.X, fore+q.Y), part.Front, long, pilot, s.Thickness, fmt.Sprintf("bridge screw, gauge %d, pilot", gauge.V)))
	}
	s.Parts = append(s.Parts, s.settle(p, d.Cut))
	s.solved("bridge screw pilot", design.MM(pilot)+" mm", wood.PilotSource)
}

// pilotDensity returns the density of the slab that pilot holes go by, kg/m³; 0 when unknown.
func (s *solver) pilotDensity() float64 {
	w, err := wood.Lookup(s.d.Slab.Wood.V)
	if err != nil {
		return 0
	}
	return w.Density
}

// postBridge places a bridge on two posts: each post where the saddles in the
// middle of their travel come to the compensation of its side.
func (s *solver) postBridge(b *Bridge, d design.Bridge) {
	n := len(b.Lines)
	bass, treble := b.Lines[0].Want, b.Lines[n-1].Want
	b.Behind = s.length(d.Posts.Behind, "bridge.posts.behind", 0, "measure from the posts' middles to the saddles, in the middle of their travel")
	spacing := s.length(d.Posts.Spacing, "bridge.posts.spacing", postSpacing, "measure the bridge")
	mid := (bass + treble) / 2
	lean := (bass - treble)
	if n > 1 {
		// The compensation runs along the strings' spread; the posts stand wider.
		lean *= spacing / b.Lines[0].At.Dist(b.Lines[n-1].At)
	}
	if d.Lean.Set() {
		lean = float64(d.Lean.V)
	}
	at := -mid + b.Behind
	was, drilled := s.held(part.Post, "bridge-posts", d.Cut)
	drilled = drilled && len(was.Bores) == 2
	if drilled && !d.Lean.Set() {
		lean = was.Bores[1].From.Y - was.Bores[0].From.Y - b.slope()*spacing
	}
	switch {
	case d.At.Set():
		at = float64(d.At.V)
	case drilled:
		at = (was.Bores[0].From.Y+was.Bores[1].From.Y)/2 - b.on(0, 0).Y
		s.solved("bridge.at", design.MM(at)+" mm", "its posts' holes are drilled there")
	default:
		s.solved("bridge.at", design.MM(at)+" mm", "the saddles in the middle of their travel at the compensation that the strings want")
	}
	b.Posts = s.addPosts("bridge posts", []geom.Point{b.on(-spacing/2, at-lean/2), b.on(spacing/2, at+lean/2)}, d.Posts, "bridge.posts", "bridge post")
	for i := range b.Lines {
		k := (b.Lines[i].At.X - b.Posts[0].X) / (b.Posts[1].X - b.Posts[0].X)
		stands := b.Posts[0].Lerp(b.Posts[1], k).Y - b.Behind // of the saddle in the middle of its travel
		behind := b.Lines[i].At.Y - stands
		b.Lines[i].From, b.Lines[i].To = behind-b.Travel/2, behind+b.Travel/2
	}
}

// addPosts drills the holes of two posts and returns where they are: as they are
// drilled, where the design says so.
func (s *solver) addPosts(name string, at []geom.Point, d design.Posts, key, words string) []geom.Point {
	hole := s.length(d.D, key+".d", postHole, "8–12: measure the insert")
	deep := s.length(d.Depth, key+".depth", postDepth, "measure the insert")
	if deep >= s.Thickness {
		s.fail(d.Depth.At, key+".depth", design.MM(deep)+" mm in a body of "+design.MM(s.Thickness)+" mm", "holes less deep than the wood", "use shorter inserts")
		return at
	}
	p := part.Part{ID: s.id(name), Name: words, Kind: part.Post, Face: part.Front, Group: "bridge", At: d.Table.At}
	if !d.Present {
		p.At = s.d.Bridge.Table.At
	}
	for _, q := range at {
		p.Bores = append(p.Bores, part.Down(q, part.Front, deep, hole, s.Thickness, words))
	}
	p = s.settle(p, s.d.Bridge.Cut)
	s.Parts = append(s.Parts, p)
	if len(p.Bores) != len(at) { // as nothing makes them
		return at
	}
	out := make([]geom.Point, len(at))
	for i, b := range p.Bores {
		out[i] = b.From.Flat()
	}
	return out
}

// tailpiece places the two posts that hold the strings behind a two-post bridge.
func (s *solver) tailpiece(b *Bridge, d design.Bridge) {
	behind := s.length(d.Tailpiece.Behind, "bridge.tailpiece.behind", tailBehind, "35–50 behind the bridge")
	spacing := s.length(d.Tailpiece.Spacing, "bridge.tailpiece.spacing", tailSpacing, "measure the tailpiece")
	mid := b.Posts[0].Lerp(b.Posts[1], 0.5)
	at := []geom.Point{geom.Pt(mid.X-spacing/2, mid.Y-behind), geom.Pt(mid.X+spacing/2, mid.Y-behind)}
	s.addPosts("tailpiece posts", at, d.Tailpiece, "bridge.tailpiece", "tailpiece post")
}

// stringsThrough solves the holes of strings that run through the body.
func (s *solver) stringsThrough(b *Bridge, d design.Bridge) {
	t := d.Through
	behind := s.length(t.Behind, "bridge.through.behind", stringBehind, "measure the bridge's own holes")
	hole := s.length(t.D, "bridge.through.d", stringHole, "3.2 usual")
	cup := s.length(t.Ferrule.D, "bridge.through.ferrule.d", ferruleHole, "measure the ferrules")
	deep := s.length(t.Ferrule.Depth, "bridge.through.ferrule.depth", ferruleDepth, "measure the ferrules")
	if hole >= cup {
		s.fail(t.D.At, "bridge.through.d", design.MM(hole)+" mm in a ferrule of "+design.MM(cup)+" mm", "a hole narrower than the ferrule", "measure both again")
		return
	}
	front := 0.0
	if t.Front.Present {
		front = s.length(t.Front.Depth, "bridge.through.front_ferrule.depth", ferruleDepth, "measure the ferrules")
	}
	if deep+front >= s.Thickness {
		s.fail(t.Ferrule.Depth.At, "bridge.through.ferrule.depth", design.MM(deep+front)+" mm in a body of "+design.MM(s.Thickness)+" mm", "ferrules shorter than the wood is thick", "measure the ferrules again")
		return
	}
	line := 0.0
	if b.Kind == "fixed" {
		line = -b.Lines[0].From
	} else if len(b.Posts) == 2 {
		line = b.Posts[0].Lerp(b.Posts[1], 0.5).Y - b.on(0, 0).Y
	}
	p := part.Part{ID: s.id("string holes"), Name: "strings", Kind: part.StringHole, Face: part.Front, Group: "strings", At: t.Table.At}
	for i, l := range b.Lines {
		q := b.on(l.At.X-b.on(0, 0).X, line-behind)
		words := fmt.Sprintf("string %d", len(b.Lines)-i)
		p.Bores = append(p.Bores,
			part.Down(q, part.Front, s.Thickness, hole, s.Thickness, words),
			part.Down(q, part.Back, deep, cup, s.Thickness, words+", ferrule"))
		if t.Front.Present {
			d := s.length(t.Front.D, "bridge.through.front_ferrule.d", ferruleHole, "measure the ferrules")
			p.Bores = append(p.Bores, part.Down(q, part.Front, front, d, s.Thickness, words+", front ferrule"))
		}
	}
	s.Parts = append(s.Parts, s.settle(p, t.Cut))
}
