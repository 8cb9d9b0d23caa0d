package design

// Neck is the neck and how it meets the body.
type Neck struct {
	Table
	Join  Val[string] `toml:"join" oneof:"bolted,glued" doc:"how the neck is held"`
	Wood  Val[string] `toml:"wood" text:"label" doc:"species of the neck, by its name in the wood tables"`
	Heel  Heel        `toml:"heel"`
	Joint Joint       `toml:"joint"`
	Bolts Bolts       `toml:"bolts"`
	Head  Head        `toml:"head"`
	Rod   Rod         `toml:"rod"`
	Back  NeckBack    `toml:"back"`
}

// Heel is the heel of the neck as measured.
type Heel struct {
	Table
	Widths    Val[[2]Length] `toml:"widths" range:"20 mm,120 mm" doc:"width of the heel at its end inside the body and nearer the nut, measured with the calliper"`
	Apart     Val[Length]    `toml:"apart" range:"20 mm,200 mm" doc:"distance between the two places where the widths were measured"`
	Length    Val[Length]    `toml:"length" range:"30 mm,250 mm" doc:"from the heel's end to where the pocket opens at the body's edge"`
	Thickness Val[Length]    `toml:"thickness" range:"5 mm,40 mm" doc:"of the heel without the fretboard, at its end"`
	Corner    Val[Length]    `toml:"corner" range:"0 mm,30 mm" doc:"radius of the two corners at its end"`
	Gap       Val[Length]    `toml:"gap" range:"0 mm,1 mm" doc:"air a side between heel and pocket"`
}

// Joint is where the board passes over the body's edge.
type Joint struct {
	Table
	Fret  Val[float64] `toml:"fret" range:"5,40" doc:"fret that lies over the body's edge on the centre line; parts of a fret are allowed"`
	Above Val[Length]  `toml:"above_body" range:"-10 mm,30 mm" doc:"underside of the board over the finished front there"`
	Angle Val[Degrees] `toml:"angle" range:"0,8" doc:"neck angle, in place of the one solved from the saddle height"`
}

// Bolts are the screws of a bolted neck.
type Bolts struct {
	Table
}

// Head is the headstock.
type Head struct {
	Table
	Kind Val[string] `toml:"kind" oneof:"in-line,split,paddle" doc:"how the tuners stand: in one row, on both sides, or a plain paddle to be drilled later"`
}

// Rod is the truss rod.
type Rod struct {
	Table
	Width Val[Length] `toml:"width" range:"3 mm,15 mm" doc:"width of its channel"`
	Depth Val[Length] `toml:"depth" range:"4 mm,20 mm" doc:"depth of its channel below the underside of the board"`
}

// NeckBack is the shape of the back of the neck.
type NeckBack struct {
	Table
}

// Action is how high the strings stand over the frets.
type Action struct {
	Table
	Twelfth Val[Length] `toml:"fret_12" range:"0.5 mm,5 mm" doc:"under the string at the twelfth fret"`
	Nut     Val[Length] `toml:"nut" range:"0 mm,2 mm" doc:"over the first fret's height at the nut"`
}
