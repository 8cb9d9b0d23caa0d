package ingest

import (
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// dxfOf writes a DXF from lines; "|" parts the lines.
func dxfOf(units, entities string) string {
	head := ""
	if units != "" {
		head = "0|SECTION|2|HEADER|9|$INSUNITS|70|" + units + "|0|ENDSEC|"
	}
	return strings.ReplaceAll(head+"0|SECTION|2|ENTITIES|"+entities+"|0|ENDSEC|0|EOF|", "|", "\n")
}

func lwpoly(closed string, xy ...string) string {
	s := "0|LWPOLYLINE|8|BODY|70|" + closed
	for i := 0; i+1 < len(xy); i += 2 {
		s += "|10|" + xy[i] + "|20|" + xy[i+1]
	}
	return s
}

// TestBadInput lists what people give by mistake, and what they are told.
func TestBadInput(t *testing.T) {
	square := `<rect id="b" width="30" height="30"/>`
	bomb := `<!DOCTYPE svg [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;&a;"><!ENTITY c "&b;&b;&b;&b;">]><svg xmlns="http://www.w3.org/2000/svg"><path d="M0 0" id="&c;"/></svg>`
	fat := `<!DOCTYPE svg [<!ENTITY a "` + strings.Repeat("x", 5000) + `">]><svg xmlns="http://www.w3.org/2000/svg"><desc>` + strings.Repeat("&a;", 1000) + `</desc></svg>`
	useBomb := `<g id="u0"><rect width="1" height="1"/></g>`
	for i := range 20 {
		useBomb += strings.NewReplacer("A", string(rune('a'+i)), "P", map[bool]string{true: "u0", false: string(rune('a' + i - 1))}[i == 0]).Replace(`<g id="A"><use href="#P"/><use href="#P"/></g>`)
	}
	tests := []struct {
		name, file, text string
		opt              Options
		want             []string // parts of the message
	}{
		{"no ending", "body", "x", Options{}, []string{`ending "" is not known`, ".svg, .dxf or .csv"}},
		{"other drawing", "body.pdf", "x", Options{}, []string{".pdf files are not read", "save the drawing"}},
		{"empty svg", "a.svg", "", Options{}, []string{"a.svg: the file is empty"}},
		{"empty dxf", "a.dxf", " \n", Options{}, []string{"a.dxf: the file is empty"}},
		{"empty csv", "a.csv", "\n\n", Options{}, []string{"a.csv: the file is empty"}},
		{"binary svg", "a.svg", "\x89PNG\r\n\x1a\n\x00\x00", Options{}, []string{"not an SVG drawing but a binary file"}},
		{"gzip svg", "a.svg", "\x1f\x8b\x08\x00\x00", Options{}, []string{"compressed", "plain SVG"}},
		{"binary table", "a.csv", "\x00\x01\x02", Options{}, []string{"not a table but a binary file"}},
		{"binary dxf", "a.dxf", "SomeCAD Binary DXF\r\n\x1a\x00\x00", Options{}, []string{"binary DXF", "ASCII DXF"}},
		{"dwg", "a.dxf", "AC1015\x00\x00", Options{}, []string{".dwg", "ASCII DXF"}},
		{"random bytes dxf", "a.dxf", "\x00\xff\x01", Options{}, []string{"not a DXF but a binary file"}},
		{"text as dxf", "a.dxf", "Dear builder,\nhere is the body.\n", Options{}, []string{"a.dxf:1: a group code is expected", "Dear builder"}},
		{"text as svg", "a.svg", "Dear builder", Options{}, []string{"no <svg> element"}},
		{"html as svg", "a.svg", "<html><body/></html>", Options{}, []string{"a.svg:1:1", "<html>, must be <svg>"}},
		{"truncated xml", "a.svg", mm(square)[:150], Options{}, []string{"cut off"}},
		{"crossed tags", "a.svg", "<svg><g></svg></g>", Options{}, []string{"a.svg:1: not well-formed XML"}},
		{"entity bomb", "a.svg", bomb, Options{}, []string{`entity "b" calls others`}},
		{"entity swamp", "a.svg", fat, Options{}, []string{"entities would add"}},
		{"use bomb", "a.svg", mm(useBomb + `<use href="#t"/>`), Options{}, []string{"more than 200000 lines"}},
		{"use bomb of nothing", "a.svg", mm(strings.Replace(useBomb, "rect", "title", 1) + `<use href="#t"/>`), Options{}, []string{"multiply the drawing"}},
		{"use of itself", "a.svg", mm(`<g id="g"><use href="#g"/></g>`), Options{}, []string{"comes back to itself"}},
		{"use of nothing", "a.svg", mm(`<use href="#nope"/>`), Options{}, []string{`refers to "#nope"`}},
		{"deep groups", "a.svg", mm(strings.Repeat("<g>", 5000)), Options{}, []string{"deep in one another"}},
		{"no elements", "a.svg", mm(``), Options{}, []string{"holds no outline"}},
		{"only text", "a.svg", mm(`<text>body</text>`), Options{}, []string{"holds no outline", "turn letters into paths"}},
		{"only defs", "a.svg", mm(`<defs>` + square + `</defs>`), Options{}, []string{"holds no outline"}},
		{"bad command", "a.svg", mm(`<path id="body" d="M0 0 10 10 X"/>`), Options{}, []string{`<path> "body"`, "character 12", `"X" is not a path command`}},
		{"no M", "a.svg", mm(`<path d="L0 0 10 10"/>`), Options{}, []string{"character 1", "must start with M"}},
		{"missing number", "a.svg", mm(`<path d="M0 0L5"/>`), Options{}, []string{"a number is missing before \"the end\""}},
		{"bad flag", "a.svg", mm(`<path d="M0 0a5 5 0 2 0 5 5"/>`), Options{}, []string{`arc flag must be 0 or 1, not "2 0 5 5"`}},
		{"nan", "a.svg", mm(`<path d="M0 0LNaN 5"/>`), Options{}, []string{"a number is missing before \"NaN 5\""}},
		{"inf attribute", "a.svg", mm(`<rect width="inf" height="5"/>`), Options{}, []string{`width is "inf"`, "finite number"}},
		{"overflow", "a.svg", mm(`<path d="M0 0L1e999 5"/>`), Options{}, []string{`"1e999" is out of range`}},
		{"huge", "a.svg", mm(`<path d="M0 0L1e9 5"/>`), Options{}, []string{"out of range", "100 m"}},
		{"huge by transform", "a.svg", mm(`<g transform="scale(1e200)"><g transform="scale(1e200)"><rect width="1" height="1"/></g></g>`), Options{}, []string{"out of range"}},
		{"flattened", "a.svg", mm(`<g transform="scale(1 0)">` + square + `</g>`), Options{}, []string{"flatten it to nothing"}},
		{"bad transform", "a.svg", mm(`<g transform="spin(4)">` + square + `</g>`), Options{}, []string{`transform "spin(4)"`, "rotate 1 or 3"}},
		{"css transform", "a.svg", mm(`<g style="transform:rotate(4deg)">` + square + `</g>`), Options{}, []string{"CSS transform"}},
		{"bad unit", "a.svg", mm(`<rect width="4em" height="5"/>`), Options{}, []string{`width is "4em"`, "mm, cm, in"}},
		{"negative size", "a.svg", mm(`<rect width="-4" height="5"/>`), Options{}, []string{"must not be negative"}},
		{"bad page", "a.svg", `<svg width="wide" height="3mm"/>`, Options{}, []string{`width of the drawing is "wide"`}},
		{"bad viewBox", "a.svg", `<svg width="9mm" height="3mm" viewBox="0 0 0 5"/>`, Options{}, []string{"viewBox", "above 0"}},
		{"odd points", "a.svg", mm(`<polygon points="0 0 5 5 5"/>`), Options{}, []string{"points must be pairs"}},
		{"open", "a.svg", mm(`<path d="M0 0H100V50"/>`), Options{}, []string{"a.svg:1: the outline is open in 1 place", "gap of 111.803 mm from (0.000, 0.000) to (100.000, 50.000) mm"}},
		{"crossing", "a.svg", mm(`<path d="M0 0L100 100H0L100 0z"/>`), Options{}, []string{"crosses or touches itself at (50.000, 50.000) mm"}},
		{"spike", "a.svg", mm(`<path d="M0 0H100V50H200H0z"/>`), Options{}, []string{"crosses or touches itself"}},
		{"touching", "a.svg", mm(`<path d="M0 0H100V100L50 0L0 100z"/>`), Options{}, []string{"crosses or touches itself at (50.000, 0.000)"}},
		{"no area", "a.svg", mm(`<path d="M0 0H100z"/>`), Options{}, []string{"crosses or touches itself"}},
		{"two pieces", "a.svg", mm(`<g id="layer1">` + square + `<circle id="c" r="5" cx="90"/></g>`), Options{}, []string{"2 pieces", `#1 id "b" on layer "layer1" (line 1): 30.00 × 30.00 mm, closed`, `#2 id "c"`, `"largest"`}},
		{"pick of nothing", "a.svg", mm(square), Options{Pick: "body"}, []string{`nothing is called "body"`, `#1 id "b"`}},
		{"pick of two", "a.svg", mm(`<g id="l">` + square + `<circle id="c" r="5" cx="90"/></g>`), Options{Pick: "l"}, []string{`"l" means 2 pieces`}},
		{"bad option", "a.svg", mm(square), Options{Join: -1}, []string{"option join is -1"}},

		{"dxf without unit", "a.dxf", dxfOf("", lwpoly("1", "0", "0", "5", "0", "5", "5")), Options{}, []string{"does not state its unit", "mm or inches"}},
		{"dxf in parsecs", "a.dxf", dxfOf("20", lwpoly("1", "0", "0", "5", "0", "5", "5")), Options{}, []string{"$INSUNITS is 20"}},
		{"dxf cut off", "a.dxf", dxfOf("4", lwpoly("1", "0", "0", "5", "0", "5", "5"))[:90], Options{}, []string{"cut off"}},
		{"dxf nan", "a.dxf", dxfOf("4", lwpoly("1", "0", "nan", "5", "0", "5", "5")), Options{}, []string{`group 20: "nan" is not a finite number`, "a.dxf:"}},
		{"dxf huge", "a.dxf", dxfOf("4", lwpoly("1", "0", "1e300", "5", "0", "5", "5")), Options{}, []string{"out of range"}},
		{"dxf open", "a.dxf", dxfOf("4", lwpoly("0", "0", "0", "50", "0", "50", "50")), Options{}, []string{"open in 1 place", "from (0.000, 0.000) to (50.000, 50.000) mm"}},
		{"dxf two gaps", "a.dxf", dxfOf("4", "0|LINE|8|0|10|0|20|0|11|50|21|0|0|LINE|8|0|10|50.5|20|0|11|0|21|0.25"), Options{}, []string{"open in 2 places", "gap of 0.250 mm", "gap of 0.500 mm"}},
		{"dxf fork", "a.dxf", dxfOf("4", "0|LINE|10|0|20|0|11|50|21|0|0|LWPOLYLINE|10|0|20|0|10|25|20|30|10|50|20|0|0|LWPOLYLINE|10|0|20|0|10|25|20|-30|10|50|20|0"), Options{}, []string{"3 ends meet at (0.000, 0.000) mm, where two should", "3 ends meet at (50.000, 0.000) mm"}},
		{"dxf loop with a tail", "a.dxf", dxfOf("4", "0|LINE|10|0|20|0|11|50|21|0|0|LINE|10|50|20|0|11|50|21|50|0|LINE|10|50|20|50|11|0|21|0|0|LINE|10|0|20|0|11|-9|21|0"), Options{}, []string{"2 pieces", "50.00 × 50.00 mm, closed", "9.00 × 0.00 mm, open"}},
		{"dxf crossing", "a.dxf", dxfOf("4", lwpoly("1", "0", "0", "50", "50", "50", "0", "0", "50")), Options{}, []string{"crosses or touches itself at (25.000, 25.000)"}},
		{"dxf tilted", "a.dxf", dxfOf("4", "0|CIRCLE|10|0|20|0|40|5|210|1|220|0|230|0"), Options{}, []string{"tilted out of the drawing plane"}},
		{"dxf radius", "a.dxf", dxfOf("4", "0|CIRCLE|10|0|20|0|40|0"), Options{}, []string{"CIRCLE of radius 0"}},
		{"dxf missing group", "a.dxf", dxfOf("4", "0|LINE|10|0|20|0|11|5"), Options{}, []string{"LINE without group 21"}},
		{"dxf missing block", "a.dxf", dxfOf("4", "0|INSERT|2|KNOB|10|0|20|0"), Options{}, []string{`block "KNOB"`, "does not define"}},
		{"dxf block in itself", "a.dxf", strings.ReplaceAll("0|SECTION|2|BLOCKS|0|BLOCK|2|A|10|0|20|0|0|INSERT|2|A|10|0|20|0|0|ENDBLK|0|ENDSEC|", "|", "\n") + dxfOf("4", "0|INSERT|2|A|10|0|20|0"), Options{Unit: 1}, []string{`block "A" inserts itself`}},
		{"dxf spline", "a.dxf", dxfOf("4", "0|SPLINE|71|3|10|0|20|0|10|5|20|5"), Options{}, []string{"SPLINE", "2 control points"}},
		{"dxf only text", "a.dxf", dxfOf("4", "0|TEXT|1|BODY"), Options{}, []string{"holds no outline", "1 TEXT left out"}},

		{"csv without unit", "a.csv", "0,0\n5,0\n5,5\n", Options{}, []string{"unit of column x is not stated", "x (mm)"}},
		{"csv word", "a.csv", "0,0\n5,zero\n5,5\n", Options{Unit: 1}, []string{"a.csv:2:3", `y is "zero"`}},
		{"csv nan", "a.csv", "0,0\n5,NaN\n5,5\n", Options{Unit: 1}, []string{`y is "NaN"`, "finite"}},
		{"csv huge", "a.csv", "0,0\n5,1e8\n5,5\n", Options{Unit: 1}, []string{"y is 1e+08 mm", "at most"}},
		{"csv short row", "a.csv", "0,0\n5\n5,5\n", Options{Unit: 1}, []string{"a.csv:2", "column y is missing"}},
		{"csv of half widths", "ruler.csv", "y,bass,treble\n0,0,0\n", Options{Unit: 1}, []string{"half widths read with a ruler"}},
		{"path data in a style", "a.svg", mm(`<path style="d:path('M0 0h9v9z')"/>`), Options{}, []string{"its data stands in a style"}},
		{"join too wide", "a.svg", mm(square), Options{Join: 50}, []string{"option join is 50, must be a number from 0 to 5"}},
		{"csv columns", "a.csv", "a,b\n5,5\n", Options{Unit: 1}, []string{`names the columns "a, b", must name x, y`}},
		{"csv three columns", "a.csv", "1,2,3\n", Options{Unit: 1}, []string{"has 3 values, must have x, y"}},
		{"csv quote", "a.csv", "\"0,0\n5,5\n", Options{Unit: 1}, []string{"a.csv:"}},
		{"csv two points", "a.csv", "0,0\n5,5\n5,5\n", Options{Unit: 1}, []string{"2 different points", "3 at least"}},
		{"csv header only", "a.csv", "x,y\n", Options{Unit: 1}, []string{"no rows of numbers"}},
		{"csv open", "a.csv", "0,0\n10,0\n20,0\n30,0\n40,10\n", Options{Unit: 1}, []string{"open in 1 place"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			r, err := Read(tt.file, strings.NewReader(tt.text), tt.opt)
			if err == nil {
				_, err = Outline(r, tt.opt)
			}
			if err == nil {
				t.Fatal("no error")
			}
			var e *Error
			if !errors.As(err, &e) {
				t.Errorf("%T is not an *Error", err)
			}
			for _, w := range tt.want {
				if !strings.Contains(err.Error(), w) {
					t.Errorf("message\n  %s\nlacks %q", err, w)
				}
			}
		})
	}
}

// endless gives bytes without end and counts them.
type endless struct{ n int64 }

func (e *endless) Read(b []byte) (int, error) {
	for i := range b {
		b[i] = ' '
	}
	e.n += int64(len(b))
	return len(b), nil
}

// TestTooLarge gives a file of 200 MB, which must be refused by its size alone,
// and a stream, which must not be read much past the limit.
func TestTooLarge(t *testing.T) {
	name := filepath.Join(t.TempDir(), "big.svg")
	f, err := os.Create(name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if err := f.Truncate(200 << 20); err != nil { // sparse: takes no room
		t.Fatal(err)
	}
	for _, ending := range []string{".svg", ".dxf", ".csv"} {
		_, err := Read("big"+ending, f, Options{})
		if err == nil || !strings.Contains(err.Error(), "has 200 MB, at most 50 MB") {
			t.Errorf("%s: %v", ending, err)
		}
		if at, _ := f.Seek(0, io.SeekCurrent); at != 0 {
			t.Errorf("%s: %d bytes were read", ending, at)
		}
	}
	var e endless
	if _, err := Read("big.csv", &e, Options{}); err == nil || !strings.Contains(err.Error(), "more than 50 MB") {
		t.Error(err)
	}
	if e.n > MaxBytes*21/10 {
		t.Errorf("%d bytes were read", e.n)
	}
}
