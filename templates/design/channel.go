package design

import "routwright/geom"

// Channel is a hole drilled for wires between two cavities.
type Channel struct {
	Table
	Join   Val[[]string]  `toml:"join" text:"name" items:"2,2" need:"true" doc:"names of the two cavities that it joins; jack, bridge and (neck) pocket count"`
	Pass   Val[[]string]  `toml:"through" text:"name" items:"1,3" doc:"names of cavities that the same hole passes through on its way, in order"`
	D      Val[Length]    `toml:"d" range:"2 mm,16 mm" doc:"diameter of the drill"`
	From   Val[[3]Length] `toml:"from" doc:"[x, y, depth below the finished front] where the drill goes into the wall of the first; with to, in place of the path that the program finds"`
	To     Val[[3]Length] `toml:"to" doc:"[x, y, depth below the finished front] where it comes out in the wall of the second"`
	Length Val[Length]    `toml:"drill_length" range:"50 mm,900 mm" doc:"how much of the drill stands out of the chuck"`
	Chuck  Val[Length]    `toml:"chuck" range:"8 mm,80 mm" doc:"diameter of the chuck, or of the extension that holds the drill"`
}

// Jack is the output jack.
type Jack struct {
	Table
	Side  Val[string]     `toml:"side" oneof:"treble,bass,front" doc:"edge that it is bored into, or the front for a face-mounted jack"`
	Y     Val[Length]     `toml:"y" range:"-400 mm,400 mm" doc:"where on the edge, from the bridge line"`
	At    Val[geom.Point] `toml:"at" doc:"middle of a face-mounted jack, [x, y]"`
	D     Val[Length]     `toml:"d" range:"5 mm,40 mm" doc:"diameter of the hole"`
	Depth Val[Length]     `toml:"depth" range:"5 mm,150 mm" doc:"length of the hole, in place of one that reaches the cavity"`
	Into  Val[string]     `toml:"into" text:"name" doc:"name of the cavity that it opens into"`
}

// Strap is where the strap buttons sit.
type Strap struct {
	Table
	Upper  Val[geom.Point] `toml:"upper" doc:"place of the button at the neck end, [x, y]: the nearest place of the outline is taken (tip of the bass horn)"`
	Tail   Val[geom.Point] `toml:"tail" doc:"place of the button at the tail end (on the centre line)"`
	Length Val[Length]     `toml:"length" range:"300 mm,2000 mm" doc:"of the strap from button to button, as it is worn"`
	Pilot  Val[Length]     `toml:"pilot" range:"1 mm,6 mm" doc:"diameter of the pilot holes"`
	Depth  Val[Length]     `toml:"depth" range:"10 mm,60 mm" doc:"depth of the pilot holes"`
}

// Hardware is a thing of known weight.
type Hardware struct {
	Table
	Name  Val[string]     `toml:"name" text:"label" need:"true" doc:"what it is"`
	Grams Val[float64]    `toml:"grams" range:"0,5000" need:"true" doc:"its weight on the scales"`
	At    Val[geom.Point] `toml:"at" need:"true" doc:"its middle, [x, y] from the centre line and the bridge line"`
	Z     Val[Length]     `toml:"depth" range:"-100 mm,150 mm" doc:"its middle below the finished front, negative above it (0)"`
	For   Val[string]     `toml:"for" oneof:"pickups,bridge,tuners,rod,controls" doc:"what is weighed here in place of the program's guess"`
}

// Chamber is wood taken out to make the body lighter.
type Chamber struct {
	Table
	Name    Val[string]       `toml:"name" text:"name" unique:"cavity" doc:"unique name"`
	Outline Val[[]geom.Point] `toml:"outline" items:"3,500" need:"true" doc:"corners [x, y] in order, seen from the front"`
	Corner  Val[Length]       `toml:"corner" range:"0.5 mm,60 mm" doc:"radius of its corners"`
	Face    Val[string]       `toml:"face" oneof:"front,back" doc:"face that it is cut from (front)"`
	Cap     Val[Length]       `toml:"cap" range:"0 mm,25 mm" doc:"thickness of the plate glued over it, within the thickness of the body"`
	Depth   Val[Length]       `toml:"depth" range:"3 mm,60 mm" doc:"depth below the plate"`
	Cutter  Cutter            `toml:"cut"`
}
