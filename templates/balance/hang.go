package balance

import (
	"math"

	"routwright/geom"
)

// Hang returns the angle at which the centre line stands when the strap's middle
// hangs on a hook and does not slip: positive when the head stands up. The strap
// of the given length runs between the two buttons, over the side that lies
// uppermost in playing (up −1: −X, the bass side of a right-handed body). Seen
// square to the front; depths do not count. ok is false when the strap is too
// short to reach both buttons.
//
// The hook stands over the middle between the buttons, square to their line, at
// √(s² − b²)/2 for a strap s and buttons b apart; the balance point comes to lie
// straight below it.
func Hang(upper, tail, centre geom.Point, strap, up float64) (geom.Angle, bool) {
	b := upper.Dist(tail)
	if strap <= b {
		return 0, false
	}
	side := upper.Sub(tail).Unit().Left() // −X for buttons in line with the neck
	if side.X*up < 0 {
		side = side.Neg()
	}
	hook := upper.Lerp(tail, 0.5).Add(side.Mul(math.Sqrt((strap-b)*(strap+b)) / 2))
	v := hook.Sub(centre).Unit()
	return geom.Angle(math.Asin(v.Y)), true
}

// Level returns how far along the strap from the upper button the shoulder must
// carry it for the instrument to hang level, mm. ok is false where no place of
// the strap does: the balance point does not lie between the two buttons, or the
// strap is too short.
func Level(upper, tail, centre geom.Point, strap, up float64) (float64, bool) {
	if strap <= upper.Dist(tail) || (centre.Y-tail.Y)*(upper.Y-centre.Y) <= 0 {
		return 0, false
	}
	at := func(x float64) geom.Point { return geom.Pt(x*up, centre.Y) }
	// Going out square to the strings, the two legs grow together.
	lo, hi := centre.X*up, centre.X*up+strap
	for range 60 {
		if mid := (lo + hi) / 2; at(mid).Dist(upper)+at(mid).Dist(tail) < strap {
			lo = mid
		} else {
			hi = mid
		}
	}
	return at(lo).Dist(upper), at(lo).Dist(upper) < strap
}

// Share returns the part of the weight that the upper button carries when the
// instrument is held level.
func Share(upper, tail, centre geom.Point) float64 {
	return (centre.Y - tail.Y) / (upper.Y - tail.Y)
}
