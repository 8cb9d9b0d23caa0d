package design

import (
	"bytes"
	"encoding/json"
	"flag"
	"fmt"
	"os"
	"reflect"
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"

	"routwright/render/rendertest"

	peer "github.com/pelletier/go-toml/v2"
)

var update = flag.Bool("update", false, "rewrite testdata golden files")

// golden compares got with a file of testdata, or rewrites it.
func golden(t *testing.T, name string, got []byte) {
	t.Helper()
	rendertest.Golden(t, "testdata/"+name, got, *update)
}

func TestSchemaGolden(t *testing.T) {
	s, err := Schema()
	if err != nil {
		t.Fatal(err)
	}
	golden(t, "design.schema.json", s)
	golden(t, "reference.md", []byte(Reference()))
}

// judge is a small validator of the parts of draft 4 that Schema uses, written
// from json-schema.org/draft-04. It returns what is wrong, or "".
type judge struct{ root map[string]any }

func (j judge) check(s map[string]any, v any, at string) string {
	if ref, ok := s["$ref"].(string); ok { // its siblings are not looked at
		name := strings.TrimPrefix(ref, "#/definitions/")
		return j.check(j.root["definitions"].(map[string]any)[name].(map[string]any), v, at)
	}
	if want, ok := s["type"].(string); ok && !isType(want, v) {
		return fmt.Sprintf("%s: %v is no %s", at, v, want)
	}
	if enum, ok := s["enum"].([]any); ok {
		found := false
		for _, e := range enum {
			found = found || fmt.Sprint(e) == fmt.Sprint(v)
		}
		if !found {
			return fmt.Sprintf("%s: %v is none of %v", at, v, enum)
		}
	}
	if any, ok := s["anyOf"].([]any); ok {
		found := false
		for _, a := range any {
			found = found || j.check(a.(map[string]interface{}), v, at) == ""
		}
		if !found {
			return fmt.Sprintf("%s: %v fits no branch", at, v)
		}
	}
	if all, ok := s["allOf"].([]any); ok {
		for _, a := range all {
			if e := j.check(a.(map[string]any), v, at); e != "" {
				return e
			}
		}
	}
	switch v := v.(type) {
	case map[string]any:
		return j.object(s, v, at)
	case []any:
		return j.list(s, v, at)
	case string:
		if p, ok := s["pattern"].(string); ok && !regexp.MustCompile(p).MatchString(v) {
			return fmt.Sprintf("%s: %q does not match %s", at, v, p)
		}
		n := float64(utf8.RuneCountInString(v))
		if l, ok := s["minLength"].(float64); ok && n < l {
			return at + ": too short"
		}
		if l, ok := s["maxLength"].(float64); ok && n > l {
			return at + ": too long"
		}
	default:
		n := reflect.ValueOf(v)
		if !n.IsValid() || !n.CanConvert(reflect.TypeFor[float64]()) {
			return ""
		}
		x := n.Convert(reflect.TypeFor[float64]()).Float()
		if m, ok := s["minimum"].(float64); ok && x < m {
			return fmt.Sprintf("%s: %v < %v", at, x, m)
		}
		if m, ok := s["maximum"].(float64); ok && x > m {
			return fmt.Sprintf("%s: %v > %v", at, x, m)
		}
	}
	return ""
}

func isType(want string, v any) bool {
	switch v.(type) {
	case map[string]any:
		return want == "object"
	case []any:
		return want == "array"
	case string:
		return want == "string"
	case bool:
		return want == "boolean"
	case int64:
		return want == "integer" || want == "number"
	case float64:
		return want == "number"
	}
	return false
}

func (j judge) object(s, v map[string]any, at string) string {
	props, _ := s["properties"].(map[string]any)
	if need, ok := s["required"].([]any); ok {
		for _, n := range need {
			if _, ok := v[n.(string)]; !ok {
				return at + "." + n.(string) + ": missing"
			}
		}
	}
	for k, x := range v {
		p, ok := props[k].(map[string]any)
		if !ok {
			switch more := s["additionalProperties"].(type) {
			case bool:
				if !more {
					return at + "." + k + ": unknown"
				}
				continue
			case map[string]any:
				p = more
			}
		}
		if e := j.check(p, x, at+"."+k); e != "" {
			return e
		}
	}
	return ""
}

func (j judge) list(s map[string]any, v []any, at string) string {
	if m, ok := s["minItems"].(float64); ok && float64(len(v)) < m {
		return at + ": too few"
	}
	if m, ok := s["maxItems"].(float64); ok && float64(len(v)) > m {
		return at + ": too many"
	}
	items, _ := s["items"].(map[string]any)
	for i, x := range v {
		if e := j.check(items, x, fmt.Sprintf("%s[%d]", at, i)); e != "" {
			return e
		}
	}
	return ""
}

// The schema and the reader agree: what one takes the other takes, wherever a
// schema can tell (it knows no units, no ranges of lengths and no references).
func TestSchemaAgreesWithParse(t *testing.T) {
	raw, err := Schema()
	if err != nil {
		t.Fatal(err)
	}
	var root map[string]any
	if err := json.Unmarshal(raw, &root); err != nil {
		t.Fatal(err)
	}
	demo, err := os.ReadFile("../../testdata/millrace.toml")
	if err != nil {
		t.Fatal(err)
	}
	cases := []string{string(Starter()), string(demo)}
	for _, body := range []string{
		"", "nmae = 1", "name = 1", "name = \"\"", "hand = \"left\"", "hand = \"up\"", "units = \"in\"",
		"strings.scale = 648", "strings.scale = \"25 1/2 in\"", "strings.scale = '25½\"'", "strings.scale = \"648mm\"", "strings.scale = \"long\"", "strings.scale = true", "strings.scale = []", "strings.scale = {}",
		"strings.frets = 22", "strings.frets = 22.5", "strings.frets = 0", "strings.frets = 121",
		"strings.scale = {bass = 686, treble = 648}", "strings.scale = {bass = 686, treble = \"25 1/2 in\", square_fret = -2.5}", "strings.scale = {bass = 686}", "strings.scale = {bass = 686, treble = 648, square = 7}",
		"strings.pitches = [\"E4\", 110]", "strings.pitches = [\"H4\"]", "strings.pitches = \"E4\"", "strings.ratios = [\"9/8\", 1.25, \"3:2\"]", "strings.ratios = [0.5]", "strings.ratios = [\"a\"]", "strings.cents = [200, 701.955]",
		"fretboard.radius = 254", "fretboard.radius = [254, \"16 in\"]", "fretboard.radius = [1, 2, 3]", "fretboard.margin = 3", "fretboard.margin = {bass_nut = 3, treble_nut = 3, bass_end = 3, treble_end = 4}", "fretboard.margin = {bass_nut = 3}",
		"[[fretboard.partial]]\nfret = 3.5\nstrings = [1, 3]", "[[fretboard.partial]]\nfret = 3.5", "fretboard.extra = {frets = 2, strings = 3, side = \"bass\"}", "strings.frets = \"22\"",
		"slab = 1", "[slab]\nblank = [500, \"14 in\"]", "[slab]\nblank = [500]", "[slab]\nblank = [500, 400, 300]", "[slab]\nplane = {front = 1}", "[slab]\nplane = {frnt = 1}",
		"[[slab.crack]]\nfront = [[1, 2], [3, \"4 mm\"]]", "[[slab.crack]]\nfront = [[1, 2]]", "[[slab.crack]]\nfront = [[1, 2], [3]]", "[[slab.crack]]\ntips = \"last\"", "[[slab.crack]]\ntips = [\"first\", \"last\"]", "[[slab.crack]]\ntips = \"lst\"", "[[slab.crack]]\ntips = [\"lst\"]",
		"[body.measures]\nlower = 325", "[body.measures]\nlower = \"13 in\"", "[body.measures]\nlower = true", "[body]\nhalf_widths = [[0, 1, 1], [1, 20, 20], [2, 1, 1]]", "[body]\nhalf_widths = [[0, 1], [1, 2], [2, 1]]", "[body]\nfile = \"a.svg\"", "[body]\nfile = \"a.doc\"",
		"pickup = [{at = 42}]", "[[pickup]]\nkind = \"humbucker\"\nslant = 12.5", "[[pickup]]\nkind = \"other\"", "[[pickup]]\nslant = 31", "[[pickup]]\nname = \"a/b\"", "pickup = {at = 42}",
		"[[key]]\nat = [1, 2]", "[[key]]\nangle = 3", "[[bit]]\nname = \"a\"\nd = 6", "[[bit]]\nname = \"a\"", "[[bit]]\nname = \"a\"\nd = 6\nbearing = {side = \"tip\"}",
		"[print]\nmeasured = [99.5, 100]", "[print]\nmeasured = [0, 100]", "[print]\npaper = \"A4\"", "[print]\npaper = [\"A4\", \"Letter\"]", "[print]\npaper = 4",
	} {
		cases = append(cases, "design = 1\n"+body)
	}
	cases = append(cases, "name = \"no version\"", "design = 2")
	for _, src := range cases {
		var v map[string]any
		if err := peer.Unmarshal([]byte(src), &v); err != nil {
			t.Fatal(err)
		}
		says := judge{root}.check(root, v, "")
		_, err := Parse("f", []byte(src))
		if (says == "") != (err == nil) {
			t.Errorf("%.200s\nthe schema says %q, the reader %v", src, says, err)
		}
	}
}

// Draft 4 forbids an empty "required" and knows no "const", "examples" or "if".
func TestSchemaIsDraft4(t *testing.T) {
	s, _ := Schema()
	for _, word := range []string{`"const"`, `"examples"`, `"if"`, `"$defs"`, `"exclusiveMinimum"`, `"required": []`, "\\u003c"} {
		if bytes.Contains(s, []byte(word)) {
			t.Errorf("%s is not of draft 4", word)
		}
	}
	if !bytes.HasPrefix(s, []byte("{\n  \"$schema\": \"http://json-schema.org/draft-04/schema#\"")) {
		t.Errorf("begins with %.60s", s)
	}
}
