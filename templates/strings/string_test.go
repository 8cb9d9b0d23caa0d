package strings

import (
	"encoding/json"
	"math"
	"os"
	"strconv"
	"testing"
)

func num(t *testing.T, s string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

func near(got, want, rel float64) bool { return math.Abs(got-want) <= rel*math.Abs(want) }

// testdata/reference/string_physics.json names its sources.
func TestStringPhysics(t *testing.T) {
	data, err := os.ReadFile("testdata/reference/string_physics.json")
	if err != nil {
		t.Fatal(err)
	}
	var ref struct {
		Example struct {
			V string `json:"v_m_per_s"`
			T string `json:"T_lowE_same_speed_N"`
		} `json:"openstax_example"`
		Wire []struct {
			Dia     string  `json:"wire_dia_in"`
			Density float64 `json:"density_kg_m3"`
			F       string  `json:"f_Hz"`
			L       string  `json:"L_m"`
			Mu      string  `json:"mu_kg_per_m"`
			T       string  `json:"T_N"`
			Lbf     string  `json:"T_lbf"`
		} `json:"wire_cases"`
	}
	if err := json.Unmarshal(data, &ref); err != nil {
		t.Fatal(err)
	}
	if len(ref.Wire) < 4 {
		t.Fatal("wire cases missing")
	}
	// v = 2·L·f on any length: 1 m here.
	if v := 2 * Frequency(3.09e-4, 1000, 56.40); !near(v, num(t, ref.Example.V), 1e-9) {
		t.Errorf("speed %.9f m/s, want %s", v, ref.Example.V)
	}
	if got := Tension(5.78e-3, 1000, num(t, ref.Example.V)/2); !near(got, num(t, ref.Example.T), 1e-9) {
		t.Errorf("tension %.9f N, want %s", got, ref.Example.T)
	}
	for _, w := range ref.Wire {
		mu := WireMass(num(t, w.Dia)*25.4, w.Density)
		if !near(mu, num(t, w.Mu), 1e-9) {
			t.Errorf("%s in: %.12g kg/m, want %s", w.Dia, mu, w.Mu)
		}
		l := num(t, w.L) * 1000
		tension := Tension(mu, l, num(t, w.F))
		if !near(tension, num(t, w.T), 1e-9) || !near(tension/NewtonsPerPoundForce, num(t, w.Lbf), 1e-9) {
			t.Errorf("%s in: %.9f N, %.9f lbf; want %s, %s", w.Dia, tension, tension/NewtonsPerPoundForce, w.T, w.Lbf)
		}
		if f := Frequency(mu, l, tension); !near(f, num(t, w.F), 1e-12) {
			t.Errorf("%s in: back to %.9f Hz, want %s", w.Dia, f, w.F)
		}
		if half := Frequency(mu, l/2, tension); !near(half, 2*num(t, w.F), 1e-12) {
			t.Errorf("half the length gives %.9f Hz", half)
		}
		if four := Frequency(mu, l, 4*tension); !near(four, 2*num(t, w.F), 1e-12) {
			t.Errorf("four times the tension gives %.9f Hz", four)
		}
	}
}

// exact solves for the lowest frequency of a stiff string whose ends resist
// turning with kappa N·m per radian. The solution of EI·y⁗ − T·y" = μω²·y, even
// about the middle, is A·cos αx + B·cosh βx with β² − α² = T/EI and
// αβ = ω·√(μ/EI); at the end, h from the middle, y = 0 and EI·y" = −κ·y', so that
//
//	EI·(α² + β²)·cos αh + κ·(α·sin αh + β·cos αh·tanh βh) = 0.
func exact(s String, lengthMM, tension, kappa float64) float64 {
	h, ei := lengthMM/2000, s.bend()
	g := func(ah float64) float64 {
		a := ah / h
		b := math.Sqrt(tension/ei + a*a)
		return ei*(a*a+b*b)*math.Cos(ah) + kappa*(a*math.Sin(ah)+b*math.Cos(ah)*math.Tanh(b*h))
	}
	lo, hi := math.Pi/2*(1-1e-12), math.Pi*0.75
	for i := 0; i < 200; i++ {
		mid := (lo + hi) / 2
		if g(lo)*g(mid) <= 0 {
			hi = mid
		} else {
			lo = mid
		}
	}
	a := lo / h
	return a * math.Sqrt(tension/ei+a*a) * math.Sqrt(ei/s.MassPerLength()) / (2 * math.Pi)
}

// The series for stiffness against the exact equation, over the whole length of
// a string and down to a tenth of it, for each kind of ends. A massless tail
// under tension T turns with √(EI·T) N·m per radian.
func TestStiffnessAgainstExactEquation(t *testing.T) {
	for _, s := range []String{
		{Diameter: 0.254, Pitch: 329.6276},
		{Diameter: 0.43, Pitch: 195.9977},
		{Diameter: 1.17, Core: 0.42, Mass: 5.9e-3, Pitch: 82.4069},
	} {
		for _, ends := range []Ends{Clamped, Carried, Hinged} {
			tension := s.TensionAt(648, ends)
			turn := math.Sqrt(s.bend() * tension)
			kappa := [...]float64{Clamped: turn * 1e9, Carried: turn, Hinged: 0}[ends]
			for _, l := range []float64{648, 324, 162, 65} {
				got := Frequency(s.MassPerLength(), l, tension) * s.stiffening(l, tension, ends)
				want := exact(s, l, tension, kappa)
				e := math.Sqrt(s.bend()/tension) / (l / 1000)
				if limit := 30*e*e*e + 1e-8; math.Abs(got/want-1) > limit { // what the series leaves out
					t.Errorf("%g mm of %g, ends %d: %.9f Hz, exact %.9f, apart %.2g, limit %.2g", s.Diameter, l, ends, got, want, got/want-1, limit)
				}
			}
			if f := exact(s, 648, tension, kappa); !near(f, s.Pitch, 1e-5) {
				t.Errorf("tuned to %.6f Hz, want %.6f", f, s.Pitch)
			}
		}
	}
}

func setup() Setup { return Setup{Scale: 648, Frets: 22, AtNut: 0.4, Action12: 1.7, Ends: Carried} }

func TestCompensate(t *testing.T) {
	plain := String{Diameter: 0.254, Pitch: 329.6276}
	wound := String{Diameter: 1.17, Core: 0.42, Mass: 5.9e-3, Pitch: 82.4069}
	third := String{Diameter: 0.43, Pitch: 195.9977}
	for _, s := range []String{plain, third, wound} {
		e, err := Compensate(s, setup())
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(e.Cents[11]) > 1e-6 || e.Nut != 0 {
			t.Errorf("saddle alone: fret 12 off by %g cents, nut %g", e.Cents[11], e.Nut)
		}
		// Range check, common practice: 0.5 to 6 mm for guitar strings.
		if e.Saddle < 0.5 || e.Saddle > 6 {
			t.Errorf("%g mm string: saddle %g mm", s.Diameter, e.Saddle)
		}
		u := setup()
		u.Nut = true
		both, err := Compensate(s, u)
		if err != nil {
			t.Fatal(err)
		}
		sum := func(c []float64) (q float64) {
			for _, v := range c {
				q += v * v
			}
			return q
		}
		if sum(both.Cents) >= sum(e.Cents) {
			t.Errorf("with the nut %g cents², without %g", sum(both.Cents), sum(e.Cents))
		}
		// A least sum: any small change makes it larger.
		m := model{s, u}
		for _, d := range [][2]float64{{0.01, 0}, {-0.01, 0}, {0, 0.01}, {0, -0.01}} {
			if sum(m.errors(both.Nut+d[0], both.Saddle+d[1])) < sum(both.Cents) {
				t.Errorf("%g mm string: %v is better than nut %g, saddle %g", s.Diameter, d, both.Nut, both.Saddle)
			}
		}
		t.Logf("%.2f mm: %.1f N, saddle %.2f; with the nut %.2f, saddle %.2f", s.Diameter, s.TensionAt(648, Carried), e.Saddle, both.Nut, both.Saddle)
		// The kinds of ends are bounds.
		u = setup()
		u.Ends = Clamped
		upper, err1 := Compensate(s, u)
		u.Ends = Hinged
		lower, err2 := Compensate(s, u)
		if err1 != nil || err2 != nil || !(lower.Saddle < e.Saddle && e.Saddle < upper.Saddle) {
			t.Errorf("saddle %g hinged, %g carried, %g clamped", lower.Saddle, e.Saddle, upper.Saddle)
		}
		// Higher action needs more.
		u = setup()
		u.Action12 = 2.5
		if higher, err := Compensate(s, u); err != nil || higher.Saddle <= e.Saddle {
			t.Errorf("higher action: %g, %v, not above %g", higher.Saddle, err, e.Saddle)
		}
	}
	// A string without stiffness, strings flat on the frets: nothing to mend.
	limp := String{Diameter: 0.254, Pitch: 329.6276, Young: 1}
	u := setup()
	u.AtNut, u.Action12 = 0, 1e-6
	e, err := Compensate(limp, u)
	if err != nil || math.Abs(e.Saddle) > 1e-3 {
		t.Errorf("limp string: %+v, %v", e, err)
	}
}

func TestBadStrings(t *testing.T) {
	nan := math.NaN()
	ok := String{Diameter: 0.254, Pitch: 330}
	for i, s := range []String{
		{}, {Diameter: nan, Pitch: 330}, {Diameter: -1, Pitch: 330}, {Diameter: 0.25}, {Diameter: 0.25, Pitch: nan}, {Diameter: 0.25, Pitch: math.Inf(1)},
		{Diameter: 1, Core: 2, Pitch: 80}, {Diameter: 1, Core: 0.4, Pitch: 80}, {Diameter: 1, Mass: -1, Pitch: 80}, {Diameter: 1, Young: nan, Pitch: 80},
	} {
		if _, err := Compensate(s, setup()); err == nil {
			t.Errorf("string %d passed: %+v", i, s)
		}
	}
	for i, u := range []Setup{
		{}, {Scale: nan, Frets: 22, Action12: 1.7}, {Scale: 648, Frets: 3, Action12: 1.7}, {Scale: 648, Frets: 22}, {Scale: 648, Frets: 22, AtNut: -1, Action12: 1.7}, {Scale: 648, Frets: 22, AtNut: 4, Action12: 1},
	} {
		if _, err := Compensate(ok, u); err == nil {
			t.Errorf("setup %d passed: %+v", i, u)
		}
	}
}
