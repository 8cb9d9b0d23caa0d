package sheet

import (
	"math"
	"strings"
	"testing"

	"routwright/geom"
	"routwright/render"
	"routwright/templates/job/jobtest"
)

func group(t *testing.T, s render.Sheet, id string) render.Group {
	t.Helper()
	for _, g := range s.Groups {
		if g.ID == id {
			return g
		}
	}
	t.Fatalf("no group %s", id)
	return render.Group{}
}

func bounds(g render.Group) geom.Box {
	var b geom.Box
	for _, s := range g.Shapes {
		b = b.Union(s.Path.Bounds())
	}
	return b
}

// Every view is as large as the body over the scale that is stated, and all
// stand beside one another at one height.
func TestViewsAreToScale(t *testing.T) {
	j := full(t)
	s := Views(j)
	body := j.Outline.Bounds()
	if s.View != "Scale 1 : 5" {
		t.Errorf("a body of %.0f × %.0f at %s", body.W(), body.H(), s.View)
	}
	last := math.Inf(-1)
	for _, v := range []struct {
		id   string
		wide float64
	}{{"view-low", j.Thickness}, {"view-front", body.W()}, {"view-high", j.Thickness}, {"view-back", body.W()}} {
		b := bounds(group(t, s, v.id))
		if math.Abs(b.W()-v.wide/5) > 1e-6 || math.Abs(b.H()-body.H()/5) > 1e-6 || math.Abs(b.Min.Y) > 1e-6 {
			t.Errorf("%s is %.3f × %.3f at %.3f", v.id, b.W(), b.H(), b.Min.Y)
		}
		if b.Min.X <= last {
			t.Errorf("%s overlaps the view before it", v.id)
		}
		last = b.Max.X
	}
}

// The jack is seen from the treble side only, as an ellipse as high as the bore
// is wide; the horn that stands before the other ends in one line on the side of
// the shorter horn.
func TestSideViews(t *testing.T) {
	j := full(t)
	s := Views(j)
	count := func(id, title string) (n int, b geom.Box) {
		for _, e := range group(t, s, id).Shapes {
			if e.Title == title {
				n++
				b = b.Union(e.Path.Bounds())
			}
		}
		return n, b
	}
	if n, _ := count("view-low", "jack"); n != 0 {
		t.Error("the jack is seen from the bass side")
	}
	n, b := count("view-high", "jack")
	if n != 1 || math.Abs(b.W()-22.0/5) > 1e-3 || b.H() > b.W() {
		t.Errorf("the jack from the treble side: %d, %.3f × %.3f", n, b.W(), b.H())
	}
	low, _ := count("view-low", "end of what stands before the rest")
	high, b := count("view-high", "end of what stands before the rest")
	if low != 0 || high != 1 {
		t.Errorf("ends of what stands before: %d from the bass side, %d from the treble side", low, high)
	}
	// The treble horn ends where the outline turns at the top on that side.
	tip := 0.0
	for _, e := range j.Outline[0] {
		if m := e.Bounds().Max; e.A.X > 60 && e.B.X > 60 {
			tip = math.Max(tip, m.Y)
		}
	}
	if got := b.Min.Y*5 + j.Outline.Bounds().Min.Y; math.Abs(got-tip) > 1e-3 {
		t.Errorf("the horn ends at %.4f, want %.4f", got, tip)
	}
}

// A cover hides its cavity from the back; the holes of its screws are in sight.
func TestCoverHidesItsCavity(t *testing.T) {
	j := full(t)
	seen := map[string]bool{}
	for _, e := range group(t, Views(j), "view-back").Shapes {
		seen[e.Title] = true
	}
	if seen[`back cavity "control"`] || !seen[`cover "control"`] || !seen["cover screw, through"] || seen["cover screw, pilot"] {
		t.Errorf("seen from the back: %v", seen)
	}
}

// Left-handed the bass side is the other one, in words and in place.
func TestViewsLeftHanded(t *testing.T) {
	j := jobtest.Demo(t)
	j.Design.Hand.V = "left"
	s := Views(j)
	if w := group(t, s, "view-low").Texts[0].S; !strings.Contains(w, "treble") {
		t.Errorf("seen from −X: %s", w)
	}
}
