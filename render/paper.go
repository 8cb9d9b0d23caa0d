package render

import (
	"fmt"
	"strconv"
	"strings"
)

// Paper is a sheet of paper or a roll, in portrait: W across, H up, in mm.
// H is 0 for a roll, whose length is as needed.
type Paper struct {
	Name string // as the user names it, "A4"; also fit for a file name
	W, H float64
}

// Roll reports whether p has no fixed length.
func (p Paper) Roll() bool { return p.H == 0 }

const inch = 25.4 // mm, exactly (international yard and pound agreement, 1959)

// papers lists the sizes known by name. A: ISO 216. Letter (ANSI A), Tabloid
// (ANSI B), C, D, E: ASME Y14.1. Legal: trade size in the United States. Rolls:
// the two usual widths of wide-format paper, 24 in and 36 in rounded (common
// practice).
var papers = []Paper{
	{"A4", 210, 297}, {"A3", 297, 420}, {"A2", 420, 594}, {"A1", 594, 841}, {"A0", 841, 1189},
	{"Letter", 8.5 * inch, 11 * inch}, {"Legal", 8.5 * inch, 14 * inch}, {"Tabloid", 11 * inch, 17 * inch},
	{"ANSI-C", 17 * inch, 22 * inch}, {"ANSI-D", 22 * inch, 34 * inch}, {"ANSI-E", 34 * inch, 44 * inch},
	{"roll-610", 610, 0}, {"roll-914", 914, 0},
}

// Papers returns the sizes known by name, smallest of each family first.
func Papers() []Paper { return append([]Paper(nil), papers...) }

// Least and largest side of a custom page, mm: smaller holds no ruler worth
// measuring; 5080 mm is the largest page that all PDF viewers show (PDF 1.7,
// annex C: 14,400 units of 1/72 in).
const (
	leastSide   = 90
	largestSide = 5080
)

// ParsePaper reads a paper's name ("A4", "letter", "ANSI C", "roll 610") or a
// size of your own ("300 x 450 mm", "11 x 15 in"; the shorter side becomes W).
func ParsePaper(s string) (Paper, error) {
	k := paperKey(s)
	for _, p := range papers {
		if paperKey(p.Name) == k || strings.TrimPrefix(paperKey(p.Name), "ansi") == k {
			return p, nil
		}
	}
	w, h, ok := parseSize(s)
	if !ok {
		return Paper{}, fmt.Errorf("paper %q is not known: use one of %s, or a size such as \"300 x 450 mm\"", s, paperNames())
	}
	if w > h {
		w, h = h, w
	}
	if !(w >= leastSide && h <= largestSide) {
		return Paper{}, fmt.Errorf("paper %q: sides are %.4g and %.4g mm; from %d to %d mm are possible", s, w, h, leastSide, largestSide)
	}
	return Paper{Name: number(w) + "x" + number(h), W: w, H: h}, nil
}

// paperKey is a name as compared: small letters and digits only.
func paperKey(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == ' ' || r == '-' || r == '_':
			return -1
		case r >= 'A' && r <= 'Z':
			return r + 'a' - 'A'
		}
		return r
	}, s)
}

func paperNames() string {
	var n []string
	for _, p := range papers {
		n = append(n, p.Name)
	}
	return strings.Join(n, ", ")
}

// parseSize reads "300 x 450 mm", "300x450" or "11 × 17 in" as mm.
func parseSize(s string) (w, h float64, ok bool) {
	s = strings.ToLower(strings.TrimSpace(s))
	unit := 1.0
	switch {
	case strings.HasSuffix(s, "mm"):
		s = strings.TrimSuffix(s, "mm")
	case strings.HasSuffix(s, "in"):
		s, unit = strings.TrimSuffix(s, "in"), inch
	}
	f := strings.Split(strings.ReplaceAll(s, "×", "x"), "x")
	if len(f) != 2 {
		return 0, 0, false
	}
	w, err1 := strconv.ParseFloat(strings.TrimSpace(f[0]), 64)
	h, err2 := strconv.ParseFloat(strings.TrimSpace(f[1]), 64)
	return w * unit, h * unit, err1 == nil && err2 == nil
}

// number writes v with at most two decimals and no trailing zeros.
func number(v float64) string {
	s := strings.TrimRight(strings.TrimRight(strconv.FormatFloat(v, 'f', 2, 64), "0"), ".")
	if s == "-0" {
		return "0"
	}
	return s
}
