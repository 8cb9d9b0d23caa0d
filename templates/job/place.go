package job

import (
	"fmt"
	"math"
	"slices"

	"routwright/geom"
	"routwright/templates/design"
	"routwright/templates/limit"
	"routwright/templates/part"
	"routwright/templates/place"
	"routwright/templates/space"
)

// placeKeys places keys over every crack, on the faces that the design names.
// Keys placed by hand stay where they are and are built round.
func (s *solver) placeKeys() {
	if len(s.d.Slab.Crack) == 0 {
		s.fail(s.d.Keys.Place.At, "keys.place", "true, without a crack", "a [[slab.crack]] to place keys over", "measure the crack, or place keys by hand")
		return
	}
	faces := map[string][]part.Face{"back": {part.Back}, "both": {part.Front, part.Back}}[s.d.Keys.Face.V]
	if faces == nil {
		faces = []part.Face{part.Front}
	}
	for i, c := range s.Cracks {
		s.placeOver(i, c, faces)
	}
}

// facing is a crack on one face while keys are placed over it.
type facing struct {
	face part.Face
	place.Side
	allowed allowed
	stand   string // how its keys stand, in words
}

// placeOver places keys over one crack. Where keys of both faces can stand in each
// other's way, both faces are solved together, so that neither takes what the
// other needs.
func (s *solver) placeOver(i int, c Crack, faces []part.Face) {
	rules := place.Rules{KeyLength: s.Keys.Fit.Spec.Length, Between: limit.KeyToKey.Stop, Tip: limit.TipToKey}
	if len(s.Keys.Sizes) > 1 {
		rules.Step = 2 // of several sizes there are more stations than are needed
	}
	var on []facing
	for _, f := range faces {
		line, ok := s.crackFor(i, c, f)
		if !ok {
			continue
		}
		e := facing{face: f, allowed: s.keyAllowed(f, line, faces)}
		angle, stand := s.keyAngle(line)
		rules.Allowed, e.stand = e.allowed.block, stand
		e.Side = place.Side{Line: line, Stations: s.withHandKeys(line, s.stations(line, rules, angle), f)}
		on = append(on, e)
	}
	sets := make([]place.Set, len(on))
	if len(on) == 2 && s.facesMeet() {
		sets[0], sets[1] = place.SolveBoth(on[0].Side, on[1].Side, rules, s.keysApart)
	} else {
		for k, e := range on {
			sets[k] = place.Solve(e.Line, e.Stations, rules)
		}
	}
	for k, e := range on {
		s.takeKeys(i, e, sets[k])
	}
}

// stations returns the places for keys of every size along a crack.
func (s *solver) stations(l place.Line, r place.Rules, angle *geom.Angle) []place.Station {
	var lists [][]place.Station
	for i, z := range s.Keys.Sizes {
		r.KeyLength = z.Fit.Spec.Length
		st := place.Stations(l, z.Fit.Recess, r, angle)
		for k := range st {
			st[k].Size, st[k].Length, st[k].Waist = i, z.Fit.Spec.Length, z.Fit.Spec.Waist
		}
		lists = append(lists, st)
	}
	return place.Merge(lists...)
}

// facesMeet reports whether a key of one face can stand in the way of one of the
// other: where both leave less wood between them than a check asks for.
func (s *solver) facesMeet() bool { return s.Thickness-2*s.Keys.Depth < limit.KeyOverKey.Stop }

// keysApart reports whether the recesses of two keys of unlike faces may lie as
// they do, by the limits of the checks.
func (s *solver) keysApart(a, b geom.Region) bool {
	between := s.Thickness - 2*s.Keys.Depth
	if between < 0 { // they share depths
		return !geom.Nearer(a, b, limit.KeyToKey.Stop)
	}
	// In depth they are that far apart; the rest must come from the plan.
	need := limit.KeyOverKey.Stop
	return need <= between || !geom.Nearer(a, b, math.Sqrt(need*need-between*between))
}

// keyAngle returns the one angle of the keys over a crack, or nil where each
// stands square to it, and how they stand in words: as the design says, else one
// angle for all unless the crack bends too much for that.
func (s *solver) keyAngle(l place.Line) (*geom.Angle, string) {
	if a := s.d.Keys.Angle; a.Set() {
		v := geom.Angle(a.V) * geom.Degree
		return &v, fmt.Sprintf("at the angle of %s° that the design gives", design.MM(float64(a.V)))
	}
	mean, bend := l.Square(s.Keys.Fit.Spec.Length / 2)
	if bend.Degrees() < 0.05 {
		return &mean, "square to it"
	}
	if bend.Degrees() > limit.OneAngle {
		return nil, fmt.Sprintf("square to it there, since it bends by %.1f°", bend.Degrees())
	}
	return &mean, fmt.Sprintf("square to it as a whole: it bends by %.1f° only", bend.Degrees())
}

// crackFor returns the line of a crack as it is placed on.
func (s *solver) crackFor(i int, c Crack, f part.Face) (place.Line, bool) {
	l := place.Line{Path: c.Front}
	if l.Path == nil || f == part.Back && c.Back != nil {
		l.Path = c.Back
	}
	d := s.d.Slab.Crack[i]
	for _, o := range d.Opening.V {
		l.Opening = append(l.Opening, float64(o))
	}
	for _, t := range d.Tips.V {
		l.FirstTip = l.FirstTip || t == "first"
		l.LastTip = l.LastTip || t == "last"
	}
	return l, l.Path != nil
}

// allowed knows what a key on a face must keep clear of.
type allowed struct {
	s          *solver
	face       part.Face
	top, floor float64
	near       []*space.Body // voids, keys, and contours of the other face
	over       []*space.Body // contours of the key's own face
}

// keyAllowed returns what forbids a key over a crack on a face: the outline with
// its edge, a void or key beside or under it, a contour that would leave too
// little of it. Keys fixed by hand over the same crack are stations themselves, on
// each of the given faces. The limits are those of the checks.
func (s *solver) keyAllowed(f part.Face, l place.Line, faces []part.Face) allowed {
	a := allowed{s: s, face: f}
	for _, v := range append(s.Voids(), s.otherKeys(f, l, faces)...) {
		a.near = append(a.near, space.Of(v))
	}
	for _, k := range []part.Kind{part.JackHole, part.Screw, part.StringHole, part.Post} {
		for _, v := range s.OfKind(k) {
			a.near = append(a.near, space.Of(v))
		}
	}
	for _, c := range s.OfKind(part.Contour) {
		if c.Face == f {
			a.over = append(a.over, space.Of(c))
		} else {
			a.near = append(a.near, space.Of(c))
		}
	}
	a.top, a.floor = s.depths(f)
	return a
}

// room is how near a key comes to one thing, and how near it may come.
type room struct {
	by         string
	have, need float64
}

// rooms calls f for everything that a key of a plan comes near to, until f returns
// false. Of voids and keys farther away than within it need not tell how far.
func (a allowed) rooms(plan geom.Region, within float64, f func(room) bool) {
	p := part.Part{Kind: part.Recess, Face: a.face, Solids: []part.Solid{{Plan: plan, Top: part.Level(a.top), Floor: part.Level(a.floor)}}}
	key := space.Of(p)
	if !f(room{"the outline", key.ToEdge(a.s.Edge).D, limit.KeyInOutline.Stop}) {
		return
	}
	for _, o := range a.near {
		g := key.Within(o, within)
		beside, under, over := limit.KeyToVoid.Stop, limit.KeyOverVoid.Stop, g.Over()
		if o.Part.Kind == part.Recess { // keys that share no depths are over each other
			beside, under, over = limit.KeyToKey.Stop, limit.KeyOverKey.Stop, !p.SharesDepth(o.Part)
		}
		r := room{o.Part.String(), g.D, beside}
		if over {
			r = room{o.Part.String() + " under it", g.D, under}
		}
		if !f(r) {
			return
		}
	}
	for _, o := range a.over {
		if left, _, ok := LeftUnder(p, o.Part, a.s.Thickness); ok && !f(room{o.Part.String() + " over it", left, limit.KeyInContour.Stop}) {
			return
		}
	}
}

// nearby is how far from a key things are looked for, mm: the greatest of the
// distances that forbid one.
var nearby = max(limit.KeyToVoid.Stop, limit.KeyToKey.Stop, limit.KeyOverVoid.Stop, limit.KeyOverKey.Stop)

// block returns what forbids a key of a plan; nil when nothing does.
func (a allowed) block(plan geom.Region, _ geom.Point) *place.Block {
	var b *place.Block
	a.rooms(plan, nearby, func(r room) bool {
		if r.have < r.need {
			b = &place.Block{By: r.by, Have: r.have, Need: r.need}
		}
		return b == nil
	})
	return b
}

// tightest returns the thing that a key comes nearest to its limit with, in words.
func (a allowed) tightest(plan geom.Region) string {
	least := room{have: math.Inf(1)}
	a.rooms(plan, math.Inf(1), func(r room) bool {
		if r.have-r.need < least.have-least.need {
			least = r
		}
		return true
	})
	return fmt.Sprintf("nearest to its limit is %s: %s mm, %s needed", least.by, design.MM(least.have), design.MM(least.need))
}

// LeftUnder returns how deep a part stays, in mm, where a contour of its own face
// takes the most of it, and where; ok is false where the contour passes it by. A
// part that the contour takes wholly has 0 left or less.
func LeftUnder(p, contour part.Part, thickness float64) (left float64, at geom.Point, ok bool) {
	depth := p.Depth(thickness)
	var c geom.Calc
	for _, s := range contour.Solids {
		both := c.Intersect(p.Plan(), s.Plan)
		if c.Err() != nil || both.Area() < geom.Budget {
			continue
		}
		top, floor := part.Solid{Plan: both, Top: s.Top, Floor: s.Floor}.Extremes()
		taken, q := floor.Z, floor.Flat()
		if contour.Face == part.Back {
			taken, q = thickness-top.Z, top.Flat()
		}
		if !ok || depth-taken < left {
			left, at, ok = depth-taken, q, true
		}
	}
	return left, at, ok
}

// woodUnder returns how much wood a key on face f leaves between itself and a
// void in depth, mm; negative where both share depths.
func (s *solver) woodUnder(f part.Face, v part.Part) float64 {
	top, floor := s.depths(f)
	vtop, vfloor := v.Range()
	if f == part.Back {
		return top - vfloor
	}
	return vtop - floor
}

// otherKeys returns the recesses of the keys that one over a crack on face f must
// keep clear of: all those that are no stations of the crack on the given faces.
func (s *solver) otherKeys(f part.Face, l place.Line, faces []part.Face) []part.Part {
	var out []part.Part
	for _, k := range s.Keys.Poses {
		if s.stands(k, l) && slices.Contains(faces, k.Face) && (k.Face == f || s.facesMeet()) {
			continue
		}
		top, floor := s.depths(k.Face)
		out = append(out, part.Part{Name: k.Name, Kind: part.Recess, Face: k.Face, Solids: []part.Solid{{Plan: s.plan(k), Top: part.Level(top), Floor: part.Level(floor)}}})
	}
	return out
}

// stands reports whether a key placed by hand stands over a crack.
func (s *solver) stands(k KeyPose, l place.Line) bool {
	if k.Why != "" { // the program placed it, over another one
		return false
	}
	_, d := l.Nearest(k.At)
	return d <= s.Keys.length(k)/2
}

// KeepOut is a place that a key must stay clear of.
type KeepOut struct {
	Words  string
	Region geom.Region // of a void: it and the wood round it; of the body: what a key may use
}

// keepOuts works out what the keys of each face must stay clear of, by the limits
// of the checks. One that cannot be drawn is an error: a line that is missing would
// look like room.
func (s *solver) keepOuts() error {
	if s.Keys == nil {
		return nil
	}
	for _, f := range s.Keys.Faces() {
		var c geom.Calc
		out := []KeepOut{{"keys stay inside this line", c.Offset(s.Outline, -limit.KeyInOutline.Stop, geom.Round)}}
		for _, v := range s.Voids() {
			switch left := s.woodUnder(f, v); {
			case left < 0:
				out = append(out, KeepOut{"keys stay outside this line: " + v.String(), c.Offset(v.Plan(), limit.KeyToVoid.Stop, geom.Round)})
			case left < limit.KeyOverVoid.Stop:
				out = append(out, KeepOut{fmt.Sprintf("keys stay outside this line: %s under them, %s mm below", v, design.MM(left)), v.Plan()})
			}
			if err := c.Err(); err != nil {
				return fmt.Errorf("the room that keys keep from %s: %w", v, err)
			}
		}
		s.KeepOut[f] = out
	}
	return nil
}

// KeepOuts returns what the keys of a face must stay clear of; nothing for a face
// without keys.
func (j *Job) KeepOuts(f part.Face) []KeepOut { return j.KeepOut[f] }

// withHandKeys puts the keys placed by hand on this crack among the stations.
func (s *solver) withHandKeys(l place.Line, stations []place.Station, f part.Face) []place.Station {
	for _, k := range s.Keys.Poses {
		if k.Face != f || !s.stands(k, l) {
			continue
		}
		along, _ := l.Nearest(k.At)
		st := place.Station{S: along, At: k.At, Turn: k.Turn, Fixed: true, Plan: s.plan(k), Size: k.Size, Length: s.Keys.length(k), Waist: s.Keys.Sizes[k.Size].Fit.Spec.Waist}
		i := 0
		for i < len(stations) && stations[i].S < along {
			i++
		}
		stations = append(stations[:i], append([]place.Station{st}, stations[i:]...)...)
	}
	return stations
}

// takeKeys adds the keys of a solved crack, with the reason for each.
func (s *solver) takeKeys(crack int, e facing, set place.Set) {
	l := e.Line
	for _, k := range set.Keys {
		if k.Fixed {
			continue
		}
		half := k.Length / 2
		name := fmt.Sprintf("%d-%d", crack+1, len(s.Keys.Poses)+1)
		why := fmt.Sprintf("%s mm along crack %d, %s", design.MM(k.S), crack+1, e.stand)
		if w := s.Keys.Sizes[k.Size].Words; w != "" {
			why = w + ", " + why
		}
		if e.face == part.Back {
			why += ", on the back"
		}
		why += fmt.Sprintf("; holds it from %s to %s mm", design.MM(math.Max(0, k.S-half)), design.MM(math.Min(l.Length(), k.S+half)))
		if l.FirstTip && k.S <= limit.TipToKey {
			why += ", its first tip"
		}
		if l.LastTip && l.Length()-k.S <= limit.TipToKey {
			why += ", its last tip"
		}
		why += "; " + e.allowed.tightest(k.Plan)
		s.Keys.Poses = append(s.Keys.Poses, KeyPose{Name: name, Size: k.Size, At: k.At, Turn: k.Turn, Face: e.face, Pos: s.d.Keys.Place.At, Why: why})
		s.solved("key "+name, fmt.Sprintf("x %s, y %s mm, %s°", design.MM(k.At.X), design.MM(k.At.Y), design.MM(k.Turn.Degrees())), why)
	}
	if len(set.Keys) == 0 {
		s.solved(fmt.Sprintf("crack %d", crack+1), "no key", "none is allowed anywhere on it")
	}
	for _, b := range set.Bare {
		at, _ := l.At((b.From + b.To) / 2)
		r := Bare{Crack: crack + 1, Face: e.face, From: b.From, To: b.To, At: at}
		if b.Block != nil {
			r.By, r.Have, r.Need = b.Block.By, b.Block.Have, b.Block.Need
		}
		s.Keys.Bare = append(s.Keys.Bare, r)
	}
}
