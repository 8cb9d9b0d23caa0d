package record

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"routwright/geom"
	"routwright/templates/cut"
	"routwright/templates/design"
	"routwright/templates/job"
	"routwright/templates/part"
	"routwright/templates/sheet"
)

// Still is how far a line may have moved, or a depth changed, and yet count as the
// same, mm: what the arithmetic leaves, not what a cutter does.
const Still = geom.Coincident

// State is what became of a template, a jig or a hole.
type State uint8

const (
	Changed State = iota
	New
	Gone
)

// Change is what changed about one template, one other sheet, or one part that has
// neither: a drilled hole, a contour, where a key lies.
type Change struct {
	ID, Name string
	State    State
	// By is the largest measure that changed, mm: 0 where a bit or a number of
	// passes alone did.
	By    float64
	Words []string // what changed, the largest first
	Cut   bool     // all that it makes is cut already
}

// Diff is what changed from one set to the next.
type Diff struct {
	Changes []Change // the largest first; then what is new, then what is gone
	Same    int      // templates, sheets and parts without one that did not change
}

// Compare returns what changed from one record to the next: of each template how
// far its edge moved at most and where, its depth, its bit, its sheet and its pins;
// of other sheets their cut lines and holes; of parts without a template their
// surfaces and holes. Sheets of stock are laid out anew where a template changes:
// they are told without a measure. Edges cost what geom.Farthest does.
func Compare(was, is *Record) Diff {
	c := comparer{was: was, is: is}
	pairs(was.Templates, is.Templates, func(t Template) string { return t.ID }, &c, func(t Template) Change {
		return Change{ID: t.ID, Name: t.Name}
	}, c.template)
	pairs(was.Sheets, is.Sheets, func(s Sheet) string { return s.ID }, &c, func(s Sheet) Change {
		return Change{ID: s.ID, Name: s.Title}
	}, c.sheet)
	pairs(was.alone(), is.alone(), func(p job.KeptPart) string { return p.ID }, &c, func(p job.KeptPart) Change {
		return Change{ID: p.ID, Name: p.String(), Cut: p.Cut}
	}, c.part)
	slices.SortStableFunc(c.d.Changes, func(a, b Change) int {
		switch {
		case a.State != b.State:
			return int(a.State) - int(b.State)
		case a.By > b.By:
			return -1
		case a.By < b.By:
			return 1
		}
		return 0
	})
	return c.d
}

// comparer collects what changed.
type comparer struct {
	was, is *Record
	d       Diff
}

// pairs compares what both lists have, in the order of the new one, and tells what
// only one of them has.
func pairs[T any](was, is []T, id func(T) string, c *comparer, head func(T) Change, compare func(*Change, T, T)) {
	old := map[string]T{}
	for _, t := range was {
		old[id(t)] = t
	}
	for _, t := range is {
		ch := head(t)
		o, had := old[id(t)]
		delete(old, id(t))
		if !had {
			ch.State = New
			c.d.Changes = append(c.d.Changes, ch)
			continue
		}
		compare(&ch, o, t)
		if len(ch.Words) == 0 {
			c.d.Same++
			continue
		}
		c.d.Changes = append(c.d.Changes, ch)
	}
	for _, t := range was {
		if _, gone := old[id(t)]; gone {
			ch := head(t)
			ch.State = Gone
			c.d.Changes = append(c.d.Changes, ch)
		}
	}
}

// alone returns the parts that no template of their own makes, wood that is put in
// aside: what is drilled, contours, and where each key lies.
func (r *Record) alone() []job.KeptPart {
	made := map[string]bool{}
	for _, t := range r.Templates {
		made[t.Part] = true
	}
	var out []job.KeptPart
	for _, p := range r.Parts {
		if !p.Adds && !made[p.ID] {
			out = append(out, p)
		}
	}
	return out
}

// say adds a measure that changed.
func (c *Change) say(by float64, format string, args ...any) {
	if by > c.By {
		c.By = by
		c.Words = append([]string{fmt.Sprintf(format, args...)}, c.Words...)
		return
	}
	c.Words = append(c.Words, fmt.Sprintf(format, args...))
}

func mm(v float64) string { return design.MM(v) }

func place(p geom.Point) string { return fmt.Sprintf("x %s, y %s", mm(p.X), mm(p.Y)) }

// moved tells how far lines moved.
func (c *Change) moved(what string, was, is geom.Region) {
	switch d, at := part.EdgeMoved(was, is); {
	case d <= Still:
	case math.IsInf(d, 1):
		c.say(0, "%s drawn anew", what)
	default:
		c.say(d, "%s moved by up to %s mm, at %s", what, mm(d), place(at))
	}
}

func (c *comparer) template(ch *Change, was, is Template) {
	ch.Cut = c.is.cut(is)
	ch.moved("edge", was.Shape, is.Shape)
	if d := math.Max(math.Abs(is.Depth[0]-was.Depth[0]), math.Abs(is.Depth[1]-was.Depth[1])); d > Still {
		ch.say(d, "depth %s in place of %s mm", depthWords(is.Depth), depthWords(was.Depth))
	}
	if is.Tool != was.Tool {
		flat := strings.NewReplacer(";", ",") // a semicolon parts one change from the next
		ch.say(0, "%s in place of %s", flat.Replace(is.Tool), flat.Replace(was.Tool))
	}
	ch.holes(was.Holes, is.Holes)
	ch.pins(was.Pins, is.Pins)
	if d := math.Abs(is.Thickness - was.Thickness); d > Still {
		ch.say(d, "sheet of %s in place of %s mm", mm(is.Thickness), mm(was.Thickness))
	}
	if d := math.Abs(is.Inside - was.Inside); d > Still {
		ch.say(0, "its inside corners no tighter than %s in place of %s mm", mm(is.Inside), mm(was.Inside))
	}
	if len(ch.Words) == 0 || is.Blank.Empty() != was.Blank.Empty() { // else it follows what is told
		ch.moved("edge of the sheet", was.Blank, is.Blank)
	}
	if is.Passes != was.Passes || math.Abs(is.FirstDepth-was.FirstDepth) > Still {
		ch.say(0, "%s in place of %d passes", passWords(is), was.Passes)
	}
}

func depthWords(d [2]float64) string {
	if d[1]-d[0] <= Still {
		return mm(d[1])
	}
	return mm(d[0]) + " to " + mm(d[1])
}

func passWords(t Template) string {
	if t.Passes == 0 {
		return "no passes"
	}
	return fmt.Sprintf("%d passes, the first %s mm,", t.Passes, mm(t.FirstDepth))
}

// pins tells how far the pins moved.
func (c *Change) pins(was, is []cut.Pin) {
	if len(was) != len(is) {
		c.say(0, "%d pins in place of %d", len(is), len(was))
		return
	}
	var most, wider float64
	for i, p := range is {
		most, wider = math.Max(most, p.At.Dist(was[i].At)), math.Max(wider, math.Abs(p.D-was[i].D))
	}
	if most > Still {
		c.say(most, "pins moved by up to %s mm", mm(most))
	}
	if wider > Still {
		c.say(wider, "pins of %s and %s mm in place of %s and %s", mm(is[0].D), mm(is[len(is)-1].D), mm(was[0].D), mm(was[len(was)-1].D))
	}
}

// holes tells what became of holes.
func (c *Change) holes(was, is []Hole) {
	bores := func(hs []Hole) []part.Bore {
		return each(hs, func(h Hole) part.Bore {
			at := part.Point{X: h.At.X, Y: h.At.Y}
			return part.Bore{From: at, To: at, D: h.D}
		})
	}
	c.parts(part.Differ(part.Part{Bores: bores(was)}, part.Part{Bores: bores(is)}), part.Front)
}

// parts tells what differs between two states of a part.
func (c *Change) parts(ds []part.Change, f part.Face) {
	for _, d := range ds {
		if d.By > Still {
			c.say(d.Measure(), "%s", d.Words(f, 0))
		}
	}
}

func (c *comparer) sheet(ch *Change, was, is Sheet) {
	if strings.HasPrefix(is.ID, sheet.StockPrefix) {
		if d, _ := part.EdgeMoved(was.Lines, is.Lines); d > Still || !slices.Equal(was.Holes, is.Holes) {
			ch.say(0, "laid out anew")
		}
		return
	}
	ch.moved("cut lines", was.Lines, is.Lines)
	ch.holes(was.Holes, is.Holes)
}

func (c *comparer) part(ch *Change, was, is job.KeptPart) {
	ch.parts(part.Differ(was.FromFace(c.was.Thickness), is.FromFace(c.is.Thickness)), is.Face)
}
