package sheet

import (
	"routwright/render"
	"routwright/templates/fretboard"
	"routwright/templates/job"
)

// BoardID is the id of the fretboard's sheet.
const BoardID = "fretboard"

// board draws the fretboard with its slots.
func board(j *job.Job) render.Sheet {
	return fretboard.Sheet(j.Board, fretboard.SheetOptions{ID: BoardID})
}
