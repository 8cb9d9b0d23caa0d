package dxf

import "routwright/render"

// r2000Entities writes lines and words for R2000, owned by the model space.
func (f *file) r2000Entities(owner handle) {
	entity := func(kind, layer, class string, own ...any) {
		f.put(0, kind, 5, f.next(), 330, owner, 100, "AcDbEntity", 8, layer)
		f.put(own...)
		f.put(100, class)
	}
	for _, o := range f.outlines {
		if o.circle {
			entity("CIRCLE", o.layer, "AcDbCircle", f.ownType(o.layer, o.kind)...)
			f.put(10, o.centre.X, 20, o.centre.Y, 30, 0.0, 40, o.radius)
			continue
		}
		entity("LWPOLYLINE", o.layer, "AcDbPolyline", f.ownType(o.layer, o.kind)...)
		f.put(90, len(o.at), 70, o.flag(), 43, 0.0)
		for i := range o.at {
			f.vertex(o, i)
		}
	}
	for _, t := range f.texts {
		entity("TEXT", t.layer, "AcDbText", f.ownType(t.layer, render.Frame)...)
		f.textBody(t)
		f.put(100, "AcDbText")
	}
}

// r12Entities writes lines and words for R12.
func (f *file) r12Entities() {
	entity := func(kind, layer string, k render.Kind) {
		f.put(0, kind, 8, layer)
		f.put(f.ownType(layer, k)...)
	}
	for _, o := range f.outlines {
		if o.circle {
			entity("CIRCLE", o.layer, o.kind)
			f.put(10, o.centre.X, 20, o.centre.Y, 30, 0.0, 40, o.radius)
			continue
		}
		entity("POLYLINE", o.layer, o.kind)
		f.put(66, 1, 10, 0.0, 20, 0.0, 30, 0.0, 70, o.flag())
		for i := range o.at {
			f.put(0, "VERTEX", 8, o.layer)
			f.vertex(o, i)
		}
		f.put(0, "SEQEND", 8, o.layer)
	}
	for _, t := range f.texts {
		entity("TEXT", t.layer, render.Frame)
		f.textBody(t)
	}
}

// ownType returns the line type of an entity that differs from its layer's.
func (f *file) ownType(layer string, k render.Kind) []any {
	if own := ltypeName(k); own != ltypeName(f.kindOf(layer)) {
		return []any{6, own}
	}
	return nil
}

// flag is group 70 of a polyline.
func (o *outline) flag() int {
	if o.closed {
		return 1
	}
	return 0
}

// vertex writes the i-th vertex with the bulge of the piece from it.
func (f *file) vertex(o outline, i int) {
	f.put(10, o.at[i].X, 20, o.at[i].Y)
	if f.opt.Version == R12 {
		f.put(30, 0.0)
	}
	if o.bulge[i] != 0 {
		f.put(42, number{o.bulge[i], bulgeDecimals})
	}
}
