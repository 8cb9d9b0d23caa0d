package cut_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"routwright/geom"
	"routwright/templates/cut"
	"routwright/templates/tool"
)

// sheeted is a template with a round or other opening in a sheet.
func sheeted(open geom.Region, sheet geom.Region, tl tool.Tool) cut.Template {
	return cut.Template{ID: "t", For: level(open), Shape: open, Blank: sheet, Tool: tl, Sheet: 18}
}

func sweep(t *testing.T, tpl cut.Template, base float64) cut.Sweep {
	t.Helper()
	s, err := cut.NewSweep(tpl, base)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// Closed forms of what hangs over: all of a small opening under the base,
// a²/R² of it; a half plane at distance h, the circular segment; nothing where the
// sheet goes on.
func TestHangs(t *testing.T) {
	large := geom.Region{geom.Rect(geom.Pt(0, 0), 1000, 1000)}
	tl := bearing(6, 6)
	s := sweep(t, sheeted(geom.Region{geom.Circle(geom.Pt(0, 0), 30)}, large, tl), 150)
	if got, want := s.Hangs(geom.Pt(0, 0)), 30.0*30/75/75; math.Abs(got-want) > 1e-9 {
		t.Errorf("over an opening of 30 %g of the base hang over, want %g", got, want)
	}
	// Wherever the middle goes, the opening stays under the base.
	if w := s.Worst(); math.Abs(w.Share-0.16) > 1e-9 {
		t.Errorf("worst %+v, want 0.16", w)
	}
	if got := s.Hangs(geom.Pt(200, 200)); math.Abs(got) > 1e-9 {
		t.Errorf("in the middle of the sheet %g hang over", got)
	}
	// A male template with a long straight edge, followed by a bearing of 6: the
	// middle stands 3 outside it.
	male := cut.Template{ID: "m", Male: true, For: level(nil), Shape: geom.Region{geom.Rect(geom.Pt(0, -250), 1000, 500)}, Tool: tl, Sheet: 18}
	m := sweep(t, male, 150)
	a := 2 * math.Acos(3.0/75)
	want := 1 - (a-math.Sin(a))/(2*math.Pi)
	if got := m.Hangs(geom.Pt(0, 3)); math.Abs(got-want) > 1e-9 {
		t.Errorf("beside a straight edge %g hang over, want %g", got, want)
	}
	// Its corners are the worst: there three quarters and more hang over.
	if w := m.Worst(); w.Share < 0.75 || w.Share > 0.85 {
		t.Errorf("worst %+v", w)
	}
	if s, err := cut.NewSweep(sheeted(large, nil, free(6)), 150); err != nil || s.Base != 0 {
		t.Errorf("a free path has a sweep: %+v (%v)", s, err)
	}
}

// The exact share agrees with counted points of a fine grid, in any pose.
func TestHangsByCounting(t *testing.T) {
	const seed = 31
	rnd := rand.New(rand.NewPCG(seed, 0))
	for i := range 12 {
		open := geom.Region{geom.RoundedRect(geom.Pt(0, 0), 40+60*rnd.Float64(), 30+40*rnd.Float64(), 7)}
		b := open.Bounds()
		sheet := geom.Region{geom.Rect(geom.Pt(0, 0), b.W()+80, b.H()+60)}
		place := geom.Pose(geom.Pt(3, 4), geom.Angle(rnd.Float64()))
		s := sweep(t, sheeted(place.Region(open), place.Region(sheet), bearing(6, 6)), 150)
		p := place.Point(geom.Pt(b.W()*(rnd.Float64()-0.5), b.H()*(rnd.Float64()-0.5)))
		in, all := 0, 0
		const n = 400
		for x := range n {
			for y := range n {
				q := geom.Vec{X: (float64(x)+0.5)/n*150 - 75, Y: (float64(y)+0.5)/n*150 - 75}
				if q.Len() > 75 {
					continue
				}
				all++
				if s.Support.Contains(p.Add(q)) {
					in++
				}
			}
		}
		if got, want := s.Hangs(p), 1-float64(in)/float64(all); math.Abs(got-want) > 2e-3 {
			t.Errorf("seed %d, case %d: %.4f, counted %.4f", seed, i, got, want)
		}
	}
}

// No place of a fine grid is worse than the worst that was found.
func TestWorstIsTheWorst(t *testing.T) {
	const seed = 32
	rnd := rand.New(rand.NewPCG(seed, 0))
	for i := range 12 {
		open := geom.Region{geom.Polygon(geom.Pt(0, 0), geom.Pt(60+20*rnd.Float64(), 10), geom.Pt(70, 60+40*rnd.Float64()), geom.Pt(20, 50), geom.Pt(-10, 90*rnd.Float64()+60))}
		s := sweep(t, sheeted(open, cut.SheetRound(open.Bounds(), 40), bearing(6, 6)), 150)
		w := s.Worst()
		b := s.Centre.Bounds()
		for x := b.Min.X; x < b.Max.X; x += 1.5 {
			for y := b.Min.Y; y < b.Max.Y; y += 1.5 {
				p := geom.Pt(x, y)
				if !s.Centre.Contains(p) {
					continue
				}
				if h := s.Hangs(p); h > w.Share+1e-3 {
					t.Errorf("seed %d, case %d: %.4f at %v, worse than %.4f at %v", seed, i, h, p, w.Share, w.At)
				}
			}
		}
	}
}

// How far something proud stays clear: inside an opening of half width 30 the
// middle of a bearing of 6 goes to 27, the base of 150 to 102, a pin of 8 at 110
// stays 4 clear; one in the opening itself is hit by all of it.
func TestClear(t *testing.T) {
	open := geom.Region{geom.Rect(geom.Pt(0, 0), 60, 60)}
	s := sweep(t, sheeted(open, cut.SheetRound(open.Bounds(), 200), bearing(6, 6)), 150)
	for _, tt := range []struct{ x, want float64 }{{110, 4}, {106, 0}, {90, -16}, {0, -79}} {
		if got := s.Clear(cut.Proud{At: geom.Pt(tt.x, 0), D: 8}); math.Abs(got-tt.want) > 1e-9 {
			t.Errorf("at %g: clear by %g, want %g", tt.x, got, tt.want)
		}
	}
	under, err := s.Under()
	if b := under.Bounds(); err != nil || math.Abs(b.Max.X-102) > 1e-6 {
		t.Errorf("the base reaches %g, want 102 (%v)", b.Max.X, err)
	}
	// Round a male template of half width 30 the middle runs along 33: a pin in
	// the middle of it is reached from there, at a half width of 90 not.
	for half, want := range map[float64]float64{30: 33 - 4 - 75, 90: 93 - 4 - 75} {
		male := cut.Template{ID: "m", Male: true, Shape: geom.Region{geom.Rect(geom.Pt(0, 0), 2*half, 2*half)}, Tool: bearing(6, 6), Sheet: 18}
		m := sweep(t, male, 150)
		if got := m.Clear(cut.Proud{D: 8}); math.Abs(got-want) > 1e-9 {
			t.Errorf("male of %g: clear by %g, want %g", half, got, want)
		}
	}
}

// A sheet is made as wide as the base needs, and no wider.
func TestCarried(t *testing.T) {
	open := geom.Region{geom.Rect(geom.Pt(0, 0), 90, 60)}
	tpl := sheeted(open, nil, bearing(6, 6))
	round := func(web float64) geom.Region { return cut.SheetRound(open.Bounds(), web) }
	on, ok, err := cut.Carried(tpl, 150, 20, round)
	if err != nil || !ok {
		t.Fatalf("%v, %v", ok, err)
	}
	if w := sweep(t, on, 150).Worst().Share; w > 0.4 {
		t.Errorf("%.3f hang over", w)
	}
	web := (on.Blank.Bounds().W() - 90) / 2
	narrower := tpl
	narrower.Blank = round(web - 5)
	if w := sweep(t, narrower, 150).Worst().Share; web > 20 && w <= 0.4 {
		t.Errorf("a web of %g would have done for %g", web-5, web)
	}
	// An opening twice as large as the base is beyond help: the sheet carries about
	// what any does, the half of the base that lies beyond its edge.
	huge := geom.Region{geom.Rect(geom.Pt(0, 0), 300, 300)}
	on, ok, err = cut.Carried(sheeted(huge, nil, bearing(6, 6)), 150, 20, func(web float64) geom.Region { return cut.SheetRound(huge.Bounds(), web) })
	if w := sweep(t, on, 150).Worst().Share; err != nil || ok || w < 1-1e-9 {
		t.Errorf("%v, %v, %.3f hang over in the middle", ok, err, w)
	}
	slot := geom.Region{geom.Rect(geom.Pt(0, 0), 300, 90)}
	on, ok, err = cut.Carried(sheeted(slot, nil, bearing(6, 6)), 150, 20, func(web float64) geom.Region { return cut.SheetRound(slot.Bounds(), web) })
	all := sheeted(slot, cut.SheetRound(slot.Bounds(), 500), bearing(6, 6))
	if w, best := sweep(t, on, 150).Worst().Share, sweep(t, all, 150).Worst().Share; err != nil || ok || w > best+0.05 {
		t.Errorf("%v, %v: %.3f hang over, %.3f with a sheet without end", ok, err, w, best)
	}
}
