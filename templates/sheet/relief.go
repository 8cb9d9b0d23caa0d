package sheet

import (
	"image"
	"math"

	"routwright/geom"
	"routwright/render/relief"
	"routwright/templates/job"
	"routwright/templates/part"
	"routwright/templates/space"
)

// Numbers of the materials in a relief.
const keyTint = 1

// reliefMargin is the paper round a relief picture, mm.
const reliefMargin = 4

// finer is how many cells of the height field lie along a pixel: smooth edges.
const finer = 2

// passes bounds how often voids are cut again, because another opened them: a
// hole in the floor of a pocket in the floor of a contour is found by the third.
const passes = 4

// mostPixels is how many pixels a relief has at most: a body of a metre by half a
// metre at two to the millimetre.
const mostPixels = 2_000_000

// Relief returns the picture of a face of the machined body, lit from the upper
// left, as it lies on the bench with that face up: the back is mirrored. White is
// where there is no wood. Covers are off. A body too large for that many pixels
// to the millimetre gets as many as there may be; the scale says how many.
func Relief(j *job.Job, face part.Face, pxPerMM float64) (img *image.Paletted, scale float64) {
	b := j.Outline.Bounds().Grow(reliefMargin)
	scale = math.Min(pxPerMM, math.Sqrt(mostPixels/(b.W()*b.H())))
	return HeightField(j, face, 1/(finer*scale)).Shade(finer), scale
}

// HeightField returns how deep the wood begins below a face of the machined
// body, on a grid of the given step in mm.
func HeightField(j *job.Job, face part.Face, step float64) *relief.Field {
	v := facing{face, j.Thickness}
	pixel := finer * step
	b := v.region(j.Outline).Bounds().Grow(reliefMargin)
	w, h := math.Ceil(b.W()/pixel)*pixel, math.Ceil(b.H()/pixel)*pixel
	f := relief.New(geom.BoxOf(geom.Pt(b.Min.X, b.Max.Y-h), geom.Pt(b.Min.X+w, b.Max.Y)), step)
	f.Place(v.region(j.Outline), 0)
	if e := edgeOf(j, face); e.Size() > 0 {
		f.Edge(v.region(j.Outline), e.Size(), e.depth)
	}
	var solids []part.Solid
	var bores []part.Bore
	for _, p := range machined(j) {
		for _, s := range p.Solids {
			solids = append(solids, v.solid(s))
		}
		for _, b := range p.Bores {
			bores = append(bores, v.bore(b.Entered()))
		}
	}
	for n, changed := 0, true; changed && n < passes; n++ {
		changed = false
		for _, s := range solids {
			changed = f.Sink(s.Plan, relief.Plane(s.Top), relief.Plane(s.Floor)) || changed
		}
		for _, b := range bores {
			changed = f.SinkColumns(b.Bounds(), b.Column) || changed
		}
	}
	for _, k := range j.OfKind(part.Key) {
		for _, s := range k.Solids {
			s = v.solid(s)
			f.Paint(s.Plan, relief.Plane(s.Top), relief.Plane(s.Floor), keyTint)
		}
	}
	f.Open(j.Thickness)
	return f
}

// machined returns the voids of the body in the order of the job. A recess that
// its key fills is none.
func machined(j *job.Job) []part.Part {
	filled := len(j.OfKind(part.Key)) > 0
	var out []part.Part
	for _, p := range j.Parts {
		if st := p.Stage(); st == part.Machined || st == part.Recessed && !filled {
			out = append(out, p)
		}
	}
	return out
}

// facing turns parts so that a face lies up: depths count from it, and the back
// is mirrored across the centre line.
type facing struct {
	face      part.Face
	thickness float64
}

func (v facing) region(r geom.Region) geom.Region {
	if v.face == part.Front {
		return r
	}
	return geom.MirrorX().Region(r)
}

func (v facing) plane(p part.Plane) part.Plane {
	if v.face == part.Front {
		return p
	}
	return part.Plane{Z: v.thickness - p.Z, DX: p.DX, DY: -p.DY}
}

func (v facing) solid(s part.Solid) part.Solid {
	if v.face == part.Front {
		return s
	}
	return part.Solid{Plan: v.region(s.Plan), Top: v.plane(s.Floor), Floor: v.plane(s.Top)}
}

func (v facing) bore(b part.Bore) part.Bore {
	if v.face == part.Front {
		return b
	}
	turn := func(p part.Point) part.Point { return part.Point{X: -p.X, Y: p.Y, Z: v.thickness - p.Z} }
	b.From, b.To = turn(b.From), turn(b.To)
	return b
}

// edge is how the rim of the body is worked on one face.
type edge struct{ space.Profile }

func edgeOf(j *job.Job, f part.Face) edge {
	if j.Edge == nil {
		return edge{}
	}
	return edge{j.Edge.Faces[f]}
}

// depth returns how deep the rim lies at a distance from the outline: a quarter
// circle, or a chamfer at 45°.
func (e edge) depth(d float64) float64 {
	w := e.Size()
	switch {
	case d >= w:
		return 0
	case e.Chamfer >= e.Roundover:
		return w - d
	}
	return w - math.Sqrt(w*w-(w-d)*(w-d))
}
