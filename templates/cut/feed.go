package cut

// Sense says which way round the router goes, seen from above, held by hand: against
// the turning of the bit. Round a male template the outside, else the inside.
func (t Template) Sense() string {
	if t.Male {
		return "anticlockwise round the outside"
	}
	return "clockwise round the inside"
}

// Feed says which way the router is led against the turning of the bit. A router
// that is held by hand goes clockwise inside and anticlockwise outside, seen from
// above; on a table it reverses. byHand says that parts are trimmed on their outside
// with the router held by hand.
func (t Template) Feed(byHand bool) string {
	switch {
	case t.Free():
		return t.Sense() + ", as the arrow shows, against the turn of the cutter: no climb cut"
	case t.Male && !byHand:
		return "on a router table the bit goes clockwise round the part, seen from above (held by hand: anticlockwise); never a climb cut"
	}
	return t.Sense() + ", seen from above; never a climb cut"
}
