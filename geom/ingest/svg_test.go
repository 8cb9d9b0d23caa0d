package ingest

import (
	"fmt"
	"math"
	"strings"
	"testing"

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

// TestShapes checks areas against closed forms.
func TestShapes(t *testing.T) {
	tests := []struct {
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
		{"hidden things", `<g style="display:none"><rect width="3" height="4"/></g><rect display="none" width="3" height="4"/><g visibility="hidden"><rect width="9" height="9"/><rect width="5" height="5" visibility="visible"/></g>`, 25, 5, 5, 1e-9},
	}
	for _, tt := range tests {
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
	_ = fmt.Sprint
}
