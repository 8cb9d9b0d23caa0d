package geom

// All tolerances of the kernel, in millimetres, for parts up to 2 m. One
// question, one tolerance.
const (
	// Coincident is the distance below which two points are one, and the gap
	// along the normal below which two segments are tangent or overlap.
	// float64 keeps 2 m to 4e-13 mm, so six digits remain for the arithmetic.
	Coincident = 1e-6

	// OffsetSlack is how far below the asked distance a point of an offset may
	// lie from its source and still be valid: two Coincident errors, one from
	// each of the curves that meet there.
	OffsetSlack = 2 * Coincident

	// RollSlack is by how much a width may fall short on either side and still
	// count as wide enough for a disc to roll through: ten times Coincident, so
	// that the sliver that remains for the disc's centre is safe from the
	// clustering of nodes, and a hundredth of Budget.
	RollSlack = 10 * Coincident

	// FarSlack is by how much the farthest place of curves from others may lie
	// farther than what Farthest returns: a tenth of Budget.
	FarSlack = 1e-4

	// Weld is the distance within which end points of an outline that somebody
	// drew are joined without asking; the joints are reported.
	Weld = 1e-5

	// CurveToArc is the largest distance between a drawn curve and the lines and
	// arcs that stand for it: half of Budget.
	CurveToArc = 5e-4

	// Budget is the whole geometric error that a finished template may carry,
	// a twentieth of what a careful maker can see (0.02 mm).
	Budget = 1e-3
)

// smoothJoint is the turn at which two curves of a chain still join smoothly: a
// drawing program that rounds to 0.001 bends a joint of 0.5 mm handles by a
// tenth of a degree. A kink of it deviates by 0.2 µm where the arcs are 0.1 mm
// long.
const smoothJoint = 0.25 * Degree
