package tool

import (
	"fmt"
	"math"
)

// Fit is what a hole is for, which says what other drill may stand in.
type Fit uint8

const (
	Exact  Fit = iota // something is pressed or slides in: a ferrule, an insert, a dowel
	Pilot             // a screw cuts its thread: never larger
	Clear             // something passes through: never smaller
	Wire              // wires pass: any of a range
	Opened            // a wide hole that may be opened to its line from a smaller one
)

// How far a drill at hand may be from the hole that is asked for, mm. Common practice.
const (
	drillSame   = 0.1 // the next tenth serves every fit
	pilotLess   = 0.3 // a pilot hole this much smaller holds, with a waxed screw
	clearMore   = 0.5 // a clear hole this much larger still centres the screw
	wireLess    = 1.0 // a channel this much narrower still takes its wires
	openedLeast = 0.4 // share of the diameter that a smaller drill leaves little to open from
)

// Bored is what the rack has for a hole.
type Bored struct {
	OK    bool  // the drill serves as it is
	Drill Drill // the one that serves, or that could; zero when there is none
	Words string
}

// Hole says which drill at hand bores a hole of diameter d, deep mm, and if none does,
// what could stand in for it. It never takes another size in silence: OK is true only
// for the size asked for, long enough.
func (r Rack) Hole(d, deep float64, fit Fit) Bored {
	var same, other *Drill
	for i := range r.drills {
		k := &r.drills[i]
		if math.Abs(k.D-d) <= drillSame+1e-9 {
			if long(*k, deep) && k.sized() {
				return Bored{true, *k, "at hand: " + k.String()}
			}
			if same == nil {
				same = k
			}
			continue
		}
		if stands(*k, d, deep, fit) && (other == nil || math.Abs(k.D-d) < math.Abs(other.D-d)) {
			other = k
		}
	}
	switch {
	case same != nil && !same.sized():
		return Bored{Drill: *same, Words: fmt.Sprintf("not in the design: the program counts on a %s of a usual small set; have one, or name yours", same)}
	case same != nil:
		return Bored{Drill: *same, Words: fmt.Sprintf("%s is too short, it drills %s mm of %s: bore from both faces, or get a longer one", same, mm(same.Length), mm(deep))}
	case other != nil && other.sized():
		return Bored{Drill: *other, Words: "missing; " + fit.with(*other)}
	}
	return Bored{Words: "missing; " + fit.without(d)}
}

// sized reports whether the design names the drill.
func (d Drill) sized() bool {
	for _, a := range d.Assumed {
		if a == fromSmallSet {
			return false
		}
	}
	return true
}

func long(k Drill, deep float64) bool { return k.Length == 0 || k.Length >= deep }

// stands reports whether a drill of another size could stand in for a hole.
func stands(k Drill, d, deep float64, fit Fit) bool {
	if !long(k, deep) {
		return false
	}
	switch fit {
	case Pilot:
		return k.D < d && k.D >= d-pilotLess-1e-9
	case Clear:
		return k.D > d && k.D <= d+clearMore+1e-9
	case Wire:
		return k.D < d && k.D >= d-wireLess-1e-9
	case Opened:
		return k.D < d && k.D >= openedLeast*d
	}
	return false
}

// with says how a drill of another size stands in.
func (f Fit) with(k Drill) string {
	switch f {
	case Pilot:
		return fmt.Sprintf("%s could replace it: a tighter hole, so wax the screw and drive it by hand", k)
	case Clear:
		return fmt.Sprintf("%s could replace it: a looser hole, so centre the part before it is drawn tight", k)
	case Wire:
		return fmt.Sprintf("%s could replace it: write its diameter into the design and make the set again", k)
	}
	return fmt.Sprintf("%s could replace it: bore with it in the middle and open the hole to its line with a drum or a rasp", k)
}

// without says what to get where nothing at hand stands in.
func (f Fit) without(d float64) string {
	switch f {
	case Pilot:
		return fmt.Sprintf("one of %s to %s mm could replace it, never a larger one", mm(d-pilotLess), mm(d))
	case Clear:
		return fmt.Sprintf("one of %s to %s mm could replace it", mm(d), mm(d+clearMore))
	case Wire:
		return fmt.Sprintf("one of %s to %s mm could replace it, its diameter written into the design", mm(d-wireLess), mm(d))
	case Opened:
		return fmt.Sprintf("a smaller one of at least %s mm could replace it, the hole then opened to its line", mm(math.Ceil(openedLeast*d)))
	}
	return "nothing replaces it, since what goes in is pressed or slides in: get this size, or measure the part again"
}
