// Package balance weighs: volumes and centres of prisms with level or sloped
// surfaces in closed form, what is left when they overlap, and how a body hangs.
//
//	Bulk    a volume and its first moments
//	Carve   prisms without their overlaps
//	Rim     what an edge treatment takes
//	Hang    how an instrument hangs from its strap
package balance

import (
	"math"

	"routwright/geom"
	"routwright/templates/part"
	"routwright/templates/space"
)

// Bulk is a volume in mm³ with its first moments in mm⁴. Bulks add.
type Bulk struct{ V, X, Y, Z float64 }

// Plus returns the sum of two bulks.
func (b Bulk) Plus(c Bulk) Bulk { return Bulk{b.V + c.V, b.X + c.X, b.Y + c.Y, b.Z + c.Z} }

// Times returns the bulk k times as dense; −1 takes it away.
func (b Bulk) Times(k float64) Bulk { return Bulk{k * b.V, k * b.X, k * b.Y, k * b.Z} }

// Centre returns the centre of the volume, the origin without one.
func (b Bulk) Centre() part.Point {
	if b.V == 0 {
		return part.Point{}
	}
	return part.Point{X: b.X / b.V, Y: b.Y / b.V, Z: b.Z / b.V}
}

// At returns a bulk of volume v in one point.
func At(v float64, p part.Point) Bulk { return Bulk{v, v * p.X, v * p.Y, v * p.Z} }

// Of returns the bulk of a solid. Over the plan with the moments A, c, I the
// height h = h₀ + h₁·x + h₂·y between two planes has
//
//	∫ h dA = A·h(c)    ∫ x·h dA = cx·V + h₁·Iyy + h₂·Ixy
//
// and the moment about the front is half of ∫ floor² − top² dA, with
// ∫ f² dA = A·f(c)² + f₁²·Iyy + 2·f₁·f₂·Ixy + f₂²·Ixx.
func Of(s part.Solid) Bulk {
	m := s.Plan.Moments()
	c := m.Centroid
	h := part.Plane{Z: s.Floor.Z - s.Top.Z, DX: s.Floor.DX - s.Top.DX, DY: s.Floor.DY - s.Top.DY}
	v := m.Area * h.At(c)
	square := func(f part.Plane) float64 {
		at := f.At(c)
		return m.Area*at*at + f.DX*f.DX*m.Iyy + 2*f.DX*f.DY*m.Ixy + f.DY*f.DY*m.Ixx
	}
	return Bulk{
		V: v,
		X: c.X*v + h.DX*m.Iyy + h.DY*m.Ixy,
		Y: c.Y*v + h.DX*m.Ixy + h.DY*m.Ixx,
		Z: (square(s.Floor) - square(s.Top)) / 2,
	}
}

// OfAll returns the sum over solids.
func OfAll(solids []part.Solid) Bulk {
	var b Bulk
	for _, s := range solids {
		b = b.Plus(Of(s))
	}
	return b
}

// OfBore returns the bulk of a cylinder.
func OfBore(b part.Bore) Bulk {
	return At(math.Pi/4*b.D*b.D*b.Length(), b.From.Lerp(b.To, 0.5))
}

// Rim returns what rounding or chamfering the edge of one face takes: the section
// between the square corner and the profile, led round the outline (Pappus).
// A quarter round of radius R leaves the area R²(1 − π/4), whose centre lies
// R(10 − 3π)/(12 − 3π) from both sides of the corner; a chamfer c²/2 and c/3.
// Sharp corners of the outline are not rounded off.
func Rim(outline geom.Region, p space.Profile, f part.Face, thickness float64) Bulk {
	size := p.Size()
	area, in := size*size/2, size/3
	if p.Roundover > 0 {
		area, in = size*size*(1-math.Pi/4), size*(10-3*math.Pi)/(12-3*math.Pi)
	}
	z := in
	if f == part.Back {
		z = thickness - in
	}
	var b Bulk
	for _, loop := range outline {
		for _, e := range loop {
			if !e.IsArc() {
				mid := e.At(0.5).Add(e.Tangent(0.5).Left().Mul(in))
				b = b.Plus(At(area*e.Length(), part.Point{X: mid.X, Y: mid.Y, Z: z}))
				continue
			}
			r := e.Radius - in*float64(e.Turn)
			half := math.Abs(float64(e.Sweep())) / 2
			mid := e.Center.Add(e.At(0.5).Sub(e.Center).Unit().Mul(r * math.Sin(half) / half))
			b = b.Plus(At(area*r*2*half, part.Point{X: mid.X, Y: mid.Y, Z: z}))
		}
	}
	return b
}
