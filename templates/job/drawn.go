package job

import (
	"errors"
	"fmt"
	"path/filepath"

	"routwright/geom"
	"routwright/geom/ingest"
	"routwright/templates/design"
	"routwright/templates/outline"
)

// outlineFile reads an outline that the builder drew, or a table of ruler
// readings, and lays its centre line on x = 0.
func (s *solver) outlineFile(f design.Val[string]) geom.Path {
	p, notes, ruled, err := s.readOutline(f.V)
	if err != nil {
		s.fail(f.At, "body.file", fmt.Sprintf("%q: %v", f.V, err), "an .svg, .dxf or .csv file with one closed outline", "mend the drawing, or name another file")
		return nil
	}
	for _, n := range notes {
		s.assume("body.file", f.V, n)
	}
	if ruled {
		return p
	}
	return s.onCentreLine(f, p)
}

// readOutline reads the file and says whether it was a table of ruler readings,
// whose centre line is x = 0 by definition.
func (s *solver) readOutline(name string) (p geom.Path, notes []string, ruled bool, err error) {
	r, err := s.files(name)
	if err != nil {
		return nil, nil, false, err
	}
	defer r.Close()
	opt := ingest.Options{Unit: ingest.MM, Pick: s.d.Body.Pick.V}
	if s.d.Units.V == "in" {
		opt.Unit = ingest.Inch
	}
	res, err := ingest.Read(filepath.Base(name), r, opt)
	if errors.Is(err, ingest.ErrRuler) {
		p, err = s.readRuler(name, opt)
		return p, nil, true, err
	}
	if err != nil {
		return nil, nil, false, err
	}
	p, err = ingest.Outline(res, opt)
	return p, res.Notes, false, err
}

// readRuler lays a smooth outline through the readings of a file.
func (s *solver) readRuler(name string, opt ingest.Options) (geom.Path, error) {
	r, err := s.files(name)
	if err != nil {
		return nil, err
	}
	defer r.Close()
	hs, err := ingest.HalfWidths(filepath.Base(name), r, opt)
	if err != nil {
		return nil, err
	}
	rows := make([][3]float64, len(hs))
	for i, h := range hs {
		rows[i] = [3]float64{h.Y, h.Bass, h.Treble}
	}
	return outline.HalfWidths(rows)
}

// onCentreLine places a drawn outline across: by body.centre; else a drawing
// whose x = 0 runs through the body has its centre line there; in any other, such
// as one that counts x from the page's corner, the middle of the width is taken.
// What was not given is said.
func (s *solver) onCentreLine(f design.Val[string], p geom.Path) geom.Path {
	b := p.Bounds()
	if c := s.d.Body.Centre; c.Set() {
		if x := float64(c.V); x <= b.Min.X || x >= b.Max.X {
			s.fail(c.At, "body.centre", design.MM(x)+" mm", fmt.Sprintf("an x inside the outline, %s to %s mm in the drawing", design.MM(b.Min.X), design.MM(b.Max.X)), "read the x of the centre line in the drawing")
		}
		return geom.Translate(geom.Vec{X: -float64(c.V)}).Path(p)
	}
	if b.Min.X < -b.W()/4 && b.Max.X > b.W()/4 {
		s.assume("body.file", f.V, "centre line on the drawing's x = 0")
		return p
	}
	s.assume("body.file", f.V, fmt.Sprintf("centre line in the middle of the outline's width, the drawing's x = %.2f mm", b.Center().X))
	return geom.Translate(geom.Vec{X: -b.Center().X}).Path(p)
}
