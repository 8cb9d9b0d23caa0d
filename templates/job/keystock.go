package job

// KeyStock is the one blank that the keys are cut from, grain along the key: the
// lowest is trimmed and sawn off, then the next. mm.
type KeyStock struct {
	Count      int
	Thick      float64 // of a key as it is sawn off
	Long, Wide float64
	Tall       float64 // of the blank, with the waste that its handle block is screwed to
	Waste      float64 // of that
	Proud      float64 // how far a key stands over its face when it is glued in
}

// KeySide is left round a key on its blank, mm, for the saw. Common practice.
const KeySide = 10.0

// KeyStock returns the blank for the keys of the job, of all sizes; the zero KeyStock
// without keys.
func (j *Job) KeyStock() KeyStock {
	if j.Keys == nil || len(j.Keys.Poses) == 0 {
		return KeyStock{}
	}
	k := KeyStock{Count: len(j.Keys.Poses), Proud: keyProud, Thick: j.KeyHeight()}
	for _, p := range j.Keys.Poses {
		z := j.Keys.Sizes[p.Size].Fit.Spec
		k.Wide, k.Long = max(k.Wide, z.Ends+KeySide), max(k.Long, z.Length+2*KeySide)
	}
	for _, h := range j.Jigs.Handles {
		if j.Keys.Of(j.Templates[h.Template].ID) != nil {
			k.Waste = max(k.Waste, h.Waste)
		}
	}
	k.Tall = j.KeyBlank(k.Count) + k.Waste
	return k
}
