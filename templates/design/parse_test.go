package design

import (
	"errors"
	"fmt"
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/google/go-cmp/cmp"

	"routwright/geom"
)

// read parses a file that begins with design = 1 and returns its errors, one a
// line.
func read(t *testing.T, body string) (*Design, string) {
	t.Helper()
	d, err := Parse("g.toml", []byte("design = 1\n"+body))
	if err == nil {
		return d, ""
	}
	var es Errors
	if !errors.As(err, &es) || d != nil {
		t.Fatalf("%T %v", err, d)
	}
	return nil, err.Error()
}

func TestBadInput(t *testing.T) {
	const lengths = `a length such as 44.5 mm, 4.45 cm, 25 1/2 in, 1-3/4", 10 thou`
	for _, c := range []struct{ name, body, want string }{
		{"misspelt key", "[strings]\nscael = 648", `g.toml:3:1: strings.scael: an unknown key; allowed: in [strings]: …; did you mean "scale"?`},
		{"key that needs quotes", "\"a\\nb\" = 1\n[strings]\n\"\" = 2", "g.toml:2:1: \"a\\nb\": an unknown key; allowed: at the top of the file: …; delete the line\ng.toml:4:1: strings.\"\": an unknown key; allowed: in [strings]: …; delete the line"},
		{"unit written out", `units = "inches"`, `g.toml:2:9: units: "inches"; allowed: "mm" or "in"; did you mean "in"?`},
		{"long number", "strings.scale = " + strings.Repeat("9", 400) + ".0", "g.toml:2:17: strings.scale: " + strings.Repeat("9", 40) + "…; allowed: a length from 200 to 1400 mm, or a table {bass, treble, square_fret}; write a number that a ruler can show"},
		{"key in capitals", "[strings]\nScale = 648", `g.toml:3:1: strings.Scale: an unknown key; allowed: in [strings]: …; did you mean "scale"?`},
		{"key in another table", "[slab]\nfrets = 22", `g.toml:3:1: slab.frets: an unknown key; allowed: in [slab]: …; it belongs in [strings] or [fretboard.extra]`},
		{"key of the top below a header", "[strings]\nhand = \"left\"", `g.toml:3:1: strings.hand: an unknown key; allowed: in [strings]: …; it belongs at the top of the file, above the first [header]`},
		{"unknown table, its keys not told again", "[strnigs]\nscael = 648", `g.toml:2:1: strnigs: an unknown key; allowed: at the top of the file: …; did you mean "strings"?`},
		{"misspelt word", `hand = "lefft"`, `g.toml:2:8: hand: "lefft"; allowed: "right" or "left"; did you mean "left"?`},
		{"word with another sign between", "[[pickup]]\nkind = \"single coil\"", `g.toml:3:8: pickup 1.kind: "single coil"; allowed: "single-coil", "humbucker" or "soapbar"; did you mean "single-coil"?`},
		{"wrong word", `hand = "both"`, `g.toml:2:8: hand: "both"; allowed: "right" or "left"; use one of these words`},
		{"text for a whole number", "strings.frets = \"22\"", `g.toml:2:17: strings.frets: the text "22"; allowed: a whole number from 1 to 120; write frets = 22`},
		{"decimal for a whole number", "strings.frets = 22.0", `g.toml:2:17: strings.frets: the number 22.0; allowed: a whole number from 1 to 120; write frets = 22`},
		{"boolean for a length", "strings.scale = true", `g.toml:2:17: strings.scale: true; allowed: a length from 200 to 1400 mm, or a table {bass, treble, square_fret}; write scale = "800 mm"`},
		{"date for a length", "strings.scale = 2026-01-01", `g.toml:2:17: strings.scale: the date or time 2026-01-01; allowed: a length from 200 to 1400 mm, or a table {bass, treble, square_fret}; write scale = "800 mm"`},
		{"list for a length", "strings.scale = [648]", `g.toml:2:17: strings.scale: a list of 1 value; allowed: a length from 200 to 1400 mm, or a table {bass, treble, square_fret}; drop the brackets`},
		{"table for a length", "slab.rough = {}", `g.toml:2:14: slab.rough: a table; allowed: a length from 10 to 150 mm; write rough = 12.5, or "1/2 in"`},
		{"fan without its treble", "strings.scale = {bass = 686}", `g.toml:2:17: strings.scale.treble: nothing; allowed: a length from 200 to 1400 mm; add treble = … (scale of a fan along the treble string)`},
		{"fan with another key", "[strings.scale]\nbass = 686\ntreble = 648\nsquare = 7", `g.toml:5:1: strings.scale.square: an unknown key; allowed: in [strings.scale]: bass, treble, square_fret; did you mean "square_fret"?`},
		{"fan in a number", "strings.scale = {bass = 686, treble = {}}", `g.toml:2:39: strings.scale.treble: a table; allowed: a length from 200 to 1400 mm; write treble = "800 mm"`},
		{"three radii", "fretboard.radius = [254, 300, 400]", `g.toml:2:20: fretboard.radius: a list of 3 values; allowed: a length from 30 to 5000 mm, or a list of up to 2; give from 1 to 2 values`},
		{"boolean for a radius", "fretboard.radius = true", `g.toml:2:20: fretboard.radius: true; allowed: a length from 30 to 5000 mm; write radius = "2515 mm"`},
		{"margin in words", "fretboard.margin = \"wide\"", `g.toml:2:20: fretboard.margin: "wide"; allowed: ` + lengths + `; write a number and its unit`},
		{"no ratio", "strings.ratios = [\"3/2\", \"3\", 0.5]", `g.toml:2:26: strings.ratios 2: "3"; allowed: a ratio above 1 and up to 2 such as "3/2", "5:4" or 1.25; the open string is 1, the octave 2; the list repeats above it
g.toml:2:31: strings.ratios 3: 0.5; allowed: a ratio above 1 and up to 2 such as "3/2", "5:4" or 1.25; the open string is 1, the octave 2; the list repeats above it`},
		{"partial fret without strings", "[[fretboard.partial]]\nfret = 3.5", `g.toml:2:1: fretboard.partial 1.strings: nothing; allowed: a list of 2: each a whole number from 1 to 14; add strings = … (first and last string that it serves, 1 is the highest)`},
		{"number for a text", "name = 12", `g.toml:2:8: name: the number 12; allowed: a text in quotes; write name = "…"`},
		{"number for a table", "slab = 3", `g.toml:2:8: slab: the number 3; allowed: a table: [slab] or {…}; write [slab] and its keys below`},
		{"tables for a table", "[[slab]]", `g.toml:2:1: slab: a list of tables; allowed: a table: [slab] or {…}; write [slab] and its keys below`},
		{"table for tables", "[pickup]\nat = 42", `g.toml:2:1: pickup: a single table; allowed: tables under [[pickup]]; write [[pickup]] with double brackets`},
		{"number among tables", "pickup = [{at = 42}, 43]", `g.toml:2:22: pickup 2: the number 43; allowed: a table {…}; write [[pickup]] and its keys below`},
		{"number for tables", "pickup = 3", `g.toml:2:10: pickup: the number 3; allowed: tables under [[pickup]]; write [[pickup]] and its keys below`},
		{"nan", "strings.scale = nan", `g.toml:2:17: strings.scale: nan; allowed: a length from 200 to 1400 mm, or a table {bass, treble, square_fret}; write a number that a ruler can show`},
		{"inf", "strings.scale = -inf", `g.toml:2:17: strings.scale: -inf; allowed: a length from 200 to 1400 mm, or a table {bass, treble, square_fret}; write a number that a ruler can show`},
		{"too large for a number", "strings.scale = 1e999", `g.toml:2:17: strings.scale: 1e999; allowed: a length from 200 to 1400 mm, or a table {bass, treble, square_fret}; write a number that a ruler can show`},
		{"nan for an angle", "[[pickup]]\nslant = nan", `g.toml:3:9: pickup 1.slant: nan; allowed: degrees from -30 to 30; write a number that a ruler can show`},
		{"nan in words", `strings.scale = "nan"`, `g.toml:2:17: strings.scale: "nan"; allowed: ` + lengths + `; write a number and its unit`},
		{"zero", "strings.scale = 0", `g.toml:2:17: strings.scale: 0 mm; allowed: a length from 200 to 1400 mm, or a table {bass, treble, square_fret}; measure again, or give the unit with the number`},
		{"negative", "[[bit]]\nname = \"a\"\nd = -6", `g.toml:4:5: bit 1.d: -6 mm; allowed: a length from 1 to 60 mm; measure again, or give the unit with the number`},
		{"inches in a file of mm", "strings.scale = 25.5", `g.toml:2:17: strings.scale: 25.5 mm; allowed: a length from 200 to 1400 mm, or a table {bass, treble, square_fret}; measure again, or give the unit with the number`},
		{"millimetres in a file of inches", "units = \"in\"\nstrings.scale = 648", `g.toml:3:17: strings.scale: 648 in; allowed: a length from 7.875 to 55.118 in, or a table {bass, treble, square_fret}; measure again, or give the unit with the number`},
		{"its own unit, out of range", "strings.scale = \"6 in\"", `g.toml:2:17: strings.scale: "6 in" (152.4 mm); allowed: a length from 200 to 1400 mm, or a table {bass, treble, square_fret}; measure again, or give the unit with the number`},
		{"units after the numbers", "strings.scale = 648\nunits = \"in\"", `g.toml:2:17: strings.scale: 648 in; allowed: a length from 7.875 to 55.118 in, or a table {bass, treble, square_fret}; measure again, or give the unit with the number`},
		{"note without octave", "strings.pitches = [\"E\"]", `g.toml:2:20: strings.pitches 1: "E"; allowed: a note with its octave such as "E2", "F#3", "Bb1", or a number in Hz from 15 to 2000; write the note and its octave; "A4" is 440 Hz`},
		{"pitch too high", "strings.pitches = [4400]", `g.toml:2:20: strings.pitches 1: 4400; allowed: a note with its octave such as "E2", "F#3", "Bb1", or a number in Hz from 15 to 2000; write the note and its octave; "A4" is 440 Hz`},
		{"boolean for a pitch", "strings.pitches = [true]", `g.toml:2:20: strings.pitches 1: true; allowed: a note with its octave such as "E2", "F#3", "Bb1", or a number in Hz from 15 to 2000; write "E4"`},
		{"wrong unit", `strings.scale = "3 ft"`, `g.toml:2:17: strings.scale: "3 ft"; allowed: ` + lengths + `; use one of the units mm, cm, in or thou`},
		{"decimal comma in quotes", `strings.scale = "648,5 mm"`, `g.toml:2:17: strings.scale: "648,5 mm"; allowed: ` + lengths + `; write the decimal point as a point: 648.5 mm`},
		{"decimal comma", "strings.scale = 648,5", `g.toml:2:20: strings.scale: ",5" after the end of the value; allowed: one key = value a line; write the decimal point as a point, or start a new line`},
		{"fraction without quotes", "strings.scale = 25 1/2 in", `g.toml:2:17: strings.scale: "25 1/2 in"; allowed: a plain number, or a text in quotes; a length with its own unit stands in quotes: "25 1/2 in", "44.5 mm"`},
		{"word without quotes", "hand = left", `g.toml:2:8: hand: "left" without quotes; allowed: a text in quotes; write "left"`},
		{"angle out of range", "[[pickup]]\nslant = 40", `g.toml:3:9: pickup 1.slant: 40; allowed: degrees from -30 to 30; use a number in this range`},
		{"point with one number", "[[key]]\nat = [1]", `g.toml:3:6: key 1.at: a list of 1 value; allowed: a point [x, y] of lengths from -3000 to 3000 mm; give 2 values`},
		{"point with a word", "[[key]]\nat = [1, \"left\"]", `g.toml:3:10: key 1.at: "left"; allowed: ` + lengths + `; write a number and its unit`},
		{"far point", "[[key]]\nat = [1, 1e6]", `g.toml:3:10: key 1.at: 1e6 mm; allowed: a length from -3000 to 3000 mm; measure again, or give the unit with the number`},
		{"one point of a crack", "[[slab.crack]]\nfront = [[1, 2]]", `g.toml:3:9: slab.crack 1.front: a list of 1 value; allowed: a list of 2 or more points [x, y]; give from 2 to 200 values`},
		{"number in a crack", "[[slab.crack]]\nfront = [[1, 2], 3]", `g.toml:3:18: slab.crack 1.front 2: the number 3; allowed: a point [x, y] of lengths from -3000 to 3000 mm; write [12.5, 100]`},
		{"row too short", "[body]\nhalf_widths = [[0, 1, 1], [5, 20], [9, 1, 1]]", `g.toml:3:27: body.half_widths 2: a list of 2 values; allowed: a list of 3: each a length from -3000 to 3000 mm; give 3 values`},
		{"measure of another kind", "[body]\nmeasures = {waist = \"slim\"}", `g.toml:3:21: body.measures.waist: "slim"; allowed: ` + lengths + `; write a number and its unit`},
		{"needed key", "[[bit]]\nname = \"a\"", `g.toml:2:1: bit 1.d: nothing; allowed: a length from 1 to 60 mm; add d = … (cutter diameter as measured)`},
		{"needed key in braces", "[[bit]]\nname = \"a\"\nd = 6\nbearing = {height = 5}", `g.toml:5:11: bit 1.bearing.d: nothing; allowed: a length from 3 to 60 mm; add d = … (diameter as measured)`},
		{"key twice", "hand = \"left\"\nhand = \"right\"", `g.toml:3:1: hand: "hand" a second time, first on line 2; allowed: each key once in its table; delete one of the two`},
		{"table twice", "[slab]\n[slab]", `g.toml:3:1: the table "slab" a second time, first on line 2; allowed: each table once; put the keys of both under one header`},
		{"name twice", "[[bit]]\nname = \"Flush\"\nd = 6\n[[bit]]\nname = \"flush\"\nd = 8", `g.toml:6:8: bit 2.name: "flush", which is also on line 3; allowed: each name once; give it another name`},
		{"pickup and cavity of one name", "[[pickup]]\nname = \"tail\"\n[[cavity]]\nname = \"tail\"", `g.toml:5:8: cavity 1.name: "tail", which is also on line 3; allowed: each name once; give it another name`},
		{"slash in a name", "[[pickup]]\nname = \"tail/bridge\"", `g.toml:3:8: pickup 1.name: "tail/bridge"; allowed: a name without / and \, since files are named after it; use a blank or - instead`},
		{"backslash in a name", "[[pickup]]\nname = 'a\\b'", `g.toml:3:8: pickup 1.name: "a\\b"; allowed: a name without / and \, since files are named after it; use a blank or - instead`},
		{"dots in a name", "[[pickup]]\nname = \"..\"", `g.toml:3:8: pickup 1.name: ".."; allowed: a name without .., since files are named after it; use one dot or none`},
		{"control character in a name", "[[pickup]]\nname = \"a\\u0007b\"", `g.toml:3:8: pickup 1.name: "a\ab"; allowed: visible letters, figures, signs and blanks on one line; delete the control characters`},
		{"line end in a title", `name = "a\nb"`, `g.toml:2:8: name: "a\nb"; allowed: visible letters, figures, signs and blanks on one line; delete the control characters`},
		{"text direction in a title", `name = "a\u202eb"`, `g.toml:2:8: name: "a\u202eb"; allowed: visible letters, figures, signs and blanks on one line; delete the control characters`},
		{"empty name", "[[pickup]]\nname = \" \"", `g.toml:3:8: pickup 1.name: " "; allowed: a text that is not empty; write a name, or delete the line`},
		{"long name", "[[pickup]]\nname = \"" + strings.Repeat("ü", 41) + `"`, `g.toml:3:8: pickup 1.name: "` + strings.Repeat("ü", 40) + `"…; allowed: at most 40 letters; use a shorter one`},
		{"bit that is not there", "[keys]\ncut = {bit = \"flash\"}\n[[bit]]\nname = \"flush\"\nd = 6", `g.toml:3:14: keys.cut.bit: "flash"; allowed: the name of a [[bit]] of this file: "flush"; did you mean "flush"?`},
		{"bush, and none in the file", "[keys]\ncut = {bush = \"large\"}", `g.toml:3:15: keys.cut.bush: "large"; allowed: the name of a [[bush]]; this file has none; add a [[bush]] of this name, or name one that is there`},
		{"two outlines", "[body]\nfile = \"a.svg\"\nfamily = \"lowland\"", `g.toml:4:10: body.family: a second outline; body.file on line 3 gives one already; allowed: one of body.family with its measures, body.file, body.half_widths; delete all but one`},
		{"measures for a file", "[body]\nfile = \"a.svg\"\n[body.measures]\nlower = 325", `g.toml:5:9: body.measures: a second outline; body.file on line 3 gives one already; allowed: one of body.family with its measures, body.file, body.half_widths; delete all but one`},
		{"misspelt paper", "[print]\npaper = [\"A4\", \"Lettre\"]", `g.toml:3:16: print.paper 2: "Lettre"; allowed: "A4", "A3", "A2", "A1", "A0", "Letter", "Legal", "Tabloid", "ANSI-C", "ANSI-D", "ANSI-E", "roll-610", "roll-914" or a size such as "300 x 450 mm"; did you mean "Letter"?`},
		{"tiny paper", "[print]\npaper = \"3 x 5 in\"", `g.toml:3:9: print.paper 1: "3 x 5 in"; allowed: "A4", "A3", "A2", "A1", "A0", "Letter", "Legal", "Tabloid", "ANSI-C", "ANSI-D", "ANSI-E", "roll-610", "roll-914" or a size such as "300 x 450 mm"; use a paper that a ruler fits on`},
		{"file elsewhere", "[body]\nfile = \"../a.svg\"", `g.toml:3:8: body.file: "../a.svg"; allowed: a file beside the design file; copy the file beside the design and give its name alone`},
		{"file of another kind", "[body]\nfile = \"a.png\"", `g.toml:3:8: body.file: "a.png"; allowed: a file name in quotes, ending in .svg, .dxf or .csv; save the outline in one of these formats`},
	} {
		_, got := read(t, c.body)
		if got = keyList.ReplaceAllString(got, "$1: …;"); got != c.want {
			t.Errorf("%s:\n got %s\nwant %s", c.name, got, c.want)
		}
	}
}

// keyList is the list of a table's keys in an error; it grows with the format.
var keyList = regexp.MustCompile(`(allowed: (?:in \[\w+\]|at the top of the file)): [a-z_, ]+;`)

// An unknown key is told all keys of its table, in the order of the types.
func TestUnknownKeyTellsAll(t *testing.T) {
	_, got := read(t, "[keys.cut]\nbite = 1")
	if want := "allowed: in [keys.cut]: bit, bush"; !strings.Contains(got, want) {
		t.Errorf("got %s\nwant %s", got, want)
	}
}

// A file that is no design at all has one error, with the place when one byte is
// to blame.
func TestNotADesign(t *testing.T) {
	const starter = "routwright new FILE writes a starter to begin with"
	for _, c := range []struct{ src, want string }{
		{"", "x: an empty file; allowed: a design file; " + starter},
		{" \r\n\t\n", "x: an empty file; allowed: a design file; " + starter},
		{"PK\x03\x04\n\x00\x00", "x:2:1: a binary file; allowed: a design file, which is plain text; give the name of the design file; " + starter},
		{"\xff\xfed\x00", "x: a text in UTF-16; allowed: a text in UTF-8; save the file as UTF-8 in your editor"},
		{"design = 1\nname = \"B\xe4r\"\n", "x:2:10: the byte 0xe4, which is no letter in UTF-8; allowed: a text in UTF-8; save the file as UTF-8 in your editor"},
		{strings.Repeat("#", MaxFile+1), "x: a file of more than 4 MB; allowed: a design file of at most 4 MB; give the name of the design file"},
		{"# nothing said\n", "x:1:1: design: nothing; allowed: 1; add design = 1 (version of this file's format)"},
		{"design = 2\n", "x:1:10: design: 2; allowed: 1; write 1"},
		{"design = \"1\"\n", `x:1:10: design: the text "1"; allowed: 1; write design = 1`},
	} {
		if _, err := Parse("x", []byte(c.src)); err == nil || err.Error() != c.want {
			t.Errorf("%.20q:\n got %v\nwant %s", c.src, err, c.want)
		}
	}
}

func TestAllErrorsInOneRunSorted(t *testing.T) {
	_, got := read(t, "hand = left\n[slab]\nrough = 1e3\nrogh = 3\n[keys]\ncut = {bit = \"x\"}\ngap = \"wide\"\n[body]\nfamily = 3\n")
	var places []string
	for _, line := range strings.Split(got, "\n") {
		places = append(places, strings.Join(strings.SplitN(line, ":", 5)[1:4], ":"))
	}
	want := []string{"2:8: hand", "4:9: slab.rough", "5:1: slab.rogh", "7:14: keys.cut.bit", "8:7: keys.gap", "10:10: body.family"}
	if d := cmp.Diff(want, places); d != "" {
		t.Error(d, got)
	}
}

func TestValuesKeepTheirPlaces(t *testing.T) {
	d, errs := read(t, `name = "Ø <&> 鍵 'x'"
units = "in"
print = {paper = "A4", measured = [99.5, 100]}
[slab]
rough = 1.875
plane.front = "1 mm"
blank = ["21 1/4 in", 14]
[[slab.crack]]
front = [[-1, "2 in"],
         ["3 mm", 4.5]]
tips = "last"
[body.measures]
lower = "13 in"
[[key]]
at = [0.5, "1/4 in"]
angle = -7.5
`)
	if errs != "" {
		t.Fatal(errs)
	}
	given := func(line, col int) Pos { return Pos{"g.toml", line, col} }
	for _, c := range []struct {
		what      string
		got, want any
	}{
		{"name", d.Name, Val[string]{"Ø <&> 鍵 'x'", given(2, 8), Given}},
		{"rough", d.Slab.Rough, Val[Length]{47.625, given(6, 9), Given}},
		{"plane", d.Slab.Plane.Front, Val[Length]{1, given(7, 15), Given}},
		{"plane's back", d.Slab.Plane.Back, Val[Length]{}},
		{"plane's place", d.Slab.Plane.Table, Table{given(7, 1), true}},
		{"blank", d.Slab.Blank, Val[[2]Length]{[2]Length{539.75, 355.6}, given(8, 9), Given}},
		{"crack's place", d.Slab.Crack[0].Table, Table{given(9, 1), true}},
		{"crack", d.Slab.Crack[0].Front, Val[[]geom.Point]{[]geom.Point{geom.Pt(-25.4, 50.8), geom.Pt(3, 114.3)}, given(10, 9), Given}},
		{"tips", d.Slab.Crack[0].Tips, Val[[]string]{[]string{"last"}, given(12, 8), Given}},
		{"measures", d.Body.Measures, map[string]Val[Length]{"lower": {330.2, given(14, 9), Given}}},
		{"body's place", d.Body.Table, Table{given(13, 2), true}},
		{"key", d.Key[0].At, Val[geom.Point]{geom.Pt(12.7, 6.35), given(16, 6), Given}},
		{"angle", d.Key[0].Angle, Val[Degrees]{-7.5, given(17, 9), Given}},
		{"paper", d.Print.Paper, Val[[]string]{[]string{"A4"}, given(4, 18), Given}},
		{"measured", d.Print.Measured, Val[[2]float64]{[2]float64{99.5, 100}, given(4, 35), Given}},
		{"absent table", d.Strings, Strings{}},
	} {
		if diff := cmp.Diff(c.want, c.got); diff != "" {
			t.Errorf("%s (-want +got):\n%s", c.what, diff)
		}
	}
}

// Measures may stand in braces or under a header of their own.
func TestMeasuresEitherWay(t *testing.T) {
	a, _ := read(t, "[body]\nmeasures = {lower = 325, waist = \"9 in\"}")
	b, _ := read(t, "[body.measures]\nlower = 325\nwaist = \"9 in\"")
	for _, k := range []string{"lower", "waist"} {
		if a.Body.Measures[k].V != b.Body.Measures[k].V || b.Body.Measures[k].V == 0 {
			t.Errorf("%s: %v and %v", k, a.Body.Measures[k], b.Body.Measures[k])
		}
	}
}

// The largest files that are nothing but errors are told in short: the cost of
// an error does not grow with the file. (A slip here shows as minutes.)
func TestHugeBadFiles(t *testing.T) {
	for name, line := range map[string]string{
		"unknown keys": "a%d = 1\n", "empty bits": "[[bit]]\n", "references": "[[bit]]\nname = 'b%d'\nd = 6\n[[pickup]]\ncut.bit = 'x'\n",
		"one long line": "[%d, x],", "nothing": "?",
	} {
		b := []byte("design = 1\n")
		if name == "one long line" {
			b = append(b, "slab.crack = ["...)
		}
		for i := 0; len(b) < MaxFile-100; i++ {
			b = append(b, strings.ReplaceAll(line, "%d", fmt.Sprint(i))...)
		}
		_, err := Parse("f", b)
		var es Errors
		if !errors.As(err, &es) || len(es) > enough+50 || len(err.Error()) > 100_000 {
			t.Errorf("%s: %d errors, %d bytes", name, len(es), len(fmt.Sprint(err)))
		}
	}
}

// Order does not matter, nor the kind of line end, nor which way a table is
// written.
func TestSameDesignWrittenOtherwise(t *testing.T) {
	want, _ := read(t, "units = \"in\"\n[slab]\nrough = 1.75\nplane = {front = 0.04}\n[[bit]]\nname = \"a\"\nd = 0.5\n[strings]\nscale = \"24 3/4\"\n")
	for _, body := range []string{
		"strings = {scale = 24.75}\nbit = [{name = 'a', d = \"1/2\"}]\nslab.rough = \"1 3/4\"\nslab.plane.front = \"1.016 mm\"\nunits = \"in\"\n",
		"units = \"in\"\r\n[[bit]]\r\nd = 0.5\r\nname = \"a\"\r\n[strings]\r\nscale = 24.75\r\n[slab.plane]\r\nfront = 0.04\r\n[slab]\r\nrough = 1.75",
	} {
		got, errs := read(t, body)
		if errs != "" {
			t.Fatal(errs)
		}
		for _, v := range [][2]Val[Length]{{want.Slab.Rough, got.Slab.Rough}, {want.Slab.Plane.Front, got.Slab.Plane.Front}, {want.Bit[0].D, got.Bit[0].D}, {want.Strings.Scale.One, got.Strings.Scale.One}} {
			if v[0].V != v[1].V || v[0].V == 0 {
				t.Errorf("%q: %v, want %v", body, v[1].V, v[0].V)
			}
		}
	}
}

func TestErrors(t *testing.T) {
	cause := fmt.Errorf("cause")
	many := errors.Join(cause, problems{"a", "b"})
	var es Errors
	es.Add(nil)
	if es.Err() != nil {
		t.Error("an error of none")
	}
	at := func(line int) Pos { return Pos{"f", line, 1} }
	es.Add(cause)
	es.Add(Errorf(at(9), "b", "1", "2", "3"))
	es.Add(fmt.Errorf("wrapped: %w", Errors{Errorf(at(2), "a", "1", "", "3"), Errorf(at(9), "b", "1", "2", "3")}))
	for range 2 { // errors that Go cannot compare, twice the same
		es.Add(problems{"p"})
	}
	es.Add(many)
	err := es.Err()
	if got, want := err.Error(), "f:2:1: a: 1; 3\nf:9:1: b: 1; allowed: 2; 3\ncause\np\ncause\na b"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
	var one Error
	if !errors.Is(err, cause) || !errors.As(err, &one) || one.Key != "a" {
		t.Errorf("neither its cause nor its first error: %v", one)
	}
}

// problems is an error of a type that Go cannot compare.
type problems []string

func (p problems) Error() string { return strings.Join(p, " ") }

func TestSuggest(t *testing.T) {
	known := rootSpec().keys()
	for word, want := range map[string]string{
		"slba": "slab", "Slab": "slab", "sting": "strings", "pikcup": "pickup", "fretbord": "fretboard", "cavitys": "cavity", "kyes": "keys",
		"design_version": "design", "temp": "template", "tuner": "", "x": "", "": "", "headstock": "", strings.Repeat("slab", 1000): "",
	} {
		if got := suggest(word, known); got != want {
			t.Errorf("suggest(%q) = %q, want %q", word, got, want)
		}
	}
}

func TestSlug(t *testing.T) {
	for name, want := range map[string]string{
		"pickup tail": "pickup-tail", "  A--b__C ": "a-b-c", "Große Öse": "grosse-ose", "鍵 1": "u9375-1", "Ключ": "u043au043bu044eu0447",
		"<&>\"'": "unnamed", "": "unnamed", "CON": "con-1", "10.5 mm": "10-5-mm", strings.Repeat("ab ", 40): strings.Repeat("ab-", 19) + "ab", "..": "unnamed",
	} {
		if got := Slug(name); got != want {
			t.Errorf("Slug(%q) = %q, want %q", name, got, want)
		}
	}
}

func FuzzParse(f *testing.F) {
	f.Add(Starter())
	for _, s := range []string{"design = 1", "design = 1\n[[slab.crack]]\nfront = [[1,2],[3,\"x\"]]", "[body]\nfamily=\"a\"\nfile=\"b\"", "key = [{at=[1,2]}, 3]", "units=\"in\"\nkeys={gap=nan}"} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, src []byte) {
		d, err := Parse("f", src)
		if (d == nil) == (err == nil) {
			t.Fatal("neither a design nor an error, or both")
		}
		var es Errors
		if !errors.As(err, &es) {
			return
		}
		lines := strings.Split(strings.TrimPrefix(string(src), "\ufeff"), "\n")
		for i, e := range es {
			if e.Pos.File != "f" || e.Given == "" || e.Allowed == "" || e.Cure == "" {
				t.Errorf("an error without its parts: %+v", e)
			}
			if e.Pos.Line == 0 && len(es) == 1 {
				continue // about the whole file
			}
			if e.Pos.Line < 1 || e.Pos.Line > len(lines) || e.Pos.Col < 1 || e.Pos.Col > utf8.RuneCountInString(lines[e.Pos.Line-1])+1 {
				t.Errorf("an error outside the file: %+v", e)
			}
			if i > 0 && e.Pos.before(es[i-1].Pos) {
				t.Errorf("out of order: %v after %v", e.Pos, es[i-1].Pos)
			}
			if strings.Contains(e.Error(), "\n") {
				t.Errorf("more than a line: %q", e)
			}
			for _, leak := range []string{"design.", "geom.", "toml.", "float64", "int64", "struct"} {
				if strings.Contains(e.Error(), leak) && !strings.Contains(string(src), leak) {
					t.Errorf("not for people: %s", e)
				}
			}
		}
	})
}

func BenchmarkParseStarter(b *testing.B) {
	src := Starter()
	b.SetBytes(int64(len(src)))
	for b.Loop() {
		if _, err := Parse("starter.toml", src); err != nil {
			b.Fatal(err)
		}
	}
}
