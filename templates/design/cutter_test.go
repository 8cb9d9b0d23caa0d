package design_test

import (
	"strings"
	"testing"

	"routwright/templates/design"
)

// A mark stands alone, or in the table that names the tools; the place of either is
// kept.
func TestCutIsAMarkOrATable(t *testing.T) {
	for _, tt := range []struct {
		text      string
		done      bool
		bit       string
		line, col int // of the mark
	}{
		{"cut = true", true, "", 4, 7},
		{"cut = false", false, "", 4, 7},
		{`cut = {bit = "six"}`, false, "six", 0, 0},
		{`cut = {bit = "six", done = true}`, true, "six", 4, 28},
		{"cut = {done = true}", true, "", 4, 15},
		{"cut.done = true\ncut.bit = \"six\"", true, "six", 4, 12},
	} {
		d, err := design.Parse("t.toml", []byte("design = 1\nbit = [{name = \"six\", d = 6}]\n[[pickup]]\n"+tt.text+"\n"))
		if err != nil {
			t.Errorf("%s: %v", tt.text, err)
			continue
		}
		c := d.Pickup[0].Cutter
		if c.Done.V != tt.done || c.Bit.V != tt.bit || c.Done.At.Line != tt.line || c.Done.At.Col != tt.col {
			t.Errorf("%s: %+v", tt.text, c)
		}
	}
	for _, tt := range []struct{ text, want string }{
		{`cut = "six"`, "pickup 1.cut: the text \"six\"; allowed: true or false, or a table {bit, bush, done, free, drill}"},
		{"cut = 1", "pickup 1.cut: the number 1; allowed: true or false, or a table {bit, bush, done, free, drill}; write cut = true"},
		{"cut = {done = 1}", "pickup 1.cut.done: the number 1; allowed: true or false; write done = true"},
		{"cut = {dun = true}", "pickup 1.cut.dun: an unknown key"},
	} {
		_, err := design.Parse("t.toml", []byte("design = 1\n[[pickup]]\n"+tt.text+"\n"))
		if err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: %v\nwant %s", tt.text, err, tt.want)
		}
	}
}
