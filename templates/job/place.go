package job

import (
	"fmt"
	"math"

	"routwright/geom"
	"routwright/templates/design"
	"routwright/templates/limit"
	"routwright/templates/part"
	"routwright/templates/place"
	"routwright/templates/space"
)

// placeKeys places keys over every crack, on the face that the design names.
// Keys placed by hand stay where they are and are built round.
func (s *solver) placeKeys() {
	if len(s.Cracks) == 0 {
		s.fail(s.d.Keys.Place.At, "keys.place", "true, without a crack", "a [[slab.crack]] to place keys over", "measure the crack, or place keys by hand")
		return
	}
	faces := map[string][]part.Face{"back": {part.Back}, "both": {part.Front, part.Back}}[s.d.Keys.Face.V]
	if faces == nil {
		faces = []part.Face{part.Front}
	}
	for _, f := range faces {
		s.placeOn(f)
	}
}

// placeOn places keys on one face.
func (s *solver) placeOn(f part.Face) {
	rules := place.Rules{
		KeyLength: s.Keys.Fit.Spec.Length,
		Between:   limit.KeyToKey.Stop,
		Tip:       limit.TipToKey,
		Allowed:   s.keyAllowed(f),
	}
	for i, c := range s.Cracks {
		line, ok := s.crackFor(i, c, f)
		if !ok {
			continue
		}
		stations := place.Stations(line, s.Keys.Fit.Recess, rules, nil)
		stations = s.withHandKeys(line, stations, f)
		set := place.Solve(line, stations, rules)
		s.takeKeys(i, line, set, f)
	}
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

// keyAllowed returns what forbids a key on a face: the outline with its edge, a
// void or key beside or under it, a contour that would leave too little of it.
// The limits are those of the checks.
func (s *solver) keyAllowed(f part.Face) func(geom.Region, geom.Point) *place.Block {
	var near, over []*space.Body
	for _, v := range append(s.Voids(), s.otherKeys(f)...) {
		near = append(near, space.Of(v))
	}
	for _, c := range s.OfKind(part.Contour) {
		if c.Face == f {
			over = append(over, space.Of(c))
		} else {
			near = append(near, space.Of(c))
		}
	}
	top, floor := s.depths(f)
	return func(plan geom.Region, at geom.Point) *place.Block {
		p := part.Part{Kind: part.Recess, Face: f, Solids: []part.Solid{{Plan: plan, Top: part.Level(top), Floor: part.Level(floor)}}}
		key := space.Of(p)
		if d := key.ToEdge(s.Edge).D; d < limit.KeyInOutline.Stop {
			return &place.Block{By: "the outline", Have: d, Need: limit.KeyInOutline.Stop}
		}
		for _, o := range near {
			g := key.Within(o, max(limit.KeyToVoid.Stop, limit.KeyToKey.Stop, limit.KeyOverVoid.Stop, limit.KeyOverKey.Stop))
			beside, under := limit.KeyToVoid.Stop, limit.KeyOverVoid.Stop
			if o.Part.Kind == part.Recess {
				beside, under = limit.KeyToKey.Stop, limit.KeyOverKey.Stop
			}
			switch {
			case g.Over() && g.D < under:
				return &place.Block{By: o.Part.String() + " under it", Have: g.D, Need: under}
			case !g.Over() && g.D < beside:
				return &place.Block{By: o.Part.String(), Have: g.D, Need: beside}
			}
		}
		for _, o := range over {
			if left, _, ok := LeftUnder(p, o.Part, s.Thickness); ok && left < limit.KeyInContour.Stop {
				return &place.Block{By: o.Part.String() + " over it", Have: left, Need: limit.KeyInContour.Stop}
			}
		}
		return nil
	}
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

// otherKeys returns the recesses of the keys that the other face holds.
func (s *solver) otherKeys(f part.Face) []part.Part {
	var out []part.Part
	for _, k := range s.Keys.Poses {
		if k.Face != f {
			top, floor := s.depths(k.Face)
			plan := geom.Pose(k.At, k.Turn).Region(s.Keys.Fit.Recess)
			out = append(out, part.Part{Name: k.Name, Kind: part.Recess, Face: k.Face, Solids: []part.Solid{{Plan: plan, Top: part.Level(top), Floor: part.Level(floor)}}})
		}
	}
	return out
}

// KeepOut is a place that a key must stay clear of.
type KeepOut struct {
	Words  string
	Region geom.Region // of a void: it and the wood round it; of the body: what a key may use
}

// KeepOuts returns what the keys of a face must stay clear of, by the limits of
// the checks.
func (j *Job) KeepOuts(f part.Face) ([]KeepOut, error) {
	if j.Keys == nil {
		return nil, nil
	}
	var c geom.Calc
	s := solver{Job: j}
	out := []KeepOut{{"keys stay inside this line", c.Offset(j.Outline, -limit.KeyInOutline.Stop, geom.Round)}}
	for _, v := range j.Voids() {
		if s.woodUnder(f, v) < 0 {
			out = append(out, KeepOut{"keys stay outside this line: " + v.String(), c.Offset(v.Plan(), limit.KeyToVoid.Stop, geom.Round)})
		}
	}
	return out, c.Err()
}

// withHandKeys puts the keys placed by hand on this crack among the stations.
func (s *solver) withHandKeys(l place.Line, stations []place.Station, f part.Face) []place.Station {
	for _, k := range s.Keys.Poses {
		if k.Face != f {
			continue
		}
		along, d := nearestAlong(l, k.At)
		if d > s.Keys.Fit.Spec.Length/2 {
			continue // on another crack, or on none
		}
		st := place.Station{S: along, At: k.At, Turn: k.Turn, Fixed: true, Plan: geom.Pose(k.At, k.Turn).Region(s.Keys.Fit.Recess)}
		i := 0
		for i < len(stations) && stations[i].S < along {
			i++
		}
		stations = append(stations[:i], append([]place.Station{st}, stations[i:]...)...)
	}
	return stations
}

// nearestAlong returns where along a crack it comes nearest to p, and how near.
func nearestAlong(l place.Line, p geom.Point) (s, d float64) {
	d = math.Inf(1)
	var before float64
	for _, e := range l.Path {
		q := e.Closest(p)
		if x := q.Dist(p); x < d {
			d, s = x, before+e.A.Dist(q)
		}
		before += e.Length()
	}
	return s, d
}

// takeKeys adds the keys of a solved crack, with the reason for each.
func (s *solver) takeKeys(crack int, l place.Line, set place.Set, f part.Face) {
	for _, k := range set.Keys {
		if k.Fixed {
			continue
		}
		name := fmt.Sprintf("%d-%d", crack+1, len(s.Keys.Poses)+1)
		why := fmt.Sprintf("%s mm along crack %d, square to it", design.MM(k.S), crack+1)
		if f == part.Back {
			why += ", on the back"
		}
		s.Keys.Poses = append(s.Keys.Poses, KeyPose{Name: name, At: k.At, Turn: k.Turn, Face: f, Pos: s.d.Keys.Place.At, Why: why})
		s.solved("key "+name, fmt.Sprintf("x %s, y %s mm, %s°", design.MM(k.At.X), design.MM(k.At.Y), design.MM(k.Turn.Degrees())), why)
	}
	if len(set.Keys) == 0 {
		s.solved(fmt.Sprintf("crack %d", crack+1), "no key", "none is allowed anywhere on it")
	}
	for _, b := range set.Bare {
		at, _ := l.At((b.From + b.To) / 2)
		e := Bare{Crack: crack + 1, Face: f, From: b.From, To: b.To, At: at}
		if b.Block != nil {
			e.By, e.Have, e.Need = b.Block.By, b.Block.Have, b.Block.Need
		}
		s.Keys.Bare = append(s.Keys.Bare, e)
	}
}
