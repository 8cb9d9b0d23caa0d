// Package pdf writes pages and whole drawings as PDF, true to size: straight
// lines, arcs as Bézier curves within 0.0001 mm, embedded fonts, bookmarks, and a
// word to viewers not to scale.
//
//	Tiled  pages of paper, a bookmark a sheet and one a page
//	Whole  a page a drawing, as large as the drawing
//
// The file itself is written by a library of which no more is used than pages,
// fonts and bookmarks; its name does not leave this package.
package pdf
