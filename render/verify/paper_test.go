//go:build verify

package verify

import (
	"io"
	"strings"
	"testing"

	"routwright/geom"
	"routwright/render"
	"routwright/render/pdf"
	"routwright/render/rendertest"
	"routwright/render/svg"
)

// most is how many places of a page are measured, rulers not counted.
const most = 600

// allowed is the largest error over a page, mm.
const allowed = 0.05

// sheets returns laid out sheets of modest size, for speed.
func sheets(t *testing.T) []render.Drawing {
	t.Helper()
	var out []render.Drawing
	for _, s := range []render.Sheet{rendertest.Template(true), rendertest.Small()} {
		d, err := render.Layout(s, render.LayoutOptions{})
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, d)
	}
	return out
}

// check measures one page in one program, prints the figure and judges it.
func check(t *testing.T, r renderer, what, file string, page int, h float64, lines []line) []reading {
	t.Helper()
	rs, err := measure(r.picture(t, file, page), h, probes(lines, most))
	if err != nil {
		t.Errorf("%s in %s: %v", what, r.name, err)
	}
	s := summary(rs)
	report("%-34s %-12s %v", what, r.name, s)
	if s.worst() > allowed {
		t.Errorf("%s in %s: off by %.4f mm, allowed %.2f", what, r.name, s.worst(), allowed)
	}
	return rs
}

func TestSVGSheets(t *testing.T) {
	for _, d := range sheets(t) {
		f := file(t, "sheet.svg", func(w io.Writer) error { return svg.Write(w, d) })
		run(t, "xmllint", "--noout", "--nonet", f)
		for _, r := range svgRenderers {
			check(t, r, "SVG sheet "+d.ID, f, 1, d.Bounds.H(), drawingLines(d))
		}
	}
}

func TestPDFSheets(t *testing.T) {
	ds := sheets(t)
	f := file(t, "full.pdf", func(w io.Writer) error { _, err := pdf.Whole(w, "Sheets", ds); return err })
	run(t, "qpdf", "--check", f)
	for i, d := range ds {
		for _, r := range pdfRenderers {
			check(t, r, "PDF sheet "+d.ID, f, i+1, d.Bounds.H(), drawingLines(d))
		}
	}
}

// tiles returns the pages of the template sheet on A4.
func tiles(t *testing.T, d render.Drawing, o render.TileOptions) []render.Page {
	t.Helper()
	a4, err := render.ParsePaper("A4")
	if err != nil {
		t.Fatal(err)
	}
	ps, err := render.Tile(d, a4, o)
	if err != nil {
		t.Fatal(err)
	}
	return ps
}

// The cover and the first page of the drawing, as they are and corrected, as PDF
// and as SVG.
func TestPages(t *testing.T) {
	d := sheets(t)[0]
	for _, o := range []render.TileOptions{{}, {Measured: geom.Vec{X: 99.4, Y: 100.3}}} {
		ps := tiles(t, d, o)[:2]
		what := "page"
		if o.Measured.X != 0 {
			what = "corrected page"
		}
		f := file(t, "tiled.pdf", func(w io.Writer) error {
			_, err := pdf.Tiled(w, "Tiles", []pdf.Section{{Title: d.Title, Pages: ps}})
			return err
		})
		run(t, "qpdf", "--check", f)
		for i, p := range ps {
			for _, r := range pdfRenderers {
				check(t, r, "PDF "+what+" "+p.Name, f, i+1, p.H, pageLines(p))
			}
			if i == 0 {
				continue
			}
			f := file(t, "page.svg", func(w io.Writer) error { return svg.WritePage(w, p) })
			run(t, "xmllint", "--noout", "--nonet", f)
			for _, r := range svgRenderers {
				check(t, r, "SVG "+what+" "+p.Name, f, 1, p.H, pageLines(p))
			}
		}
	}
}

// Words come out as they went in, also those beyond Latin.
func TestWords(t *testing.T) {
	d := render.Drawing{ID: "words", Title: "Größe Ж Ω", Bounds: geom.BoxOf(geom.Pt(0, 0), geom.Pt(150, 40)), Groups: []render.Group{{Texts: []render.Text{
		{S: `Größe Жук Ωμέγα (a\b) <&> "q"`, At: geom.Pt(10, 20), Size: 4},
	}}}}
	f := file(t, "words.pdf", func(w io.Writer) error { _, err := pdf.Whole(w, d.Title, []render.Drawing{d}); return err })
	for _, got := range []string{run(t, "pdftotext", f, "-"), run(t, "mutool", "draw", "-q", "-F", "txt", f)} {
		if !contains(got, d.Groups[0].Texts[0].S) {
			t.Errorf("read back as %q", got)
		}
	}
	if got := run(t, "mutool", "show", f, "outline"); !contains(got, d.Title) {
		t.Errorf("bookmark read back as %q", got)
	}
	report("%-34s %-12s %s", "PDF words and bookmark", "poppler, mupdf", "read back alike")
}

// contains looks for s whatever the blanks.
func contains(text, s string) bool { return strings.Contains(squeeze(text), squeeze(s)) }

func squeeze(s string) string { return strings.Join(strings.Fields(s), " ") }

// The measuring itself can fail: a drawing half a thousandth too large, and a
// line that is not there, are noticed.
func TestMeasureNotices(t *testing.T) {
	d := sheets(t)[0]
	f := file(t, "sheet.svg", func(w io.Writer) error { return svg.Write(w, d) })
	img := svgRenderers[0].picture(t, f, 1)
	h := d.Bounds.H()
	grown := linesOf(d.Groups, geom.Translate(geom.Point{}.Sub(d.Bounds.Min)).Then(geom.Scale(1.0005)))
	rs, _ := measure(img, h, probes(grown, most))
	s := summary(rs)
	if s.x < 0.1 || s.y < 0.08 || s.worst() < allowed {
		t.Errorf("a scale of 1.0005 measured as %v", s)
	}
	extra := append(drawingLines(d), line{seg: geom.Line(geom.Pt(3, h-3), geom.Pt(9, h-3)), width: 0.25})
	if _, err := measure(img, h, probes(extra, 1e6)); err == nil {
		t.Error("a line that is not there was not missed")
	}
	report("%-34s %-12s scale 1.0005 seen as across %.3f, up %.3f mm", "measuring noticed", "librsvg", s.x, s.y)
}
