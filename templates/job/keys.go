package job

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"routwright/geom"
	"routwright/templates/cut"
	"routwright/templates/design"
	"routwright/templates/key"
	"routwright/templates/part"
	"routwright/templates/tool"
)

// keys solves the shared key and places it where the builder says.
func (s *solver) keys() {
	d := s.d
	if len(d.Key) == 0 && !d.Keys.Place.V && !s.anyKeyCut() {
		return
	}
	k := d.Keys
	spec := key.Spec{
		Length:   s.length(k.Length, "keys.length", defaultKeyLength, "40–75"),
		Ends:     s.length(k.Ends, "keys.ends", defaultKeyEnds, "0.35–0.5 of the length"),
		Waist:    s.length(k.Waist, "keys.waist", defaultKeyWaist, "0.4–0.55 of the ends"),
		Gap:      s.length(k.Gap, "keys.gap", defaultKeyGap, "PVA glue, 0.05–0.10 a side"),
		Corners:  key.Corners(k.Corners.V),
		Template: s.rin,
	}
	if k.Border.Set() {
		spec.Border = float64(k.Border.V)
		spec.GlueLine = s.length(k.GlueLine, "keys.glue_line", defaultGlueLine, "on each face of a border strip")
	}
	if !k.Corners.Set() {
		spec.Corners = key.Rounded
		s.assume("keys.corners", string(key.Rounded), "no hand work")
	}
	if err := spec.Check(); err != nil {
		s.fail(k.At, "keys", err.Error(), "a key with a waist narrower than its ends, and a gap that leaves it one", "change the key's measures")
		return
	}
	depth := s.keyDepth(k.Depth)
	faces := s.recessFaces()
	for _, f := range faces {
		if plate := s.PlateOn(f); plate > 0 { // it would hide them, and their depth counts from the finished face
			s.fail(k.At, "keys.face", fmt.Sprintf("keys in the %s, on which a plate of %s mm is glued over chambers", f, design.MM(plate)), "keys in a face without a plate", "let the keys into the other face, or cut the chambers from there")
			return
		}
	}
	n := need("keys.cut", 0, depth+s.PlaneOff[faces[0]], s.sheet)
	for _, f := range faces[1:] { // the tool must do for either face
		other := need("keys.cut", 0, depth+s.PlaneOff[f], s.sheet)
		n.Depth = max(n.Depth, other.Depth)
		n.Try = both(n.Try, other.Try)
	}
	specs := s.graduated(spec)
	if spec.Corners == key.Rounded {
		n.Corner = specs[len(specs)-1].Waist / 4 // the waist's arc must leave flanks; common practice
	}
	t, collar, err := s.keyTool(specs, n)
	if err != nil {
		s.errs.Add(err)
		return
	}
	sizes := make([]KeySize, len(specs))
	for i, e := range specs {
		if sizes[i].Fit, err = s.makeKey(e, t, collar); err != nil {
			s.fail(k.At, "keys", err.Error(), "a key that the named bit can cut", "change the key's measures or name a smaller bit")
			return
		}
		if len(specs) > 1 {
			sizes[i].Words = design.MM(e.Length) + " mm long"
		}
		if i > 0 {
			sizes[i].Suffix = "-" + design.Slug(design.MM(e.Length))
		}
	}
	fit := sizes[0].Fit
	if collar != 0 {
		s.solved("keys.gap", design.MM(fit.Spec.Gap)+" mm a side", "fixed by the collar: half of bush + 2 bits − collar")
	}
	if t.Why != "" {
		s.solved("keys.cut.bit", t.Bit, t.Why)
	}
	s.Keys = &Keys{Fit: fit, Sizes: sizes, Depth: depth, Wanted: spec.Gap, Taper: geom.Angle(k.Taper.V) * geom.Degree, LeadIn: float64(k.LeadIn.V)}
	s.wood()
	for _, e := range d.Key {
		s.handKey(e)
	}
	s.keptKeys()
	if k.Place.V {
		s.placeKeys()
	}
	s.dropUnusedSizes()
	for _, p := range s.Keys.Poses {
		s.addKey(p)
	}
	s.keyTemplates()
}

// makeKey draws the key with a tool, or with the inlay set that a collar on the
// tool's bush makes; collar is 0 without one.
func (s *solver) makeKey(spec key.Spec, t tool.Tool, collar float64) (key.Fit, error) {
	if collar == 0 {
		return key.Make(spec, t)
	}
	if t.Guide != tool.Bush {
		return key.Fit{}, fmt.Errorf("a collar of %s mm needs the bush that it sits on: cut = {bit = …, bush = …}", design.MM(collar))
	}
	return inlay(spec, t, collar)
}

// recessFaces returns the faces that keys may be let into, as the design says.
func (s *solver) recessFaces() []part.Face {
	var may [2]bool
	put := func(v design.Val[string], or string) {
		switch face := cmp.Or(v.V, or, "front"); face {
		case "both":
			may = [2]bool{true, true}
		case "back":
			may[part.Back] = true
		default:
			may[part.Front] = true
		}
	}
	if s.d.Keys.Place.V || len(s.d.Key) == 0 {
		put(s.d.Keys.Face, "")
	}
	for _, k := range s.d.Key {
		put(k.Face, s.d.Keys.Face.V)
	}
	if s.kept != nil {
		for _, k := range s.kept.Keys {
			if s.keysCut(k.Name).V {
				put(design.Val[string]{V: k.Face.String()}, "")
			}
		}
	}
	var out []part.Face
	for f, is := range may {
		if is {
			out = append(out, part.Face(f))
		}
	}
	return out
}

// graduated returns the key as the design has it, then the shorter ones of a
// graduated set in the same proportions, the longest first.
func (s *solver) graduated(spec key.Spec) []key.Spec {
	out := []key.Spec{spec}
	g := s.d.Keys.Graduated
	for _, v := range g.V {
		l := float64(v)
		if l >= spec.Length-geom.Budget {
			s.fail(g.At, "keys.graduated", design.MM(l)+" mm", "lengths under that of the key, "+design.MM(spec.Length)+" mm", "leave it out, or make keys.length the longest")
			continue
		}
		e := spec
		e.Length, e.Ends, e.Waist = l, spec.Ends*l/spec.Length, spec.Waist*l/spec.Length
		out = append(out, e)
	}
	slices.SortStableFunc(out, func(a, b key.Spec) int { return cmp.Compare(b.Length, a.Length) })
	out = slices.CompactFunc(out, func(a, b key.Spec) bool { return a.Length == b.Length })
	for _, e := range out[1:] {
		s.solved("keys.graduated", design.MM(e.Length)+" mm long", fmt.Sprintf("ends %s, waist %s mm, in the proportions of the full key", design.MM(e.Ends), design.MM(e.Waist)))
	}
	return out
}

// dropUnusedSizes drops the sizes that no key has, the first excepted.
func (s *solver) dropUnusedSizes() {
	k := s.Keys
	to := map[int]int{}
	var kept []KeySize
	for i, z := range k.Sizes {
		if i == 0 || k.Count(i) > 0 || slices.ContainsFunc(k.Poses, func(p KeyPose) bool { return p.asked != nil && p.asked.Size == i }) {
			to[i] = len(kept)
			kept = append(kept, z)
		}
	}
	for i := range k.Poses {
		k.Poses[i].Size = to[k.Poses[i].Size]
		if a := k.Poses[i].asked; a != nil {
			a.Size = to[a.Size]
		}
	}
	k.Sizes = kept
}

// handKey takes a key that the builder placed.
func (s *solver) handKey(e design.Key) {
	pose := KeyPose{Name: e.Name.V, At: e.At.V, Turn: geom.Angle(e.Angle.V) * geom.Degree, Pos: e.Table.At}
	if pose.Name == "" {
		pose.Name = fmt.Sprintf("key %d", len(s.Keys.Poses)+1)
	}
	pose.Meets = e.Meets.V
	if e.Face.V == "back" || !e.Face.Set() && s.d.Keys.Face.V == "back" {
		pose.Face = part.Back
	}
	if l := e.Length; l.Set() {
		pose.Size = slices.IndexFunc(s.Keys.Sizes, func(z KeySize) bool { return math.Abs(z.Fit.Spec.Length-float64(l.V)) < geom.Budget })
		if pose.Size < 0 {
			s.fail(l.At, "key.length", design.MM(float64(l.V))+" mm", "keys.length or one of keys.graduated", "add it to keys.graduated, so that it gets a template")
			pose.Size = 0
		}
	}
	s.Keys.Poses = append(s.Keys.Poses, s.marked(pose, e.Cut))
}

// plan returns the recess of a key where it stands.
func (s *solver) plan(k KeyPose) geom.Region {
	return geom.Pose(k.At, k.Turn).Region(s.Keys.Sizes[k.Size].Fit.Recess)
}

// length returns how long a key is, mm.
func (k *Keys) length(p KeyPose) float64 { return k.Sizes[p.Size].Fit.Spec.Length }

// depths returns the depths between which a key on a face lies.
func (s *solver) depths(f part.Face) (top, floor float64) {
	if f == part.Back {
		return s.Thickness - s.Keys.Depth, s.Thickness
	}
	return 0, s.Keys.Depth
}

// addKey adds one key and its recess to the parts.
func (s *solver) addKey(pose KeyPose) {
	made := func(pose KeyPose, id string, kind part.Kind, plan geom.Region, adds bool) part.Part {
		top, floor := s.depths(pose.Face)
		return part.Part{
			ID: id, Name: pose.Name, Kind: kind, Face: pose.Face,
			Adds: adds, Group: "key " + pose.Name, At: pose.Pos,
			Solids: []part.Solid{{Plan: geom.Pose(pose.At, pose.Turn).Region(plan), Top: part.Level(top), Floor: part.Level(floor)}},
		}
	}
	f := s.Keys.Sizes[pose.Size].Fit
	id := s.id(pose.Name + " " + string(part.Recess))
	recess := s.settle(made(pose, id, part.Recess, f.Recess, false), pose.mark)
	if a := pose.asked; a != nil { // by hand elsewhere, or another way round
		s.Locked[len(s.Locked)-1].Asked = made(*a, id, part.Recess, s.Keys.Sizes[a.Size].Fit.Recess, false)
	}
	s.Parts = append(s.Parts, recess, made(pose, s.id(pose.Name+" "+string(part.Key)), part.Key, f.Key, true))
}

// keyTemplates adds for each size the shared female template and the male template
// for the key, both about the middle of the key with its axis along +X.
func (s *solver) keyTemplates() {
	for _, z := range s.Keys.Sizes {
		female, male := z.Fit.Templates(s.Keys.Depth, s.sheet, webMargin)
		made := []*cut.Template{&female, &male}
		if z.Fit.Inlay != nil {
			made = made[:1] // one opening for both
		}
		for _, t := range made {
			s.keyTemplate(*t, z)
		}
	}
	if s.Keys.Fit.Tool.Free() {
		for _, f := range s.Keys.Faces() {
			s.recessPaths(f)
		}
	}
}

// recessPaths adds the paths of all recesses of one face at their places, for a
// machine that finds its zero by the pins.
func (s *solver) recessPaths(f part.Face) {
	var c geom.Calc
	var plans []geom.Region
	var hand []cut.HandWork
	for _, k := range s.Keys.Poses {
		if k.Face != f {
			continue
		}
		plans = append(plans, s.plan(k))
		for _, h := range s.Keys.Sizes[k.Size].Fit.RecessHand {
			h.Zone = geom.Pose(k.At, k.Turn).Region(h.Zone)
			hand = append(hand, h)
		}
	}
	if len(plans) == 0 {
		return
	}
	all := c.Union(plans...)
	top, floor := s.depths(f)
	id := s.id("key recesses " + f.String())
	t := cut.Template{
		ID: id, Name: "key recesses of the " + f.String(), Shape: cut.OpeningFor(&c, all, s.Keys.Fit.Tool), Tool: s.Keys.Fit.Tool, Hand: hand,
		For: part.Part{ID: id, Name: "all keys of the " + f.String(), Kind: part.Recess, Face: f, At: s.d.Keys.At,
			Solids: []part.Solid{{Plan: all, Top: part.Level(top), Floor: part.Level(floor)}}},
	}
	if err := c.Err(); err != nil {
		s.fail(s.d.Keys.At, "keys", err.Error(), "recesses that a path can be drawn for", "move keys that meet")
		return
	}
	s.Templates = append(s.Templates, t)
}

func (s *solver) keyTemplate(t cut.Template, z KeySize) {
	t.ID += z.Suffix
	t.For.ID = t.ID
	s.ids[t.ID] = true
	if z.Words != "" {
		t.Name += " " + z.Words
		t.For.Name = "keys " + z.Words
	}
	t.For.At = s.d.Keys.At
	if faces := s.Keys.Faces(); faces[0] == part.Back { // on the back alone
		t.For.Face = part.Back
		top, floor := s.depths(part.Back)
		t.For.Solids[0].Top, t.For.Solids[0].Floor = part.Level(top), part.Level(floor)
	}
	if !t.Male {
		if err := s.carry(&t); err != nil {
			s.fail(s.d.Keys.At, "keys", err.Error(), "a template that carries the router's base", "change the key's measures")
			return
		}
	}
	s.Templates = append(s.Templates, t)
}

// proveKeys lays the keys of each size into their recess, as the simulated cuts
// leave them.
func (s *solver) proveKeys() error {
	if s.Keys == nil {
		return nil
	}
	for i := range s.Keys.Sizes {
		z := &s.Keys.Sizes[i]
		var female, male cut.Template
		for _, t := range s.Templates {
			switch t.ID {
			case key.RecessID + z.Suffix:
				female = t
			case key.KeyID + z.Suffix:
				male = t
			}
		}
		p, err := key.Prove(z.Fit, female, male)
		if err != nil {
			return fmt.Errorf("laying the key into its recess: %w", err)
		}
		z.Proof, z.Gap = p, p.Gap
	}
	s.Keys.Proof, s.Keys.Gap = s.Keys.Sizes[0].Proof, s.Keys.Sizes[0].Gap
	return nil
}
