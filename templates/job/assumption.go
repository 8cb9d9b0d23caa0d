package job

import (
	"regexp"
	"slices"
	"strings"
)

// About is what an assumption is about: a chapter of their list, the one that matters
// most to the cut first.
type About uint8

const (
	AboutFits   About = iota // what cavities, keys, covers and templates are cut to
	AboutHoles               // holes, screws and channels
	AboutNeck                // neck and fretboard
	AboutString              // strings, and how the instrument hangs
	AboutShop                // sheet, jigs, pins, paper and drills
)

// Abouts are all of them, in order.
var Abouts = []About{AboutFits, AboutHoles, AboutNeck, AboutString, AboutShop}

// String returns the words for the chapter.
func (a About) String() string {
	return [...]string{"Fits: what templates are cut to", "Holes, screws and channels", "Neck and fretboard", "Strings, and how it hangs", "Sheet, jigs, pins, drills and paper"}[a]
}

// abouts tells a chapter by the beginning of a key; the first that fits counts.
var abouts = []struct {
	begins string
	about  About
}{
	{"strap.length", AboutString}, {"strap", AboutHoles}, {"channel", AboutHoles}, {"jack", AboutHoles}, {"neck.bolts", AboutHoles},
	{"bridge.screw", AboutHoles}, {"bridge screw", AboutHoles}, {"bridge.posts", AboutHoles}, {"bridge.through", AboutHoles}, {"bridge.tailpiece", AboutHoles},
	{"neck.heel", AboutFits}, {"neck.joint", AboutFits}, {"neck pocket", AboutFits}, {"neck-pocket", AboutFits}, {"neck slide", AboutFits}, {"neck swing", AboutFits},
	{"neck caul", AboutShop}, {"neck", AboutNeck}, {"fretboard", AboutNeck}, {"joint", AboutNeck},
	{"strings", AboutString}, {"compensation", AboutString}, {"mass", AboutString}, {"balance", AboutString},
	{"template", AboutShop}, {"pin ", AboutShop}, {"print", AboutShop}, {"drill", AboutShop}, {"handle block", AboutShop}, {"edge caul", AboutShop}, {"lining of", AboutShop}, {"router", AboutShop}, {"bit", AboutShop},
}

// About returns the chapter of an assumption. A screw of whatever is a hole; what no
// chapter claims is a fit.
func (a Assumption) About() About {
	if strings.Contains(a.Key, ".screw") || strings.Contains(a.Key, " pilot") {
		return AboutHoles
	}
	for _, q := range abouts {
		if strings.HasPrefix(a.Key, q.begins) {
			return q.about
		}
	}
	return AboutFits
}

var digits = regexp.MustCompile(`\d+`)

// Gathered returns assumptions with those of siblings in one: keys that differ by a
// number alone and have the same value and reason, and values of one key with the same
// reason. The order is that of their first.
func Gathered(as []Assumption) []Assumption {
	type group struct {
		a      Assumption
		keys   []string
		values []string
	}
	var gs []*group
	find := func(same func(g *group) bool) *group {
		for _, g := range gs {
			if same(g) {
				return g
			}
		}
		return nil
	}
	for _, a := range as {
		a := a
		if g := find(func(g *group) bool {
			return g.a.How == a.How && g.a.Key == a.Key && g.a.Why == a.Why && len(g.keys) == 1
		}); g != nil {
			g.values = append(g.values, a.Value)
			continue
		}
		kind := digits.ReplaceAllString(a.Key, "#")
		if g := find(func(g *group) bool {
			return g.a.How == a.How && digits.ReplaceAllString(g.a.Key, "#") == kind && kind != g.a.Key && g.a.Value == a.Value && g.a.Why == a.Why && len(g.values) == 1
		}); g != nil {
			g.keys = append(g.keys, a.Key)
			continue
		}
		gs = append(gs, &group{a: a, keys: []string{a.Key}, values: []string{a.Value}})
	}
	var out []Assumption
	for _, g := range gs {
		g.a.Key, g.a.Value = strings.Join(g.keys, ", "), strings.Join(g.values, "; ")
		out = append(out, g.a)
	}
	return out
}

// ByAbout returns assumptions in the order of their chapters, each chapter in the
// order in which they were made.
func ByAbout(as []Assumption) []Assumption {
	out := slices.Clone(as)
	slices.SortStableFunc(out, func(a, b Assumption) int { return int(a.About()) - int(b.About()) })
	return out
}
