package dxf

import "routwright/render"

// justify is the horizontal justification (group 72) of a text.
var justify = map[render.Anchor]int{render.Start: 0, render.Middle: 1, render.End: 2}

// r2000Entities writes lines and words for R2000, owned by the model space.
func (f *file) r2000Entities(owner handle) {
	for _, p := range f.lines {
		flag := 0
		if p.closed {
			flag = 1
		}
		f.put(0, "LWPOLYLINE", 5, f.next(), 330, owner, 100, "AcDbEntity", 8, p.layer,
			100, "AcDbPolyline", 90, len(p.at), 70, flag, 43, 0.0)
		for i, v := range p.at {
			f.put(10, v.X, 20, v.Y)
			if p.bulge[i] != 0 {
				f.put(42, number(p.bulge[i], bulgeDecimals))
			}
		}
	}
	for _, t := range f.texts {
		f.put(0, "TEXT", 5, f.next(), 330, owner, 100, "AcDbEntity", 8, t.layer, 100, "AcDbText")
		f.textBody(t)
		f.put(100, "AcDbText")
	}
}

// r12Entities writes lines and words for R12.
func (f *file) r12Entities() {
	for _, p := range f.lines {
		flag := 0
		if p.closed {
			flag = 1
		}
		f.put(0, "POLYLINE", 8, p.layer, 66, 1, 10, 0.0, 20, 0.0, 30, 0.0, 70, flag)
		for i, v := range p.at {
			f.put(0, "VERTEX", 8, p.layer, 10, v.X, 20, v.Y, 30, 0.0)
			if p.bulge[i] != 0 {
				f.put(42, number(p.bulge[i], bulgeDecimals))
			}
		}
		f.put(0, "SEQEND", 8, p.layer)
	}
	for _, t := range f.texts {
		f.put(0, "TEXT", 8, t.layer)
		f.textBody(t)
	}
}

func (f *file) textBody(t text) {
	f.put(10, t.At.X, 20, t.At.Y, 30, 0.0, 40, t.Size, 1, Escape(t.S))
	if t.Angle != 0 {
		f.put(50, t.Angle.Degrees())
	}
	f.put(7, "STANDARD")
	if j := justify[t.Anchor]; j != 0 {
		f.put(72, j, 11, t.At.X, 21, t.At.Y, 31, 0.0)
	}
}
