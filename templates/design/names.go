package design

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"routwright/render"
	"routwright/templates/design/toml"
)

// seenName is a name with its place.
type seenName struct {
	name string
	at   toml.Pos
}

// reference is a text that names something of the file.
type reference struct {
	kind, name, key string
	at              toml.Pos
}

// outlineFiles are the endings of files that an outline is read from.
var outlineFiles = []string{".svg", ".dxf", ".csv"}

// The longest texts that a sheet and a file name have room for, in letters.
const (
	longestName  = 40
	longestLabel = 80
)

// text decodes a text and holds it to the field's rule.
func (d *decoder) text(f *field, v *toml.Value, key string) (string, bool) {
	if v.Kind != toml.String {
		return "", d.wrong(f, reflect.TypeFor[string](), v, key)
	}
	s := v.Text
	if len(f.words) > 0 && !slices.Contains(f.words, s) {
		cure := cureFor(s, f.words, "use one of these words")
		return "", d.fail(v.At, key, toml.Quote(s), f.each(reflect.TypeFor[string](), d.unit), cure)
	}
	if len(f.words) == 0 {
		if allowed, cure := f.refuses(s); cure != "" {
			return "", d.fail(v.At, key, toml.Quote(s), allowed, cure)
		}
	}
	if f.unique != "" && !d.once(f, v, key) {
		return "", false
	}
	if f.ref != "" {
		d.refs = append(d.refs, reference{f.ref, s, key, v.At})
	}
	return s, true
}

// refuses returns what is allowed and the cure for a text that the field's rule
// forbids, or an empty cure. Names become file names: they keep clear of what a
// path is made of. Everything printed is one line of visible letters, in any
// script.
func (f *field) refuses(s string) (allowed, cure string) {
	most := longestLabel
	if f.text == "name" {
		most = longestName
	}
	switch {
	case strings.TrimSpace(s) == "":
		return "a text that is not empty", "write a name, or delete the line"
	case s != strings.TrimSpace(s):
		return "no blanks before or after", "delete the blanks"
	case strings.ContainsFunc(s, invisible):
		return "visible letters, figures, signs and blanks on one line", "delete the control characters"
	case utf8.RuneCountInString(s) > most:
		return fmt.Sprintf("at most %d letters", most), "use a shorter one"
	case f.text == "paper" && !knownPaper(s):
		return f.each(reflect.TypeFor[string](), Millimetre), cureFor(s, paperNames(), "use a paper that a ruler fits on")
	case f.text == "name" && strings.ContainsAny(s, `/\`):
		return `a name without / and \, since files are named after it`, "use a blank or - instead"
	case f.text == "name" && strings.Contains(s, ".."):
		return "a name without .., since files are named after it", "use one dot or none"
	case f.text == "file" && (strings.HasPrefix(s, "/") || strings.ContainsAny(s, `\:`) || slices.Contains(strings.Split(s, "/"), "..")):
		return "a file beside the design file", "copy the file beside the design and give its name alone"
	case f.text == "file" && !slices.ContainsFunc(outlineFiles, func(e string) bool { return strings.HasSuffix(strings.ToLower(s), e) }):
		return f.each(reflect.TypeFor[string](), Millimetre), "save the outline in one of these formats"
	}
	return "", ""
}

func knownPaper(s string) bool {
	_, err := render.ParsePaper(s)
	return err == nil
}

// paperNames returns the names of the papers that are known.
func paperNames() []string {
	var names []string
	for _, p := range render.Papers() {
		names = append(names, p.Name)
	}
	return names
}

// invisible reports what must not be printed: control and formatting characters,
// line separators, and what is no character.
func invisible(r rune) bool {
	return r == utf8.RuneError || unicode.In(r, unicode.Cc, unicode.Cf, unicode.Zl, unicode.Zp, unicode.Co, unicode.Cs)
}

// once reports a name that another one of its kind has. Names that differ only
// in case count as the same: nobody could tell their sheets apart.
func (d *decoder) once(f *field, v *toml.Value, key string) bool {
	kind := d.names[f.unique]
	if kind == nil {
		kind = map[string]seenName{}
		d.names[f.unique] = kind
	}
	folded := strings.ToLower(v.Text)
	if old, ok := kind[folded]; ok {
		return d.fail(v.At, key, fmt.Sprintf("%s, which is also on line %d", toml.Quote(v.Text), old.at.Line), "each name once", "give it another name")
	}
	kind[folded] = seenName{v.Text, v.At}
	return true
}

// references reports texts that name what is not in the file.
func (d *decoder) references() {
	for _, r := range d.refs {
		if d.full() {
			return
		}
		var known []string
		for _, n := range d.names[r.kind] {
			known = append(known, n.name)
		}
		if slices.Contains(known, r.name) {
			continue
		}
		slices.Sort(known)
		const shown = 20
		allowed := "the name of a [[" + r.kind + "]] of this file: " + listWords(quoted(known[:min(len(known), shown)]))
		if len(known) > shown {
			allowed += fmt.Sprintf(" and %d more", len(known)-shown)
		}
		if len(known) == 0 {
			allowed = "the name of a [[" + r.kind + "]]; this file has none"
		}
		d.fail(r.at, r.key, toml.Quote(r.name), allowed, cureFor(r.name, known, "add a [["+r.kind+"]] of this name, or name one that is there"))
	}
}

// outlines reports a body whose outline is given in more than one way.
func (d *decoder) outlines(b Body) {
	type way struct {
		key string
		at  Pos
	}
	var ways []way
	add := func(key string, at Pos, given bool) {
		if given {
			ways = append(ways, way{key, at})
		}
	}
	family, at := "family", b.Family.At
	if !b.Family.Set() {
		family = "measures"
		for _, m := range b.Measures {
			if at.IsZero() || m.At.before(at) {
				at = m.At
			}
		}
	}
	add(family, at, !at.IsZero())
	add("file", b.File.At, b.File.Set())
	add("half_widths", b.HalfWidths.At, b.HalfWidths.Set())
	slices.SortFunc(ways, func(a, b way) int {
		if a.at.before(b.at) {
			return -1
		}
		return 1
	})
	for i, w := range ways {
		if i > 0 {
			d.errs.Add(Errorf(w.at, "body."+w.key, fmt.Sprintf("a second outline; body.%s on line %d gives one already", ways[0].key, ways[0].at.Line),
				"one of body.family with its measures, body.file, body.half_widths", "delete all but one"))
		}
	}
}
