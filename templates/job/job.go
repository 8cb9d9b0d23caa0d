// Package job solves a design: from what the builder wrote to parts, templates
// and the proof of each cut.
//
//	Solve   design file → Job
//	Job     parts, templates, proofs, and what was assumed
package job

import (
	"io"

	"routwright/geom"
	"routwright/templates/cut"
	"routwright/templates/design"
	"routwright/templates/fretboard"
	"routwright/templates/key"
	"routwright/templates/neck"
	"routwright/templates/part"
	"routwright/templates/space"
	"routwright/templates/strings"
	"routwright/templates/tool"
)

// Job is a solved design.
type Job struct {
	Name, Revision string
	Design         *design.Design

	Thickness float64     // of the finished body, mm
	Rough     float64     // of the slab when the keys go in, mm
	PlaneOff  [2]float64  // still to come off the front and the back
	Outline   geom.Region // of the finished body
	Blank     geom.Region // of the squared slab
	Cracks    []Crack

	Parts     []part.Part
	Templates []cut.Template
	Proofs    []cut.Proof // one a template, in the same order
	Pins      []cut.Pin
	Sections  []Section

	Edge     *space.Edge // of the body, square where nothing is done to it
	EdgeBit  *EdgeBit    // nil with square edges
	Contours []Contour
	Sweeps   []cut.Sweep // of the router's base, one a template
	drilled  []drilled   // by template: plans for drilling waste
	held     []held      // by template: how it is held
	Jigs     Jigs
	Channels []Channel
	Jack     *Jack  // nil without one
	Strap    *Strap // nil where nothing is said of it
	Balance  *Balance

	Base     float64     // diameter of the router's base, mm
	Wide     float64     // diameter of the plate under it for large openings, mm; 0 without one
	ByHand   bool        // parts are trimmed on their outside with the router held by hand
	PinProud float64     // how far the pins stand out of a template, mm
	Screws   []cut.Proud // that hold the templates

	Keys    *Keys        // nil without keys
	KeepOut [2][]KeepOut // what keys of the front and of the back stay clear of
	Board   *fretboard.Board
	Neck    *Neck       // nil without a neck
	Shape   *neck.Shape // of the neck that is to be made; nil when none is asked for
	Bridge  *Bridge     // nil without a bridge
	Print   Print
	Stock   *Stock // nil where the design gives no sheet

	// Markers is the diameter of the position markers, mm; 0 for none.
	Markers float64
	// Index is the strip or carrier that leads the board past the saw; nil without
	// a board. It is that of the right-handed board: its sheet mirrors it.
	Index *fretboard.Index
	// Strings is what each string does, the highest first; nil where the design
	// does not say enough. Compensation is how far each saddle lies beyond the
	// scale length, mm, from bass to treble: an estimate.
	Strings      []strings.Row
	Compensation []float64

	Assumed []Assumption

	Controls []Control          // in the order of the design file
	gaps     map[string]float64 // round covers, by the group of their cavity
}

// Crack is a crack as measured.
type Crack struct {
	Front, Back geom.Path
	At          design.Pos
}

// Keys is the shared key of a job and where it goes.
type Keys struct {
	Fit key.Fit
	// Sizes are the sizes of the key: first that of Fit, whose proof and gap stand
	// below, then the shorter ones of a graduated set that are used.
	Sizes []KeySize
	Depth float64 // finished
	Poses []KeyPose
	// Key parts and their recesses are in Job.Parts, in the order of Poses.
	Bare  []Bare    // stretches that were left without a key
	Gap   cut.Range // key as cut in recess as cut, after the declared hand work
	Proof key.Proof
	// Wanted is the gap that the design asks for; an inlay set has its own.
	Wanted float64
	Wood   Wood
	Taper  geom.Angle // of the key, a side, towards its bottom
	LeadIn float64    // chamfer on its lower edge, mm
}

// Bare is a stretch of a crack that the program found no key for, and the part
// that is in the way.
type Bare struct {
	Crack      int // from 1
	From, To   float64
	At         geom.Point // its middle
	Face       part.Face
	By         string // empty when nothing blocks
	Have, Need float64
}

// KeySize is one size of the keys with its templates and their proof.
type KeySize struct {
	Fit   key.Fit
	Proof key.Proof
	Gap   cut.Range // key as cut in recess as cut, after the declared hand work
	// Suffix ends the ids of its templates, "" for the first size, "-48" for one of
	// 48 mm; Words name it beside others.
	Suffix, Words string
}

// Of returns the size whose template, of key or recess, has an id; nil for another
// template's.
func (k *Keys) Of(id string) *KeySize {
	if k == nil {
		return nil
	}
	for i := range k.Sizes {
		if z := &k.Sizes[i]; id == key.RecessID+z.Suffix || id == key.KeyID+z.Suffix {
			return z
		}
	}
	return nil
}

// Count returns how many keys are of the size with index i.
func (k *Keys) Count(i int) (n int) {
	for _, p := range k.Poses {
		if p.Size == i {
			n++
		}
	}
	return n
}

// KeyPose is one key placed over a crack.
type KeyPose struct {
	Name  string
	Size  int // index into Keys.Sizes
	At    geom.Point
	Turn  geom.Angle
	Face  part.Face
	Meets bool // cavities may take wood of it
	Pos   design.Pos
	Why   string // why there, when the program placed it
}

// Faces returns the faces that keys are let into, the front first; the front
// when there is no key.
func (k *Keys) Faces() []part.Face {
	var used [2]bool
	for _, p := range k.Poses {
		used[p.Face] = true
	}
	switch {
	case used[part.Front] && used[part.Back]:
		return []part.Face{part.Front, part.Back}
	case used[part.Back]:
		return []part.Face{part.Back}
	}
	return []part.Face{part.Front}
}

// RecessDepth returns how deep a key's recess is cut before planing, mm: its
// finished depth and what still comes off that face.
func (j *Job) RecessDepth(f part.Face) float64 { return j.Keys.Depth + j.PlaneOff[f] }

// Print is how the paper comes out.
type Print struct {
	Paper           []string
	Margin, Overlap float64  // mm; 0 is the default of the drawing office
	Measured        geom.Vec // mm on the first print, across and up; 0 when not measured
	Nominal         geom.Vec // what that should have been
}

// Assumption is a value that the builder did not give.
type Assumption struct {
	Key   string // key of the design file
	Value string
	How   string // "assumed" or "solved"
	Why   string
}

// Files opens the files that a design refers to, by their names as written.
type Files func(name string) (io.ReadCloser, error)

// CoverGap returns the gap in mm a side between a cover and its rebate, by the
// group of its cavity; 0 without one.
func (j *Job) CoverGap(group string) float64 { return j.gaps[group] }

// PartByID returns the part with the given id.
func (j *Job) PartByID(id string) (part.Part, bool) {
	for _, p := range j.Parts {
		if p.ID == id {
			return p, true
		}
	}
	return part.Part{}, false
}

// Voids returns the parts that are cut out of the body, keys' recesses aside.
func (j *Job) Voids() []part.Part {
	var v []part.Part
	for _, p := range j.Parts {
		switch p.Kind {
		case part.Pickup, part.Cavity, part.Rebate, part.Seat, part.Chamber, part.Pocket:
			v = append(v, p)
		}
	}
	return v
}

// Mates returns the parts of one kind that belong to the same group as p: the
// rebate and the cover of a cavity.
func (j *Job) Mates(p part.Part, k part.Kind) []part.Part {
	var v []part.Part
	for _, q := range j.Parts {
		if q.Kind == k && q.Group == p.Group {
			v = append(v, q)
		}
	}
	return v
}

// OfKind returns the parts of one kind.
func (j *Job) OfKind(k part.Kind) []part.Part {
	var v []part.Part
	for _, p := range j.Parts {
		if p.Kind == k {
			v = append(v, p)
		}
	}
	return v
}

// need is a shorthand for what a feature asks of the rack.
func need(key string, corner, depth, sheet float64) tool.Need {
	return tool.Need{Key: key, Corner: corner, Depth: depth, Template: sheet, Blind: true, Try: func(t tool.Tool) string {
		if thick := sheet; depth > 0 {
			if t.Free() {
				thick = 0
			}
			if r := cut.Plan(t, depth, thick); r.Problem != "" {
				return "cannot make its passes: " + r.Problem
			}
		}
		return ""
	}}
}
