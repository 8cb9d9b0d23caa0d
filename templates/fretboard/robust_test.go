package fretboard

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// wild draws a number that a person or a fault might hand in.
func wild(t *rapid.T, name string, usual float64) float64 {
	switch rapid.IntRange(0, 100).Draw(t, name+" kind") { // rapid favours small draws
	case 100:
		return rapid.SampledFrom([]float64{0, -1, 1e-9, 1e9, 1e308, math.NaN(), math.Inf(1), math.Inf(-1), 5e-324}).Draw(t, name)
	case 99:
		return rapid.Float64().Draw(t, name)
	}
	return usual * rapid.Float64Range(0.8, 1.2).Draw(t, name)
}

// Whatever is handed in, New returns Problems or a sound board; nothing panics,
// and no table holds a number that is none.
func TestWildSpecs(t *testing.T) {
	made := 0
	rapid.Check(t, func(t *rapid.T) {
		w := func(name string, usual float64) float64 { return wild(t, name, usual) }
		n := rapid.SampledFrom([]int{6, 4, 7, 8, 12, 5, 2, 1, 0, -1, 15}).Draw(t, "count")
		s := Common(w("scale", 648), rapid.SampledFrom([]int{22, 24, 12, 1, 30, 60, 0, -1}).Draw(t, "frets"), max(n, 2))
		s.Strings.Count = n
		if rapid.Bool().Draw(t, "fan") {
			s.Fan = &Fan{w("bass", 700), w("treble", 620), w("square", 7)}
		}
		s.Strings.Nut, s.Strings.Bridge = w("nut", 40), w("bridge", 55)
		if rapid.Bool().Draw(t, "gaps") {
			s.Strings.EqualGaps = true
			for i := 0; i < n; i++ {
				s.Strings.Gauges = append(s.Strings.Gauges, w("gauge", 0.5))
			}
		}
		s.Edges = Edges{w("a", 3), w("b", 3), w("c", 3), w("d", 3), 0, 0}
		if rapid.Bool().Draw(t, "widths") {
			s.Edges = Edges{NutWidth: w("nutwidth", 60), EndWidth: w("endwidth", 80)}
		}
		s.ZeroFret = rapid.Bool().Draw(t, "zero")
		s.Nut = Nut{w("slot", 3), 0, w("shelf", 2)}
		if s.ZeroFret {
			s.Nut.Behind = w("behind", 5)
		}
		s.End = End{w("overhang", 6), rapid.SampledFrom([]float64{0, 0, 0, 0, 200, 200, math.NaN(), 1}).Draw(t, "end radius")}
		s.Slot = Saw{w("kerf", 0.58), w("depth", 2), rapid.SampledFrom([]float64{0, 0, 0, 1.5, 1.5, 19, math.NaN()}).Draw(t, "binding")}
		s.Radius = Radius{w("r1", 250), w("r2", 300)}
		if rapid.Bool().Draw(t, "partial") {
			s.Partials = []Partial{{w("partial", 5), rapid.SampledFrom([]int{1, 1, 2, 3, 0}).Draw(t, "from"), rapid.SampledFrom([]int{3, 3, 2, 9}).Draw(t, "to")}}
		}
		s.Extra = Extra{rapid.SampledFrom([]int{0, 0, 0, 1, 2, -1}).Draw(t, "extra"), rapid.SampledFrom([]int{1, 1, 2, 3, 9}).Draw(t, "extra strings"), rapid.Bool().Draw(t, "extra bass")}
		b, err := New(s)
		if err != nil {
			var ps Problems
			if b != nil || !errors.As(err, &ps) || len(ps) == 0 {
				t.Fatalf("%v, %v", b, err)
			}
			return
		}
		made++
		if err := b.Outline.Check(); err != nil || !(b.Outline.Area() > 0) {
			t.Fatalf("outline: %v, area %v", err, b.Outline.Area())
		}
		var buf bytes.Buffer
		for _, write := range []func(io.Writer) error{
			func(w io.Writer) error { return b.WriteCSV(w, MM) },
			func(w io.Writer) error { return b.WriteText(w, Inch) },
			func(w io.Writer) error { return b.WriteDepths(w, MM) },
			b.WriteJSON,
			func(w io.Writer) error {
				_, err := w.Write(dump(Sheet(b, SheetOptions{Markers: CommonMarker})))
				return err
			},
			func(w io.Writer) error { _, err := fmt.Fprintln(w, b.EdgeGaps(), b.SlotErrors()); return err },
		} {
			if err := write(&buf); err != nil {
				t.Fatal(err)
			}
		}
		if s := buf.String(); strings.Contains(s, "NaN") || strings.Contains(s, "+Inf") || strings.Contains(s, "-Inf") {
			t.Fatalf("a number that is none in\n%s", s)
		}
	})
	t.Logf("%d sound boards", made)
}

// Check 32 by hand: margins the same at both ends, so the edge runs beside the
// string and the gap is the margin square to the edge, less half the string.
func TestEdgeGaps(t *testing.T) {
	s := Common(648, 22, 6)
	s.Strings.Gauges = []float64{0.25, 0.33, 0.43, 0.66, 0.91, 1.17}
	b, err := New(s)
	if err != nil {
		t.Fatal(err)
	}
	gaps := b.EdgeGaps()
	if len(gaps) != 2*23 {
		t.Fatalf("%d gaps", len(gaps))
	}
	cos := 648 / math.Hypot(648, 8) // the outer strings spread by 8 mm each
	for _, g := range gaps {
		want := 3.25*cos - 0.25/2
		if g.String == 6 {
			want = 3.25*cos - 1.17/2
		}
		if math.Abs(g.MM-want) > 1e-9 {
			t.Errorf("fret %g, string %d: %.9f, want %.9f", g.Fret, g.String, g.MM, want)
		}
	}
}

// Strings fitted to widths: the margin at both ends of the board, and so, edges
// and strings being straight, everywhere.
func TestFitStrings(t *testing.T) {
	for _, w := range [][2]float64{{43, 56}, {34, 45}, {43, 43}, {60, 80}} {
		s := Common(648, 22, 6)
		s.Edges = Edges{NutWidth: w[0], EndWidth: w[1]}
		s.FitStrings()
		b, err := New(s)
		if err != nil {
			t.Errorf("%v: %v", w, err)
			continue
		}
		for _, g := range b.EdgeGaps() {
			cos := math.Cos(math.Atan2(w[1]-w[0], 2*(648-b.Outline[0].A.Y)))
			if math.Abs(g.MM-3.25*cos) > 1e-9 {
				t.Errorf("%v: fret %g, string %d: %.9f, want %.9f", w, g.Fret, g.String, g.MM, 3.25*cos)
			}
		}
	}
}

func ExampleBoard_WriteCSV() {
	b, err := New(Common(648, 3, 6))
	if err != nil {
		fmt.Println(err)
		return
	}
	var buf bytes.Buffer
	if err := b.WriteCSV(&buf, MM); err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(buf.String())
	// Output:
	// fret,from_nut,from_previous,to_bridge
	// 1,36.36945,36.36945,611.63055
	// 2,70.69763,34.32819,577.30237
	// 3,103.09912,32.40149,544.90088
}

func BenchmarkNewAndSheet(b *testing.B) {
	s := fanned()
	for b.Loop() {
		board, err := New(s)
		if err != nil {
			b.Fatal(err)
		}
		Sheet(board, SheetOptions{Markers: CommonMarker})
	}
}
