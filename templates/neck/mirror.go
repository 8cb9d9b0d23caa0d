package neck

import "routwright/geom"

// Mirrored returns the shape reflected across the centre line: a left-handed
// neck. Side is then seen from the treble side still, with x as −depth.
func (sh *Shape) Mirrored() *Shape {
	m := geom.MirrorX()
	o := *sh
	// A reflection turns a loop round; Region turns it back.
	loop := func(p geom.Path) geom.Path {
		if r := m.Region(geom.Region{p}); len(r) == 1 {
			return r[0]
		}
		return nil
	}
	o.Plan, o.Shaft, o.Head = loop(sh.Plan), loop(sh.Shaft), loop(sh.Head)
	o.Fold = m.Seg(sh.Fold).Reversed()
	o.Square = nil
	for _, p := range sh.Square {
		o.Square = append(o.Square, m.Point(p))
	}
	o.Tuners = nil
	for _, t := range sh.Tuners {
		t.Post, t.From, t.To, t.Body = m.Point(t.Post), m.Point(t.From), m.Point(t.To), m.Region(t.Body)
		o.Tuners = append(o.Tuners, t)
	}
	if sh.Rod != nil {
		c := *sh.Rod
		c.Plan, c.Floor = m.Region(c.Plan), m.Path(c.Floor)
		o.Rod = &c
	}
	o.Side.Outline, o.Side.Back = loop(sh.Side.Outline), m.Path(sh.Side.Back)
	o.Side.Face, o.Side.Fold = m.Seg(sh.Side.Face), m.Point(sh.Side.Fold)
	if sh.Side.Scarf != nil {
		c := *sh.Side.Scarf
		c.Line = m.Seg(c.Line)
		o.Side.Scarf = &c
	}
	return &o
}
