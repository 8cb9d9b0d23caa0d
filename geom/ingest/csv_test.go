package ingest

import (
	"errors"
	"fmt"
	"math"
	"math/rand"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// TestCSVDialects writes the same triangle in many ways.
func TestCSVDialects(t *testing.T) {
	mmOpt, inch := Options{Unit: MM}, Options{Unit: Inch}
	for _, tt := range []struct {
		name, text string
		opt        Options
	}{
		{"commas", "0,0\n254,0\n0,127\n", mmOpt},
		{"header", "x,y\n0,0\n254,0\n0,127\n", mmOpt},
		{"header turned round, with units", "Y [mm],X [mm]\n0,0\n0,254\n127,0\n", Options{}},
		{"header in inches", "x_in,y_in\n0,0\n10,0\n0,5\n", mmOpt},
		{"header overruled", "x (in),y (in)\n0,0\n254,0\n0,127\n", Options{Unit: 1, UnitRules: true}},
		{"further columns", "n,x,y,remark\n1,0,0,tail\n2,254,0,\n3,0,127,\"a, b\"\n", mmOpt},
		{"inches", "0,0\n10,0\n0,5\n", inch},
		{"fractions of an inch", "0,0\n9 16/16,0\n0,4-8/8\n", inch},
		{"semicolons and decimal commas", "0,0;0\n254,0;0,0\n0;127,0\n", mmOpt},
		{"tabs", "0\t0\n254\t0\n0\t127\n", mmOpt},
		{"spaces", "  0 0\n254   0\n 0 127\n", mmOpt},
		{"CR LF, comments, blank lines, spaces", "# traced\r\n\r\n0, 0\r\n254, 0\r\n0, 127\r\n", mmOpt},
		{"closed by repeating", "0,0\n254,0\n0,127\n0,0\n", mmOpt},
		{"points given twice", "0,0\n0,0\n254,0\n254,0\n0,127\n", mmOpt},
		{"trailing separators", "0,0,\n254,0,\n0,127,\n", mmOpt},
	} {
		t.Run(tt.name, func(t *testing.T) {
			r, err := CSV("t.csv", strings.NewReader(tt.text), tt.opt)
			if err != nil {
				t.Fatal(err)
			}
			p, err := Outline(r, tt.opt)
			if err != nil {
				t.Fatal(err)
			}
			near(t, "area", p.Area(), 254*127/2, 1e-6)
		})
	}
}

// TestTrace follows a circle traced with noise: few arcs, the true area.
func TestTrace(t *testing.T) {
	r := rand.New(rand.NewSource(1))
	var b strings.Builder
	for i := range 2000 {
		s, c := math.Sincos(float64(i) * math.Pi / 1000)
		rad := 100 + 0.02*(2*r.Float64()-1)
		fmt.Fprintf(&b, "%.4f,%.4f\n", rad*c, rad*s)
	}
	opt := Options{Unit: MM, Trace: 0.05}
	res, err := CSV("t.csv", strings.NewReader(b.String()), opt)
	if err != nil {
		t.Fatal(err)
	}
	p, err := Outline(res, opt)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "area", p.Area(), math.Pi*1e4, 0.01*2*math.Pi*100)
	if len(p) > 60 {
		t.Errorf("%d lines and arcs for a circle", len(p))
	}
}

func TestHalfWidths(t *testing.T) {
	r := strings.NewReader("y (in); bass; treble\n0;0;0\n1;4 1/2;4,5\n2;0;0\n")
	got, err := HalfWidths("r.csv", r, Options{Unit: Inch})
	if err != nil {
		t.Fatal(err)
	}
	want := []HalfWidth{{0, 0, 0, 2}, {25.4, 114.3, 114.3, 3}, {50.8, 0, 0, 4}}
	if d := cmp.Diff(want, got); d != "" {
		t.Error(d)
	}
	got, err = HalfWidths("r.csv", strings.NewReader("0,0\n10,40\n20,0\n"), Options{Unit: MM})
	if err != nil || got[1].Bass != 40 || got[1].Treble != 40 {
		t.Errorf("symmetric: %v, %v", got, err)
	}
	rows := func(name string) []HalfWidth {
		t.Helper()
		h, err := HalfWidths(name, open(t, name), Options{})
		if err != nil {
			t.Fatal(err)
		}
		return h
	}("ruler.csv")
	if n := len(rows); n != 24 || rows[0].Y != 0 || rows[n-1].Y != 380 || rows[9].Treble != 143 {
		t.Errorf("ruler.csv: %d rows, %v", n, rows)
	}
	if _, err := CSV("ruler.csv", open(t, "ruler.csv"), Options{}); !errors.Is(err, ErrRuler) {
		t.Errorf("%v is not ErrRuler", err)
	}
	for _, tt := range []struct{ text, want string }{
		{"0,0,0\n10,-4,5\n20,0,0\n", "r.csv:2: a half width is -4 mm"},
		{"0,0,0\n10,4,5\n10,0,0\n", "r.csv:3: y is 10 mm again (line 2)"},
		{"0,0,0\n10,4,5\n5,0,0\n", "r.csv:3: y turns back at 5 mm"},
		{"0,0,0\n10,4,5\n", "2 readings"},
		{"y,left,right\n0,0,0\n", "must name y, bass, treble or y, half"},
		{"0,0,0\n10,4\n20,0,0\n", "column treble is missing"},
	} {
		_, err := HalfWidths("r.csv", strings.NewReader(tt.text), Options{Unit: MM})
		if err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%q: %v, want %q", tt.text, err, tt.want)
		}
	}
}
