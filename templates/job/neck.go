package job

import "routwright/templates/neck"

// Neck is how the neck meets the body.
type Neck struct {
	neck.Setup
	neck.Solved
	Fret float64 // that lies over the body's edge
	// JointY is where the board's underside passes over the body's edge, from the
	// bridge line, mm. The bridge line is where the uncompensated scale ends on
	// the body.
	JointY float64
}

// Angled reports whether distances along the board differ from those on the
// body.
func (n *Neck) Angled() bool { return n != nil && n.Angle != 0 }
