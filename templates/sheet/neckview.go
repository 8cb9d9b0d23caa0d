package sheet

import (
	"fmt"
	"math"

	"routwright/geom"
	"routwright/render"
	"routwright/templates/job"
	"routwright/templates/part"
)

// elevation is the frame of the neck's geometry: x along the body from the
// bridge line to the nut, y the height over the finished front.
//
// The board's surface passes the joint at the height Above and leans back by φ,
// so that with a = (cos φ, −sin φ) towards the nut and u = (sin φ, cos φ) square
// to the board, the place at distance d from the nut along the board and h over
// its surface lies at
//
//	P = (JointY, Above) + (xj − d)·a + h·u
//
// The string stands e + n over the surface at the nut and e + 2a − n at the saddle,
// where e is the fret's height, n and a the clearances at the nut and half way: see
// neck.Solve, whose saddle this construction must meet.
type elevation struct {
	j     *job.Job
	a, u  geom.Vec
	joint geom.Point
}

func newElevation(j *job.Job) elevation {
	sin, cos := math.Sincos(float64(j.Neck.Angle))
	return elevation{j, geom.Vec{X: cos, Y: -sin}, geom.Vec{X: sin, Y: cos}, geom.Pt(j.Neck.ToSaddle, j.Neck.Above)}
}

// at returns the place at distance d from the nut along the board and h over its
// surface.
func (e elevation) at(d, h float64) geom.Point {
	return e.joint.Add(e.a.Mul(e.j.Neck.Joint - d)).Add(e.u.Mul(h))
}

// side returns the transform that stands the neck's side on the body.
func (e elevation) side() geom.Transform {
	sh := e.j.Shape
	t := geom.Translate(geom.Vec{X: sh.Spec.Board.Thickness, Y: -nutY(sh)})
	if e.j.Design.Hand.V == "left" {
		t = geom.MirrorX().Then(t)
	}
	n := e.at(0, 0)
	return t.Then(geom.Rotate(-90*geom.Degree - e.j.Neck.Angle)).Then(geom.Translate(geom.Vec{X: n.X, Y: n.Y}))
}

// bodyShown is how much of the body is drawn behind the bridge line, mm.
const bodyShown = 40

// angleShown is how long the level line is that shows the neck angle, mm.
const angleShown = 120

// neckView draws how the neck meets the body: string, board, body, saddle, pocket.
func neckView(j *job.Job) render.Sheet {
	n := j.Neck
	e := newElevation(j)
	s := render.Sheet{ID: NeckViewID, Title: "Neck geometry", View: "Seen from the treble side"}
	if j.Design.Hand.V == "left" {
		s.View = "Seen from the bass side"
	}
	g := render.Group{ID: "geometry", Title: "side elevation of neck and body"}
	add := func(id, words string, k render.Kind, p geom.Path) {
		g.Shapes = append(g.Shapes, render.Shape{ID: id, Title: words, Path: p, Kind: k, Layer: LayerMark})
	}
	front := geom.Polyline(geom.Pt(-bodyShown, 0), geom.Pt(e.joint.X, 0), geom.Pt(e.joint.X, -j.Thickness), geom.Pt(-bodyShown, -j.Thickness))
	add("body", "body, front above", render.Mark, front)
	surface := geom.Line(e.at(0, 0), e.at(boardEnd(j), 0))
	add("board-surface", "surface of the board", render.Mark, geom.Path{surface})
	if j.Shape != nil {
		t := e.side()
		tb := j.Shape.Spec.Board.Thickness
		add("neck-side", "neck", render.Mark, t.Path(j.Shape.Side.Outline))
		add("board", "fretboard", render.Mark, geom.Polyline(surface.B, e.at(boardEnd(j), -tb), e.at(0, -tb), surface.A))
		if sc := j.Shape.Side.Scarf; sc != nil {
			add("scarf", "scarf", render.Hidden, geom.Path{t.Seg(sc.Line)})
		}
	}
	for _, p := range j.OfKind(part.Pocket) {
		if len(p.Solids) == 0 {
			continue
		}
		b, f := p.Plan().Bounds(), p.Solids[0].Floor
		lo, hi := geom.Pt(b.Min.Y, -f.At(geom.Pt(0, b.Min.Y))), geom.Pt(math.Min(b.Max.Y, e.joint.X), -f.At(geom.Pt(0, math.Min(b.Max.Y, e.joint.X))))
		add("pocket-floor", "floor of the pocket", render.Hidden, geom.Polyline(geom.Pt(lo.X, 0), lo, hi))
		s.Labels = append(s.Labels, render.Label{S: fmt.Sprintf("pocket floor, %s deep at its end and %s at the joint", mm(-lo.Y), mm(-hi.Y)), At: lo.Lerp(hi, 0.5)})
	}
	nut, saddle := e.at(0, n.Setup.Fret+n.Nut), e.at(n.Scale, n.Setup.Fret+2*n.Action-n.Nut)
	add("string", "string", render.Mark, geom.Path{geom.Line(nut, saddle)})
	level := geom.Line(e.joint, e.joint.Add(geom.Vec{X: angleShown}))
	add("level", "level with the front", render.Dimension, geom.Path{level})
	add("bridge-line", "bridge line", render.Centre, geom.Path{geom.Line(geom.Pt(0, -j.Thickness-5), geom.Pt(0, saddle.Y+10))})
	if lo, hi, ok := j.SaddleRange(); ok {
		for _, l := range []struct {
			id, words string
			y         float64
		}{{"saddle-low", "saddle at its lowest", lo}, {"saddle-high", "saddle at its highest", hi}} {
			add(l.id, l.words, render.Mark, geom.Path{geom.Line(geom.Pt(-6, l.y), geom.Pt(6, l.y))})
			s.Labels = append(s.Labels, render.Label{S: fmt.Sprintf("%s, %s", l.words, mm(l.y)), At: geom.Pt(-6, l.y)})
		}
	}
	s.Groups = []render.Group{g}
	s.Labels = append(s.Labels,
		render.Label{S: "string", At: nut.Lerp(saddle, 0.4)},
		render.Label{S: "surface of the board", At: e.at(n.Scale*0.2, 0)},
		render.Label{S: "nut", At: nut}, render.Label{S: "front of the body", At: geom.Pt(e.joint.X*0.4, 0)},
		render.Label{S: fmt.Sprintf("neck angle %s at the joint", degrees3(n.Angle)), At: level.B},
		render.Label{S: "bridge line", At: geom.Pt(0, -j.Thickness-5)})
	s.Dims = []render.Dim{
		{A: geom.Pt(0, 0), B: geom.Pt(e.joint.X, 0), Along: geom.Vec{X: 1}, Text: mm(e.joint.X)},
		{A: geom.Pt(e.joint.X, 0), B: e.joint, Along: geom.Vec{Y: 1}, Text: mm(n.Above)},
		{A: geom.Pt(0, 0), B: saddle, Along: geom.Vec{Y: 1}, Text: mm(saddle.Y)},
		{A: geom.Pt(-bodyShown, 0), B: geom.Pt(-bodyShown, -j.Thickness), Along: geom.Vec{Y: 1}, Text: mm(j.Thickness)},
		{A: e.at(0, 0), B: e.at(n.Joint, 0), Along: e.a, Text: mm(n.Joint)},
	}
	s.Block = []render.Field{
		{Name: "Part", Value: "neck and body, side elevation at full size; nothing is cut from this sheet"},
		{Name: "Face", Value: "front of the body, this face up"},
		{Name: "Angle", Value: fmt.Sprintf("%s between the board's surface and the front", degrees3(n.Angle))},
		{Name: "Joint", Value: fmt.Sprintf("%s from the nut along the board, %s from the bridge line on the body; board's surface %s over the front", mm(n.Joint), mm(n.ToSaddle), mm(n.Above))},
		{Name: "Scale", Value: fmt.Sprintf("%s along the board, uncompensated; %s from the bridge line to the nut on the body", mm(n.Scale), mm(e.at(0, 0).X))},
		{Name: "Saddle", Value: saddleWords(j, saddle.Y)},
		{Name: "Frets", Value: fmt.Sprintf("%s high; string %s over them at the nut, %s half way, %s at the saddle", mm(n.Setup.Fret), mm(n.Nut), mm(n.Action), mm(2*n.Action-n.Nut))},
	}
	s.Notes = []string{
		"The string's height at the saddle is board height + (scale − joint)·sin φ + (fret + 2·action − nut clearance)·cos φ, measured square to the front.",
		"Measure the fitted neck again, dry, before the bridge is placed: 0.1° is about 0.4 mm at the saddle."}
	return s
}

// saddleWords says how high the saddle must stand and how far it can go.
func saddleWords(j *job.Job, at float64) string {
	w := fmt.Sprintf("top %s over the front", mm(at))
	if lo, hi, ok := j.SaddleRange(); ok {
		w += fmt.Sprintf("; it goes from %s to %s", mm(lo), mm(hi))
	}
	return w
}

// boardEnd returns how far the board's end lies from the nut on the centre line.
func boardEnd(j *job.Job) float64 {
	b := j.Board
	d := math.Min(b.BassEdge.B.Y, b.TrebleEdge.B.Y)
	return (b.NutEdge.A.Y+b.NutEdge.B.Y)/2 - d
}

// degrees3 prints an angle to a thousandth: at 400 mm that is 7 µm.
func degrees3(a geom.Angle) string { return fmt.Sprintf("%.3f°", a.Degrees()) }
