package sheet

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"routwright/geom"
	"routwright/render"
	"routwright/templates/job"
	"routwright/templates/job/jobtest"
	"routwright/templates/part"
	"routwright/templates/space"
)

var update = flag.Bool("update", false, "rewrite testdata golden files")

// full is the test body with a rounded edge and four named sections.
func full(t testing.TB) *job.Job {
	j := jobtest.Full(t)
	round := space.Profile{Roundover: 5}
	j.Edge = space.NewEdge(j.Outline, j.Thickness, round, round)
	j.Sections = []job.Section{
		{Name: "across the tail pickup", From: geom.Pt(-160, 40), To: geom.Pt(180, 40)},
		{Name: "along the channel", From: geom.Pt(10, 63.826), To: geom.Pt(170, -68)},
		{Name: "along the strings", From: geom.Pt(-26, -130), To: geom.Pt(-26, 280)},
		{Name: "through the weir key", From: geom.Pt(-180, -80), To: geom.Pt(20, -40)},
	}
	return j
}

// whole returns the sheets that show the whole body.
func whole(t testing.TB, j *job.Job) []render.Sheet {
	cs := cutsOf(j)
	out := append(drillMaps(j), overlay(j, cs))
	return append(append(out, sections(j, cs)...), Views(j))
}

// digest tells what a sheet says and where its groups lie, without how it is laid
// out: a difference is a difference of the sheet.
func digest(s render.Sheet) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s\n%s | %s | from back %v\n", s.ID, s.Title, s.View, s.FromBack)
	var group func(g render.Group)
	group = func(g render.Group) {
		var box geom.Box
		kinds := map[render.Kind]int{}
		for _, sh := range g.Shapes {
			box = box.Union(sh.Path.Bounds())
			kinds[sh.Kind]++
		}
		fmt.Fprintf(&b, "group %s (%s)", g.ID, g.Title)
		for k := render.Cut; k <= render.Solid; k++ {
			if kinds[k] > 0 {
				fmt.Fprintf(&b, " %d %s", kinds[k], k.Style().Class)
			}
		}
		fmt.Fprintf(&b, " in %.2f,%.2f to %.2f,%.2f\n", box.Min.X+0, box.Min.Y+0, box.Max.X+0, box.Max.Y+0)
		for _, t := range g.Texts {
			fmt.Fprintf(&b, "  text %.2f,%.2f %s\n", t.At.X+0, t.At.Y+0, t.S)
		}
		for _, sub := range g.Groups {
			group(sub)
		}
	}
	for _, g := range s.Groups {
		group(g)
	}
	for _, f := range s.Solids {
		fmt.Fprintf(&b, "cut %s: %.2f mm² at %.0f°\n", f.Title, f.Region.Area(), f.Angle.Degrees())
	}
	for _, h := range s.Holes {
		fmt.Fprintf(&b, "hole %s %.2f,%.2f d %.2f %s %s %q\n", h.ID, h.At.X+0, h.At.Y+0, h.D, h.Kind.Style().Class, h.Layer, h.Text)
	}
	for _, d := range s.Dims {
		fmt.Fprintf(&b, "dim %.2f,%.2f to %.2f,%.2f %s\n", d.A.X+0, d.A.Y+0, d.B.X+0, d.B.Y+0, d.Text)
	}
	for _, l := range s.Labels {
		fmt.Fprintf(&b, "label %.2f,%.2f %s\n", l.At.X+0, l.At.Y+0, l.S)
	}
	for _, f := range s.Block {
		fmt.Fprintf(&b, "%s: %s\n", f.Name, f.Value)
	}
	for _, n := range s.Notes {
		fmt.Fprintf(&b, "note %s\n", n)
	}
	return b.String()
}

func TestGoldenWhole(t *testing.T) {
	for _, s := range whole(t, full(t)) {
		name := filepath.Join("testdata", "whole", s.ID+".txt")
		got := digest(s)
		if *update {
			if err := os.MkdirAll(filepath.Dir(name), 0o777); err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(name, []byte(got), 0o666); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		if got != string(want) {
			t.Errorf("%s differs from what is drawn now; look at both, then run go test -update\n%s", name, firstDifference(got, string(want)))
		}
	}
}

func firstDifference(a, b string) string {
	x, y := strings.Split(a, "\n"), strings.Split(b, "\n")
	for i := range x {
		if i >= len(y) || x[i] != y[i] {
			return "now: " + x[i]
		}
	}
	return "now it is shorter"
}

// words returns every text of a drawing.
func words(gs []render.Group) []render.Text {
	var out []render.Text
	for _, g := range gs {
		out = append(append(out, g.Texts...), words(g.Groups)...)
	}
	return out
}

// No two texts of a sheet overlap, every label found room, and the sheet is laid
// out quickly.
func TestWholeIsReadable(t *testing.T) {
	for _, s := range whole(t, full(t)) {
		from := time.Now()
		d, err := render.Layout(s, render.LayoutOptions{})
		if err != nil {
			t.Fatal(err)
		}
		readable(t, d)
		if took := time.Since(from); took > time.Second { // a tenth of it on an idle machine
			t.Errorf("%s: laid out in %v", s.ID, took)
		}
	}
}

func readable(t *testing.T, d render.Drawing) {
	t.Helper()
	for _, r := range d.Remarks {
		t.Errorf("%s: %s", d.ID, r)
	}
	ws := words(d.Groups)
	for i, a := range ws {
		for _, b := range ws[:i] {
			if a.Box().Overlaps(b.Box()) {
				t.Errorf("%s: %q overlaps %q", d.ID, a.S, b.S)
			}
		}
	}
}

// A hundred and sixty holes of forty sorts: numbers and table stay readable.
func TestManyHoles(t *testing.T) {
	j := jobtest.Demo(t)
	for k := range 40 {
		p := part.Part{ID: fmt.Sprintf("holes-%d", k), Kind: part.Screw, Face: part.Face(k % 2)}
		for n := range 4 {
			at := geom.Pt(-140+float64(k%10)*31+float64(n%2)*11, -90+float64(k/10)*55+float64(n/2)*17+float64(n%3))
			p.Bores = append(p.Bores, part.Down(at, p.Face, 10+float64(k%7), 2+float64(k%5)*0.7, j.Thickness, fmt.Sprintf("screw %d", k)))
		}
		j.Parts = append(j.Parts, p)
	}
	for _, s := range drillMaps(j) {
		d, err := render.Layout(s, render.LayoutOptions{})
		if err != nil {
			t.Fatal(err)
		}
		readable(t, d)
	}
}

func BenchmarkWhole(b *testing.B) {
	j := full(b)
	b.Run("sheets", func(b *testing.B) {
		for b.Loop() {
			whole(b, j)
		}
	})
	sheets := whole(b, j)
	b.Run("layout", func(b *testing.B) {
		for b.Loop() {
			for _, s := range sheets {
				if _, err := render.Layout(s, render.LayoutOptions{}); err != nil {
					b.Fatal(err)
				}
			}
		}
	})
}
