package job_test

import (
	"math"
	"strings"
	"testing"

	"routwright/geom"
	"routwright/templates/check"
	"routwright/templates/design"
	"routwright/templates/job"
	"routwright/templates/part"
)

const slab = `
design = 1
[slab]
rough = 45
blank = [560, 420]
[body]
family = "lowland"
tail = 110
[keys]
place = true
length = 50
ends = 24
waist = 13
depth = 12
`

// memory of the tests: nearly all of their designs have the same body.
var memory job.Memory

func solved(t *testing.T, text string) *job.Job {
	t.Helper()
	j, err := try(text)
	if err != nil {
		t.Fatal(err)
	}
	return j
}

func try(text string) (*job.Job, error) {
	d, err := design.Parse("t.toml", []byte(text))
	if err != nil {
		return nil, err
	}
	return memory.Solve(d, nil)
}

// stops returns the ids of the checks that stop.
func stops(j *job.Job) (ids []string) {
	for _, f := range check.Run(j) {
		if f.Level == check.Stop {
			ids = append(ids, f.Check+": "+f.Message)
		}
	}
	return ids
}

// apart returns the least distance between recesses of keys.
func apart(j *job.Job) float64 {
	d := math.Inf(1)
	ks := j.OfKind(part.Recess)
	for i, a := range ks {
		for _, b := range ks[i+1:] {
			e, _, _ := geom.Distance(a.Plan(), b.Plan())
			d = math.Min(d, e)
		}
	}
	return d
}

// Keys of one crack keep clear of those of another, and of keys placed by hand
// that stand over no crack.
func TestCracksAndHandKeysKeepApart(t *testing.T) {
	for name, text := range map[string]string{
		"two cracks side by side": slab + "[[slab.crack]]\nfront = [[-75, -60], [-75, 100]]\n[[slab.crack]]\nfront = [[-40, -60], [-40, 100]]\n",
		"two cracks that cross":   slab + "[[slab.crack]]\nfront = [[-75, -60], [-75, 100]]\n[[slab.crack]]\nfront = [[-100, 0], [-20, 20]]\n",
		"a key beside the crack":  slab + "[[slab.crack]]\nfront = [[-75, -60], [-75, 100]]\n[[key]]\nname = \"aside\"\nat = [-40, 20]\nangle = 90\n",
	} {
		j := solved(t, text)
		if d := apart(j); d < 8-1e-9 || len(j.Keys.Poses) < 2 {
			t.Errorf("%s: %d keys, %.3f mm apart", name, len(j.Keys.Poses), d)
		}
		for _, s := range stops(j) {
			if !strings.HasPrefix(s, "key-on-crack") { // the key beside the crack stands on none
				t.Errorf("%s: %s", name, s)
			}
		}
	}
}

// Keys on both faces that are too deep to lie over each other: no rule is broken,
// and each face has keys. On one face alone there are as many as either has room
// for.
func TestDeepKeysOnBothFaces(t *testing.T) {
	text := strings.Replace(slab, "depth = 12", "depth = 21.5\nface = \"both\"", 1) +
		"[[slab.crack]]\nfront = [[-75, -70], [-75, 110]]\nback = [[-74, -70], [-76, 110]]\ntips = [\"first\", \"last\"]\n"
	j := solved(t, text)
	var count [2]int
	for _, k := range j.Keys.Poses {
		count[k.Face]++
	}
	if count[0] < 2 || count[1] < 2 {
		t.Errorf("%d keys on the front, %d on the back", count[0], count[1])
	}
	if s := stops(j); s != nil {
		t.Error(s)
	}
	if len(j.KeepOuts(part.Front)) == 0 || len(j.KeepOuts(part.Back)) == 0 {
		t.Error("a face without the lines that keys keep clear of")
	}
	// Of 45 mm two keys of 20.4 leave 4.2: both faces have what they have alone.
	shallow := solved(t, strings.Replace(text, "21.5", "20.4", 1))
	one := solved(t, strings.Replace(strings.Replace(text, "21.5", "20.4", 1), "\"both\"", "\"front\"", 1))
	if got, want := len(shallow.Keys.Poses), 2*len(one.Keys.Poses); got != want {
		t.Errorf("%d keys on both faces, want %d", got, want)
	}
}

// Keys share one angle over a crack that bends by no more than 15°; beyond it each
// stands square; an angle that the design gives is taken.
func TestKeyAngles(t *testing.T) {
	crack := func(x string) string { return "[[slab.crack]]\nfront = [[-75, -60], [-75, 20], [" + x + ", 100]]\n" }
	// Over the length of a key a bend of a reaches its whole a at the ends.
	for _, tt := range []struct {
		name, text string
		one        bool
	}{
		{"bent by 14.0°", slab + crack("-95"), true},
		{"bent by 16.7°", slab + crack("-99"), false},
		{"given", strings.Replace(slab, "depth = 12", "depth = 12\nangle = 5", 1) + crack("-99"), true},
	} {
		j := solved(t, tt.text)
		same := true
		for _, k := range j.Keys.Poses {
			same = same && math.Abs(float64(k.Turn-j.Keys.Poses[0].Turn)) < 1e-9
			if tt.name == "given" && math.Abs(k.Turn.Degrees()-5) > 1e-9 {
				t.Errorf("given: a key at %g°", k.Turn.Degrees())
			}
		}
		if same != tt.one || len(j.Keys.Poses) < 2 {
			t.Errorf("%s: one angle %v for %d keys", tt.name, same, len(j.Keys.Poses))
		}
		for _, f := range check.Run(j) {
			if f.Check == "key-square" && tt.name != "given" {
				t.Errorf("%s: %s", tt.name, f.Message)
			}
		}
	}
}

// Each key is told why it stands where it does, and what is nearest to its limit.
func TestReasons(t *testing.T) {
	j := solved(t, slab+"[[slab.crack]]\nfront = [[-75, -60], [-75, 100]]\ntips = [\"last\"]\n[[pickup]]\nname = \"tail\"\nkind = \"humbucker\"\nat = 42\ncorner = 6.4\n")
	last := false
	for _, k := range j.Keys.Poses {
		last = last || strings.Contains(k.Why, "its last tip")
		if !strings.Contains(k.Why, "holds it from") || !strings.Contains(k.Why, "nearest to its limit is") {
			t.Errorf("%s: %s", k.Name, k.Why)
		}
	}
	if !last {
		t.Error("no key for the last tip")
	}
}

// Cracks that cannot be: each a clear error with its place.
func TestBadCracks(t *testing.T) {
	for _, tt := range []struct{ name, crack, want string }{
		{"crossing itself", "front = [[-80, -60], [-80, 60], [-60, 60], [-60, 0], [-100, 0]]", "t.toml:16:9: slab.crack 1 front: the piece after point 1 meets the one after point 4 at x -80, y 0"},
		{"turning straight back", "front = [[-80, -60], [-80, 60], [-80, 0]]", "the piece after point 1 meets the one after point 2"},
		{"without length", "front = [[-80, -60], [-80, -60]]", "points 1 and 2 at the same place"},
		{"outside the slab", "front = [[-80, -60], [-80, 460]]", "t.toml:16:9: slab.crack 1 front: point 2 at x -80, y 460, "},
		{"outside the slab on the back", "front = [[-80, -60], [-80, 60]]\nback = [[-80, -60], [-300, 60]]", "slab.crack 1 back: point 2 at x -300, y 60, 90 mm outside the slab"},
	} {
		_, err := try(slab + "[[slab.crack]]\n" + tt.crack + "\n")
		if err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: %v, want …%s…", tt.name, err, tt.want)
		}
	}
	// A reading that lies 0.9 mm over the edge of the slab is no fault.
	if _, err := try(slab + "[[slab.crack]]\nfront = [[-80, -60], [-210.9, -60]]\n"); err != nil {
		t.Error(err)
	}
}

// Keys that contradict each other, or cannot be: an error, or a stop by name.
func TestContradictoryKeys(t *testing.T) {
	hand := strings.Replace(slab, "place = true\n", "", 1) + "[[slab.crack]]\nfront = [[-75, -60], [-75, 100]]\n"
	for _, tt := range []struct{ name, text, want string }{
		{"two keys at one place", hand + "[[key]]\nat = [-75, 0]\n[[key]]\nat = [-75, 0]\n", "key-to-key"},
		{"two keys that overlap", hand + "[[key]]\nat = [-75, 0]\n[[key]]\nat = [-75, 10]\nangle = 3\n", "key-to-key"},
		{"keys of both faces through each other", strings.Replace(hand, "depth = 12", "depth = 24", 1) + "[[key]]\nat = [-75, 0]\n[[key]]\nat = [-75, 5]\nface = \"back\"\n", "key-to-key"},
		{"a key outside the body", hand + "[[key]]\nat = [-190, 0]\n", "key-in-outline"},
	} {
		j, err := try(tt.text)
		if err != nil {
			t.Errorf("%s: %v", tt.name, err)
			continue
		}
		if s := strings.Join(stops(j), "; "); !strings.Contains(s, tt.want) {
			t.Errorf("%s: stops %q, want %s", tt.name, s, tt.want)
		}
	}
	for _, tt := range []struct{ name, text, want string }{
		{"gap larger than the key", strings.Replace(hand, "waist = 13", "waist = 4\ngap = 0.5\nends = 8", 1) + "[[key]]\nat = [-75, 0]\n", "t.toml:"},
		{"waist wider than the ends", strings.Replace(hand, "waist = 13", "waist = 25", 1) + "[[key]]\nat = [-75, 0]\n", "the waist must be the narrower"},
	} {
		if _, err := try(tt.text); err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: %v", tt.name, err)
		}
	}
}

// Graduated keys: the full size wherever it has room, a shorter one where it has
// not, each size with templates, a proof and its true proportions; a size without
// a key makes nothing. One set of checks stops none of it.
func TestGraduatedKeys(t *testing.T) {
	const bit = "[[bit]]\nname = \"fine\"\nd = 4\ncut = 14\nbearing = {d = 4, height = 5}\n"
	crack := "[[slab.crack]]\nfront = [[-70, -90], [-70, 110]]\ntips = [\"first\", \"last\"]\n" + bit
	pickup := "[[pickup]]\nname = \"tail\"\nkind = \"humbucker\"\nat = 60\nlength = 96\ncorner = 6.4\n"
	sizes := strings.Replace(slab, "length = 50", "length = 50\ngraduated = [36, 44]", 1)
	j := solved(t, sizes+crack+pickup)
	var counts []int
	for i, z := range j.Keys.Sizes {
		counts = append(counts, j.Keys.Count(i))
		s := z.Fit.Spec
		if math.Abs(s.Ends/s.Length-24.0/50) > 1e-9 || math.Abs(s.Waist/s.Length-13.0/50) > 1e-9 {
			t.Errorf("size %d: %g × %g × %g", i, s.Length, s.Ends, s.Waist)
		}
		if z.Gap.Min < 0.07 || z.Gap.Max > 0.09 {
			t.Errorf("size %d: gap %g to %g", i, z.Gap.Min, z.Gap.Max)
		}
		n := 0
		for _, e := range j.Templates {
			if j.Keys.Of(e.ID) == &j.Keys.Sizes[i] {
				n++
			}
		}
		if n != 2 {
			t.Errorf("size %d: %d templates", i, n)
		}
	}
	if len(counts) < 2 || counts[0] == 0 || counts[1] == 0 {
		t.Fatalf("keys of each size: %v", counts)
	}
	if s := stops(j); s != nil {
		t.Error(s)
	}
	single := solved(t, slab+crack+pickup)
	if a, b := covered(j), covered(single); a <= b+1 {
		t.Errorf("graduated keys hold %g mm, keys of one size %g", a, b)
	}
	// Nothing in the way: one size, as if none other were allowed.
	if j := solved(t, sizes+crack); len(j.Keys.Sizes) != 1 || j.Keys.Sizes[0].Suffix != "" {
		t.Errorf("%d sizes where the full one has room", len(j.Keys.Sizes))
	}
	// By hand: the size that is named, or an error.
	hand := strings.Replace(sizes, "place = true\n", "", 1) + crack
	j = solved(t, hand+"[[key]]\nat = [-70, 0]\nlength = 36\n")
	if k := j.Keys.Poses[0]; j.Keys.Sizes[k.Size].Fit.Spec.Length != 36 {
		t.Errorf("a key of %g", j.Keys.Sizes[k.Size].Fit.Spec.Length)
	}
	for text, want := range map[string]string{
		hand + "[[key]]\nat = [-70, 0]\nlength = 40\n":            "key.length: 40 mm; allowed: keys.length or one of keys.graduated",
		strings.Replace(sizes, "[36, 44]", "[36, 55]", 1) + crack: "keys.graduated: 55 mm; allowed: lengths under that of the key, 50 mm",
	} {
		if _, err := try(text); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%v, want …%s…", err, want)
		}
	}
}

// covered returns how much of the crack has a key within half a key's length, mm,
// counted every tenth of a millimetre.
func covered(j *job.Job) (mm float64) {
	line := j.Cracks[0].Front[0]
	for s := 0.05; s < line.Length(); s += 0.1 {
		p := line.At(s / line.Length())
		for _, k := range j.Keys.Poses {
			if k.At.Dist(p) <= j.Keys.Sizes[k.Size].Fit.Spec.Length/2 {
				mm += 0.1
				break
			}
		}
	}
	return mm
}
