package outline

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"routwright/geom"

	"pgregory.net/rapid"
)

// drawMeasures draws every measure of f from its range, often at an end of it.
func drawMeasures(t *rapid.T, f Family) map[string]float64 {
	m := map[string]float64{}
	for _, k := range f.Measures {
		// Mostly near the default, so that the rules often hold.
		switch rapid.IntRange(0, 9).Draw(t, k.Key+" kind") {
		case 0, 1, 2, 3, 4:
			m[k.Key] = k.Def
		case 8:
			m[k.Key] = k.Min
		case 9:
			m[k.Key] = k.Max
		default:
			m[k.Key] = rapid.Float64Range(k.Min, k.Max).Draw(t, k.Key)
		}
	}
	return m
}

// kink returns the largest turn between neighbouring segments, in radians.
func kink(p geom.Path) float64 {
	var most float64
	for i, s := range p {
		u, v := p[(i+len(p)-1)%len(p)].Tangent(1), s.Tangent(0)
		most = math.Max(most, math.Abs(math.Atan2(u.Cross(v), u.Dot(v))))
	}
	return most
}

// TestFamilies draws measures over their documented ranges: what the rules allow
// must give a sound outline, what they forbid a problem with a cure.
func TestFamilies(t *testing.T) {
	for _, f := range Families() {
		t.Run(f.Name, func(t *testing.T) {
			built, tried := 0, 0
			rapid.Check(t, func(t *rapid.T) {
				m := drawMeasures(t, f)
				tried++
				p, used, err := Build(f.Name, m)
				if err != nil {
					for _, b := range Problems(err) {
						if b.Measure == "" || b.Given == "" || b.Allowed == "" || b.Cure == "" {
							t.Fatalf("%v: %+v", m, b)
						}
					}
					return
				}
				built++
				if len(used) != len(f.Measures) {
					t.Fatalf("%d measures used of %d", len(used), len(f.Measures))
				}
				if err := sound(p, m); err != nil {
					t.Fatalf("%v: %v", m, err)
				}
			})
			t.Logf("built %d of %d", built, tried)
		})
	}
}

// sound returns nil for an outline that is closed, smooth and as measured.
func sound(p geom.Path, m map[string]float64) error {
	if err := p.Check(); err != nil {
		return err
	}
	if !p.Closed() || p.Area() <= 0 {
		return fmt.Errorf("closed %v, area %g", p.Closed(), p.Area())
	}
	if k := kink(p); k > 1e-6 {
		return fmt.Errorf("a kink of %g rad", k)
	}
	if r := SmallestRadius(p); r < smallestRadius {
		return fmt.Errorf("a radius of %.3f mm", r)
	}
	b := p.Bounds()
	if w := math.Max(m["lower"], m["upper"]); math.Abs(b.W()-w) > 0.5 {
		return fmt.Errorf("%.3f wide, measured %.3f", b.W(), w)
	}
	if b.Min.Y < -1 || b.Min.Y > 1e-3 {
		return fmt.Errorf("tail end at %.3f", b.Min.Y)
	}
	return nil
}

func TestDefaults(t *testing.T) {
	for _, f := range Families() {
		p, used, err := Build(f.Name, nil)
		if err != nil {
			t.Fatal(f.Name, err)
		}
		m := map[string]float64{}
		for _, u := range used {
			if u.Given {
				t.Errorf("%s: %s said to be given", f.Name, u.Measure)
			}
			m[u.Measure] = u.Value
		}
		if err := sound(p, m); err != nil {
			t.Errorf("%s: %v", f.Name, err)
		}
		if strings.ToLower(f.Name) != f.Name || f.Doc == "" {
			t.Errorf("family %q, %q", f.Name, f.Doc)
		}
	}
}

func BenchmarkBuild(b *testing.B) {
	for b.Loop() {
		if _, _, err := Build("lowland", nil); err != nil {
			b.Fatal(err)
		}
	}
}

func TestBuildErrors(t *testing.T) {
	for _, tt := range []struct {
		name, family string
		given        map[string]float64
		measure      string
		want         string
	}{
		{"family", "upland", nil, "", `"upland"; allowed: lowland, moorland, headland, downland, dune`},
		{"unknown", "lowland", map[string]float64{"girth": 3}, "girth", "does not have"},
		{"range", "lowland", map[string]float64{"waist": 20}, "waist", "20 mm; allowed: 180 to 300 mm"},
		{"NaN", "lowland", map[string]float64{"waist": math.NaN()}, "waist", "NaN mm; allowed"},
		{"rule", "lowland", map[string]float64{"waist": 270}, "waist", "270 mm, with upper = 284 mm; allowed: at most 260 mm"},
		{"horn", "moorland", map[string]float64{"horn": 5, "cutaway": 10}, "horn", "5 mm, with cutaway = 10 mm; allowed: 26 to 100 mm"},
	} {
		p, _, err := Build(tt.family, tt.given)
		if err == nil || p != nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: %v; want %q", tt.name, err, tt.want)
			continue
		}
		if b := Problems(err); b[0].Measure != tt.measure {
			t.Errorf("%s: %+v; want it for %q", tt.name, b, tt.measure)
		}
	}
}

// TestSymmetric mirrors the symmetric families: the outline must come back on
// itself.
func TestSymmetric(t *testing.T) {
	for _, name := range []string{"downland", "moorland"} {
		p, _, err := Build(name, nil)
		if err != nil {
			t.Fatal(err)
		}
		for _, v := range p.Vertices() {
			m, d := geom.Pt(-v.X, v.Y), math.Inf(1)
			for _, s := range p {
				d = math.Min(d, s.Closest(m).Dist(m))
			}
			if d > 2*geom.CurveToArc {
				t.Errorf("%s: %v has no mirror image within %g mm", name, v, d)
			}
		}
	}
}

// TestOffsetSides: an offset moves the bass side, at −X, towards the neck.
func TestOffsetSides(t *testing.T) {
	p, _, err := Build("lowland", map[string]float64{"offset": 20, "lower_at": 120})
	if err != nil {
		t.Fatal(err)
	}
	at := map[bool]float64{} // y of the widest place, by side
	for _, s := range p {
		for u := 0.0; u <= 1; u += 0.1 {
			if q := s.At(u); math.Abs(q.X) > 162.9 {
				at[q.X < 0] = q.Y
			}
		}
	}
	if bass, treble := at[true], at[false]; math.Abs(bass-130) > 8 || math.Abs(treble-110) > 8 {
		t.Errorf("lower bout widest at %.1f on the bass side and %.1f on the treble side; want 130 and 110", bass, treble)
	}
}
