// Package render is the drawing office: what is on a sheet, in millimetres,
// and how a sheet is cut into pages. It knows no guitars and no file formats.
//
//	Sheet    what one sheet shows, in the coordinates of the work
//	Layout   sets dimensions, labels, hatching, frame and title block
//	Drawing  the result: lines and texts with fixed places, +Y up
//	Tile     cuts a Drawing into Pages for a Paper
//
// The packages below it (svg, dxf, pdf) each write one format to an io.Writer.
package render
