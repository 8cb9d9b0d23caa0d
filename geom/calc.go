package geom

// Calc runs the operations over regions and keeps account: the first error
// sticks (later calls then return nil at once, so a chain of calls is checked
// once, at its end), and every fallback to the slower flattened method is
// counted. The zero Calc is ready. It keeps scratch memory for the next call,
// so one Calc serves one goroutine.
//
//	var c geom.Calc
//	cut := c.Offset(c.Offset(template, -bush/2, geom.Round), bit/2, geom.Round)
//	if err := c.Err(); err != nil { … }
type Calc struct {
	// Fallbacks counts the operations whose exact result did not pass its
	// certificate and that were solved in turned coordinates, with wider nodes
	// or, at last, on a flattening of 1e-4 mm whose arcs were put back.
	Fallbacks int

	err   error
	arr   arrangement
	raw   rawCurve
	marks []Point
	ask   inquiry
	spoil func(Region) Region // tests make results wrong by it, to see them refused
}

// Err returns the first error met, nil if none.
func (c *Calc) Err() error { return c.err }

// Join says how an offset turns an outside corner. The zero Join is round.
type Join struct {
	// MitreLimit 0 joins with arcs. Otherwise corners are mitred as long as the
	// point lies within MitreLimit × distance of the corner, and rounded beyond.
	MitreLimit float64
}

// Round joins with arcs: the true offset, all points at the distance.
var Round = Join{}

// Mitre joins with sharp corners up to a quarter of a right angle (the point
// 1/sin(11.25°) = 5.13 distances out), rounded beyond.
var Mitre = Join{MitreLimit: 5.2}
