package job_test

import (
	"math"
	"strings"
	"testing"

	"routwright/geom"
	"routwright/templates/design"
	"routwright/templates/job"
	"routwright/templates/part"
	"routwright/templates/space"
)

const plain = `
design = 1
name = "Plain"
units = "mm"
[slab]
rough = 45
plane = {front = 0, back = 0}
blank = [560, 420]
[strings]
scale = 628.65
[body]
family = "lowland"
tail = 110
[template]
thickness = 18
smallest_inside_radius = 3
`

func solve(t *testing.T, text string) (*job.Job, error) {
	t.Helper()
	d, err := design.Parse("test.toml", []byte(text))
	if err != nil {
		return nil, err
	}
	return memory.Solve(d, nil)
}

func must(t *testing.T, text string) *job.Job {
	t.Helper()
	j, err := solve(t, text)
	if err != nil {
		t.Fatal(err)
	}
	return j
}

// takenAt returns how deep a contour part lies at p from its own face, 0 where it
// does not reach.
func takenAt(j *job.Job, c part.Part, p geom.Point) float64 {
	for _, s := range c.Solids {
		if s.Plan.Contains(p) {
			if c.Face == part.Back {
				return j.Thickness - s.Top.At(p)
			}
			return s.Floor.At(p)
		}
	}
	return 0
}

// A round section leaves the face in its own direction: with run L and depth D
// its radius is (L² + D²)/2D and its depth x from the inner line R − √(R² − x²).
// The facets are never shallower, and deeper by no more than what is told.
func TestRoundSection(t *testing.T) {
	for _, face := range []string{"forearm", "belly"} {
		j := must(t, plain+"[[body.contour]]\nkind = \""+face+"\"\ny = -40\ndepth = 15\nreach = 75\nsection = \"round\"\n")
		c := j.Contours[0]
		p, _ := j.PartByID(c.ID)
		run := c.Profile[len(c.Profile)-1].X
		r := (run*run + 15*15) / 30
		n, most := 0, 0.0
		b := c.Plan.Bounds()
		for x := b.Min.X; x < b.Max.X; x += 1.7 {
			for y := b.Min.Y; y < b.Max.Y; y += 2.3 {
				q := geom.Pt(x, y)
				if !c.Plan.Contains(q) {
					continue
				}
				from := 75 - q.Sub(c.At).Dot(c.In)
				want := r - math.Sqrt(r*r-from*from)
				if face == "belly" { // runs out over the outer quarters of its span of 220
					along := math.Abs(q.Sub(c.At).Dot(c.In.Left()))
					want = math.Min(want, 15*(110-along)/55)
				}
				off := takenAt(j, p, q) - want
				if off < -1e-9 || off > c.Out+1e-9 {
					t.Fatalf("%s: at %v, %.3f from the inner line: %.4f mm off the arc, told %.4f", face, q, from, off, c.Out)
				}
				n, most = n+1, math.Max(most, off)
			}
		}
		if n < 500 || c.Out > 0.1 || most < c.Out/2 {
			t.Errorf("%s: %d places, facets %d, off by %.4f at most, told %.4f", face, n, c.Facets, most, c.Out)
		}
		if _, floor := p.Range(); face == "forearm" && math.Abs(floor-15) > 1e-6 {
			t.Errorf("deepest %.4f, want 15", floor)
		}
	}
}

// Lines of equal depth: every point of a line lies as deep as it says, to what a
// facet's neighbour is out by.
func TestLevels(t *testing.T) {
	for _, section := range []string{"flat", "round"} {
		j := must(t, plain+"[[body.contour]]\nkind = \"forearm\"\ny = -40\ndepth = 15\nreach = 75\nangle = 8\nsection = \""+section+"\"\n")
		c := j.Contours[0]
		p, _ := j.PartByID(c.ID)
		if len(c.Levels) != 8 || c.Levels[1].Depth != 2 {
			t.Fatalf("%s: %d levels", section, len(c.Levels))
		}
		for _, l := range c.Levels {
			for _, line := range l.Lines {
				for _, u := range []float64{0.1, 0.5, 0.9} {
					q := line[0].At(u).Sub(geom.Pt(0, 0)) // a hair towards the outline, off the line between two facets
					at := geom.Pt(q.X, q.Y).Add(c.In.Mul(-1e-6))
					if d := takenAt(j, p, at); math.Abs(d-l.Depth) > 1e-4 {
						t.Errorf("%s: line of %g: %.5f deep", section, l.Depth, d)
					}
				}
			}
		}
	}
}

// A carved plane goes through its three places.
func TestCarvedPlane(t *testing.T) {
	for _, face := range []string{"front", "back"} {
		j := must(t, plain+"[[body.contour]]\nkind = \"carved\"\nface = \""+face+"\"\noutline = [[-60, -60], [60, -60], [60, 60], [-60, 60]]\ndepths = [[-40, -40, 3], [40, -40, 9], [0, 50, -2]]\n")
		p, _ := j.PartByID("contour-carved")
		for _, at := range []struct{ x, y, d float64 }{{-40, -40, 3}, {40, -40, 9}, {0, 50, 0}} { // −2 is above the face
			if d := takenAt(j, p, geom.Pt(at.x, at.y)); math.Abs(d-at.d) > 1e-9 {
				t.Errorf("%s: %g deep at (%g, %g), want %g", face, d, at.x, at.y, at.d)
			}
		}
	}
}

// A left-handed body is the mirror image: edge, plans, depths and lines.
func TestContoursMirrored(t *testing.T) {
	text := plain + "[body.edge]\nroundover = 5\nbearing = 9.5\n[[body.contour]]\nkind = \"belly\"\ny = 60\ndepth = 14\nreach = 80\nsection = \"round\"\n"
	r, l := must(t, text), must(t, strings.Replace(text, "units", "hand = \"left\"\nunits", 1))
	pr, _ := r.PartByID("contour-belly")
	pl, _ := l.PartByID("contour-belly")
	for _, q := range pr.Plan()[0].Flatten(0.05) {
		q = q.Lerp(pr.Plan().Centroid(), 0.01)
		m := geom.Pt(-q.X, q.Y)
		if a, b := takenAt(r, pr, q), takenAt(l, pl, m); math.Abs(a-b) > 1e-9 {
			t.Fatalf("%.4f deep at %v, mirrored %.4f", a, q, b)
		}
		ar, br := r.Edge.Wood(part.Point{X: q.X, Y: q.Y, Z: 2}), l.Edge.Wood(part.Point{X: m.X, Y: m.Y, Z: 2})
		if math.Abs(ar-br) > 1e-9 {
			t.Fatalf("wood before the edge %.4f at %v, mirrored %.4f", ar, q, br)
		}
	}
	if a, b := r.Contours[0], l.Contours[0]; a.At.X != -b.At.X || a.In.X != -b.In.X || a.Levels[2].Lines[0][0].A.X != -b.Levels[2].Lines[0][0].A.X {
		t.Error("place, direction or lines are not mirrored")
	}
}

// The edge as solved is the one that is measured.
func TestEdgeSolved(t *testing.T) {
	j := must(t, plain+"[body.edge]\nroundover = 5\nbearing = 9.5\n")
	if j.Edge.Faces[part.Back] != (space.Profile{Roundover: 5}) || math.Abs(j.Edge.Inset(0)-5) > 1e-12 {
		t.Errorf("edge %+v", j.Edge.Faces)
	}
	if !strings.Contains(j.EdgeBit.Words, "roundover 5 mm") {
		t.Error(j.EdgeBit.Words)
	}
}

// What cannot be: an error at its place with both numbers.
func TestContourErrors(t *testing.T) {
	for _, tt := range []struct{ text, want string }{
		{"[[body.contour]]\nkind = \"forearm\"\ndepth = 40\n[slab.x]", "unknown"},
		{"[[body.contour]]\nkind = \"forearm\"\ndepth = 40\nreach = 70\n", ""},
		{"[[body.contour]]\nkind = \"belly\"\ny = -300\n", "a place on the outline, from -110"},
		{"[[body.contour]]\nkind = \"belly\"\nreach = 200\nspan = 400\n", "a line that parts a piece from the body"},
		{"[[body.contour]]\nkind = \"carved\"\n", "three corners"},
		{"[[body.contour]]\nkind = \"carved\"\noutline = [[0, 0], [50, 0], [50, 50]]\n", "three places depths"},
		{"[[body.contour]]\nkind = \"carved\"\noutline = [[0, 0], [50, 0], [50, 50]]\ndepths = [[0, 0, 1], [10, 10, 2], [30, 30.1, 4]]\n", "off the line"},
		{"[[body.contour]]\nkind = \"carved\"\noutline = [[0, 0], [50, 0], [50, 50]]\ndepths = [[0, 0, 1], [1, 10, 9], [10, 0, 9]]\n", "at most 42 mm"},
		{"[[body.contour]]\nkind = \"carved\"\noutline = [[500, 0], [550, 0], [550, 50]]\ndepth = 4\n", "takes no wood"},
		{"[[body.contour]]\nkind = \"forearm\"\ndepth = 30\nreach = 20\n", "at most 20 mm"},
		{"[body.edge]\nroundover = 3\nchamfer = 3\n", "one of the two"},
		{"[body.edge]\nroundover = 20\nbearing_height = 6\n", "at most 19.5 mm"},
	} {
		_, err := solve(t, plain+tt.text)
		switch {
		case tt.want == "" && err != nil:
			t.Errorf("%s: %v", tt.text, err)
		case tt.want != "" && (err == nil || !strings.Contains(err.Error(), tt.want) || !strings.Contains(err.Error(), "test.toml:")):
			t.Errorf("%s: %v, want …%s…", tt.text, err, tt.want)
		}
	}
	thin := strings.Replace(plain, "rough = 45", "rough = 30", 1) + "[[body.contour]]\nkind = \"belly\"\ndepth = 30\n"
	if _, err := solve(t, thin); err == nil || !strings.Contains(err.Error(), "30 mm in a body of 30 mm; allowed: at most 27 mm") {
		t.Errorf("a cut as deep as the body: %v", err)
	}
}
