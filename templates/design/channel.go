package design

// Channel is a hole drilled for wires between two cavities.
type Channel struct {
	Table
	Join Val[[]string] `toml:"join" text:"name" items:"2,2" doc:"names of the two cavities that it joins; jack and bridge count"`
	D    Val[Length]   `toml:"d" range:"2 mm,16 mm" doc:"diameter of the drill"`
}

// Jack is the output jack.
type Jack struct {
	Table
	Side Val[string] `toml:"side" oneof:"treble,bass,front" doc:"edge that it is bored into, or the front for a face-mounted jack"`
	Y    Val[Length] `toml:"y" range:"-400 mm,400 mm" doc:"where, from the bridge line"`
}
