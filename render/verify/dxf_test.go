//go:build verify

package verify

import (
	"encoding/json"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"routwright/geom"
	"routwright/render"
	"routwright/render/dxf"
	"routwright/render/rendertest"
)

// reading of a DXF file by another program: areas of closed outlines by layer.
type dxfReading struct {
	Units  int // $INSUNITS: 4 is mm, 0 unsaid
	Errors []string
	Area   map[string]float64 // closed outlines, by layer, mm²
	Closed map[string]int
	Min    [2]float64
	Max    [2]float64
}

// dxfReaders are two programs that share no code: a Python library, which also
// audits, and GDAL.
var dxfReaders = []struct {
	name   string
	script string
	units  bool // it says the units
}{
	{"ezdxf", "read_ezdxf.py", true},
	{"gdal", "read_gdal.py", false},
}

// readDXF runs a reader's script from testdata/verify over files.
func readDXF(t *testing.T, script string, files []string) []dxfReading {
	t.Helper()
	// Debian's python3, which has Debian's modules.
	out := run(t, "/usr/bin/python3", append([]string{filepath.Join("..", "..", "testdata", "verify", script)}, files...)...)
	var r []dxfReading
	if err := json.Unmarshal([]byte(out), &r); err != nil || len(r) != len(files) {
		t.Fatalf("%s said %.500s", script, out)
	}
	return r
}

// content is what a drawing holds in closed outlines, by layer.
type content struct {
	area, length map[string]float64
	closed       map[string]int
	box          geom.Box // of the lines
}

func want(d render.Drawing, cutOnly bool) content {
	c := content{map[string]float64{}, map[string]float64{}, map[string]int{}, geom.Box{}}
	var walk func(gs []render.Group)
	walk = func(gs []render.Group) {
		for _, g := range gs {
			for _, s := range g.Shapes {
				if cutOnly && (s.Kind != render.Cut && !s.Led || s.Layer == render.LegendLayer) {
					continue
				}
				l := string(s.Layer)
				if l == "" && s.Kind == render.Cut {
					l = "CUT"
				}
				c.box = c.box.Union(s.Path.Bounds())
				if s.Path.Closed() && l != "" {
					c.area[l] += math.Abs(s.Path.Area())
					c.length[l] += s.Path.Length()
					c.closed[l]++
				}
			}
			walk(g.Groups)
		}
	}
	walk(d.Groups)
	return c
}

// dxfCase is a file with what it should hold.
type dxfCase struct {
	file string
	d    render.Drawing
	o    dxf.Options
}

func TestDXF(t *testing.T) {
	var cases []dxfCase
	for _, s := range rendertest.Sheets() {
		d, err := render.Layout(s, render.LayoutOptions{})
		if err != nil {
			t.Fatal(err)
		}
		for _, o := range []dxf.Options{
			{}, {Version: dxf.R12}, {CutOnly: true}, {CutOnly: true, Version: dxf.R12}, {CutOnly: true, FlattenMM: 0.01},
		} {
			f := file(t, "sheet.dxf", func(w io.Writer) error { return dxf.Write(w, d, o) })
			cases = append(cases, dxfCase{f, d, o})
		}
	}
	compare(t, cases)
}

// compare reads files in both programs and holds them against their drawings.
func compare(t *testing.T, cases []dxfCase) {
	t.Helper()
	var files []string
	for _, c := range cases {
		files = append(files, c.file)
	}
	for _, r := range dxfReaders {
		for i, got := range readDXF(t, r.script, files) {
			hold(t, r.name, r.units, got, cases[i].d, cases[i].o)
		}
	}
}

// hold holds what a program read against the drawing.
func hold(t *testing.T, program string, knowsUnits bool, got dxfReading, d render.Drawing, o dxf.Options) {
	t.Helper()
	c := want(d, o.CutOnly)
	box := c.box
	what := "DXF " + map[dxf.Version]string{dxf.R2000: "R2000", dxf.R12: "R12"}[o.Version]
	if o.CutOnly {
		what += " cut"
	}
	if o.FlattenMM > 0 {
		what += fmt.Sprintf(" flat %g", o.FlattenMM)
	}
	what += " " + d.ID
	if len(got.Errors) > 0 {
		t.Errorf("%s in %s: %d errors and repairs: %.300s", what, program, len(got.Errors), strings.Join(got.Errors, "; "))
	}
	if units := got.Units; knowsUnits && o.Version == dxf.R2000 && units != 4 {
		t.Errorf("%s in %s: units %d, want 4, mm", what, program, units)
	}
	worst, n := 0.0, 0
	for l, a := range c.area {
		e := math.Abs(got.Area[l] - a)
		worst, n = math.Max(worst, e/a), n+c.closed[l]
		// GDAL makes chords of arcs, 0.25° each: short by 1.6e-6 of a circle's area.
		tol := 1e-6*a + c.length[l]*o.FlattenMM
		if program == "gdal" {
			tol += 5e-6 * a
		}
		if e > tol || got.Closed[l] != c.closed[l] {
			t.Errorf("%s in %s, layer %s: %d outlines of %.6f mm², want %d of %.6f", what, program, l, got.Closed[l], got.Area[l], c.closed[l], a)
		}
	}
	off := 0.0
	if o.CutOnly && !box.Empty() {
		off = math.Max(math.Max(math.Abs(got.Min[0]-box.Min.X), math.Abs(got.Min[1]-box.Min.Y)),
			math.Max(math.Abs(got.Max[0]-box.Max.X), math.Abs(got.Max[1]-box.Max.Y)))
		if off > 0.012 {
			t.Errorf("%s in %s: extents %v %v, want %v", what, program, got.Min, got.Max, box)
		}
	}
	report("%-34s %-12s %3d closed outlines: area off by %.1e, extents by %.4f mm; errors and repairs %d", what, program, n, worst, off, len(got.Errors))
}

// Text that would break a file of pairs stays text in both programs.
func TestDXFWords(t *testing.T) {
	nasty := "Größe <&> \"q\" Ж 漢\r\n  0\nCIRCLE\n  8\nX"
	d := render.Drawing{ID: "nasty", Groups: []render.Group{{Texts: []render.Text{{S: nasty, At: geom.Pt(1, 1), Size: 3}},
		Shapes: []render.Shape{{Path: geom.Rect(geom.Pt(0, 0), 10, 10), Layer: "CUT_INSIDE"}}}}}
	for _, v := range []dxf.Version{dxf.R2000, dxf.R12} {
		f := file(t, "nasty.dxf", func(w io.Writer) error { return dxf.Write(w, d, dxf.Options{Version: v}) })
		compare(t, []dxfCase{{f, d, dxf.Options{Version: v}}})
		b, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		if strings.Contains(string(b), "\nCIRCLE\n") {
			t.Error("a text became a circle")
		}
	}
}
