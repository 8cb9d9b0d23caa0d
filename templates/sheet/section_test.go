package sheet

import (
	"math"
	"math/rand/v2"
	"testing"

	"routwright/geom"
	"routwright/templates/job"
	"routwright/templates/job/jobtest"
	"routwright/templates/part"
	"routwright/templates/space"
)

// Places of random sections lie in cut wood if and only if there is wood there,
// as the parts say by themselves.
func TestSectionsAgreeWithSampling(t *testing.T) {
	j := jobtest.Full(t) // its edge is square: the rim is no part
	rnd := rand.New(rand.NewPCG(2, 6))
	f := func(lo, hi float64) float64 { return lo + (hi-lo)*rnd.Float64() }
	in := 0
	for range 60 {
		l := job.Section{From: geom.Pt(f(-160, 160), f(-110, 300)), To: geom.Pt(f(-160, 160), f(-110, 300))}
		if l.From.Dist(l.To) < 20 {
			continue
		}
		c := cutAlong(j, l)
		if c.Err() != nil || len(c.failed) > 0 {
			t.Fatal(c.Err(), c.failed)
		}
		solid := append([]geom.Region{c.wood}, nil)
		for _, k := range c.keys {
			solid = append(solid, k.region)
		}
		var edges []*geom.Index
		for _, r := range solid {
			edges = append(edges, geom.IndexOf(r))
		}
		for range 400 {
			p := geom.Pt(f(0, c.length), f(-j.Thickness-2, 2))
			got, near := false, math.Inf(1)
			for i, r := range solid {
				if r.Empty() {
					continue
				}
				got = got || edges[i].Contains(p)
				_, d := edges[i].Closest(p)
				near = math.Min(near, d)
			}
			if got {
				in++
			}
			if got != part.WoodAt(j.Parts, c.plane.At(p)) && near > 2*geom.CurveToArc {
				t.Fatalf("%v–%v at %v: in the section %v, %g mm from an edge", l.From, l.To, p, got, near)
			}
		}
	}
	if in < 5000 {
		t.Errorf("only %d places lay in wood", in)
	}
}

// The rim of a straight edge cut square is the profile itself: a quarter circle
// of area r²(1 − π/4), a chamfer of r²/2, off four corners.
func TestSectionOfTheWorkedEdge(t *testing.T) {
	j := jobtest.Demo(t)
	j.Outline = geom.Region{geom.Rect(geom.Pt(0, 0), 300, 400)}
	j.Parts = []part.Part{{Kind: part.Body, Adds: true, Solids: []part.Solid{{Plan: j.Outline, Floor: part.Level(j.Thickness)}}}}
	l := job.Section{From: geom.Pt(-170, 20), To: geom.Pt(170, 20)}
	const r = 6.0
	for _, c := range []struct {
		name string
		edge space.Profile
		off  float64
	}{
		{"square", space.Profile{}, 0},
		{"rounded", space.Profile{Roundover: r}, 4 * r * r * (1 - math.Pi/4)},
		{"chamfered", space.Profile{Chamfer: r}, 4 * r * r / 2},
	} {
		j.Edge = space.NewEdge(j.Outline, j.Thickness, c.edge, c.edge)
		got := 300*j.Thickness - cutAlong(j, l).wood.Area()
		if math.Abs(got-c.off) > 0.02*math.Max(1, c.off) {
			t.Errorf("%s: %.3f mm² off the corners, want %.3f", c.name, got, c.off)
		}
	}
}

// The measures of a section are those of the design: the tail pickup 19 deep in
// a body of 44.5 leaves 25.5 under it.
func TestSectionMeasures(t *testing.T) {
	j := jobtest.Demo(t)
	c := cutAlong(j, job.Section{From: geom.Pt(-150, 42), To: geom.Pt(60, 42)})
	texts := map[string]bool{}
	for _, d := range c.dims(j) {
		texts[d.Text] = true
	}
	if !texts["44.5"] || !texts["25.5"] {
		t.Errorf("dimensions %v, want 44.5 and 25.5 among them", texts)
	}
	deep := false
	for _, l := range c.labels(j) {
		deep = deep || l.S == "pickup cavity tail, 19 deep"
	}
	if !deep {
		t.Errorf("labels %v", c.labels(j))
	}
}

// The section through the thinnest wood passes its place, whether the wood is a
// floor or a wall.
func TestThinnestSection(t *testing.T) {
	for _, left := range []float64{6.6, 2} {
		j := jobtest.Demo(t)
		j.Parts = append(j.Parts, part.Part{ID: "p", Name: "deep", Kind: part.Post,
			Bores: []part.Bore{part.Down(geom.Pt(-30, 100), part.Front, j.Thickness-left, 8, j.Thickness, "post")}})
		cs := cutsOf(j)
		if !cs.found {
			t.Fatal("no section")
		}
		l := cs.lines[len(cs.lines)-1]
		mid := cs.least.A.Lerp(cs.least.B, 0.5).Flat()
		if d := math.Abs(l.To.Sub(l.From).Unit().Cross(mid.Sub(l.From))); d > 1e-6 {
			t.Errorf("the section passes the place by %g mm", d)
		}
	}
}

// A section that stays in the wood ends in narrow lines, one that leaves it does
// not.
func TestEndsOfASection(t *testing.T) {
	j := jobtest.Demo(t)
	count := func(l job.Section) int {
		n := 0
		for _, g := range cutAlong(j, l).sheet(j, 0).Groups {
			for _, s := range g.Shapes {
				if s.Title == "the section ends here, the wood does not" {
					n++
				}
			}
		}
		return n
	}
	if n := count(job.Section{From: geom.Pt(-200, -60), To: geom.Pt(0, -60)}); n != 1 {
		t.Errorf("one end in the wood: %d", n)
	}
	if n := count(job.Section{From: geom.Pt(-200, -60), To: geom.Pt(220, -60)}); n != 0 {
		t.Errorf("no end in the wood: %d", n)
	}
}

func TestSectionNames(t *testing.T) {
	for n, want := range map[int]string{0: "A", 25: "Z", 26: "AA", 27: "AB", 51: "AZ", 52: "BA", 701: "ZZ", 702: "AAA"} {
		if got := letter(n); got != want {
			t.Errorf("%d: %s, want %s", n, got, want)
		}
	}
	if id := SectionID(27); id != "section-ab" || !MarksOnly(id) {
		t.Error(id)
	}
}
