package check_test

import (
	"strings"
	"testing"

	"routwright/templates/check"
)

// An order that keeps every datum passes; one that saws the pins off first is
// refused with the reason, and so is a step that there is not.
func TestWorkOrder(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ order, want string }{
		{"", ""},
		{`["rout-pickup-tail", "rout-pickup-neck"]`, ""},
		{`["rout-pickup-neck", "rout-pickup-tail"]`, ""},
		{`["saw-outline", "rout-pickup-tail"]`, `which "saw-outline" takes away; you ask for "saw-outline" before "rout-pickup-tail"`},
		{`["edge", "trim-outline"]`, `you ask for "edge" before "trim-outline"`},
		{`["paint"]`, `no step is called "paint"`},
	} {
		text := edit(t)
		if c.order != "" {
			text += "\n[work]\norder = " + c.order + "\n"
		}
		fs := found(run(t, text), "work-order")
		switch {
		case c.want == "" && len(fs) > 0:
			t.Errorf("%s: %s", c.order, fs[0].Message)
		case c.want != "" && (len(fs) != 1 || fs[0].Level != check.Stop || !strings.Contains(fs[0].Message, c.want)):
			t.Errorf("%s: %v\nwant %s", c.order, fs, c.want)
		}
	}
}

func init() { shown["work-order"] = "TestWorkOrder" }
