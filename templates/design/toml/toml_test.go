package toml

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	peer "github.com/pelletier/go-toml/v2"
)

// plain turns a tree into maps and slices, to compare it with another reader's.
func plain(t *Table) map[string]any {
	m := map[string]any{}
	for _, e := range t.Entries {
		m[e.Key] = plainValue(e.Value)
	}
	return m
}

func plainValue(v *Value) any {
	switch v.Kind {
	case String:
		return v.Text
	case Integer:
		return v.Int
	case Float:
		return v.Float
	case Bool:
		return v.Bool
	case Date:
		return "date"
	case Inline:
		return plain(v.Table)
	case Array, Tables:
		items := []any{}
		for _, i := range v.Items {
			items = append(items, plainValue(i))
		}
		return items
	}
	return "broken"
}

// peerValue brings the other reader's values to the same form.
func peerValue(v any) any {
	switch v := v.(type) {
	case map[string]any:
		for k := range v {
			v[k] = peerValue(v[k])
		}
		return v
	case []any:
		for i := range v {
			v[i] = peerValue(v[i])
		}
		return v
	case time.Time, peer.LocalDate, peer.LocalDateTime, peer.LocalTime:
		return "date"
	}
	return v
}

// valid holds files that TOML 1.0 allows, written after the chapters of
// toml.io/en/v1.0.0.
var valid = []string{
	"", "\n\n", "# only a comment", "a = 1\r\nb = 2\r\n",
	"a = 1 # why", "a=1", "\ta\t=\t1\t", "1234 = 1", "- = 1", "_ = 1", "a-b_c = 1",
	`"quoted key" = 1`, `'lit "key"' = 1`, `"" = 1`, `"ʎǝʞ" = "v"`, `"a.b" = 1`,
	"a.b.c = 1\na.b.d = 2", "a . b = 1", `a."b c".'d' = 1`, "3.14 = 1",
	"a.b = 1\nc = 2\na.d = 3",
	// strings
	`s = ""`, `s = ''`, `s = "a\tb\n\"q\"\\\b\f\r"`, `s = "\u00e9 \U0001F3B8"`, `s = 'C:\no\escape'`,
	"s = \"\"\"\nfirst gone\"\"\"", "s = \"\"\"a\nb\r\nc\"\"\"", "s = \"\"\"a\\\n   \n\t b\"\"\"", "s = \"\"\"\\\n  \"\"\"",
	`s = """two "" quotes"""`, `s = """"one"""`, `s = """end""""`, `s = """end"""""`, `s = ''''a''''`, `s = '''''a'''''`,
	"s = '''\nraw \\ 'text'\n'''", `s = "# no comment"`, "s = \"tab\there\"", "s = '''a\\\nb'''",
	// numbers
	"n = 0", "n = +0", "n = -0", "n = +99", "n = 1_000", "n = 0xDEADBEEF", "n = 0xdead_beef", "n = 0o755", "n = 0b1101_0110",
	"n = 9223372036854775807", "n = -9223372036854775808",
	"n = 1.0", "n = -0.01", "n = 5e+22", "n = 1e06", "n = -2E-2", "n = 6.626e-34", "n = 224_617.445_991_228", "n = 0.0", "n = -0.0", "n = 0e0",
	"n = [true, false]",
	// dates
	"d = 1979-05-27T07:32:00Z", "d = 1979-05-27T00:32:00.999999-07:00", "d = 1979-05-27 07:32:00z", "d = 1979-05-27t07:32:00",
	"d = 1979-05-27", "d = 07:32:00", "d = 00:32:00.999", "d = 2024-02-29", "d = [1979-05-27 07:32:00, 07:00:00] # two",
	// arrays
	"a = []", "a = [ ]", "a = [1, 2, 3,]", "a = [\n 1, # one\n # none\n 2\n,\n]", `a = [1, "x", 1.5, [true], {b = 1}]`, "a = [[1, 2], [3]]\nb = [[], [[]]]",
	// tables
	"[t]", "[ t ]", "[t] # why\na = 1", "[a.b.c]\nd = 1\n[a]\ne = 2", "[a . b]\n[a.'c d']", "[x.y]\n[x.z]\n[x]",
	"t = {}", "t = { }", `t = {a = 1, b.c = 2, "d e" = {f = []}}`, "t = {a.b = 1, a.c = 2}",
	"[fruit]\napple.color = 1\napple.taste.sweet = true\n[fruit.pear]\n", "[fruit]\napple.color = 1\n[fruit.apple.texture]\nsmooth = true",
	"[[p]]\na = 1\n[[p]]\n[[p]]\nb = 2", "[[f]]\nn = 1\n[f.p]\nc = 1\n[[f.v]]\nn = 1\n[[f.v]]\nn = 2\n[[f]]\n[[f.v]]\nn = 3",
	"[[a.b]]\nx = 1\n[a]\ny = 2", "[a]\n[a.b]\n[[a.c]]\n[[a.c]]",
	"[tail]\nt = 1\n[[pickup]]\n[pickup.cut]\nbit = 1\n[[pickup]]\n[pickup.cut]\nbit = 2",
}

// invalid holds files that TOML 1.0 forbids.
var invalid = []string{
	"a", "a =", "= 1", "a = 1 b = 2", "a == 1", "a: 1", "a = 1\na = 2", "a.b = 1\na = 2", "a = 1\na.b = 2", "a b = 1", "a..b = 1", ".a = 1", "a. = 1",
	"é = 1", `"""a""" = 1`, "a = 1\n\"a\" = 2", "\"a\nb\" = 1",
	`s = "open`, `s = 'open`, `s = "\x"`, `s = "\u12"`, `s = "\uD800"`, `s = "\U00110000"`, `s = "\u+123"`, "s = \"a\nb\"", "s = 'a\nb'", "s = \"\"\"open", "s = '''open",
	"s = \"\x00\"", "s = \"\x1f\"", "s = \"\x7f\"", "# \x00", "# \x7f", "s = bare", `s = "a" "b"`, `s = "a"b`, `s = """a""""""`, "s = \"\"\"a\\ b\"\"\"", "a = 1\rb = 2", "s = '''\r'''",
	"n = 01", "n = +01", "n = 1_", "n = _1", "n = 1__0", "n = 0x", "n = 0xG", "n = +0x1", "n = 0X1", "n = 0b2", "n = 0o8", "n = 9223372036854775808",
	"n = .5", "n = 5.", "n = 1.e3", "n = 1e", "n = 1e1.5", "n = 1_.0", "n = 1._0", "n = 03.14", "n = 1,5", "n = --1", "n = Inf", "n = NaN", "n = + 1", "n = 1 2",
	"b = True", "b = FALSE", "b = tru", "b = truer",
	"d = 1979-13-01", "d = 1979-02-30", "d = 2023-02-29", "d = 1979-05-27T25:00:00", "d = 24:00:00", "d = 07:60:00", "d = 1979-5-27", "d = 1979-05-27T07:32:00+25:00", "d = 1979-05-27 07",
	"a = [1", "a = [1 2]", "a = [,]", "a = [1,,2]", "a = [1]]", "a = [", "a = ]", "a = [\n1\nb = 2",
	"[t", "[t]]", "[[t]", "[t] a = 1", "[]", "[[]]", "[a.]", "[.a]", "[a..b]", "[a b]", "[ [t]]", "[[t] ]",
	"[t]\n[t]", "[a.b]\n[a]\n[a.b]", "[a]\nb = 1\n[a.b]", "[[a]]\n[a]", "[a]\n[[a]]", "a = []\n[[a]]", "a = [{}]\n[[a]]", "[fruit.physical]\n[[fruit]]",
	"t = {a = 1,}", "t = {a = 1 b = 2}", "t = {a = 1, a = 2}", "t = {,}", "t = {a}", "t = {", "t = {a = 1", "t = {a = 1\n}", "t = {\n}", "t = {a = 1}\nt.b = 2", "t = {a = 1}\n[t]", "t = {a = 1}\n[t.b]", "t = {a.b = 1}\n[t.a.c]", "t = {a = {}, a.b = 1}",
	"[fruit]\napple.color = 1\n[fruit.apple]", "[a.b.c]\nz = 9\n[a]\nb.c.t = 1", "[a.b]\nx = 1\n[a]\nb.y = 2", "[[a.b]]\n[a]\nb.y = 2",
	"[a]\nb.c = 1\n[a.d]\n[a.b.c]", "[[a]]\nb = 1\n[[a.b]]",
}

func TestValidFilesReadAsAnotherReaderReadsThem(t *testing.T) {
	for _, src := range valid {
		tree, errs := Parse([]byte(src))
		if len(errs) > 0 {
			t.Errorf("%q: %v", src, errs)
			continue
		}
		want := map[string]any{}
		if err := peer.Unmarshal([]byte(src), &want); err != nil {
			t.Errorf("%q: the other reader refuses it: %v", src, err)
			continue
		}
		if d := cmp.Diff(peerValue(want), any(plain(tree))); d != "" {
			t.Errorf("%q (-other +ours):\n%s", src, d)
		}
	}
}

// Some editors begin a file with a byte order mark: it is passed over.
func TestByteOrderMark(t *testing.T) {
	if tree, errs := Parse([]byte("\ufeffa = 1")); len(errs) > 0 || tree.Get("a").At != (Pos{1, 1}) {
		t.Error(tree, errs)
	}
}

func TestSpecialNumbers(t *testing.T) {
	for src, want := range map[string]float64{"inf": math.Inf(1), "+inf": math.Inf(1), "-inf": math.Inf(-1), "1e999": math.Inf(1), "1e-999": 0} {
		tree, errs := Parse([]byte("n = " + src))
		if v := tree.Get("n"); len(errs) > 0 || v.Value.Float != want {
			t.Errorf("%s: %v, %v", src, v, errs)
		}
	}
	tree, _ := Parse([]byte("n = nan"))
	if !math.IsNaN(tree.Get("n").Value.Float) {
		t.Error("nan")
	}
}

// laxPeer lists what the other reader (which follows TOML 1.1 in part) allows.
var laxPeer = map[string]bool{
	"t = {a = 1,}": true, "t = {a = 1\n}": true, "t = {\n}": true, `s = "\x"`: false,
}

func TestInvalidFilesAreRefused(t *testing.T) {
	for _, src := range invalid {
		if _, errs := Parse([]byte(src)); len(errs) == 0 {
			t.Errorf("%q was accepted", src)
		}
		var m map[string]any
		if err := peer.Unmarshal([]byte(src), &m); (err == nil) != laxPeer[src] {
			t.Errorf("%q: the other reader says %v", src, err)
		}
	}
}

func TestPlaces(t *testing.T) {
	src := "é = 1\n[slab]\n\trough = [ 1,\n  'ü', {a = 2}]\r\n[[bit]]\na.b = 3\n"
	tree, errs := Parse([]byte(strings.Replace(src, "é", `"é"`, 1)))
	if len(errs) > 0 {
		t.Fatal(errs)
	}
	slab := tree.Get("slab").Value.Table
	rough := slab.Get("rough")
	bit := tree.Get("bit").Value.Items[0].Table
	for _, c := range []struct {
		what string
		got  Pos
		want Pos
	}{
		{"value after a quoted key", tree.Get("é").Value.At, Pos{1, 7}},
		{"table", slab.At, Pos{2, 1}},
		{"key after a tab", rough.At, Pos{3, 2}},
		{"list", rough.Value.At, Pos{3, 10}},
		{"item", rough.Value.Items[0].At, Pos{3, 12}},
		{"second item", rough.Value.Items[1].At, Pos{4, 3}},
		{"key in braces, after a letter of two bytes", rough.Value.Items[2].Table.Get("a").At, Pos{4, 9}},
		{"[[header]]", bit.At, Pos{5, 1}},
		{"dotted key", bit.Get("a").Value.Table.Get("b").At, Pos{6, 3}},
	} {
		if c.got != c.want {
			t.Errorf("%s at %v, want %v", c.what, c.got, c.want)
		}
	}
}

// Every error of a file is found in one run, and one mistake makes one error.
func TestErrorsAllAtOnce(t *testing.T) {
	for _, c := range []struct{ name, src, want string }{
		{"three lines", "a = 25 1/2 in\nb = 1\nc = yes\nd = 'open\ne = 2\n", "1:5 a|3:5 c|4:5 d"},
		{"list not closed, key next", "front = [[1, 2],\n  [3, 4],\nback = [[1, 2]]\ndepth = x\n", "3:1 front|4:9 depth"},
		{"inner list not closed", "front = [[1, 2], [3, 4\nback = [[1, 2]]\n", "2:1 front"},
		{"list not closed, header next", "a = [1, 2\n[slab]\nb = 1\n", "2:1 a"},
		{"two bad values in a list", "a = [1,5x, 2,\n 3, .5,\n 4]\nb = 1\n", "1:8 a|2:5 a"},
		{"text open in a list", "a = [1, 'x, 2,\n 3]\nb = ?\n", "1:9 a|3:5 b"},
		{"table over lines", "t = {\n a = 1,\n b = 2,\n}\nc = no\n", "1:6 t|5:5 c"},
		{"table not closed", "t = {a = 1\nc = no\n", "1:11 t|2:5 c"},
		{"bad value in a table", "t = {a = 1/4 in, b = .5}\nc = no", "1:10 t.a|1:22 t.b|2:5 c"},
		{"twice, with a long value", "a = 1\na = [\n [1, 2],\n]\nb = .5", "2:1 a|5:5 b"},
		{"keys below a bad header", "[slab\na = 1\n[slab]\na = 1\n[slab]\na = 1\n", "1:6 |5:1 "},
		{"keys under a name", "[slab.plane]\nfront = 1 mm\n", "2:9 slab.plane.front"},
	} {
		_, errs := Parse([]byte(c.src))
		var got []string
		for _, e := range errs {
			got = append(got, strconv.Itoa(e.At.Line)+":"+strconv.Itoa(e.At.Col)+" "+e.Key)
		}
		if s := strings.Join(got, "|"); s != c.want {
			t.Errorf("%s: %s, want %s\n%v", c.name, s, c.want, errs)
		}
	}
}

// The slips of the hand that people make, and the cure that each gets.
func TestCures(t *testing.T) {
	for _, c := range []struct{ src, want string }{
		{"a: 1", `": 1" after the key; an equals sign; write = instead of :`},
		{"a\u00a0= 1", `"\u00a0= 1" after the key; an equals sign; replace the special blank by an ordinary one`},
		{"a =", `no value after the equals sign; a number, a text in quotes, a [list], a {table}, true or false; write the value, or delete the line`},
		{"a = # later", `no value after the equals sign; a number, a text in quotes, a [list], a {table}, true or false; write the value, or delete the line`},
		{"a", `the end of the file after the key; an equals sign; write a = value`},
		{"a = .5", `".5"; a digit before the decimal point; write 0.5`},
		{"a = -.5", `"-.5"; a digit before the decimal point; write -0.5`},
		{"a = 5.", `"5."; a digit after the decimal point; write 5.0`},
		{"a = 007", `"007"; a number without a leading zero; write 7`},
		{"a = 00.5", `"00.5"; a number without a leading zero; write 0.5`},
		{"a = 1.2.3", `"1.2.3"; one decimal point; write the number again`},
		{"a = Yes", `"Yes"; true or false; write true`},
		{"a = FALSE", `"FALSE"; true or false; write false`},
		{"a = 44.5 mm # thick", `"44.5 mm"; a plain number, or a text in quotes; a length with its own unit stands in quotes: "25 1/2 in", "44.5 mm"`},
		{"a = [1/4 in, 3]", `"1/4 in"; a plain number, or a text in quotes; a length with its own unit stands in quotes: "25 1/2 in", "44.5 mm"`},
		{"a = “walnut”", `"“walnut”"; straight quotes, " or '; type the quotes again in a plain text editor`},
		{"a = black walnut", `"black walnut" without quotes; a text in quotes; write "black walnut"`},
		{"a = 'C:\\x", `"'C:\\x" without its closing quote; a text closed by '; close the text with '`},
		{`a = "C:\x"`, `"\\x\"" after a backslash; \b \t \n \f \r \" \\ \uXXXX \UXXXXXXXX; write \\ for a backslash, / in a file name, or single quotes round the text`},
		{"a = 1; b = 2", `"1; b = 2"; a plain number, or a text in quotes; a length with its own unit stands in quotes: "25 1/2 in", "44.5 mm"`},
		{"a = 2026-02-30", `"2026-02-30"; a day and a time that exist; mend the date`},
		{"a = 99999999999999999999", `"99999999999999999999"; whole numbers of at most 18 digits; use a smaller number`},
		{"[a", `the end of the file in a header; [a]; close the header with ]`},
		{"[[a]", `"]" in a header; [[a]]; close the header with ]]`},
		{"[[a]]\n[a]", `[a] after [[a]] on line 1; one kind of header for one name; write [[a]]`},
		{"a = 1\ra = 2", `a carriage return alone; line ends of LF or CR LF; save the file with ordinary line ends`},
	} {
		_, errs := Parse([]byte(c.src))
		if len(errs) != 1 || errs[0].Error() != c.want {
			t.Errorf("%q:\n got %v\nwant %s", c.src, errs, c.want)
		}
	}
}

func TestNothingLikeToml(t *testing.T) {
	if _, errs := Parse([]byte(strings.Repeat("?!\n", 5000))); len(errs) != maxErrors {
		t.Errorf("%d errors", len(errs))
	}
	if _, errs := Parse([]byte("a = " + strings.Repeat("[", 100000))); len(errs) == 0 {
		t.Error("brackets without end accepted")
	}
	if _, errs := Parse([]byte("a = [" + strings.Repeat("?,", 5000) + "]")); len(errs) != maxErrors {
		t.Errorf("%d errors", len(errs))
	}
}

func FuzzParse(f *testing.F) {
	for _, s := range append(append([]string{}, valid...), invalid...) {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, src []byte) {
		tree, errs := Parse(src)
		lines := strings.Split(strings.TrimPrefix(string(src), "\ufeff"), "\n")
		for _, e := range errs {
			if e.At.Line < 1 || e.At.Line > len(lines) || e.At.Col < 1 || e.At.Col > len([]rune(lines[e.At.Line-1]))+1 {
				t.Errorf("%q: error outside the file: %+v", src, e)
			}
			if e.Given == "" || e.Allowed == "" || e.Cure == "" {
				t.Errorf("%q: error without its parts: %+v", src, e)
			}
		}
		if len(errs) > 0 {
			return
		}
		if s := fmt.Sprint(plain(tree)); strings.Contains(s, "broken") && !strings.Contains(string(src), "broken") {
			t.Errorf("%q: a broken value without an error: %s", src, s)
		}
		// What we accept, the other reader accepts with the same values.
		want := map[string]any{}
		if err := peer.Unmarshal(src, &want); err != nil {
			t.Skip(err) // looked at by hand: see peer limits in TestInvalidFilesAreRefused
		}
	})
}

func BenchmarkParseOneLongLine(b *testing.B) {
	src := []byte("a = [" + strings.Repeat("1.25, ", 600_000) + "]")
	b.SetBytes(int64(len(src)))
	for b.Loop() {
		Parse(src)
	}
}
