package fretboard

import (
	"bufio"
	"encoding/csv"
	"encoding/json"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"routwright/geom"
)

// reference reads a table of check values; its sources stand in its # lines.
// Every row is a map from column name to value.
func reference(t *testing.T, name string) []map[string]string {
	t.Helper()
	f, err := os.Open("testdata/reference/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(bufio.NewReader(f))
	r.Comment = '#'
	r.FieldsPerRecord = -1
	recs, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var rows []map[string]string
	for _, rec := range recs[1:] {
		m := map[string]string{}
		for i, h := range recs[0] {
			if i < len(rec) {
				m[h] = rec[i]
			}
		}
		rows = append(rows, m)
	}
	if len(rows) < 5 {
		t.Fatalf("%s: only %d rows", name, len(rows))
	}
	return rows
}

func num(t *testing.T, s string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// near reports whether got is want within rel relative, or 1e-12 near nothing.
func near(got, want, rel float64) bool {
	return math.Abs(got-want) <= math.Max(rel*math.Abs(want), 1e-12)
}

// Twelve equal steps, every row and every scale of the table.
func TestTwelveEqualSteps(t *testing.T) {
	var tw Temperament // the zero value
	for _, row := range reference(t, "temperament_12edo.csv") {
		n := int(num(t, row["n"]))
		if got, want := tw.Fraction(float64(n)), num(t, row["fraction_from_nut"]); !near(got, want, 1e-14) {
			t.Errorf("Fraction(%d) = %.17g, want %.17g", n, got, want)
		}
		for col, v := range row {
			if s, ok := strings.CutPrefix(col, "d_"); ok {
				if got, want := tw.Position(num(t, s), n), num(t, v); !near(got, want, 1e-11) {
					t.Errorf("Position(%s, %d) = %.14g, want %.14g", s, n, got, want)
				}
			}
		}
	}
	if got := tw.Fraction(12); got != 0.5 {
		t.Errorf("octave at %v of the string, want exactly 1/2", got)
	}
	if got := tw.Fraction(24); got != 0.75 {
		t.Errorf("two octaves at %v of the string, want exactly 3/4", got)
	}
}

func TestOtherEqualSteps(t *testing.T) {
	for _, row := range reference(t, "edo_other.csv") {
		te := equal(t, int(num(t, row["N"])))
		n := num(t, row["n"])
		if got, want := te.Fraction(n), num(t, row["fraction_from_nut"]); !near(got, want, 1e-13) {
			t.Errorf("%s of %s: %.17g, want %.17g", row["n"], row["N"], got, want)
		}
		if got, want := te.Cents(n), num(t, row["cents"]); !near(got, want, 1e-11) {
			t.Errorf("%s of %s: %.17g cents, want %.17g", row["n"], row["N"], got, want)
		}
	}
}

// Just and meantone intervals, as ratios, as cents and as a file. Each interval
// is a list of its own, so that the order of the table does not matter.
func TestJustAndMeantone(t *testing.T) {
	for _, row := range reference(t, "just_meantone.csv") {
		ratio, cents, want := num(t, row["ratio"]), num(t, row["cents"]), num(t, row["fraction_from_nut"])
		if ratio == 1 {
			continue
		}
		a, err := Ratios([]float64{ratio})
		if err != nil {
			t.Fatal(err)
		}
		c, err := Cents([]float64{cents})
		if err != nil {
			t.Fatal(err)
		}
		words := strconv.FormatFloat(cents, 'f', 13, 64)
		if p, q, ok := strings.Cut(row["exact"], "/"); ok && strings.Trim(p+q, "0123456789") == "" {
			words = row["exact"]
		}
		f, err := ReadTuning(strings.NewReader("# " + row["interval"] + "\n\n " + words + " # one\n"))
		if err != nil {
			t.Fatal(err)
		}
		for i, te := range []Temperament{a, c, f} {
			if got := te.Fraction(1); !near(got, want, 1e-9) {
				t.Errorf("%s, way %d: %.17g, want %.17g", row["interval"], i, got, want)
			}
			// The octave closes the list and the list repeats above it.
			n := te.Steps()
			if got, want := te.Fraction(float64(n+1)), 1-(1-want)/2; !near(got, want, 1e-9) {
				t.Errorf("%s an octave up, way %d: %.17g, want %.17g", row["interval"], i, got, want)
			}
			if te.Fraction(float64(n)) != 0.5 {
				t.Errorf("%s: octave at %v", row["interval"], te.Fraction(float64(n)))
			}
		}
	}
}

// The classical rule of eighteen is a list of equal ratios 18/17; its known
// error against twelve equal steps must come out, so that the two can never be
// taken for each other.
func TestRuleOfEighteen(t *testing.T) {
	var list []float64
	for i := 1; i <= 12; i++ {
		list = append(list, math.Pow(18.0/17, float64(i)))
	}
	rule, err := Ratios(list)
	if err != nil {
		t.Fatal(err)
	}
	checked := 0
	for _, row := range reference(t, "temperament_rules.csv") {
		n := num(t, row["n"])
		if n > 12 {
			continue
		}
		checked++
		got := rule.Fraction(n)
		if want := num(t, row["eighteen_fraction"]); !near(got, want, 1e-12) {
			t.Errorf("rule of eighteen, fret %g: %.15g, want %.15g", n, got, want)
		}
		// err_mm is printed to nine significant digits.
		e, want := 647.7*(got-Temperament{}.Fraction(n)), num(t, row["eighteen_err_mm_L647.7"])
		if math.Abs(e-want) > 1e-8 {
			t.Errorf("rule of eighteen, fret %g: off by %.9f mm, want %.9f", n, e, want)
		}
		if n == 12 && math.Abs(e+2.355) > 0.001 {
			t.Errorf("rule of eighteen at the octave: %.4f mm, want −2.355", e)
		}
	}
	if checked < 13 {
		t.Errorf("only %d rows checked", checked)
	}
}

// multiscale is the part of multiscale_frets.json that the tests use.
type multiscale struct {
	Parallel struct {
		Bass   string  `json:"L_bass_mm"`
		Treble string  `json:"L_treble_mm"`
		Square float64 `json:"perpendicular_fret"`
		Rows   []struct {
			Fret  float64
			XBass string `json:"x_bass"`
			XTreb string `json:"x_treble"`
			Skew  string `json:"skew_bass_minus_treble"`
		}
		Saddle struct {
			XBass string `json:"x_bass"`
			XTreb string `json:"x_treble"`
		}
	} `json:"case_parallel_strings"`
	Two struct {
		NutBass, NutTreble, SaddleBass, SaddleTreble [2]string
		Rows                                         []struct {
			Fret   float64
			Bass   [2]string `json:"bass_end"`
			Treble [2]string `json:"treble_end"`
			Mid    [2]string `json:"midline_point"`
			Angle  string    `json:"angle_from_perpendicular_deg"`
		}
	} `json:"case_two_dimensional"`
}

func readMultiscale(t *testing.T) multiscale {
	t.Helper()
	data, err := os.ReadFile("testdata/reference/multiscale_frets.json")
	if err != nil {
		t.Fatal(err)
	}
	var m multiscale
	if err := json.Unmarshal(data, &m); err != nil {
		t.Fatal(err)
	}
	if len(m.Parallel.Rows) < 5 || len(m.Two.Rows) < 5 {
		t.Fatal("multiscale_frets.json: rows missing")
	}
	return m
}

// Parallel strings, fret 7 square. The reference counts towards the saddle from
// the square fret; ours counts +Y to the nut from the bridge.
func TestFanParallelStrings(t *testing.T) {
	m := readMultiscale(t).Parallel
	s := Common(0, 24, 6)
	s.Fan = &Fan{Bass: num(t, m.Bass), Treble: num(t, m.Treble), Square: m.Square}
	s.Strings.Nut, s.Strings.Bridge = 50, 50
	s.ZeroFret = true
	b, err := New(s)
	if err != nil {
		t.Fatal(err)
	}
	zero := b.across(m.Square).A.Y
	if got, want := zero-b.Bass().Saddle.Y, num(t, m.Saddle.XBass); !near(got, want, 1e-12) {
		t.Errorf("bass saddle %.12f, want %.12f", got, want)
	}
	for _, r := range m.Rows {
		l := b.across(r.Fret)
		if got, want := zero-l.A.Y, num(t, r.XBass); math.Abs(got-want) > 1e-9*math.Max(1, math.Abs(want)) {
			t.Errorf("fret %g bass: %.12f, want %.12f", r.Fret, got, want)
		}
		if got, want := zero-l.B.Y, num(t, r.XTreb); math.Abs(got-want) > 1e-9*math.Max(1, math.Abs(want)) {
			t.Errorf("fret %g treble: %.12f, want %.12f", r.Fret, got, want)
		}
		// Positive when the treble end lies nearer the bridge: at fret 0 the
		// treble end does (skew −12.67 in the reference).
		slot := b.Slots[int(r.Fret)]
		if got, want := slot.Angle.Degrees(), math.Atan2(-num(t, r.Skew), 50)*180/math.Pi; math.Abs(got-want) > 1e-9 {
			t.Errorf("fret %g: angle %.9f, want %.9f", r.Fret, got, want)
		}
	}
}

// Strings that spread, nut line not square: the reference gives nut and saddle
// points outright, so the strings are set to them and the slots compared.
func TestFanTwoDimensional(t *testing.T) {
	m := readMultiscale(t).Two
	raw, _ := os.ReadFile("testdata/reference/multiscale_frets.json")
	var pts struct {
		Two map[string]any `json:"case_two_dimensional"`
	}
	if err := json.Unmarshal(raw, &pts); err != nil {
		t.Fatal(err)
	}
	pt := func(a [2]string) geom.Point { // their x runs to the saddle, y to the treble side
		return geom.Pt(num(t, a[1]), -num(t, a[0]))
	}
	at := func(key string) geom.Point {
		v := pts.Two[key].([]any)
		return pt([2]string{v[0].(string), v[1].(string)})
	}
	bass := StringLine{Nut: at("nut_bass"), Saddle: at("saddle_bass")}
	treble := StringLine{Nut: at("nut_treble"), Saddle: at("saddle_treble")}
	b := &Board{Spec: Spec{Fan: &Fan{}}, ref: [2]StringLine{bass, treble}}
	for _, r := range m.Rows {
		l := b.across(r.Fret)
		for _, c := range []struct {
			got  geom.Point
			want geom.Point
		}{{l.A, pt(r.Bass)}, {l.B, pt(r.Treble)}} {
			if c.got.Dist(c.want) > 1e-9*math.Hypot(c.want.X, c.want.Y) {
				t.Errorf("fret %g: %v, want %v", r.Fret, c.got, c.want)
			}
		}
		d := l.B.Sub(l.A)
		// The reference's angle has the sign of ours.
		if got, want := math.Atan2(-d.Y, d.X)*180/math.Pi, num(t, r.Angle); math.Abs(got-want) > 1e-9 {
			t.Errorf("fret %g: angle %.10f, want %.10f", r.Fret, got, want)
		}
	}
	// The same board through New: the scales are these strings' lengths, and the
	// square fret is where the two reach the same height.
	lb, lt := bass.Nut.Dist(bass.Saddle), treble.Nut.Dist(treble.Saddle)
	rise := func(x float64) float64 { d := b.across(x); return d.A.Y - d.B.Y }
	lo, hi := 12.0, 24.0
	for i := 0; i < 80; i++ {
		if mid := (lo + hi) / 2; rise(lo)*rise(mid) <= 0 {
			hi = mid
		} else {
			lo = mid
		}
	}
	s := Common(0, 24, 6)
	s.Fan = &Fan{Bass: lb, Treble: lt, Square: lo}
	s.Strings.Nut, s.Strings.Bridge = 36, 52
	s.ZeroFret = true
	whole, err := New(s)
	if err != nil {
		t.Fatal(err)
	}
	off := whole.Bass().Nut.Sub(bass.Nut)
	for _, r := range m.Rows {
		l := whole.across(r.Fret)
		if d := math.Max(l.A.Dist(pt(r.Bass).Add(off)), l.B.Dist(pt(r.Treble).Add(off))); d > 1e-8 {
			t.Errorf("fret %g through New: %.3g mm from the reference", r.Fret, d)
		}
	}
}

// equal is Equal for a number that is known to be right.
func equal(t *testing.T, n int) Temperament {
	t.Helper()
	te, err := Equal(n)
	if err != nil {
		t.Fatal(err)
	}
	return te
}
