// Package dxf writes drawings as DXF files, in millimetres.
//
// R2000 (AC1015) states its units and keeps arcs; R12 (AC1009) is for old
// programs. Every outline is one polyline, closed where the outline is, with arcs
// as bulges tan(sweep/4); no splines, no duplicates, no segment under 0.0001 mm.
// Source of the format: the DXF reference that the format's owner publishes.
package dxf
