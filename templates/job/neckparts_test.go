package job_test

import (
	"math"
	"strings"
	"testing"

	"routwright/geom"
	"routwright/templates/design"
	"routwright/templates/job"
	"routwright/templates/part"
)

// weir is an invented design whose neck is to be made.
const weir = `
design = 1
name = "Weir"
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
[[bit]]
name = "pattern"
d = 12.7
cut = 25
bearing = {d = 12.7, height = 5}
[[bit]]
name = "small"
d = 8
cut = 25
[[bush]]
name = "ring"
d = 20
`

func solveNeck(t *testing.T, more string) *job.Job {
	t.Helper()
	d, err := design.Parse("weir.toml", []byte(weir+more))
	if err != nil {
		t.Fatal(err)
	}
	j, err := memory.Solve(d, nil)
	if err != nil {
		t.Fatalf("%s: %v", more, err)
	}
	return j
}

// The templates of the neck make the neck: with a bearing of the bit's own size,
// with a bush, led free, for every kind of head, right- and left-handed, with a
// tenon whose shoulders are squared by hand.
func TestNeckTemplatesProve(t *testing.T) {
	for _, tt := range []struct {
		more string
		want []string
	}{
		{"[neck.head]\nkind = \"split\"\ncut = {bit = \"pattern\"}\n", []string{"neck", "headstock"}},
		{"[neck.head]\nkind = \"in-line\"\ncut = {bit = \"small\", bush = \"ring\"}\n", []string{"neck"}},
		{"[neck.head]\nkind = \"paddle\"\ntilt = 10\n", []string{"neck", "headstock"}},
		{"[neck.head]\nkind = \"in-line\"\ncut = {bit = \"small\", free = true}\n", []string{"neck"}},
		{"[neck.head]\nkind = \"split\"\nsides = [2, 4]\n[neck.back]\ncut = {bit = \"pattern\"}\n", []string{"neck", "headstock", "neck-side"}},
		{"[neck.heel]\nwidths = [40, 40]\napart = 60\nlength = 95\ncorner = 0\n[neck.head]\nkind = \"in-line\"\n", []string{"neck"}},
	} {
		for _, hand := range []string{"right", "left"} {
			j := solveNeck(t, tt.more)
			if hand == "left" {
				d, err := design.Parse("weir.toml", []byte(strings.Replace(weir, "design = 1", "design = 1\nhand = \"left\"", 1)+tt.more))
				if err != nil {
					t.Fatal(err)
				}
				if j, err = memory.Solve(d, nil); err != nil {
					t.Fatal(err)
				}
			}
			var got []string
			for i, p := range j.Proofs {
				tm := j.Templates[i]
				if k := tm.For.Kind; k != part.Neck && k != part.Headstock && k != part.NeckSide {
					continue
				}
				got = append(got, tm.ID)
				if !p.Left.Empty() || !p.Lost.Empty() {
					t.Errorf("%s%s: %s leaves %g mm² and loses %g", tt.more, hand, tm.ID, p.Left.Area(), p.Lost.Area())
				}
				if err := tm.Shape.Check(); err != nil {
					t.Errorf("%s: %v", tm.ID, err)
				}
				if strings.Contains(tt.more, "[40, 40]") != (len(tm.Hand) > 0) {
					t.Errorf("%s: hand work %d", tt.more, len(tm.Hand))
				}
			}
			if strings.Join(got, " ") != strings.Join(tt.want, " ") {
				t.Errorf("%s: templates %v, want %v", tt.more, got, tt.want)
			}
		}
	}
}

// The neck takes over the board's own edges: its outline and the board's share
// their sides from the nut to the body's edge, and the heel is as measured.
func TestNeckFollowsBoard(t *testing.T) {
	j := solveNeck(t, "[neck.heel]\nwidths = [55.5, 54]\napart = 76\nlength = 80\n[neck.head]\nkind = \"split\"\n[neck.rod]\n")
	sh := j.Shape
	shaft := geom.IndexOf(geom.Region{sh.Shaft})
	for _, e := range []geom.Seg{j.Board.BassEdge, j.Board.TrebleEdge} {
		for i := 0; i <= 20; i++ {
			p := e.A.Lerp(e.B, float64(i)/20)
			if p.Y < sh.Spec.Heel.Joint+20 { // where heel and board run into each other
				continue
			}
			if _, d := shaft.Closest(p); d > 1e-9 {
				t.Errorf("the board's edge at y %.2f lies %g mm off the neck's", p.Y, d)
			}
		}
	}
	if got := sh.Spec.Heel.Joint - sh.Spec.Heel.End; math.Abs(got-80) > 1e-9 {
		t.Errorf("heel %g long", got)
	}
	// The octave lies half way, the first fret where twelve equal steps put it.
	if y := sh.Spec.Board.Octave; math.Abs(y-647.7/2) > 1e-9 {
		t.Errorf("octave at %g", y)
	}
	if y := sh.Spec.Board.First; math.Abs(y-647.7*math.Exp2(-1.0/12)) > 1e-9 {
		t.Errorf("first fret at %g", y)
	}
}

// A bought neck is not made: without a head, a rod or a back there is no shape.
func TestNoNeckUnasked(t *testing.T) {
	if j := solveNeck(t, ""); j.Shape != nil || len(j.OfKind(part.Neck)) > 0 {
		t.Error("a neck that nobody asked for")
	}
}

// Every default of the neck is told.
func TestNeckDefaultsTold(t *testing.T) {
	j := solveNeck(t, "[neck.head]\n[neck.rod]\n[neck.back]\n")
	told := map[string]int{}
	for _, a := range j.Assumed {
		told[a.Key]++
	}
	for _, k := range []string{
		"neck.head.kind", "neck.head.sides", "neck.head.behind_nut", "neck.head.thickness", "neck.head.tilt", "neck.head.first", "neck.head.pitch",
		"neck.head.hole", "neck.head.post", "neck.head.body", "neck.head.edge", "neck.head.deflection", "neck.head.length", "neck.head.crown",
		"neck.rod.kind", "neck.rod.access", "neck.rod.width", "neck.rod.depth", "neck.rod.length", "neck.rod.opening",
		"neck.back.thickness", "neck.back.shoulder", "neck.back.foot", "neck.back.heel_radius", "neck.back.throat_radius", "scarf",
	} {
		if told[k] != 1 {
			t.Errorf("%s is told %d times", k, told[k])
		}
	}
}
