// Package record keeps what a set was made of: every part and every line that is
// cut, so that the next set can say what changed, and what is in the wood already
// is not lost.
//
//	Record   parts, keys, pins, templates and jigs of a set
//	Of       the record of a job and its sheets
//	Write    as text, one item a line, every number as it is
//	Read     back, bit for bit
//	Compare  what changed from one set to the next, and by how much
package record

import (
	"math"
	"strings"

	"routwright/geom"
	"routwright/render"
	"routwright/templates/cut"
	"routwright/templates/job"
	"routwright/templates/key"
	"routwright/templates/part"
	"routwright/templates/sheet"
)

// Record is what a set was made of. Places are seen from the front, as they lie on
// the instrument; mm.
type Record struct {
	job.Kept
	Name      string // of the instrument
	Templates []Template
	Sheets    []Sheet // jigs, boards and whatever else is cut without such a template
}

// Template is one template as it is drawn.
type Template struct {
	ID, Name   string
	Part       string // id of the part that it makes
	Shape      geom.Region
	Blank      geom.Region
	Pins       []cut.Pin
	Holes      []Hole // drilled in it, pins aside
	Thickness  float64
	Inside     float64    // smallest inside radius of its maker
	Tool       string     // in words, with its follower
	Depth      [2]float64 // least and greatest depth of the floor, from the part's own face; 0 where it is cut through
	Passes     int        // 0 where it is cut through
	FirstDepth float64    // of the first pass, mm
}

// Hole is a hole to be drilled.
type Hole struct {
	At geom.Point
	D  float64
}

// Sheet is a sheet that is no template of a part.
type Sheet struct {
	ID, Title string
	Lines     geom.Region // cut lines, open or closed
	Holes     []Hole
}

// Of returns the record of a job. sheets are those that the set holds.
func Of(j *job.Job, sheets []render.Sheet) *Record {
	r := &Record{Name: j.Name}
	r.Hand = j.Hand()
	r.Thickness, r.Pins = j.Thickness, j.Pins
	r.AllKeys = j.Design.Keys.Cutter.Done.V && j.Keys != nil
	for _, p := range j.Parts {
		r.Parts = append(r.Parts, job.KeptPart{Part: bare(p), Cut: j.Marked(p.ID)})
	}
	if k := j.Keys; k != nil {
		for _, p := range k.Poses {
			r.Keys = append(r.Keys, job.KeptKey{Name: p.Name, At: p.At, Turn: p.Turn, Face: p.Face, Length: k.Sizes[p.Size].Fit.Spec.Length, Meets: p.Meets})
		}
	}
	r.carryOver(j)
	byID := map[string]int{}
	for i, t := range j.Templates {
		byID[t.ID] = i
		r.Templates = append(r.Templates, templateOf(j, i))
	}
	for _, s := range sheets {
		if i, ok := byID[s.ID]; ok {
			r.Templates[i].Holes = holesOf(s)
			continue
		}
		if sheet.MarksOnly(s.ID) || s.ID == sheet.DrillFrontID || s.ID == sheet.DrillBackID {
			continue // pictures, and what the parts tell better
		}
		one := Sheet{ID: s.ID, Title: s.Title, Lines: linesOf(s.Groups), Holes: holesOf(s)}
		r.Sheets = append(r.Sheets, one)
	}
	return r
}

// bare returns a part as it is kept: without its place in the design file.
func bare(p part.Part) part.Part {
	q := part.Part{ID: p.ID, Name: p.Name, Kind: p.Kind, Face: p.Face, Adds: p.Adds, Group: p.Group}
	if len(p.Solids) > 0 {
		q.Solids = p.Solids
	}
	if len(p.Bores) > 0 {
		q.Bores = p.Bores
	}
	return q
}

// carryOver takes over what the record before holds of the wood and the design has
// no part for: it is cut all the same.
func (r *Record) carryOver(j *job.Job) {
	if j.Kept == nil {
		return
	}
	for _, k := range j.Kept.Parts {
		if _, has := j.PartByID(k.ID); has || !k.Cut {
			continue
		}
		r.Parts = append(r.Parts, k)
		for _, e := range j.Kept.Keys {
			if k.Kind == part.Recess && e.Name == k.Name {
				r.Keys = append(r.Keys, e)
			}
		}
	}
}

func templateOf(j *job.Job, i int) Template {
	t := j.Templates[i]
	out := Template{ID: t.ID, Name: t.Name, Part: t.For.ID, Shape: t.Shape, Blank: t.Blank, Pins: t.Pins,
		Thickness: t.Sheet, Inside: t.InsideRadius, Tool: t.Tool.String()}
	if t.Male || t.For.Adds {
		return out
	}
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, s := range t.For.Solids {
		f := s.Floor
		if t.For.Face == part.Back {
			f = part.Plane{Z: j.Thickness - s.Top.Z, DX: -s.Top.DX, DY: -s.Top.DY}
		}
		top, floor := part.Solid{Plan: s.Plan, Top: f, Floor: f}.Extremes()
		lo, hi = math.Min(lo, top.Z), math.Max(hi, floor.Z)
	}
	if lo <= hi {
		out.Depth = [2]float64{lo, hi}
	}
	if r := j.Routing(i); r.Problem == "" && len(r.Passes) > 0 {
		out.Passes, out.FirstDepth = len(r.Passes), r.Passes[0].Depth
	}
	return out
}

// linesOf returns the cut lines of groups, in their order.
func linesOf(groups []render.Group) geom.Region {
	var out geom.Region
	for _, g := range groups {
		for _, s := range g.Shapes {
			if len(s.Path) > 0 && (s.Kind == render.Cut || s.Led) {
				out = append(out, s.Path)
			}
		}
		out = append(out, linesOf(g.Groups)...)
	}
	return out
}

// holesOf returns the holes that are drilled by a sheet, the pins' aside.
func holesOf(s render.Sheet) []Hole {
	var out []Hole
	for _, h := range s.Holes {
		if h.Kind == render.Cut && !strings.HasPrefix(h.ID, "pin-") {
			out = append(out, Hole{h.At, h.D})
		}
	}
	return out
}

// cut reports whether all that a template makes is cut.
func (r *Record) cut(t Template) bool {
	if strings.HasPrefix(t.ID, key.RecessID) {
		n := 0
		for _, p := range r.Parts {
			if p.Kind == part.Recess && !p.Cut {
				return false
			}
			if p.Kind == part.Recess {
				n++
			}
		}
		return n > 0
	}
	for _, p := range r.Parts {
		if p.ID == t.Part {
			return p.Cut
		}
	}
	return false
}
