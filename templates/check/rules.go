package check

import (
	"routwright/templates/key"
	"routwright/templates/limit"
)

// rules is the registry. A threshold that solving needs too stands in
// package limit; the others stand here and nowhere else. The values are common
// practice of the trade.
var rules = []Rule{
	{ID: "wood-left", Find: woodLeft,
		Tests: "The simulated cut leaves no wood deeper than 0.02 mm that no declared hand work removes, and takes none that should stay."},
	{ID: "follower-passes", Limits: Limits{Stop: 0.2, Warn: 0.5}, Find: followerPasses,
		Tests: "The follower passes every neck of the template, and the cutter every neck of the recess, with room to spare."},
	{ID: "key-inside-recess", Axes: key.RecessID, Limits: Limits{Stop: 0}, Find: keyInside,
		Tests: "The key as cut lies inside the recess as cut."},
	{ID: "glue-gap", Axes: key.RecessID, Fixed: "it bounds the gap from both sides", Limits: Limits{Warn: limit.GapLeast}, Find: glueGap,
		Tests: "The gap between key and recess lies between 0.03 and 0.15 mm a side all round."},
	{ID: "border-even", Over: true, Limits: Limits{Warn: 0.1}, Find: borderEven,
		Tests: "A border keeps its thickness all round the key, within 0.1 mm."},
	{ID: "border-bends", Unit: "thicknesses", Limits: Limits{Warn: key.BendDry}, Find: borderBends,
		Tests: "A bent border strip is not bent tighter than veneer bears: 25 thicknesses dry, 8 over heat."},
	{ID: "inlay-collar", Over: true, Limits: Limits{Stop: 0.05}, Find: inlayCollar,
		Tests: "The collar of an inlay set makes the gap that is asked for: collar = bush + 2 bits − 2 gaps, within 0.05 mm."},
	{ID: "template-web", Safety: breaks, Limits: Limits{Stop: 6, Warn: 10}, Find: templateWeb,
		Tests: "The template keeps a web of wood round its opening and its pins."},
	{ID: "key-waist", Limits: limit.MaleWaist, Find: maleWaist,
		Tests: "The male template of the key keeps a waist that does not break."},
	{ID: "passes", Safety: leads, Find: passes,
		Tests: "Every pass has something for the follower to run on: the template, or a wall that is deep enough."},
	{ID: "bit-reach", Safety: shank, Find: bitReach,
		Tests: "Cutter and shank reach through the template to the full depth of the cut, no shank rubs on the wall, and the router plunges as deep."},
	{ID: "bush-reach", Safety: leads, Find: bushReach,
		Tests: "A guide bush stands out less than the template is thick, so that the base lies on the template."},
	{ID: "first-bite", Safety: bite, Find: firstBite,
		Tests: "The first bite is no more than half the bit's diameter; more than the diameter stops, unless the waste is drilled out first."},
	{ID: "base-clear", Safety: tips, Limits: Limits{Stop: 0}, Find: baseClear,
		Tests: "No pin, screw or clamp stands out of a template where the router's base passes."},
	{ID: "base-carried", Over: true, Unit: "share of the base", Limits: Limits{Warn: limit.BaseOverhang}, Find: baseCarried,
		Tests: "Nowhere on its path does more than 40 % of the router's base hang over the edge of the template; the limit is a share of its area."},
	{ID: "key-on-crack", Over: true, Limits: Limits{Warn: 1}, Find: keyOnCrack,
		Tests: "The middle of a key's waist lies on the crack; the crack never leaves the middle third of the waist."},
	{ID: "key-square", Over: true, Unit: "degrees", Limits: Limits{Warn: 20}, Find: keySquare,
		Tests: "A key's axis stands square to the crack, within 20 degrees."},
	{ID: "key-to-key", Limits: limit.KeyToKey, Find: keyToKey,
		Tests: "Two keys keep wood between them."},
	{ID: "tip-covered", Over: true, Limits: Limits{Warn: limit.TipToKey}, Find: tipCovered,
		Tests: "A true tip of a crack has a key near it."},
	{ID: "key-placed", Find: keyPlaced,
		Tests: "Of every key that the program placed it is said why it stands there."},
	{ID: "crack-bare", Find: crackBare,
		Tests: "Every stretch of a crack has a key within half a key's length, or it is said what stands in the way."},
	{ID: "key-length", Over: true, Limits: Limits{Warn: 75}, Find: keyLength,
		Tests: "A key is no longer than 75 mm: several short ones move less than a long one."},
	{ID: "wood-movement", Over: true, Limits: Limits{Warn: 0.8}, Find: woodMovement,
		Tests: "Key and slab, whose grain is crossed, move no more than 0.8 mm apart over the season."},
	{ID: "key-to-void", Limits: limit.KeyToVoid, Find: keyToVoid,
		Tests: "A key keeps wood between itself and a void on the same face."},
	{ID: "key-over-void", Limits: limit.KeyOverVoid, Find: keyOverVoid,
		Tests: "Wood is left between a key and a void under it on the other face."},
	{ID: "key-under-contour", Limits: limit.KeyInContour, Find: keyUnderContour,
		Tests: "Enough of a key's depth stays where a contour takes wood of it."},
	{ID: "key-behind-key", Limits: limit.KeyOverKey, Find: keyBehindKey,
		Tests: "Where keys of both faces lie over each other, wood is left between them."},
	{ID: "key-met", Find: keyMet,
		Tests: "A cavity that is cut later takes wood of a glued key only where the design lets it."},
	{ID: "key-in-outline", Limits: limit.KeyInOutline, Find: keyInOutline,
		Tests: "A key stays inside the finished outline."},
	{ID: "void-to-void", Limits: limit.VoidToVoid, Find: voidToVoid,
		Tests: "Two voids that do not belong together keep wood between them."},
	{ID: "void-to-outline", Limits: limit.VoidToOutline, Find: voidToOutline,
		Tests: "A void keeps a wall to the finished outline."},
	{ID: "web-between-faces", Limits: limit.BetweenFaces, Find: webBetween,
		Tests: "Where a void from the front lies over one from the back, wood is left between them."},
	{ID: "floor", Limits: limit.Floor, Find: floorOrSeat,
		Tests: "Wood is left under every void."},
	{ID: "edge", Find: edgeTreated,
		Tests: "Rounding the edge takes no more than half of a wall, and neither it nor a contour takes the face from under what rests on it."},
	{ID: "edge-reach", Limits: Limits{Note: 0.02}, Find: edgeReach,
		Tests: "The bearing of the edge bit follows the outline everywhere."},
	{ID: "cover-seat", Limits: limit.CoverLedge, Find: coverSeat,
		Tests: "A cover covers its cavity and rests on a ledge all round."},
	{ID: "cover-corner", Find: coverCorner,
		Tests: "The corners of a cover are as round as its rebate: of a radius no less than the rebate's less the gap."},
	{ID: "thread-length", Limits: Limits{Stop: limit.ThreadOver}, Find: threadLength,
		Tests: "The thread of a control stands out of the wood by 3 mm or more, for washer and nut."},
	{ID: "controls-apart", Limits: limit.ControlsApart, Find: controlsApart,
		Tests: "The bodies of two controls, and their knobs, keep air between them."},
	{ID: "control-inside", Limits: limit.ControlInside, Find: controlInside,
		Tests: "The body of a control lies inside its cavity, with room to be put in."},
	{ID: "control-under-cover", Limits: limit.ControlUnder, Find: controlUnder,
		Tests: "A control whose depth is given has room for its wires under the cover."},
	{ID: "screw-wood", Limits: limit.ScrewWood, Find: screwWood,
		Tests: "A screw of a cover holds in wood that is thick enough."},
	{ID: "screw-tip", Limits: limit.ScrewTip, Find: screwTip,
		Tests: "The tip of a cover's screw stays in the wood."},
	{ID: "screw-to-key", Limits: limit.ScrewToKey, Find: screwToKey,
		Tests: "A screw of a cover keeps away from the line of a key, where it would split the joint."},
	{ID: "string-to-edge", Limits: Limits{Stop: 2, Warn: 2.5}, Find: stringToEdge,
		Tests: "The outer strings keep away from the edges of the board at every fret."},
	{ID: "fret-places", Over: true, Fixed: "a slot off its place is a fault of the program", Limits: Limits{Stop: slotSlack}, Find: fretPlaces,
		Tests: "Every fret slot lies at its place, recomputed another way, and the datum is stated."},
	{ID: "scale-ruler", Find: scaleRuler,
		Tests: "The printed rulers were measured before fret and bridge sheets are used."},
}

const slotSlack = 0.02 // mm, fret-places

// Why a safety stop cannot be allowed.
const (
	leads  = "a router that nothing leads throws the work"
	shank  = "a bit drawn out of its collet to reach deeper flies off"
	bite   = "a bite deeper than the bit is wide grabs the work and snaps the bit"
	breaks = "a template that breaks under the router lets it run into the hand"
	tips   = "a base that runs on to a pin or a clamp tips the router"
)
