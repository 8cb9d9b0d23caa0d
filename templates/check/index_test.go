package check_test

import (
	"math"
	"testing"

	"routwright/geom"
	"routwright/templates/check"
	"routwright/templates/design"
	"routwright/templates/job"
)

func init() { shown["index-web"] = "TestIndexWeb" }

// solveBoard solves a design of nothing but a board.
func solveBoard(t *testing.T, body string) *job.Job {
	t.Helper()
	d, err := design.Parse("g.toml", []byte("design = 1\n"+body))
	if err != nil {
		t.Fatal(err)
	}
	j, err := memory.Solve(d, nil)
	if err != nil {
		t.Fatal(err)
	}
	return j
}

// ruleLevel returns the level that a rule reports, and whether it does.
func ruleLevel(j *job.Job, id string) (check.Level, bool) {
	for _, f := range check.Run(j) {
		if f.Check == id {
			return f.Level, true
		}
	}
	return 0, false
}

// A slot moved by 0.1 mm is told, on one scale and on a fan.
func TestFretPlacesOfFans(t *testing.T) {
	t.Parallel()
	for _, scale := range []string{"648", "{bass = 686, treble = 648}"} {
		j := solveBoard(t, "[strings]\nscale = "+scale+"\n")
		if l, bad := ruleLevel(j, "fret-places"); bad {
			t.Errorf("scale %s: a sound board says %s", scale, l)
		}
		s := &j.Board.Slots[9]
		s.Line = geom.Translate(geom.Vec{Y: 0.1}).Seg(s.Line)
		if l, bad := ruleLevel(j, "fret-places"); !bad || l != check.Stop {
			t.Errorf("scale %s: a slot 0.1 mm off passes", scale)
		}
	}
}

// The web of the strip by its own measure: the last two slots of 24 on 648 mm
// lie 648·(2^(−23/12) − 2^(−2)) apart.
func TestIndexWeb(t *testing.T) {
	t.Parallel()
	apart := 648 * (math.Exp2(-23.0/12) - 0.25)
	for _, tt := range []struct {
		web  float64
		want string
	}{{2.1, ""}, {1.9, "warn"}, {1.1, "warn"}, {0.9, "stop"}, {-0.1, "stop"}} {
		j := solveBoard(t, "[strings]\nscale = 648\nfrets = 24\n[fretboard]\nindex.pin = "+design.MM(apart-tt.web)+"\n")
		l, bad := ruleLevel(j, "index-web")
		if got := map[bool]string{true: l.String()}[bad]; got != tt.want {
			t.Errorf("%.1f mm of wood: %q, want %q", tt.web, got, tt.want)
		}
	}
}
