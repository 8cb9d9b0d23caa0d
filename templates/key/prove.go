package key

import (
	"routwright/geom"
	"routwright/templates/cut"
	"routwright/templates/part"
)

// Proof is the proof of a fit: both simulated cuts, and the key laid straight
// down into its recess after the declared hand work.
type Proof struct {
	Female, Male   cut.Template
	Recess, Key    cut.Proof
	Gap            cut.Range
	CutRecess      geom.Region // recess after hand work
	CutKey         geom.Region // key after hand work
	CornerDistance float64     // how far the cutter stays from the tip of an end corner, mm
}

// Ids of the shared templates.
const (
	RecessID = "key-recess"
	KeyID    = "key"
)

// Templates returns the female and the male template of a fit as sheets of the
// given thickness, about the middle of the key.
func (f Fit) Templates(depth, sheet, margin float64) (female, male cut.Template) {
	level := func(plan geom.Region) []part.Solid {
		return []part.Solid{{Plan: plan, Top: part.Level(0), Floor: part.Level(depth)}}
	}
	female = cut.Template{
		ID: RecessID, Name: "key recesses", Loose: true, Shape: f.Female,
		For:   part.Part{ID: RecessID, Name: "all keys", Kind: part.Recess, Solids: level(f.Recess)},
		Blank: cut.SheetRound(f.Female.Bounds(), margin),
		Sheet: sheet, InsideRadius: f.Spec.Template, Tool: f.Tool, Hand: f.RecessHand,
	}
	male = cut.Template{
		ID: KeyID, Name: "keys", Male: true, Loose: true, Shape: f.Male, Blank: f.Male,
		For:   part.Part{ID: KeyID, Name: "all keys", Kind: part.Key, Adds: true, Solids: level(f.Key)},
		Sheet: sheet, InsideRadius: f.Spec.Template, Tool: f.Tool, Hand: f.KeyHand,
	}
	return female.Settled(), male.Settled()
}

// Prove simulates both cuts of a fit and lays the key into the recess.
func Prove(f Fit, female, male cut.Template) (Proof, error) {
	p := Proof{Female: female, Male: male}
	var err error
	if p.Recess, err = cut.Prove(female); err != nil {
		return Proof{}, err
	}
	var c geom.Calc
	p.CutRecess = p.Recess.Finished
	if f.Inlay != nil {
		p.CutKey = f.Made
	} else {
		if p.Key, err = cut.Prove(male); err != nil {
			return Proof{}, err
		}
		p.CutKey = p.Key.Finished
	}
	if err := c.Err(); err != nil {
		return Proof{}, err
	}
	p.Gap = cut.Gap(p.CutKey, p.CutRecess)
	if o := f.Spec.Grows(); o > 0 { // the border fills its own part of the gap
		p.Gap.Min, p.Gap.Max, p.Gap.Mean = p.Gap.Min-o, p.Gap.Max-o, p.Gap.Mean-o
	}
	if f.Spec.Corners != Rounded {
		p.CornerDistance = CornerDistance(f.Tool.CutRadius(), f.Spec.End())
	}
	return p, nil
}
