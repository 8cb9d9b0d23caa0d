package job

// Values assumed where the design file is silent. Each is common practice of
// the trade unless a line says otherwise, and each that is used is listed for
// the builder to confirm.
const (
	defaultThickness = 46.5 // rough slab, mm
	defaultTail      = 110  // bridge line to tail end, mm
	defaultScale     = 648  // mm; common practice
	defaultFrets     = 22
	defaultOctave    = 12 // equal steps
	defaultStrings   = 6

	defaultNutWidth = 43   // mm
	defaultEndWidth = 56   // mm
	defaultOverhang = 10   // mm past the last fret
	defaultKerf     = 0.58 // mm, 0.56–0.60
	defaultSquare   = 7.0  // the fret of a fan that is square to the centre line

	defaultBehindZero = 6.0 // mm, zero fret to the nut, 4–9

	defaultBoard      = 6.0 // thickness of the fretboard, mm
	defaultFretHeight = 1.1 // of the crown of the wire
	defaultAction     = 1.7 // at the twelfth fret
	defaultNutAction  = 0.4 // over the first fret's height

	defaultKeyLength = 60.0
	defaultKeyEnds   = 26.0
	defaultKeyWaist  = 13.0
	defaultKeyGap    = 0.08 // a side; PVA glue 0.05–0.10
	defaultGlueLine  = 0.05 // on each face of a border strip

	defaultRoom   = 0.75 // round a pickup, 0.5–1
	defaultRebate = 6.0  // width of the ledge for a cover, 5–6
	// coverRecess is how much deeper the rebate is than the cover is thick.
	coverRecess    = 0.1
	defaultCover   = 2.5 // thickness, 2–3
	defaultLidGap  = 0.3 // round a cover, 0.25–0.4
	defaultBackFor = 6.0 // wood left under a back cavity
	defaultCorner  = 8.0 // corner of a back cavity

	defaultEdgeBearing = 12.7 // of a roundover bit, 9.5–12.7
	defaultEdgeHeight  = 5.0  // of its bearing

	defaultSheet  = 18.0 // template thickness
	defaultInside = 3.0  // smallest inside radius: a sawn and filed template
	defaultPin    = 8.0
	defaultBase   = 150.0 // diameter of a router's base
	// defaultScrewHead stands for the head of a screw or the foot of a clamp, mm
	// across.
	defaultScrewHead = 12.0
	blankMargin      = 45.0 // slab beyond the outline on every side, for the pins
	webMargin        = 40.0 // template sheet round its opening
)

// pickupSize is what a pickup of a kind measures: common practice, to be
// measured on the pickup in hand.
type pickupSize struct {
	length, width, corner, depth float64
}

var pickupSizes = map[string]pickupSize{
	"humbucker":   {71, 40, 4.8, 19},   // 71 × 40, depth 18–20
	"single-coil": {72, 21, 4.8, 18},   // 70–75 × 20–22, depth 16–19
	"soapbar":     {87, 35.5, 4.8, 18}, // 86–88 × 35–36, depth 17–19
}

// saddleHeights are the least and greatest heights of the saddles' tops over the
// front, by kind of bridge, mm. Common practice; measure the bridge in hand.
var saddleHeights = map[string][2]float64{
	"fixed":      {10, 15},
	"two-post":   {15, 23},
	"wraparound": {13, 20},
}
