package geom_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"routwright/geom"
)

// Nearer says what Distance says, at any limit: of shapes with sharp and with
// round corners, bulging and hollow, apart, touching, crossing and one in another.
func TestNearerAgainstDistance(t *testing.T) {
	rnd := rand.New(rand.NewPCG(3, 8))
	butterfly := geom.Polygon(geom.Pt(-25, -12), geom.Pt(0, -6), geom.Pt(25, -12), geom.Pt(25, 12), geom.Pt(0, 6), geom.Pt(-25, 12))
	shapes := []geom.Path{butterfly, geom.Circle(geom.Pt(0, 0), 9), geom.RoundedRect(geom.Pt(0, 0), 40, 18, 5), geom.Rect(geom.Pt(0, 0), 300, 4)}
	if round, err := butterfly.FilletAll(3); err == nil {
		shapes = append(shapes, round)
	} else {
		t.Fatal(err)
	}
	var yes, no int
	for range 4000 {
		pose := func(reach float64) geom.Region {
			s := shapes[rnd.IntN(len(shapes))]
			m := geom.Pose(geom.Pt(reach*(rnd.Float64()-0.5), reach*(rnd.Float64()-0.5)), geom.Angle(2*math.Pi*rnd.Float64()))
			return geom.Region{m.Path(s)}
		}
		a, b := pose(0), pose(160)
		d, _, _ := geom.Distance(a, b)
		for _, limit := range []float64{8, d - 1e-6, d + 1e-6, d * 0.99, d * 1.01, 0, 40 * rnd.Float64()} {
			got := geom.Nearer(a, b, limit)
			if got != (d < limit) {
				t.Fatalf("%v, %v: %.9f mm apart, nearer than %.9f: %v", a, b, d, limit, got)
			}
			if got {
				yes++
			} else {
				no++
			}
		}
	}
	if yes < 1000 || no < 1000 {
		t.Errorf("%d nearer, %d not: one-sided", yes, no)
	}
	if geom.Nearer(nil, geom.Region{butterfly}, 1) || geom.Nearer(geom.Region{butterfly}, nil, 1) {
		t.Error("the empty region is near")
	}
}

func BenchmarkNearer(b *testing.B) {
	round, err := geom.Polygon(geom.Pt(-25, -12), geom.Pt(0, -6), geom.Pt(25, -12), geom.Pt(25, 12), geom.Pt(0, 6), geom.Pt(-25, 12)).FilletAll(3)
	if err != nil {
		b.Fatal(err)
	}
	at := func(y, turn float64) geom.Region {
		return geom.Region{geom.Pose(geom.Pt(0, y), geom.Angle(turn)).Path(round)}
	}
	for _, c := range []struct {
		name string
		r    geom.Region
	}{{"apart", at(40, 0.1)}, {"close", at(29, 0.1)}, {"crossing", at(10, 0.1)}} {
		a := at(0, 0)
		b.Run(c.name, func(b *testing.B) {
			for b.Loop() {
				geom.Nearer(a, c.r, 8)
			}
		})
		b.Run(c.name+", by distance", func(b *testing.B) {
			for b.Loop() {
				geom.Distance(a, c.r)
			}
		})
	}
}
