package tool

import (
	"fmt"
	"sort"

	"routwright/templates/design"
)

// Rack is the bits and bushes at hand.
type Rack struct {
	bits   []design.Bit
	bushes []design.Bush
}

// NewRack returns the rack of a design; a design without any bit gets the usual
// ones, and assumed names them for the builder to confirm.
func NewRack(d *design.Design) (r Rack, assumed []string) {
	r = Rack{bits: append([]design.Bit(nil), d.Bit...), bushes: d.Bush}
	for i, b := range r.bits {
		if b.TestSlot.Set() { // the slot tells the true diameter
			r.bits[i].D.V = b.TestSlot.V
		}
	}
	if len(r.bits) > 0 {
		return r, nil
	}
	for _, u := range usual {
		val := func(v float64) design.Val[design.Length] {
			return design.Val[design.Length]{V: design.Length(v), How: design.Default}
		}
		r.bits = append(r.bits, design.Bit{
			Name: design.Val[string]{V: u.name, How: design.Default}, D: val(u.d), Cut: val(u.cut),
			Bearing: design.Bearing{Table: design.Table{Present: true}, D: val(u.d), Height: val(bearingHeight)},
		})
		assumed = append(assumed, fmt.Sprintf("%s: d %s, cutting length %s, bearing of its own size %s high on the shank side", u.name, mm(u.d), mm(u.cut), mm(bearingHeight)))
	}
	return r, assumed
}

// SlotOff is how far a test slot may differ from a bit's diameter before one of
// the two must be a slip, mm. Common practice: a worn or bent bit is off by less.
const SlotOff = 0.5

// Bits returns the bits at hand with their true diameters.
func (r Rack) Bits() []design.Bit { return r.bits }

// usual are the pattern bits found in most shops: a quarter and half an inch,
// with short cutters for shallow recesses. Common practice.
var usual = []struct {
	name   string
	d, cut float64
}{{"quarter-inch pattern bit", 6.35, 12.7}, {"half-inch pattern bit", 12.7, 19.05}}

// bearingHeight of the usual bits, mm. Common practice.
const bearingHeight = 5

// Need is what a feature asks of its tool.
type Need struct {
	Key      string  // key of the design file that names the tool
	Corner   float64 // least inside radius of the feature, mm; 0 when corners are worked by hand
	Depth    float64 // mm
	Template float64 // thickness of the template, mm
	Blind    bool    // the cut has a floor, so a bearing at the tip cannot make it
}

// Pick returns the tool that the design names for a feature, or the largest bit
// of the rack that fits, with the reason. An error names the place in the file.
func (r Rack) Pick(c design.Cutter, n Need, at design.Pos) (Tool, error) {
	if !c.Bit.Set() {
		return r.choose(c, n, at)
	}
	for _, b := range r.bits {
		if b.Name.V == c.Bit.V {
			return r.fit(b, c, n, c.Bit.At)
		}
	}
	return Tool{}, design.Errorf(c.Bit.At, n.Key+".bit", fmt.Sprintf("%q", c.Bit.V), "the name of a [[bit]] of this file", "add the bit, or name one that is there")
}

// fit joins a bit with its follower and refuses what cannot work.
func (r Rack) fit(b design.Bit, c design.Cutter, n Need, at design.Pos) (Tool, error) {
	t := Tool{Bit: b.Name.V, Cutter: float64(b.D.V), Length: float64(b.Cut.V), Reach: float64(b.Reach.V), At: at}
	if c.Bush.Set() {
		for _, g := range r.bushes {
			if g.Name.V == c.Bush.V {
				t.Guide, t.GuideOf, t.Follower, t.Stands = Bush, g.Name.V, float64(g.D.V), float64(g.Reach.V)
				if t.Follower <= t.Cutter {
					return t, design.Errorf(c.Bush.At, n.Key+".bush", fmt.Sprintf("bush %q of %s mm", g.Name.V, mm(t.Follower)), fmt.Sprintf("a bush larger than the bit (%s mm)", mm(t.Cutter)), "the bit must pass through the bush: name a larger bush or a smaller bit")
				}
				return t, nil
			}
		}
		return t, design.Errorf(c.Bush.At, n.Key+".bush", fmt.Sprintf("%q", c.Bush.V), "the name of a [[bush]] of this file", "add the bush, or name one that is there")
	}
	if !b.Bearing.Present {
		return t, design.Errorf(at, n.Key+".bit", fmt.Sprintf("bit %q, which has no bearing", b.Name.V), "a bit with a bearing, or a bit with a guide bush", "give the bit its bearing = {d = …}, or name a bush")
	}
	t.Follower, t.Height = float64(b.Bearing.D.V), float64(b.Bearing.Height.V)
	t.AtTip = b.Bearing.Side.V == "tip"
	if t.AtTip && n.Blind {
		return t, design.Errorf(at, n.Key+".bit", fmt.Sprintf("bit %q with its bearing at the tip", b.Name.V), "a bit with its bearing on the shank side", "a bearing below the cutter has nothing to run on in a blind recess: name another bit, or use a guide bush")
	}
	return t, nil
}

// choose returns the largest bit that fits the need.
func (r Rack) choose(c design.Cutter, n Need, at design.Pos) (Tool, error) {
	bits := append([]design.Bit(nil), r.bits...)
	sort.SliceStable(bits, func(i, j int) bool { return bits[i].D.V > bits[j].D.V })
	for _, b := range bits {
		if n.Corner > 0 && float64(b.D.V)/2 > n.Corner {
			continue
		}
		t, err := r.fit(b, c, n, at)
		if err != nil {
			continue
		}
		// A bearing of another size may not leave the template for the wall.
		if t.Offset() != 0 && t.Length > 0 && t.Length < n.Depth {
			continue
		}
		if n.Blind && t.FirstBite(n.Template) > n.Depth {
			continue // its first cut would be deeper than the recess
		}
		t.Why = fmt.Sprintf("bit %q chosen: the largest at hand whose radius %s mm fits", t.Bit, mm(t.CutRadius()))
		if n.Corner > 0 {
			t.Why += fmt.Sprintf(" the corner radius %s mm", mm(n.Corner))
		}
		return t, nil
	}
	return Tool{}, design.Errorf(at, n.Key, "no bit is named and none at hand fits", fmt.Sprintf("a bit of radius at most %s mm with a bearing on the shank side", mm(n.Corner)), "add such a [[bit]], or name one here")
}
