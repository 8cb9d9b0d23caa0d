package design

import "routwright/geom"

// Control is a pot, a switch or the jack in a cavity.
type Control struct {
	Table
	Name Val[string]     `toml:"name" text:"name" doc:"what it is for: volume, tone"`
	Kind Val[string]     `toml:"kind" oneof:"pot,mini pot,toggle,blade switch" doc:"kind of control"`
	At   Val[geom.Point] `toml:"at" doc:"middle of its shaft, [x, y] seen from the front"`
}
