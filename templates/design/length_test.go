package design

import (
	"encoding/csv"
	"math"
	"math/big"
	"os"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestParseLength(t *testing.T) {
	for _, c := range []struct {
		in, unit string
		mm       float64
	}{
		{"648", "mm", 648}, {"25.5", "in", 647.7}, {"0", "in", 0}, {"-12.25", "mm", -12.25}, {"+3", "mm", 3}, {"007", "mm", 7},
		{"44.5 mm", "in", 44.5}, {"44.5mm", "in", 44.5}, {"4.45 cm", "mm", 44.5}, {"44.5 MM", "in", 44.5}, {" 44.5  mm ", "in", 44.5},
		{"25 1/2 in", "mm", 647.7}, {`25 1/2"`, "mm", 647.7}, {"25-1/2 in", "mm", 647.7}, {"25 1/2", "in", 647.7}, {"25½ in", "mm", 647.7}, {"25½″", "mm", 647.7},
		{`1-3/4"`, "mm", 44.45}, {"1 3/4 inches", "mm", 44.45}, {"1¾ inch", "mm", 44.45}, {"1 3⁄4 in", "mm", 44.45}, {"1 3 / 4 in", "mm", 44.45}, {"1 3/4''", "mm", 44.45},
		{"1/4in", "mm", 6.35}, {"1/4 in.", "mm", 6.35}, {"¼ in", "mm", 6.35}, {"-1 1/4 in", "mm", -31.75}, {"−1/8 in", "mm", -3.175}, {"- 1/8 in", "mm", -3.175},
		{"1/64 in", "mm", 0.396875}, {"3/32 IN", "mm", 2.38125}, {"24 3/4 in", "mm", 628.65}, {"10 thou", "mm", 0.254}, {"1/2 mm", "in", 0.5},
		{"25\u00a01/2\u2009in", "mm", 647.7}, {"1/3 in", "mm", 25.4 / 3}, {"7/4 in", "mm", 44.45},
	} {
		got, err := ParseLength(c.in, c.unit)
		if err != nil || float64(got) != c.mm {
			t.Errorf("ParseLength(%q, %q) = %v, %v; want %v mm", c.in, c.unit, float64(got), err, c.mm)
		}
	}
}

func TestParseLengthRefuses(t *testing.T) {
	for _, s := range []string{"", " ", "mm", "in", "1 1", "1 mm 2", "1/0 in", "0/00 in", "1/2/3 in", "1.5 1/2 in", "1 5/4 in", "1 4/4 in", "--1", "1..5", ".5 in", "5. in x", "1e3", "0x10", "nan", "inf", "NaN mm", "1 ft", "1 m", "1 px", "1 furlong", "44,5 mm", "1,000", "½½ in", "1/-2 in", "1 in in", "١ mm", "1\x00mm", strings.Repeat("9", 500)} {
		if v, err := ParseLength(s, "mm"); err == nil {
			t.Errorf("ParseLength(%q) = %v, want an error", s, float64(v))
		}
	}
	for s, cure := range map[string]string{"44,5 mm": "44.5 mm", "1 inc": `"in`, "1 5/4 in": "25 1/2", "3 fathoms": "mm, cm, in or thou"} {
		if _, err := ParseLength(s, "mm"); err == nil || !strings.Contains(err.Error(), cure) {
			t.Errorf("ParseLength(%q): %v, want the cure %q", s, err, cure)
		}
	}
}

// The identities of testdata/reference/units.csv that are about lengths of ours,
// each with its source there.
func TestUnitsAgainstReference(t *testing.T) {
	f, err := os.Open("testdata/reference/units.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	seen := 0
	for _, row := range rows {
		want, exact := strings.CutSuffix(row[1], " mm exactly")
		if !exact {
			continue
		}
		seen++
		got, err := ParseLength(row[0], "mm")
		as, err2 := ParseLength(want, "mm")
		if err != nil || err2 != nil || got != as {
			t.Errorf("%s = %v, want %s mm (%s): %v %v", row[0], float64(got), want, row[2], err, err2)
		}
	}
	if seen != 2 { // the inch and the thou
		t.Errorf("%d exact lengths in the table", seen)
	}
	// 1 mm = 1/10 cm.
	if a, _ := ParseLength("1/10 cm", "mm"); a != 1 {
		t.Errorf("1/10 cm = %v mm", float64(a))
	}
}

// The result is the binary number nearest to the exact length: compared with
// exact fractions.
func TestLengthsAreExact(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		whole, den := rapid.Int64Range(0, 200).Draw(t, "whole"), rapid.Int64Range(2, 128).Draw(t, "den")
		num := rapid.Int64Range(1, den-1).Draw(t, "num")
		text := big.NewInt(whole).String() + " " + big.NewRat(num, den).RatString() + " in"
		exact := new(big.Rat).Add(big.NewRat(whole, 1), big.NewRat(num, den))
		exact.Mul(exact, big.NewRat(127, 5))
		want, _ := exact.Float64()
		if got, err := ParseLength(text, "mm"); err != nil || float64(got) != want {
			t.Fatalf("%s = %v, %v; want %v", text, float64(got), err, want)
		}
	})
}

func TestLengthComesBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := Length(rapid.Float64Range(-farthest, farthest).Draw(t, "mm"))
		if got, err := ParseLength(l.String(), "in"); err != nil || got != l {
			t.Fatalf("%s comes back as %v, %v", l, float64(got), err)
		}
		text, over := Inches(float64(l))
		got, err := ParseLength(text, "mm")
		if err != nil || math.Abs(float64(got)+over-float64(l)) > 1e-9 || math.Abs(over) > 25.4/128+1e-9 {
			t.Fatalf("%v prints as %s and %v over: %v, %v", float64(l), text, over, float64(got), err)
		}
		p, err := ParseLength(l.In(Inch), Millimetre)
		if err != nil || math.Abs(float64(p-l)) > 0.00005*25.4+1e-9 {
			t.Fatalf("%v prints as %s", float64(l), l.In(Inch))
		}
	})
}

func TestInches(t *testing.T) {
	for mm, want := range map[float64]string{647.7: "25 1/2 in", 44.45: "1 3/4 in", 6.35: "1/4 in", 25.4: "1 in", 0: "0 in", -31.75: "-1 1/4 in", 0.396875: "1/64 in"} {
		if got, over := Inches(mm); got != want || math.Abs(over) > 1e-12 {
			t.Errorf("Inches(%v) = %s, %v; want %s", mm, got, over, want)
		}
	}
}

// What a message says is allowed must be allowed.
func TestBoundsAreRoundedInward(t *testing.T) {
	var walk func(s *spec)
	walk = func(s *spec) {
		for _, f := range s.fields {
			if f.sub != nil {
				walk(f.sub)
			}
			if f.bound == nil || !f.bound.length {
				continue
			}
			for _, unit := range []string{Millimetre, Inch} {
				lo, _ := ParseLength(boundIn(Length(f.bound.lo), unit, true), "mm")
				hi, _ := ParseLength(boundIn(Length(f.bound.hi), unit, false), "mm")
				if float64(lo) < f.bound.lo || float64(hi) > f.bound.hi || lo > hi {
					t.Errorf("%s: %s is not inside %+v", f.key, f.bound.in(unit), *f.bound)
				}
			}
		}
	}
	walk(rootSpec())
}

func FuzzParseLength(f *testing.F) {
	for _, s := range []string{"25 1/2 in", `1-3/4"`, "44.5 mm", "¼″", "-0", "1/0", "44,5"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		l, err := ParseLength(s, "in")
		if err == nil && (math.IsNaN(float64(l)) || math.IsInf(float64(l), 0)) {
			t.Errorf("%q = %v", s, float64(l))
		}
	})
}
