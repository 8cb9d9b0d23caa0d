//go:build native

package peers

import (
	"bytes"
	"fmt"
	"maps"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"routwright/geom"
	"routwright/render"
	"routwright/render/dxf"
	"routwright/templates/key"
	"routwright/templates/tool"

	"routwright/testdata/peers/native"
)

// coarse is the flattening of the chains of offsets below, mm: four of them stay
// within a quarter of what is agreed.
const coarse = 3e-4

// clip is the flattened world of Clipper: discs within coarse mm.
type clip native.Paths

func clipOf(r geom.Region) clip { return clip(within(r, coarse)) }

// move grows (d > 0) or shrinks by a disc.
func (c clip) move(d float64) clip {
	if d == 0 {
		return c
	}
	return clip(native.Paths(c).Flatten().Offset(d, coarse, 0))
}

func (c clip) with(op native.Op, d clip) clip {
	return clip(native.Paths(c).Flatten().Boolean(op, native.Paths(d).Flatten()))
}

// randomKey is a key and a tool as a builder may have them.
func randomKey(r *rand.Rand) (key.Spec, tool.Tool) {
	l := between(r, 30, 80)
	s := key.Spec{Length: l, Ends: l * between(r, 0.3, 0.55), Gap: between(r, 0, 0.15)}
	s.Waist = s.Ends * between(r, 0.4, 0.7)
	s.Corners = []key.Corners{key.Chiselled, key.Rounded, key.Relieved}[r.IntN(3)]
	if r.IntN(3) == 0 {
		s.Template = between(r, 0.5, 3)
	}
	if r.IntN(5) == 0 {
		s.Border, s.GlueLine = between(r, 0.4, 1), 0.05
	}
	d := []float64{3, 3.175, 6, 6.35, 8, 9.525, 12.7}[r.IntN(7)] + between(r, -0.05, 0.05)
	t := tool.Tool{Bit: "b", Cutter: d, Follower: d}
	switch r.IntN(5) {
	case 0:
		t.Follower = d + between(r, 0.5, 6) // larger bearing
	case 1:
		t.Follower = d * between(r, 0.6, 0.95) // smaller bearing
	case 2:
		t.Guide, t.GuideOf, t.Follower = tool.Bush, "g", d+between(r, 1, 14)
	case 3:
		t.Guide, t.Follower = tool.Free, 0
	}
	return s, t
}

// outsideProof is the proof of a fit, computed by Clipper from the templates.
type outsideProof struct{ recess, key, cutRecess, cutKey clip }

func prove(f key.Fit) outsideProof {
	var p outsideProof
	big, small, rin := f.Tool.GuideRadius(), f.Tool.CutRadius(), f.Spec.Template
	hand := func(of clip, hs []geom.Region) clip {
		var zones clip
		for _, z := range hs {
			zones = zones.with(native.Union, clipOf(z))
		}
		return of.with(native.Intersection, zones)
	}
	var rz, kz []geom.Region
	for _, h := range f.RecessHand {
		rz = append(rz, h.Zone)
	}
	for _, h := range f.KeyHand {
		kz = append(kz, h.Zone)
	}
	p.recess = clipOf(f.Female).move(-rin).move(rin).move(-big).move(small)
	p.cutRecess = p.recess.with(native.Union, hand(clipOf(f.Recess), rz))
	if f.Inlay != nil {
		p.key = clipOf(f.Female).move(-f.Inlay.Bush / 2).move(-small)
		p.cutKey = p.key
		return p
	}
	p.key = clipOf(f.Male).move(rin).move(-rin).move(big).move(-small)
	waste := p.key.with(native.Difference, clipOf(f.Key))
	p.cutKey = p.key.with(native.Difference, hand(waste, kz))
	return p
}

// gap returns the smallest, largest and mean gap from places every step mm on
// the key's edge to the recess's edge. Near the extremes it looks closer.
func gap(k, recess loops, step float64) (least, most, mean float64) {
	least, most = math.Inf(1), math.Inf(-1)
	var sum, n float64
	k.edges(func(a, b [2]float64) { // each place weighs as its piece of edge
		h := math.Hypot(b[0]-a[0], b[1]-a[1])
		m := int(math.Ceil(h / step))
		for i := range m {
			t := (float64(i) + 0.5) / float64(m)
			d := recess.signed(lerp(a, b, t))
			least, most = min(least, d), max(most, d)
			sum, n = sum+h/float64(m)*d, n+h/float64(m)
		}
	})
	coarseLeast, coarseMost := least, most
	fine := 25
	if most-least < step { // nearly even: all places are near the extremes
		fine = 8
	}
	k.edges(func(a, b [2]float64) {
		h := math.Hypot(b[0]-a[0], b[1]-a[1])
		m := int(math.Ceil(h / step))
		for i := range m {
			d := recess.signed(lerp(a, b, (float64(i)+0.5)/float64(m)))
			if d+step/2 < coarseMost && d-step/2 > coarseLeast {
				continue
			}
			for j := range fine + 1 {
				d := recess.signed(lerp(a, b, (float64(i)+float64(j)/float64(fine))/float64(m)))
				least, most = min(least, d), max(most, d)
			}
		}
	})
	return least, most, sum / n
}

func lerp(a, b [2]float64, t float64) [2]float64 {
	return [2]float64{a[0] + t*(b[0]-a[0]), a[1] + t*(b[1]-a[1])}
}

// agreed is how far the program and the outside computation may differ, mm.
const agreed = 0.005

// The reported gaps and the simulated cuts agree with an independent flattened
// computation, and so does the gap read back from the DXF files.
func TestKeysAgainstClipper(t *testing.T) {
	rnd, n := random(t, 30)
	var made, refused, hollow int
	ways, worst := map[string]int{}, map[string]float64{}
	var worstGap, worstArea, worstFile, worstPath float64
	files := 0
	for made < n {
		s, tl := randomKey(rnd)
		name := fmt.Sprintf("seed %d, key %d: %+v, cutter %.3f, follower %.3f", *seed, made, s, tl.Cutter, tl.Follower)
		var f key.Fit
		var err error
		if rnd.IntN(8) == 0 && s.Border == 0 {
			bush := tl.Cutter + between(rnd, 2, 8)
			f, err = key.MakeInlay(s, "b", tl.Cutter, key.Inlay{Bush: bush, Collar: bush + 2*tl.Cutter - 2*s.Gap})
		} else {
			f, err = key.Make(s, tl)
		}
		if err != nil || f.Female.Empty() {
			if refused++; refused > 20*n {
				t.Fatalf("%d keys refused, the last: %v", refused, err)
			}
			continue
		}
		if f.Inlay == nil && len(f.Male) != 1 {
			hollow++
			continue
		}
		made++
		ways[f.Way()]++
		female, male := f.Templates(12, 12, 20)
		p, err := key.Prove(f, female, male)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		o := prove(f)
		area := func(what string, r geom.Region, c clip) {
			is, want := r.Area(), loops(c).area()
			off := math.Abs(is-want) / max(1, r.Perimeter())
			worstArea = max(worstArea, off)
			if off > agreed/5 {
				t.Errorf("%s: %s of %.4f mm², outside %.4f", name, what, is, want)
			}
		}
		area("simulated recess", p.Recess.Cut, o.recess)
		if f.Inlay == nil {
			area("simulated key", p.Key.Cut, o.key)
		}
		area("recess after hand work", p.CutRecess, o.cutRecess)
		area("key after hand work", p.CutKey, o.cutKey)
		// Clipper's paring can leave spikes without width on the key, which would
		// weigh in the mean: it is taken over the program's key, once that is known
		// to be the same shape.
		if x := loops(o.cutKey.with(native.Xor, clipOf(p.CutKey))).area(); x > agreed/5*p.CutKey.Perimeter() {
			t.Errorf("%s: the keys after hand work differ by %.4f mm²", name, x)
		}
		least, most, _ := gap(loops(o.cutKey), loops(o.cutRecess), 0.1)
		_, _, mean := gap(within(p.CutKey, coarse), loops(o.cutRecess), 0.1)
		grow := f.Spec.Grows()
		for _, g := range [][3]any{{"smallest", p.Gap.Min, least - grow}, {"largest", p.Gap.Max, most - grow}, {"mean", p.Gap.Mean, mean - grow}} {
			off := math.Abs(g[1].(float64) - g[2].(float64))
			worstGap, worst[f.Way()] = max(worstGap, off), max(worst[f.Way()], off)
			if off > agreed {
				t.Errorf("%s: %s gap %.4f, outside %.4f", name, g[0], g[1], g[2])
			}
		}
		if f.Tool.Free() {
			worstPath = max(worstPath, cutOfPathFile(t, name, f, p.Recess.Cut))
		}
		if made%5 == 0 && f.Inlay == nil {
			files++
			worstFile = max(worstFile, gapOfFiles(t, name, f))
		}
	}
	for _, w := range slices.Sorted(maps.Keys(ways)) {
		t.Logf("%-16s %4d keys, worst gap off by %.5f mm", w, ways[w], worst[w])
	}
	t.Logf("%d keys, %d refused by the program, %d whose male template falls apart or vanishes; worst gap %.5f mm, area %.6f mm² a mm of edge, gap of %d DXF files %.6f mm; cut along the paths read back from DXF %.6f mm² a mm of edge", made, refused, hollow, worstGap, worstArea, files, worstFile, worstPath)
}

// cutOfPathFile writes the path of the cutter's middle in a recess as DXF, reads it
// back, runs a round cutter along it in Clipper, and returns how far what that
// clears is from the simulated cut, in mm² a mm of edge.
func cutOfPathFile(t *testing.T, name string, f key.Fit, want geom.Region) float64 {
	t.Helper()
	var g render.Group
	for _, p := range f.Female {
		g.Shapes = append(g.Shapes, render.Shape{ID: "a", Path: p.Reversed(), Kind: render.Mark, Layer: "PATH", Led: true})
	}
	var b bytes.Buffer
	if err := dxf.Write(&b, render.Drawing{ID: "path", Bounds: f.Female.Bounds(), Groups: []render.Group{g}}, dxf.Options{CutOnly: true}); err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	read := readDXF(t, b.String())
	if read.area() >= 0 {
		t.Errorf("%s: the path does not run clockwise in the file", name)
	}
	for _, l := range read { // Clipper takes it as the edge of what is solid
		slices.Reverse(l)
	}
	off := math.Abs(loops(clip(read).move(f.Tool.CutRadius())).area()-want.Area()) / want.Perimeter()
	if off > agreed/5 {
		t.Errorf("%s: a cutter on the path of the file is off by %.6f mm² a mm of edge", name, off)
	}
	return off
}

// gapOfFiles writes key and recess as DXF, reads them back, and returns how far
// the least gap between the two outlines is from the one that was drawn: from
// the drawn regions by the same flattening.
func gapOfFiles(t *testing.T, name string, f key.Fit) float64 {
	t.Helper()
	var got [2]loops
	for i, r := range []geom.Region{f.Key, f.Recess} {
		var g render.Group
		for _, p := range r {
			g.Shapes = append(g.Shapes, render.Shape{ID: "a", Path: p, Kind: render.Cut, Layer: "KEY"})
		}
		var b bytes.Buffer
		if err := dxf.Write(&b, render.Drawing{ID: "key", Bounds: r.Bounds(), Groups: []render.Group{g}}, dxf.Options{CutOnly: true}); err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		got[i] = readDXF(t, b.String())
		if d := math.Abs(got[i].area()) - r.Area(); math.Abs(d) > 1e-4*r.Perimeter() {
			t.Errorf("%s: area off by %g mm² in the file", name, d)
		}
	}
	least, most, _ := gap(got[0], got[1], 0.1)
	wantLeast, wantMost, _ := gap(flatten(f.Key), flatten(f.Recess), 0.1)
	off := max(math.Abs(least-wantLeast), math.Abs(most-wantMost))
	if off > 1e-4 {
		t.Errorf("%s: gap %.5f–%.5f from the files, %.5f–%.5f drawn", name, least, most, wantLeast, wantMost)
	}
	if want := f.Spec.Gap + f.Spec.Grows(); f.Spec.Corners == key.Chiselled && math.Abs(least-want) > 1e-4 {
		t.Errorf("%s: least gap %.5f from the files, asked %.5f", name, least, want)
	}
	return off
}
