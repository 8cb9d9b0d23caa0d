// Package fretboard lays out fretboards: where every slot lies, the board's
// outline, tables, markers, and the sheet that a saw follows. Pure: it reads no
// files and knows no design file.
//
//	pitch      Temperament: Equal, Ratios, Cents, ReadTuning
//	board      Spec → New → Board: StringLines, Slots, Outline, Edge
//	depth      Radius: cylinder or cone; Board.Depths lists the sagittas
//	tables     Board.Rows, WriteCSV, WriteText, WriteJSON; Sixtyfourth
//	markers    Board.Markers
//	checks     Board.EdgeGaps (string to edge), Board.SlotErrors (slot to formula)
//	drawing    Sheet (the board), TableSheet (the table, to read at the saw)
//	jigs       Board.NewIndex, IndexSheet (slotting strip or carrier), RadiusSheet
//
// Coordinates, in millimetres, seen from the front: the origin is where the
// centre line meets the bridge line, +Y runs to the nut, the bass side is −X.
// One scale is measured on the centre line. A fan's two scales are measured
// along the outer strings, and its origin is where the centre line meets the
// line through the outer saddle points.
//
//	      nut
//	 ┌─────┬─────┐  y = scale
//	 │     │     │
//	 ├─────┼─────┤  slot n: y = scale / ratio(n)
//	 │     │     │
//	/      │      \
//	└──────┴──────┘  the board's end, past the last slot by the overhang
//	       ·
//	bass   + origin   treble
package fretboard
