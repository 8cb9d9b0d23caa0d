package job

import (
	"fmt"
	"math"

	"routwright/geom"
	"routwright/templates/design"
	"routwright/templates/limit"
	"routwright/templates/part"
	"routwright/templates/place"
)

// placeKeys places keys on the front over every crack. Keys placed by hand stay
// where they are and are built round.
func (s *solver) placeKeys() {
	rules := place.Rules{
		KeyLength: s.Keys.Fit.Spec.Length,
		Between:   limit.KeyToKey.Stop,
		Tip:       limit.TipToKey,
		Allowed:   s.keyAllowed(),
	}
	if len(s.Cracks) == 0 {
		s.fail(s.d.Keys.Place.At, "keys.place", "true, without a crack", "a [[slab.crack]] to place keys over", "measure the crack, or place keys by hand")
		return
	}
	for i, c := range s.Cracks {
		line, ok := s.crackFor(i, c)
		if !ok {
			continue
		}
		stations := place.Stations(line, s.Keys.Fit.Recess, rules, nil)
		stations = s.withHandKeys(line, stations)
		set := place.Solve(line, stations, rules)
		s.takeKeys(i, line, set)
	}
}

// crackFor returns the line of a crack as it is placed on.
func (s *solver) crackFor(i int, c Crack) (place.Line, bool) {
	l := place.Line{Path: c.Front}
	if l.Path == nil {
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

// obstacle is a void as a key meets it.
type obstacle struct {
	part  part.Part
	index *geom.Index
}

// keyAllowed returns what forbids a key on the front: the outline, a void of the
// same depths, a void under it. The limits are those of the checks.
func (s *solver) keyAllowed() func(geom.Region, geom.Point) *place.Block {
	var same, under []obstacle
	_, floor := s.depths(part.Front)
	for _, v := range s.Voids() {
		top, _ := v.Range()
		o := obstacle{v, geom.IndexOf(v.Plan())}
		switch {
		case top < floor:
			same = append(same, o)
		case top-floor < limit.KeyOverVoid.Stop:
			under = append(under, o)
		}
	}
	body := geom.IndexOf(s.Outline)
	return func(plan geom.Region, at geom.Point) *place.Block {
		key := geom.IndexOf(plan)
		if d := insideBy(body, plan, s.Outline); d < limit.KeyInOutline.Stop {
			return &place.Block{By: "the outline", Have: d, Need: limit.KeyInOutline.Stop}
		}
		for _, o := range same {
			if d, _, _ := key.Distance(o.index); d < limit.KeyToVoid.Stop {
				return &place.Block{By: o.part.String(), Have: d, Need: limit.KeyToVoid.Stop}
			}
		}
		for _, o := range under {
			if d, _, _ := key.Distance(o.index); d <= 0 {
				top, _ := o.part.Range()
				return &place.Block{By: o.part.String() + " under it", Have: top - floor, Need: limit.KeyOverVoid.Stop}
			}
		}
		return nil
	}
}

// insideBy returns how far plan stays inside the outline; negative when a part
// of it lies outside.
func insideBy(body *geom.Index, plan, outline geom.Region) float64 {
	d := math.Inf(1)
	for _, p := range plan {
		for _, v := range p.Vertices() {
			if !body.Contains(v) {
				_, e := body.Closest(v)
				return -e
			}
		}
		for _, o := range outline {
			if e, _, _ := geom.PathDistance(p, o); e < d {
				d = e
			}
		}
	}
	return d
}

// withHandKeys puts the keys placed by hand on this crack among the stations.
func (s *solver) withHandKeys(l place.Line, stations []place.Station) []place.Station {
	for _, k := range s.Keys.Poses {
		if k.Face != part.Front {
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
func (s *solver) takeKeys(crack int, l place.Line, set place.Set) {
	for _, k := range set.Keys {
		if k.Fixed {
			continue
		}
		name := fmt.Sprintf("%d-%d", crack+1, len(s.Keys.Poses)+1)
		why := fmt.Sprintf("%s mm along crack %d, square to it", design.MM(k.S), crack+1)
		s.Keys.Poses = append(s.Keys.Poses, KeyPose{Name: name, At: k.At, Turn: k.Turn, Pos: s.d.Keys.Place.At, Why: why})
		s.solved("key "+name, fmt.Sprintf("x %s, y %s mm, %s°", design.MM(k.At.X), design.MM(k.At.Y), design.MM(k.Turn.Degrees())), why)
	}
	if len(set.Keys) == 0 {
		s.solved(fmt.Sprintf("crack %d", crack+1), "no key", "none is allowed anywhere on it")
	}
	for _, b := range set.Bare {
		at, _ := l.At((b.From + b.To) / 2)
		e := Bare{Crack: crack + 1, From: b.From, To: b.To, At: at}
		if b.Block != nil {
			e.By, e.Have, e.Need = b.Block.By, b.Block.Have, b.Block.Need
		}
		s.Keys.Bare = append(s.Keys.Bare, e)
	}
}
