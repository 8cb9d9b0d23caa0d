package place

import "math"

// score orders sets: more tips, then more weight, then fewer keys, then more waist
// in all (all keys are of one depth, so that this stands for waist × depth), then a
// more even pitch (the sum of the squared pitches is least when they are even).
type score struct {
	tips    int
	weight  float64 // in grains
	keys    int
	waists  float64 // mm
	squares float64
}

// better reports whether a beats b. Weights are whole numbers of grains.
func (a score) better(b score) bool {
	const same = 1e-6 // mm or mm²; rounding only
	switch {
	case a.tips != b.tips:
		return a.tips > b.tips
	case a.weight != b.weight:
		return a.weight > b.weight
	case a.keys != b.keys:
		return a.keys < b.keys
	case math.Abs(a.waists-b.waists) > same:
		return a.waists > b.waists
	}
	return a.squares < b.squares-same
}

// grain is the unit in which covered crack is weighed, mm²: a hundredth of what
// one mm of a crack open by 0.1 mm weighs.
const grain = 1e-3

// weights integrates the opening along a crack.
type weights struct {
	step float64
	sum  []float64
}

func newWeights(l Line) weights {
	const step = 0.5 // mm; the opening is known at a few places only
	n := int(math.Ceil(l.Length()/step)) + 1
	w := weights{step: step, sum: make([]float64, n+1)}
	for i := 0; i < n; i++ {
		w.sum[i+1] = w.sum[i] + step*l.OpeningAt((float64(i)+0.5)*step)
	}
	return w
}

// between returns the integral of the opening from a to b in grains, 0 when
// b ≤ a. It is a whole number, and pieces end to end sum to the whole exactly: so
// two sets that cover the same stretch by other pieces weigh the same, bit by bit.
func (w weights) between(a, b float64) float64 {
	if b <= a {
		return 0
	}
	at := func(s float64) float64 {
		t := s / w.step
		i := int(max(0, min(float64(len(w.sum)-2), math.Floor(t))))
		f := min(1, t-float64(i))
		return math.Round((w.sum[i]*(1-f) + w.sum[i+1]*f) / grain)
	}
	return at(b) - at(a)
}
