package render

// Document is a text with drawings, in order: a book to read on a screen or to
// print. The formats decide how it looks; it says what things are.
type Document struct {
	Title    string
	Lead     string // one sentence under the title
	Sections []Section
}

// Section is a heading with what belongs under it.
type Section struct {
	ID       string // anchor: a–z, 0–9, -, unique in the document
	Title    string
	NewPage  bool // starts a page in print
	Blocks   []Block
	Sections []Section
}

// Block is one piece of a section: Para, List, Facts, Table, Figure or Caution.
type Block interface{ block() }

// Para is a paragraph.
type Para string

// List is a list of short texts.
type List struct {
	Items   []string
	Ordered bool // numbered
	Tick    bool // with a box to tick; wins over Ordered
}

// Facts are names with their values, one a line.
type Facts []Field

// Table is rows of words under a head.
type Table struct {
	Caption string
	Head    []string
	Rows    [][]string
	// Number says which columns hold numbers, set flush right; it may be shorter
	// than Head.
	Number []bool
	Tick   bool // with a box to tick before each row
	// To is, for each row, the id of the section that its first cell leads to, or
	// ""; it may be shorter than Rows.
	To []string
}

// Figure is a picture: a drawing, or pixels.
type Figure struct {
	Alt     string // what it shows, for one who cannot see it
	Caption string
	Drawing *Drawing
	PNG     []byte // when Drawing is nil
	// WidthMM is how wide it is printed at most; 0: as wide as it is, or as the
	// page allows. Pixels have no size of their own: 0 is the page's width.
	WidthMM float64
}

// Caution is a warning that must not be passed over.
type Caution struct {
	Word string // "Stop", "Caution", "Note"
	Text string
}

func (Para) block()    {}
func (List) block()    {}
func (Facts) block()   {}
func (Table) block()   {}
func (Figure) block()  {}
func (Caution) block() {}

// Walk calls f for every section of the document with its depth, 1 at the top,
// in reading order.
func (d Document) Walk(f func(s Section, depth int)) { walk(d.Sections, 1, f) }

func walk(ss []Section, depth int, f func(Section, int)) {
	for _, s := range ss {
		f(s, depth)
		walk(s.Sections, depth+1, f)
	}
}
