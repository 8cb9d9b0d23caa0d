// Package verify checks the files of this program in other people's programs:
// SVG and PDF rendered at 600 dpi and measured, DXF read and audited, XML and PDF
// structure validated, the book opened in a browser and printed by it. It holds
// tests only, behind the build tag verify, since they need those programs
// (testdata/verify/install.sh) and minutes:
//
//	make verify            sheets made here, the demo set, and every design's book
//	make verify SET=DIR    sheets made here, the set in DIR, and every design's book
//
// Each check prints one line with its figure.
//
// How it measures: along many lines of a sheet, the middle of the ink across the
// line is compared with where the line should be. Half a line's width, the edge
// of the paper and the rounding of the page to whole pixels do not enter; the
// figure is the difference between the largest and the smallest error of one
// direction on a page, which is what a steel rule laid between any two lines of
// that page would show at worst.
package verify
