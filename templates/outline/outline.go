// Package outline makes body outlines: from families of our own by measures
// that a builder reads off a sketch, or from half widths read with a ruler.
//
// An outline is a closed path of lines and tangent arcs, counter-clockwise, in a
// frame of its own: the centre line is x = 0, the tail end y = 0, +Y towards the
// neck, the bass side at −X (seen from the front).
package outline

import (
	"errors"
	"fmt"
	"math"
	"sort"
	"strings"

	"routwright/geom"
)

// Measure is one measure of a family, in mm.
type Measure struct {
	Key           string
	Doc           string
	Min, Max, Def float64
}

// Family is a kind of body outline.
type Family struct {
	Name     string
	Doc      string
	Measures []Measure
	build    func(m map[string]float64) []geom.Cubic
}

// Used is a measure as it was used.
type Used struct {
	Measure string
	Value   float64
	Given   bool
}

// Problem is one thing wrong with the measures that were given.
type Problem struct {
	Measure              string // empty when the family is meant
	Given, Allowed, Cure string
}

// problems is a list of problems as an error.
type problems []Problem

func (p problems) Error() string {
	var s []string
	for _, e := range p {
		s = append(s, fmt.Sprintf("%s: %s; allowed: %s; %s", e.Measure, e.Given, e.Allowed, e.Cure))
	}
	return strings.Join(s, "\n")
}

// Problems returns the problems in an error of Build.
func Problems(err error) []Problem {
	var p problems
	if errors.As(err, &p) {
		return p
	}
	return []Problem{{Given: err.Error(), Allowed: "an outline that does not cross itself", Cure: "change the measures"}}
}

// Families returns the families; the first stands where none is named.
func Families() []Family { return families }

// Lookup returns a family by its name.
func Lookup(name string) (Family, bool) {
	for _, f := range families {
		if f.Name == name {
			return f, true
		}
	}
	return Family{}, false
}

// Build returns the outline of a family for the measures given in mm, with the
// family's defaults for the others. The error lists every problem: see Problems.
func Build(family string, given map[string]float64) (geom.Path, []Used, error) {
	f, ok := Lookup(family)
	if !ok {
		var names []string
		for _, f := range families {
			names = append(names, f.Name)
		}
		return nil, nil, problems{{Given: fmt.Sprintf("%q", family), Allowed: strings.Join(names, ", "), Cure: "name one of these families"}}
	}
	m, used, bad := f.measures(given)
	bad = append(bad, related(m)...)
	if len(bad) > 0 {
		return nil, nil, bad
	}
	p, err := geom.FitCubics(f.build(m), geom.CurveToArc)
	if err != nil {
		return nil, nil, err
	}
	if err := (geom.Region{p}).Check(); err != nil {
		return nil, nil, problems{{Given: "measures whose outline crosses itself: " + err.Error(), Allowed: "an outline that does not cross itself", Cure: "bring the measures closer to the family's defaults"}}
	}
	if inside, outside := geom.TightestRadius(geom.Region{p}); inside.Radius < leastRadius || outside.Radius < leastRadius {
		tight := inside
		if outside.Radius < inside.Radius {
			tight = outside
		}
		key := f.near(tight.At, m)
		return nil, nil, problems{{key, fmt.Sprintf("%g mm, whose outline bends to a radius of %.1f mm at x %.0f, y %.0f", m[key], tight.Radius, tight.At.X, tight.At.Y), fmt.Sprintf("an outline of radius %g mm or more everywhere", float64(leastRadius)), "bring the measure closer to the family's default"}}
	}
	return p, used, nil
}

// leastRadius is the tightest bend of a family's outline, mm: the smallest
// common pattern bit, 8 mm, goes round it. Common practice.
const leastRadius = 4

// near returns the measure that shapes the outline at p: a horn or cutaway of
// its side above the upper bout, else the bout or waist that lies nearest.
func (f Family) near(p geom.Point, m map[string]float64) string {
	best, least := f.Measures[0].Key, math.Inf(1)
	for _, k := range f.Measures {
		at, ok := m[k.Key+"_at"]
		d := math.Abs(p.Y - at)
		if !ok {
			treble := strings.HasPrefix(k.Key, "treble")
			if p.Y < m["upper_at"] || strings.HasPrefix(k.Key, "bass") && p.X > 0 || treble && p.X < 0 ||
				!strings.Contains(k.Key, "horn") && !strings.Contains(k.Key, "cutaway") {
				continue
			}
			d = 0
		}
		if d < least {
			best, least = k.Key, d
		}
	}
	return best
}

// measures takes the given measures and fills in the defaults.
func (f Family) measures(given map[string]float64) (map[string]float64, []Used, problems) {
	m := map[string]float64{}
	var used []Used
	var bad problems
	for _, k := range f.Measures {
		v, ok := given[k.Key]
		if !ok {
			v = k.Def
		}
		if !(v >= k.Min && v <= k.Max) {
			bad = append(bad, Problem{k.Key, fmt.Sprintf("%g mm", v), fmt.Sprintf("%g to %g mm", k.Min, k.Max), "measure again: " + k.Doc})
		}
		m[k.Key] = v
		used = append(used, Used{k.Key, v, ok})
	}
	var names []string
	for k := range given {
		if _, ok := m[k]; !ok {
			names = append(names, k)
		}
	}
	sort.Strings(names)
	for _, k := range names {
		bad = append(bad, Problem{k, "a measure that the family " + f.Name + " does not have", f.keys(), "drop it, or use another"})
	}
	return m, used, bad
}

func (f Family) keys() string {
	var s []string
	for _, k := range f.Measures {
		s = append(s, k.Key)
	}
	return strings.Join(s, ", ")
}

// smallestRadius is the least radius in mm that an outline of a family may have:
// a hand sander's edge. Common practice.
const smallestRadius = 4

// SmallestRadius returns the smallest radius of an outline's arcs, in mm.
func SmallestRadius(p geom.Path) float64 {
	r := math.Inf(1)
	for _, s := range p {
		if s.IsArc() {
			r = math.Min(r, s.Radius)
		}
	}
	return r
}
