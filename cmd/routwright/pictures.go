package main

import (
	"bytes"

	"routwright/render/png"
	"routwright/templates/job"
	"routwright/templates/part"
	"routwright/templates/sheet"
)

// pixelsPerMM of the reliefs of a set: half a millimetre to the pixel, about as
// fine as a cut is marked.
const pixelsPerMM = 2

// pictures adds the shaded relief of both faces.
func (s *set) pictures(j *job.Job) error {
	faces := [...]part.Face{part.Front, part.Back}
	return inParallel(len(faces), func(i int) error {
		img, scale := sheet.Relief(j, faces[i], pixelsPerMM)
		return s.render("pictures/"+faces[i].String()+".png", func(b *bytes.Buffer) error { return png.Write(b, img, scale) })
	})
}
