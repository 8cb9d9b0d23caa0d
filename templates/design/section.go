package design

import "routwright/geom"

// Section is a line through which the body is drawn cut.
type Section struct {
	Table
	Name Val[string]     `toml:"name" text:"label" doc:"what the section shows, printed on its sheet"`
	From Val[geom.Point] `toml:"from" doc:"where the line begins, [x, y] seen from the front; drawn at the left"`
	To   Val[geom.Point] `toml:"to" doc:"where it ends"`
}
