package render

import (
	"errors"
	"fmt"
	"math"

	"routwright/geom"
)

// TileOptions say how a drawing is cut into pages. The zero value is ready.
type TileOptions struct {
	MarginMM  float64 // edge that the printer leaves white; 0 means 10, None means 0
	OverlapMM float64 // shared by neighbouring pages; 0 means 15, None means 0

	// Measured is what two lengths of an uncorrected print measured, across and
	// up; Nominal is what they should have measured. A zero in Nominal means 100,
	// a zero in Measured that it is true. All pages come out multiplied by
	// Nominal/Measured.
	Measured, Nominal geom.Vec

	NoCover  bool // no first page
	OneBare  bool // no first page where it would be one, with one page of the drawing
	NoRulers bool // no strips for rulers: for a plotter that is known to be true
}

// None stands for a margin or an overlap of 0.
const None = -1

// Defaults and limits of a page, mm. Margins of printers run from 3.4 to 6.4,
// some ends 12 to 13 (common practice); glue wants about 15.
const (
	defaultMargin  = 10.0
	defaultOverlap = 15.0
	nominalRuler   = 100.0
	// MaxCorrection is the largest correction that a printer's own error
	// explains; more is a page scaled to fit, which must be switched off.
	MaxCorrection = 0.05
	// stripWide is kept free along the left and the lower edge of the window:
	// seam words, the ruler, one line of words.
	stripWide = 16.0
)

// pageSetup is a paper with everything that Tile must know of it, in nominal
// millimetres, that is before the correction.
type pageSetup struct {
	paper   Paper
	w, h    float64 // paper as it lies, true mm
	factor  geom.Vec
	overlap float64
	win     geom.Box // window, nominal, page coordinates
	edge    geom.Box // printable area, nominal
	rulers  bool
}

// Tile cuts d into pages of paper: a first page that says how to print, measure
// and join them, then the pages of the drawing, row by row. Of both ways to lay
// the paper it takes the one with fewer pages. Seams lie where they cross the
// least: pockets, slots and words are kept whole where that costs no page. Pages
// with nothing on them are left out. The same drawing gives the same pages.
//
// Errors: margins, overlap and rulers that leave no room on the page, a drawing
// wider than the roll, a correction over 5 %.
func Tile(d Drawing, paper Paper, opt TileOptions) ([]Page, error) {
	if d.Bounds.Empty() || !(d.Bounds.W() > 0 && d.Bounds.H() > 0) {
		return nil, fmt.Errorf("sheet %q: there is nothing to print", d.ID)
	}
	setups, err := setups(d, paper, opt)
	if err != nil {
		return nil, fmt.Errorf("sheet %q on %s: %w", d.ID, paper.Name, err)
	}
	if n := fewest(d, setups); n > mostPages {
		return nil, fmt.Errorf("sheet %q: %s × %s mm on %s takes %d pages, at most %d are possible: take larger paper", d.ID, number(d.Bounds.W()), number(d.Bounds.H()), paper.Name, n, mostPages)
	}
	across, up := profiles(d)
	var best *plan
	for _, s := range setups {
		p := s.plan(d, across, up)
		if best == nil || p.better(best) {
			best = p
		}
	}
	best.fill()
	var pages []Page
	cells := best.cells()
	if !opt.NoCover {
		pages = append(pages, best.covers()...)
	}
	if opt.OneBare && len(pages) == 1 && len(cells) == 1 {
		pages = nil
	}
	for _, c := range cells {
		pages = append(pages, best.page(c))
	}
	return pages, nil
}

// mostPages is more than anybody glues; a sheet that takes more has a wrong unit.
const mostPages = 600

func fewest(d Drawing, setups []pageSetup) int {
	n := math.MaxInt
	for _, s := range setups {
		n = min(n, count(d.Bounds.W(), s.win.W(), s.overlap)*count(d.Bounds.H(), s.win.H(), s.overlap))
	}
	return n
}

// setups returns the ways to lay the paper that can hold a part of the drawing.
func setups(d Drawing, paper Paper, opt TileOptions) ([]pageSetup, error) {
	margin, err := option(opt.MarginMM, defaultMargin, "margin")
	if err != nil {
		return nil, err
	}
	overlap, err := option(opt.OverlapMM, defaultOverlap, "overlap")
	if err != nil {
		return nil, err
	}
	f, err := correction(opt.Nominal, opt.Measured)
	if err != nil {
		return nil, err
	}
	base := pageSetup{paper: paper, factor: f, overlap: overlap, rulers: !opt.NoRulers}
	if paper.Roll() {
		s, err := base.onRoll(d, margin)
		return []pageSetup{s}, err
	}
	var out []pageSetup
	var first error
	for _, turn := range [2]bool{false, true} {
		s := base
		s.w, s.h = paper.W, paper.H
		if turn {
			s.w, s.h = paper.H, paper.W
		}
		if err := s.fit(margin); err != nil {
			if first == nil {
				first = err
			}
			continue
		}
		out = append(out, s)
	}
	if len(out) == 0 {
		return nil, first
	}
	return out, nil
}

func option(v, def float64, name string) (float64, error) {
	switch {
	case v == 0:
		return def, nil
	case v == None:
		return 0, nil
	case !(v > 0) || math.IsInf(v, 0):
		return 0, fmt.Errorf("%s: %v mm is given; 0 mm or more is allowed", name, v)
	}
	return v, nil
}

// correction returns nominal / measured for each axis.
func correction(nominal, measured geom.Vec) (geom.Vec, error) {
	one := func(n, m float64, axis string) (float64, error) {
		if n == 0 {
			n = nominalRuler
		}
		if m == 0 {
			return 1, nil
		}
		f := n / m
		if !(math.Abs(f-1) <= MaxCorrection) {
			return 0, fmt.Errorf("correction %s: %v mm measured %v mm, more than %.0f %% off: that is a page scaled to fit; set the printer to 100 %% (no fitting), print again without a correction, and measure", axis, n, m, 100*MaxCorrection)
		}
		return f, nil
	}
	x, errX := one(nominal.X, measured.X, "across")
	y, errY := one(nominal.Y, measured.Y, "up")
	return geom.Vec{X: x, Y: y}, errors.Join(errX, errY)
}

// fit works out the window, or why there is none.
func (s *pageSetup) fit(margin float64) error {
	w, h := s.w/s.factor.X, s.h/s.factor.Y
	mx, my := margin/s.factor.X, margin/s.factor.Y
	s.edge = geom.BoxOf(geom.Pt(mx, my), geom.Pt(max(w-mx, mx), max(h-my, my)))
	strip := 0.0
	if s.rulers {
		strip = stripWide
	}
	least := s.overlap + 20 // a page must bring some drawing of its own
	if s.edge.W()-strip < least || s.edge.H()-strip < least {
		return fmt.Errorf("a page of %s × %s mm with margins of %s mm, %s mm for rulers and an overlap of %s mm leaves no room: take smaller margins, a smaller overlap or larger paper",
			number(s.w), number(s.h), number(margin), number(strip), number(s.overlap))
	}
	s.win = geom.BoxOf(geom.Pt(s.edge.Min.X+strip, s.edge.Min.Y+strip), s.edge.Max)
	return nil
}

// onRoll lays the drawing on a roll in one piece, its shorter side across.
func (s pageSetup) onRoll(d Drawing, margin float64) (pageSetup, error) {
	strip := 0.0
	if s.rulers {
		strip = stripWide
	}
	w, h := d.Bounds.W(), d.Bounds.H()
	for _, turn := range [2]bool{false, true} {
		if !turn {
			s.w, s.h = s.paper.W, math.Ceil((h+strip)*s.factor.Y+2*margin)
			if (w+strip)*s.factor.X+2*margin <= s.paper.W {
				return s, s.fit(margin)
			}
			continue
		}
		s.h, s.w = s.paper.W, math.Ceil((w+strip)*s.factor.X+2*margin)
		if (h+strip)*s.factor.Y+2*margin <= s.paper.W {
			return s, s.fit(margin)
		}
	}
	return s, fmt.Errorf("the sheet is %s × %s mm; with margins of %s mm and the rulers it is too wide for a roll of %s mm: take a wider roll or pages",
		number(w), number(h), number(margin), number(s.paper.W))
}
