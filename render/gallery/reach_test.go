package gallery

import (
	"testing"

	"routwright/geom"
	"routwright/render"
)

func TestReach(t *testing.T) {
	pocket := geom.Region{geom.Polygon(geom.Pt(-24, -14), geom.Pt(24, -14), geom.Pt(24, 4), geom.Pt(8, 4), geom.Pt(4, 15), geom.Pt(-24, 15))}
	picture(t, "kernel-reach", "What a round cutter can clear", []figure{
		{"Open", func(f *cell) {
			f.shape("cavity", render.Mark, pocket...)
			r := f.Open(pocket, 6)
			f.result("cleared", r)
			f.say("a 12 mm cutter clears %.1f %%", 100*r.Area()/pocket.Area())
		}},
		{"Residue", func(f *cell) {
			f.shape("cavity", render.Mark, pocket...)
			nooks := f.Residue(pocket, 8)
			for _, n := range nooks {
				f.result("left", n.Region)
				f.place("corner", n.Corner)
			}
			f.say("16 mm cutter: %d corners, to %.2f mm deep", len(nooks), nooks[0].Depth)
		}},
		{"Close", func(f *cell) {
			body := geom.Region{geom.Polygon(geom.Pt(-25, -14), geom.Pt(25, -14), geom.Pt(25, 14), geom.Pt(16, 14), geom.Pt(9, -4), geom.Pt(2, 14),
				geom.Pt(-6, 14), geom.Pt(-6, 2), geom.Pt(-12, 2), geom.Pt(-12, 14), geom.Pt(-25, 14))}
			f.shape("part", render.Mark, body...)
			f.result("what a cutter outside leaves", f.Close(body, 4))
			f.shape("cutter", render.Hidden, geom.Circle(geom.Pt(9, 13.5), 4))
			f.say("an 8 mm cutter outside; the slot has 6")
		}},
		{"LargestClearing", func(f *cell) {
			r := f.Union(geom.Region{geom.Circle(geom.Pt(-14, 0), 11)}, geom.Region{geom.Circle(geom.Pt(14, 0), 13)}, geom.Region{geom.RoundedRect(geom.Pt(0, 0), 20, 9, 1)})
			f.result("cavity", r)
			radius, at := geom.LargestClearing(r)
			f.shape("cutter", render.Hidden, geom.Circle(at, radius))
			f.place("place that limits it", at)
			f.say("the largest cutter has %.2f mm", 2*radius)
		}},
		{"TightestRadius", func(f *cell) {
			p := geom.Polygon(geom.Pt(-24, -15), geom.Pt(24, -15), geom.Pt(24, 15), geom.Pt(2, 15), geom.Pt(0, -1), geom.Pt(-24, 3))
			for i := len(p) - 1; i >= 0; i-- { // the vertices before i keep their numbers
				var err error
				if p, err = p.Fillet(i, 3+float64(i)); err != nil {
					f.t.Fatal(err)
				}
			}
			r := geom.Region{p}
			f.result("cavity", r)
			inside, outside := geom.TightestRadius(r)
			f.place("tightest", inside.At, outside.At)
			f.say("inside %.1f mm, outside %.1f mm", inside.Radius, outside.Radius)
		}},
		{"A width of exactly one cutter", func(f *cell) {
			slot := f.Union(geom.Region{geom.Rect(geom.Pt(-12, 0), 26, 24)}, geom.Region{geom.Stadium(geom.Pt(0, 0), geom.Pt(20, 0), 4)})
			f.shape("cavity", render.Mark, slot...)
			r := f.Open(slot, 4)
			f.result("cleared", r)
			f.say("slot 8, cutter 8: counts as passable")
		}},
	})
}
