package sheet

import (
	"strings"

	"routwright/render"
	"routwright/templates/fretboard"
	"routwright/templates/jig"
	"routwright/templates/job"
)

// Ids of the fretboard's sheets.
const (
	BoardID = "fretboard"
	TableID = "fret-table"
	IndexID = jig.IndexID

	RadiusID = jig.RadiusID
)

// board draws the fretboard with its slots, and the table to be read at the saw.
func board(j *job.Job) []render.Sheet {
	if j.Board == nil {
		return nil
	}
	var assumed, jig []string
	for _, a := range j.Assumed {
		if strings.HasPrefix(a.Key, "fretboard.index.") {
			jig = append(jig, a.Key+" "+a.Value)
		} else if strings.HasPrefix(a.Key, "strings.gauges") || strings.HasPrefix(a.Key, "strings.pitches") {
			continue // no slot depends on them
		} else if strings.HasPrefix(a.Key, "strings.") || strings.HasPrefix(a.Key, "fretboard.") {
			assumed = append(assumed, a.Key+" "+a.Value)
		}
	}
	out := []render.Sheet{
		fretboard.Sheet(j.Board, fretboard.SheetOptions{ID: BoardID, Markers: j.Markers, Assumed: assumed}),
		fretboard.TableSheet(j.Board, fretboard.SheetOptions{ID: TableID}),
	}
	if j.Index != nil {
		out = append(out, fretboard.IndexSheet(j.Board, j.Index, fretboard.SheetOptions{ID: IndexID, Assumed: jig}))
	}
	if s, ok := fretboard.RadiusSheet(j.Board, fretboard.SheetOptions{ID: RadiusID}); ok {
		out = append(out, s)
	}
	return out
}
