package fretboard

import (
	"math"
	"strings"
	"testing"
)

func TestBadTunings(t *testing.T) {
	for _, tt := range []struct{ in, want string }{
		{"", "empty"},
		{"# nothing\n\n", "empty"},
		{"0\n", "empty"},
		{"100\n90\n", "not above the one before"},
		{"100\n100\n", "not above the one before"},
		{"100\nnan\n", "line 2"},
		{"inf\n", "line 1"},
		{"-5\n", "above 0"},
		{"100\n0\n", "above 0"},
		{"0\n0\n", "above 0"},
		{"1300\n", "up to 1200"},
		{"5/2\n", "up to 2/1"},
		{"3/0\n", "line 1"},
		{"fifth\n3/2\nx\n", "line 3"},
		{strings.Repeat("x\n", 1000), "more follows"},
		{"\x7fELF\x00\x01", "no interval"},
		{"1.0595\n1.1225\n1.5\n2\n", "write each as a fraction"},
		{strings.Repeat("1", 1<<17), "over 65536 bytes"},
		{strings.Repeat("#\n", 1<<16), "over 65536 bytes"},
		{strings.Repeat("9 ", 200), "at most 144"},
	} {
		_, err := ReadTuning(strings.NewReader(tt.in))
		if err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("ReadTuning(%.20q): %v, want %q", tt.in, err, tt.want)
		}
	}
	for _, bad := range [][]float64{nil, {1}, {0.5}, {math.NaN()}, {math.Inf(1)}, {1.5, 1.25}, {2.1}} {
		if _, err := Ratios(bad); err == nil {
			t.Errorf("Ratios(%v) passed", bad)
		}
	}
	for _, n := range []int{0, -1, 145} {
		if _, err := Equal(n); err == nil {
			t.Errorf("Equal(%d) passed", n)
		}
	}
}

// The same list in every way that a person writes it.
func TestTuningsWrittenFreely(t *testing.T) {
	for _, in := range []string{
		"386.3137138648348\n701.9550008653874\n1200\n",
		"5/4\n3/2\n2/1\n",
		"\ufeff1/1\r\n5:4\r\n3:2\r\n",
		"0, 386.3137138648348, 701.9550008653874",
		"1.25/1; 1.5/1 # the octave closes by itself",
	} {
		te, err := ReadTuning(strings.NewReader(in))
		if err != nil {
			t.Errorf("%q: %v", in, err)
			continue
		}
		for n, want := range []float64{0, 0.2, 1.0 / 3, 0.5, 0.6, 2.0 / 3, 0.75} {
			if got := te.Fraction(float64(n)); math.Abs(got-want) > 1e-12 {
				t.Errorf("%q: fret %d at %.15f, want %.15f", in, n, got, want)
			}
		}
	}
}

// FuzzReadTuning: a list that is read rises, starts above the nut and has exact
// octaves; nothing panics.
func FuzzReadTuning(f *testing.F) {
	for _, s := range []string{"100\n200", "3/2", "0,386.3,702", "1/1 5:4 #x", "nan", "\ufeff1e2", "1199.9999999999 1200"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		te, err := ReadTuning(strings.NewReader(s))
		if err != nil {
			return
		}
		n := te.Steps()
		last := 0.0
		for i := 1; i <= 2*n; i++ {
			x := te.Fraction(float64(i))
			if !(x >= last) {
				t.Fatalf("%q: fret %d at %v after %v", s, i, x, last)
			}
			last = x
		}
		if te.Fraction(float64(n)) != 0.5 || te.Fraction(float64(2*n)) != 0.75 {
			t.Fatalf("%q: octaves at %v and %v", s, te.Fraction(float64(n)), last)
		}
	})
}
