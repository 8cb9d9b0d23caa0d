package design

// Bridge is the bridge as measured.
type Bridge struct {
	Table
	Kind   Val[string]    `toml:"kind" oneof:"fixed,two-post,wraparound" doc:"screwed to the body, saddles on two posts with a tailpiece or strings through the body, or strings wrapped over a bar on two posts"`
	Height Val[[2]Length] `toml:"saddle_height" range:"2 mm,40 mm" doc:"lowest and highest that the saddles' tops stand over the finished front"`
	Travel Val[Length]    `toml:"travel" range:"0 mm,40 mm" doc:"how far a saddle moves along the string"`
}
