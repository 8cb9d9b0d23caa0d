package job_test

import (
	"math"
	"strings"
	"testing"

	"routwright/geom"
	"routwright/templates/design"
	"routwright/templates/job"
	"routwright/templates/job/jobtest"
	"routwright/templates/limit"
)

// handles lists the templates that have a handle block.
func handles(j *job.Job) string {
	var ids []string
	for _, h := range j.Jigs.Handles {
		ids = append(ids, j.Templates[h.Template].ID)
	}
	return strings.Join(ids, " ")
}

// Every design has the jigs that serve it, and no others.
func TestWhichJigs(t *testing.T) {
	for _, c := range []struct {
		name, handles            string
		plate, neck, cauls, jack bool
	}{
		{"designs/leat.toml", "cover-control", true, false, false, true},
		{"designs/penstock.toml", "cover-control", true, true, false, true},
		{"designs/sluicegate.toml", "cover-control", true, false, false, true},
		{"designs/spillway.toml", "cover-control", true, false, false, true},
		{"designs/tailwater.toml", "cover-control", true, false, false, true},
		{"millrace.toml", "cover-control key", true, false, true, true},
	} {
		j := jobtest.File(t, c.name)
		g := j.Jigs
		if got := handles(j); got != c.handles {
			t.Errorf("%s: handle blocks for %q, want %q", c.name, got, c.handles)
		}
		if (g.Outrigger != nil) != c.plate || (g.Neck != nil) != c.neck || (g.Cauls != nil) != c.cauls || (g.Cradle != nil) != c.jack {
			t.Errorf("%s: outrigger %v, neck caul %v, edge cauls %v, cradle %v", c.name, g.Outrigger != nil, g.Neck != nil, g.Cauls != nil, g.Cradle != nil)
		}
	}
}

// What does not serve is left out: no block where the router is held by hand, no plate
// where the base is carried and none is given, no caul where the neck is screwed on.
func TestJigsLeftOut(t *testing.T) {
	if j := jobtest.File(t, "millrace.toml", `outside = "table"`, `outside = "hand"`); len(j.Jigs.Handles) > 0 {
		t.Errorf("blocks for %s, with the router held by hand", handles(j))
	}
	if j := jobtest.File(t, "designs/sluicegate.toml", "outrigger = 240\n", ""); j.Jigs.Outrigger != nil {
		t.Errorf("a plate of %v that no opening needs", j.Jigs.Outrigger.D)
	}
	if j := jobtest.File(t, "designs/penstock.toml", `join = "glued"`, `join = "bolted"`); j.Jigs.Neck != nil {
		t.Error("a caul for a neck that is screwed on")
	}
	if j := jobtest.File(t, "designs/sluicegate.toml", "[jack]\nside = \"treble\"\ny = -62\n", ""); j.Jigs.Cradle != nil {
		t.Error("a cradle without a jack")
	}
}

// A plate that the program proposes carries the router once the design gives it, and one
// step less does not.
func TestPlateProposed(t *testing.T) {
	j := jobtest.File(t, "millrace.toml", "outrigger = 240\n", "")
	o := j.Jigs.Outrigger
	if o == nil || o.Given || len(o.Over) == 0 {
		t.Fatalf("no plate proposed: %+v", o)
	}
	for _, e := range o.Over {
		if e.Alone.Share <= limit.BaseOverhang || e.With.Share > limit.BaseOverhang {
			t.Errorf("%s: alone %.3f, with the plate %.3f", j.Templates[e.Template].ID, e.Alone.Share, e.With.Share)
		}
	}
	if o.D < o.Rule {
		t.Errorf("a plate of %v, by the rule at least %v", o.D, o.Rule)
	}
	j = jobtest.File(t, "millrace.toml", "outrigger = 240", "outrigger = "+design.MM(o.D))
	for i, s := range j.Sweeps {
		if w := s.Worst().Share; !j.Templates[i].Male && w > limit.BaseOverhang {
			t.Errorf("%s: %.3f of a plate of %v hangs over", j.Templates[i].ID, w, s.Base)
		}
	}
	p := j.Jigs.Outrigger
	if !p.Given || p.D != o.D || len(p.Over) != len(o.Over) || math.Abs(p.Over[0].With.Share-o.Over[0].With.Share) > 1e-9 {
		t.Errorf("given it is another: %+v, proposed %+v", p, o)
	}
}

// The bush of 17 stands out 8 mm and must keep 3 on the template: the plate may be 5 mm
// thicker. A bit that reaches less than its cut and the template is told.
func TestPlateThickness(t *testing.T) {
	o := jobtest.File(t, "millrace.toml").Jigs.Outrigger
	if math.Abs(o.Thicker-5) > 1e-9 || !strings.Contains(o.By, "bush 17") {
		t.Errorf("%v mm thicker, by %q", o.Thicker, o.By)
	}
	if o.Hole != 23 {
		t.Errorf("hole %v, want 17 and twice 3", o.Hole)
	}
	// Reach 25, template 18, rebate 2.6 deep: 4.4.
	o = jobtest.File(t, "millrace.toml", "d = 6\ncut = 32\n", "d = 6\ncut = 32\nreach = 25\n").Jigs.Outrigger
	if math.Abs(o.Thicker-4.4) > 1e-9 || !strings.Contains(o.By, "spiral") {
		t.Errorf("%v mm thicker, by %q", o.Thicker, o.By)
	}
}

// The block of the key: by hand, a key of 12 with 1 to come off and 1.5 proud is trimmed
// 14.5 high; a screw of 30 through 18 of block has 12 in 14 of waste; the tip stands
// between 18 + 14.5 + 1 and 18 + 14.5 + 14 − 2. A cutter of 12 is set twice.
func TestHandleOfTheKey(t *testing.T) {
	j := jobtest.File(t, "millrace.toml")
	h := j.Jigs.Handles[1]
	if h.Height != 14.5 || h.Waste != 14 || h.Tip != [2]float64{33.5, 44.5} || h.Lifts != 2 || h.Short != 0 || h.Above {
		t.Errorf("%+v", h)
	}
	if k := h.Screw; k == nil || k.Gauge != 6 || k.Length != 30 || k.Through != 3.8 {
		t.Errorf("screw %+v", k)
	}
	// 3 keys of 14.5 and 2 kerfs of 1.5.
	if got := j.KeyBlank(3); got != 46.5 {
		t.Errorf("blank of three: %v", got)
	}
	if h := j.Jigs.Handles[0]; h.Screw != nil || h.PackerTall != 6 || h.Packer.Empty() || h.Tip != [2]float64{21.5, 24.5} {
		t.Errorf("cover: %+v", h)
	}
	// With the bearing at the tip the template lies on the cover, and needs no packer.
	j = jobtest.File(t, "millrace.toml", "[[bit]]\nname = \"pattern\"", "[[bit]]\nname = \"flush\"\nd = 16\ncut = 25\nbearing = {d = 16, height = 5, side = \"tip\"}\n\n[[bit]]\nname = \"pattern\"")
	h = j.Jigs.Handles[0]
	if tool := j.Templates[h.Template].Tool; tool.Bit != "flush" || !h.Above || h.Waste != 0 || h.Screw != nil || !h.Packer.Empty() || h.Tip != [2]float64{} {
		t.Errorf("bearing at the tip, bit %s: %+v", tool.Bit, h)
	}
}

func xor(t *testing.T, a, b geom.Region) float64 {
	t.Helper()
	var c geom.Calc
	d := c.Xor(a, b).Area()
	if c.Err() != nil {
		t.Fatal(c.Err())
	}
	return d
}

// A left-handed design has the mirror images of the right-handed one's jigs, the bass
// side's caul first in both.
func TestJigsMirrored(t *testing.T) {
	r, l := jobtest.File(t, "millrace.toml"), jobtest.File(t, "millrace.toml", `hand = "right"`, `hand = "left"`)
	m := geom.MirrorX()
	for i, e := range r.Jigs.Cauls.Two {
		f := l.Jigs.Cauls.Two[i]
		if a := xor(t, m.Region(e.Plan), f.Plan); a > 1e-6 {
			t.Errorf("caul %d differs by %v mm²", i+1, a)
		}
		if side := e.At.X < 0; side != (i == 0) || side == (f.At.X < 0) {
			t.Errorf("caul %d lies at x %v, left-handed at %v", i+1, e.At.X, f.At.X)
		}
	}
	if a := xor(t, m.Region(r.Jigs.Cradle.Plan), l.Jigs.Cradle.Plan); a > 1e-6 {
		t.Errorf("the cradles differ by %v mm²", a)
	}
	if len(r.Jigs.Handles) != len(l.Jigs.Handles) {
		t.Fatalf("%s; left-handed %s", handles(r), handles(l))
	}
	for i, h := range r.Jigs.Handles {
		g := l.Jigs.Handles[i]
		image := m // in its own place; a part that lay across is turned by half as well
		if h.Move.Vec(geom.Vec{X: 1}).X < 0.5 {
			image = m.Then(geom.Rotate(180 * geom.Degree))
		}
		if a := xor(t, image.Region(h.Work), g.Work) + xor(t, image.Region(h.Packer), g.Packer); a > 1e-6 || h.Block.Bounds() != g.Block.Bounds() {
			t.Errorf("block %d differs by %v mm²", i+1, a)
		}
	}
}

// The cauls lie where they press: outsides parallel, faces 3 mm off the edge, the line
// square to the crack, all told in the list of what was solved.
func TestEdgeCaulsPress(t *testing.T) {
	j := jobtest.File(t, "millrace.toml")
	c := j.Jigs.Cauls
	if math.Abs(c.Two[0].In.Cross(c.Two[1].In)) > 1e-12 || c.Two[0].In.Dot(c.Two[1].In) > -0.999 {
		t.Errorf("pressed along %v and %v", c.Two[0].In, c.Two[1].In)
	}
	for _, e := range c.Two {
		if math.Abs(e.Fit.Min-job.Cork) > 1e-3 || math.Abs(e.Fit.Max-job.Cork) > 1e-3 {
			t.Errorf("fit %+v", e.Fit)
		}
	}
	if c.Skew.Degrees() > limit.CaulSkew {
		t.Errorf("skew %v°", c.Skew.Degrees())
	}
	square := false
	for _, s := range j.Cracks[c.Crack].Front {
		if s.Closest(c.Through).Dist(c.Through) < 1e-9 && math.Abs(s.Tangent(0).Unit().Dot(c.Along)) < 1e-9 {
			square = true
		}
	}
	if !square {
		t.Errorf("the line through %v is not square to the crack", c.Through)
	}
	told := map[string]bool{}
	for _, a := range j.Assumed {
		told[a.Key] = true
	}
	for _, k := range []string{"edge cauls", "lining of cauls", "handle block, keys"} {
		if !told[k] {
			t.Errorf("%q is not told", k)
		}
	}
	// Two sheets of 18 go into 44.5.
	if c.Count != 2 || c.Tall != 36 {
		t.Errorf("%d sheets, %v", c.Count, c.Tall)
	}
}

// The caul of the glued neck presses on the frets from the joint to the end of the heel.
func TestNeckCaulOfADesign(t *testing.T) {
	j := jobtest.File(t, "designs/penstock.toml")
	c, n := j.Jigs.Neck, j.Neck
	from := j.Board.CentreScale() - n.Joint
	if c.From > from || c.To < from-n.Heel.Length || c.From-c.To < n.Heel.Length-c.Sheet {
		t.Errorf("from %v to %v, the heel from %v over %v", c.From, c.To, from, n.Heel.Length)
	}
	// Frets 17 to 22 lie beyond the joint at fret 16.
	if c.Frets != 6 {
		t.Errorf("%d frets", c.Frets)
	}
	for _, s := range c.Slices {
		y := (s.From + s.To) / 2
		if want := j.Board.RadiusAt(y) + 1.1 + 3; math.Abs(s.Radius-want) > 1e-9 {
			t.Errorf("R %v, want %v", s.Radius, want)
		}
	}
	if c.Off > job.Cork*limit.CorkGives {
		t.Errorf("off by %v", c.Off)
	}
}
