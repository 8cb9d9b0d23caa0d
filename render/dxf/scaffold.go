package dxf

import "routwright/render"

// ltypeBody writes the pattern of a line type: dashes positive, gaps negative.
func (f *file) ltypeBody(words string, dash []float64, subclass bool) {
	var sum float64
	for _, d := range dash {
		sum += d
	}
	f.put(70, 0, 3, words, 72, 65, 73, len(dash), 40, sum)
	for i, d := range dash {
		if i%2 == 1 {
			d = -d
		}
		f.put(49, d)
		if subclass {
			f.put(74, 0)
		}
	}
}

// colour of a layer: 7 is black on white and white on black.
const colour = 7

// r12 writes a whole R12 file: no units, no unknown header variables.
func (f *file) r12() {
	f.put(0, "SECTION", 2, "HEADER", 9, "$ACADVER", 1, "AC1009")
	f.extents()
	f.put(0, "ENDSEC", 0, "SECTION", 2, "TABLES")
	f.put(0, "TABLE", 2, "LTYPE", 70, len(dashed())+1)
	f.put(0, "LTYPE", 2, "CONTINUOUS")
	f.ltypeBody("Solid line", nil, false)
	for _, k := range dashed() {
		f.put(0, "LTYPE", 2, ltypeName(k))
		f.ltypeBody(k.Style().Words, k.Style().Dash, false)
	}
	f.put(0, "ENDTAB", 0, "TABLE", 2, "LAYER", 70, len(f.layers)+1)
	f.put(0, "LAYER", 2, "0", 70, 0, 62, colour, 6, "CONTINUOUS")
	for _, l := range f.layers {
		f.put(0, "LAYER", 2, l.name, 70, 0, 62, colour, 6, ltypeName(l.kind))
	}
	f.put(0, "ENDTAB", 0, "TABLE", 2, "STYLE", 70, 1)
	f.put(0, "STYLE", 2, "STANDARD", 70, 0, 40, 0.0, 41, 1.0, 50, 0.0, 71, 0, 42, 2.5, 3, "txt", 4, "")
	f.put(0, "ENDTAB", 0, "ENDSEC", 0, "SECTION", 2, "BLOCKS", 0, "ENDSEC", 0, "SECTION", 2, "ENTITIES")
	f.r12Entities()
	f.put(0, "ENDSEC", 0, "EOF")
}

func (f *file) extents() {
	b := f.bounds
	f.put(9, "$EXTMIN", 10, b.Min.X, 20, b.Min.Y, 30, 0.0, 9, "$EXTMAX", 10, b.Max.X, 20, b.Max.Y, 30, 0.0)
}

// Handles of the objects that others point to. The rest is numbered from
// firstFree on.
const (
	hBlockRecords handle = 0x1 + iota
	hModel
	hPaper
	hLayers
	hLtypes
	hStyles
	hViewports
	hViews
	hUcs
	hAppids
	hDimstyles
	hRoot
	hGroups
	hPlotStyles
	hPlotNormal
	hLayouts
	hModelLayout
	hPaperLayout
	hByLayer
	firstFree = 0x40
)

// r2000 writes a whole R2000 file. Desktop programs refuse an incomplete
// scaffold, so every table, the two spaces and their layouts are there.
func (f *file) r2000() {
	f.handle = firstFree
	f.put(0, "SECTION", 2, "HEADER", 9, "$ACADVER", 1, "AC1015", 9, "$DWGCODEPAGE", 3, "ANSI_1252",
		9, "$INSUNITS", 70, 4, 9, "$MEASUREMENT", 70, 1, 9, "$LUNITS", 70, 2, 9, "$LTSCALE", 40, 1.0)
	f.extents()
	// More handles than lines and words can need.
	f.put(9, "$HANDSEED", 5, handle(firstFree+len(f.outlines)+len(f.texts)+len(f.layers)+100))
	f.put(0, "ENDSEC", 0, "SECTION", 2, "CLASSES", 0, "ENDSEC")
	f.tables()
	f.blocks()
	f.put(0, "SECTION", 2, "ENTITIES")
	f.r2000Entities(hModel)
	f.put(0, "ENDSEC")
	f.objects()
	f.put(0, "EOF")
}

func (f *file) table(name string, h handle, n int) {
	f.put(0, "TABLE", 2, name, 5, h, 330, "0", 100, "AcDbSymbolTable", 70, n)
}

func (f *file) record(kind string, table handle, h handle, class string, name string) {
	code := 5
	if kind == "DIMSTYLE" {
		code = 105
	}
	f.put(0, kind, code, h, 330, table, 100, "AcDbSymbolTableRecord", 100, class, 2, name)
}

func (f *file) tables() {
	f.put(0, "SECTION", 2, "TABLES")
	f.table("VPORT", hViewports, 1)
	f.record("VPORT", hViewports, f.next(), "AcDbViewportTableRecord", "*ACTIVE")
	b := f.bounds
	c := b.Center()
	f.put(70, 0, 10, 0.0, 20, 0.0, 11, 1.0, 21, 1.0, 12, c.X, 22, c.Y, 13, 0.0, 23, 0.0, 14, 10.0, 24, 10.0,
		15, 10.0, 25, 10.0, 16, 0.0, 26, 0.0, 36, 1.0, 17, 0.0, 27, 0.0, 37, 0.0, 40, b.H()*1.1+1, 41, 1.4, 42, 50.0,
		43, 0.0, 44, 0.0, 50, 0.0, 51, 0.0, 71, 0, 72, 1000, 73, 1, 74, 3, 75, 0, 76, 0, 77, 0, 78, 0)
	f.put(0, "ENDTAB")
	f.ltypes()
	f.table("LAYER", hLayers, len(f.layers)+1)
	f.layerRecord("0", render.Frame)
	for _, l := range f.layers {
		f.layerRecord(l.name, l.kind)
	}
	f.put(0, "ENDTAB")
	f.table("STYLE", hStyles, 1)
	f.record("STYLE", hStyles, f.next(), "AcDbTextStyleTableRecord", "STANDARD")
	f.put(70, 0, 40, 0.0, 41, 1.0, 50, 0.0, 71, 0, 42, 2.5, 3, "txt", 4, "", 0, "ENDTAB")
	f.table("VIEW", hViews, 0)
	f.put(0, "ENDTAB")
	f.table("UCS", hUcs, 0)
	f.put(0, "ENDTAB")
	f.table("APPID", hAppids, 1)
	f.record("APPID", hAppids, f.next(), "AcDbRegAppTableRecord", "ACAD")
	f.put(70, 0, 0, "ENDTAB")
	f.table("DIMSTYLE", hDimstyles, 1)
	f.put(100, "AcDbDimStyleTable")
	f.record("DIMSTYLE", hDimstyles, f.next(), "AcDbDimStyleTableRecord", "STANDARD")
	f.put(70, 0, 0, "ENDTAB")
	f.table("BLOCK_RECORD", hBlockRecords, 2)
	f.record("BLOCK_RECORD", hBlockRecords, hModel, "AcDbBlockTableRecord", "*Model_Space")
	f.put(340, hModelLayout)
	f.record("BLOCK_RECORD", hBlockRecords, hPaper, "AcDbBlockTableRecord", "*Paper_Space")
	f.put(340, hPaperLayout)
	f.put(0, "ENDTAB", 0, "ENDSEC")
}

func (f *file) ltypes() {
	f.table("LTYPE", hLtypes, len(dashed())+3)
	for _, n := range [3]string{"ByBlock", "ByLayer", "CONTINUOUS"} {
		h := f.next()
		if n == "ByLayer" {
			h = hByLayer
		}
		f.record("LTYPE", hLtypes, h, "AcDbLinetypeTableRecord", n)
		f.ltypeBody("", nil, true)
	}
	for _, k := range dashed() {
		f.record("LTYPE", hLtypes, f.next(), "AcDbLinetypeTableRecord", ltypeName(k))
		f.ltypeBody(k.Style().Words, k.Style().Dash, true)
	}
	f.put(0, "ENDTAB")
}

func (f *file) layerRecord(name string, k render.Kind) {
	f.record("LAYER", hLayers, f.next(), "AcDbLayerTableRecord", name)
	f.put(70, 0, 62, colour, 6, ltypeName(k), 370, weight(k), 390, hPlotNormal)
}

func (f *file) blocks() {
	f.put(0, "SECTION", 2, "BLOCKS")
	for _, s := range [2]struct {
		record handle
		name   string
		paper  bool
	}{{hModel, "*Model_Space", false}, {hPaper, "*Paper_Space", true}} {
		entity := func(kind, class string) {
			f.put(0, kind, 5, f.next(), 330, s.record, 100, "AcDbEntity")
			if s.paper {
				f.put(67, 1)
			}
			f.put(8, "0", 100, class)
		}
		entity("BLOCK", "AcDbBlockBegin")
		f.put(2, s.name, 70, 0, 10, 0.0, 20, 0.0, 30, 0.0, 3, s.name, 1, "")
		entity("ENDBLK", "AcDbBlockEnd")
	}
	f.put(0, "ENDSEC")
}

func (f *file) objects() {
	f.put(0, "SECTION", 2, "OBJECTS")
	f.put(0, "DICTIONARY", 5, hRoot, 330, "0", 100, "AcDbDictionary", 281, 1,
		3, "ACAD_GROUP", 350, hGroups, 3, "ACAD_LAYOUT", 350, hLayouts, 3, "ACAD_PLOTSTYLENAME", 350, hPlotStyles)
	f.put(0, "DICTIONARY", 5, hGroups, 330, hRoot, 100, "AcDbDictionary", 281, 1)
	f.put(0, "ACDBDICTIONARYWDFLT", 5, hPlotStyles, 330, hRoot, 100, "AcDbDictionary", 281, 1,
		3, "Normal", 350, hPlotNormal, 100, "AcDbDictionaryWithDefault", 340, hPlotNormal)
	f.put(0, "ACDBPLACEHOLDER", 5, hPlotNormal, 330, hPlotStyles)
	f.put(0, "DICTIONARY", 5, hLayouts, 330, hRoot, 100, "AcDbDictionary", 281, 1,
		3, "Model", 350, hModelLayout, 3, "Layout1", 350, hPaperLayout)
	f.layout(hModelLayout, "Model", 1024, 0, hModel)
	f.layout(hPaperLayout, "Layout1", 0, 1, hPaper)
	f.put(0, "ENDSEC")
}

// layout writes one of the two layouts; flag 1024 marks the model's.
func (f *file) layout(h handle, name string, flag, order int, record handle) {
	f.put(0, "LAYOUT", 5, h, 330, hLayouts, 100, "AcDbPlotSettings", 1, "", 4, "", 6, "",
		40, 0.0, 41, 0.0, 42, 0.0, 43, 0.0, 44, 0.0, 45, 0.0, 46, 0.0, 47, 0.0, 48, 0.0, 49, 0.0,
		140, 0.0, 141, 0.0, 142, 1.0, 143, 1.0, 70, flag, 72, 1, 73, 0, 74, 5, 7, "", 75, 16, 147, 1.0, 148, 0.0, 149, 0.0)
	f.put(100, "AcDbLayout", 1, name, 70, 1, 71, order, 10, 0.0, 20, 0.0, 11, 420.0, 21, 297.0, 12, 0.0, 22, 0.0, 32, 0.0,
		14, 0.0, 24, 0.0, 34, 0.0, 15, 0.0, 25, 0.0, 35, 0.0, 146, 0.0, 13, 0.0, 23, 0.0, 33, 0.0,
		16, 1.0, 26, 0.0, 36, 0.0, 17, 0.0, 27, 1.0, 37, 0.0, 76, 0, 330, record)
}
