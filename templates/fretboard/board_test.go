package fretboard

import (
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"routwright/geom"

	"pgregory.net/rapid"
)

// randomSpec draws a board that a builder might ask for; not every one can be
// made, but most can.
func randomSpec(r *rand.Rand) Spec {
	in := func(lo, hi float64) float64 { return lo + r.Float64()*(hi-lo) }
	count := 1 + r.IntN(maxCount)
	s := Common(in(330, 900), 12+r.IntN(18), count)
	if r.IntN(3) > 0 {
		s.Tuning, _ = Equal([]int{12, 12, 12, 17, 19, 22, 24}[r.IntN(7)])
		if s.Tuning.Steps() > 12 {
			s.Frets = s.Frets * s.Tuning.Steps() / 12
		}
	}
	if count > 1 {
		p := in(5.5, 11)
		s.Strings.Nut, s.Strings.Bridge = p*float64(count-1), p*in(1, 1.8)*float64(count-1)
		if r.IntN(2) == 0 {
			t := in(330, 800)
			s.Fan = &Fan{Bass: t * in(1, 1.12), Treble: t, Square: in(-3, 20)}
		}
		if r.IntN(3) == 0 {
			s.Strings.EqualGaps = true
			for i := 0; i < count; i++ {
				s.Strings.Gauges = append(s.Strings.Gauges, 0.25+0.15*float64(i))
			}
		}
		if r.IntN(4) == 0 {
			s.Extra = Extra{Frets: 1 + r.IntN(3), Strings: 1 + r.IntN(count-1), Bass: r.IntN(3) == 0}
		}
		for i := r.IntN(3); i > 0; i-- {
			from := 1 + r.IntN(count)
			s.Partials = append(s.Partials, Partial{Fret: 0.5 + float64(r.IntN(s.Frets)), From: from, To: from + r.IntN(count-from+1)})
		}
	}
	s.Edges = Edges{in(2, 5), in(2, 5), in(2, 5), in(2, 5), 0, 0}
	if r.IntN(4) == 0 && s.Fan == nil && count > 1 {
		s.Edges = Edges{NutWidth: s.Strings.Nut + 7, EndWidth: s.Strings.Bridge + 5}
	}
	s.ZeroFret = r.IntN(4) == 0
	s.Nut = Nut{Width: float64(r.IntN(2)) * 3.2, Shelf: in(0, 4)}
	if s.ZeroFret {
		s.Nut.Behind = in(3, 9)
	}
	s.End.Overhang = in(2, 15)
	if r.IntN(4) == 0 && s.Extra.Frets == 0 {
		s.End.Radius = in(60, 400)
	}
	if r.IntN(4) == 0 {
		s.Slot.Binding = in(1, 2)
	}
	if r.IntN(2) == 0 {
		s.Radius = Radius{in(240, 300), in(240, 500)}
	}
	return s
}

// side returns which side of the unbounded line l the point lies on, in mm,
// positive towards the nut.
func side(l geom.Seg, p geom.Point) float64 {
	return l.B.Sub(l.A).Unit().Cross(p.Sub(l.A))
}

// crossing reports whether two segments share a point, by the signs of areas:
// no formula shared with the layout.
func crossing(a, b geom.Seg) bool {
	if math.Abs(side(a, b.A))+math.Abs(side(a, b.B)) < 1e-9 { // pieces of one line
		d := a.B.Sub(a.A)
		return b.A.Sub(a.A).Dot(d) < d.Dot(d)*(1-1e-9) && b.B.Sub(a.A).Dot(d) > d.Dot(d)*1e-9
	}
	return side(a, b.A)*side(a, b.B) <= 0 && side(b, a.A)*side(b, a.B) <= 0
}

// toOutline returns the least distance from p to the board's outline.
func toOutline(b *Board, p geom.Point) float64 {
	d := math.Inf(1)
	for _, s := range b.Outline {
		d = math.Min(d, s.Closest(p).Dist(p))
	}
	return d
}

// inBoard reports whether p lies in the board, by counting crossings of a ray
// over a flattened outline.
func inBoard(b *Board, p geom.Point) bool {
	v := b.Outline.Flatten(1e-3)
	in := false
	for i, q := range v {
		r := v[(i+1)%len(v)]
		if (q.Y > p.Y) != (r.Y > p.Y) && p.X < q.X+(p.Y-q.Y)/(r.Y-q.Y)*(r.X-q.X) {
			in = !in
		}
	}
	return in
}

// 1,000 boards: no slot leaves the board, none crosses another, the ends of
// whole slots lie on the edges, every slot on its formula, the outline sound.
func TestThousandBoards(t *testing.T) {
	r := rand.New(rand.NewPCG(6, 7))
	made, refused := 0, map[string]int{}
	worst := 0.0
	for made < 1000 {
		s := randomSpec(r)
		b, err := New(s)
		if err != nil {
			var ps Problems
			if !errors.As(err, &ps) {
				t.Fatalf("%v is no Problems", err)
			}
			refused[ps[0].Field]++
			if refused[ps[0].Field] > 2000 {
				t.Fatalf("most boards are refused: %v, last %v", refused, err)
			}
			continue
		}
		made++
		if err := b.Outline.Check(); err != nil || !b.Outline.Closed() || b.Outline.Area() <= 0 {
			t.Fatalf("outline of %+v: %v, area %g", s, err, b.Outline.Area())
		}
		for i, sl := range b.Slots {
			for _, p := range [2]geom.Point{sl.Line.A, sl.Line.B} {
				if !inBoard(b, p.Lerp(sl.Line.At(0.5), 1e-6)) {
					t.Fatalf("slot %s leaves the board at %v: %+v", sl.Name(), p, s)
				}
			}
			for _, end := range []struct {
				p  geom.Point
				on bool
			}{{sl.Edge.A, sl.To == s.Strings.Count}, {sl.Edge.B, sl.From == 1}} {
				if d := toOutline(b, end.p); end.on && d > 1e-9 {
					t.Fatalf("slot %s ends %.3g mm off the edge: %+v", sl.Name(), d, s)
				}
			}
			if s.Slot.Binding > 0 && sl.To == s.Strings.Count {
				if d := math.Abs(side(b.BassEdge, sl.Line.A)); math.Abs(d-s.Slot.Binding) > 1e-9 {
					t.Fatalf("slot %s stops %.6f mm inside the edge, want %.6f", sl.Name(), d, s.Slot.Binding)
				}
			}
			for _, u := range b.Slots[i+1:] {
				if crossing(sl.Line, u.Line) {
					t.Fatalf("slots %s and %s cross: %+v", sl.Name(), u.Name(), s)
				}
			}
		}
		for _, e := range b.SlotErrors() {
			worst = math.Max(worst, math.Abs(e.Off))
			if !(math.Abs(e.Off) < 1e-9) {
				t.Fatalf("slot %g off its formula by %.3g mm: %+v", e.Fret, e.Off, s)
			}
		}
	}
	t.Logf("made 1000, refused %v, worst slot %.2g mm off the independent computation", refused, worst)
}

// Any straight string that divides the nut line and the saddle line in the same
// proportion meets every fanned fret at the same fraction of its own length
// (affine property, testdata/reference/multiscale_frets.json).
func TestFanIsAffine(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		treble := rapid.Float64Range(400, 800).Draw(t, "treble")
		s := Common(0, 24, 6)
		s.Fan = &Fan{
			Bass: treble * rapid.Float64Range(1, 1.1).Draw(t, "ratio"), Treble: treble,
			Square: rapid.Float64Range(-2, 24).Draw(t, "square"),
		}
		s.Strings.Nut = rapid.Float64Range(25, 60).Draw(t, "nut")
		s.Strings.Bridge = rapid.Float64Range(40, 90).Draw(t, "bridge")
		b, err := New(s)
		if err != nil {
			t.Skip(err)
		}
		k := rapid.Float64Range(0, 1).Draw(t, "string")
		str := geom.Line(b.Bass().Nut.Lerp(b.Treble().Nut, k), b.Bass().Saddle.Lerp(b.Treble().Saddle, k))
		for _, sl := range b.Slots {
			_, u, ok := meet(sl.Line, str)
			if want := 1 - math.Pow(2, -sl.Fret/12); !ok || math.Abs(u-want) > 1e-12 {
				t.Fatalf("string %g meets fret %s at %.15f of its length, want %.15f", k, sl.Name(), u, want)
			}
		}
		// The strings are as long as the scales say, the origin lies on the line
		// through the saddles, and the square fret is square.
		if d := b.Bass().Nut.Dist(b.Bass().Saddle) - s.Fan.Bass; math.Abs(d) > 1e-9 {
			t.Fatalf("bass string off by %g", d)
		}
		if d := b.Treble().Nut.Dist(b.Treble().Saddle) - s.Fan.Treble; math.Abs(d) > 1e-9 {
			t.Fatalf("treble string off by %g", d)
		}
		if d := side(b.BridgeLine, geom.Pt(0, 0)); math.Abs(d) > 1e-9 {
			t.Fatalf("origin %g mm off the line through the saddles", d)
		}
		if l := b.across(s.Fan.Square); math.Abs(l.A.Y-l.B.Y) > 1e-9 {
			t.Fatalf("square fret rises %g mm", l.A.Y-l.B.Y)
		}
	})
}

// A board turned about its centre line: margins exchanged, the slots mirrored.
func TestMirroredMargins(t *testing.T) {
	s := Common(648, 22, 6)
	s.Edges = Edges{BassNut: 2.5, TrebleNut: 4, BassEnd: 3, TrebleEnd: 5}
	m := s
	m.Edges = Edges{BassNut: 4, TrebleNut: 2.5, BassEnd: 5, TrebleEnd: 3}
	a, err := New(s)
	if err != nil {
		t.Fatal(err)
	}
	b, err := New(m)
	if err != nil {
		t.Fatal(err)
	}
	for i, sl := range a.Slots {
		u := geom.MirrorX().Seg(b.Slots[i].Line).Reversed()
		if d := math.Max(sl.Line.A.Dist(u.A), sl.Line.B.Dist(u.B)); d > 1e-9 {
			t.Errorf("slot %s: mirror image off by %g", sl.Name(), d)
		}
	}
}

func TestEqualGaps(t *testing.T) {
	s := Common(648, 22, 6)
	s.Strings.EqualGaps = true
	s.Strings.Gauges = []float64{0.25, 0.33, 0.43, 0.66, 0.91, 1.17}
	b, err := New(s)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range []float64{0, 1} {
		var gaps []float64
		for i := 1; i < 6; i++ {
			p, q := b.Strings[i-1], b.Strings[i]
			gaps = append(gaps, p.At(f).X-q.At(f).X-(p.Gauge+q.Gauge)/2)
		}
		for _, g := range gaps {
			if math.Abs(g-gaps[0]) > 1e-9 {
				t.Errorf("gaps at %g: %v are not equal", f, gaps)
			}
		}
	}
	if w := b.Treble().Nut.X - b.Bass().Nut.X; math.Abs(w-36) > 1e-12 {
		t.Errorf("spread %g, want 36", w)
	}
}

// Bad input: each with the field it blames and words that its message holds.
func TestProblems(t *testing.T) {
	fan := func(b, tr, sq float64) func(*Spec) {
		return func(s *Spec) { s.Fan = &Fan{b, tr, sq} }
	}
	nan, inf := math.NaN(), math.Inf(1)
	for _, tt := range []struct {
		name   string
		change func(*Spec)
		field  string
		words  string
	}{
		{"treble longer", fan(640, 686, 7), "fan.treble", "longer than bass"},
		{"fan NaN", fan(nan, 640, 7), "fan.bass", "NaN"},
		{"square NaN", fan(686, 648, nan), "fan.square", "square to the centre line"},
		{"square inf", fan(686, 648, inf), "fan.square", "square to the centre line"},
		{"square far behind", fan(686, 648, -120), "fan.square", "square fret nearer"},
		{"square crosses", fan(900, 500, 200), "fan.square", "off square"},
		{"nut parallel to strings", fan(2000, 100, -10), "fan.square", "square fret nearer"},
		{"no strings", func(s *Spec) { s.Strings.Count = 0 }, "strings.count", "allowed are 1 to 14"},
		{"15 strings", func(s *Spec) { s.Strings.Count = 15 }, "strings.count", "allowed are 1 to 14"},
		{"one string fan", func(s *Spec) { s.Strings = Spacing{Count: 1}; s.Fan = &Fan{686, 648, 7} }, "strings.count", "single scale"},
		{"scale 0", func(s *Spec) { s.Scale = 0 }, "scale", "100 to 2000"},
		{"scale negative", func(s *Spec) { s.Scale = -648 }, "scale", "-648 mm given"},
		{"scale NaN", func(s *Spec) { s.Scale = nan }, "scale", "NaN"},
		{"scale inf", func(s *Spec) { s.Scale = inf }, "scale", "Inf"},
		{"scale in inches", func(s *Spec) { s.Scale = 25.5 }, "scale", "25.5 mm given"},
		{"no frets", func(s *Spec) { s.Frets = 0 }, "frets", "1 to 200"},
		{"frets negative", func(s *Spec) { s.Frets = -3 }, "frets", "1 to 200"},
		{"frets too many", func(s *Spec) { s.Frets = 80 }, "frets", "kerf"},
		{"past the bridge", func(s *Spec) { s.Frets = 40; s.End.Overhang = 90 }, "frets", "past the bridge line"},
		{"nut spread wider", func(s *Spec) { s.Edges = Edges{NutWidth: 34, EndWidth: 57} }, "strings.nut", "wider than the board"},
		{"end too narrow", func(s *Spec) { s.Edges = Edges{NutWidth: 43, EndWidth: 30} }, "edges.endwidth", "outside the board"},
		{"margin negative", func(s *Spec) { s.Edges.BassNut = -1 }, "edges.bassnut", "wider than the board"},
		{"spread negative", func(s *Spec) { s.Strings.Bridge = -52 }, "strings.bridge", "-52"},
		{"spread NaN", func(s *Spec) { s.Strings.Nut = nan }, "strings.nut", "NaN"},
		{"gaps without gauges", func(s *Spec) { s.Strings.EqualGaps = true }, "strings.gauges", "gauge"},
		{"gaps closed", func(s *Spec) {
			s.Strings.EqualGaps = true
			s.Strings.Gauges = []float64{8, 8, 8, 8, 8, 8}
		}, "strings.nut", "no gap"},
		{"kerf 0", func(s *Spec) { s.Slot.Kerf = 0 }, "slot.kerf", "0.1"},
		{"nut behind", func(s *Spec) { s.Nut.Behind = 5 }, "nut.behind", "zero fret"},
		{"end radius", func(s *Spec) { s.End.Radius = 20 }, "end.radius", "corners"},
		{"overhang 0", func(s *Spec) { s.End.Overhang = 0 }, "end.overhang", "no wood"},
		{"radius", func(s *Spec) { s.Radius = Radius{254, 0} }, "radius.end", "cylinder"},
		{"partial strings", func(s *Spec) { s.Partials = []Partial{{3.5, 3, 1}} }, "partials[0]", "lower number first"},
		{"partial past end", func(s *Spec) { s.Partials = []Partial{{23, 1, 3}} }, "partials", "past the last slot"},
		{"partial on a slot", func(s *Spec) { s.Partials = []Partial{{3, 1, 3}} }, "partials", "twice"},
		{"partial beside a slot", func(s *Spec) { s.Partials = []Partial{{3.01, 1, 3}} }, "partials", "kerf"},
		{"extra for all", func(s *Spec) { s.Extra = Extra{Frets: 2, Strings: 6} }, "extra.strings", "ask for more frets"},
	} {
		s := Common(648, 22, 6)
		tt.change(&s)
		b, err := New(s)
		var ps Problems
		if b != nil || !errors.As(err, &ps) {
			t.Errorf("%s: got %v, %v, want Problems", tt.name, b, err)
			continue
		}
		found := false
		for _, p := range ps {
			found = found || strings.HasPrefix(p.Field, tt.field) && strings.Contains(p.Text, tt.words)
		}
		if !found {
			t.Errorf("%s: %v blames no %s with %q", tt.name, err, tt.field, tt.words)
		}
	}
}

// All problems at once.
func TestProblemsTogether(t *testing.T) {
	s := Common(-1, 0, 0)
	s.Slot.Kerf = math.NaN()
	_, err := New(s)
	var ps Problems
	if !errors.As(err, &ps) || len(ps) < 4 {
		t.Errorf("got %v, want the scale, the frets, the strings and the kerf", err)
	}
}

// A wrong slot must show: the check is not a copy of the layout.
func TestSlotErrorsSeeAWrongSlot(t *testing.T) {
	b, err := New(Common(648, 22, 6))
	if err != nil {
		t.Fatal(err)
	}
	b.Slots[4].Line.A.Y -= 0.05
	b.Slots[4].Line.B.Y -= 0.05
	bad := 0
	for _, e := range b.SlotErrors() {
		if math.Abs(e.Off) > 0.02 {
			bad++
			if e.Fret != 5 || math.Abs(e.Off-0.05) > 1e-3 {
				t.Errorf("%+v", e)
			}
		}
	}
	if bad != 2 {
		t.Errorf("%d of 2 crossings found wrong", bad)
	}
}
