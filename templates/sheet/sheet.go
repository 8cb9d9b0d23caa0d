// Package sheet draws the sheets of a job: the layout, one sheet a template,
// and the fretboard. It turns parts and templates into lines with a meaning and
// words; how they are laid out and written is the drawing office's business.
package sheet

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"slices"
	"strings"
	"sync"

	"routwright/geom"
	"routwright/render"
	"routwright/templates/design"
	"routwright/templates/job"
)

// Layers of the cutter files.
const (
	LayerInside  render.Layer = "CUT_INSIDE"  // the tool runs inside this line
	LayerOutside render.Layer = "CUT_OUTSIDE" // the tool runs outside this line
	LayerDrill   render.Layer = "DRILL"
	LayerMark    render.Layer = "MARK"
	LayerCentre  render.Layer = "CENTRE"
	LayerHidden  render.Layer = "HIDDEN"
)

// All returns the sheets of a job in the order of the work. warning is printed
// across each of them when it is not empty.
func All(j *job.Job, warning string) []render.Sheet {
	cs := cutsOf(j)
	one := func(s render.Sheet) []render.Sheet { return []render.Sheet{s} }
	makers := []func() []render.Sheet{
		func() []render.Sheet { return one(layout(j)) },
		func() []render.Sheet { return one(overlay(j, cs)) },
	}
	for i := range j.Templates {
		makers = append(makers, func() []render.Sheet {
			if ofNeck(j.Templates[i].For.Kind) {
				return one(neckTemplate(j, i))
			}
			return one(template(j, i))
		})
	}
	for _, f := range []func(*job.Job) []render.Sheet{
		drillMaps, keyProof, rails, jigs, bridge, stockSheets, board, neckSheets, drilled, edgeSheet, contours,
	} {
		makers = append(makers, func() []render.Sheet { return f(j) })
	}
	makers = append(makers, func() []render.Sheet { return sections(j, cs) }, func() []render.Sheet { return one(Views(j)) })
	sheets := sideBySide(makers)
	for i := range sheets {
		s := &sheets[i]
		s.Warning = warning
		s.Block = append([]render.Field{{Name: "Instrument", Value: j.Name}, measures}, s.Block...)
		s.Block = append(s.Block, render.Field{Name: "Revision", Value: j.Revision + " " + Mark(*s)})
	}
	return sheets
}

// sideBySide runs all makers at once and returns what they made, in their order.
func sideBySide(makers []func() []render.Sheet) []render.Sheet {
	made := make([][]render.Sheet, len(makers))
	var wg sync.WaitGroup
	for i, f := range makers {
		wg.Go(func() { made[i] = f() })
	}
	wg.Wait()
	return slices.Concat(made...)
}

// measures states the unit of every number on a sheet that names none.
var measures = render.Field{Name: "Measures", Value: "in mm where nothing else is said"}

// Mark returns the sheet's own mark: six hexadecimal digits of the SHA-256 of
// its lines to 1e-4 mm. Two sheets with the same mark hold the same geometry,
// so an old template can be recognised.
func Mark(s render.Sheet) string {
	h := sha256.New()
	if s.FromBack {
		fmt.Fprint(h, "mirrored ")
	}
	for _, g := range s.Groups {
		for _, sh := range g.Shapes {
			fmt.Fprintf(h, "%d", sh.Kind)
			for _, e := range sh.Path {
				fmt.Fprintf(h, " %.4f %.4f %.4f %d", e.A.X+0, e.A.Y+0, e.Radius, e.Turn)
			}
		}
	}
	for _, o := range s.Holes {
		fmt.Fprintf(h, "o %.4f %.4f %.4f", o.At.X+0, o.At.Y+0, o.D)
	}
	return hex.EncodeToString(h.Sum(nil))[:6]
}

// MarksOnly reports whether a sheet is a picture, or holds lines to be drawn on
// the wood, and nothing that a cutter follows.
func MarksOnly(id string) bool {
	switch id {
	case LayoutID, OverlayID, TableID, ViewsID, EdgeID:
		return true
	}
	return strings.HasPrefix(id, ProofKeyID) || strings.HasPrefix(id, "contour-") || strings.HasPrefix(id, "channel-") || strings.HasPrefix(id, sectionPrefix)
}

func mm(v float64) string { return design.MM(v) }

// shapes draws every loop of a region as one kind of line. The first keeps the
// id, the next get a number.
func shapes(r geom.Region, id, title string, k render.Kind, l render.Layer) []render.Shape {
	var out []render.Shape
	for i, p := range r {
		name := id
		if i > 0 {
			name = fmt.Sprintf("%s-%d", id, i+1)
		}
		out = append(out, render.Shape{ID: name, Title: title, Path: p, Kind: k, Layer: l})
	}
	return out
}

// datums draws the centre line and the bridge line across a box.
func datums(b geom.Box) render.Group {
	const past = 6 // mm beyond what they belong to, ISO 128: a few millimetres
	b = b.Grow(past)
	g := render.Group{ID: "datums", Title: "centre line and bridge line"}
	if b.Min.X < 0 && b.Max.X > 0 {
		g.Shapes = append(g.Shapes, render.Shape{ID: "centre-line", Title: "centre line", Kind: render.Centre, Layer: LayerCentre,
			Path: geom.Path{geom.Line(geom.Pt(0, b.Min.Y), geom.Pt(0, b.Max.Y))}})
	}
	if b.Min.Y < 0 && b.Max.Y > 0 {
		g.Shapes = append(g.Shapes, render.Shape{ID: "bridge-line", Title: "bridge line", Kind: render.Centre, Layer: LayerCentre,
			Path: geom.Path{geom.Line(geom.Pt(b.Min.X, 0), geom.Pt(b.Max.X, 0))}})
	}
	return g
}

// datumLabels names the datums that a box shows.
func datumLabels(b geom.Box) []render.Label {
	var l []render.Label
	if b.Min.X < 0 && b.Max.X > 0 {
		l = append(l, render.Label{S: "centre line", At: geom.Pt(0, b.Max.Y)})
	}
	if b.Min.Y < 0 && b.Max.Y > 0 {
		l = append(l, render.Label{S: "bridge line", At: geom.Pt(b.Max.X, 0)})
	}
	return l
}

// Directions of the grain: the slab's runs along the centre line, a key's along
// its long axis, so across the slab's.
var (
	slabGrain = geom.Vec{Y: 1}
	keyGrain  = geom.Vec{X: 1}
)
