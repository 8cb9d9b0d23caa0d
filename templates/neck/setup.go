// Package neck solves the neck: the angle at which it meets the body, its
// outline, its side, its head and the gauges to shape it by.
//
//	Setup   how high the strings must run, and what the neck is
//	Solve   the neck angle and the places on the body that follow
//	New     from a Spec to a Shape: outline, head and tuners, rod, side
//	Profile the back of the neck at one place, and its gauge
package neck

import (
	"fmt"
	"math"

	"routwright/geom"
)

// Setup is what fixes the neck angle. Lengths in mm.
type Setup struct {
	Saddle float64 // top of the saddle over the finished front
	Above  float64 // surface of the board over the finished front at the joint
	Fret   float64 // height of the fret wire over the board
	Action float64 // under the string at the middle of the scale, over the fret
	Nut    float64 // string over the fret's height at the nut
	Scale  float64 // nut edge to saddle, along the board, uncompensated
	Joint  float64 // nut edge to the joint, along the board
}

// Solved is what follows from a Setup.
type Solved struct {
	Angle geom.Angle // between the board's surface and the body's front, positive when the neck leans back
	// ToSaddle is the distance on the body from the joint to the foot of the
	// perpendicular from the saddle's top, mm.
	ToSaddle float64
}

// rise returns how far the string stands over the board's surface, square to it, at the
// saddle. Over the line of the fret tops it stands n at the nut and a half way, so 2a − n
// at the saddle; the fret tops lie e over the board.
func (s Setup) rise() float64 { return s.Fret + 2*s.Action - s.Nut }

// Solve returns the neck angle that brings the string to the saddle.
//
// With the board's surface at height f over the body at the joint and leaning
// back by φ, the foot of the saddle on the board's line lies l = S − xj beyond
// the joint along the board, hence l·sin φ above f and l·cos φ along the body.
// From there the string stands h = e + 2a − n square to the board, which is
// h·cos φ up and h·sin φ back towards the joint. So
//
//	f + l·sin φ + h·cos φ = Hb        ToSaddle = l·cos φ − h·sin φ
//
// and with ρ = √(l² + h²), φ = asin((Hb − f)/ρ) − atan2(h, l).
func Solve(s Setup) (Solved, error) {
	l, h := s.Scale-s.Joint, s.rise()
	if !(l > 0) {
		return Solved{}, fmt.Errorf("the joint lies %.2f mm from the nut, at or beyond the saddle at %.2f mm", s.Joint, s.Scale)
	}
	need, rho := s.Saddle-s.Above, math.Hypot(l, h)
	if !(math.Abs(need) < rho) {
		return Solved{}, fmt.Errorf("the saddle stands %.2f mm over the board at the joint, further than the %.2f mm between them", need, rho)
	}
	phi := math.Asin(need/rho) - math.Atan2(h, l)
	return Solved{Angle: geom.Angle(phi), ToSaddle: s.on(phi)}, nil
}

// on returns the distance on the body from the joint to the saddle at an angle.
func (s Setup) on(phi float64) float64 {
	sin, cos := math.Sincos(phi)
	return (s.Scale-s.Joint)*cos - s.rise()*sin
}

// SaddleAt returns how high the top of the saddle stands over the finished
// front, and how far from the joint along the body, when the neck has the given
// angle: the inverse of Solve. Saddle is not used.
func (s Setup) SaddleAt(phi geom.Angle) (height, toSaddle float64) {
	sin, cos := math.Sincos(float64(phi))
	return s.Above + (s.Scale-s.Joint)*sin + s.rise()*cos, s.on(float64(phi))
}

// SolveUnder is Solve where not the surface of the board but its underside has a
// known height over the front at the joint, mm; Above is not used. thickness is
// the board's, square to it: over the same place the surface lies
// thickness/cos φ above the underside. The Setup returned holds that height.
func SolveUnder(s Setup, under, thickness float64) (Setup, Solved, error) {
	var got Solved
	for range 50 { // the angle hardly moves the height: each turn wins three digits or more
		above := under + thickness/math.Cos(float64(got.Angle))
		if math.Abs(above-s.Above) < 1e-12 && got != (Solved{}) {
			break
		}
		s.Above = above
		var err error
		if got, err = Solve(s); err != nil {
			return s, Solved{}, err
		}
	}
	return s, got, nil
}

// OnBody returns where the point that lies u from the nut along the board and w
// square below its surface comes to lie: its distance from the joint along the
// body, + towards the bridge, and its height over the finished front, mm.
func (s Setup) OnBody(phi geom.Angle, u, w float64) (toBridge, height float64) {
	sin, cos := math.Sincos(float64(phi))
	return (u-s.Joint)*cos + w*sin, s.Above + (u-s.Joint)*sin - w*cos
}
