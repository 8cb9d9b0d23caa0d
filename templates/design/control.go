package design

import "routwright/geom"

// Control is a pot, a switch or the jack in a cavity.
type Control struct {
	Table
	Name   Val[string]     `toml:"name" text:"name" doc:"what it is for: volume, tone"`
	Kind   Val[string]     `toml:"kind" oneof:"pot,mini pot,toggle,blade switch,jack" doc:"kind of control"`
	At     Val[geom.Point] `toml:"at" need:"true" doc:"middle of its shaft, of a blade switch the middle of its slot, [x, y] seen from the front"`
	Angle  Val[Degrees]    `toml:"angle" range:"-180,180" doc:"of its long side, anticlockwise from straight across the body"`
	Body   Val[Length]     `toml:"body" range:"5 mm,60 mm" doc:"diameter of a round body under the wood, as measured"`
	Size   Val[[2]Length]  `toml:"size" range:"4 mm,120 mm" doc:"length and width of a body that is not round, in place of its diameter"`
	Deep   Val[Length]     `toml:"deep" range:"2 mm,80 mm" doc:"how far it stands below the wood, its lugs counted in"`
	Thread Val[Length]     `toml:"thread" range:"2 mm,40 mm" doc:"length of the threaded bushing"`
	Hole   Val[Length]     `toml:"hole" range:"1 mm,40 mm" doc:"diameter of its hole through the front"`
	Knob   Val[Length]     `toml:"knob" range:"3 mm,80 mm" doc:"diameter of the knob, or of the tip that is moved"`
	Cut    Val[bool]       `toml:"cut" doc:"its hole, or slot, and the seat under it are made: they stay as the set made then has them"`
	Wood   Val[Length]     `toml:"wood" range:"1 mm,40 mm" doc:"wood left over it, in place of what its thread asks for"`
}

// CoverScrew is what holds a cover.
type CoverScrew struct {
	Table
	Gauge  Val[int]          `toml:"gauge" range:"4,12" doc:"gauge number of the wood screw"`
	Length Val[Length]       `toml:"length" range:"4 mm,60 mm" doc:"of the screw, from the face of the cover to its tip"`
	Count  Val[int]          `toml:"count" range:"2,24" doc:"how many screws hold the cover"`
	Cut    Val[bool]         `toml:"cut" doc:"its pilot holes are drilled: they stay as the set made then has them"`
	At     Val[[]geom.Point] `toml:"at" items:"1,24" doc:"where they stand, [x, y] seen from the front, in place of the places solved"`
}

// Allow accepts a measure that a check would find fault with, for a reason.
type Allow struct {
	Table
	Check  Val[string]  `toml:"check" text:"label" need:"true" doc:"id of the check, as routwright check --explain all names it"`
	Limit  Val[float64] `toml:"limit" range:"0,1000" need:"true" doc:"measure up to which the fault is accepted, in the unit that --explain names: mm for lengths"`
	Reason Val[string]  `toml:"reason" text:"label" need:"true" doc:"why; printed with each finding and in the list of what was assumed"`
}
