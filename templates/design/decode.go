package design

import (
	"errors"
	"fmt"
	"math"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"routwright/templates/design/toml"
)

// value decodes v into dst, whose type the field knows, and reports what does
// not fit. It returns whether dst holds the value.
func (d *decoder) value(dst reflect.Value, f *field, v *toml.Value, key string) bool {
	switch t := dst.Type(); {
	case t == pointType || t.Kind() == reflect.Array:
		return d.fixed(dst, f, v, key)
	case t.Kind() == reflect.Slice:
		return d.list(dst, f, v, key)
	case t == lengthType:
		l, ok := d.length(f, v, key)
		dst.SetFloat(float64(l))
		return ok
	case t == pitchType:
		p, ok := d.pitch(f, v, key)
		dst.SetFloat(float64(p))
		return ok
	case t == ratioType:
		r, ok := d.ratio(f, v, key)
		dst.SetFloat(float64(r))
		return ok
	case t.Kind() == reflect.Float64:
		n, ok := d.number(f, v, key)
		dst.SetFloat(n)
		return ok
	case t.Kind() == reflect.Int:
		return d.whole(dst, f, v, key)
	case t.Kind() == reflect.String:
		s, ok := d.text(f, v, key)
		dst.SetString(s)
		return ok
	case t.Kind() == reflect.Bool && v.Kind == toml.Bool:
		dst.SetBool(v.Bool)
		return true
	}
	return d.wrong(f, dst.Type(), v, key)
}

// wrong reports a value of the wrong kind.
func (d *decoder) wrong(f *field, t reflect.Type, v *toml.Value, key string) bool {
	if v.Kind == toml.Broken { // told already
		return false
	}
	cure := "write " + example(f, t)
	if last := key[strings.LastIndexByte(key, '.')+1:]; !strings.Contains(last, " ") { // no item of a list
		cure = "write " + last + " = " + example(f, t)
	}
	if v.Kind == toml.Array && t.Kind() != reflect.Slice && t.Kind() != reflect.Array && t != pointType {
		cure = "drop the brackets"
	}
	return d.fail(v.At, key, describe(v), f.of(t, d.unit), cure)
}

// fixed decodes a list of a known number of values: a point, a pair, a row.
func (d *decoder) fixed(dst reflect.Value, f *field, v *toml.Value, key string) bool {
	n := 2
	if dst.Kind() == reflect.Array {
		n = dst.Len()
	}
	if v.Kind != toml.Array {
		return d.wrong(f, dst.Type(), v, key)
	}
	if len(v.Items) != n {
		return d.fail(v.At, key, describe(v), f.of(dst.Type(), d.unit), fmt.Sprintf("give %d values", n))
	}
	ok := true
	for i, item := range v.Items {
		if dst.Kind() == reflect.Array {
			ok = d.value(dst.Index(i), f, item, key) && ok
			continue
		}
		l, good := d.length(f, item, key)
		dst.Field(i).SetFloat(float64(l))
		ok = good && ok
	}
	return ok
}

// list decodes a list of any number of values. A single text stands for a list
// of one, and so does a single value where the field says so.
func (d *decoder) list(dst reflect.Value, f *field, v *toml.Value, key string) bool {
	items := v.Items
	if v.Kind == toml.String && dst.Type().Elem().Kind() == reflect.String {
		items = []*toml.Value{v}
	} else if f.single && v.Kind != toml.Array && v.Kind != toml.Inline {
		one := reflect.New(dst.Type().Elem()).Elem()
		if !d.value(one, f, v, key) {
			return false
		}
		dst.Set(reflect.Append(dst, one))
		return true
	} else if v.Kind != toml.Array {
		return d.wrong(f, dst.Type(), v, key)
	}
	if len(items) < f.least || len(items) > f.most {
		return d.fail(v.At, key, describe(v), f.of(dst.Type(), d.unit), fmt.Sprintf("give from %d to %d values", f.least, f.most))
	}
	out := reflect.MakeSlice(dst.Type(), len(items), len(items))
	ok := true
	for i, item := range items {
		if d.full() {
			return false
		}
		ok = d.value(out.Index(i), f, item, fmt.Sprintf("%s %d", key, i+1)) && ok
	}
	dst.Set(out)
	return ok
}

// length decodes a number in the file's units, or a text with its own unit.
func (d *decoder) length(f *field, v *toml.Value, key string) (Length, bool) {
	var l Length
	switch v.Kind {
	case toml.Integer, toml.Float:
		if !d.finite(f, lengthType, v, key) {
			return 0, false
		}
		l = plainLength(v.Raw, v.Float, d.unit)
	case toml.String:
		var err error
		if l, err = ParseLength(v.Text, d.unit); err != nil {
			var e Error
			errors.As(err, &e)
			return 0, d.fail(v.At, key, e.Given, e.Allowed, e.Cure)
		}
	default:
		return 0, d.wrong(f, lengthType, v, key)
	}
	if b := f.bound; b != nil && (float64(l) < b.lo || float64(l) > b.hi) {
		return 0, d.beyond(f, lengthType, v, key)
	}
	return l, true
}

// finite refuses nan and inf.
func (d *decoder) finite(f *field, t reflect.Type, v *toml.Value, key string) bool {
	if math.IsNaN(v.Float) || math.IsInf(v.Float, 0) {
		return d.fail(v.At, key, v.Shown(), f.of(t, d.unit), "write a number that a ruler can show")
	}
	return true
}

// number decodes a plain number or an angle.
func (d *decoder) number(f *field, v *toml.Value, key string) (float64, bool) {
	t := reflect.TypeFor[float64]()
	if leaf(f.typ) == angleType {
		t = angleType
	}
	if v.Kind != toml.Integer && v.Kind != toml.Float {
		return 0, d.wrong(f, t, v, key)
	}
	if !d.finite(f, t, v, key) {
		return 0, false
	}
	if b := f.bound; b != nil && (v.Float < b.lo || v.Float > b.hi) {
		return 0, d.beyond(f, t, v, key)
	}
	return v.Float, true
}

// whole decodes a whole number.
func (d *decoder) whole(dst reflect.Value, f *field, v *toml.Value, key string) bool {
	if v.Kind != toml.Integer {
		return d.wrong(f, dst.Type(), v, key)
	}
	if b := f.bound; b != nil && (v.Float < b.lo || v.Float > b.hi) {
		return d.beyond(f, dst.Type(), v, key)
	}
	if len(f.words) > 0 && !slices.Contains(f.words, strconv.FormatInt(v.Int, 10)) {
		return d.beyond(f, dst.Type(), v, key)
	}
	dst.SetInt(v.Int)
	return true
}

// beyond reports a number outside its range.
func (d *decoder) beyond(f *field, t reflect.Type, v *toml.Value, key string) bool {
	given := v.Shown()
	if t == lengthType {
		given = describeLength(v, d.unit)
	}
	cure := "use a number in this range"
	if t == lengthType {
		cure = "measure again, or give the unit with the number"
	}
	if len(f.words) > 0 {
		cure = "write " + f.words[0]
	}
	return d.fail(v.At, key, given, f.of(t, d.unit), cure)
}

// describeLength prints a length as the file gives it, with its unit, and in the
// file's unit when that differs.
func describeLength(v *toml.Value, unit string) string {
	if v.Kind != toml.String {
		return v.Shown() + " " + unit
	}
	l, _ := ParseLength(v.Text, unit)
	return fmt.Sprintf("%s (%s)", toml.Quote(v.Text), l.In(unit))
}

// describe says what a value is, for a message.
func describe(v *toml.Value) string {
	switch v.Kind {
	case toml.String:
		return "the text " + toml.Quote(v.Text)
	case toml.Integer, toml.Float:
		return "the number " + v.Shown()
	case toml.Bool:
		return v.Shown()
	case toml.Date:
		return "the date or time " + v.Shown()
	case toml.Array:
		switch len(v.Items) {
		case 0:
			return "an empty list"
		case 1:
			return "a list of 1 value"
		}
		return fmt.Sprintf("a list of %d values", len(v.Items))
	}
	return v.Kind.String()
}

// example returns a value of the kind that the field takes, for a cure.
func example(f *field, t reflect.Type) string {
	one := "1.5"
	switch l := leaf(t); {
	case len(f.words) > 0 && l.Kind() == reflect.String:
		one = strconv.Quote(f.words[0])
	case len(f.words) > 0:
		one = f.words[0]
	case f.text == "file":
		one = `"outline.svg"`
	case l.Kind() == reflect.String:
		one = `"…"`
	case l.Kind() == reflect.Bool:
		one = "true"
	case l.Kind() == reflect.Int:
		one = "22"
	case f.bound != nil && (f.bound.lo > 12.5 || f.bound.hi < 12.5):
		one = plainNumber(math.Round((f.bound.lo+f.bound.hi)/2*10) / 10)
		if l == lengthType {
			one = `"` + one + ` mm"`
		}
	case l == lengthType:
		one = `12.5, or "1/2 in"`
	case l == pitchType:
		one = `"E4"`
	case l == ratioType:
		one = `"3/2"`
	}
	switch {
	case t == pointType:
		return "[12.5, 100]"
	case t.Kind() == reflect.Slice && t.Elem() == pointType:
		return "[[12.5, 100], [10, 60]]"
	case t.Kind() == reflect.Slice && t.Elem().Kind() == reflect.Array:
		return "[[0, 20, 20], [10, 60, 60]]"
	case t.Kind() == reflect.Array:
		one, _, _ = strings.Cut(one, ",")
		return "[" + one + strings.Repeat(", "+one, t.Len()-1) + "]"
	case t.Kind() == reflect.Slice:
		return "[" + one + "]"
	}
	return one
}
