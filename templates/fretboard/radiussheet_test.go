package fretboard

import (
	"math"
	"testing"

	"routwright/geom"
	"routwright/render"
)

// Every gauge is a sound outline whose arc has the radius, and falls off over the
// board's width by the closed form R − √(R² − W²/4).
func TestRadiusSheet(t *testing.T) {
	b, err := New(plain()) // a cone, 254 at the nut, 305 at fret 22
	if err != nil {
		t.Fatal(err)
	}
	s, ok := RadiusSheet(b, SheetOptions{})
	if !ok || len(s.Groups) != 2 {
		t.Fatalf("%v, %d groups", ok, len(s.Groups))
	}
	for i, g := range s.Groups {
		r := []float64{254, 305}[i]
		w := []float64{b.NutLine.Length(), b.Slots[len(b.Slots)-1].Edge.Length()}[i]
		if len(g.Shapes) != 3 {
			t.Fatalf("%d outlines", len(g.Shapes))
		}
		for _, sh := range g.Shapes {
			if err := sh.Path.Check(); err != nil || !sh.Path.Closed() || sh.Path.Area() <= 0 {
				t.Errorf("%s: %v", sh.ID, err)
			}
			arc := geom.Seg{}
			for _, e := range sh.Path {
				if e.IsArc() {
					arc = e
				}
			}
			crown := arc.At(0.5)
			edge := arc.Closest(geom.Pt(w/2, crown.Y))
			for k := 0; k < 50; k++ { // the arc's point at half the board's width
				edge = arc.Closest(geom.Pt(w/2, edge.Y))
			}
			want := r - math.Sqrt(r*r-w*w/4)
			if got := math.Abs(edge.Y - crown.Y); math.Abs(arc.Radius-r) > 1e-9 || math.Abs(got-want) > 1e-6 {
				t.Errorf("%s: radius %g, sagitta %.7f, want %.7f", sh.ID, arc.Radius, got, want)
			}
		}
	}
	if _, err := render.Layout(s, render.LayoutOptions{}); err != nil {
		t.Error(err)
	}
	flat, _ := New(Common(648, 22, 6))
	if _, ok := RadiusSheet(flat, SheetOptions{}); ok {
		t.Error("gauges for a flat board")
	}
}
