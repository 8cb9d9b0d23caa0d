package wood

import (
	"math"
	"testing"
)

// The published examples: white fir from the Wood Handbook's chapter 13 (232 mm
// wide, 8 to 11 %, 1.7 mm), and the mismatch of a 60 mm key over 4 %.
func TestMovement(t *testing.T) {
	fir := Species{Tangential: 0.00245}
	if got := fir.Movement(232, 3); math.Abs(got-1.7) > 0.05 {
		t.Errorf("white fir moves %.4f mm, the Handbook prints 1.7", got)
	}
	for _, tt := range []struct {
		name string
		want float64
	}{{"Walnut, black", 0.66}, {"Maple, sugar", 0.85}} {
		s, err := Lookup(tt.name)
		if err != nil {
			t.Fatal(err)
		}
		if got := s.Movement(60, 4); math.Abs(got-tt.want) > 0.005 {
			t.Errorf("%s: a key of 60 mm mismatches by %.4f mm over 4 %%, want %.2f", tt.name, got, tt.want)
		}
	}
}

func TestEveryRow(t *testing.T) {
	if n := len(Names()); n < 20 {
		t.Fatalf("%d species read, want the whole tables", n)
	}
	for _, n := range Names() {
		s, err := Lookup(n)
		if err != nil {
			t.Fatal(err)
		}
		// Range of the tables: coefficients 0.0007 to 0.0045 per 1 %.
		if s.Tangential != 0 && (s.Tangential < s.Radial || s.Tangential > 0.005) {
			t.Errorf("%s: tangential coefficient %g, radial %g", n, s.Tangential, s.Radial)
		}
	}
}

func TestLookupSuggests(t *testing.T) {
	_, err := Lookup("walnut")
	if err == nil || err.Error() != `no wood "walnut" in the tables; there are "Walnut, black"` {
		t.Errorf("got %v", err)
	}
}
