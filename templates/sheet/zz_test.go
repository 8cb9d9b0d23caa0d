package sheet

import (
	"os"
	"testing"
	"time"

	"routwright/render"
	"routwright/render/svg"
	"routwright/templates/job/jobtest"
)

func TestZZ(t *testing.T) {
	j := jobtest.Full(t)
	for _, s := range drillMaps(j) {
		t0 := time.Now()
		d, err := render.Layout(s, render.LayoutOptions{})
		if err != nil {
			t.Fatal(err)
		}
		t.Log(s.ID, time.Since(t0), d.Remarks)
		w, _ := os.Create("/tmp/off/" + s.ID + ".svg")
		svg.Write(w, d)
		w.Close()
	}
}
