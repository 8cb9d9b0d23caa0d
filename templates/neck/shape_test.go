package neck

import (
	"math"
	"math/rand/v2"
	"testing"

	"routwright/geom"
)

// common returns a neck of common practice over a board of the given scale.
func common(scale float64, strings int, kind Kind) Spec {
	nut, end := 7.2*float64(strings-1)+7, 10.4*float64(strings-1)+7
	at := func(f float64) float64 { return scale * math.Exp2(-f/12) }
	s := Spec{
		Board: Board{
			Bass:      geom.Line(geom.Pt(-nut/2, scale), geom.Pt(-end/2, 0)),
			Treble:    geom.Line(geom.Pt(nut/2, scale), geom.Pt(end/2, 0)),
			Nut:       geom.Line(geom.Pt(-nut/2, scale), geom.Pt(nut/2, scale)),
			Thickness: 6, First: at(1), Octave: at(12), OctaveFret: 12,
		},
		Head: Head{
			Kind: kind, Behind: 6, Thickness: 14, Tilt: 12 * geom.Degree, Sweep: 20,
			First: 40, Pitch: 25, Hole: 10, Post: 6, Along: 18, Inward: 9, Edge: 8, Crown: 4,
			NeckRadius: Radius{20, false}, ShoulderRadius: Radius{10, false}, TipRadius: Radius{8, false},
		},
		Rod:  &Rod{Width: 6.35, Depth: 9.5, AccessLength: 20, AccessWidth: 12},
		Back: Back{Thickness: [2]float64{20.5, 22.5}, Shoulder: [2]float64{0.5, 0.55}, Foot: 5, Sweep: 25, Throat: 20},
	}
	for i := 0; i < strings; i++ {
		k := float64(strings-1)/2 - float64(i)
		s.Board.Strings = append(s.Board.Strings, geom.Line(geom.Pt(7.2*k, scale), geom.Pt(10.4*k, 0)))
	}
	s.Heel = Heel{End: at(16) - 76, Joint: at(16), Thickness: 19, Corner: 6}
	s.Heel.WidthEnd, s.Heel.WidthJoint = s.width(s.Heel.End), s.width(s.Heel.Joint)
	switch kind {
	case InLine:
		s.Head.Bass = strings
	case Split:
		s.Head.Bass, s.Head.Treble, s.Head.Pitch = (strings+1)/2, strings/2, 40
	case Paddle:
		s.Head.Widths = &[2]float64{nut + 36, nut + 30}
	}
	return s
}

// 1,000 random necks: the outlines are sound and closed, every post stands at
// its pitch, and the deflections are those of rays traced another way.
func TestRandomNecks(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 1))
	u := func(lo, hi float64) float64 { return lo + (hi-lo)*rng.Float64() }
	made := 0
	for i := 0; i < 1000; i++ {
		s := common(u(560, 900), 4+rng.IntN(6), Kind(rng.IntN(3)))
		if rng.IntN(3) == 0 { // a fan: the bass end of the nut lies further out
			skew := u(0, 6)
			s.Board.Nut.A.Y, s.Board.Nut.B.Y = s.Board.Nut.A.Y+skew, s.Board.Nut.B.Y-skew
			n := len(s.Board.Strings) - 1
			for k := range s.Board.Strings {
				s.Board.Strings[k].A.Y += skew * (2*float64(k)/float64(n) - 1) * 0.84
			}
		}
		h := &s.Head
		h.Tilt, h.Behind, h.Thickness = geom.Angle(u(8, 16))*geom.Degree, u(4, 9), u(12, 16)
		if rng.IntN(2) == 0 {
			h.Tilt, h.Step = 0, u(0, 9)
		}
		h.First, h.Pitch, h.Edge, h.Hole = u(36, 60), u(24, 30), u(6, 10), u(8, 11)
		if h.Kind == Split {
			h.Pitch = u(36, 44)
		}
		if h.Kind == InLine && rng.IntN(2) == 0 {
			h.Bass, h.Treble = 0, h.Bass
		}
		if h.Kind != Paddle && rng.IntN(3) == 0 {
			bend := geom.Angle(u(0, 6)) * geom.Degree
			h.Deflection = &bend
		}
		h.Crown = u(0, 8)
		h.NeckRadius.R, h.ShoulderRadius.R, h.TipRadius.R = u(0, 40), u(0, 20), u(0, 20)
		s.Back.Thickness = [2]float64{u(19.5, 22), u(22, 25)}
		s.Back.Shoulder = [2]float64{u(0.2, 0.9), u(0.2, 0.9)}
		s.Rod.Single = rng.IntN(2) == 0
		s.Rod.Access = Access(rng.IntN(2))
		s.Rod.Depth = u(7, 9)
		if s.Rod.Single {
			s.Rod.Bow = u(0, 2)
		}
		sh, err := New(s)
		if err != nil {
			t.Logf("neck %d: %v", i, err)
			continue
		}
		made++
		for _, p := range []geom.Path{sh.Plan, sh.Shaft, sh.Head, sh.Side.Outline} {
			if !p.Closed() || p.Area() <= 0 {
				t.Fatalf("neck %d: an open or backward outline", i)
			}
			if err := (geom.Region{p}).Check(); err != nil {
				t.Fatalf("neck %d: %v", i, err)
			}
		}
		if err := sh.Rod.Plan.Check(); err != nil {
			t.Fatalf("neck %d: rod: %v", i, err)
		}
		for k, tn := range sh.Tuners {
			if !(geom.Region{sh.Head}).Contains(tn.Post) || tn.Wall <= 0 {
				t.Fatalf("neck %d: tuner %d outside the head", i, k+1)
			}
			if got, want := tn.Deflection, retrace(s, sh, tn); math.Abs(float64(got-want)) > 1e-9 {
				t.Fatalf("neck %d: string %d bends by %v°, retraced %v°", i, tn.String, got.Degrees(), want.Degrees())
			}
			// Asked for: every string of a row bends so, those between the first and
			// the last within what a straight row costs them.
			if math.Abs(float64(tn.Deflection-sh.Bend)) > float64(1.5*geom.Degree) {
				t.Fatalf("neck %d: string %d bends by %.3f°, asked %.3f°", i, tn.String, tn.Deflection.Degrees(), sh.Bend.Degrees())
			}
		}
		if h.Tilt == 0 {
			for _, k := range ends(s) { // the first and the last of a row on a level head: exactly
				if d := sh.Tuners[k].Deflection; math.Abs(float64(d-sh.Bend)) > 1e-9 {
					t.Fatalf("neck %d: string %d bends by %v°, asked %v°", i, k+1, d.Degrees(), sh.Bend.Degrees())
				}
			}
		}
		// What the mirror gives is the mirror image.
		m := sh.Mirrored()
		if math.Abs(m.Plan.Area()-sh.Plan.Area()) > 1e-6 || math.Abs(m.Plan.Bounds().Min.X+sh.Plan.Bounds().Max.X) > 1e-9 {
			t.Fatalf("neck %d: the mirror image differs", i)
		}
	}
	if made < 950 {
		t.Errorf("only %d of 1000 necks could be made", made)
	}
}

// ends returns the indices of the strings of the first and the last tuner of each
// row.
func ends(s Spec) []int {
	var out []int
	n := len(s.Board.Strings)
	if k := s.Head.Treble; k > 0 && s.Head.Kind != Paddle {
		out = append(out, 0, k-1)
	}
	if k := s.Head.Bass; k > 0 && s.Head.Kind != Paddle {
		out = append(out, n-1, n-k)
	}
	return out
}

// retrace finds a string's bend at the nut by turning a ray until it touches the
// post, seen from the front: by halving, without the tangent's closed form.
func retrace(s Spec, sh *Shape, tn Tuner) geom.Angle {
	l := s.Board.Strings[tn.String-1]
	side := 1.0
	if tn.String > len(s.Board.Strings)-s.Head.Bass && s.Head.Bass > 0 {
		side = -1
	}
	w := tn.Post.Sub(l.A)
	off := func(a float64) float64 { // of the post from the ray, outward
		d := w.Unit().Rotate(geom.Angle(a * side))
		return -side * d.Cross(w)
	}
	lo, hi := 0.0, 1.2
	for i := 0; i < 200; i++ {
		m := (lo + hi) / 2
		if off(m) < s.Head.Post/2 {
			lo = m
		} else {
			hi = m
		}
	}
	d := w.Unit().Rotate(geom.Angle(lo * side))
	touch := l.A.Add(d.Mul(w.Dot(d)))
	// Turned about the line where the head begins, by Rodrigues' formula, and seen
	// from the front: of what lies square to the line only the cosine is left.
	k := sh.Fold.B.Sub(sh.Fold.A).Unit()
	v := touch.Sub(sh.Fold.A)
	on := k.Mul(v.Dot(k))
	seen := sh.Fold.A.Add(on).Add(v.Sub(on).Mul(math.Cos(float64(s.Head.Tilt))))
	straight := math.Atan2(l.A.X-l.B.X, l.A.Y-l.B.Y)
	bent := math.Atan2(seen.X-l.A.X, seen.Y-l.A.Y)
	return geom.Angle((bent - straight) * side)
}

// The profile has the width and depth asked for, its arcs run into one another,
// and more shoulder is more wood, everywhere.
func TestProfiles(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 5))
	for i := 0; i < 1000; i++ {
		p := Profile{Half: 15 + 20*rng.Float64(), Shoulder: 0.05 + 0.85*rng.Float64()}
		p.Depth = p.Half * (0.3 + 0.9*rng.Float64())
		q := p.Path()
		if err := q.Check(); err != nil {
			t.Fatalf("%+v: %v", p, err)
		}
		b := q.Bounds()
		if math.Abs(b.W()-2*p.Half) > 1e-9 || math.Abs(b.Min.Y+p.Depth) > 1e-9 || b.Max.Y != 0 {
			t.Fatalf("%+v: %v", p, b)
		}
		for k := 1; k < len(q); k++ {
			if c := math.Abs(q[k-1].Tangent(1).Cross(q[k].Tangent(0))); c > 1e-9 {
				t.Fatalf("%+v: a corner of %g at piece %d", p, c, k)
			}
		}
		if v := q[0].Tangent(0); math.Abs(v.X) > 1e-9 {
			t.Fatalf("%+v: leaves the board at %v, not square", p, v)
		}
		fuller := p
		fuller.Shoulder += 0.05
		if a, b := p.Region()[0].Area(), fuller.Region()[0].Area(); b <= a {
			t.Fatalf("%+v: area %g, with more shoulder %g", p, a, b)
		}
		var c geom.Calc
		if lost := c.Subtract(p.Region(), c.Offset(fuller.Region(), 1e-4, geom.Round)); c.Err() != nil || lost.Area() > 1e-3 {
			t.Fatalf("%+v: more shoulder takes wood away: %v %v", p, lost.Area(), c.Err())
		}
		if g := p.Gauge(15); !g.Closed() || (geom.Region{g}).Check() != nil || g.Area() <= 0 {
			t.Fatalf("%+v: a bad gauge", p)
		}
	}
}

// The scarf is T / sin θ long; the neck as thick as asked at both frets; the
// rod's least wood is what points of the profile give.
func TestSideMeasures(t *testing.T) {
	s := common(648, 6, Split)
	sh, err := New(s)
	if err != nil {
		t.Fatal(err)
	}
	sc := sh.Side.Scarf
	if want := sc.Thickness / math.Sin(12*math.Pi/180); math.Abs(sc.Length-want) > 1e-9 || math.Abs(sc.Line.Length()-want) > 1e-9 {
		t.Errorf("scarf %g, line %g, want %g", sc.Length, sc.Line.Length(), want)
	}
	in := geom.IndexOf(geom.Region{sh.Side.Outline})
	for i, y := range []float64{s.Board.First, s.Board.Octave} {
		d := s.Back.Thickness[i] - 6
		if !in.Contains(geom.Pt(d-1e-6, y)) || in.Contains(geom.Pt(d+1e-6, y)) {
			t.Errorf("at y %.3f the back does not lie at %g", y, d)
		}
	}
	if w := sh.Rod.Wood; w.MM < 3 || w.MM > s.Back.Thickness[0]-6-9.5+1e-9 {
		t.Errorf("wood under the rod %+v", w)
	}
	deeper := s
	deeper.Rod = &Rod{Width: 6.35, Depth: 10.5, AccessLength: 20, AccessWidth: 12}
	if d, err := New(deeper); err != nil || !(d.Rod.Wood.MM < sh.Rod.Wood.MM-0.5) {
		t.Errorf("a deeper rod leaves %v (%v)", d, err)
	}
}

// The wood between a square channel and the profile is the least distance of any
// point of the profile, all of them looked at; less than nothing where a corner
// of the channel comes through.
func TestUnderAgainstPoints(t *testing.T) {
	rng := rand.New(rand.NewPCG(11, 4))
	for i := 0; i < 500; i++ {
		p := Profile{Half: 18 + 12*rng.Float64(), Depth: 12 + 5*rng.Float64(), Shoulder: 0.1 + 0.8*rng.Float64()}
		half, depth := 2+3*rng.Float64(), 6+8*rng.Float64()
		least, inside := math.Inf(1), true
		for _, q := range p.Path().Flatten(1e-7) {
			x, y := math.Abs(q.X)-half, -q.Y-depth
			if x <= 0 && y <= 0 {
				inside = false
			}
			least = math.Min(least, math.Hypot(math.Max(x, 0), math.Max(y, 0)))
		}
		got := p.Under(half, depth)
		if inside != (got > 0) || inside && math.Abs(got-least) > 0.01 {
			t.Errorf("%+v, channel %g × %g: %g, by points %g", p, half, depth, got, least)
		}
	}
}

// What cannot be made is refused with the field to blame.
func TestRefused(t *testing.T) {
	for field, change := range map[string]func(*Spec){
		"head.sides":         func(s *Spec) { s.Head.Bass = 4 },
		"head.widths":        func(s *Spec) { s.Head.Widths = &[2]float64{40, 24} },
		"head.length":        func(s *Spec) { s.Head.Length = 100 },
		"rod.length":         func(s *Spec) { s.Rod.Length = 600 },
		"rod.depth":          func(s *Spec) { s.Rod.Depth = 14.6 },
		"head.thickness":     func(s *Spec) { s.Head.Thickness = 9 },
		"head.neck_radius":   func(s *Spec) { s.Head.NeckRadius = Radius{300, true} },
		"back.thickness":     func(s *Spec) { s.Back.Thickness[0] = 10 },
		"back.heel_radius":   func(s *Spec) { s.Back.Sweep = 1 },
		"head.pitch":         func(s *Spec) { s.Head.Kind, s.Head.Bass, s.Head.Treble, s.Head.Pitch = InLine, 6, 0, 5 },
		"back.scarf_blank":   func(s *Spec) { s.Back.Scarf = 10 },
		"heel.corner":        func(s *Spec) { s.Heel.Corner = 40 },
		"back.throat_radius": func(s *Spec) { s.Back.Throat = 4000 },
		"joint.fret":         func(s *Spec) { s.Heel.Joint = s.Board.First + 1; s.Heel.End = s.Heel.Joint - 50 },
		"head.tip_radius":    func(s *Spec) { s.Head.TipRadius = Radius{90, true} },
	} {
		s := common(648, 6, Split)
		change(&s)
		_, err := New(s)
		ps, ok := err.(Problems)
		if !ok || ps[0].Field != field {
			t.Errorf("%s: got %v", field, err)
		}
	}
}
