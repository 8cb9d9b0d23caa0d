package job

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"routwright/geom"
	"routwright/templates/design"
	"routwright/templates/drill"
	"routwright/templates/part"
)

// Jack is the hole of the output jack. Its bore is the part of kind
// part.JackHole.
type Jack struct {
	ID   string
	Side string // "treble", "bass" or "front"
	// At is where it enters: on the outline for a jack in the edge. In runs into
	// the body, square to the outline; zero on the front.
	At        geom.Point
	In        geom.Vec
	D, Length float64
	Into      string // name of the cavity that it opens into, empty for a blind hole
}

// Front reports whether the jack sits on the front.
func (k *Jack) Front() bool { return k.Side == "front" }

// Edge jacks take a Forstner bit of 22, those on the front a hole for the bushing
// or, where no cavity lies under it, a well of 22; common practice.
const (
	defaultJackEdge  = 22.2
	defaultJackFront = 9.5
	defaultJackBlind = 30.0 // length of a hole that reaches no cavity: a jack and its plug's tip
	defaultJackY     = -60.0
	// jackReach is how far from the edge a cavity may lie to be opened by the
	// jack's bore itself: what a Forstner bit with an extension bores true.
	jackReach = 60.0
)

// jack solves the hole of the output jack.
func (s *solver) jack() {
	d := s.d.Jack
	if !d.Present || s.Outline == nil {
		return
	}
	side := d.Side.V
	if !d.Side.Set() {
		side = "treble"
		if d.At.Set() {
			side = "front"
		}
		s.assume("jack.side", side, "the side of the controls")
	}
	if d.Into.Set() {
		if _, ok := s.voidNamed(d.Into.V); !ok {
			s.noVoid(d.Into.At, "jack.into", d.Into.V)
			return
		}
	}
	if side == "front" {
		s.frontJack(d)
		return
	}
	sign := 1.0
	if side == "bass" {
		sign = -1
	}
	y := s.length(d.Y, "jack.y", defaultJackY, "behind the controls")
	at, in, ok := s.onOutline(sign, y)
	if !ok {
		o := s.Outline.Bounds()
		s.fail(d.Y.At, "jack.y", design.MM(y)+" mm, where there is no wood", fmt.Sprintf("a place on the outline, from %s to %s mm", design.MM(o.Min.Y), design.MM(o.Max.Y)), "measure from the bridge line")
		return
	}
	k := &Jack{Side: side, At: at, In: in, D: s.length(d.D, "jack.d", defaultJackEdge, "measure the jack plate's cup")}
	if k.D > s.Thickness {
		s.fail(d.D.At, "jack.d", design.MM(k.D)+" mm in an edge of "+design.MM(s.Thickness)+" mm", "a hole narrower than the body is thick", "use a smaller jack")
		return
	}
	s.jackLength(k, d)
	through := s.woodAlong(at, in)
	if k.Length >= through {
		s.fail(d.Depth.At, "jack.depth", design.MM(k.Length)+" mm", fmt.Sprintf("less than %s mm, where it comes out of the body again", design.MM(through)), "bore less deep, or move it")
		return
	}
	z := s.Thickness / 2
	end := at.Add(in.Mul(k.Length))
	s.addJack(k, d.Table.At, part.Bore{From: part.Point{X: at.X, Y: at.Y, Z: z}, To: part.Point{X: end.X, Y: end.Y, Z: z}, D: k.D, Words: "jack"})
}

func (s *solver) addJack(k *Jack, at design.Pos, b part.Bore) {
	k.ID = s.id("jack hole")
	s.Jack = k
	s.Parts = append(s.Parts, part.Part{ID: k.ID, Name: "jack", Kind: part.JackHole, Group: "jack", At: at, Bores: []part.Bore{b}})
}

// jackLength solves how deep the bore goes: into the cavity that it meets, or
// blind.
func (s *solver) jackLength(k *Jack, d design.Jack) {
	if d.Depth.Set() {
		k.Length = float64(d.Depth.V)
	}
	z := s.Thickness / 2
	best := math.Inf(1)
	for _, v := range s.wired() {
		top, floor := v.Range()
		if v.Kind == part.JackHole || d.Into.Set() && v.Name != d.Into.V || z < top || z > floor {
			continue
		}
		most := 0.0
		for _, o := range []float64{-0.5, 0, 0.5} { // over the width, so that it opens wholly
			p := k.At.Add(k.In.Left().Mul(o * k.D))
			most = math.Max(most, firstInto(v.Plan(), p, k.In))
		}
		if most < best && (!d.Depth.Set() || most <= k.Length) && (most <= jackReach || d.Depth.Set() || d.Into.Set()) {
			best, k.Into = most, v.Name
		}
	}
	switch {
	case d.Depth.Set():
	case k.Into != "":
		k.Length = best
		s.solved("jack.depth", design.MM(best)+" mm", "until it opens wholly into "+k.Into)
	default:
		k.Length = defaultJackBlind
		s.assume("jack.depth", design.MM(defaultJackBlind)+" mm", "a blind hole for the jack: join it with a [[channel]]")
	}
	if d.Into.Set() && k.Into == "" {
		at := d.Into.At
		s.fail(at, "jack.into", fmt.Sprintf("%q, which the bore square to the edge does not meet", d.Into.V), "a cavity before the bore, in the middle of the thickness", "move the jack, or leave the key out and join both with a [[channel]]")
	}
}

// frontJack solves a jack that sits on the front.
func (s *solver) frontJack(d design.Jack) {
	if !d.At.Set() {
		s.fail(d.Table.At, "jack.at", "nothing", "the middle of the jack, [x, y]", "measure where the jack goes")
		return
	}
	p := d.At.V
	if !s.Outline.Contains(p) {
		s.fail(d.At.At, "jack.at", fmt.Sprintf("[%s, %s], where there is no wood", design.MM(p.X), design.MM(p.Y)), "a place on the body", "measure from the centre line and the bridge line")
		return
	}
	k := &Jack{Side: "front", At: p}
	var over part.Part
	for _, v := range s.wired() {
		if v.Face == part.Back && v.Plan().Contains(p) && (!d.Into.Set() || v.Name == d.Into.V) {
			over, k.Into = v, v.Name
		}
	}
	if k.Into != "" {
		top, _ := over.Range()
		k.D = s.length(d.D, "jack.d", defaultJackFront, "the bushing of the jack")
		k.Length = top
		s.solved("jack.depth", design.MM(top)+" mm", "through the front into "+k.Into)
	} else {
		k.D = s.length(d.D, "jack.d", defaultJackEdge, "a well for the jack's plate")
		k.Length = s.length(d.Depth, "jack.depth", defaultJackBlind, "a blind hole for the jack: join it with a [[channel]]")
		if k.Length >= s.Thickness {
			s.fail(d.Depth.At, "jack.depth", design.MM(k.Length)+" mm in a body of "+design.MM(s.Thickness)+" mm", "less than the body is thick", "bore less deep")
			return
		}
	}
	if d.Into.Set() && k.Into == "" {
		s.fail(d.Into.At, "jack.into", fmt.Sprintf("%q, which does not lie under the jack", d.Into.V), "a back cavity under it", "move the jack, or join both with a [[channel]]")
		return
	}
	s.addJack(k, d.Table.At, part.Down(p, part.Front, k.Length, k.D, s.Thickness, "jack"))
}

// wired returns the voids that wires run in.
func (s *solver) wired() []part.Part {
	var out []part.Part
	for _, p := range s.Parts {
		switch p.Kind {
		case part.Pickup, part.Cavity, part.Chamber, part.JackHole:
			out = append(out, p)
		}
	}
	return out
}

// voidNamed returns a void by the name that the builder gave it; the jack is
// called "jack".
func (s *solver) voidNamed(name string) (part.Part, bool) {
	for _, v := range s.wired() {
		if strings.EqualFold(v.Name, name) {
			return v, true
		}
	}
	return part.Part{}, false
}

// noVoid tells that no void has a name; others are names that serve as well. A
// cavity that the design holds but that could not be solved was told already.
func (s *solver) noVoid(at design.Pos, key, name string, others ...string) {
	told := false
	for _, p := range s.d.Pickup {
		told = told || strings.EqualFold(p.Name.V, name)
	}
	for _, c := range s.d.Cavity {
		told = told || strings.EqualFold(c.Name.V, name)
	}
	if told && len(s.errs) > 0 {
		return
	}
	var names []string
	for _, v := range s.wired() {
		names = append(names, v.Name)
	}
	names = append(names, others...)
	for i, n := range names {
		names[i] = fmt.Sprintf("%q", n)
	}
	slices.Sort(names)
	allowed := "one of " + strings.Join(slices.Compact(names), ", ")
	if len(names) == 0 {
		allowed = "a cavity, of which there is none"
	}
	s.fail(at, key, fmt.Sprintf("%q", name), allowed, "use the name of a cavity")
}

// woodAlong returns how far a straight line from a place of the outline runs in
// the body.
func (s *solver) woodAlong(at geom.Point, in geom.Vec) float64 {
	return firstInto(s.Outline, at.Add(in.Mul(1e-6)), in)
}

// firstInto returns how far along u a line from p first crosses the edge of a
// region, +Inf where it does not.
func firstInto(r geom.Region, p geom.Point, u geom.Vec) float64 {
	if ts := drill.Ray(r, p, u, 0); len(ts) > 0 {
		return ts[0]
	}
	return math.Inf(1)
}
