package job_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"routwright/geom"
	"routwright/templates/part"
)

// withNeck is a body with a glued neck whose joint lies at fret 16, the worked
// example of the trade's formula for the neck angle: saddle 19 over the body,
// board 6 over it at the joint, wire 1.1, action 1.7, nut 0.4, scale 628.65.
const withNeck = `design = 1
[slab]
rough = 45
[strings]
scale = 628.65
frets = 22
action = {fret_12 = 1.7, nut = 0.4}
[fretboard]
thickness = 6
fret_height = 1.1
[body]
family = "lowland"
[neck]
join = "glued"
[neck.heel]
widths = [56.2, 55.4]
apart = 70
length = 80
thickness = 19
corner = 6.35
gap = 0.1
[neck.joint]
fret = 16
surface_above = 6
[bridge]
kind = "two-post"
saddle_height = [16, 22]
set_height = 19
travel = 9
[bridge.posts]
behind = 0
`

func TestNeckWorkedExample(t *testing.T) {
	j := must(t, withNeck)
	n := j.Neck
	if a := n.Angle.Degrees(); math.Abs(a-2.0450) > 1e-4 {
		t.Errorf("neck angle %.5f°, want 2.0450°", a)
	}
	if math.Abs(n.ToSaddle-249.17) > 5e-3 || n.JointY != n.ToSaddle {
		t.Errorf("joint to saddle %.4f mm, want 249.17", n.ToSaddle)
	}
	if b := j.Outline.Bounds(); b.Empty() {
		t.Error("no outline")
	}
	// The body's edge on the centre line is laid at the joint.
	ix := geom.IndexOf(j.Outline)
	if _, d := ix.Closest(geom.Pt(0, n.JointY)); d > 1e-6 {
		t.Errorf("the body's edge lies %.4f mm from the joint", d)
	}
}

// The pocket's floor by a ray construction: a line laid through two points of the
// heel's underside, found by walking along and square to the leaning board.
func TestPocketByRays(t *testing.T) {
	j := must(t, withNeck)
	n := j.Neck
	along := geom.Vec{X: math.Cos(float64(n.Angle)), Y: math.Sin(float64(n.Angle))} // to the bridge, up
	down := geom.Vec{X: along.Y, Y: -along.X}
	joint := geom.Pt(0, 6)                // surface of the board at the joint
	under := func(u float64) geom.Point { // u along the board from the joint
		return joint.Add(along.Mul(u)).Add(down.Mul(6 + 19))
	}
	p, q := under(0), under(60)
	depth := func(x float64) float64 { return -(p.Y + (q.Y-p.Y)*(x-p.X)/(q.X-p.X)) }
	for _, x := range []float64{0, 20, n.Pocket.Length} {
		at := geom.Pt(0, n.JointY-x)
		if got, want := n.Pocket.Floor.At(at), depth(x); math.Abs(got-want) > 1e-3 {
			t.Errorf("%g mm behind the joint the floor is %.4f mm deep, want %.4f", x, got, want)
		}
	}
	if fall := n.Pocket.Length * math.Tan(float64(n.Angle)); math.Abs(n.Pocket.Fall()-fall) > 1e-9 {
		t.Errorf("the floor falls %.4f mm, want %.4f", n.Pocket.Fall(), fall)
	}
	// 0.1 a side over a taper of atan(0.4/70): the neck slides 17.5 mm.
	if want := 0.1 * 70 / 0.4; math.Abs(n.Pocket.Slide-want) > 1e-9 {
		t.Errorf("slide %.3f mm, want %.3f", n.Pocket.Slide, want)
	}
	pk := j.OfKind(part.Pocket)[0]
	// 30 mm from its end the heel is 0.4 · 30/70 narrower a side; the gap is 0.1.
	wall := geom.Pt(56.2/2-0.4*30/70+0.1, n.Pocket.EndY+30)
	if _, d := geom.IndexOf(pk.Plan()).Closest(wall); d > 1e-3 {
		t.Errorf("the pocket's wall lies %.4f mm from heel and gap", d)
	}
}

// The passes stop at the depth of the end wall: deeper would spoil the heel's seat
// before the wedges give the floor its slope.
func TestPocketIsRoutedLevelFirst(t *testing.T) {
	j := must(t, withNeck)
	for i, q := range j.Templates {
		if q.For.Kind != part.Pocket {
			continue
		}
		if got := j.Routing(i).Wanted; got != j.Neck.Pocket.DepthEnd || got >= j.Neck.Pocket.DepthJoint {
			t.Errorf("the passes go to %g mm; the end wall is %g deep, the mouth %g", got, j.Neck.Pocket.DepthEnd, j.Neck.Pocket.DepthJoint)
		}
	}
}

// A neck measured again moves the bridge by as much as the nut is off.
func TestFittedNeckMovesTheBridge(t *testing.T) {
	j := must(t, withNeck)
	_, high := j.Neck.OnBody(j.Neck.Angle, 0, 0)
	straight := math.Hypot(j.Neck.NutY()-100, high) // nut edge to a mark 100 mm over the bridge line
	for _, off := range []float64{-1.2, 0, 0.7} {
		flat := j.Neck.NutY() - 100 + off
		text := withNeck + fmt.Sprintf("[neck.fitted]\nmark = 100\nnut_to_mark = %.6f\naside = 0.1\n", math.Hypot(flat, high))
		k := must(t, text)
		if got := k.Bridge.Posts[0].Y - j.Bridge.Posts[0].Y; math.Abs(got-off) > 1e-4 {
			t.Errorf("nut %+.2f mm off: the posts move by %.4f", off, got)
		}
	}
	if straight <= 0 {
		t.Fatal("no distance")
	}
}

// Posts stand where saddles in the middle of their travel come to the
// compensation, on either kind of scale.
func TestPostsStandAtTheCompensation(t *testing.T) {
	j := must(t, withNeck)
	b := j.Bridge
	for _, i := range []int{0, len(b.Lines) - 1} { // the outer strings; the posts' line serves the others by their travel
		l := b.Lines[i]
		if mid := (l.From + l.To) / 2; math.Abs(mid-l.Want) > 1e-6 {
			t.Errorf("string %d: the middle of the travel is %.4f mm behind the scale, want %.4f", len(b.Lines)-i, mid, l.Want)
		}
	}
	if lean := b.Posts[1].Y - b.Posts[0].Y; lean <= 0 {
		t.Errorf("the treble post stands %.3f mm ahead of the bass post", lean)
	}
	left := must(t, strings.Replace(withNeck, "design = 1", "design = 1\nhand = \"left\"", 1))
	if left.Bridge.Posts[0].X != -b.Posts[0].X || left.Bridge.Posts[0].Y != b.Posts[0].Y {
		t.Errorf("left-handed posts %v of %v", left.Bridge.Posts, b.Posts)
	}
}

func TestJointErrors(t *testing.T) {
	for _, c := range []struct{ old, new, want string }{
		{"fret = 16", "fret = 16\nabove_body = 3", "neck.joint.surface_above: 6 mm, over an underside at 3 mm; allowed: the board's 6 mm between the two"},
		{"family = \"lowland\"", "family = \"lowland\"\ntail = 150", "neck.joint.fret: fret 16, which lies 249.1"},
		{"widths = [56.2, 55.4]\n", "", "neck.heel.widths: nothing"},
		{"widths = [56.2, 55.4]", "widths = [76, 55.4]", "neck.heel.widths: 76 and 55.4 mm over 70 mm"},
		{"thickness = 19", "thickness = 38", ""},
		{"length = 80", "length = 80\nfrom_nut = 470", "neck.heel.from_nut: 470 mm, which leaves"},
		{"saddle_height = [16, 22]", "saddle_height = [22, 16]", "bridge.saddle_height: [22, 16]"},
		{"behind = 0", "behind = 0\ndepth = 50", "bridge.posts.depth: 50 mm in a body of 45 mm"},
		{"travel = 9", "travel = 9\nthrough = {d = 8, ferrule = {d = 7, depth = 5}}", "bridge.through.d: 8 mm in a ferrule of 7 mm"},
		{"[bridge]", "[neck.fitted]\nmark = 100\n[bridge]", "neck.fitted: one of nut_to_mark and mark"},
		{"join = \"glued\"", "join = \"bolted\"\nbolts = {length = 90}", "neck.bolts.length: 90 mm; allowed: less than"},
		{"join = \"glued\"", "join = \"bolted\"\nbolts = {length = 20}", "neck.bolts.length: 20 mm, which does not reach the heel"},
	} {
		if !strings.Contains(withNeck, c.old) {
			t.Fatalf("no %q", c.old)
		}
		_, err := solve(t, strings.Replace(withNeck, c.old, c.new, 1))
		if c.want == "" {
			continue
		}
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%q: %v\nwant %s", c.new, err, c.want)
		}
	}
}
