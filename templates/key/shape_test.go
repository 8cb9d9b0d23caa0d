package key_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"routwright/geom"
	"routwright/templates/key"
	"routwright/templates/tool"
)

// Bad keys: each a clear error, never a drawing.
func TestBadKeys(t *testing.T) {
	bit := tool.Tool{Bit: "b", Cutter: 6.35, Follower: 6.35}
	for _, tt := range []struct {
		name string
		s    key.Spec
		want string
	}{
		{"no length", key.Spec{Ends: 26, Waist: 13}, "greater than 0"},
		{"wide waist", key.Spec{Length: 60, Ends: 20, Waist: 20}, "narrower"},
		{"gap over the key", key.Spec{Length: 60, Ends: 26, Waist: 13, Gap: 7}, "leaves nothing"},
		{"negative gap", key.Spec{Length: 60, Ends: 26, Waist: 13, Gap: -1}, "negative"},
		{"corners too large", key.Spec{Length: 20, Ends: 6, Waist: 4, Corners: key.Rounded}, "corners of radius"},
		{"not a number", key.Spec{Length: math.NaN(), Ends: 26, Waist: 13}, "greater than 0"},
	} {
		_, err := key.Make(tt.s, bit)
		if err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: %v, want …%s…", tt.name, err, tt.want)
		}
	}
}

// A relieved recess lets the sharp key in: nothing of the key lies outside it.
func TestRelievedTakesTheSharpKey(t *testing.T) {
	s := key.Spec{Length: 60, Ends: 26, Waist: 13, Gap: 0.08, Corners: key.Relieved}
	f, err := key.Make(s, tool.Tool{Bit: "b", Cutter: 6.35, Follower: 6.35})
	if err != nil {
		t.Fatal(err)
	}
	var c geom.Calc
	recess := c.Offset(c.Offset(f.Female, -6.35/2, geom.Round), 6.35/2, geom.Round)
	if out := c.Subtract(f.Key, recess); out.Area() > 1e-6 || c.Err() != nil {
		t.Errorf("%g mm² of the key lie outside the recess (%v)", out.Area(), c.Err())
	}
	// A relief of radius r overcuts each flank by r(1 − sin(θ/2)) at most: the
	// recess grows by less than 4 circles.
	if grown := recess.Area() - s.Outline().Area(); grown <= 0 || grown > 4*math.Pi*3.3*3.3 {
		t.Errorf("the reliefs add %g mm²", grown)
	}
}

func ExampleSpec_Flank() {
	s := key.Spec{Length: 60, Ends: 26, Waist: 13}
	fmt.Printf("flank %.1f°, end corner %.1f°\n", s.Flank().Degrees(), s.End().Degrees())
	// Output: flank 12.2°, end corner 77.8°
}
