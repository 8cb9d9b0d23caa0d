package ingest

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"routwright/geom"
)

// one reads an SVG and returns its one closed path.
func one(t *testing.T, svg string) geom.Path {
	t.Helper()
	r, err := SVG("t.svg", strings.NewReader(svg), Options{})
	if err != nil {
		t.Fatalf("%v\n%s", err, svg)
	}
	if len(r.Paths) != 1 || len(r.Open) != 0 {
		t.Fatalf("%d closed and %d open paths, want one closed\n%s", len(r.Paths), len(r.Open), svg)
	}
	if err := r.Paths[0].Check(); err != nil {
		t.Fatalf("%v\n%s", err, svg)
	}
	return r.Paths[0]
}

// mm wraps elements in a drawing whose user unit is 1 mm.
func mm(body string) string {
	return `<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" width="500mm" height="400mm" viewBox="0 0 500 400">` + body + `</svg>`
}

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.9g, want %.9g ± %g", what, got, want, tol)
	}
}

// shapes are drawings of one closed shape each, with closed forms for it.
var shapes = []struct {
	name, svg string
	area      float64 // mm²
	w, h      float64
	tol       float64
}{
	{"rect", `<rect x="10" y="20" width="30" height="40"/>`, 1200, 30, 40, 1e-9},
	{"rounded rect", `<rect width="30" height="40" rx="5"/>`, 1200 - (4-math.Pi)*25, 30, 40, 1e-9},
	{"rx wider than half", `<rect width="30" height="40" rx="99"/>`, 0, 30, 40, 1e-9},
	{"rect turned", `<rect width="30" height="40" transform="rotate(30)"/>`, 1200, 30*math.Cos(math.Pi/6) + 20, 15 + 40*math.Cos(math.Pi/6), 1e-9},
	{"rect turned about a corner", `<rect x="5" y="7" width="30" height="40" transform="rotate(90 5 7)"/>`, 1200, 40, 30, 1e-9},
	{"rect sheared", `<rect width="30" height="40" transform="skewX(45)"/>`, 1200, 70, 40, 1e-9},
	{"rect sheared in y", `<rect width="30" height="40" transform="skewY(45)"/>`, 1200, 30, 70, 1e-9},
	{"rect by matrix", `<rect width="30" height="40" transform="matrix(2 0 0 3 10 10)"/>`, 7200, 60, 120, 1e-9},
	{"circle", `<circle cx="50" cy="50" r="20"/>`, math.Pi * 400, 40, 40, 1e-9},
	{"ellipse", `<ellipse cx="50" cy="50" rx="30" ry="20"/>`, math.Pi * 600, 60, 40, 0.05},
	{"circle stretched to an ellipse", `<circle r="10" transform="scale(3 2)"/>`, math.Pi * 600, 60, 40, 0.05},
	{"ellipse stretched to a circle", `<ellipse rx="10" ry="15" transform="scale(3 2)"/>`, math.Pi * 900, 60, 60, 1e-9},
	{"polygon", `<polygon points="0,0 30,0 30 40"/>`, 600, 30, 40, 1e-9},
	{"closed polyline", `<polyline points="0,0 30,0 30-40 0 0"/>`, 600, 30, 40, 1e-9},
	{"path relative", `<path d="m10 10h30v40h-30z"/>`, 1200, 30, 40, 1e-9},
	{"more pairs after m are lines", `<path d="m10 10 30 0 0 40 -30 0z"/>`, 1200, 30, 40, 1e-9},
	{"numbers without separators", `<path d="M0 0L30.5.5.5.5L0 0"/>`, 0, 30.5, .5, 1e-9},
	{"arc flags without separators", `<path d="M10 0a10 10 0 01-20 0 10 10 0 0120 0z"/>`, math.Pi * 100, 20, 20, 1e-9},
	{"units", `<rect width="1in" height="2.54cm"/>`, 0, 0, 0, 0},
	{"percent", `<rect width="10%" height="10%"/>`, 50 * 40, 50, 40, 1e-9},
	{"nested groups", `<g transform="translate(10 10)"><g transform="scale(2)"><rect width="3" height="4" transform="rotate(90)"/></g></g>`, 48, 8, 6, 1e-9},
	{"use", `<defs><rect id="a" width="3" height="4"/></defs><use xlink:href="#a" x="5" y="5" transform="scale(2)"/>`, 48, 6, 8, 1e-9},
	{"symbol", `<symbol id="s" viewBox="0 0 10 10"><rect width="10" height="10"/></symbol><use href="#s" width="40" height="20"/>`, 400, 20, 20, 1e-9},
	{"symbol stretched", `<symbol id="s" viewBox="0 0 10 10" preserveAspectRatio="none"><rect width="10" height="10"/></symbol><use href="#s" width="40" height="20"/>`, 800, 40, 20, 1e-9},
	{"nested svg slice", `<svg x="5" y="5" width="40" height="20" viewBox="0 0 10 10" preserveAspectRatio="xMinYMin slice"><rect width="10" height="10"/></svg>`, 1600, 40, 40, 1e-9},
	{"hidden by a class", `<style>.st0{stroke:none} /* .st2{display:none} */ .st1, #z {display:none;}</style><rect class="st0 st2" width="5" height="5"/><g class="st0 st1"><rect width="9" height="9"/></g><rect id="z" width="7" height="7"/>`, 25, 5, 5, 1e-9},
	{"id over class over element", `<style>#a{display:inline}.h{display:none}rect{display:none}</style><rect class="h" id="a" width="5" height="5"/><rect width="6" height="6"/>`, 25, 5, 5, 1e-9},
	{"transform-origin", `<rect width="30" height="40" transform="rotate(90)" transform-origin="5 5px"/>`, 1200, 40, 30, 1e-9},
	{"drawn twice, from another corner", `<path d="M0 0h5v5h-5z"/><path d="M5 0h-5v5h5z"/>`, 25, 5, 5, 1e-9},
	{"an editor's own elements", `<ed:box xmlns:ed="urn:x"><rect width="9" height="9"/></ed:box><rect width="5" height="5"/>`, 25, 5, 5, 1e-9},
	{"a link, a switch", `<a href="x"><switch><rect width="9" height="9" systemLanguage="xx"/><rect width="5" height="5"/><rect width="7" height="7"/></switch></a>`, 25, 5, 5, 1e-9},
	{"closed by hand to a few micrometres", `<path d="M0 0h5v5h-5v-4.996z"/>`, 25, 5, 5, 0.03},
	{"six-digit rotation keeps arcs", `<circle r="10" transform="matrix(0.866025 0.5 -0.5 0.866025 0 0)"/>`, 100 * math.Pi, 20, 20, 3e-4},
	{"hidden things", `<g style="display:none"><rect width="3" height="4"/></g><rect display="none" width="3" height="4"/><g visibility="hidden"><rect width="9" height="9"/><rect width="5" height="5" visibility="visible"/></g>`, 25, 5, 5, 1e-9},
}

// TestShapes checks areas against closed forms.
func TestShapes(t *testing.T) {
	for _, tt := range shapes {
		t.Run(tt.name, func(t *testing.T) {
			p := one(t, mm(tt.svg))
			b := p.Bounds()
			switch tt.name {
			case "units":
				// 1in is 96 user units here, one of which is 1 mm.
				near(t, "width", b.W(), 96, 1e-9)
				near(t, "height", b.H(), 96, 1e-9)
				return
			case "rx wider than half": // both radii then 15 × 20: an ellipse
				tt.area, tt.tol = math.Pi*15*20, 0.05
			case "numbers without separators":
				return
			}
			near(t, "area", math.Abs(p.Area()), tt.area, tt.tol)
			near(t, "width", b.W(), tt.w, math.Max(tt.tol/10, 1e-9))
			near(t, "height", b.H(), tt.h, math.Max(tt.tol/10, 1e-9))
		})
	}
}

// TestArcsOfTheStandard takes the examples of SVG 1.1, 8.3.8: a pie with a
// quarter out, and the four arcs between one pair of points.
func TestArcsOfTheStandard(t *testing.T) {
	p := one(t, mm(`<path d="M300,200 h-150 a150,150 0 1,0 150,-150 z"/>`))
	near(t, "three quarters of a disc", math.Abs(p.Area()), 0.75*math.Pi*150*150, 1e-8)
	p = one(t, mm(`<path d="M275,175 v-150 a150,150 0 0,0 -150,150 z"/>`))
	near(t, "a quarter disc", math.Abs(p.Area()), 0.25*math.Pi*150*150, 1e-8)
	// With rx 100 and ry 50 the chord (100, 50) spans a quarter of the ellipse.
	small, large := (math.Pi/4-0.5)*5000, (3*math.Pi/4+0.5)*5000
	for _, tt := range []struct {
		flags string
		want  float64 // signed: y up, so sweep 1 is clockwise
	}{{"0,0", small}, {"0,1", -small}, {"1,0", large}, {"1,1", -large}} {
		p := one(t, mm(`<path d="M125,75 a100,50 0 `+tt.flags+` 100,50z"/>`))
		near(t, "arc "+tt.flags, p.Area(), tt.want, 0.3)
	}
	// Radii too small are scaled up until the chord is a diameter (B.2.5).
	p = one(t, mm(`<path d="M10,10 a1,1 0 0,1 40,0 z"/>`))
	near(t, "scaled-up arc", math.Abs(p.Area()), math.Pi*200, 1e-9)
	// Radius 0 is a straight line.
	p = one(t, mm(`<path d="M0,0 a0,9 0 0,1 40,0 v30z"/>`))
	near(t, "arc without radius", math.Abs(p.Area()), 600, 1e-9)
}

// TestSameCurve writes one curve in two ways.
func TestSameCurve(t *testing.T) {
	for _, tt := range [][2]string{
		// SVG 1.1, 8.3.6: S takes the mirror image of the last control point.
		{"M100,200 C100,100 250,100 250,200 S400,300 400,200 V0H100z", "M100,200 C100,100 250,100 250,200 C250,300 400,300 400,200 V0H100z"},
		{"M100,200 C100,100 250,100 250,200 S400,300 400,200 V0H100z", "m100,200 c0-100 150-100 150 0s150 100 150 0V0h-300z"},
		// 8.3.7: T likewise, in a chain.
		{"M200,300 Q300,50 400,300 T500,300 L300 390z", "M200,300 Q300,50 400,300 Q500,550 500,300 L300 390z"},
		// S after another command starts along its own control point.
		{"M0 0L10 20S30 40 50 20V-20z", "M0 0L10 20C10 20 30 40 50 20V-20z"},
		// A quadratic is a cubic.
		{"M0 0Q50 90 100 0z", "M0 0C33.333333333333333 60 66.666666666666667 60 100 0z"},
		// After z the point is the start of the sub-path.
		{"M10 10h5v5zl-5 0v-5z", "M10 10h5v5z M10 10h-5v-5z"},
		{"M1e1 10l+5.0E0-.5.5 5z", "M10,10 L15,9.5 15.5,14.5 Z"},
	} {
		a, err := SVG("a", strings.NewReader(mm(`<path d="`+tt[0]+`"/>`)), Options{})
		if err != nil {
			t.Fatal(err)
		}
		b, err := SVG("b", strings.NewReader(mm(`<path d="`+tt[1]+`"/>`)), Options{})
		if err != nil {
			t.Fatal(err)
		}
		if len(a.Paths) != len(b.Paths) || len(a.Paths) == 0 {
			t.Fatalf("%q: %d paths, %q: %d", tt[0], len(a.Paths), tt[1], len(b.Paths))
		}
		for i := range a.Paths {
			near(t, tt[0]+": area", a.Paths[i].Area(), b.Paths[i].Area(), 1e-3)
			near(t, tt[0]+": length", a.Paths[i].Length(), b.Paths[i].Length(), 1e-3)
		}
	}
}

// TestPage checks the size of the drawing (CSS: 96 px to the inch).
func TestPage(t *testing.T) {
	const ns = `<svg xmlns="http://www.w3.org/2000/svg" `
	const box = `<rect width="10" height="10"/></svg>`
	for _, tt := range []struct {
		head string
		want float64 // mm of 10 user units
		opt  Options
		note bool
	}{
		{`width="100mm" height="100mm" viewBox="0 0 100 100">`, 10, Options{}, false},
		{`width="10cm" height="10cm" viewBox="0 0 1000 1000">`, 1, Options{}, false},
		{`width="4in" viewBox="0 0 4 4">`, 254, Options{}, false},
		{`height="72pt" viewBox="0 0 72 72">`, 254. / 72, Options{}, false},
		{`width="6pc" height="6pc" viewBox="0 0 6 6">`, 254. / 6, Options{}, false},
		{`width="100mm" height="50mm" viewBox="0 0 100 100">`, 5, Options{}, false},
		{`width="100mm" height="50mm" viewBox="0 0 100 100" preserveAspectRatio="xMidYMid slice">`, 10, Options{}, false},
		{`width="100mm" height="100mm">`, 254. / 96, Options{}, false},
		{`width="96" height="96" viewBox="0 0 96 96">`, 254. / 96, Options{}, true},
		{`viewBox="0 0 96 96">`, 254. / 96, Options{}, true},
		{`width="100%" height="100%" viewBox="0 0 96 96">`, 254. / 96, Options{}, true},
		{`>`, 254. / 96, Options{}, true},
		{`viewBox="0 0 96 96">`, 254. / 90, Options{Unit: 25.4 / 90, UnitRules: true}, false},
		{`width="1in" height="1in" viewBox="0 0 96 96">`, 10, Options{Unit: 1, UnitRules: true}, false},
	} {
		r, err := SVG("t.svg", strings.NewReader(ns+tt.head+box), tt.opt)
		if err != nil || len(r.Paths) != 1 {
			t.Fatalf("%s: %v", tt.head, err)
		}
		near(t, tt.head, r.Paths[0].Bounds().W(), tt.want, 1e-9)
		if got := len(r.Notes) > 0; got != tt.note {
			t.Errorf("%s: notes %q", tt.head, r.Notes)
		}
	}
}

// TestPlace checks where things land, y turned up.
func TestPlace(t *testing.T) {
	p := one(t, mm(`<g transform="translate(100 50) rotate(90)"><rect x="10" y="0" width="20" height="5"/></g>`))
	// rotate(90) takes (10…30, 0…5) to (−5…0, 10…30), y down.
	want := geom.BoxOf(geom.Pt(95, -80), geom.Pt(100, -60))
	if got := p.Bounds(); got.Min.Dist(want.Min) > 1e-9 || got.Max.Dist(want.Max) > 1e-9 {
		t.Errorf("bounds %v, want %v", got, want)
	}
}

// TestMetamorphic draws one random figure plain and under random nested
// transforms: the area must grow by the product of the determinants.
func TestMetamorphic(t *testing.T) {
	figure := `<path d="M0 0C40-30 60-30 100 0A30 30 0 0 1 100 60L80 100Q50 130 0 100z"/>`
	plain, err := SVG("a.svg", strings.NewReader(mm(figure)), Options{})
	if err != nil || len(plain.Paths) != 1 {
		t.Fatal(err)
	}
	rapid.Check(t, func(t *rapid.T) {
		num := rapid.Float64Range(-2, 2)
		det := 1.0
		svg := figure
		for range rapid.IntRange(1, 4).Draw(t, "groups") {
			var tr string
			switch rapid.IntRange(0, 5).Draw(t, "kind") {
			case 0:
				tr = fmt.Sprintf("rotate(%g)", 180*num.Draw(t, "angle"))
			case 1:
				tr = fmt.Sprintf("rotate(%g %g,%g)", 180*num.Draw(t, "angle"), num.Draw(t, "x"), num.Draw(t, "y"))
			case 2:
				a, b := num.Draw(t, "sx"), num.Draw(t, "sy")
				if math.Abs(a) < 0.2 || math.Abs(b) < 0.2 {
					continue
				}
				tr, det = fmt.Sprintf("scale(%g,%g)", a, b), det*a*b
			case 3:
				tr = fmt.Sprintf("skewX(%g)skewY(%g)", 20*num.Draw(t, "kx"), 20*num.Draw(t, "ky"))
			case 4:
				a, b, c, d := num.Draw(t, "a"), num.Draw(t, "b"), num.Draw(t, "c"), num.Draw(t, "d")
				if math.Abs(a*d-b*c) < 0.3 {
					continue
				}
				tr, det = fmt.Sprintf("matrix(%g %g %g %g %g %g)", a, b, c, d, a, b), det*(a*d-b*c)
			case 5:
				tr = fmt.Sprintf("translate(%g)", 100*num.Draw(t, "t"))
			}
			svg = `<g transform="` + tr + `">` + svg + `</g>`
		}
		r, err := SVG("b.svg", strings.NewReader(mm(svg)), Options{})
		if err != nil || len(r.Paths) != 1 {
			t.Fatalf("%v: %s", err, svg)
		}
		want := plain.Paths[0].Area() * det
		tol := geom.CurveToArc*(r.Paths[0].Length()+math.Abs(det)*plain.Paths[0].Length()) + 1e-6*math.Abs(want)
		if got := r.Paths[0].Area(); !(math.Abs(got-want) <= tol) {
			t.Fatalf("area %.6f, want %.6f: %s", got, want, svg)
		}
	})
}

// TestText reads other encodings and names.
func TestText(t *testing.T) {
	utf16 := "\xff\xfe"
	for _, r := range `<?xml version="1.0" encoding="UTF-16"?>` + mm(`<rect id="körper" width="5" height="5"/>`) {
		utf16 += string([]byte{byte(r), byte(r >> 8)})
	}
	for _, tt := range []struct{ name, svg string }{
		{"byte order mark", "\xef\xbb\xbf" + mm(`<rect id="körper" width="5" height="5"/>`)},
		{"UTF-16", utf16},
		{"Latin-1", `<?xml version="1.0" encoding="ISO-8859-1"?>` + mm("<rect id=\"k\xf6rper\" width=\"5\" height=\"5\"/>")},
		{"namespace by entity", `<!DOCTYPE svg [<!ENTITY ns "http://www.w3.org/2000/svg">]><svg xmlns="&ns;" width="9mm" viewBox="0 0 9 9"><rect id="körper" width="5" height="5"/></svg>`},
		{"prefix", `<s:svg xmlns:s="http://www.w3.org/2000/svg" width="9mm" viewBox="0 0 9 9"><s:rect id="körper" width="5" height="5"/></s:svg>`},
	} {
		r, err := SVG("t.svg", strings.NewReader(tt.svg), Options{})
		if err != nil || len(r.Paths) != 1 {
			t.Errorf("%s: %v, %d paths", tt.name, err, len(r.Paths))
			continue
		}
		if _, err := Outline(r, Options{Pick: "körper"}); err != nil {
			t.Errorf("%s: %v", tt.name, err)
		}
	}
}

// TestPick chooses by id, label, layer, number and size.
func TestPick(t *testing.T) {
	svg := strings.Replace(mm(`<g ed:label="Front" id="g1"><rect id="a" width="30" height="30"/></g>
<g ed:label="Back" id="g2"><circle id="b" ed:label="cover" r="5" cx="90"/></g>
<path d="M0 90h50" id="c"/>`), "<svg", `<svg xmlns:ed="urn:editor"`, 1)
	r, err := SVG("t.svg", strings.NewReader(svg), Options{})
	if err != nil {
		t.Fatal(err)
	}
	for pick, area := range map[string]float64{
		"a": 900, "b": 25 * math.Pi, "cover": 25 * math.Pi, "Front": 900, "g2": 25 * math.Pi, "#1": 900, "#2": 25 * math.Pi, "largest": 900,
	} {
		p, err := Outline(r, Options{Pick: pick})
		if err != nil {
			t.Errorf("%s: %v", pick, err)
			continue
		}
		near(t, pick, p.Area(), area, 1e-9)
	}
	if _, err := Outline(r, Options{Pick: "c"}); err == nil || !strings.Contains(err.Error(), "t.svg:3: the outline is open") {
		t.Errorf("open piece: %v", err)
	}
}
