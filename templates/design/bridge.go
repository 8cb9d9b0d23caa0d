package design

import "routwright/geom"

// Bridge is the bridge as measured. Its own measures count from its middle and
// from its line: of a fixed bridge the line of the saddles' tops when all stand
// foremost, of the others the line through the posts.
type Bridge struct {
	Table
	Kind      Val[string]       `toml:"kind" oneof:"fixed,two-post,wraparound" doc:"screwed to the body, saddles on two posts with a tailpiece or strings through the body, or strings wrapped over a bar on two posts"`
	Height    Val[[2]Length]    `toml:"saddle_height" range:"2 mm,40 mm" doc:"lowest and highest that the saddles' tops stand over the finished front"`
	Set       Val[Length]       `toml:"set_height" range:"2 mm,40 mm" doc:"height of the saddles' tops that the neck is set for; the middle of saddle_height if not given"`
	Travel    Val[Length]       `toml:"travel" range:"0 mm,40 mm" doc:"how far a saddle moves along the string"`
	At        Val[Length]       `toml:"at" range:"-60 mm,60 mm" doc:"where the middle of its line stands, from the bridge line, + to the neck, in place of the place solved"`
	Lean      Val[Length]       `toml:"lean" range:"-20 mm,20 mm" doc:"how much further back the bass post stands than the treble post, in place of what is solved"`
	Aside     Val[Length]       `toml:"aside" range:"-20 mm,20 mm" doc:"its middle from the centre line, + to the treble side"`
	Plate     Val[[2]Length]    `toml:"plate" range:"5 mm,250 mm" doc:"size of a fixed bridge: along the strings and across them"`
	PlateBack Val[Length]       `toml:"plate_behind" range:"-60 mm,150 mm" doc:"from its line back to the tail edge of the plate"`
	Screws    Val[[]geom.Point] `toml:"screws" items:"1,20" doc:"middles of its screws [x, y], y from its line, + to the neck"`
	Cut       Val[bool]         `toml:"cut" doc:"its holes are drilled, those of a tailpiece too: they stay as the set made then has them, and the place of the bridge with them"`
	Screw     WoodScrew         `toml:"screw"`
	Posts     Posts             `toml:"posts"`
	Tailpiece Posts             `toml:"tailpiece"`
	Through   Through           `toml:"through"`
}

// WoodScrew is a wood screw.
type WoodScrew struct {
	Table
	Gauge  Val[int]    `toml:"gauge" range:"2,14" doc:"number of the wood screw"`
	Length Val[Length] `toml:"length" range:"4 mm,80 mm" doc:"of the screw under its head"`
}

// Posts are two posts in the body.
type Posts struct {
	Table
	Spacing Val[Length] `toml:"spacing" range:"30 mm,200 mm" doc:"between the middles of the two posts"`
	D       Val[Length] `toml:"d" range:"3 mm,20 mm" doc:"hole for a post or its insert"`
	Depth   Val[Length] `toml:"depth" range:"5 mm,60 mm" doc:"of the hole"`
	Behind  Val[Length] `toml:"behind" range:"-20 mm,150 mm" doc:"of a bridge: how far its saddles, in the middle of their travel, stand behind the posts; of a tailpiece: its posts behind those of the bridge"`
}

// Through is strings that run through the body.
type Through struct {
	Table
	Behind  Val[Length] `toml:"behind" range:"-30 mm,120 mm" doc:"from the bridge's line back to the row of holes"`
	D       Val[Length] `toml:"d" range:"1.5 mm,8 mm" doc:"of the holes"`
	Cut     Val[bool]   `toml:"cut" doc:"they are drilled: they stay as the set made then has them"`
	Ferrule Ferrule     `toml:"ferrule"`
	Front   Ferrule     `toml:"front_ferrule"`
}

// Ferrule is a metal cup pressed into the body.
type Ferrule struct {
	Table
	D     Val[Length] `toml:"d" range:"3 mm,20 mm" doc:"of the hole that it is pressed into"`
	Depth Val[Length] `toml:"depth" range:"1 mm,30 mm" doc:"of that hole"`
}
