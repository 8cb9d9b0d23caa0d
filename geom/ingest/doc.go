// Package ingest reads outlines that people drew and returns them as geom paths
// of lines and circular arcs, in millimetres, +Y up.
//
//	read       Read (by the file's ending), SVG, DXF, CSV → Result
//	choose     Outline: the one closed outline of a Result, or what is wrong
//	ruler      HalfWidths: rows y, bass, treble from a ruler
//
// Lines and circular arcs stay what they are. Other curves (Béziers, ellipses,
// splines, circles that a transform stretched) become arcs within
// geom.CurveToArc. What was assumed, joined or left out is a note of the
// Result; what cannot be read for certain is an error that says where.
//
// The formats: W3C Scalable Vector Graphics 1.1 (second edition) and 2, with CSS
// lengths (96 px to the inch); ASCII DXF from R12 on, by the DXF Reference's
// group codes; comma-separated values (RFC 4180) and its usual cousins.
package ingest
