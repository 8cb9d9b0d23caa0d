package holes

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"routwright/geom"
	"routwright/templates/job"
	"routwright/templates/job/jobtest"
	"routwright/templates/part"
)

func byNumber(l List, words string) []Hole {
	var out []Hole
	for _, h := range l.Holes {
		if h.Words == words {
			out = append(out, h)
		}
	}
	return out
}

// What the list says of the test body, hole by hole, against the measures that
// the body was made with.
func TestHoles(t *testing.T) {
	j := jobtest.Full(t)
	l := Of(j)
	cases := []struct {
		words   string
		count   int
		from    Side
		depth   string
		through bool
		toward  string
	}{
		{"string hole", 6, FromFront, "through", true, ""},
		{"ferrule", 6, FromBack, "10 deep", false, ""},
		{"bridge post", 2, FromFront, "24 deep", false, ""},
		{"volume shaft", 1, FromFront, "through", true, ""},
		{"neck screw, clearance", 4, FromBack, "into the cavity", false, ""},
		{"cover screw, pilot", 4, FromBack, "10 deep", false, ""},
		{"wire channel", 1, FromInside, "into the cavity", false, "towards the tail, 50.44° to the treble side"}, // atan(46/38)
		{"jack", 1, FromEdge, "into the cavity", false, "towards the tail, 65.96° to the bass side"},
	}
	for _, c := range cases {
		hs := byNumber(l, c.words)
		if len(hs) != c.count {
			t.Errorf("%s: %d holes, want %d", c.words, len(hs), c.count)
			continue
		}
		h := hs[0]
		if h.From != c.from || h.DepthWords() != c.depth || h.Through() != c.through || h.Toward != c.toward {
			t.Errorf("%s: from the %s, %s, through %v, %q; want %s, %s, %v, %q", c.words, h.From, h.DepthWords(), h.Through(), h.Toward, c.from, c.depth, c.through, c.toward)
		}
	}
	if h := byNumber(l, "cover screw, pilot")[0]; math.Abs(h.Start-2.6) > 1e-9 {
		t.Errorf("a pilot in the rebate starts %g mm down, want 2.6", h.Start)
	}
}

// A string hole and its ferrule lie on one axis: one number, six in a row of
// 10.4, the spread of 52 over five spaces.
func TestRowsAndNumbers(t *testing.T) {
	l := Of(jobtest.Full(t))
	holes, ferrules := byNumber(l, "string hole"), byNumber(l, "ferrule")
	for i := range holes {
		if holes[i].Number != ferrules[i].Number {
			t.Errorf("string hole %d and its ferrule %d", holes[i].Number, ferrules[i].Number)
		}
		if i > 0 && holes[i].Number != holes[i-1].Number+1 {
			t.Errorf("hole %d after %d", holes[i].Number, holes[i-1].Number)
		}
	}
	if len(l.Rows) != 2 {
		t.Fatalf("%d rows, want the holes and the ferrules", len(l.Rows))
	}
	for _, r := range l.Rows {
		if math.Abs(r.Pitch-52.0/5) > 1e-9 || r.Last-r.First != 5 {
			t.Errorf("row of %d, pitch %g", r.Last-r.First+1, r.Pitch)
		}
	}
}

// Three holes make a row, and only if the middle one lies within even of the
// middle.
func TestRowTolerance(t *testing.T) {
	for _, c := range []struct {
		off  float64
		rows int
	}{{0, 1}, {even / 4, 1}, {even, 0}} {
		j := jobtest.Demo(t)
		p := part.Part{ID: "row", Kind: part.Screw}
		for _, x := range []float64{0, 10 + c.off, 20} {
			p.Bores = append(p.Bores, part.Down(geom.Pt(x, 0), part.Front, 5, 2, j.Thickness, "screw"))
		}
		j.Parts = append(j.Parts, p)
		if got := len(Of(j).Rows); got != c.rows {
			t.Errorf("middle hole off by %g: %d rows, want %d", c.off, got, c.rows)
		}
	}
}

// Every hole opens the faces that its ends reach, and is on the map of each and
// of the face it is drilled from.
func TestOnFace(t *testing.T) {
	l := Of(jobtest.Full(t))
	on := [2]map[int]bool{{}, {}}
	for f := range on {
		for _, i := range l.OnFace(part.Face(f)) {
			on[f][i] = true
		}
	}
	for i, h := range l.Holes {
		aside := h.From == FromEdge || h.From == FromInside
		for f := range on {
			if want := !aside && (h.Opens[f] || h.From == Side(f)); on[f][i] != want {
				t.Errorf("%s on the map of the %s: %v, want %v", h.Words, part.Face(f), on[f][i], want)
			}
		}
	}
}

// Left-handed, every hole keeps its number and every place its words.
func TestLeftHanded(t *testing.T) {
	right, left := jobtest.Full(t), mirrored(jobtest.Full(t))
	a, b := Of(right), Of(left)
	if len(a.Holes) != len(b.Holes) {
		t.Fatal("another number of holes")
	}
	for i := range a.Holes {
		p, q := a.Holes[i], b.Holes[i]
		pp, pq := PlaceOf(right, p.Bore.From.Flat()), PlaceOf(left, q.Bore.From.Flat())
		if p.Number != q.Number || p.Words != q.Words || p.Toward != q.Toward || fmt.Sprintf("%.6f", pp) != fmt.Sprintf("%.6f", pq) || pp.CentreWords() != pq.CentreWords() {
			t.Errorf("right %d %s %v %q, left %d %s %v %q", p.Number, p.Words, pp, p.Toward, q.Number, q.Words, pq, q.Toward)
		}
	}
}

// mirrored reflects the body of a job across the centre line.
func mirrored(j *job.Job) *job.Job {
	m := geom.MirrorX()
	j.Design.Hand.V = "left"
	j.Outline, j.Blank = m.Region(j.Outline), m.Region(j.Blank)
	for i, p := range j.Parts {
		solids := append([]part.Solid(nil), p.Solids...)
		for k := range solids {
			solids[k].Plan = m.Region(solids[k].Plan)
			solids[k].Top.DX, solids[k].Floor.DX = -solids[k].Top.DX, -solids[k].Floor.DX
		}
		bores := append([]part.Bore(nil), p.Bores...)
		for k := range bores {
			bores[k].From.X, bores[k].To.X = -bores[k].From.X, -bores[k].To.X
		}
		j.Parts[i].Solids, j.Parts[i].Bores = solids, bores
	}
	return j
}

// Measured from the squared slab's corner as with a rule: the place plus the
// slab's half width, on the side of the bass.
func TestPlaceFromTheSlab(t *testing.T) {
	j := jobtest.Demo(t)
	b := j.Blank.Bounds()
	p := PlaceOf(j, geom.Pt(-26, -16))
	if p.Bass != -26-b.Min.X || p.Tail != -16-b.Min.Y || p.CentreWords() != "26 bass" {
		t.Errorf("%+v %s", p, p.CentreWords())
	}
	if w := PlaceOf(j, geom.Pt(0, 5)).CentreWords(); w != "0" {
		t.Errorf("on the centre line: %s", w)
	}
}

func TestTowards(t *testing.T) {
	j := jobtest.Demo(t)
	for v, want := range map[geom.Vec]string{
		{Y: 1}: "towards the neck", {Y: -1}: "towards the tail", {X: 1}: "towards the treble side", {X: -3}: "towards the bass side",
		{X: 1, Y: 1}: "towards the neck, 45° to the treble side", {X: -1, Y: -1}: "towards the tail, 45° to the bass side",
	} {
		if got := Towards(j, v); got != want {
			t.Errorf("%v: %s, want %s", v, got, want)
		}
	}
}

// A bore of no length or no diameter is no hole; a cover's holes are not the
// body's.
func TestNoHoles(t *testing.T) {
	j := jobtest.Demo(t)
	for i := range j.Parts {
		j.Parts[i].Bores = nil
	}
	j.Parts = append(j.Parts,
		part.Part{ID: "a", Kind: part.Screw, Bores: []part.Bore{{D: 3}, {To: part.Point{Z: 5}}}},
		part.Part{ID: "b", Kind: part.Cover, Adds: true, Bores: []part.Bore{{To: part.Point{Z: 5}, D: 3}}})
	if l := Of(j); len(l.Holes) != 0 {
		var w []string
		for _, h := range l.Holes {
			w = append(w, h.Words)
		}
		t.Errorf("holes: %s", strings.Join(w, ", "))
	}
}
