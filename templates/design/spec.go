package design

import (
	"fmt"
	"reflect"
	"strconv"
	"strings"
	"sync"

	"routwright/geom"
	physics "routwright/templates/strings"
)

// The struct tags of Design are the one table of the file's keys. This file
// reads them; decoding, the schema and the reference all work from the result.

// form is what a key holds.
type form uint8

const (
	formValue    form = iota // Val[T]
	formTable                // a struct with a Table
	formTables               // a slice of such structs, [[key]]
	formMeasures             // a map of names to Val[Length]
)

// field is one key of a table.
type field struct {
	key    string
	doc    string
	form   form
	index  int          // of the struct's field
	typ    reflect.Type // T of Val[T]; of the struct for tables
	sub    *spec        // keys of a table
	need   bool         // the file must give it
	words  []string     // the only ones allowed
	bound  *bound       // nil where any number will do
	text   string       // rule for a text: "name", "label" or "file"; "" for words
	unique string       // names of this kind appear once
	ref    string       // the text names one of this kind
	least  int          // values in a list
	most   int
	single bool   // one value alone stands for a list of one
	or     string // what else the key takes, in words: the table that the value stands for
}

// bound is a range with both ends allowed. A length's is in mm.
type bound struct {
	lo, hi float64
	length bool
}

// spec is the keys of one table, in the order of the struct.
type spec struct {
	fields []*field
	byKey  map[string]*field
	bare   *field // the value that may stand in place of the table
}

// keys returns the names of the keys.
func (s *spec) keys() []string {
	out := make([]string, len(s.fields))
	for i, f := range s.fields {
		out[i] = f.key
	}
	return out
}

// farthest bounds lengths and coordinates that have no range of their own: far
// more than any instrument measures.
const farthest = 3000 // mm

// rootSpec is the spec of Design. It is built once; a wrong tag panics there,
// in the first test of the package.
var rootSpec = sync.OnceValue(func() *spec { return specOf(reflect.TypeFor[Design]()) })

var (
	tableType  = reflect.TypeFor[Table]()
	lengthType = reflect.TypeFor[Length]()
	angleType  = reflect.TypeFor[Degrees]()
	pitchType  = reflect.TypeFor[Pitch]()
	ratioType  = reflect.TypeFor[Ratio]()
	pointType  = reflect.TypeFor[geom.Point]()
)

func specOf(t reflect.Type) *spec {
	s := &spec{byKey: map[string]*field{}}
	for i := range t.NumField() {
		sf := t.Field(i)
		if sf.Type == tableType {
			continue
		}
		f := fieldOf(sf)
		f.index = i
		if sf.Tag.Get("bare") == "true" { // with a key it may stand in the table as well
			b := *f
			s.bare = &b
		}
		if f.key == "" {
			continue
		}
		s.fields = append(s.fields, f)
		s.byKey[f.key] = f
	}
	if s.bare != nil {
		s.bare.or = "or a table {" + strings.Join(s.keys(), ", ") + "}"
	}
	return s
}

// fieldOf reads the type and the tags of one struct field.
func fieldOf(sf reflect.StructField) *field {
	tag := sf.Tag
	f := &field{
		key: tag.Get("toml"), doc: tag.Get("doc"), need: tag.Get("need") == "true",
		single: tag.Get("single") == "true", text: tag.Get("text"), unique: tag.Get("unique"), ref: tag.Get("ref"), most: 10_000,
	}
	switch t := sf.Type; {
	case t.Kind() == reflect.Map:
		f.form, f.typ = formMeasures, lengthType
	case t.Kind() == reflect.Slice:
		f.form, f.typ, f.sub = formTables, t.Elem(), specOf(t.Elem())
	case isVal(t):
		f.typ = t.Field(0).Type
	default:
		f.form, f.typ, f.sub = formTable, t, specOf(t)
	}
	if w := tag.Get("oneof"); w != "" {
		f.words = strings.Split(w, ",")
	}
	f.bound = boundOf(tag.Get("range"), leaf(f.typ))
	if items := tag.Get("items"); items != "" {
		if _, err := fmt.Sscanf(items, "%d,%d", &f.least, &f.most); err != nil {
			panic("design: items tag of " + sf.Name + ": " + err.Error())
		}
	}
	if bare := tag.Get("bare") == "true"; f.key == "" && !bare || f.form == formValue && f.doc == "" {
		panic("design: field " + sf.Name + " needs its toml and doc tags")
	}
	return f
}

// isVal reports whether t is a Val.
func isVal(t reflect.Type) bool {
	return t.Kind() == reflect.Struct && t.NumField() == 3 && t.Field(0).Name == "V" && t.Field(2).Name == "How"
}

// leaf returns the type of the numbers or texts inside lists.
func leaf(t reflect.Type) reflect.Type {
	if t == pointType {
		return lengthType
	}
	for t.Kind() == reflect.Slice || t.Kind() == reflect.Array {
		return leaf(t.Elem())
	}
	return t
}

// boundOf reads a range tag: two lengths with units, or two plain numbers.
func boundOf(tag string, t reflect.Type) *bound {
	length := t == lengthType
	if tag == "" {
		if length {
			return &bound{-farthest, farthest, true}
		}
		return nil
	}
	b := &bound{length: length}
	lo, hi, _ := strings.Cut(tag, ",")
	for i, s := range []string{lo, hi} {
		var v float64
		var err error
		if length {
			var l Length
			l, err = ParseLength(s, "none") // a unit must stand in the tag
			v = float64(l)
		} else {
			v, err = strconv.ParseFloat(s, 64)
		}
		if err != nil {
			panic("design: range tag " + tag + ": " + err.Error())
		}
		if i == 0 {
			b.lo = v
		} else {
			b.hi = v
		}
	}
	return b
}

// String prints the range in a unit of the file.
func (b *bound) in(unit string) string {
	if !b.length {
		return fmt.Sprintf("from %s to %s", plainNumber(b.lo), plainNumber(b.hi))
	}
	lo, hi := boundIn(Length(b.lo), unit, true), boundIn(Length(b.hi), unit, false)
	return fmt.Sprintf("from %s to %s", strings.TrimSuffix(lo, " "+unit), hi)
}

func plainNumber(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// allowed says in words what the field takes, for messages and the reference.
func (f *field) allowed(unit string) string {
	switch f.form {
	case formTable:
		if b := f.sub.bare; b != nil {
			return b.allowed(unit)
		}
		return "a table: [" + f.key + "] or {…}"
	case formTables:
		return "tables under [[" + f.key + "]]"
	case formMeasures:
		return "a table of lengths"
	}
	return f.of(f.typ, unit)
}

// of says what a value of type t inside the field takes.
func (f *field) of(t reflect.Type, unit string) string {
	s := f.ofOne(t, unit)
	if f.or != "" && t == f.typ {
		s += ", " + f.or
	}
	return s
}

func (f *field) ofOne(t reflect.Type, unit string) string {
	one := f.each(leaf(t), unit)
	switch {
	case f.single && t == f.typ:
		return fmt.Sprintf("%s, or a list of up to %d", one, f.most)
	case t == pointType:
		return "a point [x, y] of lengths " + f.bound.in(unit)
	case t.Kind() == reflect.Array:
		return fmt.Sprintf("a list of %d: each %s", t.Len(), one)
	case t.Kind() == reflect.Slice && t.Elem() == pointType:
		return "a list of" + f.count() + " points [x, y]"
	case t.Kind() == reflect.Slice && t.Elem().Kind() == reflect.Array:
		return fmt.Sprintf("a list of%s rows of %d: each %s", f.count(), t.Elem().Len(), one)
	case t.Kind() == reflect.Slice:
		return "a list" + strings.TrimSuffix(" of"+f.count(), " of") + ": each " + one
	}
	return one
}

// count says how many values a list takes.
func (f *field) count() string {
	if f.least == 0 {
		return ""
	}
	return fmt.Sprintf(" %d or more", f.least)
}

// each says what a single number or text takes.
func (f *field) each(t reflect.Type, unit string) string {
	if len(f.words) > 0 {
		if t.Kind() == reflect.String {
			return listWords(quoted(f.words))
		}
		return listWords(f.words)
	}
	what := map[string]string{"name": "a name in quotes", "label": "a text in quotes", "file": "a file name in quotes, ending in " + listWords(outlineFiles)}[f.text]
	switch {
	case f.text == "paper":
		return strings.Join(quoted(paperNames()), ", ") + ` or a size such as "300 x 450 mm"`
	case f.ref != "":
		return "the name of a [[" + f.ref + "]]"
	case what != "":
		return what
	case t == lengthType:
		what = "a length"
	case t == ratioType:
		return ratioExamples
	case t == pitchType:
		return fmt.Sprintf("%s from %g to %g", pitchExamples, physics.LowestPitch, physics.HighestPitch)
	case t.Kind() == reflect.Int:
		what = "a whole number"
	case t.Kind() == reflect.Bool:
		return "true or false"
	case t.Kind() == reflect.String:
		return "a text in quotes"
	case t == angleType:
		what = "degrees"
	default:
		what = "a number"
	}
	if f.bound != nil {
		what += " " + f.bound.in(unit)
	}
	return what
}

func quoted(words []string) []string {
	out := make([]string, len(words))
	for i, w := range words {
		out[i] = strconv.Quote(w)
	}
	return out
}
