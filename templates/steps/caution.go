package steps

// Cautions of the trade. Common practice; none of them replaces the manual of
// the tool or the rules of the place of work, and each says so.
const (
	careRouter = "Unplug the router to change or set the bit. Eye, ear and dust protection. Feed against the turning of the bit, never climb-cut by hand, hold with both hands and let the bit stop before you lift it. Follow the router's and the bit's manuals."
	careTable  = "On a router table the feed turns round: feed against the turning of the bit. Guard and starting pin in place, a push block for anything under 150 mm, no fingers near the bit. Follow the table's manual."
	careSmall  = "Never hold a piece under 150 mm by hand at a router or a saw: screw or tape it to a handle block. Follow the tool's manual."
	careSaw    = "Blade guard down to just above the work, blade tensioned and guided, relief cuts before tight curves, fingers never in line with the blade. Eye and dust protection. Follow the saw's manual."
	careDrill  = "Clamp the work: a drill that catches turns it. No gloves, loose sleeves or long hair near the spindle. Eye protection. Follow the drill's manual."
	careLong   = "Start a long drill at low speed in its guide, never free in the air; clear the chips often; stop at the mark. Keep the hand that holds the body out of the drill's line. Eye protection. Follow the drill's manual."
	careGlue   = "Read the glue's data sheet: gloves and fresh air for epoxy and thin superglue, eye protection for superglue. Rags soaked in oil or solvent can catch fire by themselves: dry them flat outdoors. Local rules come first."
	careDust   = "Wood dust harms lungs and some woods are poisonous: extraction and a mask rated for fine dust. Eye protection."
	careFinish = "Solvents burn and poison: fresh air, a mask with the right filter, no flame, no spark. Spread oily rags out to dry outdoors. Follow the data sheet and local rules."
	careSolder = "Solder in fresh air, with eye protection; wash your hands of lead. A guitar amplifier holds dangerous voltage even unplugged: never open it, and have mains wiring and grounding checked by a licensed electrician."
	careBench  = "Keep hands behind the edge of every blade, clamp the work, and work to your own measured wood, not to the nominal one."
)

// Cautions returns every caution once, for the chapter on safety.
func Cautions() []string {
	return []string{careRouter, careTable, careSmall, careSaw, careDrill, careLong, careDust, careGlue, careFinish, careSolder, careBench}
}
