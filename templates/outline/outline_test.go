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
