package job

import (
	"io"
	"math"
	"os"
	"strings"
	"testing"

	"routwright/templates/design"
)

// solve reads and solves a design that names nothing but what is given.
func solve(t *testing.T, body string) (*Job, error) {
	t.Helper()
	d, err := design.Parse("g.toml", []byte("design = 1\n"+body))
	if err != nil {
		t.Fatal(err)
	}
	return Solve(d, func(string) (io.ReadCloser, error) { return nil, os.ErrNotExist })
}

// assumed returns the value recorded for a key, or "".
func assumed(j *Job, key string) string {
	for _, a := range j.Assumed {
		if a.Key == key {
			return a.Value
		}
	}
	return ""
}

// Tension of a plain steel string: T = μ·(2·L·f)², μ = ρ·π·d²/4, OpenStax,
// University Physics 1, section 16.3; 0.010 in at E4 on 647.7 mm: 72.524 N.
func TestStringsOfADesign(t *testing.T) {
	j, err := solve(t, `[strings]
scale = 647.7
gauges = ["0.010 in", "0.013 in", "0.017 in", 0.66, 0.91, 1.17]
pitches = ["E4", "B3", "G3", "D3", 110, "E2"]
wound = 3
cores = [0, 0, 0, 0.33, 0.38, 0.42]
action = {fret_12 = 1.7, nut = 0.4}
`)
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []float64{72.5240051450, 68.7875996448, 74.1028018842} { // computed with ρ = 7850 kg/m³
		if got := j.Strings[i].Tension; math.Abs(got/want-1) > 1e-9 {
			t.Errorf("string %d: %.9g N, want %.9g", i+1, got, want)
		}
	}
	if len(j.Compensation) != 6 {
		t.Fatalf("compensation %v", j.Compensation)
	}
	for i, c := range j.Compensation {
		if c != j.Strings[5-i].Saddle {
			t.Errorf("compensation runs from bass to treble: %v", j.Compensation)
		}
		if c < 0.5 || c > 6 { // range check, common practice
			t.Errorf("saddle %d lies %g mm behind the scale", i, c)
		}
	}
	for _, k := range []string{"strings.gauges", "strings.pitches", "strings.action.nut", "strings.action.fret_12"} {
		if v := assumed(j, k); v != "" && !strings.Contains(v, "metre") {
			t.Errorf("%s was given, but is listed as assumed: %s", k, v)
		}
	}
}

func TestStringsAssumed(t *testing.T) {
	j, err := solve(t, "[strings]\nscale = 648\n")
	if err != nil {
		t.Fatal(err)
	}
	if len(j.Strings) != 6 || assumed(j, "strings.gauges") == "" || assumed(j, "strings.pitches") != "[E4 B3 G3 D3 A2 E2]" {
		t.Errorf("%d strings, %v", len(j.Strings), j.Assumed)
	}
	// No usual set of seven; gauges alone may serve the spacing.
	for _, body := range []string{"count = 7\n", "count = 6\n[fretboard]\nnut_width = 44", "count = 4\ngauges = [1, 1.5, 2, 2.5]\n"} {
		j, err := solve(t, "[strings]\nscale = 648\n"+body)
		if err != nil || (len(j.Strings) == 0) != !strings.Contains(body, "= 6") {
			t.Errorf("%q: %v %v", body, j, err)
		}
	}
}

func TestBadStrings(t *testing.T) {
	for body, want := range map[string]string{
		"gauges = [0.25, 0.33]": "g.toml:3:10: strings.gauges: 2 values for 6 strings",
		"pitches = [\"E4\"]":    "g.toml:3:11: strings.pitches: 1 values for 6 strings",
		"wound = 7":             "g.toml:3:9: strings.wound: 7 of 6 strings",
		"gauges = [0.25, 0.33, 0.43, 0.66, 0.91, 1.17]\ncores = [0.2, 0, 0, 0, 0, 0]\nwound = 3": "string 1 has a core of 0.2 mm but is plain",
		"gauges = [0.25, 0.33, 0.43, 0.66, 0.91, 1.17]\ncores = [0, 0, 0, 0, 0, 2]":              "core 2 mm: it cannot be thicker",
	} {
		if _, err := solve(t, "[strings]\n"+body); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v, want %s", body, err, want)
		}
	}
}
