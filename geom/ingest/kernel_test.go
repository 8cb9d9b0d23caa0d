package ingest_test

import (
	"os"
	"testing"

	"routwright/geom"
	"routwright/geom/ingest"
)

// A template of a drawn outline is grown and shrunk again and again: by the
// follower, by its maker's file, by the cutter. Every step must hold.
func TestDrawnOutlineStandsTheCut(t *testing.T) {
	for _, name := range []string{"body.svg", "body_r12.dxf", "body_r2000.dxf", "body_r2000_splines.dxf"} {
		f, err := os.Open("../../testdata/outlines/" + name)
		if err != nil {
			t.Fatal(err)
		}
		res, err := ingest.Read(name, f, ingest.Options{Unit: 1})
		f.Close()
		if err != nil {
			t.Fatal(err)
		}
		p, err := ingest.Outline(res, ingest.Options{})
		if err != nil {
			t.Fatal(err)
		}
		for _, r := range []float64{1.5, 3.175, 6.35, 9} {
			cur := geom.Region{p}
			var c geom.Calc
			for i, d := range []float64{r, -r, 3, -3, r, -r, -r, r, -3, 3} {
				next := c.Offset(cur, d, geom.Round)
				if c.Err() != nil {
					t.Errorf("%s: step %d, %g mm after r %g: %v", name, i, d, r, c.Err())
					break
				}
				if err := next.Check(); err != nil {
					t.Errorf("%s: step %d, %g mm after r %g: %v", name, i, d, r, err)
					break
				}
				cur = next
			}
			if c.Fallbacks > 0 {
				t.Logf("%s: r %g: %d fallbacks", name, r, c.Fallbacks)
			}
		}
	}
}
