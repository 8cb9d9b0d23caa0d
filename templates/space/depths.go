package space

import "routwright/templates/part"

// Depths returns the place nearest to the front and the place nearest to the
// back, in mm below the finished front: exact, over sloped surfaces and slanting
// bores too. For an empty part they are zero.
func (b *Body) Depths() (top, floor part.Point) {
	for i := range b.units {
		u := &b.units[i]
		var t, f part.Point
		if u.solid != nil {
			t, f = u.solid.Extremes()
		} else {
			up := part.Point{Z: -1}
			t, f = u.pieces()[0].support(up), u.pieces()[0].support(mul(up, -1))
		}
		if i == 0 || t.Z < top.Z {
			top = t
		}
		if i == 0 || f.Z > floor.Z {
			floor = f
		}
	}
	return top, floor
}

// ToFace returns the least distance to a face of a body of the given thickness;
// negative, as deep as it reaches beyond, where the part comes out of it.
func (b *Body) ToFace(f part.Face, thickness float64) Gap {
	top, floor := b.Depths()
	if f == part.Back {
		return Gap{thickness - floor.Z, floor, part.Point{X: floor.X, Y: floor.Y, Z: thickness}}
	}
	return Gap{top.Z, top, part.Point{X: top.X, Y: top.Y}}
}
