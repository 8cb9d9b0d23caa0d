package check_test

import (
	"math"
	"strconv"
	"testing"

	"routwright/geom"
	"routwright/templates/check"
	"routwright/templates/job"
	"routwright/templates/part"
)

func num(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// flatDistance is the least distance between the edges of two regions, by brute
// force over chords within 1e-4 mm of them.
func flatDistance(a, b geom.Region) float64 {
	least := math.Inf(1)
	edges := func(r geom.Region) (out [][2]geom.Point) {
		for _, p := range r {
			v := p.Flatten(1e-4)
			for i := range v {
				out = append(out, [2]geom.Point{v[i], v[(i+1)%len(v)]})
			}
		}
		return out
	}
	point := func(p geom.Point, e [2]geom.Point) float64 {
		v := e[1].Sub(e[0])
		t := math.Max(0, math.Min(1, p.Sub(e[0]).Dot(v)/v.Dot(v)))
		return e[0].Add(v.Mul(t)).Dist(p)
	}
	es, fs := edges(a), edges(b)
	for _, e := range es {
		for _, f := range fs {
			if e[0].Dist(f[0]) > least+e[0].Dist(e[1])+f[0].Dist(f[1]) {
				continue
			}
			least = math.Min(least, math.Min(math.Min(point(e[0], f), point(e[1], f)), math.Min(point(f[0], e), point(f[1], e))))
		}
	}
	return least
}

// A part is moved by bisection to where a rule begins to find fault: there an
// independent measure gives the rule's own limit.
func TestThresholdsByMoving(t *testing.T) {
	t.Parallel()
	recess := func(j *job.Job, name string) geom.Region {
		for _, p := range j.OfKind(part.Recess) {
			if p.Name == name {
				return p.Plan()
			}
		}
		t.Fatalf("no key %s", name)
		return nil
	}
	void := func(j *job.Job, k part.Kind) geom.Region { return j.OfKind(k)[0].Plan() }
	high := func(x, y string) []string { return []string{"at = [-75, 75]", "at = [" + x + ", " + y + "]"} }
	for _, tt := range []struct {
		rule    string
		level   int
		limit   float64
		from    float64 // right
		to      float64 // at fault
		design  func(x float64) []string
		measure func(j *job.Job) float64
	}{
		{"key-to-void", stop, 4, -80, -60, func(x float64) []string { return high(num(x), "42") },
			func(j *job.Job) float64 { return flatDistance(recess(j, "high"), void(j, part.Pickup)) }},
		{"key-to-void", warn, 6, -80, -66, func(x float64) []string { return high(num(x), "42") },
			func(j *job.Job) float64 { return flatDistance(recess(j, "high"), void(j, part.Pickup)) }},
		{"key-to-void", note, 10, -80, -66, func(x float64) []string { return high(num(x), "42") },
			func(j *job.Job) float64 { return flatDistance(recess(j, "high"), void(j, part.Pickup)) }},
		{"key-in-outline", stop, 6, -75, -140, func(x float64) []string { return high(num(x), "75") },
			func(j *job.Job) float64 { return flatDistance(recess(j, "high"), j.Outline) }},
		{"key-in-outline", warn, 10, -75, -140, func(x float64) []string { return high(num(x), "75") },
			func(j *job.Job) float64 { return flatDistance(recess(j, "high"), j.Outline) }},
		{"key-to-key", stop, 8, 75, -5, func(y float64) []string { return high("-75", num(y)) },
			func(j *job.Job) float64 { return flatDistance(recess(j, "high"), recess(j, "low")) }},
		{"key-to-key", warn, 20, 75, 8, func(y float64) []string { return high("-75", num(y)) },
			func(j *job.Job) float64 { return flatDistance(recess(j, "high"), recess(j, "low")) }},
		{"key-on-crack", warn, 1, -75, -77, func(x float64) []string { return high(num(x), "75") },
			func(j *job.Job) float64 { return math.Abs(j.Keys.Poses[1].At.X + 75) }},
		{"key-on-crack", stop, 13.0 / 6, -75, -78, func(x float64) []string { return high(num(x), "75") },
			func(j *job.Job) float64 { return math.Abs(j.Keys.Poses[1].At.X + 75) }},
		{"key-square", warn, 20, 0, 40, func(a float64) []string {
			return []string{"at = [-75, 75]\nangle = 0", "at = [-75, 75]\nangle = " + num(a)}
		}, func(j *job.Job) float64 { return j.Keys.Poses[1].Turn.Degrees() }},
		{"tip-covered", warn, 25, 100, 125, func(y float64) []string { return []string{"[-75, 100]", "[-75, " + num(y) + "]"} },
			func(j *job.Job) float64 {
				tip := j.Cracks[0].Front.Vertices()[1]
				return flatDistance(recess(j, "high"), geom.Region{geom.Circle(tip, 1e-3)})
			}},
		{"key-over-void", stop, 4, 20, 31, func(d float64) []string {
			return []string{"[[66, -56], [114, -56], [114, 20], [66, 20]]", "[[-100, -50], [-50, -50], [-50, 0], [-100, 0]]", "depth = 38", "depth = " + num(d)}
		}, func(j *job.Job) float64 {
			_, floor := j.OfKind(part.Recess)[0].Range()
			top, _ := j.OfKind(part.Cavity)[0].Range()
			return top - floor
		}},
		{"key-behind-key", stop, 4, 12, 21.5, func(d float64) []string {
			return []string{"depth = 12", "depth = " + num(d), "at = [-75, 75]\nangle = 0", "at = [-75, -30]\nangle = 0\nface = \"back\""}
		}, func(j *job.Job) float64 {
			_, floor := j.OfKind(part.Recess)[0].Range()
			top, _ := j.OfKind(part.Recess)[1].Range()
			return top - floor
		}},
	} {
		at := func(x float64) *job.Job { return solve(t, edit(t, tt.design(x)...)) }
		bad := func(x float64) bool { return worst(check.Run(at(x)), tt.rule) >= tt.level }
		good, over := tt.from, tt.to
		if bad(good) || !bad(over) {
			t.Errorf("%s %d: fault at %g %v, at %g %v", tt.rule, tt.level, good, bad(good), over, bad(over))
			continue
		}
		for math.Abs(over-good) > 2e-3 {
			if mid := (good + over) / 2; bad(mid) {
				over = mid
			} else {
				good = mid
			}
		}
		if got := tt.measure(at((good + over) / 2)); math.Abs(got-tt.limit) > 5e-3 {
			t.Errorf("%s %d: begins at %.4f by an independent measure, its limit is %g", tt.rule, tt.level, got, tt.limit)
		}
	}
}
