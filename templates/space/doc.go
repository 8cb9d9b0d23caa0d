// Package space measures how far parts lie apart in depth: prisms between level
// or sloped surfaces over plans of lines and arcs, and drilled holes in any
// direction.
//
//	Body      a part made ready for many questions
//	Gap       a least distance and a point of each body where it is taken
//	Distance  the least distance between two parts
//	Edge      the outline of the instrument with its edge treated
//
// Level prisms and bores square to the faces are measured in closed form: the
// distance of their plans, and that of their depths. All others are cut into
// convex pieces, whose distances are found by the method of Gilbert, Johnson
// and Keerthi (IEEE Journal of Robotics and Automation 4, 1988), which yields a
// bound from below with every bound from above. Sides that are arcs stand for
// their chords first; the pieces that lie near enough to matter are halved until
// what the chords are out by is below Slack.
package space
