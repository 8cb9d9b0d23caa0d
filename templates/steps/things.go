package steps

import "routwright/templates/part"

// What steps need, make and take away.
const (
	measured    Thing = "true measures"
	templates   Thing = "the templates"
	trueFront   Thing = "a true front"
	squareEdges Thing = "two square edges"
	roughLines  Thing = "the lines on the rough faces"
	roughStock  Thing = "the stock still to be planed off"
	sound       Thing = "a sound crack"
	recesses    Thing = "the key recesses"
	looseKeys   Thing = "the keys as cut"
	gluedKeys   Thing = "the keys glued in"
	pins        Thing = "the locating pins"
	flatFront   Thing = "the flat front"
	flatBack    Thing = "the flat back"
	lines       Thing = "the lines on the finished faces"
	waste       Thing = "the waste round the outline"
	sawn        Thing = "the outline sawn"
	squareEdge  Thing = "the square edge of the body"
	plugSeat    Thing = "a cavity for the plug of the outline template"
	heel        Thing = "the shaped heel"
	pocket      Thing = "the neck pocket"
	fitted      Thing = "the neck fitted dry"
	bridgePlace Thing = "the bridge placed from the fitted neck"
	voids       Thing = "the cavities"
	channels    Thing = "the wire channels"
	jackHole    Thing = "the jack hole"
	shaped      Thing = "the shaped body"
	neckDone    Thing = "the finished neck"
	neckOn      Thing = "the neck in its place"
	finish      Thing = "the finish, dry"
	fittings    Thing = "the hardware and the wiring"
)

// seat is a face before the plate over its chambers is glued on.
func seat(f part.Face) Thing { return Thing("the " + f.String() + " before its plate") }

// inside is the wood within a rebate, which carries the router while the narrow
// ledge is cut.
func inside(group string) Thing { return Thing("the wood inside the rebate of " + group) }
