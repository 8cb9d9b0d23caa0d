package design

import "routwright/geom"

// Edge is what is done to the edge of the body.
type Edge struct {
	Table
	Roundover Val[Length] `toml:"roundover" range:"0.5 mm,20 mm" doc:"radius of the rounded edge, on both faces"`
	Chamfer   Val[Length] `toml:"chamfer" range:"0.5 mm,20 mm" doc:"chamfer at 45 degrees, on both faces, in place of a roundover"`
	Bearing   Val[Length] `toml:"bearing" range:"3 mm,40 mm" doc:"diameter of the bearing that leads the edge bit along the outline"`
	Height    Val[Length] `toml:"bearing_height" range:"1 mm,20 mm" doc:"height of that bearing"`
}

// Contour is wood taken off a face for comfort.
type Contour struct {
	Table
	Kind    Val[string]       `toml:"kind" oneof:"forearm,belly,carved" doc:"bevel for the forearm on the front, cut for the belly on the back, or an area of your own"`
	Side    Val[string]       `toml:"side" oneof:"bass,treble" doc:"edge that a bevel or cut runs in from (bass)"`
	Y       Val[Length]       `toml:"y" range:"-400 mm,400 mm" doc:"where on that edge its middle lies, from the bridge line"`
	Depth   Val[Length]       `toml:"depth" range:"1 mm,40 mm" doc:"wood taken at the deepest: at the outline, or over the whole carved area"`
	Reach   Val[Length]       `toml:"reach" range:"5 mm,200 mm" doc:"how far a bevel or cut runs in from the outline"`
	Span    Val[Length]       `toml:"span" range:"20 mm,400 mm" doc:"length of a bevel or cut along the outline, over whose outer quarters it runs out to nothing; without one a forearm bevel ends where its inner line meets the outline"`
	Angle   Val[Degrees]      `toml:"angle" range:"-45,45" doc:"by which its inner line is turned from the outline's direction there, anticlockwise"`
	Section Val[string]       `toml:"section" oneof:"flat,round" doc:"flat: one plane; round: an arc that leaves the face in its own direction"`
	Face    Val[string]       `toml:"face" oneof:"front,back" doc:"face of a carved area (front)"`
	Outline Val[[]geom.Point] `toml:"outline" items:"3,500" doc:"corners [x, y] of a carved area in order, seen from the front"`
	Cut     Val[bool]         `toml:"cut" doc:"it is made: it stays as the set made then has it"`
	Depths  Val[[][3]Length]  `toml:"depths" items:"3,3" doc:"three places [x, y, depth] that the plane of a carved area goes through, in place of one depth"`
}
