package tool

import (
	"fmt"

	"routwright/templates/design"
)

// Rack is the bits, bushes and drills at hand, and whether a numerically
// controlled router is among the tools.
type Rack struct {
	bits   []design.Bit
	bushes []design.Bush
	drills []Drill
	free   bool
}

// NewRack returns the rack of a design; a design without any bit gets the usual
// ones, and assumed names them for the builder to confirm.
func NewRack(d *design.Design) (r Rack, assumed []string) {
	r = Rack{bits: append([]design.Bit(nil), d.Bit...), bushes: d.Bush, drills: drills(d), free: d.Router.Free.V}
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
	Drilled  bool    // the waste is drilled out first, so a deep first bite is light
	// Try tells why a tool that fits by its numbers will not do, by simulating
	// the cut; "" when it will. nil lets every tool pass.
	Try func(Tool) string
}

// Pick returns the tool that the design names for a feature. What the design
// leaves open is chosen from the rack, and Tool.Why says why. An error names the
// place in the file.
func (r Rack) Pick(c design.Cutter, n Need, at design.Pos) (Tool, error) {
	n.Drilled = c.Drill.V
	t, err := r.pick(c, n, at)
	t.Drill = c.Drill.V
	return t, err
}

// WithoutFree returns the rack without its numerically controlled router.
func (r Rack) WithoutFree() Rack {
	r.free = false
	return r
}

// Bushes returns the guide bushes at hand.
func (r Rack) Bushes() []design.Bush { return r.bushes }

func (r Rack) pick(c design.Cutter, n Need, at design.Pos) (Tool, error) {
	if c.Free.V && c.Bush.Set() {
		return Tool{}, design.Errorf(c.Bush.At, n.Key+".bush", fmt.Sprintf("bush %q for a free path", c.Bush.V), "a bush, or free = true", "a free path has nothing to follow: delete one of the two")
	}
	if !c.Bit.Set() {
		return r.choose(r.bits, c, n, at)
	}
	for _, b := range r.bits {
		if b.Name.V != c.Bit.V {
			continue
		}
		if !c.Free.V && !c.Bush.Set() && !b.Bearing.Present && (len(r.bushes) > 0 || r.free) {
			return r.choose([]design.Bit{b}, c, n, c.Bit.At)
		}
		return r.fit(b, c, n, c.Bit.At)
	}
	return Tool{}, design.Errorf(c.Bit.At, n.Key+".bit", fmt.Sprintf("%q", c.Bit.V), "the name of a [[bit]] of this file", "add the bit, or name one that is there")
}

// bit returns a bit as a tool without its follower.
func bit(b design.Bit, at design.Pos) Tool {
	return Tool{Bit: b.Name.V, Cutter: float64(b.D.V), Length: float64(b.Cut.V), Shank: float64(b.Shank.V), Reach: float64(b.Reach.V), At: at}
}

// fit joins a bit with the follower that the design names, and refuses what
// cannot work.
func (r Rack) fit(b design.Bit, c design.Cutter, n Need, at design.Pos) (Tool, error) {
	switch {
	case c.Free.V:
		return led(b, n, at)
	case c.Bush.Set():
		for _, g := range r.bushes {
			if g.Name.V == c.Bush.V {
				return bushed(b, g, n, at, c.Bush.At)
			}
		}
		return Tool{}, design.Errorf(c.Bush.At, n.Key+".bush", fmt.Sprintf("%q", c.Bush.V), "the name of a [[bush]] of this file", "add the bush, or name one that is there")
	}
	t := bit(b, at)
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

// bushed joins a bit with a guide bush.
func bushed(b design.Bit, g design.Bush, n Need, at, bushAt design.Pos) (Tool, error) {
	t := bit(b, at)
	t.Guide, t.GuideOf, t.Follower, t.Stands = Bush, g.Name.V, float64(g.D.V), float64(g.Reach.V)
	if t.AtTip = b.Bearing.Present && b.Bearing.Side.V == "tip"; t.AtTip && n.Blind {
		return t, design.Errorf(at, n.Key+".bit", fmt.Sprintf("bit %q with its bearing at the tip", b.Name.V), "a bit that cuts with its tip", "take the bearing off, or name another bit")
	}
	if t.Follower <= t.Cutter {
		return t, design.Errorf(bushAt, n.Key+".bush", fmt.Sprintf("bush %q of %s mm", g.Name.V, mm(t.Follower)), fmt.Sprintf("a bush larger than the bit (%s mm)", mm(t.Cutter)), "the bit must pass through the bush: name a larger bush or a smaller bit")
	}
	return t, nil
}

// led returns a bit without follower on a free path. A bearing on the bit stays
// out of the wood: not below the cutter, and above it only over the work.
func led(b design.Bit, n Need, at design.Pos) (Tool, error) {
	t := bit(b, at)
	t.Guide = Free
	if !b.Bearing.Present {
		return t, nil
	}
	if b.Bearing.Side.V == "tip" {
		return t, design.Errorf(at, n.Key+".bit", fmt.Sprintf("bit %q with its bearing at the tip, on a free path", b.Name.V), "a bit that cuts with its tip", "take the bearing off, or name another bit")
	}
	if t.Length > 0 && t.Length < n.Depth && float64(b.Bearing.D.V) > t.Cutter {
		return t, design.Errorf(at, n.Key+".bit", fmt.Sprintf("bit %q, whose bearing of %s mm would enter a cut %s mm deep", b.Name.V, mm(float64(b.Bearing.D.V)), mm(n.Depth)), fmt.Sprintf("a cutting length of at least %s mm, or no bearing", mm(n.Depth)), "take the bearing off, or name another bit")
	}
	return t, nil
}
