package ingest_test

import (
	"fmt"
	"strings"

	"routwright/geom/ingest"
)

func ExampleOutline() {
	const drawing = `<svg xmlns="http://www.w3.org/2000/svg" width="200mm" height="100mm" viewBox="0 0 200 100">
  <rect id="plate" x="10" y="10" width="80" height="40" rx="5"/>
  <circle id="hole" cx="50" cy="30" r="6"/>
</svg>`
	r, err := ingest.Read("plate.svg", strings.NewReader(drawing), ingest.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	if _, err = ingest.Outline(r, ingest.Options{}); err != nil {
		fmt.Println(err)
	}
	p, err := ingest.Outline(r, ingest.Options{Pick: "plate"})
	fmt.Printf("%d lines and arcs, %.2f mm², %v\n", len(p), p.Area(), err)
	// Output:
	// plate.svg: the file holds 2 pieces where one outline is wanted; choose one by its id, its layer, its number (such as "#1") or "largest":
	//   #1 id "plate" (line 2): 80.00 × 40.00 mm, closed
	//   #2 id "hole" (line 3): 12.00 × 12.00 mm, closed
	// 8 lines and arcs, 3178.54 mm², <nil>
}
