package design

// Edge is what is done to the edge of the body.
type Edge struct {
	Table
	Roundover Val[Length] `toml:"roundover" range:"0.5 mm,20 mm" doc:"radius of the rounded edge, on both faces"`
	Chamfer   Val[Length] `toml:"chamfer" range:"0.5 mm,20 mm" doc:"chamfer at 45 degrees, on both faces, in place of a roundover"`
}

// Contour is wood taken off a face for comfort.
type Contour struct {
	Table
	Kind  Val[string] `toml:"kind" oneof:"forearm,belly,carved" doc:"bevel for the forearm on the front, cut for the belly on the back, or an area of your own"`
	Depth Val[Length] `toml:"depth" range:"1 mm,40 mm" doc:"wood taken at the outline, at the deepest"`
	Reach Val[Length] `toml:"reach" range:"5 mm,200 mm" doc:"how far it runs in from the outline"`
}
