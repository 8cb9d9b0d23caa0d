package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// runFretsIn runs the frets command in an empty folder and returns its folder
// and standard output.
func runFretsIn(t *testing.T, args ...string) (string, []byte) {
	t.Helper()
	dir := t.TempDir()
	for i, a := range args {
		if strings.HasPrefix(a, "@") {
			args[i] = filepath.Join(dir, a[1:])
		}
	}
	var out, errs bytes.Buffer
	if code := run(append([]string{"routwright", "frets"}, args...), &out, &errs); code != 0 {
		t.Fatalf("exit code %d: %s", code, errs.String())
	}
	return dir, out.Bytes()
}

// line is the two ends of a drawn line.
type line [4]float64

// svgLines reads the straight lines of an SVG by the id of their group.
func svgLines(t *testing.T, file string) map[string]line {
	t.Helper()
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]line{}
	for _, m := range regexp.MustCompile(`(?s)<g id="([^"]+)" >\s*<title>[^<]*</title>\s*<path d="M([-\d.]+) ([-\d.]+)L([-\d.]+) ([-\d.]+)"`).FindAllStringSubmatch(string(data), -1) {
		var l line
		for i := range l {
			l[i], _ = strconv.ParseFloat(m[i+2], 64)
		}
		out[m[1]] = l
	}
	return out
}

// dxfSlots reads the two-point polylines on layer SLOT, in their order.
func dxfSlots(t *testing.T, file string) []line {
	t.Helper()
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	tags := strings.Split(strings.ReplaceAll(string(data), "\r\n", "\n"), "\n")
	var out []line
	layer := ""
	var v []float64
	flush := func() {
		if layer == "SLOT" && len(v) == 4 {
			out = append(out, line{v[0], v[1], v[2], v[3]})
		}
		layer, v = "", nil
	}
	polyline := false
	for i := 0; i+1 < len(tags); i += 2 {
		code, value := strings.TrimSpace(tags[i]), strings.TrimSpace(tags[i+1])
		switch {
		case code == "0":
			flush()
			polyline = value == "LWPOLYLINE"
		case polyline && code == "8":
			layer = value
		case polyline && (code == "10" || code == "20"):
			x, _ := strconv.ParseFloat(value, 64)
			v = append(v, x)
		}
	}
	flush()
	return out
}

// The files that are printed and cut hold the slots where the formula puts them,
// within half of their last decimals: SVG 4, DXF 6.
func TestDrawnSlotsLieWhereTheFormulaSays(t *testing.T) {
	dir, _ := runFretsIn(t, "--scale", "648", "--frets", "22", "--svg", "@a.svg", "--dxf", "@a.dxf")
	svg, dxf := svgLines(t, filepath.Join(dir, "a.svg")), dxfSlots(t, filepath.Join(dir, "a.dxf"))
	if len(dxf) != 22 {
		t.Fatalf("%d slots in the DXF, want 22", len(dxf))
	}
	nut, ok := svg["nut-line"]
	if !ok {
		t.Fatal("no nut line in the SVG")
	}
	for n := 1; n <= 22; n++ {
		want := 648 * (1 - math.Pow(2, -float64(n)/12))
		s, ok := svg[fmt.Sprintf("slot-%d", n)]
		if !ok {
			t.Fatalf("no slot %d in the SVG", n)
		}
		for _, y := range []float64{s[1], s[3]} { // down the sheet from the nut; two roundings
			if got := y - nut[1]; math.Abs(got-want) > 1.001e-4 {
				t.Errorf("SVG, slot %d: %.4f from the nut, want %.5f", n, got, want)
			}
		}
		for _, y := range []float64{dxf[n-1][1], dxf[n-1][3]} { // up from the bridge line
			if got := 648 - y; math.Abs(got-want) > 0.5001e-6 {
				t.Errorf("DXF, slot %d: %.6f from the nut, want %.8f", n, got, want)
			}
		}
	}
}

// The DXF of a fan holds the ends that the JSON says, and the JSON's ends lie on
// the lines through the formula's points on the outer strings.
func TestDrawnFan(t *testing.T) {
	args := []string{"--bass", "686", "--treble", "648", "--square", "7", "--frets", "24", "--nut-spread", "40", "--bridge-spread", "60"}
	dir, _ := runFretsIn(t, append(args, "--dxf", "@a.dxf")...)
	_, out := runFretsIn(t, append(args, "--json")...)
	var doc struct {
		Slots []struct {
			Fret           int     `json:"fret"`
			Bass           float64 `json:"bass_from_nut"`
			Treble         float64 `json:"treble_from_nut"`
			Angle          float64 `json:"angle_deg"`
			X1, Y1, X2, Y2 float64
		} `json:"slots"`
	}
	if err := json.Unmarshal(out, &doc); err != nil {
		t.Fatal(err)
	}
	dxf := dxfSlots(t, filepath.Join(dir, "a.dxf"))
	if len(doc.Slots) != 24 || len(dxf) != 24 {
		t.Fatalf("%d slots in the JSON and %d in the DXF, want 24", len(doc.Slots), len(dxf))
	}
	hb, ht := math.Sqrt(686*686-100), math.Sqrt(648*648-100) // the strings spread by 10 mm each
	half := (hb - ht) * math.Pow(2, -7.0/12) / 2             // the saddles lie this far before and behind the origin
	for i, s := range doc.Slots {
		f := 1 - math.Pow(2, -float64(s.Fret)/12)
		if s.Fret != i+1 || math.Abs(s.Bass-686*f) > 1e-9 || math.Abs(s.Treble-648*f) > 1e-9 {
			t.Errorf("slot %d: %g, %g from the nut", s.Fret, s.Bass, s.Treble)
		}
		for k, v := range [4]float64{s.X1, s.Y1, s.X2, s.Y2} {
			if math.Abs(v-dxf[i][k]) > 0.5001e-6 {
				t.Errorf("slot %d, coordinate %d: JSON %.9f, DXF %.6f", s.Fret, k, v, dxf[i][k])
			}
		}
		xb, xt := -(20 + 10*f), 20+10*f
		yb, yt := hb*(1-f)-half, ht*(1-f)+half
		at := func(x float64) float64 { return s.Y1 + (s.Y2-s.Y1)*(x-s.X1)/(s.X2-s.X1) }
		if math.Abs(at(xb)-yb) > 1e-9 || math.Abs(at(xt)-yt) > 1e-9 {
			t.Errorf("slot %d misses the strings by %.3g and %.3g mm", s.Fret, at(xb)-yb, at(xt)-yt)
		}
		if want := math.Atan2(yb-yt, xt-xb) * 180 / math.Pi; math.Abs(s.Angle-want) > 1e-9 {
			t.Errorf("slot %d: angle %.9f, want %.9f", s.Fret, s.Angle, want)
		}
		if s.X1 >= xb || s.X2 <= xt {
			t.Errorf("slot %d does not reach past the outer strings", s.Fret)
		}
	}
}

// A reader that goes away, or a full disk, is an error and no panic.
func TestFretsOutputFails(t *testing.T) {
	var errs bytes.Buffer
	if code := run([]string{"routwright", "frets", "--scale", "648", "--frets", "3"}, failingWriter{}, &errs); code != exitFailed {
		t.Errorf("exit code %d, want %d", code, exitFailed)
	}
	if _, err := os.Stat("/dev/full"); err == nil { // writes to it say that the disk is full
		code := run([]string{"routwright", "frets", "--scale", "648", "--frets", "3", "--csv", "/dev/full"}, &bytes.Buffer{}, &errs)
		if code != exitFailed || !strings.Contains(errs.String(), "no space left") {
			t.Errorf("full disk: exit code %d, %s", code, errs.String())
		}
	}
}

type failingWriter struct{}

func (failingWriter) Write([]byte) (int, error) { return 0, fmt.Errorf("nobody reads") }
