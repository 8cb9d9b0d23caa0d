package main

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"os"
	"strconv"
	"strings"
	"testing"

	"routwright/render"
	"routwright/render/dxf"
	"routwright/render/svg"
	"routwright/templates/book"
	"routwright/templates/check"
	"routwright/templates/design"
	"routwright/templates/job"
	"routwright/templates/outline"
	"routwright/templates/sheet"
	"routwright/templates/table"
)

// Random designs, put together from what builders ask for: nothing panics, what is
// wrong is told with its place, what solves can be checked, drawn, written and put
// in order, and its mirror image says the same. ROUTWRIGHT_RANDOM is how many, 12
// without it; ROUTWRIGHT_SEED is where they start.
func TestRandomDesigns(t *testing.T) {
	n, first := 12, 1
	for _, e := range []struct {
		name string
		to   *int
	}{{"ROUTWRIGHT_RANDOM", &n}, {"ROUTWRIGHT_SEED", &first}} {
		if v, err := strconv.Atoi(os.Getenv(e.name)); err == nil {
			*e.to = v
		}
	}
	var refused, stopped, good int
	why := map[string]int{}
	for seed := first; seed < first+n; seed++ {
		text := randomDesign(rand.New(rand.NewPCG(uint64(seed), 5)))
		r := buildRandom(t, seed, text)
		if t.Failed() {
			t.Fatalf("seed %d:\n%s", seed, text)
		}
		switch {
		case r.err != nil:
			refused++
			for _, l := range strings.Split(r.err.Error(), "\n") {
				why["refused: "+between(l, ": ", ":")]++
			}
		case r.worst == check.Stop:
			stopped++
		default:
			good++
		}
		for _, f := range r.findings {
			if f.Level == check.Stop {
				why["stop: "+f.Check]++
			}
		}
	}
	t.Logf("%d designs: %d refused, %d with a stop, %d without; %v", n, refused, stopped, good, why)
	if n >= 12 && good+stopped < n/3 {
		t.Errorf("only %d of %d designs solve: the trial looks at too little", good+stopped, n)
	}
}

func between(s, a, b string) string {
	if _, after, ok := strings.Cut(s, a); ok {
		s = after
	}
	s, _, _ = strings.Cut(s, b)
	return s
}

// solvedByProgram are the checks of what the random designs leave to the program:
// tools, keys, the screws of covers, the paths of long drills.
var solvedByProgram = map[string]bool{
	"wood-left": true, "follower-passes": true, "key-inside-recess": true, "key-waist": true, "passes": true, "bit-reach": true, "bush-reach": true,
	"key-on-crack": true, "key-square": true, "key-to-key": true, "key-to-void": true, "key-over-void": true, "key-under-contour": true,
	"key-behind-key": true, "key-met": true, "key-in-outline": true, "screw-tip": true, "screw-wood": true, "screw-to-key": true,
	"channel": true, "channel-rim": true, "channel-skew": true,
}

// built is what came of a random design.
type built struct {
	err      error
	worst    check.Level
	findings []check.Finding
}

func buildRandom(t *testing.T, seed int, text string) (r built) {
	t.Helper()
	defer func() {
		if p := recover(); p != nil {
			t.Errorf("seed %d: panic: %v", seed, p)
		}
	}()
	solve := func(text string) (*job.Job, error) {
		d, err := design.Parse("random.toml", []byte(text))
		if err != nil {
			return nil, err
		}
		return memory.Solve(d, nil)
	}
	j, err := solve(text)
	left, errLeft := solve(strings.Replace(text, `hand = "right"`, `hand = "left"`, 1))
	if (err == nil) != (errLeft == nil) {
		t.Errorf("seed %d: right-handed %v, left-handed %v", seed, err, errLeft)
	}
	if err != nil {
		if !strings.HasPrefix(err.Error(), "random.toml:") {
			t.Errorf("seed %d: an error without a place: %v", seed, err)
		}
		return built{err: err}
	}
	r.findings = check.Run(j)
	r.worst, _ = check.Worst(r.findings)
	if a, b := levels(r.findings), levels(check.Run(left)); a != b {
		t.Errorf("seed %d: right-handed %s, left-handed %s", seed, a, b)
	}
	for _, f := range r.findings {
		if f.Level == check.Stop && solvedByProgram[f.Check] && !strings.HasPrefix(f.Message, "no straight hole") {
			t.Errorf("seed %d: the program proposes what it refuses: %s: %s", seed, f.Check, f.Message)
		}
	}
	table.All(j, r.findings)
	for _, j := range []*job.Job{j, left} {
		sheets := sheet.All(j, "")
		for _, s := range sheets {
			d, err := render.Layout(s, render.LayoutOptions{})
			if err != nil {
				t.Errorf("seed %d: sheet %s: %v", seed, s.ID, err)
				continue
			}
			var b bytes.Buffer
			if err := svg.Write(&b, d); err != nil {
				t.Errorf("seed %d: sheet %s: %v", seed, s.ID, err)
			}
			if err := dxf.Write(&b, d, dxf.Options{}); err != nil {
				t.Errorf("seed %d: sheet %s: %v", seed, s.ID, err)
			}
		}
		if r.worst != check.Stop {
			if _, err := book.Of(book.Input{Job: j, Findings: r.findings, Sheets: sheets}); err != nil {
				t.Errorf("seed %d: book: %v", seed, err)
			}
		}
	}
	return r
}

// levels counts findings by check and level.
func levels(fs []check.Finding) string {
	var b strings.Builder
	for _, f := range fs {
		fmt.Fprintf(&b, "%v %s; ", f.Level, f.Check)
	}
	return b.String()
}

// randomDesign writes a design file.
func randomDesign(r *rand.Rand) string {
	var b strings.Builder
	w := func(format string, a ...any) { fmt.Fprintf(&b, format+"\n", a...) }
	u := func(lo, hi float64) float64 { return float64(int((lo+(hi-lo)*r.Float64())*20)) / 20 }
	yes := func(p float64) bool { return r.Float64() < p }
	pick := func(s ...string) string { return s[r.IntN(len(s))] }

	bass := yes(0.2)
	count, scale := 6+r.IntN(2)*r.IntN(3), u(610, 660)
	if bass {
		count, scale = 4+r.IntN(2), u(762, 864)
	}
	nut := 7.2*float64(count-1) + u(-1, 1)
	spread := 10.4*float64(count-1) + u(-1, 1)
	if bass {
		nut, spread = 9.8*float64(count-1), 18.5*float64(count-1)
	}
	w("design = 1\nname = \"Random\"\nhand = \"right\"\nunits = \"mm\"")
	thick := u(42, 47)
	w("[slab]\nwood = %q\nrough = %g\nblank = [600, 440]", pick("Walnut, black", "Ash, white", "Cherry, black", "Unknown tree"), thick+3)
	if yes(0.7) {
		w("plane = {front = 1, back = 2}")
	}
	cracked := yes(0.6)
	if cracked {
		side := 1.0
		if yes(0.7) {
			side = -1
		}
		x, y := side*u(40, 110), u(-140, -40)
		pts := ""
		for i := range 4 + r.IntN(4) {
			pts += fmt.Sprintf("[%g, %g], ", x+side*u(-8, 8), y+float64(i)*u(28, 40))
		}
		w("[[slab.crack]]\nfront = [%s]", pts)
		if yes(0.5) {
			w("tips = [\"last\"]")
		}
	}
	w("[strings]\ncount = %d\nfrets = %d\nspread = {nut = %g, bridge = %g}", count, 19+r.IntN(6), nut, spread)
	if yes(0.2) {
		w("scale = {bass = %g, treble = %g, square_fret = %d}", scale+u(5, 25), scale, r.IntN(10))
	} else {
		w("scale = %g", scale)
	}
	w("[fretboard]\nnut_width = %g\nend_width = %g\noverhang = %g", nut+u(6, 8), nut+(spread-nut)*0.72+u(6, 8), u(4, 14))
	if yes(0.5) {
		w("radius = [%g, %g]", u(180, 300), u(300, 500))
	}
	if yes(0.2) {
		w("zero_fret = true")
	}
	if yes(0.3) {
		w("markers = 6")
	}
	families := outline.Families()
	w("[body]\nfamily = %q", families[r.IntN(len(families))].Name)
	switch r.IntN(3) {
	case 0:
		w("[body.edge]\nroundover = %g", u(1, 8))
	case 1:
		w("[body.edge]\nchamfer = %g", u(1, 4))
	}
	if yes(0.3) {
		w("[[body.contour]]\nkind = \"forearm\"\ndepth = %g\nreach = %g", u(8, 16), u(40, 80))
	}
	if yes(0.3) {
		w("[[body.contour]]\nkind = \"belly\"\ndepth = %g\nreach = %g", u(8, 14), u(40, 80))
	}
	glued := yes(0.3)
	w("[neck]\njoin = %q", map[bool]string{true: "glued", false: "bolted"}[glued])
	end := nut + (spread-nut)*0.75 + 6.5
	w("[neck.heel]\nwidths = [%g, %g]\napart = 60\nlength = %g\nthickness = %g\ncorner = %g", end, end-u(0, 1.2), u(66, 90), u(15, 20), u(3, 8))
	switch r.IntN(3) {
	case 0:
		w("[neck.joint]\nabove_body = %g", u(0, 8))
	case 1:
		w("[neck.joint]\nfret = %d", 15+r.IntN(5))
	}
	if yes(0.7) {
		w("[neck.head]\nkind = %q", pick("in-line", "split", "paddle"))
		if yes(0.5) {
			w("tilt = %g", u(8, 14))
		}
		if yes(0.6) {
			w("[neck.rod]\nkind = %q", pick("double", "single"))
		}
	}
	switch r.IntN(3) {
	case 0:
		w("[bridge]\nkind = \"fixed\"\ntravel = %g\nsaddle_height = [9, 16]", u(6, 10))
		if yes(0.6) {
			w("[bridge.through]\nbehind = %g\nferrule = {d = 8, depth = 9}", u(30, 45))
		}
	case 1:
		w("[bridge]\nkind = \"two-post\"\nsaddle_height = [14, 22]\n[bridge.tailpiece]\nspacing = 82\nbehind = %g", u(35, 55))
	default:
		w("[bridge]\nkind = \"wraparound\"\nsaddle_height = [14, 20]")
	}
	if cracked {
		w("[keys]\nplace = true\nface = %q\ncorners = %q\ndepth = %g\nlength = %g", pick("front", "back", "both"), pick("chiselled", "rounded", "relieved"), u(8, 14), u(45, 70))
		if yes(0.2) {
			w("border = 0.6")
		}
	}
	var pickups []string
	at := u(30, 45)
	for i := range 1 + r.IntN(3) {
		name := []string{"tail", "middle", "neck"}[i]
		w("[[pickup]]\nname = %q\nkind = %q\nat = %g", name, pick("single-coil", "humbucker", "soapbar"), at)
		if yes(0.3) {
			w("slant = %g", u(-12, 12))
		}
		if yes(0.3) {
			w("depth = %g", u(14, 22))
		}
		pickups = append(pickups, name)
		at += u(42, 60)
	}
	w("[[cavity]]\nname = \"control\"")
	if yes(0.3) {
		w("depth = %g", u(28, 38))
	}
	x, y := u(70, 100), u(-60, -30)
	for i := range 1 + r.IntN(4) {
		w("[[cavity.control]]\nname = \"c%d\"\nkind = %q\nat = [%g, %g]", i, pick("pot", "pot", "mini pot", "toggle", "blade switch"), x+u(-8, 14), y+float64(i)*u(24, 38))
	}
	if yes(0.8) {
		w("[cavity.cover]\nthickness = %g", u(2, 3))
	}
	if yes(0.5) {
		w("[jack]\nside = \"treble\"\ny = %g", u(-80, -20))
	}
	for _, p := range pickups {
		if yes(0.7) {
			w("[[channel]]\njoin = [%q, \"control\"]", p)
		}
	}
	if yes(0.2) {
		w("[[chamber]]\noutline = [[-40, -80], [-110, -70], [-110, -20], [-50, -30]]\nface = %q\ncap = %g", pick("front", "back"), u(0, 4))
	}
	if yes(0.7) {
		w("[strap]")
	}
	if yes(0.95) {
		d := []float64{12.7, 12.7, 9.525, 16, 6.35}[r.IntN(5)]
		w("[[bit]]\nname = \"a\"\nd = %g\ncut = %g\nshank = 12.7\nbearing = {d = %g, height = 5, side = \"shank\"}", d, u(15, 26), d)
	}
	if yes(0.9) {
		w("[[bit]]\nname = \"b\"\nd = 6.35\ncut = %g\nshank = 6.35\nbearing = {d = 6.35, height = 4, side = %q}", u(10, 20), pick("shank", "shank", "shank", "shank", "tip"))
	}
	if yes(0.9) {
		w("[[bit]]\nname = \"c\"\nd = 6\ncut = 32\nshank = 8\n[[bush]]\nname = \"u\"\nd = %g\nreach = 8", u(10, 20))
	}
	w("[router]\nbase = %g\noutside = %q", u(90, 170), pick("table", "hand"))
	if yes(0.3) {
		w("outrigger = 240")
	}
	for _, d := range []float64{16, 22, 25, 35} {
		if yes(0.5) {
			w("[[forstner]]\nd = %g\nlength = 60\npoint = 3", d)
		}
	}
	w("[template]\nthickness = %g", u(12, 19))
	if yes(0.3) {
		w("stock = [1220, 610]")
	}
	w("[print]\npaper = %q", pick("A4", "Letter"))
	return b.String()
}
