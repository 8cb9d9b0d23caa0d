package toml

// Kind is what a value is.
type Kind uint8

const (
	Broken Kind = iota // could not be read; an error was reported
	String
	Integer
	Float
	Bool
	Date // any of the four kinds of date and time
	Array
	Inline    // a table
	Tables    // an array of tables, by [[header]]
	kindCount // number of kinds
)

// String returns the kind in words, with its article.
func (k Kind) String() string {
	return [kindCount]string{"something unreadable", "a text", "a whole number", "a number",
		"true or false", "a date or time", "a list", "a table", "a list of tables"}[k]
}

// Value is one value of the file.
type Value struct {
	Kind  Kind
	At    Pos
	Raw   string  // as written, whole; empty for arrays and tables
	Text  string  // of a String
	Int   int64   // of an Integer
	Float float64 // of an Integer or a Float; may be NaN or infinite
	Bool  bool
	Items []*Value // of an Array or Tables
	Table *Table   // of an Inline
}

// Entry is one key with its value.
type Entry struct {
	Key   string
	At    Pos // of the key
	Value *Value
}

// Table is a table in the order of the file.
type Table struct {
	At      Pos // of its header, brace or first key
	Entries []*Entry
	index   map[string]*Entry

	defined bool // by a header of its own
	frozen  bool // an inline table: nothing may be added
	section int  // the header section in which dotted keys made it; 0 for none
}

// Get returns the entry of a key, or nil.
func (t *Table) Get(key string) *Entry {
	if t == nil {
		return nil
	}
	return t.index[key]
}

// add appends an entry whose key is not there yet.
func (t *Table) add(key string, at Pos, v *Value) *Entry {
	if t.index == nil {
		t.index = map[string]*Entry{}
	}
	e := &Entry{key, at, v}
	t.index[key] = e
	t.Entries = append(t.Entries, e)
	return e
}

// Shown returns a number, date or boolean as written, cut for a message.
func (v *Value) Shown() string {
	if len(v.Raw) > longestShown {
		return v.Raw[:longestShown] + "…"
	}
	return v.Raw
}
