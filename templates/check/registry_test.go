package check_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"routwright/templates/check"
	"routwright/templates/cut"
	"routwright/templates/design"
)

type cutPin = cut.Pin

// example is a job that a rule accepts and one that it does not, beside the
// tables of limits and states. Test files add theirs in init.
type example struct {
	rule      string
	level     check.Level
	good, bad func(t *testing.T) []check.Finding
}

var examples []example

// shown names, by rule, a test that finds the rule's threshold by moving a part,
// where there is no example: it holds a passing and a failing design of its own.
var shown = map[string]string{}

func TestExamples(t *testing.T) {
	t.Parallel()
	for _, e := range examples {
		if got := levelOf(e.good(t), e.rule); got >= int(e.level) {
			t.Errorf("%s %s: finds fault with the good one", e.rule, e.level)
		}
		if got := levelOf(e.bad(t), e.rule); got < int(e.level) {
			t.Errorf("%s %s: lets the bad one pass", e.rule, e.level)
		}
	}
}

// Every rule has a design that it accepts and one that it does not.
func TestEveryRuleHasExamples(t *testing.T) {
	t.Parallel()
	has := map[string]bool{}
	for _, l := range limits() {
		has[l.rule] = true
	}
	for _, s := range states() {
		has[s.rule] = true
	}
	for _, e := range examples {
		has[e.rule] = true
	}
	tests := sources(t)
	for id, name := range shown {
		has[id] = true
		if !strings.Contains(tests, "\nfunc "+name+"(t *testing.T)") {
			t.Errorf("%s is shown by %s, which is no test here", id, name)
		}
	}
	for _, r := range check.Rules() {
		if !has[r.ID] {
			t.Errorf("%s has no example that passes and fails: add one to limits, states, examples or shown", r.ID)
		}
		delete(has, r.ID)
	}
	for id := range has {
		t.Errorf("examples of %s, which is no rule", id)
	}
}

// sources returns the test files of the package, one after the other.
func sources(t *testing.T) string {
	t.Helper()
	names, err := filepath.Glob("*_test.go")
	if err != nil || len(names) == 0 {
		t.Fatal(names, err)
	}
	var all strings.Builder
	for _, n := range names {
		b, err := os.ReadFile(n)
		if err != nil {
			t.Fatal(err)
		}
		all.Write(b)
	}
	return all.String()
}

// A rule whose limit may be changed measures in the direction that it says, and
// its findings name the limit that was passed.
func TestDirections(t *testing.T) {
	t.Parallel()
	byID := map[string]check.Rule{}
	for _, r := range check.Rules() {
		byID[r.ID] = r
	}
	look := func(fs []check.Finding) {
		for _, f := range fs {
			r := byID[f.Check]
			if r.Allowable() == "" && (f.Got > f.Want) != r.Over && f.Got != f.Want {
				t.Errorf("%s: got %g, want %g, and the rule says over = %v", f.Check, f.Got, f.Want, r.Over)
			}
		}
	}
	for _, l := range limits() {
		look(run(t, edit(t, l.over...)))
	}
	for _, s := range states() {
		look(run(t, edit(t, s.edits...)))
	}
	for _, e := range examples {
		look(e.bad(t))
	}
}

// allow is a table that sets another limit.
func allow(id, limit string) string {
	return "[[allow]]\ncheck = \"" + id + "\"\nlimit = " + limit + "\nreason = \"the wall carries nothing\"\n[print]"
}

// A limit of the builder decides: what keeps to it is a note with the reason,
// what does not is found as before, or where the rule asks for less, at its
// mildest level.
func TestAllow(t *testing.T) {
	t.Parallel()
	for _, tt := range []struct {
		name  string
		rule  string
		want  int
		note  bool
		edits []string
	}{
		{"laxer, kept", "void-to-void", int(check.Note), true, []string{"[print]", allow("void-to-void", "3.5"), "at = 130", "at = 77.6"}}, // 3.6 of wood
		{"laxer, not kept", "void-to-void", int(check.Stop), false, []string{"[print]", allow("void-to-void", "3.5"), "at = 130", "at = 77.4"}},
		{"between stop and warning", "void-to-void", int(check.Note), true, []string{"[print]", allow("void-to-void", "5"), "at = 130", "at = 79.1"}},
		{"stricter, not kept", "void-to-void", int(check.Warn), false, []string{"[print]", allow("void-to-void", "8"), "at = 130", "at = 81.9"}},
		{"stricter, kept", "void-to-void", -1, false, []string{"[print]", allow("void-to-void", "8"), "at = 130", "at = 82.1"}},
		{"into one another all the same", "void-to-void", int(check.Stop), false, []string{"[print]", allow("void-to-void", "0.001"), "at = 130", "at = 70"}},
		{"outside the body all the same", "void-to-outline", int(check.Stop), false, []string{"[print]", allow("void-to-outline", "0.001"), "at = 130", "at = 300"}},
		{"more is worse, kept", "key-length", int(check.Note), true, []string{"[print]", allow("key-length", "80"), "length = 50", "length = 79.9"}},
		{"more is worse, not kept", "key-length", int(check.Warn), false, []string{"[print]", allow("key-length", "80"), "length = 50", "length = 80.1"}},
		{"more is worse, stricter", "key-length", int(check.Warn), false, []string{"[print]", allow("key-length", "45")}},
	} {
		j := solve(t, edit(t, tt.edits...))
		if err := check.Verify(j.Design); err != nil {
			t.Fatalf("%s: %v", tt.name, err)
		}
		fs := check.Run(j)
		if got := levelOf(fs, tt.rule); got != tt.want {
			t.Errorf("%s: level %d, want %d", tt.name, got, tt.want)
		}
		for _, f := range fs {
			if f.Check == tt.rule && (f.Allowed != "") != tt.note || (f.Allowed != "") != strings.Contains(f.Message, "carries nothing") {
				t.Errorf("%s: allowed %q, message %q", tt.name, f.Allowed, f.Message)
			}
		}
		told := false
		for _, a := range j.Assumed {
			told = told || a.Key == "allow "+tt.rule && a.Why == "the wall carries nothing"
		}
		if !told {
			t.Errorf("%s: the reason is not in the list of what was assumed", tt.name)
		}
	}
}

// The verdict on a moved part turns at the builder's limit.
func TestAllowThreshold(t *testing.T) {
	t.Parallel()
	for _, limit := range []float64{0.5, 2, 3.999} {
		got := turningPoint(t, 84, 70, func(y float64) bool {
			text := edit(t, "[print]", allow("void-to-void", design.MM(limit)), "at = 130", "at = "+design.MM(y))
			return levelOf(run(t, text), "void-to-void") == int(check.Stop)
		})
		// The tail's edge lies at 42 + 20.75, the neck's 11.25 below its middle;
		// the file is written to a hundredth.
		if want := 42 + 20.75 + 11.25 + limit; got < want-0.02 || got > want+0.02 {
			t.Errorf("limit %g: turns at %.3f, want %.3f", limit, got, want)
		}
	}
}

func TestVerify(t *testing.T) {
	t.Parallel()
	for _, tt := range []struct{ id, limit, want string }{
		{"void-to-vod", "3", `did you mean "void-to-void"?`},
		{"nothing-like-it", "3", "--explain all"},
		{"passes", "3", "a safety stop"},
		{"template-web", "3", "a safety stop"},
		{"glue-gap", "0.02", "both sides"},
		{"scale-ruler", "3", "no limit to change"},
		{"void-to-void", "0", "a limit over 0 mm"},
		{"void-to-void", "3\nreason = \"a\"\n[[allow]]\ncheck = \"void-to-void\"\nlimit = 3", "a second time, first on line"},
	} {
		d, err := design.Parse("test.toml", []byte(edit(t, "[print]", allow(tt.id, tt.limit))))
		if err != nil {
			t.Fatal(err)
		}
		err = check.Verify(d)
		if err == nil || !strings.Contains(err.Error(), tt.want) || !strings.HasPrefix(err.Error(), "test.toml:") {
			t.Errorf("%s: %v, want …%s…", tt.id, err, tt.want)
		}
	}
}
