package job

import (
	"fmt"

	"routwright/geom"
	"routwright/templates/cut"
	"routwright/templates/design"
	"routwright/templates/key"
	"routwright/templates/part"
)

// Ids of the parts and templates that all keys share.
const (
	KeyID    = "key"
	RecessID = "key-recess"
)

// keys solves the shared key and places it where the builder says.
func (s *solver) keys() {
	d := s.d
	if len(d.Key) == 0 {
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
	if !k.Corners.Set() {
		spec.Corners = key.Rounded
		s.assume("keys.corners", string(key.Rounded), "no hand work")
	}
	depth := s.length(k.Depth, "keys.depth", s.Thickness/4, "about a third of the body, never over half")
	n := need("keys.cut", 0, depth+s.PlaneOff[0], s.sheet)
	if spec.Corners == key.Rounded {
		n.Corner = spec.Waist / 4 // the waist's arc must leave flanks; common practice
	}
	t, err := s.rack.Pick(k.Cutter, n, k.At)
	if err != nil {
		s.errs.Add(err)
		return
	}
	fit, err := key.Make(spec, t)
	if err != nil {
		s.fail(k.At, "keys", err.Error(), "a key that the named bit can cut", "change the key's measures or name a smaller bit")
		return
	}
	if t.Why != "" {
		s.solved("keys.cut.bit", t.Bit, t.Why)
	}
	s.Keys = &Keys{Fit: fit, Depth: depth}
	for _, e := range d.Key {
		s.placeKey(e)
	}
	s.keyTemplates()
}

// placeKey adds one key and its recess to the parts.
func (s *solver) placeKey(e design.Key) {
	if !e.At.Set() {
		s.fail(e.Table.At, "key.at", "nothing", "at = [x, y]", "say where the middle of the waist lies")
		return
	}
	pose := KeyPose{Name: e.Name.V, At: e.At.V, Turn: geom.Angle(e.Angle.V) * geom.Degree, Pos: e.Table.At}
	if pose.Name == "" {
		pose.Name = fmt.Sprintf("key %d", len(s.Keys.Poses)+1)
	}
	if e.Face.V == "back" {
		pose.Face = part.Back
	}
	s.Keys.Poses = append(s.Keys.Poses, pose)
	place := geom.Pose(pose.At, pose.Turn)
	top, floor := 0.0, s.Keys.Depth
	if pose.Face == part.Back {
		top, floor = s.Thickness-s.Keys.Depth, s.Thickness
	}
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
	f, at := s.Keys.Fit, s.d.Keys.At
	level := func(plan geom.Region) []part.Solid {
		return []part.Solid{{Plan: plan, Top: part.Level(0), Floor: part.Level(s.Keys.Depth)}}
	}
	recess := part.Part{ID: s.id(RecessID), Name: "all keys", Kind: part.Recess, At: at, Solids: level(f.Recess)}
	loose := part.Part{ID: s.id(KeyID), Name: "all keys", Kind: part.Key, Adds: true, At: at, Solids: level(f.Key)}
	b := f.Female.Bounds().Grow(webMargin)
	s.Templates = append(s.Templates, cut.Template{
		ID: recess.ID, Name: "key recesses", For: recess, Shape: f.Female, Loose: true,
		Blank: geom.Region{geom.Rect(b.Center(), b.W(), b.H())},
		Sheet: s.sheet, InsideRadius: s.rin, Tool: f.Tool, Hand: f.RecessHand,
	})
	s.Templates = append(s.Templates, cut.Template{
		ID: loose.ID, Name: "keys", For: loose, Male: true, Loose: true, Shape: f.Male, Blank: f.Male,
		Sheet: s.sheet, InsideRadius: s.rin, Tool: f.Tool, Hand: f.KeyHand,
	})
}

// proveKeys measures the gap between the key and the recess that the simulated
// cuts leave, after the declared hand work.
func (s *solver) proveKeys() error {
	if s.Keys == nil {
		return nil
	}
	var c geom.Calc
	var recess, loose geom.Region
	for i, t := range s.Templates {
		switch t.For.ID {
		case RecessID:
			recess = c.Union(s.Proofs[i].Cut, s.Proofs[i].ByHand)
		case KeyID:
			loose = c.Subtract(s.Proofs[i].Cut, s.Proofs[i].ByHand)
		}
	}
	if err := c.Err(); err != nil {
		return fmt.Errorf("laying the key into its recess: %w", err)
	}
	s.Keys.Gap = cut.Gap(loose, recess)
	return nil
}
