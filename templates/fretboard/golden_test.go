package fretboard

import (
	"bytes"
	"flag"
	"fmt"
	"io"
	"math"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"routwright/geom"
	"routwright/render"
	"routwright/render/rendertest"

	"github.com/google/go-cmp/cmp"
)

var update = flag.Bool("update", false, "rewrite testdata/golden")

// golden compares text with a file kept for review.
func golden(t *testing.T, name string, got []byte) {
	t.Helper()
	rendertest.Golden(t, filepath.Join("testdata", "golden", name), got, *update)
}

// plain and fanned are two boards of our own for the golden files.
func plain() Spec {
	s := Common(648, 22, 6)
	s.Radius = Radius{254, 305}
	s.Slot.Depth = 2.2
	return s
}

func fanned() Spec {
	s := Common(0, 24, 7)
	s.Fan = &Fan{Bass: 686, Treble: 648, Square: 7}
	s.ZeroFret, s.Nut = true, Nut{Width: 3.2, Behind: 5, Shelf: 2}
	s.Partials = []Partial{{Fret: 3.5, From: 1, To: 3}}
	s.Extra = Extra{Frets: 2, Strings: 3}
	s.Slot.Binding = 1.5
	return s
}

func TestGoldenTables(t *testing.T) {
	for name, s := range map[string]Spec{"plain": plain(), "fanned": fanned()} {
		b, err := New(s)
		if err != nil {
			t.Fatal(err)
		}
		for _, w := range []struct {
			ending string
			write  func(io.Writer) error
		}{
			{"_mm.csv", func(w io.Writer) error { return b.WriteCSV(w, MM) }},
			{"_in.csv", func(w io.Writer) error { return b.WriteCSV(w, Inch) }},
			{"_mm.txt", func(w io.Writer) error { return b.WriteText(w, MM) }},
			{"_in.txt", func(w io.Writer) error { return b.WriteText(w, Inch) }},
			{"_depths.csv", func(w io.Writer) error { return b.WriteDepths(w, MM) }},
			{".json", func(w io.Writer) error { return b.WriteJSON(w) }},
		} {
			var buf bytes.Buffer
			if err := w.write(&buf); err != nil {
				t.Fatal(err)
			}
			if bytes.Contains(buf.Bytes(), []byte("NaN")) || bytes.Contains(buf.Bytes(), []byte("Inf")) {
				t.Errorf("%s%s holds a number that is none", name, w.ending)
			}
			golden(t, name+w.ending, buf.Bytes())
		}
	}
}

// Every row of the CSV against the formula, within half of its last decimal.
func TestCSVRows(t *testing.T) {
	b, err := New(plain())
	if err != nil {
		t.Fatal(err)
	}
	for _, u := range []struct {
		unit Unit
		mm   float64
		half float64
	}{{MM, 1, 0.5e-5}, {Inch, 25.4, 0.5e-6}} {
		var buf bytes.Buffer
		if err := b.WriteCSV(&buf, u.unit); err != nil {
			t.Fatal(err)
		}
		lines := strings.Split(strings.TrimSuffix(buf.String(), "\n"), "\n")
		if lines[0] != "fret,from_nut,from_previous,to_bridge" || len(lines) != 23 {
			t.Fatalf("head %q, %d lines", lines[0], len(lines))
		}
		at := func(n int) float64 { return 648 * (1 - math.Pow(2, -float64(n)/12)) / u.mm }
		for n, l := range lines[1:] {
			f := strings.Split(l, ",")
			want := []float64{float64(n + 1), at(n + 1), at(n+1) - at(n), 648/u.mm - at(n+1)}
			for i, w := range want {
				got, err := strconv.ParseFloat(f[i], 64)
				if err != nil || math.Abs(got-w) > u.half*1.0001 {
					t.Errorf("%s, row %d, column %d: %s, want %.8f", u.unit, n+1, i, f[i], w)
				}
			}
		}
	}
}

func TestNearest64th(t *testing.T) {
	for _, tt := range []struct {
		in   float64 // inches
		want string
		err  float64
	}{
		{0, "0", 0}, {12.75, "12 3/4", 0}, {1.0 / 64, "1/64", 0}, {0.9999, "1", 0.0001},
		{25.5, "25 1/2", 0}, {1.4319, "1 7/16", 1.4375 - 1.4319}, {2.9921875, "2 63/64", -0.0078125},
	} {
		got := Nearest64th(tt.in * 25.4)
		if tt.in == 2.9921875 { // exactly between two: away from zero, rounding permitting
			if math.Abs(math.Abs(got.Error)-1.0/128) > 1e-12 {
				t.Errorf("between two 64ths: error %v", got.Error)
			}
			continue
		}
		if got.String() != tt.want || math.Abs(got.Error-tt.err) > 1e-12 {
			t.Errorf("%v in: %s, error %v; want %s, %v", tt.in, got, got.Error, tt.want, tt.err)
		}
	}
	for mm := 0.0; mm < 1000; mm += 0.37 {
		s := Nearest64th(mm)
		v := float64(s.Whole) + float64(s.Num)/float64(s.Den)
		if math.Abs(s.Error) > 1.0/128+1e-12 || math.Abs(v-s.Error-mm/25.4) > 1e-12 {
			t.Fatalf("%g mm: %+v", mm, s)
		}
	}
}

// dump writes a sheet as text, for review.
func dump(s render.Sheet) []byte {
	var b bytes.Buffer
	p := func(q geom.Point) string { return fixed(q.X, 4) + "," + fixed(q.Y, 4) }
	fmt.Fprintf(&b, "%s: %s\n", s.ID, s.Title)
	for _, g := range s.Groups {
		fmt.Fprintf(&b, "\n[%s] %s\n", g.ID, g.Title)
		for _, sh := range g.Shapes {
			fmt.Fprintf(&b, "%s, kind %d, layer %s: %q", sh.ID, sh.Kind, sh.Layer, sh.Title)
			for _, v := range sh.Path.Vertices() {
				b.WriteString(" " + p(v))
			}
			b.WriteByte('\n')
		}
		for _, x := range g.Texts {
			fmt.Fprintf(&b, "text %q at %s, height %g, anchor %d\n", x.S, p(x.At), x.Size, x.Anchor)
		}
	}
	b.WriteByte('\n')
	for _, h := range s.Holes {
		fmt.Fprintf(&b, "hole %s at %s: %s\n", h.ID, p(h.At), h.Text)
	}
	for _, d := range s.Dims {
		fmt.Fprintf(&b, "dim %s to %s: %s\n", p(d.A), p(d.B), d.Text)
	}
	for _, f := range s.Block {
		fmt.Fprintf(&b, "%s: %s\n", f.Name, f.Value)
	}
	for _, n := range s.Notes {
		fmt.Fprintf(&b, "- %s\n", n)
	}
	return b.Bytes()
}

func TestGoldenSheets(t *testing.T) {
	for name, s := range map[string]Spec{"plain": plain(), "fanned": fanned()} {
		b, err := New(s)
		if err != nil {
			t.Fatal(err)
		}
		golden(t, name+"_sheet.txt", dump(Sheet(b, SheetOptions{Markers: CommonMarker, Assumed: []string{"kerf 0.58 mm"}})))
		golden(t, name+"_table_sheet.txt", dump(TableSheet(b, SheetOptions{})))
	}
}

// Every line says in words what it is, names are unique, letters are readable,
// and no two numbers on one side lie on each other.
func TestSheetIsReadable(t *testing.T) {
	many := Common(330, 24, 4) // narrow slots
	wide := Common(648, 60, 6)
	wide.Tuning, wide.Frets = equal(t, 31), 60
	for _, s := range []Spec{plain(), fanned(), many, wide} {
		for _, u := range []Unit{MM, Inch} {
			b, err := New(s)
			if err != nil {
				t.Fatal(err)
			}
			sheet := Sheet(b, SheetOptions{Unit: u})
			ids := map[string]bool{}
			var boxes []geom.Box
			for _, g := range sheet.Groups {
				for _, sh := range g.Shapes {
					if sh.Title == "" || ids[sh.ID] {
						t.Errorf("%s: title %q, name used twice: %t", sh.ID, sh.Title, ids[sh.ID])
					}
					ids[sh.ID] = true
				}
				for _, x := range g.Texts {
					if x.Size < letterLeast {
						t.Errorf("%q is %g mm high", x.S, x.Size)
					}
					w := float64(len(x.S)) * x.Size * widthPerHeight
					box := geom.BoxOf(x.At, geom.Pt(x.At.X+w, x.At.Y+x.Size))
					if x.Anchor == render.End {
						box = geom.BoxOf(geom.Pt(x.At.X-w, x.At.Y), geom.Pt(x.At.X, x.At.Y+x.Size))
					}
					for _, o := range boxes {
						if x.Anchor != render.Middle && o.Overlaps(box) {
							t.Errorf("scale %g, %d frets: %q lies on another number", s.Scale, s.Frets, x.S)
						}
					}
					boxes = append(boxes, box)
				}
			}
			if len(b.Slots) > 0 && !ids["slot-1"] {
				t.Error("no slot 1 on the sheet")
			}
		}
	}
}

func TestMarkers(t *testing.T) {
	s := Common(648, 24, 6)
	b, err := New(s)
	if err != nil {
		t.Fatal(err)
	}
	count := map[int]int{}
	for _, m := range b.Markers(0) {
		count[m.Fret]++
		mid := (b.across(float64(m.Fret)).A.Y + b.across(float64(m.Fret-1)).A.Y) / 2
		if math.Abs(m.At.Y-mid) > 1e-9 || m.Diameter != 6 {
			t.Errorf("marker %+v, want it at height %g", m, mid)
		}
	}
	// Common practice: 3 5 7 9 12 15 17 19 21 24, two at the octaves.
	want := map[int]int{3: 1, 5: 1, 7: 1, 9: 1, 12: 2, 15: 1, 17: 1, 19: 1, 21: 1, 24: 2}
	if d := cmp.Diff(want, count); d != "" {
		t.Error(d)
	}
	s.Tuning, s.Frets = equal(t, 19), 38
	if b, err = New(s); err != nil {
		t.Fatal(err)
	}
	if m := b.Markers(7); len(m) != 4 || m[0].Fret != 19 || m[3].Fret != 38 || m[0].Diameter != 7 {
		t.Errorf("19 steps: %+v, want the two octaves only", m)
	}
}
