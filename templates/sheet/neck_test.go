package sheet

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"routwright/geom"
	"routwright/render"
	"routwright/templates/job"
	"routwright/templates/job/jobtest"
	"routwright/templates/neck"
	"routwright/templates/part"
)

// weir is an invented design with a neck that is to be made.
const weir = `
design = 1
name = "Weir"
hand = "%s"
[slab]
rough = 45
blank = [560, 420]
[strings]
scale = 647.7
frets = 22
spread = {nut = 36, bridge = 52}
[fretboard]
nut_width = 43
end_width = 56
[body]
family = "lowland"
[bridge]
saddle_height = [15, 22]
[neck.head]
kind = "%s"
[neck.rod]
[neck.back]
`

// solved solves weir and sets its neck at an angle.
func solved(t *testing.T, hand, kind string) *job.Job {
	t.Helper()
	j := jobtest.Text(t, "weir.toml", string(fmt.Appendf(nil, weir, hand, kind)))
	set := neck.Setup{Saddle: 19, Above: 6, Fret: 1.1, Action: 1.7, Nut: 0.4, Scale: 647.7, Joint: 647.7 * (1 - math.Exp2(-16.0/12))}
	got, err := neck.Solve(set)
	if err != nil {
		t.Fatal(err)
	}
	j.Neck = &job.Neck{Setup: set, Solved: got, Fret: 16, JointY: got.ToSaddle}
	return j
}

// Every sheet of every neck can be laid out, right- and left-handed, and each of
// its labels has found a place of its own.
func TestNeckSheets(t *testing.T) {
	for _, hand := range []string{"right", "left"} {
		for _, kind := range []string{"in-line", "split", "paddle"} {
			j := solved(t, hand, kind)
			want := map[string]bool{job.NeckID: true, NeckSideID: true, NeckGaugesID: true, NeckViewID: true, job.HeadID: kind != "in-line"}
			for _, s := range All(j, "") {
				if _, ours := want[s.ID]; !ours {
					continue
				}
				d, err := render.Layout(s, render.LayoutOptions{})
				if err != nil {
					t.Fatalf("%s %s %s: %v", hand, kind, s.ID, err)
				}
				if len(d.Remarks) > 0 {
					t.Errorf("%s %s %s: %v", hand, kind, s.ID, d.Remarks)
				}
				var block []string
				for _, f := range s.Block {
					block = append(block, f.Name+" "+f.Value)
				}
				if all := strings.Join(block, "\n"); !strings.Contains(all, "this face up") && !strings.Contains(all, "either") {
					t.Errorf("%s does not say its face:\n%s", s.ID, all)
				}
				delete(want, s.ID)
			}
			for id, missing := range want {
				if missing {
					t.Errorf("%s %s: no sheet %s", hand, kind, id)
				}
			}
		}
	}
}

// The elevation puts the string's end where the neck angle was solved for: over
// the bridge line, at the saddle's height. The side stands under the board.
func TestElevationMeetsSaddle(t *testing.T) {
	for _, hand := range []string{"right", "left"} {
		j := solved(t, hand, "split")
		n, e := j.Neck, newElevation(j)
		end := e.at(n.Scale, n.Setup.Fret+2*n.Action-n.Nut)
		if end.Dist(geom.Pt(0, n.Setup.Saddle)) > 1e-9 {
			t.Errorf("the string ends at %v, the saddle's top at %v", end, n.Setup.Saddle)
		}
		if d := e.at(0, 0).Dist(e.at(n.Joint, 0)); math.Abs(d-n.Joint) > 1e-9 {
			t.Errorf("nut to joint %v, want %v", d, n.Joint)
		}
		tr, sh := e.side(), j.Shape
		top := tr.Point(geom.Pt(0, nutY(sh)))
		if want := e.at(0, -sh.Spec.Board.Thickness); top.Dist(want) > 1e-9 {
			t.Errorf("%s: the neck's top at the nut stands at %v, the board's underside at %v", hand, top, want)
		}
		if b := tr.Path(sh.Side.Outline).Bounds(); b.Max.Y > e.joint.Y || b.Max.X < e.at(0, 0).X+100 {
			t.Errorf("%s: the side stands on its head: %v", hand, b)
		}
	}
}

// The pocket's floor is drawn where its part says, by the sloped plane.
func TestElevationPocket(t *testing.T) {
	j := solved(t, "right", "split")
	j.Parts = append(j.Parts, part.Part{ID: "pocket", Kind: part.Pocket, Solids: []part.Solid{{
		Plan: geom.Region{geom.Rect(geom.Pt(0, 210), 56, 76)}, Floor: part.Plane{Z: 5, DY: 0.04}}}})
	for _, g := range neckView(j).Groups {
		for _, s := range g.Shapes {
			if s.ID == "pocket-floor" {
				want := geom.Polyline(geom.Pt(172, 0), geom.Pt(172, -11.88), geom.Pt(248, -14.92))
				for i, e := range want {
					if e.A.Dist(s.Path[i].A) > 1e-9 || e.B.Dist(s.Path[i].B) > 1e-9 {
						t.Errorf("floor %v, want %v", s.Path, want)
					}
				}
				return
			}
		}
	}
	t.Error("no floor of the pocket")
}

// A left-handed sheet is the mirror image of a right-handed one.
func TestNeckMirrored(t *testing.T) {
	r, l := solved(t, "right", "in-line"), solved(t, "left", "in-line")
	for i := range r.Shape.Tuners {
		a, b := r.Shape.Tuners[i], l.Shape.Tuners[i]
		if a.Post.X != -b.Post.X || a.Post.Y != b.Post.Y || a.Deflection != b.Deflection {
			t.Errorf("string %d: %v and %v", a.String, a.Post, b.Post)
		}
	}
}

// Printed in tiles, no seam lies on the nut line.
func TestNoSeamOnNutLine(t *testing.T) {
	for _, name := range []string{"A4", "Letter", "A3"} {
		paper, err := render.ParsePaper(name)
		if err != nil {
			t.Fatal(err)
		}
		for _, s := range All(solved(t, "right", "in-line"), "") {
			if s.ID != job.NeckID {
				continue
			}
			d, err := render.Layout(s, render.LayoutOptions{})
			if err != nil {
				t.Fatal(err)
			}
			pages, err := render.Tile(d, paper, render.TileOptions{})
			if err != nil {
				t.Fatal(err)
			}
			seen := 0
			for _, p := range pages {
				for _, g := range p.Tile {
					seen += nutLines(t, p, g)
				}
			}
			if seen == 0 {
				t.Errorf("%s: no page shows the nut line", name)
			}
		}
	}
}

// nutLines counts the nut lines of a group and sees that they keep from the edges
// of the page's window.
func nutLines(t *testing.T, p render.Page, g render.Group) (n int) {
	t.Helper()
	for _, s := range g.Shapes {
		if s.ID != "nut-line" {
			continue
		}
		b := s.Path.Bounds()
		if y := b.Min.Y; y > p.Window.Min.Y && y < p.Window.Max.Y {
			n++
			if math.Min(y-p.Window.Min.Y, p.Window.Max.Y-y) < 2 {
				t.Errorf("page %s: the nut line lies %.2f mm from the edge of the window", p.ID, math.Min(y-p.Window.Min.Y, p.Window.Max.Y-y))
			}
		}
	}
	for _, e := range g.Groups {
		n += nutLines(t, p, e)
	}
	return n
}
