package outline

import (
	"math"
	"strings"
	"testing"

	"routwright/geom"
)

// readings of an invented body, in mm.
var readings = [][3]float64{
	{0, 0, 0}, {12, 82, 78}, {40, 130, 128}, {80, 156, 154}, {118, 163, 162}, {160, 152, 150}, {200, 126, 125},
	{235, 112, 112}, {270, 120, 122}, {310, 138, 140}, {345, 139, 134}, {370, 122, 108}, {388, 84, 66}, {396, 31, 31},
}

func misses(p geom.Path, rows [][3]float64) float64 {
	most := 0.0
	for _, r := range rows {
		for _, q := range [2]geom.Point{geom.Pt(r[2], r[0]), geom.Pt(-r[1], r[0])} {
			d := math.Inf(1)
			for _, s := range p {
				d = math.Min(d, s.Closest(q).Dist(q))
			}
			most = math.Max(most, d)
		}
	}
	return most
}

func corners(p geom.Path) int {
	n := 0
	for i, s := range p {
		u, v := p[(i+len(p)-1)%len(p)].Tangent(1), s.Tangent(0)
		if math.Abs(math.Atan2(u.Cross(v), u.Dot(v))) > 1e-6 {
			n++
		}
	}
	return n
}

func TestHalfWidths(t *testing.T) {
	n := len(readings)
	mirrored := make([][3]float64, n)
	for i, r := range readings {
		mirrored[i] = [3]float64{r[0], r[2], r[1]}
	}
	round := append(append([][3]float64{}, readings...), [3]float64{404, 0, 0})
	for _, tt := range []struct {
		name    string
		rows    [][3]float64
		corners int
	}{
		{"rounded tail, straight neck", readings, 2},
		{"bass and treble exchanged", mirrored, 2},
		{"both straight", readings[1:], 4},
		{"both rounded", round, 0},
		{"rounded neck", round[1:], 2},
	} {
		p, err := HalfWidths(tt.rows)
		if err != nil {
			t.Errorf("%s: %v", tt.name, err)
			continue
		}
		if err := p.Check(); err != nil || !p.Closed() || p.Area() < 1e5 {
			t.Errorf("%s: %v, closed %v, area %g", tt.name, err, p.Closed(), p.Area())
		}
		if c, m := corners(p), misses(p, tt.rows); c != tt.corners || m > geom.CurveToArc {
			t.Errorf("%s: %d corners, want %d; %g mm off a reading", tt.name, c, tt.corners, m)
		}
	}
	a, _ := HalfWidths(readings)
	b, _ := HalfWidths(mirrored)
	if math.Abs(a.Area()-b.Area()) > 0.5 {
		t.Errorf("areas %g and %g of mirror images", a.Area(), b.Area())
	}
}

func TestHalfWidthsErrors(t *testing.T) {
	for _, tt := range []struct {
		name string
		rows [][3]float64
		want string
	}{
		{"none", nil, "allowed: 4"},
		{"few", readings[:3], "3 rows"},
		{"falling", [][3]float64{{0, 0, 0}, {20, 50, 50}, {10, 60, 60}, {40, 0, 0}}, "row 3: y = 10"},
		{"twice", [][3]float64{{0, 0, 0}, {20, 50, 50}, {20, 60, 60}, {40, 0, 0}}, "row 3"},
		{"negative", [][3]float64{{0, 0, 0}, {20, -50, 50}, {30, 60, 60}, {40, 0, 0}}, "row 2: half widths of -50"},
		{"pinched", [][3]float64{{0, 0, 0}, {20, 50, 50}, {30, 0, 60}, {40, 0, 0}}, "row 3"},
		{"NaN", [][3]float64{{0, 0, 0}, {20, 50, math.NaN()}, {30, 5, 60}, {40, 0, 0}}, "row 2"},
		{"metres", [][3]float64{{0, 0, 0}, {20, 50, 5000}, {30, 5, 60}, {40, 0, 0}}, "row 2"},
		{"two at once", [][3]float64{{0, 0, 0}, {20, -1, 50}, {10, 60, 60}, {40, 0, 0}}, "row 2: half widths of -1 and 50 mm; allowed: 0 or more, measured from the centre line\nrow 3"},
		{"wild", [][3]float64{{0, 0, 0}, {1, 300, 300}, {2, 1, 1}, {3, 300, 300}, {4, 0, 0}}, "crosses itself"},
	} {
		_, err := HalfWidths(tt.rows)
		if err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: %v; want %q", tt.name, err, tt.want)
		}
	}
}
