package sheet

import (
	"fmt"
	"math"

	"routwright/geom"
	"routwright/render"
	"routwright/templates/job"
	"routwright/templates/part"
)

// BridgeID is the id of the sheet of the bridge.
const BridgeID = "bridge"

// bridge draws where the bridge stands: the line of the uncompensated scale, where
// each string wants its saddle and what the saddle reaches, the plate and every hole.
func bridge(j *job.Job) []render.Sheet {
	b := j.Bridge
	if b == nil || len(b.Lines) == 0 {
		return nil
	}
	s := render.Sheet{ID: BridgeID, Title: "Bridge: the saddle line, and every hole of the bridge"}
	strings := render.Group{ID: "strings", Title: "strings"}
	reach := render.Group{ID: "saddles", Title: "what the saddles reach, and where the strings want them"}
	var want geom.Path
	for i, l := range b.Lines {
		n := len(b.Lines) - i
		up := geom.Pt(l.At.X, l.At.Y+30)
		strings.Shapes = append(strings.Shapes, render.Shape{ID: fmt.Sprintf("string-%d", n), Title: fmt.Sprintf("string %d", n), Kind: render.Centre, Layer: LayerMark, Path: geom.Path{geom.Line(geom.Pt(l.At.X, l.At.Y-l.To-8), up)}})
		s.Labels = append(s.Labels, render.Label{S: fmt.Sprint(n), At: up})
		w := math.Min(3, b.Pitch/4)
		if l.To > l.From { // else the saddle does not move
			reach.Shapes = append(reach.Shapes, render.Shape{ID: fmt.Sprintf("reach-%d", n), Title: fmt.Sprintf("travel of saddle %d", n), Kind: render.Hidden, Layer: LayerHidden,
				Path: geom.Rect(geom.Pt(l.At.X, l.At.Y-(l.From+l.To)/2), 2*w, l.To-l.From)})
		}
		at := geom.Pt(l.At.X, l.At.Y-l.Want)
		reach.Shapes = append(reach.Shapes, render.Shape{ID: fmt.Sprintf("saddle-%d", n), Title: fmt.Sprintf("string %d wants its saddle %s mm behind the scale", n, mm(l.Want)), Kind: render.Mark, Layer: LayerMark, Path: geom.Path{geom.Line(geom.Pt(at.X-w, at.Y), geom.Pt(at.X+w, at.Y))}})
		if i > 0 {
			want = append(want, geom.Line(geom.Pt(b.Lines[i-1].At.X, b.Lines[i-1].At.Y-b.Lines[i-1].Want), at))
		}
	}
	if len(want) > 0 {
		reach.Shapes = append(reach.Shapes, render.Shape{ID: "saddle-line", Title: "saddle line: where the strings want their saddles", Kind: render.Mark, Layer: LayerMark, Path: want})
	}
	first, last := b.Lines[0].At, b.Lines[len(b.Lines)-1].At
	if first != last {
		reach.Shapes = append(reach.Shapes, render.Shape{ID: "scale-line", Title: "end of the uncompensated scale", Kind: render.Centre, Layer: LayerCentre, Path: geom.Path{geom.Line(first, last)}})
	}
	s.Groups = append(s.Groups, strings, reach)
	if !b.Plate.Empty() {
		s.Groups = append(s.Groups, render.Group{ID: "plate", Title: "plate of the bridge", Shapes: shapes(b.Plate, "plate", "edge of the bridge's plate, nothing to be cut", render.Mark, LayerMark)})
	}
	box := geom.BoxOf(geom.Pt(first.X-10, first.Y+35), geom.Pt(last.X+10, last.Y-15)).Union(b.Plate.Bounds())
	for _, k := range []part.Kind{part.Post, part.StringHole, part.Screw} {
		for _, p := range j.OfKind(k) {
			if p.Group != "bridge" && p.Group != "strings" {
				continue
			}
			for i, h := range p.Bores {
				if h.From.Z != 0 { // from the back: the drill map of the back has it
					continue
				}
				s.Holes = append(s.Holes, render.Hole{ID: fmt.Sprintf("%s-%d", p.ID, i+1), At: h.From.Flat(), D: h.D, Kind: render.Cut, Layer: LayerDrill})
				box = box.Union(geom.BoxOf(h.From.Flat()).Grow(h.D))
			}
		}
	}
	s.Groups = append(s.Groups, datums(box))
	s.Labels = append(s.Labels, datumLabels(box)...)
	s.Dims = append(s.Dims, render.Dim{A: first, B: last, Along: geom.Vec{X: 1}, Text: mm(math.Abs(last.X - first.X))})
	if len(b.Posts) == 2 {
		s.Dims = append(s.Dims, render.Dim{A: b.Posts[0], B: b.Posts[1], Text: mm(b.Posts[0].Dist(b.Posts[1]))})
	}
	s.Grain = slabGrain
	s.Block = []render.Field{
		{Name: "Bridge", Value: fmt.Sprintf("%s, saddles %s to %s mm over the front, travel %s mm", b.Kind, mm(b.Height[0]), mm(b.Height[1]), mm(b.Travel))},
		{Name: "Face", Value: part.Front.Words()},
		{Name: "Saddles", Value: saddlesWanted(b)},
		{Name: "Pitch", Value: mm(b.Pitch) + " mm between neighbouring strings"},
		{Name: "Datum", Value: scaleDatum(j)},
	}
	s.Notes = []string{
		"Compensation is an estimate: every set of strings wants its own. The saddles' travel, dashed, takes up the rest.",
		"Place the bridge from the fitted neck: measure the scale again from the nut, lay a string along both edges of the board, then prick the holes through the bridge itself and compare them with this sheet.",
		"Measure both printed rulers before you mark from this sheet. Clamp the work, wear eye protection, and follow the drill's manual.",
	}
	return []render.Sheet{s}
}

// saddlesWanted lists where the strings want their saddles, from the bass side.
func saddlesWanted(b *job.Bridge) string {
	w := ""
	for i, l := range b.Lines {
		if i > 0 {
			w += ", "
		}
		w += fmt.Sprintf("%d: %s", len(b.Lines)-i, mm(l.Want))
	}
	return "behind the uncompensated scale, string by string from the bass side, " + w + " mm"
}

// scaleDatum says from where the scale is measured.
func scaleDatum(j *job.Job) string {
	bass, treble := j.Board.Scales()
	if j.Board.Fanned() {
		return fmt.Sprintf("nut's string edge, %s mm along the bass string, %s along the treble string", mm(bass), mm(treble))
	}
	return fmt.Sprintf("nut's string edge, %s mm along the board's centre line to the bridge line", mm(j.Board.CentreScale()))
}
