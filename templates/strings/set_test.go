package strings

import (
	"encoding/json"
	"math"
	"os"
	"strings"
	"testing"
)

// Frequencies of notes: testdata/reference/string_physics.json, ISO 16.
func TestParsePitch(t *testing.T) {
	data, err := os.ReadFile("testdata/reference/string_physics.json")
	if err != nil {
		t.Fatal(err)
	}
	var ref struct {
		Notes map[string]string `json:"frequencies_A440"`
	}
	if err := json.Unmarshal(data, &ref); err != nil || len(ref.Notes) < 9 {
		t.Fatal(err, ref)
	}
	for name, hz := range ref.Notes {
		for _, s := range []string{name, strings.ToLower(name), " " + name + " "} {
			if got, err := ParsePitch(s); err != nil || !near(got, num(t, hz), 1e-13) {
				t.Errorf("%s: %.13g, %v, want %s", s, got, err, hz)
			}
		}
		if got := PitchName(num(t, hz)); got != name {
			t.Errorf("PitchName(%s) = %s, want %s", hz, got, name)
		}
	}
	for a, b := range map[string]string{"Eb4": "D#4", "C♭5": "B4", "B#3": "C4", "F♯3": "Gb3", "440": "A4", "440.0 Hz": "A4", "bb1": "A#1"} {
		p, err1 := ParsePitch(a)
		q, err2 := ParsePitch(b)
		if err1 != nil || err2 != nil || !near(p, q, 1e-13) {
			t.Errorf("%s is %g, %s is %g: %v %v", a, p, b, q, err1, err2)
		}
	}
	if got := PitchName(448); got != "A4 +31 cents" { // 1200·log2(448/440) = 31.19
		t.Errorf("448 Hz: %s", got)
	}
	for _, s := range []string{"", "H2", "E", "E#", "2E", "E2x", "-5", "E-1", "0", "1e9", "1.2.3", "E99", "E+2", "♯"} {
		if f, err := ParsePitch(s); err == nil {
			t.Errorf("%q passed as %g Hz", s, f)
		} else if strings.Contains(err.Error(), "\n") {
			t.Errorf("%q: %v", s, err)
		}
	}
}

// A layer of round wire side by side: shells of radius r are covered over a part
// of the length that is the chord of the wire's circle over its thickness.
func TestWoundMassAgainstShells(t *testing.T) {
	for _, c := range [][2]float64{{0.66, 0.33}, {0.91, 0.38}, {1.17, 0.42}, {2.6, 1.1}} {
		d, core := c[0]/1000, c[1]/1000
		w := (d - core) / 2
		const n = 200000
		var volume float64 // a metre of winding
		for i := 0; i < n; i++ {
			r := core/2 + w*(float64(i)+0.5)/n
			h := r - core/2 - w/2
			volume += 2 * math.Pi * r * 2 * math.Sqrt(w*w/4-h*h) / w * w / n
		}
		want := 8900*volume + 7850*math.Pi*core*core/4
		if got := WoundMass(c[0], c[1], 8900); !near(got, want, 1e-6) {
			t.Errorf("%v: %.9g kg/m, want %.9g", c, got, want)
		}
	}
	// A winding weighs less than the same space filled with metal, and more than
	// half of it.
	if m, solid := WoundMass(1.17, 0.42, SteelDensity), WireMass(1.17, SteelDensity); m >= solid || m < solid/2 {
		t.Errorf("%g kg/m, a solid wire %g", m, solid)
	}
}

func guitar() Set {
	s := Set{Diameters: []float64{0.25, 0.33, 0.43, 0.66, 0.91, 1.17}}
	for _, n := range []string{"E4", "B3", "G3", "D3", "A2", "E2"} {
		p, _ := ParsePitch(n)
		s.Pitches = append(s.Pitches, p)
	}
	return s
}

func TestSet(t *testing.T) {
	set, notes, err := guitar().Strings()
	if err != nil {
		t.Fatal(err)
	}
	for i, s := range set {
		if wound := s.Core > 0; wound != (i >= 3) {
			t.Errorf("string %d: %+v", i+1, s)
		}
	}
	if len(notes) != 9 { // three wound strings: that, their cores, their masses
		t.Errorf("%d notes: %v", len(notes), notes)
	}
	rows, err := Table(set, []float64{648, 648, 648, 648, 648, 648}, Setup{Frets: 22, AtNut: 0.4, Action12: 1.7})
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range rows {
		// Range checks, common practice: 50 to 120 N a string; the saddle of a
		// guitar lies 0.5 to 6 mm behind the scale.
		if r.Tension < 50 || r.Tension > 120 || r.Saddle < 0.5 || r.Saddle > 6 || !(r.Least < r.Saddle && r.Saddle < r.Most) || r.WorstWithNut >= r.Worst {
			t.Errorf("string %d: %+v", r.Number, r)
		}
		t.Logf("string %d: %.1f N, saddle %.2f (%.2f to %.2f), worst %.1f cents; with the nut %.2f and %.2f, worst %.1f", r.Number, r.Tension, r.Saddle, r.Least, r.Most, r.Worst, r.NutShift, r.SaddleWithNut, r.WorstWithNut)
	}
	three := 3
	full := guitar()
	full.Wound, full.Cores, full.Masses = &three, []float64{0, 0, 0, 0.33, 0.38, 0.42}, []float64{0, 0, 0, 0.0022, 0.004, 0.0065}
	set, notes, err = full.Strings()
	if err != nil || len(notes) != 0 || set[5] != (String{Diameter: 1.17, Core: 0.42, Mass: 0.0065, Pitch: full.Pitches[5]}) {
		t.Errorf("%+v %v %v", set, notes, err)
	}
}

func TestBadSets(t *testing.T) {
	seven := 7
	for _, tt := range []struct {
		change func(*Set)
		words  string
	}{
		{func(s *Set) { s.Pitches = s.Pitches[:5] }, "5 pitches for 6 strings"},
		{func(s *Set) { s.Cores = []float64{0.3} }, "1 cores for 6 strings"},
		{func(s *Set) { s.Wound = &seven }, "7 wound strings of 6"},
		{func(s *Set) { s.Diameters[2] = math.NaN() }, "string 3: diameter"},
		{func(s *Set) { s.Pitches[0] = 0 }, "string 1: pitch"},
		{func(s *Set) { s.Cores = []float64{0, 0, 0, 0, 0, 2} }, "string 6"},
		{func(s *Set) { s.Wound, s.Cores = new(int), []float64{0.2, 0, 0, 0, 0, 0} }, "string 1 has a core"},
	} {
		s := guitar()
		tt.change(&s)
		if _, _, err := s.Strings(); err == nil || !strings.Contains(err.Error(), tt.words) {
			t.Errorf("%v, want %q", err, tt.words)
		}
	}
}
