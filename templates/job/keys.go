package job

import (
	"fmt"

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
	if len(d.Key) == 0 && !d.Keys.Place.V {
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
	depth := s.length(k.Depth, "keys.depth", s.Thickness/4, "about a third of the body, never over half")
	n := need("keys.cut", 0, depth+max(s.PlaneOff[0], s.PlaneOff[1]), s.sheet)
	if spec.Corners == key.Rounded {
		n.Corner = spec.Waist / 4 // the waist's arc must leave flanks; common practice
	}
	t, collar, err := s.keyTool(spec, n)
	if err != nil {
		s.errs.Add(err)
		return
	}
	fit, err := s.makeKey(spec, t, collar)
	if err != nil {
		s.fail(k.At, "keys", err.Error(), "a key that the named bit can cut", "change the key's measures or name a smaller bit")
		return
	}
	if t.Why != "" {
		s.solved("keys.cut.bit", t.Bit, t.Why)
	}
	s.Keys = &Keys{Fit: fit, Depth: depth, Wanted: spec.Gap, Taper: geom.Angle(k.Taper.V) * geom.Degree, LeadIn: float64(k.LeadIn.V)}
	s.wood()
	for _, e := range d.Key {
		s.handKey(e)
	}
	if k.Place.V {
		s.placeKeys()
	}
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
	f, err := inlay(spec, t, collar)
	if err == nil {
		s.solved("keys.gap", design.MM(f.Spec.Gap)+" mm a side", "fixed by the collar: half of bush + 2 bits − collar")
	}
	return f, err
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
	s.Keys.Poses = append(s.Keys.Poses, pose)
}

// depths returns the depths between which a key on a face lies.
func (s *solver) depths(f part.Face) (top, floor float64) {
	if f == part.Back {
		return s.Thickness - s.Keys.Depth, s.Thickness
	}
	return 0, s.Keys.Depth
}

// addKey adds one key and its recess to the parts.
func (s *solver) addKey(pose KeyPose) {
	place := geom.Pose(pose.At, pose.Turn)
	top, floor := s.depths(pose.Face)
	add := func(kind part.Kind, plan geom.Region, adds bool) {
		s.Parts = append(s.Parts, part.Part{
			ID: s.id(pose.Name + " " + string(kind)), Name: pose.Name, Kind: kind, Face: pose.Face,
			Adds: adds, Group: "key " + pose.Name, At: pose.Pos,
			Solids: []part.Solid{{Plan: place.Region(plan), Top: part.Level(top), Floor: part.Level(floor)}},
		})
	}
	add(part.Recess, s.Keys.Fit.Recess, false)
	add(part.Key, s.Keys.Fit.Key, true)
}

// keyTemplates adds the shared female template and the male template for the
// key, both about the middle of the key with its axis along +X.
func (s *solver) keyTemplates() {
	female, male := s.Keys.Fit.Templates(s.Keys.Depth, s.sheet, webMargin)
	made := []*cut.Template{&female, &male}
	if s.Keys.Fit.Inlay != nil {
		made = made[:1] // one opening for both
	}
	for _, t := range made {
		s.ids[t.ID] = true
		t.For.At = s.d.Keys.At
		if faces := s.Keys.Faces(); faces[0] == part.Back { // on the back alone
			t.For.Face = part.Back
			top, floor := s.depths(part.Back)
			t.For.Solids[0].Top, t.For.Solids[0].Floor = part.Level(top), part.Level(floor)
		}
		if !t.Male {
			if err := s.carry(t, func(web float64) geom.Region { return cut.SheetRound(t.Shape.Bounds(), web) }); err != nil {
				s.fail(s.d.Keys.At, "keys", err.Error(), "a template that carries the router's base", "change the key's measures")
				continue
			}
		}
		s.Templates = append(s.Templates, *t)
	}
}

// proveKeys lays the key into its recess, as the simulated cuts leave them.
func (s *solver) proveKeys() error {
	if s.Keys == nil {
		return nil
	}
	var female, male cut.Template
	for _, t := range s.Templates {
		switch t.ID {
		case key.RecessID:
			female = t
		case key.KeyID:
			male = t
		}
	}
	p, err := key.Prove(s.Keys.Fit, female, male)
	if err != nil {
		return fmt.Errorf("laying the key into its recess: %w", err)
	}
	s.Keys.Proof, s.Keys.Gap = p, p.Gap
	return nil
}
