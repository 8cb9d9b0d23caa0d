package ingest

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"routwright/geom"
)

func dxfOne(t *testing.T, entities string) geom.Path {
	t.Helper()
	r, err := DXF("t.dxf", strings.NewReader(dxfOf("4", entities)), Options{})
	if err != nil {
		t.Fatal(err)
	}
	if len(r.Paths) != 1 || len(r.Open) != 0 {
		t.Fatalf("%d closed and %d open paths, want one closed: %v", len(r.Paths), len(r.Open), r.Open)
	}
	if err := r.Paths[0].Check(); err != nil {
		t.Fatal(err)
	}
	return r.Paths[0]
}

// TestEntities checks areas against closed forms.
func TestEntities(t *testing.T) {
	w := math.Sqrt(0.5) // weight of a quarter circle as a rational quadratic
	circle := "0|SPLINE|70|12|71|2|72|12|73|9"
	for _, k := range []int{0, 0, 0, 1, 1, 2, 2, 3, 3, 4, 4, 4} {
		circle += fmt.Sprintf("|40|%d", k)
	}
	for i, p := range [][2]int{{1, 0}, {1, 1}, {0, 1}, {-1, 1}, {-1, 0}, {-1, -1}, {0, -1}, {1, -1}, {1, 0}} {
		circle += fmt.Sprintf("|10|%d|20|%d|41|%.15g", 10*p[0], 10*p[1], []float64{1, w}[i%2])
	}
	fit := "0|SPLINE|70|1|71|3|74|24"
	for i := range 24 {
		s, c := math.Sincos(float64(i) * math.Pi / 12)
		fit += fmt.Sprintf("|11|%.9f|21|%.9f", 10*c, 10*s)
	}
	tests := []struct {
		name, e   string
		area, tol float64
		w, h      float64
	}{
		{"circle", "0|CIRCLE|10|5|20|6|40|10", math.Pi * 100, 1e-9, 20, 20},
		{"bulges of half circles", "0|LWPOLYLINE|70|1|10|0|20|0|42|1|10|20|20|0|42|1", math.Pi * 100, 1e-9, 20, 20},
		{"clockwise bulges", "0|LWPOLYLINE|70|1|10|0|20|0|42|-1|10|20|20|0|42|-1", -math.Pi * 100, 1e-9, 20, 20},
		{"first vertex repeated", lwpoly("1", "0", "0", "5", "0", "5", "5", "0", "5", "0", "0"), 25, 1e-9, 5, 5},
		// tan(270°/4): three quarters of a circle of radius 10, closed by its chord.
		{"bulge over half a turn", "0|LWPOLYLINE|70|1|10|10|20|0|42|2.414213562373095|10|0|20|-10", 75*math.Pi + 50, 1e-9, 20, 20},
		{"slot of loose lines and arcs", "0|LINE|10|0|20|-5|11|30|21|-5|0|ARC|10|0|20|0|40|5|50|90|51|270|0|LINE|10|0|20|5|11|30|21|5|0|ARC|10|30|20|0|40|5|50|-90|51|90", 300 + 25*math.Pi, 1e-9, 40, 10},
		{"ellipse", "0|ELLIPSE|10|0|20|0|11|30|21|0|40|0.5|41|0|42|6.283185", 450 * math.Pi, 0.05, 60, 30},
		{"half ellipse", "0|ELLIPSE|10|0|20|0|11|0|21|30|40|0.5|41|0|42|3.141592653589793|0|LINE|10|0|20|30|11|0|21|-30", 225 * math.Pi, 0.05, 15, 60},
		{"rational spline: a circle", circle, 100 * math.Pi, 0.02, 20, 20},
		// Cubic spline interpolation: the error of the radius is R·h⁴/384·… < 1e-4 R at 15°.
		{"spline through fit points", fit, 100 * math.Pi, 0.02, 20, 20},
		{"inches", "", 0, 0, 0, 0},
		{"polyline with bulge", "0|POLYLINE|70|1|66|1|0|VERTEX|10|0|20|0|42|1|0|VERTEX|10|20|20|0|42|1|0|SEQEND", math.Pi * 100, 1e-9, 20, 20},
		{"spline-fit polyline without its frame", "0|POLYLINE|70|5|0|VERTEX|70|16|10|-99|20|0|0|VERTEX|70|8|10|0|20|0|0|VERTEX|70|8|10|9|20|0|0|VERTEX|70|8|10|9|20|9|0|SEQEND", 40.5, 1e-9, 9, 9},
		{"3D polyline", "0|POLYLINE|70|9|210|0|220|0|230|-1|0|VERTEX|70|32|10|0|20|0|30|7|0|VERTEX|70|32|10|9|20|0|0|VERTEX|70|32|10|9|20|9|0|SEQEND", 40.5, 1e-9, 9, 9},
	}
	for _, tt := range tests {
		if tt.e == "" {
			continue
		}
		t.Run(tt.name, func(t *testing.T) {
			p := dxfOne(t, tt.e)
			a := p.Area()
			if strings.Contains(tt.e, "LINE|10") || strings.Contains(tt.e, "ARC") { // chained in any direction
				a = math.Abs(a)
			}
			near(t, "area", a, tt.area, tt.tol)
			near(t, "width", p.Bounds().W(), tt.w, 1e-9+tt.tol/10)
			near(t, "height", p.Bounds().H(), tt.h, 1e-9+tt.tol/10)
		})
	}
}

// TestExtrusion mirrors: with the extrusion (0, 0, −1) x turns round for
// entities in their own coordinates and stays for those in the drawing's (DXF
// Reference, object coordinate systems).
func TestExtrusion(t *testing.T) {
	const down = "|210|0|220|0|230|-1"
	// A quarter circle from (10, 0) to (0, 10) about 0, mirrored: from (−10, 0) to (0, 10).
	p := dxfOne(t, "0|ARC|10|0|20|0|40|10|50|0|51|90"+down+"|0|LINE|10|-10|20|0|11|0|21|0"+down+"|0|LINE|10|0|20|0|11|0|21|10"+down)
	near(t, "area", math.Abs(p.Area()), 25*math.Pi, 1e-9)
	near(t, "right side", p.Bounds().Max.X, 0, 1e-9)
	p = dxfOne(t, "0|LWPOLYLINE|70|1|10|0|20|0|42|1|10|20|20|0"+down)
	near(t, "half disc", p.Area(), -50*math.Pi, 1e-9)
	near(t, "left side", p.Bounds().Min.X, -20, 1e-9)
	near(t, "lowest", p.Bounds().Min.Y, -10, 1e-9)
	// Half an ellipse, parameters 0 to π: above the axis, below it when mirrored.
	half := "0|ELLIPSE|10|0|20|0|11|30|21|0|40|0.5|41|0|42|3.141592653589793"
	line := "|0|LINE|10|30|20|0|11|-30|21|0"
	near(t, "ellipse", dxfOne(t, half+line).Bounds().Max.Y, 15, 1e-3)
	near(t, "mirrored ellipse", dxfOne(t, half+down+line).Bounds().Max.Y, 0, 1e-3)
}

// TestInsert places blocks.
func TestInsert(t *testing.T) {
	blocks := strings.ReplaceAll("0|SECTION|2|TABLES|0|TABLE|2|LAYER|0|LAYER|2|OFF|70|0|62|-7|0|LAYER|2|ICE|70|1|62|7|0|ENDTAB|0|ENDSEC|"+
		"0|SECTION|2|BLOCKS|0|BLOCK|2|DISC|10|100|20|0|0|CIRCLE|8|0|10|110|20|0|40|5|0|ENDBLK|0|BLOCK|2|TWICE|10|0|20|0|0|INSERT|8|0|2|disc|10|0|20|0|0|CIRCLE|8|OFF|10|0|20|0|40|9|0|ENDBLK|0|BLOCK|2|MOON|10|0|20|0|0|LWPOLYLINE|70|1|10|0|20|0|42|1|10|20|20|0|0|ENDBLK|0|ENDSEC|", "|", "\n")
	for _, tt := range []struct {
		name, e string
		n       int
		at      geom.Point // centre of the last path's box
		area    float64
	}{
		{"plain", "0|INSERT|8|BODY|2|DISC|10|0|20|0", 1, geom.Pt(10, 0), 25 * math.Pi},
		{"turned and scaled", "0|INSERT|8|BODY|2|DISC|10|1|20|2|41|2|42|2|50|90", 1, geom.Pt(1, 22), 100 * math.Pi},
		{"nested, with a layer that is off", "0|INSERT|8|BODY|2|TWICE|10|0|20|0", 1, geom.Pt(10, 0), 25 * math.Pi},
		{"array", "0|INSERT|8|BODY|2|DISC|10|0|20|0|70|3|71|2|44|20|45|30", 6, geom.Pt(50, 30), 25 * math.Pi},
		{"mirrored bulge", "0|INSERT|8|BODY|2|MOON|10|0|20|0|41|1|42|-1", 1, geom.Pt(10, 5), 50 * math.Pi},
		{"stretched bulge", "0|INSERT|8|BODY|2|MOON|10|0|20|0|41|2|42|1", 1, geom.Pt(20, -5), 100 * math.Pi},
		{"extruded down", "0|INSERT|8|BODY|2|MOON|10|0|20|0|210|0|220|0|230|-1", 1, geom.Pt(-10, -5), 50 * math.Pi},
		{"frozen", "0|INSERT|8|ICE|2|DISC|10|0|20|0", 0, geom.Point{}, 0},
		{"paper space", "0|CIRCLE|67|1|10|0|20|0|40|5", 0, geom.Point{}, 0},
	} {
		t.Run(tt.name, func(t *testing.T) {
			r, err := DXF("t.dxf", strings.NewReader(blocks+dxfOf("", tt.e)), Options{Unit: 1})
			if err != nil || len(r.Paths) != tt.n {
				t.Fatalf("%v, %d paths, want %d", err, len(r.Paths), tt.n)
			}
			if tt.n == 0 {
				return
			}
			p := r.Paths[tt.n-1]
			near(t, "area", math.Abs(p.Area()), tt.area, 0.02)
			if c := p.Bounds().Center(); c.Dist(tt.at) > 1e-3 {
				t.Errorf("centre %v, want %v", c, tt.at)
			}
			if l := r.Names[0].Layers[0]; l != "BODY" {
				t.Errorf("layer %q, want BODY", l)
			}
		})
	}
}

// TestChain joins what a person drew in pieces.
func TestChain(t *testing.T) {
	side := func(layer string, a, b, c, d float64) string {
		return fmt.Sprintf("|0|LINE|8|%s|10|%g|20|%g|11|%g|21|%g", layer, a, b, c, d)
	}
	square := side("A", 0, 0, 50, 0) + side("A", 50, 50, 50, 0) + side("A", 50, 50, 0, 50) + side("A", 0, 50, 0, 0)
	for _, tt := range []struct {
		name, e string
		closed  int
		open    int
		note    string
	}{
		{"sides in any direction", square[1:], 1, 0, ""},
		{"drawn twice", (square + square)[1:], 1, 0, "4 pieces are drawn twice"},
		{"small gaps", (side("A", 0, 0.004, 50, 0) + side("A", 50.003, 0, 50, 50) + side("A", 50, 50, 0, 50) + side("A", 0, 50, 0, 0))[1:], 1, 0, "joined 2 pairs of ends, at most 0.004 mm apart, the widest at (0.000, 0.0"},
		{"a gap too wide", (side("A", 0, 0.04, 50, 0) + side("A", 50, 0, 50, 50) + side("A", 50, 50, 0, 50) + side("A", 0, 50, 0, 0))[1:], 0, 1, ""},
		{"crumbs", (square + side("A", 50, 0, 50.002, 0))[1:], 1, 0, "1 line no longer than 0.01 mm left out"},
		{"two squares that share a corner, on two layers", (square + strings.ReplaceAll(square, "|8|A", "|8|B"))[1:], 1, 0, "drawn twice"},
		{"two layers", (side("A", 0, 0, 50, 0) + side("B", 50, 0, 50, 50) + side("A", 50, 50, 0, 50) + side("B", 0, 50, 0, 0))[1:], 1, 0, ""},
		{"a centre line on its own layer ends on the outline", (square + side("CENTRE", 0, 0, 50, 50))[1:], 1, 1, ""},
	} {
		t.Run(tt.name, func(t *testing.T) {
			r, err := DXF("t.dxf", strings.NewReader(dxfOf("4", tt.e)), Options{})
			if err != nil {
				t.Fatal(err)
			}
			if len(r.Paths) != tt.closed || len(r.Open) != tt.open {
				t.Fatalf("%d closed, %d open, want %d and %d; notes %q", len(r.Paths), len(r.Open), tt.closed, tt.open, r.Notes)
			}
			if tt.closed > 0 {
				near(t, "area", math.Abs(r.Paths[0].Area()), 2500, 0.5)
				if !r.Paths[0].Closed() {
					t.Error("not closed to the last bit")
				}
			}
			if all := strings.Join(r.Notes, "\n"); !strings.Contains(all, tt.note) || tt.note == "" && all != "" {
				t.Errorf("notes %q, want %q", all, tt.note)
			}
		})
	}
}

// TestUnits checks the units of a DXF.
func TestUnits(t *testing.T) {
	const disc = "0|CIRCLE|10|0|20|0|40|1"
	measurement := func(v string) string {
		return strings.ReplaceAll("0|SECTION|2|HEADER|9|$MEASUREMENT|70|"+v+"|0|ENDSEC|", "|", "\n")
	}
	for _, tt := range []struct {
		name, file string
		opt        Options
		mm         float64
		note       bool
	}{
		{"mm", dxfOf("4", disc), Options{}, 1, false},
		{"inches", dxfOf("1", disc), Options{}, 25.4, false},
		{"cm", dxfOf("5", disc), Options{Unit: 1}, 10, false},
		{"stated unit overruled", dxfOf("1", disc), Options{Unit: 1, UnitRules: true}, 1, false},
		{"not stated, asked for", dxfOf("0", disc), Options{Unit: 25.4}, 25.4, true},
		{"metric", measurement("1") + dxfOf("", disc), Options{}, 1, true},
		{"imperial", measurement("0") + dxfOf("0", disc), Options{}, 25.4, true},
	} {
		r, err := DXF("t.dxf", strings.NewReader(tt.file), tt.opt)
		if err != nil || len(r.Paths) != 1 {
			t.Fatalf("%s: %v", tt.name, err)
		}
		near(t, tt.name, r.Paths[0].Bounds().W(), 2*tt.mm, 1e-9)
		if (len(r.Notes) > 0) != tt.note {
			t.Errorf("%s: notes %q", tt.name, r.Notes)
		}
	}
}
