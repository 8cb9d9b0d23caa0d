package sheet

import (
	"fmt"
	"math"

	"routwright/geom"
	"routwright/render"
	"routwright/templates/cut"
	"routwright/templates/job"
	"routwright/templates/key"
)

// Ids of the sheets that prove the key of a job.
const (
	ProofKeyID  = "proof-key"
	CouponKeyID = "coupon-key"
)

// keyProof draws, for each size, the key in its recess with the gap exaggerated,
// and the test coupon.
func keyProof(j *job.Job) []render.Sheet {
	if j.Keys == nil {
		return nil
	}
	var out []render.Sheet
	for _, z := range j.Keys.Sizes {
		p, c := gapPicture(j.Keys, z), coupon(z.Fit, z.Proof, j.Keys.Depth)
		p.ID, c.ID = ProofKeyID+z.Suffix, CouponKeyID+z.Suffix
		if z.Words != "" {
			p.Title, c.Title = p.Title+", "+z.Words, c.Title+", "+z.Words
		}
		out = append(out, p, c)
	}
	return out
}

// shownGap is about how wide the widest gap is drawn, mm: clear on paper.
const shownGap = 3

// gapFactor returns by how much a gap is exaggerated: a round number that
// draws the widest as about shownGap.
func gapFactor(g cut.Range) float64 {
	if !(g.Max > 0) {
		return 1
	}
	f := shownGap / g.Max
	if f > 10 {
		return math.Floor(f/10) * 10
	}
	return math.Max(1, math.Floor(f))
}

func gapPicture(all *job.Keys, k job.KeySize) render.Sheet {
	factor := gapFactor(k.Gap)
	border := k.Fit.Spec.Grows()
	pull := puller(k.Proof.CutRecess, border, factor)
	b := k.Proof.CutRecess.Bounds()
	in := k.Proof.Insert(all.Depth, all.Taper, all.LeadIn)
	s := render.Sheet{
		ID: ProofKeyID, Title: "Proof: key in its recess", View: eitherFace,
		Groups: []render.Group{
			{ID: "recess", Title: "recess as cut", Shapes: shapes(k.Proof.CutRecess, "proof-recess", "recess as cut, true size", render.Mark, LayerMark)},
			{ID: "key", Title: "key as cut", Shapes: shapes(pulled(k.Proof.CutKey, pull), "proof-key", fmt.Sprintf("key as cut, the gap drawn %g times as wide", factor), render.Mark, LayerMark)},
			keyAxes(b),
		},
		Labels: []render.Label{
			{S: "smallest gap " + micro(k.Gap.Min), At: pull(k.Gap.AtMin)},
			{S: "largest gap " + micro(k.Gap.Max), At: pull(k.Gap.AtMax)},
		},
		Grain: keyGrain,
		Block: []render.Field{
			{Name: "Scale", Value: fmt.Sprintf("recess 1 : 1; the gap %g times as wide as it is", factor)},
			{Name: "Gap a side", Value: fmt.Sprintf("smallest %s, largest %s, mean %s", micro(k.Gap.Min), micro(k.Gap.Max), micro(k.Gap.Mean))},
			{Name: "Tool", Value: k.Fit.Tool.String()},
			{Name: "Recess", Value: proofWords(k.Proof.Recess)},
		},
		Notes: []string{"A picture, not a template: nothing is cut from this sheet. Both edges are those that the simulated cuts leave after the hand work named on their sheets."},
	}
	if k.Fit.Inlay == nil {
		s.Block = append(s.Block, render.Field{Name: "Key", Value: proofWords(k.Proof.Key)})
	}
	if border > 0 {
		s.Block = append(s.Block, borderField(k.Fit)...)
		s.Notes = append(s.Notes, "The border lies between the two edges and is drawn at its true thickness; the gap is what is left beside it.")
	}
	return insertion(s, all, in)
}

// insertion adds what a side taper and a lead-in chamfer do.
func insertion(s render.Sheet, k *job.Keys, in key.Insertion) render.Sheet {
	s.Block = append(s.Block, render.Field{Name: "Pressed in", Value: fmt.Sprintf("straight down: gap at the face %s to %s, at the floor %s to %s, where it enters %s", micro(in.Face.Min), micro(in.Face.Max), micro(in.Floor.Min), micro(in.Floor.Max), micro(in.Entry.Min))})
	if k.Taper > 0 || k.LeadIn > 0 {
		s.Notes = append(s.Notes, fmt.Sprintf("The key narrows by %s° a side towards its bottom, %s mm in all over %s mm, and its lower edge is chamfered by %s mm.", mm(k.Taper.Degrees()), mm(2*k.Depth*math.Tan(float64(k.Taper))), mm(k.Depth), mm(k.LeadIn)))
	}
	return s
}

// micro prints a gap to a thousandth of a millimetre: the proof is that sharp.
func micro(v float64) string { return fmt.Sprintf("%.3f mm", v+0) }

// puller returns a function that moves a point of the key away from the recess
// so that its gap is factor times as wide; the border in it stays as it is.
func puller(recess geom.Region, border, factor float64) func(geom.Point) geom.Point {
	edge := geom.IndexOf(recess)
	return func(p geom.Point) geom.Point {
		at, d := edge.Closest(p)
		if d < geom.Coincident {
			return p
		}
		wide := border + factor*(d-border)
		if !edge.Contains(p) {
			wide = factor * d
		}
		return at.Add(p.Sub(at).Mul(wide / d))
	}
}

// pulled returns the outline of r with every point moved, as a polygon with a
// point about every half millimetre: a picture.
func pulled(r geom.Region, pull func(geom.Point) geom.Point) geom.Region {
	const step = 0.5
	var out geom.Region
	for _, loop := range r {
		var pts []geom.Point
		for _, e := range loop {
			n := int(math.Ceil(e.Length() / step))
			for i := 0; i < n; i++ {
				pts = append(pts, pull(e.At(float64(i)/float64(n))))
			}
		}
		out = append(out, geom.Polygon(pts...))
	}
	return out
}
