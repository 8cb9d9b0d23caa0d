package space_test

import (
	"sync"
	"testing"

	"routwright/geom"
	"routwright/templates/part"
	"routwright/templates/space"
)

// One body may be asked from several goroutines at once: what it makes when first
// asked is made once (go test -race).
func TestBodyTogether(t *testing.T) {
	sloped := space.Of(part.Part{Solids: []part.Solid{{
		Plan: geom.Region{geom.RoundedRect(geom.Pt(0, 0), 60, 40, 6)}, Top: part.Level(0), Floor: part.Plane{Z: 12, DX: 0.05},
	}}})
	drill := space.Of(part.Part{Bores: []part.Bore{{From: part.Point{X: 40, Y: -20, Z: 5}, To: part.Point{X: 60, Y: 30, Z: 30}, D: 6}}})
	want := space.Distance(sloped.Part, drill.Part)
	var wg sync.WaitGroup
	for range 8 {
		wg.Go(func() {
			if got := sloped.Distance(drill); got != want {
				t.Errorf("%v, want %v", got, want)
			}
		})
	}
	wg.Wait()
}
