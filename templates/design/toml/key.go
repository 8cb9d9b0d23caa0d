package toml

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"
)

// part is one part of a dotted key.
type part struct {
	name string
	off  int
}

func bare(c byte) bool {
	return c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' || c == '_' || c == '-'
}

// dotted reads a key of one or more parts.
func (r *reader) dotted() ([]part, bool) {
	var parts []part
	for {
		r.space()
		p, ok := r.simpleKey()
		if !ok {
			return nil, false
		}
		parts = append(parts, p)
		r.space()
		if r.peek(0) != '.' {
			return parts, true
		}
		if len(parts) == maxDepth {
			return nil, r.fail(r.i, "a key of too many parts", fmt.Sprintf("at most %d parts", maxDepth), "use fewer dots")
		}
		r.i++
	}
}

// simpleKey reads a bare or quoted key.
func (r *reader) simpleKey() (part, bool) {
	start := r.i
	switch {
	case r.has(`"""`) || r.has(`'''`):
		return part{}, r.fail(r.i, "a key in triple quotes", "a bare key, or one in single or double quotes", "drop the quotes")
	case r.peek(0) == '"':
		s, ok := r.basic()
		return part{s, start}, ok
	case r.peek(0) == '\'':
		s, ok := r.literal()
		return part{s, start}, ok
	}
	for r.i < len(r.src) && bare(r.src[r.i]) {
		r.i++
	}
	if r.i == start {
		return part{}, r.fail(r.i, r.word(r.i)+" where a key should stand", "a key of letters, digits, _ and -", "write key = value, or begin the line with # for a comment")
	}
	return part{r.src[start:r.i], start}, true
}

// join returns parts with dots between, as a message shows them.
func join(parts []part) string {
	names := make([]string, len(parts))
	for i, p := range parts {
		names[i] = ShowKey(p.name)
	}
	return strings.Join(names, ".")
}

// ShowKey returns a key for a message: as it is when it is a short bare key,
// else as Quote prints it.
func ShowKey(key string) string {
	for i := range len(key) {
		if !bare(key[i]) {
			return Quote(key)
		}
	}
	if key == "" || len(key) > longestShown {
		return Quote(key)
	}
	return key
}

// pair reads key = value into t. r.key names the key afterwards, for an error
// in what follows on the line.
func (r *reader) pair(t *Table) bool {
	parts, ok := r.dotted()
	if !ok {
		return false
	}
	outer := r.key
	r.key = join(parts)
	if outer != "" {
		r.key = outer + "." + r.key
	}
	last := parts[len(parts)-1]
	if r.peek(0) != '=' {
		cure := "write " + r.key + " = value"
		switch c, _ := utf8.DecodeRuneInString(r.src[r.i:]); {
		case c == ':':
			cure = "write = instead of :"
		case unicode.IsSpace(c) && c > 0x7f:
			cure = "replace the special blank by an ordinary one"
		}
		return r.fail(r.i, r.word(r.i)+" after the key", "an equals sign", cure)
	}
	r.i++
	r.space()
	home, ok := r.descend(t, parts)
	if ok && home.Get(last.name) != nil {
		ok = r.twice(last.off, home.Get(last.name))
	}
	v := r.value()
	if ok {
		home.add(last.name, r.pos(last.off), v)
	}
	return v.Kind != Broken
}

// twice reports a key that is there already.
func (r *reader) twice(off int, old *Entry) bool {
	return r.fail(off, fmt.Sprintf("%s a second time, first on line %d", Quote(old.Key), old.At.Line), "each key once in its table", "delete one of the two")
}

// descend makes or finds the tables of all parts of a dotted key but the last.
// Such a table belongs to the header under which its first key stands.
func (r *reader) descend(t *Table, parts []part) (*Table, bool) {
	for _, p := range parts[:len(parts)-1] {
		e := t.Get(p.name)
		if e == nil {
			sub := &Table{At: r.pos(p.off), section: r.section}
			t.add(p.name, sub.At, &Value{Kind: Inline, At: sub.At, Table: sub})
			t = sub
			continue
		}
		sub := e.Value.Table
		if sub == nil || sub.frozen || sub.defined || sub.section != 0 && sub.section != r.section {
			return nil, r.closed(p, e)
		}
		sub.section = r.section
		t = sub
	}
	return t, true
}

// closed reports a key that would add to something that is complete.
func (r *reader) closed(p part, e *Entry) bool {
	if e.Value.Kind == Broken {
		// Its own error stands already; one is enough.
		r.errAt = p.off
		return false
	}
	if e.Value.Table == nil {
		return r.fail(p.off, fmt.Sprintf("%s, which is %s since line %d", Quote(p.name), e.Value.Kind, e.At.Line), "keys inside a table only", "rename one of the two")
	}
	return r.fail(p.off, fmt.Sprintf("more keys for %s, which is complete since line %d", Quote(p.name), e.At.Line), "each table in one place", "move the key there")
}

// header reads [table] or [[table]] and makes it the current table.
func (r *reader) header() bool {
	start := r.i
	r.name = ""
	many := r.has("[[")
	open, shut := "[", "]"
	if many {
		open, shut = "[[", "]]"
	}
	r.i += len(open)
	// Keys below a header that fails still need a home: one nobody reads.
	r.cur = &Table{defined: true}
	r.section++
	parts, ok := r.dotted()
	if !ok {
		return false
	}
	name := join(parts)
	if !r.has(shut) {
		return r.fail(r.i, r.word(r.i)+" in a header", open+name+shut, "close the header with "+shut)
	}
	r.i += len(shut)
	home, ok := r.walk(parts)
	if !ok {
		return false
	}
	last := parts[len(parts)-1]
	if many {
		ok = r.enterMany(home, last, start)
	} else {
		ok = r.enterOne(home, last, start)
	}
	r.name = name
	return ok
}

// walk finds or makes the tables above the last part of a header.
func (r *reader) walk(parts []part) (*Table, bool) {
	t := r.root
	for _, p := range parts[:len(parts)-1] {
		e := t.Get(p.name)
		if e == nil {
			sub := &Table{At: r.pos(p.off)}
			t.add(p.name, sub.At, &Value{Kind: Inline, At: sub.At, Table: sub})
			t = sub
			continue
		}
		sub := e.Value.Table
		if e.Value.Kind == Tables {
			sub = e.Value.Items[len(e.Value.Items)-1].Table
		}
		if sub == nil || sub.frozen {
			return nil, r.closed(p, e)
		}
		t = sub
	}
	return t, true
}

// enterOne makes the table of a [header] current.
func (r *reader) enterOne(home *Table, p part, start int) bool {
	at := r.pos(start)
	e := home.Get(p.name)
	if e == nil {
		r.cur = &Table{At: at, defined: true}
		home.add(p.name, at, &Value{Kind: Inline, At: at, Table: r.cur})
		return true
	}
	t := e.Value.Table
	switch {
	case e.Value.Kind == Tables:
		return r.fail(start, fmt.Sprintf("[%s] after [[%s]] on line %d", ShowKey(p.name), ShowKey(p.name), e.At.Line), "one kind of header for one name", "write [["+ShowKey(p.name)+"]]")
	case t == nil:
		return r.closed(p, e)
	case t.frozen || t.defined || t.section != 0:
		return r.fail(start, fmt.Sprintf("the table %s a second time, first on line %d", Quote(p.name), e.At.Line), "each table once", "put the keys of both under one header")
	}
	t.defined, t.At, e.Value.At = true, at, at
	r.cur = t
	return true
}

// enterMany makes a new table of a [[header]] current.
func (r *reader) enterMany(home *Table, p part, start int) bool {
	at := r.pos(start)
	e := home.Get(p.name)
	switch {
	case e == nil:
		e = home.add(p.name, at, &Value{Kind: Tables, At: at})
	case e.Value.Kind == Broken:
		return r.closed(p, e)
	case e.Value.Kind != Tables:
		return r.fail(start, fmt.Sprintf("[[%s]], which is %s since line %d", ShowKey(p.name), e.Value.Kind, e.At.Line), "one kind of header for one name", "write both with double brackets, or rename one")
	}
	r.cur = &Table{At: at, defined: true}
	e.Value.Items = append(e.Value.Items, &Value{Kind: Inline, At: at, Table: r.cur})
	return true
}
