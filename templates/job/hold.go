package job

import (
	"sync"

	"routwright/geom"
	"routwright/templates/cut"
)

// Hold is how a template is held down while its cut is made, and what carries it.
type Hold struct {
	Clamps []cut.Clamp  // two, or none
	Screws []geom.Point // through the sheet into the waste, where no two clamps find room
	Given  []cut.Proud  // those of the design, which stand for both
	// Tape says why double-sided tape holds it, where neither clamps nor screws can;
	// empty otherwise.
	Tape  string
	Props []cut.Prop // under the sheet, beyond the edges of the slab
}

// held keeps how a template is held once it was asked for.
type held struct {
	once sync.Once
	hold Hold
}

// HoldOf returns how the template with index i is held. A free path has no template:
// its Hold is empty. Any number of goroutines may ask.
func (j *Job) HoldOf(i int) Hold {
	if i >= len(j.held) {
		return j.findHold(i)
	}
	m := &j.held[i]
	m.once.Do(func() { m.hold = j.findHold(i) })
	return m.hold
}

func (j *Job) findHold(i int) Hold {
	t, s := j.Templates[i], j.Sweeps[i]
	switch {
	case t.Free():
		return Hold{}
	case t.Male:
		return Hold{Tape: "the cut goes all round it"}
	case !t.Pinned():
		return Hold{Tape: "it is laid anew for every key, and the base passes over nearly all of it"}
	}
	b := cut.Bench{Slab: j.Blank, Body: j.Outline, Pins: t.Pins}
	var c geom.Calc
	var off []geom.Region
	for k, e := range j.Templates {
		if j.cutBefore(k, i) {
			off = append(off, e.For.Plan())
		}
	}
	b.Off = c.Union(off...)
	var h Hold
	var err error
	if h.Props, err = cut.Props(s, t.Blank, j.Blank); err != nil {
		return Hold{Tape: err.Error()}
	}
	if h.Given = j.Screws; len(h.Given) > 0 {
		return h
	}
	if h.Clamps, err = cut.Clamps(s, t.Blank, b); err != nil || len(h.Clamps) > 0 {
		return h
	}
	if h.Screws, err = cut.Screws(s, t.Blank, b, defaultScrewHead); err != nil || len(h.Screws) > 0 {
		return h
	}
	h.Tape = "the base passes over every place where two clamps or two screws could stand"
	return h
}
