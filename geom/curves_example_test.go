package geom_test

import (
	"fmt"
	"math"

	"routwright/geom"
)

// A quarter of an outline drawn as a Bézier curve, as a vector editor holds it.
func ExampleFitCubics() {
	horn := geom.Cubic{geom.Pt(0, 0), geom.Pt(0, 60), geom.Pt(40, 100), geom.Pt(120, 100)}
	p, err := geom.FitCubics([]geom.Cubic{horn}, 0) // within geom.CurveToArc
	if err != nil {
		fmt.Println(err)
		return
	}
	far := 0.0
	for i := 0; i <= 1000; i++ {
		_, d := geom.IndexOf(geom.Region{p}).Closest(horn.At(float64(i) / 1000))
		far = math.Max(far, d)
	}
	fmt.Println(len(p), "arcs, within the tolerance:", far <= geom.CurveToArc)
	// Output: 22 arcs, within the tolerance: true
}

// A traced outline: 2,000 points of a circle come back as a few arcs.
func ExampleFitPolyline() {
	trace := make([]geom.Point, 2000)
	for i := range trace {
		trace[i] = geom.Pt(0, 0).Add((geom.Angle(i) * 0.18 * geom.Degree).Unit().Mul(150))
	}
	p, err := geom.FitPolyline(trace, true, 0.01, 0)
	if err != nil {
		fmt.Println(err)
		return
	}
	r := geom.EnclosingCircle(p).Radius
	fmt.Printf("%d arcs, radius within 0.01 mm: %v\n", len(p), math.Abs(r-150) <= 0.01)
	// Output: 3 arcs, radius within 0.01 mm: true
}

// A smooth curve through ruler readings, square to the centre line at its end.
func ExampleHobby() {
	readings := []geom.Knot{
		{At: geom.Pt(0, 0), Dir: geom.Vec{X: 1}},
		{At: geom.Pt(110, 40)},
		{At: geom.Pt(143, 140)},
		{At: geom.Pt(110, 240)},
	}
	curves, err := geom.Hobby(readings, false)
	if err != nil {
		fmt.Println(err)
		return
	}
	before, after := curves[0].Deriv(1).Unit(), curves[1].Deriv(0).Unit()
	fmt.Printf("%d cubics, corner at a reading: %v\n", len(curves), before.Dot(after) < 0.999999)
	// Output: 3 cubics, corner at a reading: false
}

// The corner of a cavity rounded by what its cutter leaves.
func ExamplePath_Fillet() {
	cavity := geom.Rect(geom.Pt(0, 0), 90, 40)
	p, err := cavity.Fillet(2, 6.35)
	fmt.Printf("%d segments, %.3f mm² less, %v\n", len(p), cavity.Area()-p.Area(), err)
	_, err = cavity.Fillet(2, 50)
	fmt.Println(err != nil)
	// Output:
	// 5 segments, 8.653 mm² less, <nil>
	// true
}
