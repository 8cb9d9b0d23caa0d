package sheet

import (
	"math"
	"math/rand/v2"
	"testing"

	"routwright/geom"
	"routwright/templates/job/jobtest"
	"routwright/templates/part"
)

// The height field of both faces agrees with a search down the upright line
// through each cell's middle, in which part.WoodAt says where there is wood.
func TestHeightFieldAgreesWithSampling(t *testing.T) {
	j := jobtest.Full(t)
	rnd := rand.New(rand.NewPCG(3, 9))
	const fine = 0.05 // mm from sample to sample
	for _, face := range []part.Face{part.Front, part.Back} {
		f := HeightField(j, face, 0.5)
		for range 1500 {
			col, row := rnd.IntN(f.W), rnd.IntN(f.H)
			if rnd.IntN(3) > 0 { // rather where something happens
				k := j.Parts[1+rnd.IntN(len(j.Parts)-1)]
				box := geom.Box{}
				for _, s := range k.Solids {
					box = box.Union(s.Plan.Bounds())
				}
				for _, b := range k.Bores {
					box = box.Union(b.Bounds())
				}
				if face == part.Back {
					box = geom.BoxOf(geom.Pt(-box.Max.X, box.Min.Y), geom.Pt(-box.Min.X, box.Max.Y))
				}
				col = int((box.Min.X + rnd.Float64()*box.W() - f.Left) / f.Step)
				row = int((f.Upper - box.Min.Y - rnd.Float64()*box.H()) / f.Step)
				if col < 0 || row < 0 || col >= f.W || row >= f.H {
					continue
				}
			}
			p := f.At(col, row)
			q := p
			if face == part.Back {
				q.X = -q.X
			}
			want := math.Inf(1)
			for d := fine / 2; d < j.Thickness; d += fine {
				z := d
				if face == part.Back {
					z = j.Thickness - d
				}
				if part.WoodAt(j.Parts, part.Point{X: q.X, Y: q.Y, Z: z}) {
					want = d - fine/2
					break
				}
			}
			got := float64(f.Depth[row*f.W+col])
			if got != want && !(math.Abs(got-want) < fine) && !onEdge(j.Parts, q) {
				t.Fatalf("%s at %v: wood begins %g mm down, sampling says %g", face, p, got, want)
			}
		}
	}
}

// onEdge reports whether p lies on the plan's edge of a key: the gap round it is
// narrower than a cell and not in the picture.
func onEdge(parts []part.Part, p geom.Point) bool {
	for _, k := range parts {
		if k.Kind == part.Recess {
			if _, d := geom.IndexOf(k.Plan()).Closest(p); d < 0.3 {
				return true
			}
		}
	}
	return false
}

// What is missing below both faces of a body with voids of known volume.
func TestVolumeByHeightField(t *testing.T) {
	j := jobtest.Demo(t)
	var c geom.Calc
	want := 0.0
	lid, well := geom.Region(nil), geom.Region(nil)
	for _, v := range j.Voids() {
		switch v.Kind {
		case part.Rebate:
			lid = v.Plan()
		case part.Cavity:
			well = v.Plan()
		}
		want += v.Solids[0].Volume()
	}
	// The cavity lies under the rebate: that much is counted twice.
	want -= c.Intersect(lid, well).Area() * j.OfKind(part.Rebate)[0].Depth(j.Thickness)
	got := 0.0
	for _, face := range []part.Face{part.Front, part.Back} {
		v, area := HeightField(j, face, 0.2).Below()
		got += v
		if full := j.Outline.Area(); math.Abs(area-full) > 1e-3*full {
			t.Errorf("%s: area %.1f mm², want %.1f", face, area, full)
		}
	}
	if c.Err() != nil || math.Abs(got-want) > 1e-3*want {
		t.Errorf("voids of %.0f mm³, want %.0f (%v)", got, want, c.Err())
	}
}

// A relief is the same each time.
func TestReliefIsTheSameEachTime(t *testing.T) {
	j := jobtest.Full(t)
	for _, face := range []part.Face{part.Front, part.Back} {
		a, scale := Relief(j, face, 0.5)
		b, _ := Relief(j, face, 0.5)
		if scale != 0.5 {
			t.Errorf("scale %g", scale)
		}
		if string(a.Pix) != string(b.Pix) {
			t.Errorf("%s: two reliefs differ", face)
		}
	}
}

// A body as large as a table still makes a picture of a size that can be sent.
func TestReliefOfALargeBody(t *testing.T) {
	j := jobtest.Demo(t)
	j.Outline = geom.Region{geom.Rect(geom.Pt(0, 0), 3000, 2000)}
	img, scale := Relief(j, part.Front, 2)
	if n := img.Bounds().Dx() * img.Bounds().Dy(); n > mostPixels*101/100 || scale >= 2 {
		t.Errorf("%d pixels at %g to the millimetre", n, scale)
	}
}

func BenchmarkRelief(b *testing.B) {
	j := jobtest.Full(b)
	for b.Loop() {
		Relief(j, part.Front, 2)
	}
}
