package record_test

import (
	"bytes"
	"io"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"routwright/geom"
	"routwright/templates/design"
	"routwright/templates/job"
	"routwright/templates/job/jobtest"
	"routwright/templates/record"
	"routwright/templates/sheet"
)

// demos are the designs that the project is tested with.
func demos(t testing.TB) []string {
	t.Helper()
	names, err := filepath.Glob("../../testdata/designs/*.toml")
	if err != nil || len(names) < 5 {
		t.Fatal(names, err)
	}
	return append(names, "../../testdata/millrace.toml", "../../testdata/slab.toml", "../../testdata/weirhouse.toml")
}

// solveText solves a design whose files lie in dir.
func solveText(t testing.TB, kept *job.Kept, text, dir string) *job.Job {
	t.Helper()
	d, err := design.Parse("test.toml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	j, err := job.SolveRound(kept, d, func(name string) (io.ReadCloser, error) { return os.Open(filepath.Join(dir, name)) })
	if err != nil {
		t.Fatal(err)
	}
	return j
}

func read(t testing.TB, name string) string {
	t.Helper()
	b, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

func written(t testing.TB, r *record.Record) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := r.Write(&b); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// sameBits compares numbers by their bits, so that −0 is not 0.
var sameBits = cmp.Options{
	cmp.Comparer(func(a, b float64) bool { return math.Float64bits(a) == math.Float64bits(b) }),
}

// A record comes back bit for bit, on every design, and writes the same bytes again.
func TestRoundTrip(t *testing.T) {
	for _, name := range demos(t) {
		j := solveText(t, nil, read(t, name), filepath.Dir(name))
		r := record.Of(j, sheet.All(j, ""))
		text := written(t, r)
		back, err := record.Read(text)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if d := cmp.Diff(r, back, sameBits); d != "" {
			t.Errorf("%s: (-made +read)\n%s", name, d)
		}
		if !bytes.Equal(written(t, back), text) {
			t.Errorf("%s: other bytes when written again", name)
		}
		if d := record.Compare(r, back); len(d.Changes) > 0 || d.Same == 0 {
			t.Errorf("%s: %d changes, %d the same", name, len(d.Changes), d.Same)
		}
		t.Logf("%s: %d bytes, %d templates, %d sheets", filepath.Base(name), len(text), len(r.Templates), len(r.Sheets))
	}
}

// copied returns a record that can be changed without the first: through its text.
func copied(t testing.TB, r *record.Record) *record.Record {
	t.Helper()
	c, err := record.Read(written(t, r))
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func demoRecord(t testing.TB) *record.Record {
	j := jobtest.Demo(t)
	return record.Of(j, sheet.All(j, ""))
}

func index(t *testing.T, r *record.Record, id string) *record.Template {
	t.Helper()
	for i := range r.Templates {
		if r.Templates[i].ID == id {
			return &r.Templates[i]
		}
	}
	t.Fatalf("no template %s", id)
	return nil
}

// A template whose edge is moved by v is told to have moved by |v|, whatever v is,
// and nothing else is told.
func TestMovedByItsVector(t *testing.T) {
	r := demoRecord(t)
	rng := rand.New(rand.NewPCG(5, 5))
	for i := range 60 {
		c := copied(t, r)
		k := rng.IntN(len(c.Templates))
		v := geom.Angle(2 * math.Pi * rng.Float64()).Unit().Mul(math.Pow(10, 5*rng.Float64()-4))
		c.Templates[k].Shape = geom.Translate(v).Region(c.Templates[k].Shape)
		d := record.Compare(r, c)
		if len(d.Changes) != 1 || d.Changes[0].ID != r.Templates[k].ID {
			t.Fatalf("case %d: %v", i, d.Changes)
		}
		if by := d.Changes[0].By; by > v.Len()+1e-9 || by < v.Len()-geom.FarSlack {
			t.Errorf("case %d: %s moved by %.6f, told %.6f", i, r.Templates[k].ID, v.Len(), by)
		}
	}
	// Under a millionth of a millimetre nothing moved.
	c := copied(t, r)
	c.Templates[0].Shape = geom.Translate(geom.Vec{X: 5e-7}).Region(c.Templates[0].Shape)
	if d := record.Compare(r, c); len(d.Changes) > 0 {
		t.Errorf("half of Still: %v", d.Changes)
	}
}

// Each kind of change is told, with its measure and in words, and sorted.
func TestCompareTells(t *testing.T) {
	r := demoRecord(t)
	for _, tt := range []struct {
		name   string
		change func(c *record.Record)
		by     float64
		want   string
	}{
		{"deeper", func(c *record.Record) { index(t, c, "pickup-tail").Depth = [2]float64{20.5, 20.5} }, 1.5, "depth 20.5 in place of 19 mm"},
		{"sloped", func(c *record.Record) { index(t, c, "pickup-tail").Depth = [2]float64{18, 19} }, 1, "depth 18 to 19 in place of 19 mm"},
		{"bit alone", func(c *record.Record) { index(t, c, "pickup-tail").Tool = "bit other" }, 0, "bit other in place of bit "},
		{"passes", func(c *record.Record) { index(t, c, "pickup-tail").Passes = 9 }, 0, "9 passes, the first "},
		{"sheet", func(c *record.Record) { index(t, c, "pickup-tail").Thickness = 12 }, 6, "sheet of 12 in place of 18 mm"},
		{"maker", func(c *record.Record) { index(t, c, "pickup-tail").Inside = 2 }, 0, "its inside corners no tighter than 2 in place of 3 mm"},
		{"pin moved", func(c *record.Record) { index(t, c, "pickup-tail").Pins[1].At.X += 3 }, 3, "pins moved by up to 3 mm"},
		{"pin thicker", func(c *record.Record) { index(t, c, "pickup-tail").Pins[0].D += 1 }, 1, "pins of 9 and 6 mm in place of 8 and 6"},
		{"no pins", func(c *record.Record) { index(t, c, "pickup-tail").Pins = nil }, 0, "0 pins in place of 2"},
		{"opening gone", func(c *record.Record) { index(t, c, "pickup-tail").Shape = nil }, 0, "edge drawn anew"},
		{"hole", func(c *record.Record) {
			x := index(t, c, "pickup-tail")
			x.Holes = append(x.Holes, record.Hole{D: 3})
		}, 0, "1 holes in place of 0"},
	} {
		c := copied(t, r)
		tt.change(c)
		d := record.Compare(r, c)
		if len(d.Changes) != 1 || math.Abs(d.Changes[0].By-tt.by) > 1e-9 || !strings.Contains(strings.Join(d.Changes[0].Words, "; "), tt.want) {
			t.Errorf("%s: %+v, want %s", tt.name, d.Changes, tt.want)
		}
	}
	c := copied(t, r)
	index(t, c, "pickup-tail").Depth[1] += 0.5
	x := index(t, c, "pickup-neck")
	x.Shape = geom.Translate(geom.Vec{Y: 1}).Region(x.Shape)
	c.Templates = append(c.Templates[:0:0], c.Templates...)
	index(t, c, "cavity-control").ID = "cavity-other"
	d := record.Compare(r, c)
	var ids []string
	for _, ch := range d.Changes {
		ids = append(ids, ch.ID)
	}
	if want := []string{"pickup-neck", "pickup-tail", "cavity-other", "cavity-control"}; !slices.Equal(ids, want) {
		t.Errorf("order %v, want %v", ids, want)
	}
	if all := record.Compare(r, r); len(all.Changes) != 0 || all.Same == 0 {
		t.Errorf("with itself: %+v", all)
	}
}

// What is damaged or foreign is an error in words.
func TestDamaged(t *testing.T) {
	text := string(written(t, demoRecord(t)))
	for _, tt := range []struct{ old, new, want string }{
		{text, "", "damaged"},
		{text, "[1, 2]", "damaged"},
		{text, "{}", "no record of a set made by routwright"},
		{`"routwright"`, `"other"`, "no record of a set made by routwright"},
		{`"record":1`, `"record":2`, "a record of format 2; this program reads format 1"},
		{`"record":1`, `"record":7,"pins":4`, "a record of format 7"},
		{`"hand":"right"`, `"hand":"both"`, "hand is"},
		{`"thickness":`, `"thickness":-`, "thickness"},
		{`"id":"pickup-tail"`, `"id":"pickup-neck"`, "twice"},
		{`"face":"front"`, `"face":"top"`, "not front or back"},
		{`"d":8`, `"d":0`, "pin P"},
		{`"d":8`, `"d":1e9`, "pin P"},
		{`"d":8`, `"d":1e999`, "damaged"},
		{`"plan":[[[`, `"plan":[[[0,0,0,`, "11 numbers"},
		{`"plan":[[[`, `"plan":[[[1,2],[`, "starts nowhere"},
		{`"plan":[`, `"plan":[[],`, "without segments"},
		{`,1]`, `,3]`, "turns by 3"},
		{`"plan":[`, `"plan":[7,`, "no list of lists of numbers"},
		{`"plan":[[[`, `"plan":[[["x"],[`, "no list of lists of numbers"},
		{text[len(text)/2:], "", "damaged at byte"},
	} {
		bad := strings.Replace(text, tt.old, tt.new, 1)
		if bad == text {
			t.Errorf("the record has no %q", tt.old)
			continue
		}
		if _, err := record.Read([]byte(bad)); err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%.20q → %.20q: %v, want …%s…", tt.old, tt.new, err, tt.want)
		}
	}
}

// No text makes Read panic; what it reads is compared and written again.
func FuzzRead(f *testing.F) {
	small := demoRecord(f) // a whole one is too long to be changed well
	small.Parts, small.Templates, small.Sheets = small.Parts[1:3], small.Templates[:1], small.Sheets[:1]
	f.Add(written(f, small))
	f.Add([]byte(`{"record":1,"program":"routwright","name":"","hand":"left","thickness":44.5,"pins":[{"name":"P","at":[0,1],"d":8}],"parts":[{"id":"a","name":"a","kind":"jack hole","face":"back","bores":[{"from":[0,0,1],"to":[0,0,2],"d":3}]},{"id":"b","name":"b","kind":"contour","face":"front","solids":[{"top":[0,0,0],"floor":[1,0.1,0],"plan":[[[0,0,1,0],[0,0,0.5,0,0.5,1]]]}]}],"keys":[{"name":"k","at":[0,0],"turn":1,"face":"back","length":60}],"templates":[{"id":"t","shape":[[[0,0,1,1]]]}],"sheets":[{"id":"s","lines":[[[0,0,1,0],[2,0,1.5,0,0.5,-1]]]}]}`))
	f.Fuzz(func(t *testing.T, text []byte) {
		r, err := record.Read(text)
		if err != nil {
			return
		}
		if d := record.Compare(r, r); len(d.Changes) > 0 {
			t.Fatalf("differs from itself: %+v", d.Changes)
		}
		back := copied(t, r)
		if !bytes.Equal(written(t, back), written(t, r)) {
			t.Fatal("other bytes when read again")
		}
		if len(text) > 20_000 { // what is compared below is cut short on purpose
			return
		}
		for i := range back.Templates {
			back.Templates[i].Shape = geom.Translate(geom.Vec{X: 1}).Region(back.Templates[i].Shape)
		}
		record.Compare(r, back)
	})
}

func BenchmarkRecord(b *testing.B) {
	j := solveText(b, nil, read(b, "../../testdata/millrace.toml"), "../../testdata")
	sheets := sheet.All(j, "")
	r := record.Of(j, sheets)
	text := written(b, r)
	b.Run("of and write", func(b *testing.B) {
		for b.Loop() {
			written(b, record.Of(j, sheets))
		}
	})
	b.Run("read", func(b *testing.B) {
		for b.Loop() {
			if _, err := record.Read(text); err != nil {
				b.Fatal(err)
			}
		}
	})
	other := copied(b, r)
	for i := range other.Templates {
		x := &other.Templates[i]
		x.Shape = geom.Translate(geom.Vec{X: 0.3, Y: 0.1}).Region(x.Shape)
	}
	b.Run("compare, all moved", func(b *testing.B) {
		for b.Loop() {
			record.Compare(r, other)
		}
	})
}
