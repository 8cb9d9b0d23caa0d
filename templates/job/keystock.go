package job

// KeyStock is the wood that the keys are cut from: one strip, grain along it, key
// after key. mm.
type KeyStock struct {
	Count             int
	Thick, Wide, Long float64
	Proud             float64 // how far a key stands over its face when it is glued in
}

// Of the strip for the keys, mm; common practice.
const (
	// KeyProud is left over the face of the slab, to be brought level with it: 1 to 2.
	KeyProud = 1.5
	// KeySide is left on each side of a key, and at its ends, for the saw.
	KeySide = 5.0
	// KeyKerf is what the saw takes between two keys.
	KeyKerf = 3.0
	// HeldLeast is the shortest piece that is held by hand at a router or a saw.
	HeldLeast = 150.0
)

// KeyStock returns the strip for the keys of the job; the zero KeyStock without
// keys. It is no shorter than a piece that may be held by hand.
func (j *Job) KeyStock() KeyStock {
	if j.Keys == nil || len(j.Keys.Poses) == 0 {
		return KeyStock{}
	}
	k := KeyStock{Count: len(j.Keys.Poses), Proud: KeyProud}
	for _, f := range j.Keys.Faces() {
		k.Thick = max(k.Thick, j.RecessDepth(f)+KeyProud)
	}
	for _, p := range j.Keys.Poses {
		z := j.Keys.Sizes[p.Size].Fit.Spec
		k.Wide = max(k.Wide, z.Ends+2*KeySide)
		k.Long += z.Length + 2*KeySide + KeyKerf
	}
	k.Long = max(k.Long-KeyKerf, HeldLeast)
	return k
}
