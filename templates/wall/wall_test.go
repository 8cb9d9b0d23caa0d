package wall

import (
	"math"
	"math/rand/v2"
	"sort"
	"testing"

	"routwright/geom"
	"routwright/templates/job/jobtest"
	"routwright/templates/part"
	"routwright/templates/space"
)

// The thinnest wood of the demo is over its control cavity, 44.5 − 38; a hole
// that leaves less under it takes its place.
func TestThinnest(t *testing.T) {
	j := jobtest.Demo(t)
	w, ok := Thinnest(j)
	if !ok || math.Abs(w.D-6.5) > 1e-9 || w.Words() != `between back cavity "control" and the front` {
		t.Fatalf("thinnest %g %s, want 6.5", w.D, w.Words())
	}
	for _, left := range []float64{6.6, 6.4, 2} {
		k := jobtest.Demo(t)
		k.Parts = append(k.Parts, part.Part{ID: "p", Name: "deep", Kind: part.Post,
			Bores: []part.Bore{part.Down(geom.Pt(-30, 100), part.Front, k.Thickness-left, 8, k.Thickness, "post")}})
		w, _ := Thinnest(k)
		if want := math.Min(6.5, left); math.Abs(w.D-want) > 1e-6 {
			t.Errorf("a hole that leaves %g: thinnest %g, want %g", left, w.D, want)
		}
	}
}

// Every wall is wood in its middle, comes in order, and the first is the
// thinnest; the walls of the demo are those of its measures.
func TestOf(t *testing.T) {
	j := jobtest.Full(t)
	ws := Of(j, 30)
	if !sort.SliceIsSorted(ws, func(i, k int) bool { return ws[i].D < ws[k].D }) {
		t.Error("not in order")
	}
	if w, _ := Thinnest(j); len(ws) == 0 || w != ws[0] {
		t.Errorf("thinnest %v, first %v", w, ws[0])
	}
	for _, w := range ws {
		if !part.WoodAt(j.Parts, w.A.Lerp(w.B, 0.5)) {
			t.Errorf("%g mm %s is not wood", w.D, w.Words())
		}
		if d := w.A.Dist(w.B); math.Abs(d-w.D) > 2*space.Slack {
			t.Errorf("%s: %g mm, its places are %g apart", w.Words(), w.D, d)
		}
	}
	want := map[string]float64{ // from the measures in the demo's file
		`between pickup cavity "tail" and the back`:   44.5 - 19,
		`between pickup cavity "neck" and the back`:   44.5 - 18,
		`between back cavity "control" and the front`: 6.5,
	}
	for _, w := range ws {
		if v, ok := want[w.Words()]; ok {
			delete(want, w.Words())
			if math.Abs(w.D-v) > 1e-9 {
				t.Errorf("%s: %g mm, want %g", w.Words(), w.D, v)
			}
		}
	}
	if len(want) > 0 {
		t.Errorf("not listed: %v", want)
	}
}

// No place of the wood between two voids is thinner than the wall says: of random
// pairs of points, one of each void's walls, none lie nearer.
func TestNoWallIsThinner(t *testing.T) {
	j := jobtest.Full(t)
	rnd := rand.New(rand.NewPCG(4, 4))
	at := func(p part.Part) part.Point {
		if n := len(p.Bores); n > 0 && (len(p.Solids) == 0 || rnd.IntN(2) == 0) {
			b := p.Bores[rnd.IntN(n)]
			q := b.From.Lerp(b.To, rnd.Float64())
			a := rnd.Float64() * 2 * math.Pi
			if b.Square() {
				return part.Point{X: q.X + b.D/2*math.Cos(a), Y: q.Y + b.D/2*math.Sin(a), Z: q.Z}
			}
			return q
		}
		s := p.Solids[rnd.IntN(len(p.Solids))]
		e := s.Plan[0][rnd.IntN(len(s.Plan[0]))]
		q := e.At(rnd.Float64())
		return part.Point{X: q.X, Y: q.Y, Z: s.Top.At(q) + rnd.Float64()*(s.Floor.At(q)-s.Top.At(q))}
	}
	parts := map[string]part.Part{}
	for _, p := range j.Parts {
		parts[p.String()] = p
	}
	for _, w := range Of(j, 30) {
		a, b := parts[w.Between], parts[w.And]
		if b.ID == "" {
			continue
		}
		for range 2000 {
			if d := at(a).Dist(at(b)); d < w.D-2*space.Slack {
				t.Fatalf("%s: %g mm, two of their places are %g apart", w.Words(), w.D, d)
			}
		}
	}
}

func BenchmarkOf(b *testing.B) {
	j := jobtest.Full(b)
	for b.Loop() {
		Of(j, 20)
	}
}
