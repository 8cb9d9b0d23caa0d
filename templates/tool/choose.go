package tool

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"routwright/templates/design"
)

// way is one way to lead a bit, in the order in which they are tried.
type way struct {
	words string
	tools func(bits []design.Bit) []choice
}

// choice is a tool to be tried, or why it is none.
type choice struct {
	name string
	Tool
	err error
}

// bushLeast is by how much a bush that the program chooses is wider than the bit
// in all, mm: its own wall and room for the chips. Common practice.
const bushLeast = 2

// ways returns how a bit may be led: first what shows the cut on the template as
// it is, then bearings that do not, then guide bushes, and a free path last, where
// the shop has a router for it. Common practice.
func (r Rack) ways(c design.Cutter, n Need, at design.Pos) []way {
	bearing := func(fits func(k float64) bool) func([]design.Bit) []choice {
		return func(bits []design.Bit) (out []choice) {
			for _, b := range bits {
				if !b.Bearing.Present || !fits(float64(b.Bearing.D.V-b.D.V)/2) {
					continue
				}
				t, err := r.fit(b, design.Cutter{}, n, at)
				out = append(out, choice{b.Name.V, t, err})
			}
			return out
		}
	}
	bush := way{"a guide bush", func(bits []design.Bit) (out []choice) {
		for _, b := range bits {
			for _, g := range r.bushesFor(b, c) {
				t, err := bushed(b, g, n, at, c.Bush.At)
				out = append(out, choice{b.Name.V + " in bush " + g.Name.V, t, err})
			}
		}
		return out
	}}
	free := way{"a free path", func(bits []design.Bit) (out []choice) {
		for _, b := range bits {
			t, err := led(b, n, at)
			out = append(out, choice{b.Name.V, t, err})
		}
		return out
	}}
	switch {
	case c.Free.V:
		return []way{free}
	case c.Bush.Set():
		return []way{bush}
	}
	ws := []way{
		{"a bearing of the bit's own size", bearing(func(k float64) bool { return math.Abs(k) <= Alike })},
		{"a larger bearing", bearing(func(k float64) bool { return k > Alike })},
		{"a smaller bearing", bearing(func(k float64) bool { return k < -Alike })},
		bush,
	}
	if r.free {
		ws = append(ws, free)
	}
	return ws
}

// bushesFor returns the bushes that may lead a bit: the one that is named, or
// those with room for it and for a bearing on it, the tightest first.
func (r Rack) bushesFor(b design.Bit, c design.Cutter) []design.Bush {
	var out []design.Bush
	widest := max(b.D.V, b.Bearing.D.V)
	for _, g := range r.bushes {
		if c.Bush.Set() && g.Name.V == c.Bush.V || !c.Bush.Set() && float64(g.D.V-widest) >= bushLeast {
			out = append(out, g)
		}
	}
	slices.SortStableFunc(out, func(a, b design.Bush) int { return cmpLength(a.D.V, b.D.V) })
	return out
}

func cmpLength(a, b design.Length) int {
	switch {
	case a < b:
		return -1
	case a > b:
		return 1
	}
	return 0
}

// choose returns the largest bit that fits the need in the first way that one
// does, with the reason; what was passed over for it is named.
func (r Rack) choose(bits []design.Bit, c design.Cutter, n Need, at design.Pos) (Tool, error) {
	if c.Bush.Set() && !slices.ContainsFunc(r.bushes, func(g design.Bush) bool { return g.Name.V == c.Bush.V }) {
		return Tool{}, design.Errorf(c.Bush.At, n.Key+".bush", fmt.Sprintf("%q", c.Bush.V), "the name of a [[bush]] of this file", "add the bush, or name one that is there")
	}
	bits = slices.Clone(bits)
	slices.SortStableFunc(bits, func(a, b design.Bit) int { return cmpLength(b.D.V, a.D.V) })
	var over []string // ways passed over
	var firstErr error
	for i, w := range r.ways(c, n, at) {
		var bad []string
		for _, ch := range w.tools(bits) {
			why := n.forbids(ch)
			if why == "" {
				ch.Tool.Why = n.reason(ch.Tool, w, i > 0, bad, over)
				return ch.Tool, nil
			}
			if ch.err != nil && firstErr == nil {
				firstErr = ch.err
			}
			bad = append(bad, fmt.Sprintf("%s %s", ch.name, why))
		}
		if len(bad) > 0 {
			over = append(over, fmt.Sprintf("%s will not do (%s)", w.words, some(bad)))
		} else if i < 1 || w.words == "a guide bush" {
			over = append(over, w.words+" is not at hand")
		}
	}
	if len(bits) == 1 && firstErr != nil { // the design names it: say what is wrong with it
		return Tool{}, firstErr
	}
	allowed := "a bit with a bearing on the shank side, a guide bush for it, or a free path"
	if n.Corner > 0 {
		allowed = fmt.Sprintf("a bit of radius at most %s mm with a bearing on the shank side, or with a guide bush", mm(n.Corner))
	}
	return Tool{}, design.Errorf(at, n.Key, "no bit is named and none at hand fits: "+strings.Join(over, "; "), allowed, "add such a [[bit]], or name one here")
}

// forbids says why a tool does not fit; "" when it does.
func (n Need) forbids(ch choice) string {
	t := ch.Tool
	switch {
	case ch.err != nil && t.AtTip:
		return "has its bearing at the tip"
	case ch.err != nil && t.Guide == Bush:
		return "does not pass through it"
	case ch.err != nil:
		return "has a bearing that would enter the cut"
	case n.Corner > 0 && t.CutRadius() > n.Corner:
		return fmt.Sprintf("has a radius of %s mm, over the corner's %s", mm(t.CutRadius()), mm(n.Corner))
	case t.Guide == Bearing && !t.OwnSize() && t.Length > 0 && t.Length < n.Depth:
		// A bearing of another size may not leave the template for the wall.
		return fmt.Sprintf("would leave the template: it cuts %s mm, the depth is %s", mm(t.Length), mm(n.Depth))
	case n.Blind && t.FirstBite(n.Template) > n.Depth:
		return fmt.Sprintf("would cut %s mm deep at once, the depth is %s", mm(t.FirstBite(n.Template)), mm(n.Depth))
	case n.Blind && !n.Drilled && t.FirstBite(n.Template) > t.Cutter:
		return fmt.Sprintf("would bite %s mm at once, more than its own %s", mm(t.FirstBite(n.Template)), mm(t.Cutter))
	case t.Guide == Bush && t.Stands > n.Template:
		return fmt.Sprintf("stands %s mm out of the base, over a template of %s", mm(t.Stands), mm(n.Template))
	case t.ShankRubs(n.Depth):
		return fmt.Sprintf("has a shank of %s mm, which would rub below %s mm", mm(t.Shank), mm(t.Length))
	case t.Reach > 0 && t.Reach < n.Depth+n.sheet(t):
		return fmt.Sprintf("reaches %s mm, and %s are needed", mm(t.Reach), mm(n.Depth+n.sheet(t)))
	case n.Try != nil:
		return n.Try(t)
	}
	return ""
}

// sheet is the thickness of the template that a tool runs on.
func (n Need) sheet(t Tool) float64 {
	if t.Free() {
		return 0
	}
	return n.Template
}

// reason says why a tool was chosen, and what was passed over for it.
func (n Need) reason(t Tool, w way, lower bool, bad, over []string) string {
	s := fmt.Sprintf("bit %q with %s chosen: the largest at hand whose radius %s mm fits", t.Bit, w.words, mm(t.CutRadius()))
	if t.Guide == Bush {
		s = fmt.Sprintf("bit %q in guide bush %q chosen: the largest at hand whose radius %s mm fits", t.Bit, t.GuideOf, mm(t.CutRadius()))
	}
	if n.Corner > 0 {
		s += fmt.Sprintf(" the corner radius %s mm", mm(n.Corner))
	}
	if len(bad) > 0 {
		over = append(over, "passed over: "+some(bad))
	}
	if lower && len(over) > 0 || len(bad) > 0 {
		s += "; " + strings.Join(over, "; ")
	}
	return s
}

// some joins the first few of a list and counts the others.
func some(list []string) string {
	const shown = 3
	if len(list) <= shown {
		return strings.Join(list, ", ")
	}
	return fmt.Sprintf("%s and %d more", strings.Join(list[:shown], ", "), len(list)-shown)
}
