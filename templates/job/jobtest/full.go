// Package jobtest makes solved jobs for tests of the packages that draw and
// tabulate them.
package jobtest

import (
	"testing"

	"routwright/geom"
	"routwright/templates/job"
	"routwright/templates/part"
)

// Demo returns the solved body with keys that the tests of drawings and tables use.
func Demo(t testing.TB) *job.Job {
	t.Helper()
	return File(t, "slab.toml")
}

// Full returns the demo with one part of every sort that a body can have: a
// sloped neck pocket with its screws, bridge posts, string holes with ferrules,
// shafts, an oblique wire channel, a jack bored into the edge, a forearm bevel,
// and screws of the cover. Places are invented for the test; they break no
// drawing, though some walls are thin.
func Full(t testing.TB) *job.Job {
	j := Demo(t)
	T := j.Thickness
	var c geom.Calc
	add := func(p part.Part) { j.Parts = append(j.Parts, p) }
	level := part.Level
	down := func(x, y float64, f part.Face, depth, d float64, words string) part.Bore {
		return part.Down(geom.Pt(x, y), f, depth, d, T, words)
	}
	heel := geom.Region{geom.RoundedRect(geom.Pt(0, 215), 56, 96, 6.35)}
	heel = c.Intersect(heel, j.Outline)
	add(part.Part{ID: "neck-pocket", Name: "neck", Kind: part.Pocket, Face: part.Front, Group: "neck",
		// Falls by 2° towards the body's edge.
		Solids: []part.Solid{{Plan: heel, Top: level(0), Floor: part.Plane{Z: 10.2, DY: 0.035}}}})
	neck := part.Part{ID: "neck-screws", Name: "neck", Kind: part.Screw, Face: part.Back, Group: "neck"}
	for _, q := range []geom.Point{{X: -19, Y: 186}, {X: 19, Y: 186}, {X: -19, Y: 224}, {X: 19, Y: 224}} {
		neck.Bores = append(neck.Bores, down(q.X, q.Y, part.Back, T-16, 5, "neck screw, clearance"))
	}
	add(neck)
	strings := part.Part{ID: "string-holes", Name: "strings", Kind: part.StringHole, Face: part.Front, Group: "bridge"}
	for i := range 6 {
		x := -26 + 10.4*float64(i)
		strings.Bores = append(strings.Bores,
			down(x, -16, part.Front, T, 3.2, "string hole"), down(x, -16, part.Back, 10, 8, "ferrule"))
	}
	add(strings)
	posts := part.Part{ID: "bridge-posts", Name: "bridge", Kind: part.Post, Face: part.Front, Group: "bridge"}
	for _, x := range []float64{-37, 37} {
		posts.Bores = append(posts.Bores, down(x, 2, part.Front, 24, 11, "bridge post"))
	}
	add(posts)
	add(part.Part{ID: "shafts", Name: "control", Kind: part.Shaft, Face: part.Front, Group: "cavity control", Bores: []part.Bore{
		down(92, -44, part.Front, T, 9.5, "volume shaft"), down(108, -10, part.Front, T, 9.5, "tone shaft"), down(100, 20, part.Front, T, 12.2, "switch shaft")}})
	add(part.Part{ID: "channel", Name: "tail to control", Kind: part.Channel, Face: part.Front, Group: "channel", Bores: []part.Bore{
		{From: part.Point{X: 34, Y: 44, Z: 13}, To: part.Point{X: 80, Y: 6, Z: 27}, D: 7, Words: "wire channel"}}})
	add(part.Part{ID: "jack", Name: "jack", Kind: part.JackHole, Face: part.Front, Group: "cavity control", Bores: []part.Bore{
		{From: edgeAt(j, -40), To: part.Point{X: 110, Y: -36, Z: T / 2}, D: 22, Words: "jack"}}})
	// A bevel for the forearm: the front falls away beyond a line across the lower
	// bass bout.
	bevel := part.Plane{Z: -16, DX: -0.14, DY: -0.06}
	add(part.Part{ID: "forearm", Name: "forearm", Kind: part.Contour, Face: part.Front, Group: "forearm", Solids: []part.Solid{
		{Plan: c.Intersect(j.Outline, geom.Region{side(bevel)}), Top: level(0), Floor: bevel}}})
	lid := part.Part{ID: "cover-screws", Name: "control cover", Kind: part.Screw, Face: part.Back, Group: "cavity control"}
	for _, q := range []geom.Point{{X: 70, Y: -63}, {X: 115, Y: -57}, {X: 131, Y: 0}, {X: 84, Y: 33}} {
		lid.Bores = append(lid.Bores, part.Bore{From: part.Point{X: q.X, Y: q.Y, Z: T - 2.6}, To: part.Point{X: q.X, Y: q.Y, Z: T - 12.6}, D: 2.5, Words: "cover screw, pilot"})
	}
	add(lid)
	for i, p := range j.Parts {
		if p.Kind != part.Cover {
			continue
		}
		for _, b := range lid.Bores { // clearance through the cover
			b.From.Z, b.To.Z, b.D, b.Words = T, T-2.5, 3.2, "cover screw, through"
			j.Parts[i].Bores = append(j.Parts[i].Bores, b)
		}
	}
	if err := c.Err(); err != nil {
		t.Fatal(err)
	}
	return j
}

// side returns the half plane, as far as any body reaches, in which a surface
// lies below the front.
func side(s part.Plane) geom.Path {
	n := geom.Vec{X: s.DX, Y: s.DY}
	u := n.Unit()
	foot := geom.Point{}.Add(u.Mul(-s.Z / n.Len()))
	a, b := foot.Add(u.Left().Mul(-1000)), foot.Add(u.Left().Mul(1000))
	return geom.Polygon(b, a, a.Add(u.Mul(2000)), b.Add(u.Mul(2000)))
}

// edgeAt returns the point of the outline on the treble side at y, halfway down.
func edgeAt(j *job.Job, y float64) part.Point {
	edge := geom.Region{j.Outline[0]}
	at, _ := geom.IndexOf(edge).Closest(geom.Pt(400, y))
	return part.Point{X: at.X, Y: at.Y, Z: j.Thickness / 2}
}
