package design

// Neck is the neck and how it meets the body.
type Neck struct {
	Table
	Join  Val[string] `toml:"join" oneof:"bolted,glued" doc:"how the neck is held"`
	Wood  Val[string] `toml:"wood" text:"label" doc:"species of the neck, by its name in the wood tables"`
	Heel  Heel        `toml:"heel"`
	Joint Joint       `toml:"joint"`
	Bolts Bolts       `toml:"bolts"`
	Fit   Fitted      `toml:"fitted"`
	Head  Head        `toml:"head"`
	Rod   Rod         `toml:"rod"`
	Back  NeckBack    `toml:"back"`
}

// Heel is the heel of the neck as measured.
type Heel struct {
	Table
	Widths    Val[[2]Length] `toml:"widths" range:"20 mm,120 mm" doc:"width of the heel at its end inside the body and nearer the nut, measured with the calliper"`
	Apart     Val[Length]    `toml:"apart" range:"20 mm,200 mm" doc:"distance between the two places where the widths were measured"`
	Length    Val[Length]    `toml:"length" range:"30 mm,250 mm" doc:"from the heel's end to the joint, along the board, taken with a square"`
	FromNut   Val[Length]    `toml:"from_nut" range:"100 mm,1200 mm" doc:"from the nut's string edge to the heel's end, along the board; in place of length"`
	Thickness Val[Length]    `toml:"thickness" range:"5 mm,40 mm" doc:"of the heel without the fretboard, at its end"`
	Corner    Val[Length]    `toml:"corner" range:"0 mm,30 mm" doc:"radius of the two corners at its end"`
	Gap       Val[Length]    `toml:"gap" range:"0 mm,1 mm" doc:"air a side between heel and pocket, over the film of the finish"`
	Cutter    Cutter         `toml:"cut"`
}

// Joint is where the board passes over the body's edge.
type Joint struct {
	Table
	Fret    Val[float64] `toml:"fret" range:"5,40" doc:"fret that lies over the body's edge on the centre line; parts of a fret are allowed"`
	Above   Val[Length]  `toml:"above_body" range:"-10 mm,30 mm" doc:"underside of the board over the finished front there"`
	Surface Val[Length]  `toml:"surface_above" range:"-5 mm,45 mm" doc:"playing surface of the board over the finished front there, in place of above_body"`
	Angle   Val[Degrees] `toml:"angle" range:"0,8" doc:"neck angle, in place of the one solved from the saddle height"`
}

// Bolts are the screws of a bolted neck.
type Bolts struct {
	Table
	Count   Val[int]    `toml:"count" oneof:"2,3,4" doc:"2 in line, 3 with one on the centre line at the heel's end, or 4 in a rectangle"`
	Across  Val[Length] `toml:"across" range:"8 mm,80 mm" doc:"between the two rows, across the neck"`
	Along   Val[Length] `toml:"along" range:"8 mm,150 mm" doc:"between the first and the last, along the neck"`
	FromEnd Val[Length] `toml:"from_end" range:"4 mm,100 mm" doc:"from the heel's end to the nearest screws"`
	Gauge   Val[int]    `toml:"gauge" range:"4,14" doc:"number of the wood screw"`
	Thread  Val[string] `toml:"thread" oneof:"M4,M5,M6,M8" doc:"thread of machine screws into inserts in the heel, in place of wood screws"`
	Length  Val[Length] `toml:"length" range:"10 mm,120 mm" doc:"of the screw under its head"`
	Insert  Insert      `toml:"insert"`
	Cut     Val[bool]   `toml:"cut" doc:"their holes are drilled in the body: they stay as the set made then has them"`
	Plate   Val[Length] `toml:"plate" range:"0 mm,8 mm" doc:"thickness of the plate under the heads; 0 without one"`
}

// Insert is a threaded insert.
type Insert struct {
	Table
	D      Val[Length] `toml:"d" range:"3 mm,16 mm" doc:"of the hole that it wants"`
	Length Val[Length] `toml:"length" range:"4 mm,40 mm" doc:"of the insert"`
}

// Fitted is the neck as it was measured again in its pocket, dry.
type Fitted struct {
	Table
	NutToMark Val[Length]  `toml:"nut_to_mark" range:"50 mm,1400 mm" doc:"straight from the nut's string edge to a mark on the centre line of the front"`
	Mark      Val[Length]  `toml:"mark" range:"-300 mm,600 mm" doc:"where that mark is, from the bridge line of the layout, + to the neck"`
	Surface   Val[Length]  `toml:"surface_above" range:"-5 mm,45 mm" doc:"playing surface of the board over the front at the body's edge, as fitted"`
	Angle     Val[Degrees] `toml:"angle" range:"-2,10" doc:"neck angle as fitted"`
	Aside     Val[Length]  `toml:"aside" range:"-10 mm,10 mm" doc:"how far a string stretched along the neck's centre line passes the body's at the bridge line, + to the treble side"`
}

// Head is the headstock.
type Head struct {
	Table
	Kind       Val[string]    `toml:"kind" oneof:"in-line,split,paddle" doc:"how the tuners stand: in one row, on both sides, or a plain paddle to be drilled later"`
	Sides      Val[[2]int]    `toml:"sides" range:"0,14" doc:"tuners on the bass side and on the treble side; the outermost string goes to the tuner nearest the nut"`
	Behind     Val[Length]    `toml:"behind_nut" range:"2 mm,30 mm" doc:"from the nut's string edge to where the head begins to widen and to tilt or step; the nut stands on it"`
	Thickness  Val[Length]    `toml:"thickness" range:"8 mm,25 mm" doc:"of the head"`
	Tilt       Val[Degrees]   `toml:"tilt" range:"0,25" doc:"of its face back from the board; 0 for a stepped head"`
	Step       Val[Length]    `toml:"step" range:"0 mm,20 mm" doc:"face of a head that does not tilt, below the underside of the board"`
	Sweep      Val[Length]    `toml:"sweep" range:"0 mm,100 mm" doc:"radius of the curve from the nut down to a stepped face: that of the drum that sands it"`
	First      Val[Length]    `toml:"first" range:"15 mm,150 mm" doc:"from the nut's string edge to the first post of a row, along the centre line"`
	Pitch      Val[Length]    `toml:"pitch" range:"5 mm,80 mm" doc:"from post to post of a row"`
	Hole       Val[Length]    `toml:"hole" range:"3 mm,20 mm" doc:"diameter of the tuner's hole"`
	Post       Val[Length]    `toml:"post" range:"2 mm,20 mm" doc:"diameter of the post where the string winds on"`
	Body       Val[[2]Length] `toml:"body" range:"3 mm,60 mm" doc:"of the tuner behind the head: its width along the row, and how far it reaches from the post's middle towards the centre line"`
	Edge       Val[Length]    `toml:"edge" range:"1 mm,40 mm" doc:"wood from the hole's rim to the edge of the head"`
	Deflection Val[Degrees]   `toml:"deflection" range:"-10,20" doc:"outward bend of every string at the nut, seen from the front; left out, as little as keeps the tuners apart"`
	Widths     Val[[2]Length] `toml:"widths" range:"20 mm,250 mm" doc:"width of the head at its shoulders and at its tip; left out, it follows the tuners"`
	Length     Val[Length]    `toml:"length" range:"40 mm,400 mm" doc:"from the nut's string edge to the tip"`
	Shoulder   Val[Length]    `toml:"shoulder" range:"10 mm,200 mm" doc:"from the nut's string edge to the widest place"`
	Crown      Val[Length]    `toml:"crown" range:"0 mm,60 mm" doc:"how far the tip bulges between its corners"`
	NeckR      Val[Length]    `toml:"neck_radius" range:"0 mm,200 mm" doc:"radius of the hollow where the neck runs into the head"`
	ShoulderR  Val[Length]    `toml:"shoulder_radius" range:"0 mm,200 mm" doc:"radius of the corners at its widest place"`
	TipR       Val[Length]    `toml:"tip_radius" range:"0 mm,200 mm" doc:"radius of the corners at its tip"`
	Cutter     Cutter         `toml:"cut"`
}

// Rod is the truss rod.
type Rod struct {
	Table
	Kind   Val[string]    `toml:"kind" oneof:"double,single" doc:"pulls both ways, in a level channel; or one way, in a channel along an arc"`
	Access Val[string]    `toml:"access" oneof:"head,heel" doc:"end at which it is turned"`
	Width  Val[Length]    `toml:"width" range:"3 mm,15 mm" doc:"width of its channel"`
	Depth  Val[Length]    `toml:"depth" range:"4 mm,20 mm" doc:"depth of its channel below the underside of the board, at its ends"`
	Bow    Val[Length]    `toml:"bow" range:"0 mm,10 mm" doc:"how much deeper the channel lies in its middle, along an arc"`
	Length Val[Length]    `toml:"length" range:"50 mm,1000 mm" doc:"from the nut's string edge, or with access at the heel from the heel's end, to the channel's blind end"`
	Open   Val[[2]Length] `toml:"opening" range:"0 mm,80 mm" doc:"opening for the key that turns it: length along the neck past where the head begins, or from the heel's end, and width"`
}

// NeckBack is the shape of the back of the neck.
type NeckBack struct {
	Table
	Thickness Val[[2]Length]  `toml:"thickness" range:"10 mm,45 mm" doc:"of the neck with its board at the first fret and at the fret of the octave, frets aside; straight between and beyond"`
	Shoulder  Val[[2]float64] `toml:"shoulder" range:"0.05,0.95" doc:"fullness of the profile at those frets: 0.1 is slim, 0.9 full and flat"`
	Foot      Val[Length]     `toml:"foot" range:"0 mm,80 mm" doc:"from the body's edge to where the heel ends, towards the nut"`
	HeelR     Val[Length]     `toml:"heel_radius" range:"1 mm,200 mm" doc:"radius of the hollow from the heel to the back"`
	ThroatR   Val[Length]     `toml:"throat_radius" range:"0 mm,200 mm" doc:"radius of the hollow from the back to the head"`
	Scarf     Val[Length]     `toml:"scarf_blank" range:"8 mm,60 mm" doc:"thickness of the neck's blank where the scarf of a tilted head is sawn"`
	Cutter    Cutter          `toml:"cut"`
}

// Action is how high the strings stand over the frets.
type Action struct {
	Table
	Twelfth Val[Length] `toml:"fret_12" range:"0.5 mm,5 mm" doc:"under the string at the twelfth fret"`
	Nut     Val[Length] `toml:"nut" range:"0 mm,2 mm" doc:"over the first fret's height at the nut"`
}
