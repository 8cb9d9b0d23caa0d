package job_test

import (
	"math"
	"os"
	"strings"
	"testing"

	"routwright/geom"
	"routwright/templates/cut"
	"routwright/templates/job"
	"routwright/templates/job/jobtest"
)

// In every design each template on the pins is held by two clamps or two screws that
// the base clears, on the sheet and over the slab; all others say why tape holds them.
func TestEveryTemplateIsHeld(t *testing.T) {
	for name, j := range jobtest.Solved(t, "slab.toml", "weirhouse.toml") {
		for i, e := range j.Templates {
			h := j.HoldOf(i)
			if (j.HoldWords(i) == "") != e.Free() {
				t.Errorf("%s, %s: %q", name, e.ID, j.HoldWords(i))
			}
			if !e.Pinned() || e.Free() {
				continue
			}
			if len(h.Clamps) != 2 && len(h.Screws) != 2 && len(h.Given) == 0 {
				t.Errorf("%s, %s: held by %+v", name, e.ID, h)
			}
			body := geom.IndexOf(j.Outline)
			for _, c := range h.Clamps {
				if d := j.Sweeps[i].Clear(cut.Proud{At: c.At, D: cut.ClampFoot}); d < cut.HoldClear-1e-6 || !e.Blank.Contains(c.At) || !j.Blank.Contains(c.At) {
					t.Errorf("%s, %s: a clamp at %v, %g clear of the sweep", name, e.ID, c.At, d)
				}
			}
			for _, p := range h.Screws {
				if d := j.Sweeps[i].Clear(cut.Proud{At: p, D: 12}); d < cut.HoldClear-1e-6 || body.Contains(p) {
					t.Errorf("%s, %s: a screw at %v, %g clear of the sweep", name, e.ID, p, d)
				}
			}
			for _, p := range append(h.Screws, at(h.Clamps)...) {
				for _, pin := range e.Pins {
					if p.Dist(pin.At) < pin.D/2+6 {
						t.Errorf("%s, %s: something stands on pin %s", name, e.ID, pin.Name)
					}
				}
			}
			if w := j.TipWords(i); !strings.Contains(w, "hangs over") {
				t.Errorf("%s, %s: %q", name, e.ID, w)
			}
		}
	}
}

func at(cs []cut.Clamp) (out []geom.Point) {
	for _, c := range cs {
		out = append(out, c.At)
	}
	return out
}

// A left-handed job holds its templates as far apart, with the sides of the words kept:
// treble stays treble.
func TestHoldOfALeftHandedJob(t *testing.T) {
	src, err := os.ReadFile("../../testdata/slab.toml")
	if err != nil {
		t.Fatal(err)
	}
	apart := func(j *job.Job, i int) float64 {
		if c := j.HoldOf(i).Clamps; len(c) == 2 {
			return c[0].At.Dist(c[1].At)
		}
		return 0
	}
	right := jobtest.Demo(t)
	left := solved(t, strings.Replace(string(src), "hand = \"right\"", "hand = \"left\"", 1))
	for i, e := range right.Templates {
		if r, l := apart(right, i), apart(left, i); math.Abs(r-l) > 1e-6 {
			t.Errorf("%s: %g apart, left-handed %g", e.ID, r, l)
		}
	}
	p := geom.Pt(30, 5)
	if r, l := right.CentreWords(p), left.CentreWords(geom.MirrorX().Point(p)); r != "30 treble" || l != r {
		t.Errorf("%q, left-handed %q", r, l)
	}
	if r, l := right.EdgeWords(cut.LeftEdge), left.EdgeWords(cut.RightEdge); r != "the bass edge" || l != r {
		t.Errorf("%q, left-handed %q", r, l)
	}
}

// Screws and clamps of the design stand for those of the program.
func TestGivenScrewsHold(t *testing.T) {
	j := solved(t, hand+"[[pickup]]\nname = \"tail\"\nkind = \"humbucker\"\nat = 42\ncorner = 6.4\n[template]\nscrews = [[190, 40], [-190, 60]]\n")
	for i, e := range j.Templates {
		if h := j.HoldOf(i); e.Pinned() && (len(h.Given) != 2 || len(h.Clamps) > 0) {
			t.Errorf("%s: %+v", e.ID, h)
		}
	}
}
