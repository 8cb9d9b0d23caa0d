package job

import (
	"math"
	"slices"

	"routwright/templates/design"
	"routwright/templates/part"
)

// keptKey returns a key as the set made then has it; nil without one.
func (s *solver) keptKey(name string) *KeptKey {
	if s.kept == nil {
		return nil
	}
	if i := slices.IndexFunc(s.kept.Keys, func(k KeptKey) bool { return k.Name == name }); i >= 0 {
		return &s.kept.Keys[i]
	}
	return nil
}

// recess returns the recess of a key as the set made then has it.
func (k *Kept) recess(name string) (KeptPart, bool) {
	if k != nil {
		for _, p := range k.Parts {
			if p.Kind == part.Recess && p.Name == name {
				return p, true
			}
		}
	}
	return KeptPart{}, false
}

// keysCut returns the mark of the keys as a whole where it counts for the key of a
// name: one that the set made then had, and of those that came after the keys were
// marked none. Where no set has keys, it counts for all that there are.
func (s *solver) keysCut(name string) design.Val[bool] {
	all := s.d.Keys.Cutter.Done
	if !all.V || s.kept == nil || !slices.ContainsFunc(s.kept.Parts, func(p KeptPart) bool { return p.Kind == part.Recess }) {
		return all
	}
	if r, ok := s.kept.recess(name); !ok || s.kept.AllKeys && !r.Cut {
		return design.Val[bool]{}
	}
	return all
}

// marked takes a key placed by hand as it is in the wood, where it is marked as cut.
func (s *solver) marked(pose KeyPose, own design.Val[bool]) KeyPose {
	pose.mark = own
	if !own.V {
		pose.mark = s.keysCut(pose.Name)
	}
	k := s.keptKey(pose.Name)
	if !pose.mark.V || k == nil {
		return pose
	}
	asked := pose
	pose.asked, pose.Cut = &asked, true
	pose.At, pose.Turn, pose.Face, pose.Size = k.At, k.Turn, k.Face, s.sizeOf(k.Length)
	return pose
}

// sizeOf returns the size of key whose length is nearest.
func (s *solver) sizeOf(length float64) int {
	best := 0
	for i, z := range s.Keys.Sizes {
		if math.Abs(z.Fit.Spec.Length-length) < math.Abs(s.Keys.Sizes[best].Fit.Spec.Length-length) {
			best = i
		}
	}
	return best
}

// keptKeys adds the keys that are cut and that the design does not place by hand:
// the program placed them before, and they stay.
func (s *solver) keptKeys() {
	if s.kept == nil {
		return
	}
	for _, k := range s.kept.Keys {
		mark := s.keysCut(k.Name)
		if !mark.V || slices.ContainsFunc(s.Keys.Poses, func(p KeyPose) bool { return p.Name == k.Name }) {
			continue
		}
		s.Keys.Poses = append(s.Keys.Poses, KeyPose{Name: k.Name, Size: s.sizeOf(k.Length), At: k.At, Turn: k.Turn, Face: k.Face, Meets: k.Meets,
			Pos: s.d.Keys.Cutter.At, Why: "its recess is cut there", Cut: true, mark: mark})
		s.solved("key "+k.Name, placeOfKey(k), asCut)
	}
}

// anyKeyCut reports whether keys are in the wood that the design need not name.
func (s *solver) anyKeyCut() bool {
	return s.kept != nil && slices.ContainsFunc(s.kept.Keys, func(k KeptKey) bool { return s.keysCut(k.Name).V })
}

func placeOfKey(k KeptKey) string {
	return "x " + design.MM(k.At.X) + ", y " + design.MM(k.At.Y) + " mm, " + design.MM(k.Turn.Degrees()) + "°"
}

// keyDepth returns the finished depth of the keys, mm: that of those that are cut,
// where the design does not say it.
func (s *solver) keyDepth(v design.Val[design.Length]) float64 {
	if !v.Set() && s.kept != nil {
		for _, k := range s.kept.Keys {
			if r, ok := s.kept.recess(k.Name); ok && s.keysCut(k.Name).V {
				top, floor := r.Range()
				s.solved("keys.depth", design.MM(floor-top)+" mm", asCut)
				return floor - top
			}
		}
	}
	return s.length(v, "keys.depth", s.Thickness/4, "about a third of the body, never over half")
}

// newName returns a name for a key that the program places: crack and number, past
// those that are taken.
func (s *solver) newName(format func(n int) string) string {
	for n := len(s.Keys.Poses) + 1; ; n++ {
		name := format(n)
		if !slices.ContainsFunc(s.Keys.Poses, func(p KeyPose) bool { return p.Name == name }) {
			return name
		}
	}
}
