package design

import "routwright/geom"

// Length is a length in millimetres. In the file it is a number in the file's
// units or a string with its own: 648, "25 1/2 in", "44.5 mm".
type Length float64

// Degrees is an angle in degrees, as builders write it.
type Degrees float64

// Pitch is the pitch of an open string in Hz. In the file it is a number in Hz
// or a note with its octave: 110, "A2", "F#3".
type Pitch float64

// Ratio is an interval above the open string as a ratio of frequencies, above 1
// and up to the octave, 2. In the file it is a number or a fraction: 1.25, "5/4".
type Ratio float64

// Design is a design file as read: nothing in it is solved yet. Every table and
// every value keeps its place in the file. The tags give the key; `range` the
// values allowed, both ends included; `oneof` the words allowed; `doc` what the
// schema and the reference in the README say.
type Design struct {
	Version  Val[int]    `toml:"design" oneof:"1" need:"true" doc:"version of this file's format"`
	Name     Val[string] `toml:"name" text:"label" doc:"name of the instrument, printed on every sheet"`
	Revision Val[string] `toml:"revision" text:"label" doc:"the builder's revision letter, printed on every sheet"`
	Units    Val[string] `toml:"units" oneof:"mm,in" doc:"unit of plain numbers"`
	Hand     Val[string] `toml:"hand" oneof:"right,left" doc:"left mirrors the solved parts"`

	Slab     Slab       `toml:"slab"`
	Strings  Strings    `toml:"strings"`
	Body     Body       `toml:"body"`
	Board    Board      `toml:"fretboard"`
	Neck     Neck       `toml:"neck"`
	Bridge   Bridge     `toml:"bridge"`
	Keys     Keys       `toml:"keys"`
	Key      []Key      `toml:"key"`
	Pickup   []Pickup   `toml:"pickup"`
	Cavity   []Cavity   `toml:"cavity"`
	Channel  []Channel  `toml:"channel"`
	Jack     Jack       `toml:"jack"`
	Chamber  []Chamber  `toml:"chamber"`
	Strap    Strap      `toml:"strap"`
	Hardware []Hardware `toml:"hardware"`
	Section  []Section  `toml:"section"`
	Bit      []Bit      `toml:"bit"`
	Bush     []Bush     `toml:"bush"`
	Forstner []Drill    `toml:"forstner"`
	Drill    []Drill    `toml:"drill"`
	Router   Router     `toml:"router"`
	Template Workshop   `toml:"template"`
	Allow    []Allow    `toml:"allow"`
	Work     Work       `toml:"work"`
	Print    Print      `toml:"print"`
}

// Table is embedded in every table: where its header stands.
type Table struct {
	At      Pos
	Present bool
}

// Slab is the wood.
type Slab struct {
	Table
	Wood     Val[string]    `toml:"wood" text:"label" doc:"species, for labels and the wood tables"`
	Rough    Val[Length]    `toml:"rough" range:"10 mm,150 mm" doc:"thickness when the keys go in"`
	Plane    Plane          `toml:"plane"`
	Blank    Val[[2]Length] `toml:"blank" range:"100 mm,2000 mm" doc:"length along the strings and width of the squared slab"`
	Moisture Moisture       `toml:"moisture"`
	Film     Val[Length]    `toml:"film" range:"0 mm,1 mm" doc:"thickness of the finish on a wall"`
	Crack    []Crack        `toml:"crack"`
}

// Moisture is the moisture content of the wood, in per cent of its dry weight.
type Moisture struct {
	Table
	Now   Val[float64] `toml:"now" range:"2,30" doc:"moisture of the slab when the keys go in, per cent, from a meter"`
	InUse Val[float64] `toml:"in_use" range:"2,30" doc:"moisture furthest from it that the instrument will see, per cent"`
}

// Plane is what still comes off each face after the keys are in.
type Plane struct {
	Table
	Front Val[Length] `toml:"front" range:"0 mm,20 mm" doc:"taken off the front after the keys are in"`
	Back  Val[Length] `toml:"back" range:"0 mm,20 mm" doc:"taken off the back after the keys are in"`
}

// Crack is one crack, measured as points from the bridge line and the centre
// line, seen from the front.
type Crack struct {
	Table
	Front   Val[[]geom.Point] `toml:"front" items:"2,200" doc:"points [x, y] along the crack on the front"`
	Back    Val[[]geom.Point] `toml:"back" items:"2,200" doc:"points [x, y] along the crack on the back, seen from the front"`
	Opening Val[[]Length]     `toml:"opening" range:"0 mm,20 mm" items:"1,200" doc:"how wide it gapes, at points spread evenly along it"`
	Tips    Val[[]string]     `toml:"tips" oneof:"first,last" items:"0,2" doc:"which ends are true tips inside the wood"`
}

// Strings is what the strings fix.
type Strings struct {
	Table
	Scale     Scale          `toml:"scale"`
	Frets     Val[int]       `toml:"frets" range:"1,120" doc:"number of frets right across the board"`
	Divisions Val[int]       `toml:"divisions" range:"1,144" doc:"equal steps to the octave (12)"`
	Cents     Val[[]float64] `toml:"cents" range:"0,1200" items:"1,144" doc:"in place of divisions: cents of each step of the octave above the open string, rising; the octave closes the list, written or not"`
	Ratios    Val[[]Ratio]   `toml:"ratios" items:"1,144" doc:"in place of divisions: ratio of each step of the octave to the open string, rising; the octave closes the list, written or not"`
	Count     Val[int]       `toml:"count" range:"1,14" doc:"number of strings (6)"`
	Spread    Spread         `toml:"spread"`
	Spacing   Val[string]    `toml:"spacing" oneof:"centres,gaps" doc:"what is even between the outer strings: the middles of the strings (centres), or the air between them (gaps)"`
	Action    Action         `toml:"action"`

	Gauges  Val[[]Length]  `toml:"gauges" range:"0.1 mm,5 mm" items:"1,14" doc:"thickness of each string, the highest string first"`
	Pitches Val[[]Pitch]   `toml:"pitches" items:"1,14" doc:"of the open strings, the highest first"`
	Wound   Val[int]       `toml:"wound" range:"0,14" doc:"how many of the lowest strings are wound"`
	Cores   Val[[]Length]  `toml:"cores" range:"0 mm,4 mm" items:"1,14" doc:"thickness of the core of each wound string, 0 for a plain one, the highest string first"`
	Masses  Val[[]float64] `toml:"masses" range:"0,100" items:"1,14" doc:"grams that a metre of each string weighs, 0 where not weighed, the highest string first"`
	Winding Val[string]    `toml:"winding" oneof:"steel,nickel,bronze" doc:"metal of the winding, where masses does not say it; nickel-plated steel counts as steel"`
}

// Scale is one scale length, or the two of a fan.
type Scale struct {
	Table
	One    Val[Length]  `bare:"true" range:"200 mm,1400 mm" doc:"nut edge to bridge line on the centre line, uncompensated; a table makes a fan"`
	Bass   Val[Length]  `toml:"bass" need:"true" range:"200 mm,1400 mm" doc:"scale of a fan along the bass string"`
	Treble Val[Length]  `toml:"treble" need:"true" range:"200 mm,1400 mm" doc:"scale of a fan along the treble string"`
	Square Val[float64] `toml:"square_fret" range:"-400,400" doc:"the fret that is square to the centre line; 6.5 and -2 are allowed (7)"`
}

// Spread is how far apart the outer strings run.
type Spread struct {
	Table
	Nut    Val[Length] `toml:"nut" range:"0 mm,150 mm" doc:"between the middles of the outer strings at the nut"`
	Bridge Val[Length] `toml:"bridge" range:"0 mm,200 mm" doc:"between the middles of the outer strings at the bridge"`
}

// Body is the outline: a family with measures, or a file, or ruler readings.
type Body struct {
	Table
	Family     Val[string]            `toml:"family" text:"label" doc:"name of a body family"`
	File       Val[string]            `toml:"file" text:"file" doc:"outline drawn in another program: .svg, .dxf or .csv, beside the design file"`
	Pick       Val[string]            `toml:"pick" text:"label" doc:"which outline of the file, where it holds several: its id, label or layer"`
	Centre     Val[Length]            `toml:"centre" doc:"where the drawing has its centre line: x in the file"`
	HalfWidths Val[[][3]Length]       `toml:"half_widths" items:"3,2000" doc:"rows [y, bass half width, treble half width] read with a ruler from the tail end"`
	Measures   map[string]Val[Length] `toml:"measures" doc:"measures of the family"`
	Edge       Edge                   `toml:"edge"`
	Contour    []Contour              `toml:"contour"`
	Cutter     Cutter                 `toml:"cut"`
	Tail       Val[Length]            `toml:"tail" range:"20 mm,400 mm" doc:"from the bridge line back to the tail end of the outline"`
}

// Board is the fretboard.
type Board struct {
	Table
	NutWidth  Val[Length]   `toml:"nut_width" range:"10 mm,300 mm" doc:"width of the board at the nut"`
	EndWidth  Val[Length]   `toml:"end_width" range:"10 mm,300 mm" doc:"width of the board at its end"`
	Margin    Margin        `toml:"margin"`
	Overhang  Val[Length]   `toml:"overhang" range:"0 mm,100 mm" doc:"board beyond the last fret"`
	EndRadius Val[Length]   `toml:"end_radius" range:"1 mm,5000 mm" doc:"of an end that bulges past its corners; straight if not given"`
	Radius    Val[[]Length] `toml:"radius" range:"30 mm,5000 mm" items:"1,2" single:"true" doc:"of the surface across the strings: one for a cylinder, two for a cone from the nut to the last fret; flat if not given"`
	Nut       NutEnd        `toml:"nut"`
	ZeroFret  Val[bool]     `toml:"zero_fret" doc:"a slot at the nut line, too; the nut itself then lies behind it"`
	Partial   []Partial     `toml:"partial"`
	Extra     ExtraFrets    `toml:"extra"`
	Kerf      Val[Length]   `toml:"kerf" range:"0.2 mm,3 mm" doc:"width of the slot that the saw makes"`
	SlotDepth Val[Length]   `toml:"slot_depth" range:"0.3 mm,15 mm" doc:"of the slots below the surface"`
	Binding   Val[Length]   `toml:"binding" range:"0 mm,20 mm" doc:"the slots stop this far inside the edges, for a bound board; 0 saws right across"`
	Index     Index         `toml:"index"`
	Markers   Val[Length]   `toml:"markers" range:"0 mm,30 mm" doc:"diameter of the position markers; 0 for a board without"`
	Thickness Val[Length]   `toml:"thickness" range:"2 mm,12 mm" doc:"of the board in its middle"`
	Fret      Val[Length]   `toml:"fret_height" range:"0.5 mm,2 mm" doc:"height of the fret wire's crown over the board"`
}

// Margin is how far the board reaches past the outer strings, square to the
// centre line.
type Margin struct {
	Table
	One       Val[Length] `bare:"true" range:"0 mm,100 mm" doc:"in place of the widths: from the middle of an outer string to the edge; a table gives each place its own"`
	BassNut   Val[Length] `toml:"bass_nut" need:"true" range:"0 mm,100 mm" doc:"at the nut on the bass side"`
	TrebleNut Val[Length] `toml:"treble_nut" need:"true" range:"0 mm,100 mm" doc:"at the nut on the treble side"`
	BassEnd   Val[Length] `toml:"bass_end" need:"true" range:"0 mm,100 mm" doc:"at the last fret on the bass side"`
	TrebleEnd Val[Length] `toml:"treble_end" need:"true" range:"0 mm,100 mm" doc:"at the last fret on the treble side"`
}

// NutEnd is the board's end behind the nut line.
type NutEnd struct {
	Table
	Slot   Val[Length] `toml:"slot" range:"0 mm,20 mm" doc:"width along the board of a slot for the nut; 0 when the nut stands at the board's end"`
	Behind Val[Length] `toml:"behind" range:"0 mm,50 mm" doc:"from a zero fret to the nut's string edge"`
	Shelf  Val[Length] `toml:"shelf" range:"0 mm,200 mm" doc:"board left behind the nut"`
}

// Partial is a slot under some of the strings.
type Partial struct {
	Table
	Fret    Val[float64] `toml:"fret" need:"true" range:"0,200" doc:"its place, counted in frets; 3.5 halves the step in cents"`
	Strings Val[[2]int]  `toml:"strings" need:"true" range:"1,14" doc:"first and last string that it serves, 1 is the highest"`
}

// ExtraFrets is slots past the last whole one on one side of the board.
type ExtraFrets struct {
	Table
	Frets   Val[int]    `toml:"frets" need:"true" range:"1,60" doc:"slots past the last whole one, on one side of the board"`
	Strings Val[int]    `toml:"strings" need:"true" range:"1,13" doc:"how many strings they serve"`
	Side    Val[string] `toml:"side" oneof:"treble,bass" doc:"side of the board that they lie on (treble)"`
}

// Index is the strip, or for a fan the carrier, that leads the board past the
// saw from slot to slot.
type Index struct {
	Table
	Kind   Val[string] `toml:"kind" oneof:"notches,holes" doc:"what the pins drop into (notches)"`
	Pin    Val[Length] `toml:"pin" range:"1 mm,12 mm" doc:"diameter of the pin or pins beside the saw"`
	Offset Val[Length] `toml:"offset" range:"-200 mm,200 mm" doc:"from the middle of the pin to the middle of the saw's kerf along the board, positive when the saw is nearer the nut"`
	Span   Val[Length] `toml:"span" range:"30 mm,500 mm" doc:"between the middles of the two pins of a fan's carrier"`
	Play   Val[Length] `toml:"play" range:"0 mm,0.5 mm" doc:"by which a notch is wider than the pin"`
}

// Keys is what all keys share.
type Keys struct {
	Table
	Place     Val[bool]     `toml:"place" doc:"let the program place keys over every crack, beside those placed by hand"`
	Face      Val[string]   `toml:"face" oneof:"front,back,both" doc:"face that the program lets them into, and that of a [[key]] without its own (front)"`
	Angle     Val[Degrees]  `toml:"angle" range:"-180,180" doc:"of all keys that the program places, anticlockwise from straight across the body; without it they stand square to the crack"`
	Length    Val[Length]   `toml:"length" range:"20 mm,200 mm" doc:"along the key's axis, across the crack"`
	Graduated Val[[]Length] `toml:"graduated" range:"20 mm,200 mm" items:"1,4" doc:"shorter lengths that the program may choose as well where the full one has no room, ends and waist in proportion; each has templates of its own"`
	Ends      Val[Length]   `toml:"ends" range:"8 mm,120 mm" doc:"width at the ends"`
	Waist     Val[Length]   `toml:"waist" range:"4 mm,110 mm" doc:"width at the waist"`
	Depth     Val[Length]   `toml:"depth" range:"3 mm,40 mm" doc:"finished depth of the recess, from the finished face"`
	Corners   Val[string]   `toml:"corners" oneof:"chiselled,rounded,relieved" doc:"how the corners of the recess are made to fit"`
	Gap       Val[Length]   `toml:"gap" range:"0 mm,0.5 mm" doc:"glue gap a side; it comes off the key"`
	Border    Val[Length]   `toml:"border" range:"0.2 mm,5 mm" doc:"thickness of veneer strips round each key; the recess grows to suit"`
	GlueLine  Val[Length]   `toml:"glue_line" range:"0 mm,0.3 mm" doc:"glue on each face of a border strip"`
	Collar    Val[Length]   `toml:"collar" range:"4 mm,90 mm" doc:"outside diameter of the collar of an inlay bush: recess with the collar, key without it, from one opening; it fixes the gap"`
	Taper     Val[Degrees]  `toml:"taper" range:"0,3" doc:"by which the key narrows towards its bottom, a side"`
	LeadIn    Val[Length]   `toml:"lead_in" range:"0 mm,1 mm" doc:"chamfer on the lower edge of the key"`
	Wood      Val[string]   `toml:"wood" text:"label" doc:"species of the keys, by its name in the wood tables"`
	Cutter    Cutter        `toml:"cut"`
}

// Key is one key placed by hand.
type Key struct {
	Table
	Name   Val[string]     `toml:"name" text:"name" unique:"key" doc:"unique name"`
	At     Val[geom.Point] `toml:"at" need:"true" doc:"middle of the waist, [x, y] from the centre line and the bridge line"`
	Angle  Val[Degrees]    `toml:"angle" range:"-180,180" doc:"of the key's axis, anticlockwise from straight across the body"`
	Face   Val[string]     `toml:"face" oneof:"front,back" doc:"face it is let into"`
	Length Val[Length]     `toml:"length" range:"20 mm,200 mm" doc:"keys.length, or one of keys.graduated"`
	Cut    Val[bool]       `toml:"cut" doc:"its recess is cut in the wood: it stays as the set made then has it"`
	Meets  Val[bool]       `toml:"meets" doc:"cavities cut later may take wood of this key: once glued it is wood like any other"`
}

// Cutter names the tools for a feature.
type Cutter struct {
	Table
	Bit  Val[string] `toml:"bit" ref:"bit" doc:"name of the bit"`
	Bush Val[string] `toml:"bush" ref:"bush" doc:"name of the guide bush; without one the bit's bearing follows the template"`
	// Done stands for the whole table, too: cut = true.
	Done Val[bool] `toml:"done" bare:"true" doc:"it is cut in the wood: its shape is kept as the set made then has it, and what is solved goes round it; a table also names the tools"`
	// Free and Drill are about the way the cut is made.
	Free  Val[bool] `toml:"free" doc:"no follower and no template: a numerically controlled router leads the middle of the bit along its own path"`
	Drill Val[bool] `toml:"drill" doc:"the waste is drilled out before the router goes in"`
}

// Pickup is a pickup cavity, cut from the front.
type Pickup struct {
	Table
	Name   Val[string]       `toml:"name" text:"name" unique:"cavity" doc:"unique name"`
	Kind   Val[string]       `toml:"kind" oneof:"single-coil,humbucker,soapbar" doc:"kind of pickup"`
	From   Val[Length]       `toml:"at" range:"10 mm,400 mm" doc:"from the bridge line to the middle of the cavity"`
	Slant  Val[Degrees]      `toml:"slant" range:"-30,30" doc:"positive when the treble end lies nearer the bridge"`
	Length Val[Length]       `toml:"length" range:"20 mm,200 mm" doc:"of the pickup as measured, across the strings"`
	Width  Val[Length]       `toml:"width" range:"8 mm,80 mm" doc:"of the pickup as measured, along the strings"`
	Room   Val[Length]       `toml:"room" range:"0 mm,3 mm" doc:"added on every side of the pickup"`
	Corner Val[Length]       `toml:"corner" range:"0.5 mm,20 mm" doc:"corner radius of the cavity"`
	Depth  Val[Length]       `toml:"depth" range:"5 mm,40 mm" doc:"depth from the finished front"`
	Poles  Val[Length]       `toml:"poles" range:"5 mm,150 mm" doc:"between the middles of the outer poles"`
	Legs   Legs              `toml:"legs"`
	Screws Val[[]geom.Point] `toml:"screws" items:"1,12" doc:"middles of its screws [x, y] from the middle of the pickup, x along it towards the treble side"`
	Screw  PickupScrew       `toml:"screw"`
	Cutter Cutter            `toml:"cut"`
}

// PickupScrew is what holds a pickup.
type PickupScrew struct {
	Table
	Gauge  Val[int]    `toml:"gauge" range:"2,14" doc:"number of the wood screw"`
	Length Val[Length] `toml:"length" range:"4 mm,80 mm" doc:"of the screw under its head"`
	Cut    Val[bool]   `toml:"cut" doc:"their pilot holes are drilled: they stay as the set made then has them"`
}

// Legs are the legs or ears at the ends of a pickup, which need a recess deeper
// or shallower than the pickup itself.
type Legs struct {
	Table
	Length Val[Length] `toml:"length" range:"20 mm,220 mm" doc:"of the pickup over its legs"`
	Width  Val[Length] `toml:"width" range:"4 mm,80 mm" doc:"of a leg, along the strings"`
	Depth  Val[Length] `toml:"depth" range:"2 mm,45 mm" doc:"depth for the legs from the finished front"`
	Corner Val[Length] `toml:"corner" range:"0.5 mm,20 mm" doc:"corner radius of their recess"`
	Cutter Cutter      `toml:"cut"`
}

// Cavity is a cavity cut from the back, with its rebate and cover.
type Cavity struct {
	Table
	Name    Val[string]       `toml:"name" text:"name" unique:"cavity" doc:"unique name"`
	Outline Val[[]geom.Point] `toml:"outline" items:"3,500" doc:"corners [x, y] in order, seen from the front; grown round the controls if not given"`
	Corner  Val[Length]       `toml:"corner" range:"0.5 mm,60 mm" doc:"radius of its corners"`
	Wall    Val[Length]       `toml:"wall" range:"0.5 mm,30 mm" doc:"room from each control's body to the wall of a grown outline"`
	Depth   Val[Length]       `toml:"depth" range:"5 mm,60 mm" doc:"depth from the finished back"`
	Control []Control         `toml:"control"`
	Cover   Cover             `toml:"cover"`
	Cutter  Cutter            `toml:"cut"`
}

// Cover is the lid of a back cavity and the rebate that it lies in.
type Cover struct {
	Table
	Thickness Val[Length] `toml:"thickness" range:"0.5 mm,8 mm" doc:"of the cover's sheet"`
	Gap       Val[Length] `toml:"gap" range:"0 mm,2 mm" doc:"round the cover; it comes off the cover"`
	Rebate    Val[Length] `toml:"rebate" range:"1 mm,25 mm" doc:"width of the ledge it rests on"`
	// Outline is for a cover that is bought or made already.
	Outline Val[[]geom.Point] `toml:"outline" items:"3,500" doc:"corners [x, y] in order of a cover at hand, seen from the front, in place of one that follows its cavity"`
	Corner  Val[Length]       `toml:"corner" range:"0 mm,60 mm" doc:"radius of the corners of a cover at hand"`
	Screw   CoverScrew        `toml:"screw"`
	Cutter  Cutter            `toml:"cut"`
}

// Bit is a router bit as measured.
type Bit struct {
	Table
	Name     Val[string] `toml:"name" text:"name" unique:"bit" need:"true" doc:"unique name"`
	D        Val[Length] `toml:"d" need:"true" range:"1 mm,60 mm" doc:"cutter diameter as measured"`
	TestSlot Val[Length] `toml:"test_slot" range:"1 mm,60 mm" doc:"width of a slot that it cut in scrap, in place of d: its true cutter diameter, runout and all"`
	Cut      Val[Length] `toml:"cut" range:"2 mm,80 mm" doc:"cutting length"`
	Shank    Val[Length] `toml:"shank" range:"3 mm,16 mm" doc:"shank diameter"`
	Reach    Val[Length] `toml:"reach" range:"5 mm,150 mm" doc:"how far its tip stands below the router's base at most, its shank held safely"`
	Bearing  Bearing     `toml:"bearing"`
}

// Bearing is the ball bearing on a bit.
type Bearing struct {
	Table
	D      Val[Length] `toml:"d" need:"true" range:"3 mm,60 mm" doc:"diameter as measured"`
	Height Val[Length] `toml:"height" range:"1 mm,20 mm" doc:"height of the bearing"`
	Side   Val[string] `toml:"side" oneof:"shank,tip" doc:"above the cutter (shank) or below it (tip)"`
}

// Bush is a guide bush.
type Bush struct {
	Table
	Name   Val[string] `toml:"name" text:"name" unique:"bush" need:"true" doc:"unique name"`
	D      Val[Length] `toml:"d" need:"true" range:"3 mm,80 mm" doc:"outside diameter as measured"`
	Reach  Val[Length] `toml:"reach" range:"1 mm,40 mm" doc:"how far it stands out of the base"`
	Collar Val[Length] `toml:"collar" range:"4 mm,90 mm" doc:"outside diameter of the collar that fits over it, where it is an inlay bush"`
}

// Drill is a Forstner or a twist drill.
type Drill struct {
	Table
	D      Val[Length] `toml:"d" need:"true" range:"0.5 mm,80 mm" doc:"diameter as measured"`
	Length Val[Length] `toml:"length" range:"5 mm,600 mm" doc:"how deep it drills at most"`
	Point  Val[Length] `toml:"point" range:"0 mm,20 mm" doc:"how far its point stands ahead of its rim"`
}

// Router is the router at hand.
type Router struct {
	Table
	Base      Val[Length] `toml:"base" range:"40 mm,300 mm" doc:"diameter of its base"`
	Outrigger Val[Length] `toml:"outrigger" range:"60 mm,600 mm" doc:"diameter of the plate that is screwed under the base where an opening is too large for it"`
	Plunge    Val[Length] `toml:"plunge" range:"5 mm,120 mm" doc:"how far it plunges"`
	Free      Val[bool]   `toml:"free" doc:"it is numerically controlled: where no bit with a follower fits, it may lead one without a template"`
	Outside   Val[string] `toml:"outside" oneof:"table,hand" doc:"how parts are trimmed to a template on their outside: on a router table, or with the router held by hand"`
}

// Workshop is how templates are made.
type Workshop struct {
	Table
	Thickness Val[Length]       `toml:"thickness" range:"3 mm,40 mm" doc:"of the template sheet"`
	Inside    Val[Length]       `toml:"smallest_inside_radius" range:"0 mm,20 mm" doc:"smallest inside radius that the template's maker can cut"`
	Pin       Val[Length]       `toml:"pin" range:"2 mm,16 mm" doc:"diameter of the two locating pins"`
	Proud     Val[Length]       `toml:"pin_proud" range:"0 mm,40 mm" doc:"how far the pins stand out of a template's upper face; 0 when they are cut flush"`
	Screws    Val[[]geom.Point] `toml:"screws" items:"1,50" doc:"places [x, y] of screws or clamps that hold the templates and stand out of their upper face"`
	Stock     Val[[2]Length]    `toml:"stock" range:"200 mm,4000 mm" doc:"length and width of the sheets that templates are cut from: lays them out on it"`
	StockEdge Val[Length]       `toml:"stock_edge" range:"0 mm,100 mm" doc:"left free along the edges of such a sheet"`
	StockKerf Val[Length]       `toml:"stock_kerf" range:"0 mm,30 mm" doc:"left between two templates on it"`
}

// Print is how the paper comes out.
type Print struct {
	Table
	Paper    Val[[]string]   `toml:"paper" text:"paper" items:"1,20" doc:"paper sizes to make"`
	Margin   Val[Length]     `toml:"margin" range:"0 mm,40 mm" doc:"edge that the printer leaves white"`
	Overlap  Val[Length]     `toml:"overlap" range:"0 mm,60 mm" doc:"shared by neighbouring pages"`
	Measured Val[[2]float64] `toml:"measured" range:"50,1000" doc:"what the two rulers of the first print measured, across and up, in mm, of 100 each or of what the key of says"`
	Of       Val[[2]Length]  `toml:"of" range:"50 mm,1000 mm" doc:"what they should have measured, as the first page says; 100 mm and 100 mm if not given"`
}
