package gallery

import (
	"fmt"
	"testing"

	"routwright/geom"
	"routwright/render"
)

// dumbbell is a key with a waist of 9 mm.
func dumbbell() geom.Region {
	return geom.Region{geom.Polygon(
		geom.Pt(-24, -14), geom.Pt(0, -4.5), geom.Pt(24, -14),
		geom.Pt(24, 14), geom.Pt(0, 4.5), geom.Pt(-24, 14))}
}

// tailed is a cavity with a straight side, a round end and a corner inside.
func tailed(k float64) geom.Region {
	return geom.Region{geom.Scale(k).Path(geom.Path{
		geom.Line(geom.Pt(-18, -12), geom.Pt(8, -12)),
		geom.ArcAbout(geom.Pt(8, 0), geom.Pt(8, -12), geom.Pt(8, 12), 1),
		geom.Line(geom.Pt(8, 12), geom.Pt(-4, 12)),
		geom.Line(geom.Pt(-4, 12), geom.Pt(-8, 2)),
		geom.Line(geom.Pt(-8, 2), geom.Pt(-18, 2)),
		geom.Line(geom.Pt(-18, 2), geom.Pt(-18, -12)),
	})}
}

// loops says how many loops bound r.
func loops(r geom.Region) string {
	if len(r) == 1 {
		return "1 loop"
	}
	return fmt.Sprintf("%d loops", len(r))
}

func TestOffset(t *testing.T) {
	offset := func(r geom.Region, d float64, j geom.Join) func(*cell) {
		return func(f *cell) {
			f.shape("given", render.Mark, r...)
			f.result("offset", f.Offset(r, d, j))
		}
	}
	picture(t, "kernel-offset", "Offset", []figure{
		{"Offset, outward, round", func(f *cell) {
			offset(tailed(1), 5, geom.Round)(f)
			f.say("+5 mm: corners become arcs")
		}},
		{"Offset, outward, mitred", func(f *cell) {
			offset(tailed(1), 5, geom.Mitre)(f)
			f.say("+5 mm: corners stay sharp")
		}},
		{"Offset, inward", func(f *cell) {
			offset(tailed(1.4), -5, geom.Round)(f)
			f.say("−5 mm: the inner corner becomes an arc")
		}},
		{"Offset, in pieces", func(f *cell) {
			r := dumbbell()
			f.shape("given", render.Mark, r...)
			pieces := f.Offset(r, -5, geom.Round)
			f.result("offset", pieces)
			f.say("−5 mm through a waist of 9: %d regions", len(pieces))
		}},
		{"Offset, holes close", func(f *cell) {
			r := geom.Region{geom.RoundedRect(geom.Pt(0, 0), 42, 28, 3),
				geom.Circle(geom.Pt(-11, 0), 8).Reversed(), geom.Circle(geom.Pt(12, 0), 3.5).Reversed()}
			f.shape("given", render.Mark, r...)
			grown := f.Offset(r, 4, geom.Round)
			f.result("offset", grown)
			f.say("+4 mm: %d of 2 holes left", len(grown)-1)
		}},
		{"OffsetPath", func(f *cell) {
			p := geom.Polyline(geom.Pt(-22, -10), geom.Pt(-6, -10), geom.Pt(2, 12), geom.Pt(14, 12))
			p = append(p, geom.ArcAbout(geom.Pt(14, 4), geom.Pt(14, 12), geom.Pt(22, 4), -1))
			f.shape("path of the cutter", render.Centre, p)
			f.result("what a cutter of 6 mm leaves", f.OffsetPath(p, 3))
			f.say("a 6 mm cutter led along a line")
		}},
	})
}

func TestBoolean(t *testing.T) {
	a := geom.Region{geom.RoundedRect(geom.Pt(-6, -3), 38, 22, 5)}
	b := geom.Region{geom.Circle(geom.Pt(10, 5), 13), geom.Circle(geom.Pt(10, 5), 6).Reversed()}
	both := func(do func(f *cell) geom.Region) func(*cell) {
		return func(f *cell) {
			f.shape("given", render.Mark, a...)
			f.shape("given", render.Mark, b...)
			r := do(f)
			f.result("result", r)
			f.say("%s, %d segments, %.1f mm²", loops(r), r.Segs(), r.Area())
		}
	}
	picture(t, "kernel-boolean", "Boolean operations", []figure{
		{"Union", both(func(f *cell) geom.Region { return f.Union(a, b) })},
		{"Subtract", both(func(f *cell) geom.Region { return f.Subtract(a, b) })},
		{"Intersect", both(func(f *cell) geom.Region { return f.Intersect(a, b) })},
		{"Xor", both(func(f *cell) geom.Region { return f.Xor(a, b) })},
		{"Union along a shared wall", func(f *cell) {
			parts := []geom.Region{{geom.Rect(geom.Pt(-12, 0), 24, 26)}, {geom.Rect(geom.Pt(9, -3), 18, 14)}, {geom.Circle(geom.Pt(18, -3), 7)}}
			for _, p := range parts {
				f.shape("given", render.Mark, p...)
			}
			r := f.Union(parts...)
			f.result("result", r)
			f.say("3 cavities that share walls: %s", loops(r))
		}},
		{"Subtract many at once", func(f *cell) {
			plate := geom.Region{geom.RoundedRect(geom.Pt(0, 0), 50, 32, 6)}
			var cuts []geom.Region
			for i := range 7 {
				cuts = append(cuts, geom.Region{geom.Stadium(geom.Pt(-18+6*float64(i), -7), geom.Pt(-18+6*float64(i), 7), 1.5+0.3*float64(i))})
			}
			r := f.Subtract(plate, cuts...)
			f.result("result", r)
			f.say("7 slots in one pass, two of them joined: %s", loops(r))
		}},
	})
}
