package job

import (
	"math"
	"sync"

	"routwright/geom"
	"routwright/templates/cut"
	"routwright/templates/limit"
)

// carry gives a template a sheet that carries the router's base, or else the plate
// under it.
func (s *solver) carry(t *cut.Template) error {
	for _, base := range []float64{s.Base, s.Wide} {
		if base == 0 {
			continue
		}
		on, ok, err := cut.Carried(*t, base, webMargin, s.sheetOf(*t))
		if err != nil {
			return err
		}
		if *t = on; ok {
			return nil
		}
	}
	return nil
}

// sheetOf returns what tells the outline of a template's sheet for a width of wood
// round the opening: one on the pins holds them too.
func (j *Job) sheetOf(t cut.Template) func(web float64) geom.Region {
	if t.Pinned() {
		return func(web float64) geom.Region { return j.sheetRound(t.Shape, web) }
	}
	return func(web float64) geom.Region { return cut.SheetRound(t.Shape.Bounds(), web) }
}

// sheetRound returns the template sheet: the rectangle that holds the opening
// with a web of wood round it and both pins with room.
func (j *Job) sheetRound(open geom.Region, web float64) geom.Region {
	b := open.Bounds().Grow(web)
	for _, p := range j.Pins {
		b = b.Union(geom.BoxOf(p.At).Grow(cut.PinRoom))
	}
	r := func(v, up float64) float64 { return math.Ceil(v*up) * up }
	lo, hi := geom.Pt(r(b.Min.X, -1), r(b.Min.Y, -1)), geom.Pt(r(b.Max.X, 1), r(b.Max.Y, 1))
	return geom.Region{geom.Rect(lo.Lerp(hi, 0.5), hi.X-lo.X, hi.Y-lo.Y)}
}

// Plate is the plate under the router's base that a template asks for.
type Plate struct {
	// Needed is true where more than limit.BaseOverhang of the base itself hangs
	// over somewhere on the path, on any sheet.
	Needed bool
	// Least is the least round plate that is carried all along the path; its D is 0
	// where none is needed, and where Needed and no plate of up to 500 mm helps.
	Least cut.Outrigger
}

// plates keeps what was asked for: each takes some milliseconds.
type plates struct {
	sync.Mutex
	known []plate
}

type plate struct {
	Plate
	done bool
}

// OutriggerFor returns the plate that the template with index i asks for under a
// router that is held by hand. Any number of goroutines may ask.
func (j *Job) OutriggerFor(i int) Plate {
	t := j.Templates[i]
	if t.Free() || t.Male && !j.ByHand {
		return Plate{}
	}
	find := func() Plate {
		if !t.Male && j.Sweeps[i].Base <= j.Base && j.Sweeps[i].Worst().Share <= limit.BaseOverhang {
			return Plate{}
		}
		o, ok, err := cut.OutriggerFor(t, j.Base, webMargin, j.sheetOf(t))
		if err != nil { // an opening that no follower enters: other rules say so
			return Plate{}
		}
		return Plate{Needed: !ok || o.D > 0, Least: o}
	}
	m := j.plates
	if m == nil || i >= len(m.known) {
		return find()
	}
	m.Lock()
	defer m.Unlock()
	if !m.known[i].done {
		m.known[i] = plate{find(), true}
	}
	return m.known[i].Plate
}
