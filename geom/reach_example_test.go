package geom_test

import (
	"fmt"

	"routwright/geom"
)

// A pocket of 90 × 40 mm with sharp corners, cleared with a cutter of 12.7 mm.
func ExampleCalc_Residue() {
	pocket := geom.Region{geom.Rect(geom.Pt(0, 0), 90, 40)}
	var c geom.Calc
	nooks := c.Residue(pocket, 12.7/2)
	if c.Err() != nil {
		fmt.Println(c.Err())
		return
	}
	n := nooks[0]
	fmt.Printf("%d corners, each %.2f mm deep and %.2f mm along both sides, %.2f mm² left\n",
		len(nooks), n.Depth, n.Tangents[0], n.Area)
	// Output: 4 corners, each 2.63 mm deep and 6.35 mm along both sides, 8.65 mm² left
}

// Two cavities in a plate: the web between them is its thinnest wall.
func ExampleLeastWall() {
	plate := geom.Region{
		geom.RoundedRect(geom.Pt(0, 0), 200, 120, 20),
		geom.RoundedRect(geom.Pt(-30, 0), 50, 80, 6).Reversed(),
		geom.Circle(geom.Pt(25, 10), 26).Reversed(),
	}
	w, a, b := geom.LeastWall(plate)
	fmt.Printf("%.2f mm between (%.1f, %.1f) and (%.1f, %.1f)\n", w, a.X, a.Y, b.X, b.Y)
	// Output: 4.00 mm between (-5.0, 10.0) and (-1.0, 10.0)
}

func ExampleDistance() {
	slot := geom.Region{geom.Stadium(geom.Pt(0, 0), geom.Pt(40, 0), 5)}
	hole := geom.Region{geom.Circle(geom.Pt(46, 8), 3)}
	d, a, b := geom.Distance(slot, hole)
	fmt.Printf("%.3f mm from (%.1f, %.1f) to (%.1f, %.1f)\n", d, a.X, a.Y, b.X, b.Y)
	// Output: 2.000 mm from (43.0, 4.0) to (44.2, 5.6)
}

// Holes to bore before a pocket is routed out.
func ExampleCover() {
	pocket := geom.Region{geom.RoundedRect(geom.Pt(0, 0), 92, 40, 6)}
	holes, removed := geom.Cover(pocket, geom.CoverRules{Diameters: []float64{35, 25, 16}, Margin: 1, Share: 0.75})
	fmt.Printf("%d holes of %.0f mm and less take %.0f %%\n", len(holes), 2*holes[0].Radius, 100*removed)
	// Output: 4 holes of 35 mm and less take 77 %
}

func ExampleRegion_Moments() {
	// A half disc: the centroid lies 4r/3π from the diameter.
	half := geom.Region{{
		geom.ArcSweep(geom.Pt(0, 0), 30, 0, 180*geom.Degree),
		geom.Line(geom.Pt(-30, 0), geom.Pt(30, 0)),
	}}
	// The ends rule, so make them meet exactly.
	half[0][0].B = half[0][1].A
	m := half.Moments()
	fmt.Printf("%.2f mm², centroid %.4f mm up\n", m.Area, m.Centroid.Y)
	// Output: 1413.72 mm², centroid 12.7324 mm up
}
