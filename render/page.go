package render

import "routwright/geom"

// Page is one page of paper, ready to be written. All places are in millimetres
// from the lower left corner of the paper, +Y up, before calibration.
//
// A writer draws, inside one outermost matrix diag(Factor.X, Factor.Y) about the
// lower left corner of the paper:
//
//	Tile       clipped to Window
//	Furniture  not clipped: rulers, seams, crosses, words
type Page struct {
	ID    string // file name without ending: "tail-pickup-b3"
	Name  string // "B3"; "cover" for the first page
	Title string // for a bookmark: "Template: tail pickup cavity, page B3 of A1–C4"

	W, H float64 // of the paper, mm

	// Factor corrects a printer that does not print true: nominal / measured,
	// across and up; {1, 1} changes nothing. It scales lines, rulers and words
	// alike, never the paper.
	Factor geom.Vec

	Window    geom.Box // the part of the paper that shows the drawing; empty on a cover
	Tile      []Group  // the drawing's lines and words, moved to their place
	Furniture []Group
	Pictures  []Picture // pixels, under the furniture
}

// Picture is pixels on a page.
type Picture struct {
	At  geom.Box
	PNG []byte
	Alt string
}
