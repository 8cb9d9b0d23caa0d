package toml

import "fmt"

// value reads any value. After an error it returns one of kind Broken.
func (r *reader) value() *Value {
	v := &Value{At: r.pos(r.i)}
	start := r.i
	ok := false
	switch c := r.peek(0); {
	case r.has(`"""`) || r.has(`'''`):
		v.Kind = String
		v.Text, ok = r.long(c)
	case c == '"':
		v.Kind = String
		v.Text, ok = r.basic()
	case c == '\'':
		v.Kind = String
		v.Text, ok = r.literal()
	case c == '[' || c == '{':
		if r.depth == maxDepth {
			ok = r.fail(r.i, "lists inside lists, too deep", fmt.Sprintf("at most %d levels", maxDepth), "use fewer brackets")
			break
		}
		r.depth++
		if c == '[' {
			v.Kind = Array
			ok = r.array(v)
		} else {
			v.Kind = Inline
			ok = r.inline(v)
		}
		r.depth--
	default:
		ok = r.scalar(v)
	}
	if !ok {
		return &Value{At: v.At}
	}
	if v.Kind == String {
		v.Raw = r.src[start:r.i]
	}
	return v
}

// array reads [a, b, …], which may run over lines and end in a comma. A value
// inside that cannot be read stays in it as a Broken one.
func (r *reader) array(v *Value) bool {
	start := r.i
	r.i++
	comma := true // a value may follow
	for {
		if !r.blank() {
			return false
		}
		switch {
		case r.peek(0) == ']':
			r.i++
			return true
		case r.i == len(r.src):
			return r.fail(r.i, "the end of the file inside a list", "a list closed by ]", r.closeList(v))
		case r.newStatement():
			return r.fail(r.i, r.word(r.i)+" inside a list", "a list closed by ]", r.closeList(v))
		case r.peek(0) == ',' && !comma:
			r.i++
			comma = true
			continue
		case r.peek(0) == ',':
			return r.fail(r.i, "a comma with no value before it", "one comma between two values", "delete the comma, or write the value")
		case !comma:
			return r.fail(r.i, r.word(r.i)+" in a list", "a comma between values and ] at the end", "put a comma before it; or "+r.closeList(v))
		}
		item := r.value()
		v.Items = append(v.Items, item)
		comma = false
		if item.Kind == Broken {
			if !r.resync(start, ",]") {
				return false
			}
			comma = r.peek(0) == '\n'
		}
	}
}

func (r *reader) closeList(v *Value) string {
	return fmt.Sprintf("close the list that opens on line %d", v.At.Line)
}

// inline reads {a = 1, b = 2}. TOML 1.0 wants it on one line and without a comma
// at the end; either is reported and then read on, to tell what else is wrong.
func (r *reader) inline(v *Value) bool {
	start := r.i
	t := &Table{At: v.At, defined: true}
	v.Table = t
	// A table inside is one section of its own: dotted keys may meet only there.
	outer, key, hurt := r.section, r.key, false
	r.section = -1 - r.i
	defer func() { r.section, r.key = outer, key; freeze(t) }()
	r.i++
	comma := true // a pair may follow
	for {
		r.space()
		r.key = key
		if r.lineBroken() || r.peek(0) == '#' {
			if !hurt {
				hurt = true
				r.fail(r.i, "a line's end inside { }", "a { } table on one line", "close it with }, join the lines, or write the table under a [header] of its own")
			}
			if !comma || !r.blank() || r.i == len(r.src) {
				return false
			}
			continue
		}
		switch {
		case r.peek(0) == '}':
			if comma && len(t.Entries) > 0 && !hurt {
				r.fail(r.i, "a comma before }", "no comma after the last value", "delete the comma")
			}
			r.i++
			return true
		case r.peek(0) == ',' && !comma:
			r.i++
			comma = true
			continue
		case !comma:
			return r.fail(r.i, r.word(r.i)+" in a { } table", "a comma between values and } at the end", "put a comma before it, or close the table with }")
		}
		comma = false
		if !r.pair(t) {
			hurt = true
			if !r.resync(start, ",}") {
				return false
			}
		}
	}
}

// freeze closes an inline table and the tables that its dotted keys made.
func freeze(t *Table) {
	t.frozen = true
	for _, e := range t.Entries {
		if s := e.Value.Table; s != nil && !s.frozen {
			freeze(s)
		}
	}
}
