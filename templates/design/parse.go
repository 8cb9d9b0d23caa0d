package design

import (
	"bytes"
	"fmt"
	"reflect"
	"strings"
	"unicode/utf8"

	"routwright/templates/design/toml"
)

// MaxFile is the size in bytes of the largest design file that is read: a
// hundred times what any design needs, so that a wrong file is told at once.
const MaxFile = 4 << 20

// Parse reads a design file. name is what errors call it. The error is Errors:
// everything that is wrong with the file, sorted by place. Numbers are in the
// file's units wherever that key stands. Nothing is solved and no default is
// put in: what the file does not say stays Missing.
func Parse(name string, src []byte) (*Design, error) {
	if e := unreadable(src); e != nil {
		e.Pos.File = name
		return nil, Errors{*e}
	}
	tree, faults := toml.Parse(src)
	d := &decoder{file: name, unit: unitOf(tree), names: map[string]map[string]seenName{}}
	for _, f := range faults {
		d.errs.Add(Errorf(d.pos(f.At), f.Key, f.Given, f.Allowed, f.Cure))
	}
	out := &Design{}
	d.table(reflect.ValueOf(out).Elem(), rootSpec(), tree, "")
	d.references()
	d.outlines(out.Body)
	if err := d.errs.Err(); err != nil {
		return nil, err
	}
	return out, nil
}

// unreadable returns what is wrong with a file that is no text of TOML at all.
func unreadable(src []byte) *Error {
	const starter = "routwright new FILE writes a starter to begin with"
	at := func(off int) Pos {
		line := bytes.Count(src[:off], []byte("\n")) + 1
		return Pos{Line: line, Col: utf8.RuneCount(src[bytes.LastIndexByte(src[:off], '\n')+1:off]) + 1}
	}
	switch {
	case len(src) > MaxFile:
		return &Error{Given: fmt.Sprintf("a file of more than %d MB", MaxFile>>20), Allowed: fmt.Sprintf("a design file of at most %d MB", MaxFile>>20), Cure: "give the name of the design file"}
	case len(bytes.TrimSpace(src)) == 0:
		return &Error{Given: "an empty file", Allowed: "a design file", Cure: starter}
	case bytes.HasPrefix(src, []byte("\xff\xfe")) || bytes.HasPrefix(src, []byte("\xfe\xff")):
		return &Error{Given: "a text in UTF-16", Allowed: "a text in UTF-8", Cure: "save the file as UTF-8 in your editor"}
	}
	if i := bytes.IndexByte(src, 0); i >= 0 {
		return &Error{Pos: at(i), Given: "a binary file", Allowed: "a design file, which is plain text", Cure: "give the name of the design file; " + starter}
	}
	if !utf8.Valid(src) {
		i := 0
		for {
			r, n := utf8.DecodeRune(src[i:])
			if r == utf8.RuneError && n == 1 {
				break
			}
			i += n
		}
		return &Error{Pos: at(i), Given: fmt.Sprintf("the byte %#x, which is no letter in UTF-8", src[i]), Allowed: "a text in UTF-8", Cure: "save the file as UTF-8 in your editor"}
	}
	return nil
}

// unitOf returns the file's unit. A wrong one is told when its key is decoded.
func unitOf(t *toml.Table) string {
	if e := t.Get("units"); e != nil && e.Value.Kind == toml.String && e.Value.Text == Inch {
		return Inch
	}
	return Millimetre
}

// decoder fills a Design from the tree of a file.
type decoder struct {
	file  string
	unit  string // of plain numbers
	errs  Errors
	names map[string]map[string]seenName // by kind, then by folded name
	refs  []reference
}

func (d *decoder) pos(p toml.Pos) Pos { return Pos{d.file, p.Line, p.Col} }

func (d *decoder) fail(at toml.Pos, key, given, allowed, cure string) bool {
	d.errs.Add(Errorf(d.pos(at), key, given, allowed, cure))
	return false
}

// enough is how many errors are collected: a person is shown fewer.
const enough = 4 * maxShown

// full reports that there are errors enough: reading further would tell nobody
// anything, and a file of nothing but errors would take long.
func (d *decoder) full() bool { return len(d.errs) >= enough }

// under joins a table's name and a key.
func under(table, key string) string {
	if table == "" {
		return key
	}
	return table + "." + key
}

// table decodes the keys of a table into a struct.
func (d *decoder) table(dst reflect.Value, s *spec, t *toml.Table, name string) {
	if at := dst.FieldByName("Table"); at.IsValid() {
		at.Set(reflect.ValueOf(Table{At: d.pos(t.At), Present: true}))
	}
	for _, e := range t.Entries {
		if d.full() {
			return
		}
		f, ok := s.byKey[e.Key]
		if !ok {
			d.unknown(s, e, name)
			continue
		}
		if e.Value.Kind != toml.Broken {
			d.entry(dst.Field(f.index), f, e, under(name, f.key))
		}
	}
	for _, f := range s.fields {
		if f.need && t.Get(f.key) == nil {
			value := "…"
			if len(f.words) > 0 {
				value = f.words[0]
			}
			d.fail(t.At, under(name, f.key), "nothing", f.allowed(d.unit), fmt.Sprintf("add %s = %s (%s)", f.key, value, f.doc))
		}
	}
}

// entry decodes one key.
func (d *decoder) entry(dst reflect.Value, f *field, e *toml.Entry, key string) {
	v := e.Value
	switch f.form {
	case formTable:
		if b := f.sub.bare; b != nil && v.Kind != toml.Inline {
			dst.FieldByName("Table").Set(reflect.ValueOf(Table{At: d.pos(v.At), Present: true}))
			d.val(dst.Field(b.index), b, v, key)
			return
		}
		if v.Kind != toml.Inline {
			cure := fmt.Sprintf("write [%s] and its keys below", key)
			d.fail(v.At, key, describe(v), f.allowed(d.unit), cure)
			return
		}
		d.table(dst, f.sub, v.Table, key)
	case formTables:
		d.tables(dst, f, v, key)
	case formMeasures:
		d.measures(dst, f, v, key)
	default:
		d.val(dst, f, v, key)
	}
}

// mostTables is how many [[tables]] of one name a design may hold: far more than
// a guitar has keys.
const mostTables = 500

// tables decodes [[key]], or a list of {…}.
func (d *decoder) tables(dst reflect.Value, f *field, v *toml.Value, key string) {
	items := v.Items
	switch v.Kind {
	case toml.Inline: // read on, to tell what is wrong inside as well
		d.fail(v.At, key, "a single table", f.allowed(d.unit), "write [["+key+"]] with double brackets")
		items = []*toml.Value{v}
	case toml.Array, toml.Tables:
	default:
		d.fail(v.At, key, describe(v), f.allowed(d.unit), "write [["+key+"]] and its keys below")
		return
	}
	if len(items) > mostTables {
		d.fail(v.At, key, fmt.Sprintf("%d tables", len(items)), fmt.Sprintf("at most %d", mostTables), "keep what one guitar needs")
		items = items[:mostTables]
	}
	for i, item := range items {
		k := fmt.Sprintf("%s %d", key, i+1)
		if d.full() {
			return
		}
		if item.Kind == toml.Broken {
			continue
		}
		if item.Kind != toml.Inline {
			d.fail(item.At, k, describe(item), "a table {…}", "write [["+key+"]] and its keys below")
			continue
		}
		one := reflect.New(f.typ).Elem()
		d.table(one, f.sub, item.Table, k)
		dst.Set(reflect.Append(dst, one))
	}
}

// measures decodes a table of named lengths. Which names there are depends on
// the family: its builder checks them.
func (d *decoder) measures(dst reflect.Value, f *field, v *toml.Value, key string) {
	if v.Kind != toml.Inline {
		d.fail(v.At, key, describe(v), f.allowed(d.unit), "write "+f.key+" = {lower = 325}, or ["+key+"] and its keys below")
		return
	}
	m := map[string]Val[Length]{}
	for _, e := range v.Table.Entries {
		var one Val[Length]
		if e.Value.Kind != toml.Broken {
			d.val(reflect.ValueOf(&one).Elem(), f, e.Value, under(key, toml.ShowKey(e.Key)))
		}
		if one.Set() {
			m[e.Key] = one
		}
	}
	dst.Set(reflect.ValueOf(m))
}

// val decodes a Val: its value, place and origin.
func (d *decoder) val(dst reflect.Value, f *field, v *toml.Value, key string) {
	got := reflect.New(f.typ).Elem()
	if !d.value(got, f, v, key) {
		return
	}
	dst.FieldByName("V").Set(got)
	dst.FieldByName("At").Set(reflect.ValueOf(d.pos(v.At)))
	dst.FieldByName("How").Set(reflect.ValueOf(Given))
}

// unknown reports a key that its table does not have: with the nearest one, or
// with the table that it belongs to.
func (d *decoder) unknown(s *spec, e *toml.Entry, name string) {
	cure := "delete the line"
	if near := suggest(e.Key, s.keys()); near != "" {
		cure = fmt.Sprintf("did you mean %q?", near)
	} else if _, ok := rootSpec().byKey[e.Key]; ok && name != "" {
		cure = "it belongs at the top of the file, above the first [header]"
		if f := rootSpec().byKey[e.Key]; f.form != formValue {
			cure = fmt.Sprintf("it belongs at the top level: [%s]", f.key)
		}
	} else if homes := homesOf(e.Key, rootSpec(), ""); len(homes) > 0 {
		cure = "it belongs in " + listWords(homes)
	}
	where := "at the top of the file"
	if name != "" {
		where = "in [" + name + "]"
	}
	d.fail(e.At, under(name, toml.ShowKey(e.Key)), "an unknown key", where+": "+strings.Join(s.keys(), ", "), cure)
}

// homesOf returns the headers of the tables that have a key.
func homesOf(key string, s *spec, name string) []string {
	var homes []string
	for _, f := range s.fields {
		if f.sub == nil {
			continue
		}
		full := under(name, f.key)
		if _, ok := f.sub.byKey[key]; ok {
			if f.form == formTables {
				homes = append(homes, "[["+full+"]]")
			} else {
				homes = append(homes, "["+full+"]")
			}
		}
		homes = append(homes, homesOf(key, f.sub, full)...)
	}
	return homes
}
