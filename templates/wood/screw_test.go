package wood

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"
)

// The shank diameters of Wood Handbook FPL-GTR-282 table 8-9, as printed.
func TestScrewDiameter(t *testing.T) {
	b, err := os.ReadFile("testdata/reference/wood_screws.csv")
	if err != nil {
		t.Fatal(err)
	}
	c := csv.NewReader(strings.NewReader(string(b)))
	c.Comment = '#'
	all, err := c.ReadAll()
	if err != nil || len(all) < 10 {
		t.Fatalf("%d rows, %v", len(all), err)
	}
	for _, r := range all[1:] {
		g, _ := strconv.Atoi(r[0])
		want, _ := strconv.ParseFloat(r[3], 64)
		if got := ScrewDiameter(g); math.Abs(got-want) > 0.01 {
			t.Errorf("gauge %d: %.3f, printed %.2f", g, got, want)
		}
	}
}

// Holes of the two charts in pilots.csv, read off by hand: gauge 4 of chart B
// 5/64 and 1/16 in, gauge 8 of chart A 7/64, of chart B 3/32 in softwood.
func TestPilot(t *testing.T) {
	for _, tt := range []struct {
		gauge   int
		density float64
		want    float64
	}{{4, 0, 2.0}, {4, 616, 2.0}, {4, 392, 1.6}, {8, 600, 2.8}, {8, 400, 2.4}, {12, 700, 4.0}, {11, 0, 2.4}} {
		got, err := Pilot(tt.gauge, tt.density)
		if err != nil || math.Abs(got-tt.want) > 1e-9 {
			t.Errorf("gauge %d at %g kg/m³: %g, want %g (%v)", tt.gauge, tt.density, got, tt.want, err)
		}
		if got >= ScrewDiameter(tt.gauge) {
			t.Errorf("gauge %d: a pilot hole of %g is no smaller than the shank", tt.gauge, got)
		}
	}
	for _, g := range []int{2, 3, 13, 14} {
		if _, err := Pilot(g, 0); err == nil {
			t.Errorf("gauge %d has a hole", g)
		}
	}
}
