// Package geom is planar geometry in millimetres, +Y up: points, lines,
// circular arcs, paths and regions, exact where arcs allow it.
//
//	values      Point, Vec, Angle, Box, Transform, Seg, Path, Region
//	builders    Polygon, Rect, RoundedRect, Circle, Stadium, Path.Fillet
//	measures    Length, Area, Centroid, Moments, Bounds, Contains
//	operations  Calc: Offset, OffsetPath, Union, Intersect, Subtract, Xor
//	reach       Calc: RollInside, RollOutside, Open, Close, Residue;
//	            LargestClearing, TightestRadius
//	distance    Distance, PathDistance, SegDistance, Index, LeastWall, ClosePairs,
//	            InscribedCircle, EnclosingCircle
//	curves in   Curve: Cubic, Ellipse, NURBS; Affine; Hobby; FitCurve, FitCubics,
//	            FitPolyline
//	cover       Cover
//
// geom knows no drawings, no files and no guitars. Errors name the loop and the
// vertex. Nothing panics on input and no result crosses itself: every operation
// of Calc ends with a certificate, and a fallback is counted, never silent.
//
// Results are bit-identical from run to run on amd64. Other processors may fuse
// a multiplication with an addition and differ in the last bits.
package geom
