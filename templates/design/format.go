package design

import (
	"math"
	"strconv"
)

// Decimals of lengths in millimetres, by where they are printed. (The formats of
// SVG, DXF and PDF keep their own, in their packages.)
const (
	PaperDecimals = 2
	TableDecimals = 5
)

// MM prints a length for paper: two decimals, trailing zeros dropped, no unit.
func MM(v float64) string {
	p := math.Pow10(PaperDecimals)
	v = math.Round(v*p) / p
	if v == 0 {
		v = 0 // no "-0"
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}
