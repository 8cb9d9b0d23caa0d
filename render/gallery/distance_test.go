package gallery

import (
	"testing"

	"routwright/geom"
	"routwright/render"
)

func TestDistance(t *testing.T) {
	picture(t, "kernel-distance", "Distances", []figure{
		{"Distance", func(f *cell) {
			a := geom.Region{geom.Stadium(geom.Pt(-18, -8), geom.Pt(2, -11), 5)}
			b := geom.Region{geom.Pose(geom.Pt(12, 8), 25*geom.Degree).Path(geom.RoundedRect(geom.Pt(0, 0), 20, 12, 3))}
			f.result("cavity", a)
			f.result("cavity", b)
			d, pa, pb := geom.Distance(a, b)
			f.shape("the least distance", render.Cut, geom.Polyline(pa, pb))
			f.place("where it is taken", pa, pb)
			f.say("%.3f mm, with a point of each", d)
		}},
		{"LeastWall", func(f *cell) {
			r := geom.Region{geom.RoundedRect(geom.Pt(0, 0), 50, 34, 8),
				geom.RoundedRect(geom.Pt(-10, 2), 20, 22, 3).Reversed(), geom.Circle(geom.Pt(11, -3), 9).Reversed()}
			f.result("wood that stays", r)
			w, a, b := geom.LeastWall(r)
			f.place("where it is taken", a, b)
			f.say("the thinnest wall has %.2f mm", w)
		}},
		{"ClosePairs", func(f *cell) {
			rs := []geom.Region{
				{geom.RoundedRect(geom.Pt(-14, 6), 22, 14, 2)}, {geom.Circle(geom.Pt(5, 6), 6)}, {geom.Circle(geom.Pt(20, 10), 5)},
				{geom.Stadium(geom.Pt(-18, -10), geom.Pt(-4, -10), 3)}, {geom.RoundedRect(geom.Pt(14, -7), 18, 12, 2)}}
			for _, r := range rs {
				f.shape("cavity", render.Cut, r...)
			}
			pairs := geom.ClosePairs(rs, 5)
			for _, p := range pairs {
				f.shape("near each other", render.Cut, geom.Polyline(p.A, p.B))
				f.place("where it is taken", p.A, p.B)
			}
			f.say("%d of 10 pairs at most 5 mm apart", len(pairs))
		}},
		{"InscribedCircle", func(f *cell) {
			r := geom.Region{geom.Polygon(geom.Pt(-24, -15), geom.Pt(14, -15), geom.Pt(24, 2), geom.Pt(6, 15), geom.Pt(-8, 4), geom.Pt(-24, 9))}
			d := geom.InscribedCircle(r)
			f.shape("cavity", render.Cut, r...)
			f.result("widest circle", geom.Region{d.Path()})
			f.place("its centre", d.Center)
			f.say("the widest bore has %.3f mm", 2*d.Radius)
		}},
		{"EnclosingCircle", func(f *cell) {
			p, err := geom.Polygon(geom.Pt(-14, -10), geom.Pt(12, -14), geom.Pt(15, 6), geom.Pt(-6, 14)).FilletAll(4)
			if err != nil {
				f.t.Fatal(err)
			}
			d := geom.EnclosingCircle(p)
			f.result("part", geom.Region{p})
			f.shape("least circle", render.Cut, d.Path())
			f.place("its centre", d.Center)
			f.say("the blank to turn it from has %.3f mm", 2*d.Radius)
		}},
		{"Index", func(f *cell) {
			body := tailed(1.5)
			f.shape("outline", render.Cut, body...)
			index, inside := geom.IndexOf(body), 0
			for y := -15.0; y <= 20; y += 7 {
				for x := -24.0; x <= 24; x += 8 {
					p := geom.Pt(x, y)
					if q, d := index.Closest(p); d > 0.1 {
						f.shape("to the nearest place", render.Mark, geom.Polyline(p, q))
					}
					if index.Contains(p) {
						inside++
						f.place("inside", p)
					} else {
						f.shape("outside", render.Cut, geom.Circle(p, 0.6))
					}
				}
			}
			f.say("%d of 42 points inside; nearest places", inside)
		}},
	})
}

func TestCurves(t *testing.T) {
	picture(t, "kernel-curves", "Curves in, covers, moments", []figure{
		{"FitCubics", func(f *cell) {
			c := geom.Cubic{geom.Pt(-24, -14), geom.Pt(-22, 22), geom.Pt(8, -20), geom.Pt(24, 14)}
			p, err := geom.FitCubics([]geom.Cubic{c}, 0.05)
			if err != nil {
				f.t.Fatal(err)
			}
			f.shape("handles", render.Mark, geom.Polyline(c[0], c[1]), geom.Polyline(c[2], c[3]))
			f.shape("arcs", render.Cut, p)
			f.place("where arcs meet", p.Vertices()...)
			f.say("Bézier curve: %d arcs within 0.05 mm", len(p))
		}},
		{"FitPolyline", func(f *cell) {
			var ps []geom.Point
			for i := range 400 {
				a := geom.Angle(i) * 0.9 * geom.Degree
				ps = append(ps, geom.Pt(0, 0).Add(a.Unit().Mul(15+3*(2*a).Unit().X+1.5*(3*a).Unit().Y)))
			}
			p, err := geom.FitPolyline(ps, true, 0.05, 0)
			if err != nil {
				f.t.Fatal(err)
			}
			f.result("arcs", geom.Region{p})
			f.place("where arcs meet", p.Vertices()...)
			f.say("400 points: %d arcs within 0.05 mm", len(p))
		}},
		{"Hobby", func(f *cell) {
			knots := []geom.Knot{{At: geom.Pt(-24, -12), Dir: geom.Vec{Y: 1}}, {At: geom.Pt(-12, 10)}, {At: geom.Pt(2, 4)}, {At: geom.Pt(14, 13)}, {At: geom.Pt(24, -12), Dir: geom.Vec{Y: -1}}}
			cs, err := geom.Hobby(knots, false)
			if err != nil {
				f.t.Fatal(err)
			}
			p, err := geom.FitCubics(cs, 0)
			if err != nil {
				f.t.Fatal(err)
			}
			f.shape("curve", render.Cut, p)
			for _, k := range knots {
				f.place("reading", k.At)
				f.shape("ordinate", render.Mark, geom.Polyline(k.At, geom.Pt(k.At.X, -14)))
			}
			f.say("a smooth curve through %d readings", len(knots))
		}},
		{"Fillet", func(f *cell) {
			p := geom.Polygon(geom.Pt(-24, -14), geom.Pt(22, -14), geom.Pt(10, 15), geom.Pt(-14, 15))
			f.shape("given", render.Mark, p)
			q, err := p.FilletAll(6)
			if err != nil {
				f.t.Fatal(err)
			}
			f.result("rounded", geom.Region{q})
			f.say("every corner rounded to 6 mm")
		}},
		{"Cover", func(f *cell) {
			r := geom.Region{geom.RoundedRect(geom.Pt(0, 0), 52, 30, 4)}
			f.shape("cavity", render.Cut, r...)
			discs, share := geom.Cover(r, geom.CoverRules{Diameters: []float64{20, 12, 8}, Margin: 1, Share: 0.8})
			for _, d := range discs {
				f.shape("bore", render.Mark, d.Path())
				f.place("centre", d.Center)
			}
			f.say("%d bores, 1 mm inside, take %.0f %%", len(discs), 100*share)
		}},
		{"Moments", func(f *cell) {
			r := append(tailed(1.4), geom.Circle(geom.Pt(12, 0), 6).Reversed())
			f.result("plate", r)
			m := r.Moments()
			f.place("centre of area", m.Centroid)
			f.shape("axis", render.Centre, geom.Polyline(geom.Pt(-27, m.Centroid.Y), geom.Pt(29, m.Centroid.Y)), geom.Polyline(geom.Pt(m.Centroid.X, -19), geom.Pt(m.Centroid.X, 19)))
			f.say("%.1f mm², Ixx %.0f mm⁴, Iyy %.0f mm⁴", m.Area, m.Ixx, m.Iyy)
		}},
	})
}
