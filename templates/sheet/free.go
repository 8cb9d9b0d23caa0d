package sheet

import (
	"fmt"

	"routwright/geom"
	"routwright/render"
	"routwright/templates/cut"
	"routwright/templates/part"
)

// Layers of a free path. Both stand in the cutter file; only the path is run.
const (
	LayerPath     render.Layer = "PATH_OF_CUTTER_MIDDLE"   // the middle of the cutter runs on this line
	LayerPartEdge render.Layer = "PART_EDGE_FOR_REFERENCE" // the edge that it leaves
)

// pathWords says what the line of a free path is.
func pathWords(t cut.Template) string {
	return fmt.Sprintf("path of the middle of a cutter of %s mm, %s as seen on this sheet", mm(t.Tool.Cutter), t.Sense())
}

// freeLines draws a free path with the part's edge. The loops of the path run in
// the direction of the cutter on the finished sheet: a sheet of the back is
// mirrored after this, which turns them round once more.
func freeLines(t cut.Template, fromBack bool) render.Group {
	g := render.Group{ID: "path-" + t.ID, Title: "cutter path: " + t.Name}
	g.Shapes = shapes(t.For.Plan(), "part-"+t.ID, "edge of the finished "+string(t.For.Kind)+": the cutter's middle never runs here", render.Cut, LayerPartEdge)
	path := directed(t.Shape, t.Male, fromBack)
	led := shapes(path, "cut-"+t.ID, pathWords(t), render.Mark, LayerPath)
	for i := range led {
		led[i].Led = true
	}
	g.Shapes = append(g.Shapes, led...)
	for i, p := range path {
		g.Shapes = append(g.Shapes, arrow(p, fmt.Sprintf("way-%s-%d", t.ID, i+1)))
	}
	return g
}

// directed returns the loops of a path as the cutter goes. Those of a region run
// anticlockwise round what is solid, which is the way round an outside; inside an
// opening all of them are turned.
func directed(r geom.Region, male, fromBack bool) geom.Region {
	out := make(geom.Region, len(r))
	for i, p := range r {
		if out[i] = p; male == fromBack {
			out[i] = p.Reversed()
		}
	}
	return out
}

// arrow is a filled arrow head in the middle of the longest piece of a path,
// pointing along it.
func arrow(p geom.Path, id string) render.Shape {
	const long, wide = 4, 1.4 // mm; half of its width
	longest := p[0]
	for _, s := range p {
		if s.Length() > longest.Length() {
			longest = s
		}
	}
	at, d := longest.At(0.5), longest.Tangent(0.5)
	tail := at.Add(d.Mul(-long))
	return render.Shape{ID: id, Title: "way of the cutter", Kind: render.Mark, Layer: LayerMark, Fill: true,
		Path: geom.Polygon(at, tail.Add(d.Left().Mul(wide)), tail.Add(d.Left().Mul(-wide)))}
}

// freeWaste is what goes away beside a free path.
func freeWaste(t cut.Template) render.Waste {
	if !t.Male {
		return render.Waste{Region: t.For.Plan()}
	}
	var c geom.Calc
	return render.Waste{Region: c.Subtract(c.Offset(t.For.Plan(), wasteBand, geom.Round), t.For.Plan())}
}

// zeroMarks draws the locating pins where no template sits on them: the zero of a
// machine is found by them. Their places are those in the cutter file.
func zeroMarks(pins []cut.Pin, fromBack bool) []render.Hole {
	hs := pinHoles(pins)
	for i, p := range pins {
		x := p.At.X
		if fromBack {
			x = -x
		}
		hs[i].Kind, hs[i].Layer = render.Mark, LayerMark
		hs[i].Text = fmt.Sprintf("pin %s of %s: x %s, y %s in the cutter file", p.Name, mm(p.D), mm(x), mm(p.At.Y))
	}
	return hs
}

// zeroWords says where the zero of the cutter file lies.
func zeroWords(t cut.Template) string {
	if t.Loose && t.For.Kind != part.Cover {
		return "the middle of the key: x along its long axis, y along its waist"
	}
	return "where the centre line crosses the bridge line; x to the right of this sheet, y to the neck"
}

// freeMeaning is what the lines mean where the middle of a cutter is led.
var freeMeaning = map[render.Kind]string{
	render.Cut:  "edge of the part: no path",
	render.Mark: "with the arrow: path of the cutter's middle; others: mark only",
}

// freeNotes are the sentences on the sheet of a free path.
func freeNotes(t cut.Template) []string {
	n := []string{
		fmt.Sprintf("The cutter file holds two layers: %s, which the middle of a cutter of %s mm runs on, and %s, the edge that it leaves. Run the first as it is, without any compensation; with another cutter draw the path anew.", LayerPath, mm(t.Tool.Cutter), LayerPartEdge),
		"The path is the last one, along the edge. Clear what lies inside it first, with the same cutter, in passes no deeper than those above.",
	}
	if t.Male {
		n[1] = "The path is the last one, along the edge, in passes no deeper than half the cutter. Leave bridges of wood that hold the part, and cut them by hand."
	}
	if t.Pinned() {
		n = append(n, "Both pins, bored in the waste of the slab, find the zero again after the slab is turned over.")
	}
	return append(n, "Hold the work down outside the reach of cutter and collet, keep clear while the spindle turns, and follow the machine's manual.")
}
