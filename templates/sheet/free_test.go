package sheet_test

import (
	"fmt"
	"strings"
	"testing"

	"routwright/geom"
	"routwright/render"
	"routwright/templates/job"
	"routwright/templates/job/jobtest"
	"routwright/templates/sheet"
)

// pathed is an invented design with free paths on both faces.
const pathed = `
design = 1
hand = "%s"
[slab]
rough = 45
blank = [560, 420]
[[slab.crack]]
front = [[-75, -60], [-75, 100]]
[body]
family = "lowland"
tail = 110
[keys]
length = 50
ends = 24
waist = 13
depth = 12
cut = {bit = "a", free = true}
[[key]]
name = "low"
at = [-75, -30]
[[pickup]]
name = "tail"
kind = "humbucker"
at = 42
corner = 6.4
cut = {bit = "a", free = true}
[[cavity]]
name = "control"
outline = [[66, -56], [114, -56], [114, 20], [66, 20]]
corner = 9
depth = 38
cut = {bit = "a", free = true}
[[bit]]
name = "a"
d = 6.35
cut = 40
bearing = {d = 6.35, height = 5}
`

func solve(t *testing.T, text string) *job.Job {
	t.Helper()
	j := jobtest.Text(t, "t.toml", text)
	return j
}

// onLayer returns the lines of a drawing on a layer.
func onLayer(gs []render.Group, l render.Layer) (out []render.Shape) {
	for _, g := range gs {
		for _, s := range g.Shapes {
			if s.Layer == l {
				out = append(out, s)
			}
		}
		out = append(out, onLayer(g.Groups, l)...)
	}
	return out
}

// On the finished sheet, of either face and either hand, a path runs clockwise
// inside an opening and anticlockwise round a key; it lies the cutter's radius
// from the edge of the part, and both are where the part is.
func TestFreePathsOnSheets(t *testing.T) {
	for _, hand := range []string{"right", "left"} {
		j := solve(t, fmt.Sprintf(pathed, hand))
		seen := 0
		for _, s := range sheet.All(j, "") {
			inside := s.ID != "key"
			d, err := render.Layout(s, render.LayoutOptions{})
			if err != nil {
				t.Fatal(err)
			}
			paths, edges := onLayer(d.Groups, sheet.LayerPath), onLayer(d.Groups, sheet.LayerPartEdge)
			if len(paths) == 0 {
				continue
			}
			seen++
			for _, p := range paths {
				if a := p.Path.Area(); (a < 0) != inside || !p.Led {
					t.Errorf("%s hand, %s: area %g, led %v", hand, s.ID, a, p.Led)
				}
				rim := edges[0].Path
				if rim.Area() < 0 { // mirrored with the sheet
					rim = rim.Reversed()
				}
				edge := geom.IndexOf(geom.Region{rim})
				for _, v := range p.Path.Vertices() {
					// A corner of the path may lie further from a corner rounder than
					// the cutter, never nearer.
					if _, e := edge.Closest(v); e < 6.35/2-1e-6 || e > 6.35/2+0.1 || edge.Contains(v) != inside {
						t.Errorf("%s hand, %s: a corner of the path %g from the edge", hand, s.ID, e)
					}
				}
			}
			for _, f := range s.Block {
				if f.Name == "Template" || f.Name == "Keep clear" {
					t.Errorf("%s: a free path has no %s: %s", s.ID, f.Name, f.Value)
				}
			}
		}
		if seen != 5 {
			t.Errorf("%s hand: %d sheets with a path, want key, recess, all recesses, pickup and cavity", hand, seen)
		}
	}
}

// Every template says which way round, in which passes and how far the base
// reaches; where the waste is drilled the sheet shows the holes inside the line.
func TestShopWords(t *testing.T) {
	text := strings.ReplaceAll(fmt.Sprintf(pathed, "right"), ", free = true", "")
	j := solve(t, text+"[router]\nbase = 160\n")
	holes := 0
	byID := map[string]render.Sheet{}
	for _, s := range sheet.All(j, "") {
		byID[s.ID] = s
	}
	for _, e := range j.Templates {
		s := byID[e.ID]
		words := map[string]string{}
		for _, f := range s.Block {
			words[f.Name] = f.Value
		}
		if words["Feed"] == "" || !e.Male && (words["Passes"] == "" || words["Keep clear"] == "") {
			t.Errorf("%s: %v", s.ID, words)
		}
		if !e.Male && !strings.Contains(words["Keep clear"], "base of 160 mm reaches 76.83 mm") { // 80 − 3.175
			t.Errorf("%s: %s", s.ID, words["Keep clear"])
		}
		for _, g := range s.Groups {
			if !strings.HasPrefix(g.ID, "drill-out") {
				continue
			}
			edge := geom.IndexOf(e.For.Plan())
			for _, sh := range g.Shapes {
				if b := sh.Path.Bounds(); b.W() > 5 {
					holes++
					if _, d := edge.Closest(b.Center()); d < b.W()/2+1.5-1e-6 || !edge.Contains(b.Center()) {
						t.Errorf("%s: a hole %g from the line", s.ID, d-b.W()/2)
					}
				}
			}
		}
	}
	if holes < 6 {
		t.Errorf("%d holes for the waste", holes)
	}
}
