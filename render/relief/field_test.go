package relief

import (
	"flag"
	"image"
	"image/png"
	"math"
	"math/rand/v2"
	"os"
	"testing"

	"routwright/geom"
)

var update = flag.Bool("update", false, "rewrite testdata golden files")

// shape returns a random sound region: two overlapping rounded shapes less a
// circle, turned.
func shape(rnd *rand.Rand) geom.Region {
	var c geom.Calc
	r := func(lo, hi float64) float64 { return lo + (hi-lo)*rnd.Float64() }
	a := geom.Region{geom.RoundedRect(geom.Pt(r(-8, 8), r(-8, 8)), r(10, 40), r(10, 40), r(0, 9))}
	b := geom.Region{geom.Stadium(geom.Pt(r(-20, 20), r(-20, 20)), geom.Pt(r(-20, 20), r(-20, 20)), r(2, 12))}
	hole := geom.Region{geom.Circle(geom.Pt(r(-6, 6), r(-6, 6)), r(1, 6))}
	out := geom.Rotate(geom.Angle(r(0, 6))).Region(c.Subtract(c.Union(a, b), hole))
	if c.Err() != nil {
		return a
	}
	return out
}

// Every cell is filled if and only if its middle lies in the region, as geom's
// own winding number says.
func TestSpansAgreeWithContains(t *testing.T) {
	rnd := rand.New(rand.NewPCG(7, 1))
	for n := range 60 {
		r := shape(rnd)
		f := New(geom.BoxOf(geom.Pt(-60, -60), geom.Pt(60, 60)), 0.7)
		f.Place(r, 0)
		edge := geom.IndexOf(r)
		for row := range f.H {
			for col := range f.W {
				p := f.At(col, row)
				_, d := edge.Closest(p)
				if in := f.Depth[row*f.W+col] == 0; in != edge.Contains(p) && d > 1e-9 {
					t.Fatalf("case %d: cell at %v filled %v, %g mm from the edge", n, p, in, d)
				}
			}
		}
	}
}

// Volumes that sink out of a block against closed forms: prism, wedge, a cone's
// frustum by its mantle, an edge rounded to a quarter circle (Pappus).
func TestVolumes(t *testing.T) {
	block := geom.Region{geom.Rect(geom.Pt(0, 0), 100, 80)}
	round := geom.Region{geom.Circle(geom.Pt(0.3, -0.2), 40)}
	whole := func(f *Field) { f.Place(block, 0) }
	cases := []struct {
		name string
		make func(f *Field)
		want float64
	}{
		{"prism with a round plan", func(f *Field) {
			whole(f)
			f.Sink(geom.Region{geom.Circle(geom.Pt(3, 4), 21)}, Plane{}, Plane{Z: 18})
		}, math.Pi * 21 * 21 * 18},
		{"wedge", func(f *Field) {
			whole(f)
			f.Sink(geom.Region{geom.Rect(geom.Pt(0, 0), 60, 40)}, Plane{}, Plane{Z: 10, DX: 0.1, DY: 0.2})
		}, 60 * 40 * 10},
		{"step under a pocket", func(f *Field) {
			whole(f)
			f.Sink(geom.Region{geom.Rect(geom.Pt(0, 0), 60, 40)}, Plane{}, Plane{Z: 10})
			f.Sink(geom.Region{geom.Rect(geom.Pt(0, 0), 20, 20)}, Plane{Z: 10}, Plane{Z: 15})
		}, 60*40*10 + 20*20*5},
		{"void under wood", func(f *Field) {
			whole(f)
			f.Sink(geom.Region{geom.Rect(geom.Pt(0, 0), 20, 20)}, Plane{Z: 10}, Plane{Z: 15})
		}, 0},
		{"cone", func(f *Field) {
			whole(f)
			f.SinkColumns(geom.BoxOf(geom.Pt(-20, -20), geom.Pt(20, 20)), func(p geom.Point) (float64, float64, bool) {
				d := 20 - math.Hypot(p.X, p.Y)
				return 0, d, d > 0
			})
		}, math.Pi * 20 * 20 * 20 / 3},
		// A quarter circle of radius 6 leaves (1 − π/4)·36 of a square; its centroid
		// lies 0.2234·6 from the corner (from the closed form (10 − 3π)/(12 − 3π)).
		{"rounded rim", func(f *Field) {
			f.Place(round, 0)
			f.Edge(round, 6, func(d float64) float64 { return 6 - math.Sqrt(36-(6-d)*(6-d)) })
		}, (1 - math.Pi/4) * 36 * 2 * math.Pi * (40 - 6*(10-3*math.Pi)/(12-3*math.Pi))},
	}
	for _, c := range cases {
		f := New(geom.BoxOf(geom.Pt(-55, -45), geom.Pt(55, 45)), 0.1)
		c.make(f)
		if got, _ := f.Below(); math.Abs(got-c.want) > 1e-3*c.want {
			t.Errorf("%s: %.2f mm³, want %.2f", c.name, got, c.want)
		}
	}
}

// scene is a block with a pocket, a step in it, a bore and a painted patch.
func scene() *Field {
	f := New(geom.BoxOf(geom.Pt(-30, -20), geom.Pt(30, 20)), 0.5)
	f.Place(geom.Region{geom.RoundedRect(geom.Pt(0, 0), 52, 32, 8)}, 0)
	f.Edge(geom.Region{geom.RoundedRect(geom.Pt(0, 0), 52, 32, 8)}, 3, func(d float64) float64 { return 3 - d })
	f.Sink(geom.Region{geom.RoundedRect(geom.Pt(-8, 0), 20, 16, 3)}, Plane{}, Plane{Z: 6, DX: 0.1})
	f.Sink(geom.Region{geom.Circle(geom.Pt(-8, 0), 4)}, Plane{Z: 2}, Plane{Z: 30})
	f.Paint(geom.Region{geom.Rect(geom.Pt(14, 0), 8, 14)}, Plane{}, Plane{Z: 4}, 1)
	f.Open(20)
	return f
}

func TestPicture(t *testing.T) {
	const name = "testdata/scene.png"
	got := scene().Shade(2)
	if *update {
		w, err := os.Create(name)
		if err != nil {
			t.Fatal(err)
		}
		if err := png.Encode(w, got); err != nil {
			t.Fatal(err)
		}
		if err := w.Close(); err != nil {
			t.Fatal(err)
		}
	}
	r, err := os.Open(name)
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	img, err := png.Decode(r)
	if err != nil {
		t.Fatal(err)
	}
	want, ok := img.(*image.Paletted)
	if !ok || want.Bounds() != got.Bounds() {
		t.Fatalf("the golden picture is %T %v, want %v", img, img.Bounds(), got.Bounds())
	}
	for i := range got.Pix {
		if got.Pix[i] != want.Pix[i] {
			t.Fatalf("pixel %d, %d is %d, want %d", i%got.Stride, i/got.Stride, got.Pix[i], want.Pix[i])
		}
	}
}

// The lightness of every colour of the palette is its number: a print in grey
// reads the same. Luma of ITU-R BT.601, from memory of it.
func TestPaletteReadsInGrey(t *testing.T) {
	for i, c := range palette {
		r, g, b, _ := c.RGBA()
		luma := (0.299*float64(r) + 0.587*float64(g) + 0.114*float64(b)) / 257
		if math.Abs(luma-float64(i)) > 1.5 {
			t.Errorf("colour %d has lightness %.1f", i, luma)
		}
	}
}

// A slope that faces the upper left is lighter than level wood, one that turns
// away is darker, and a pocket's floor lies in the shadow of its upper left wall.
func TestLightComesFromTheUpperLeft(t *testing.T) {
	f := New(geom.BoxOf(geom.Pt(0, 0), geom.Pt(90, 30)), 1)
	all := geom.Region{geom.Rect(geom.Pt(45, 15), 90, 30)}
	f.Place(all, 0)
	f.Sink(geom.Region{geom.Rect(geom.Pt(15, 15), 20, 30)}, Plane{}, Plane{Z: 15, DX: -0.5}) // rises to the right
	f.Sink(geom.Region{geom.Rect(geom.Pt(45, 15), 20, 30)}, Plane{}, Plane{Z: -15, DX: 0.5}) // falls to the right
	f.Sink(geom.Region{geom.Rect(geom.Pt(75, 15), 20, 20)}, Plane{}, Plane{Z: 12})
	img := f.Shade(1)
	at := func(x, y int) uint8 { return img.Pix[y*img.Stride+x] }
	level := at(32, 15)
	if at(20, 15) <= level-20 || at(15, 15) <= at(45, 15) || at(45, 15) >= level {
		t.Errorf("level %d, facing the light %d, turned away %d", level, at(15, 15), at(45, 15))
	}
	if shade, sun := at(68, 8), at(82, 23); shade >= sun {
		t.Errorf("in the shadow of the wall %d, in the sun %d", shade, sun)
	}
}

func BenchmarkShade(b *testing.B) {
	f := New(geom.BoxOf(geom.Pt(0, 0), geom.Pt(340, 440)), 0.25)
	f.Place(geom.Region{geom.RoundedRect(geom.Pt(170, 220), 320, 420, 90)}, 0)
	for b.Loop() {
		f.Shade(2)
	}
}
