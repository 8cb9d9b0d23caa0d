package geom

import (
	"math/rand"
	"strings"
	"testing"
)

// spoilers make a sound result wrong.
var spoilers = []struct {
	name string
	do   func(Region) Region
}{
	{"nothing left", func(Region) Region { return nil }},
	{"the largest loop lost", func(r Region) Region {
		k := 0
		for i, p := range r {
			if p.Area() > r[k].Area() {
				k = i
			}
		}
		return append(append(Region{}, r[:k]...), r[k+1:]...)
	}},
	{"a loop too many", func(r Region) Region {
		b := r[0].Bounds()
		return append(Region{Circle(b.Max.Add(Vec{20, 20}), 1)}, r...)
	}},
	{"a loop turned round", func(r Region) Region {
		return append(Region{r[0].Reversed()}, r[1:]...)
	}},
	{"a loop twice", func(r Region) Region { return append(Region{r[0]}, r...) }},
	{"smaller by a thousandth", func(r Region) Region { return Scale(0.999).Region(r) }},
	{"larger by a thousandth", func(r Region) Region { return Scale(1.001).Region(r) }},
}

// Every operation refuses a result that was made wrong, whatever the mistake, and
// says where; made wrong once or twice, it finds the right one again.
func TestCertificateRefuses(t *testing.T) {
	rng := rand.New(rand.NewSource(*seed))
	for n := 0; n < 40; n++ {
		a, b := Region{randomLoop(rng, Pt(0, 0), 50)}, Region{randomLoop(rng, Pt(between(rng, -40, 40), between(rng, -40, 40)), 50)}
		if a.Check() != nil || b.Check() != nil {
			continue
		}
		for k, op := range []func(c *Calc) Region{
			func(c *Calc) Region { return c.Union(a, b) },
			func(c *Calc) Region { return c.Intersect(a, b) },
			func(c *Calc) Region { return c.Subtract(a, b) },
			func(c *Calc) Region { return c.Xor(a, b) },
		} {
			var plain Calc
			want := op(&plain)
			if len(want) == 0 {
				continue
			}
			for _, s := range spoilers {
				c := Calc{spoil: s.do}
				op(&c)
				if c.Err() == nil {
					t.Errorf("operation %d, %s: not refused", k, s.name)
				} else if !strings.HasPrefix(c.Err().Error(), "loop ") {
					t.Errorf("operation %d, %s: no loop named: %v", k, s.name, c.Err())
				}
				for times, fallbacks := range map[int]int{1: 0, 2: 1} {
					left := times
					c := Calc{spoil: func(r Region) Region {
						if left--; left >= 0 {
							return s.do(r)
						}
						return r
					}}
					got := op(&c)
					sound(t, &c, got)
					near(t, "area", got.Area(), want.Area(), 1e-5*want.Perimeter())
					if c.Fallbacks != fallbacks {
						t.Errorf("operation %d, %s %d times: %d fallbacks, want %d", k, s.name, times, c.Fallbacks, fallbacks)
					}
				}
			}
		}
	}
}

// The result of one operation does not pass for that of another.
func TestCertificateKnowsTheOperation(t *testing.T) {
	a, b := Region{bodyArcs(100)}, Translate(Vec{70, 20}).Region(Region{bodyLoop(900)})
	ins := []func(winding) bool{
		func(w winding) bool { return w[0] > 0 },
		func(w winding) bool { return w[0] > 1 },
		func(w winding) bool { return w[0]&1 != 0 },
	}
	var c Calc
	for i, o := range []Region{c.Union(a, b), c.Intersect(a, b), c.Xor(a, b)} {
		for k, in := range ins {
			c.arr.made = o.Segs()
			err := c.agrees(&task{groups: [2][]Region{{a, b}}, in: in}, o, attempts[0])
			if (err == nil) != (i == k) {
				t.Errorf("the result of operation %d as that of %d: %v", i, k, err)
			}
		}
	}
}

// What a fallback makes of an offset is measured on both sides.
func TestCertificateOfOffset(t *testing.T) {
	var c Calc
	r := Region{bodyArcs(60)}
	last := attempts[len(attempts)-1]
	for _, d := range []float64{-8, 8} {
		o := c.Offset(r, d, Round)
		for _, s := range []struct {
			name string
			o    Region
			ok   bool
		}{
			{"right", o, true},
			{"the wrong side", c.Offset(r, -d, Round), false},
			{"too near", c.Offset(r, 0.99*d, Round), false},
			{"too far", c.Offset(r, 1.01*d, Round), false},
			{"the source itself", r, false},
		} {
			if err := c.keepsDistance(r, s.o, d, Round, last); (err == nil) != s.ok {
				t.Errorf("by %g, %s: %v", d, s.name, err)
			}
		}
	}
}

// An offset in steps is that in one, on outlines whose noise makes it cross itself
// often.
func TestOffsetInSteps(t *testing.T) {
	rng := rand.New(rand.NewSource(*seed))
	for n := 0; n < 6; n++ {
		r := noisyBody(rng, 600+rng.Intn(300), between(rng, 0.05, 0.15))
		if r.Check() != nil {
			continue
		}
		d := between(rng, 30, 90) * float64(1-2*(n&1))
		var c Calc
		one := c.solve(c.offsetTask(r, d, Round))
		steps, ok := c.inSteps(r, d)
		sound(t, &c, one)
		sound(t, &c, steps)
		if !ok || c.Fallbacks > 0 {
			t.Fatalf("by %g: in steps %v, %d fallbacks", d, ok, c.Fallbacks)
		}
		near(t, "area", steps.Area(), one.Area(), 1e-6*one.Perimeter())
		near(t, "difference", c.Xor(one, steps).Area(), 0, 1e-6*one.Perimeter())
		if err := offsetFault(rng, r, steps, d, 5e-6); err != nil {
			t.Error(err)
		}
	}
	// A large one takes the steps of its own accord; a smooth one does not.
	r := noisyBody(rng, 2500, 0.1)
	var c Calc
	c.raw.load(&c.arr, r[0], -40, Round)
	if !c.raw.tangle.tooMuch(-40, len(c.arr.segs)) {
		t.Error("the noisy outline is not made in steps")
	}
	c.raw.tangle = tangle{}
	c.raw.load(&c.arr, bodyLoop(5000), -60, Round)
	if c.raw.tangle.tooMuch(-60, len(c.arr.segs)) {
		t.Error("the smooth outline is made in steps")
	}
	o := c.Offset(r, -40, Round)
	sound(t, &c, o)
	if err := offsetFault(rng, r, o, -40, 5e-6); err != nil {
		t.Error(err)
	}
}
