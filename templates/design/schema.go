package design

import (
	"bytes"
	"encoding/json"
	"reflect"
	"strings"

	physics "routwright/templates/strings"
)

// Schema returns a JSON Schema of the design file for editors, indented, ending
// in a newline. It is draft 4 (json-schema.org/draft-04), the newest that common
// TOML plug-ins read. A schema knows no units: ranges of lengths stand in the
// descriptions, since a number's range depends on the file's units.
func Schema() ([]byte, error) {
	root := object(rootSpec())
	doc := pairs{
		{"$schema", "http://json-schema.org/draft-04/schema#"},
		{"title", "routwright design file"},
		{"description", "A solid-body electric guitar: see routwright new FILE."},
	}
	doc = append(doc, root...)
	doc = append(doc, pair{"definitions", pairs{
		{"length", pairs{
			{"description", "a number in the file's units, or a text with its own unit: " + lengthExamples},
			{"anyOf", []any{pairs{{"type", "number"}}, pairs{{"type", "string"}, {"pattern", schemaLength}}}},
		}},
	}})
	raw, err := json.Marshal(doc)
	if err != nil {
		return nil, err
	}
	var b bytes.Buffer
	if err := json.Indent(&b, raw, "", "  "); err != nil {
		return nil, err
	}
	b.WriteByte('\n')
	return b.Bytes(), nil
}

// schemaLength is how an editor knows a length in quotes: a looser form of what
// ParseLength takes.
const schemaLength = `^\s*[-+−–]?\s*[0-9½¼¾⅛⅜⅝⅞⅓⅔][-0-9.\s/⁄½¼¾⅛⅜⅝⅞⅓⅔]*([mM][mM]|[cC][mM]|[iI][nN]([cC][hH]([eE][sS])?)?|[tT][hH][oO][uU]|"|″|”|'')?\s*\.?$`

// schemaPitch is how an editor knows a pitch in quotes.
const schemaPitch = `^\s*([A-Ga-g][#♯b♭]?[0-9]|[0-9.]+(\s*[hH][zZ])?)\s*$`

// schemaRatio is how an editor knows an interval in quotes.
const schemaRatio = `^\s*[0-9.]+(\s*[/:]\s*[0-9.]+)?\s*$`

// pair is one member of a JSON object; pairs keep their order.
type pair struct {
	key   string
	value any
}

type pairs []pair

// MarshalJSON writes the members in order.
func (p pairs) MarshalJSON() ([]byte, error) {
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	b.WriteByte('{')
	for i, m := range p {
		if i > 0 {
			b.WriteByte(',')
		}
		if err := enc.Encode(m.key); err != nil {
			return nil, err
		}
		b.WriteByte(':')
		if err := enc.Encode(m.value); err != nil {
			return nil, err
		}
	}
	b.WriteByte('}')
	return b.Bytes(), nil
}

// object returns the schema of a table.
func object(s *spec) pairs {
	var props pairs
	var need []string
	for _, f := range s.fields {
		props = append(props, pair{f.key, f.schema()})
		if f.need {
			need = append(need, f.key)
		}
	}
	out := pairs{{"type", "object"}, {"properties", props}, {"additionalProperties", false}}
	if len(need) > 0 { // draft 4 forbids an empty list
		out = append(out, pair{"required", need})
	}
	return out
}

// schema returns the schema of one key.
func (f *field) schema() pairs {
	var out pairs
	doc := f.doc
	if f.sub != nil && f.sub.bare != nil {
		doc = f.sub.bare.doc
	}
	if doc != "" {
		out = append(out, pair{"description", doc + ": " + f.allowed(Millimetre)})
	}
	switch f.form {
	case formTable:
		if b := f.sub.bare; b != nil {
			return append(out, pair{"anyOf", []any{b.schemaOf(b.typ), object(f.sub)}})
		}
		return append(out, object(f.sub)...)
	case formTables:
		return append(out, pair{"type", "array"}, pair{"items", object(f.sub)})
	case formMeasures:
		return append(out, pair{"type", "object"}, pair{"additionalProperties", lengthRef()})
	}
	return append(out, f.schemaOf(f.typ)...)
}

func lengthRef() pairs { return pairs{{"$ref", "#/definitions/length"}} }

// schemaOf returns the schema of a value of type t inside the field.
func (f *field) schemaOf(t reflect.Type) pairs {
	switch {
	case t == pointType:
		return listSchema(lengthRef(), 2, 2)
	case t.Kind() == reflect.Array:
		return listSchema(f.schemaOf(t.Elem()), t.Len(), t.Len())
	case t.Kind() == reflect.Slice && (f.single || t.Elem().Kind() == reflect.String):
		one := f.schemaOf(t.Elem())
		return pairs{{"anyOf", []any{one, listSchema(one, f.least, f.most)}}}
	case t.Kind() == reflect.Slice:
		return listSchema(f.schemaOf(t.Elem()), f.least, f.most)
	case t == ratioType:
		return pairs{{"anyOf", []any{
			pairs{{"type", "number"}, {"minimum", 1}, {"maximum", 2}},
			pairs{{"type", "string"}, {"pattern", schemaRatio}},
		}}}
	case t == pitchType:
		return pairs{{"anyOf", []any{
			pairs{{"type", "number"}, {"minimum", physics.LowestPitch}, {"maximum", physics.HighestPitch}},
			pairs{{"type", "string"}, {"pattern", schemaPitch}},
		}}}
	case t == lengthType:
		// A reference hides what stands beside it in draft 4, so it stands alone.
		return pairs{{"allOf", []any{lengthRef()}}}
	}
	return f.plainSchema(t)
}

func listSchema(items pairs, least, most int) pairs {
	return pairs{{"type", "array"}, {"items", items}, {"minItems", least}, {"maxItems", most}}
}

// plainSchema returns the schema of a single number, word or text.
func (f *field) plainSchema(t reflect.Type) pairs {
	out := pairs{{"type", map[reflect.Kind]string{reflect.Int: "integer", reflect.Float64: "number", reflect.String: "string", reflect.Bool: "boolean"}[t.Kind()]}}
	if len(f.words) > 0 {
		if t.Kind() == reflect.String {
			return append(out, pair{"enum", f.words})
		}
		return append(out, pair{"enum", numbers(f.words)})
	}
	if f.bound != nil {
		out = append(out, pair{"minimum", f.bound.lo}, pair{"maximum", f.bound.hi})
	}
	switch f.text {
	case "name":
		out = append(out, pair{"minLength", 1}, pair{"maxLength", longestName}, pair{"pattern", `^[^/\\\x00-\x1f\x7f]+$`})
	case "label":
		out = append(out, pair{"minLength", 1}, pair{"maxLength", longestLabel})
	case "file":
		out = append(out, pair{"pattern", `\.([sS][vV][gG]|[dD][xX][fF]|[cC][sS][vV])$`})
	}
	return out
}

// Reference returns a table in Markdown of every key of the design file: the
// table it stands in, what it takes, what it means.
func Reference() string {
	var b strings.Builder
	b.WriteString("| key | takes | what it is |\n|---|---|---|\n")
	writeReference(&b, rootSpec(), "", "the top of the file")
	return b.String()
}

func writeReference(b *strings.Builder, s *spec, name, head string) {
	cell := strings.NewReplacer("|", `\|`)
	b.WriteString("| **" + head + "** | | |\n")
	for _, f := range s.fields {
		if f.sub != nil && f.sub.bare == nil {
			continue
		}
		doc := f.doc
		if f.sub != nil {
			doc = f.sub.bare.doc
		}
		if f.need {
			doc += " (needed)"
		}
		b.WriteString("| `" + f.key + "` | " + cell.Replace(f.allowed(Millimetre)) + " | " + cell.Replace(doc) + " |\n")
	}
	for _, f := range s.fields {
		if f.sub == nil {
			continue
		}
		full := under(name, f.key)
		open, shut := "`[", "]`"
		if f.form == formTables {
			open, shut = "`[[", "]]`"
		}
		writeReference(b, f.sub, full, open+full+shut)
	}
}

// numbers returns words that are numbers as JSON writes them.
func numbers(words []string) []json.Number {
	out := make([]json.Number, len(words))
	for i, w := range words {
		out[i] = json.Number(w)
	}
	return out
}
