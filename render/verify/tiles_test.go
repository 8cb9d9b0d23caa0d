//go:build verify

package verify

import (
	"io"
	"math"
	"regexp"
	"strings"
	"testing"

	"routwright/geom"
	"routwright/render"
	"routwright/render/pdf"
	"routwright/render/rendertest"
)

// joinAllowed is how far a line of the joined pages may lie from that of the
// full sheet, mm.
const joinAllowed = 0.1

// Tiles, rendered, moved so that their crosses lie at the drawing's coordinates
// printed beside them, show every line where the rendered full sheet shows it.
func TestTilesJoin(t *testing.T) {
	for _, s := range []render.Sheet{rendertest.Template(false), rendertest.Outline()} {
		d, err := render.Layout(s, render.LayoutOptions{})
		if err != nil {
			t.Fatal(err)
		}
		for _, r := range pdfRenderers[:2] {
			join(t, r, d)
		}
	}
}

// join compares the tiles of d with its full sheet in one program.
func join(t *testing.T, r renderer, d render.Drawing) {
	full := file(t, "full.pdf", func(w io.Writer) error { _, err := pdf.Whole(w, d.Title, []render.Drawing{d}); return err })
	sheet := r.picture(t, full, 1)
	ps := tiles(t, d, render.TileOptions{NoCover: true})
	f := file(t, "tiled.pdf", func(w io.Writer) error {
		_, err := pdf.Tiled(w, "Tiles", []pdf.Section{{Title: d.Title, Pages: ps}})
		return err
	})
	places, worst, least, pages := 0, 0.0, math.Inf(1), 0
	for i, p := range ps {
		rs, err := measure(r.picture(t, f, i+1), p.H, probes(pageLines(p), most))
		if err != nil {
			t.Errorf("%s page %s in %s: %v", d.ID, p.Name, r.name, err)
		}
		move, crosses := joined(rs)
		if crosses < 2 { // one page alone has nothing to be joined to
			if len(ps) > 1 {
				t.Errorf("%s page %s in %s: %d crosses measured", d.ID, p.Name, r.name, crosses)
			}
			continue
		}
		pages++
		for _, m := range rs {
			at := m.at.Add(move).Sub(d.Bounds.Min)
			// Only the drawing's own lines are on the full sheet.
			if m.name != "" || !p.Window.Contains(m.at) {
				continue
			}
			m.probe.at = geom.Point{}.Add(at)
			off, _, alone := across(sheet, d.Bounds.H(), m.probe)
			if !alone {
				continue // a seam, or words of the page
			}
			places++
			// The tile shows the line off by m.off from its place; the sheet by off.
			e := math.Abs(m.off - off)
			worst, least = math.Max(worst, e), math.Min(least, e)
		}
	}
	report("%-34s %-12s %4d places on %d pages: worst %.4f mm from the full sheet", "joined tiles of "+d.ID, r.name, places, pages, worst)
	if worst > joinAllowed || places < 100 {
		t.Errorf("joined tiles of %s in %s: worst %.4f mm over %d places, allowed %.2f", d.ID, r.name, worst, places, joinAllowed)
	}
}

// coordinates are the words of a cross: where it lies in the drawing.
var coordinates = regexp.MustCompile(`x (-?[\d.]+)[, ]+y (-?[\d.]+)`)

// joined returns the displacement from the page to the drawing as the crosses
// give it: printed coordinates less measured places, the mean of each axis; and
// how many crosses were measured.
func joined(rs []reading) (geom.Vec, int) {
	var dx, dy []float64
	names := map[string]bool{}
	for _, r := range rs {
		if !strings.HasPrefix(r.name, "cross at ") {
			continue
		}
		m := coordinates.FindStringSubmatch(strings.ReplaceAll(r.name, "−", "-"))
		if m == nil {
			continue
		}
		x, y := num(m[1]), num(m[2])
		names[r.name] = true
		at := r.at.Add(r.n.Mul(r.off))
		if math.Abs(r.n.X) > 0.5 {
			dx = append(dx, x-at.X)
		} else {
			dy = append(dy, y-at.Y)
		}
	}
	if len(dx) == 0 || len(dy) == 0 {
		return geom.Vec{}, 0
	}
	_, x := spreadOf(dx)
	_, y := spreadOf(dy)
	return geom.Vec{X: x, Y: y}, len(names)
}
