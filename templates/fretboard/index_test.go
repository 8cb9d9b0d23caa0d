package fretboard

import (
	"errors"
	"math"
	"math/rand/v2"
	"strconv"
	"testing"

	"routwright/geom"
)

// seats reads the notches back from the outline as a maker would cut it: for
// each round bottom the side nearest the bridge, from the nut down.
func seats(t *testing.T, plate geom.Path) (bass, treble []geom.Seg) {
	t.Helper()
	for i, s := range plate {
		if !s.IsArc() {
			continue
		}
		if s.Center.X < 0 { // the outline runs down this edge
			bass = append(bass, plate[i+1])
		} else {
			treble = append([]geom.Seg{plate[i-1].Reversed()}, treble...)
		}
	}
	return bass, treble
}

// The strip or carrier, the pins pressed against the notches' sides and the kerf
// composed: the slots come out at scale·(1 − 2^(−n/12)) along the outer strings,
// whatever pin, play, offset and kerf.
func TestIndexRecoversSlots(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	worst, made := 0.0, 0
	for made < 300 {
		s := Common(300+500*r.Float64(), 12+r.IntN(13), 4+r.IntN(6))
		if r.IntN(2) == 0 {
			s.Fan = &Fan{Bass: s.Scale * (1 + 0.08*r.Float64()), Treble: s.Scale, Square: -2 + 16*r.Float64()}
		}
		s.Slot.Kerf = 0.4 + 0.4*r.Float64()
		b, err := New(s)
		if err != nil {
			continue
		}
		spec := IndexSpec{Pin: 1 + 5*r.Float64(), Offset: -60 + 120*r.Float64(), Play: 0.2 * r.Float64()}
		x, err := b.NewIndex(spec)
		if err != nil {
			t.Fatal(err)
		}
		if x.Web <= 0.1 {
			continue // notches run into one: no outline to read
		}
		made++
		if err := x.Plate.Check(); err != nil || x.Plate.Area() <= 0 || !x.Plate.Closed() {
			t.Fatalf("outline: %v, area %g", err, x.Plate.Area())
		}
		bass, treble := seats(t, x.Plate)
		if len(bass) != len(x.Seats) || x.Two && len(treble) != len(bass) || !x.Two && len(treble) != 0 {
			t.Fatalf("%d and %d notches for %d seats", len(bass), len(treble), len(x.Seats))
		}
		for i, seat := range x.Seats {
			w := bass[i]
			u := w.B.Sub(w.A).Unit()
			if u.X < 0 {
				u = u.Neg()
			}
			if x.Two { // both sides lie on one line, so both pins bear
				if d := math.Abs(u.Cross(treble[i].A.Sub(w.A))); d > 1e-9 {
					t.Fatalf("seat %s: the pins' sides lie %g mm apart", seat.Name, d)
				}
			}
			if !x.Two && u.Y != 0 {
				t.Fatalf("seat %s: not square to the fence", seat.Name)
			}
			saw := w.A.Add(u.Left().Mul(spec.Pin/2 + spec.Offset)) // the middle of the kerf
			off := func(p geom.Point) float64 { return u.Cross(p.Sub(saw)) }
			if seat.Name == "nut" { // the kerf's near side leaves the nut's edge
				for _, p := range []geom.Point{b.NutEdge.A, b.NutEdge.B} {
					if d := math.Abs(off(p) + s.Slot.Kerf/2); d > 1e-9 {
						t.Fatalf("nut: the edge comes out %g mm off", d)
					}
				}
				continue
			}
			n, err := strconv.ParseFloat(seat.Name, 64)
			if err != nil {
				t.Fatal(err)
			}
			f := 1 - math.Pow(2, -n/12)
			for _, l := range []StringLine{b.Bass(), b.Treble()} {
				worst = math.Max(worst, math.Abs(off(l.Nut.Lerp(l.Saddle, f))))
			}
		}
	}
	if worst > 1e-6 {
		t.Errorf("a slot comes out %g mm off its place", worst)
	}
	t.Logf("300 boards, worst %.2g mm", worst)
}

// Bored holes: the pins of a seat stand Span apart, and the saw lies on its slot.
func TestIndexHoles(t *testing.T) {
	for _, spec := range []Spec{plain(), fanned()} {
		b, err := New(spec)
		if err != nil {
			t.Fatal(err)
		}
		x, err := b.NewIndex(IndexSpec{Holes: true, Offset: 25})
		if err != nil {
			t.Fatal(err)
		}
		if x.Web < indexWeb || x.Spec.Pin == 0 {
			t.Errorf("pin %g leaves %g mm", x.Spec.Pin, x.Web)
		}
		for _, s := range x.Seats {
			for _, h := range s.Holes {
				if d := math.Abs(side(s.Cut, h) + 25); d > 1e-9 {
					t.Errorf("seat %s: %g mm off", s.Name, d)
				}
				if inBoard(b, h) {
					t.Errorf("seat %s: a hole under the board", s.Name)
				}
			}
			if x.Two && math.Abs(s.Holes[0].Dist(s.Holes[1])-x.Spec.Span) > 1e-9 {
				t.Errorf("seat %s: pins %g mm apart, want %g", s.Name, s.Holes[0].Dist(s.Holes[1]), x.Spec.Span)
			}
		}
	}
}

func TestBadIndex(t *testing.T) {
	one, _ := New(plain())
	fan, _ := New(fanned())
	for _, tt := range []struct {
		b     *Board
		s     IndexSpec
		field string
	}{
		{one, IndexSpec{Pin: -1}, "index.pin"}, {one, IndexSpec{Offset: math.NaN()}, "index.offset"}, {one, IndexSpec{Play: 2}, "index.play"},
		{one, IndexSpec{Span: 120}, "index.span"}, {fan, IndexSpec{Span: 40}, "index.span"},
	} {
		_, err := tt.b.NewIndex(tt.s)
		var ps Problems
		if !errors.As(err, &ps) || ps[0].Field != tt.field {
			t.Errorf("%+v: %v, want %s", tt.s, err, tt.field)
		}
	}
}
