package tool

import "testing"

// Rows of the published chart, in inches as printed there: up to 1 in 24,000,
// 1 to 2 in 18,000, 2 to 2½ in 16,000, 2½ to 3½ in 12,000 rpm.
func TestSpeed(t *testing.T) {
	for _, c := range []struct {
		inch float64
		most int
		ok   bool
	}{{0.25, 24000, true}, {1, 24000, true}, {1.5, 18000, true}, {2.5, 16000, true}, {3.5, 12000, true}, {3.6, 0, false}} {
		s, ok := Tool{Cutter: c.inch * 25.4}.Speed()
		if s.Most != c.most || ok != c.ok {
			t.Errorf("%g in: %d, %v; want %d, %v", c.inch, s.Most, ok, c.most, c.ok)
		}
	}
}
