package geom

import (
	"fmt"
	"math"
	"math/rand"
	"testing"
)

// bodyLoop returns a smooth closed outline like a small body: n chords of a
// wavy oval of about 1.1 m round.
func bodyLoop(n int) Path {
	ps := make([]Point, n)
	for i := range ps {
		a := 2 * math.Pi * float64(i) / float64(n)
		r := 150 + 30*math.Cos(2*a) + 12*math.Sin(5*a)
		ps[i] = Pt(r*math.Cos(a), r*math.Sin(a))
	}
	return Polygon(ps...)
}

// bodyArcs returns the same outline as n tangent arcs: two to each pair of
// points, meeting at right angles to the mean of the end tangents.
func bodyArcs(n int) Path {
	n /= 2
	at := func(a float64) (Point, Vec) {
		r := 150 + 30*math.Cos(2*a) + 12*math.Sin(5*a)
		dr := -60*math.Sin(2*a) + 60*math.Cos(5*a)
		u := Angle(a).Unit()
		return Pt(0, 0).Add(u.Mul(r)), u.Mul(dr).Add(u.Left().Mul(r)).Unit()
	}
	var p Path
	for i := 0; i < n; i++ {
		a, ta := at(2 * math.Pi * float64(i) / float64(n))
		b, tb := at(2 * math.Pi * float64((i+1)%n) / float64(n))
		// Biarc with equal tangent lengths d: |v − d(ta+tb)| = 2d.
		v := b.Sub(a)
		t := ta.Add(tb)
		// v·v − 2d v·t + d²(t·t − 4) = 0
		A, B, C := t.Dot(t)-4, -2*v.Dot(t), v.Dot(v)
		d := (-B - math.Sqrt(B*B-4*A*C)) / (2 * A)
		q0, q1 := a.Add(ta.Mul(d)), b.Add(tb.Mul(-d))
		m := q0.Lerp(q1, 0.5)
		p = append(p, arcFrom(a, ta, m), arcFrom(m, q1.Sub(q0).Unit(), b))
	}
	return p
}

// arcFrom returns the arc that leaves a along t and ends at b.
func arcFrom(a Point, t Vec, b Point) Seg {
	v := b.Sub(a)
	k := 2 * t.Cross(v) / v.Dot(v)
	if math.Abs(k) < 1e-9 {
		return Line(a, b)
	}
	turn := int8(1)
	if k < 0 {
		turn = -1
	}
	return ArcAbout(a.Add(t.Left().Mul(1/k)), a, b, turn)
}

func roundedRects(n int) []Region {
	var out []Region
	for i := 0; i < n; i++ {
		c := Pt(0, 0).Add((Angle(i) * 30 * Degree).Unit().Mul(60 + 30*float64(i%3)))
		out = append(out, Region{Pose(c, Angle(i)).Path(RoundedRect(Pt(0, 0), 45, 18, 4))})
	}
	return out
}

func BenchmarkOffset(b *testing.B) {
	run := func(name string, p Path, d float64) {
		b.Run(name, func(b *testing.B) {
			var c Calc
			r := Region{p}
			b.ReportAllocs()
			for b.Loop() {
				c.Offset(r, d, Round)
			}
			if c.Err() != nil || c.Fallbacks > 0 {
				b.Fatal(c.Err(), c.Fallbacks)
			}
		})
	}
	run("arcs266", bodyArcs(266), -8)
	run("arcs266out", bodyArcs(266), 8)
	for _, n := range []int{100, 1000, 5000, 50000, 200000} {
		run(fmt.Sprintf("in%d", n), bodyLoop(n), -8)
		run(fmt.Sprintf("out%d", n), bodyLoop(n), 8)
	}
	run("deep5000", bodyLoop(5000), -60) // past the radius of the hollows
}

func BenchmarkSubtract(b *testing.B) {
	run := func(name string, p Path, cut ...Region) {
		b.Run(name, func(b *testing.B) {
			var c Calc
			r := Region{p}
			b.ReportAllocs()
			for b.Loop() {
				c.Subtract(r, cut...)
			}
			if c.Err() != nil || c.Fallbacks > 0 {
				b.Fatal(c.Err(), c.Fallbacks)
			}
		})
	}
	run("rects", Rect(Pt(0, 0), 10, 10), Region{Rect(Pt(5, 5), 10, 10)})
	run("arcs266", bodyArcs(266), roundedRects(12)...)
	run("chords5000", bodyLoop(5000), roundedRects(12)...)
	run("chords50000", bodyLoop(50000), roundedRects(12)...)
}

// BenchmarkSpurs measures the slow way of an offset past the radius of a
// hollow, with its quadratic number of crossings.
func BenchmarkSpurs(b *testing.B) {
	for _, n := range []int{500, 1000, 2000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			p := bodyLoop(n)
			var a arrangement
			w := rawCurve{spurs: true}
			b.ReportAllocs()
			for b.Loop() {
				a.reset(Coincident)
				w.load(&a, p, -60, Round)
				if _, err := a.solved(func(w winding) bool { return w[0] > 0 }, 0); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkNoise moves outlines with noise as coarse as their spacing past it.
func BenchmarkNoise(b *testing.B) {
	for _, n := range []int{500, 1000, 2000, 4000} {
		r := noisyBody(rand.New(rand.NewSource(5)), n, 0.1)
		for _, d := range []float64{-60, 60} {
			b.Run(fmt.Sprintf("%d/%g", n, d), func(b *testing.B) {
				var c Calc
				b.ReportAllocs()
				for b.Loop() {
					c.Offset(r, d, Round)
				}
				if c.Err() != nil || c.Fallbacks > 0 {
					b.Fatal(c.Err(), c.Fallbacks)
				}
			})
		}
	}
}

// noisyBody returns n chords of a body whose points are moved by up to amp.
func noisyBody(rng *rand.Rand, n int, amp float64) Region {
	p := bodyLoop(n).Vertices()
	for i := range p {
		p[i] = p[i].Add(Vec{between(rng, -amp, amp), between(rng, -amp, amp)})
	}
	return Region{Polygon(p...)}
}

func BenchmarkContains5k(b *testing.B) {
	x := IndexOf(Region{bodyLoop(5000)})
	ps := make([]Point, 1024)
	for i := range ps {
		ps[i] = Pt(float64(i%32)*12-190, float64(i/32)*12-190)
	}
	n := 0
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		if x.Contains(ps[i&1023]) {
			n++
		}
	}
}

// BenchmarkCertificate measures what the certificate adds to a boolean: the share
// of the time that is spent in it.
func BenchmarkCertificate(b *testing.B) {
	run := func(name string, r Region, cuts []Region) {
		b.Run(name, func(b *testing.B) {
			var c Calc
			c.Subtract(r, cuts...)
			t := task{groups: [2][]Region{{r}, cuts}, in: func(w winding) bool { return w[0] > 0 && w[1] <= 0 }}
			o := c.Subtract(r, cuts...) // leaves its arrangement in c
			b.ReportAllocs()
			for b.Loop() {
				if err := c.agrees(&t, o, attempts[0]); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
	run("rects", Region{Rect(Pt(0, 0), 10, 10)}, []Region{{Rect(Pt(5, 5), 10, 10)}})
	run("arcs266", Region{bodyArcs(266)}, roundedRects(12))
	run("chords5000", Region{bodyLoop(5000)}, roundedRects(12))
	run("chords50000", Region{bodyLoop(50000)}, roundedRects(12))
}
