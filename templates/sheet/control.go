package sheet

import (
	"fmt"

	"routwright/render"
	"routwright/templates/job"
	"routwright/templates/part"
)

// coverHoles draws the holes that a cover's screws pass.
func coverHoles(p part.Part) []render.Hole {
	if p.Kind != part.Cover {
		return nil
	}
	var hs []render.Hole
	for i, b := range p.Bores {
		hs = append(hs, render.Hole{ID: fmt.Sprintf("screw-%d",
			i+1), At: b.From.Flat(), D: b.D, Kind: render.Cut, Layer: LayerDrill,
			Text: fmt.Sprintf("drill %s through", mm(b.D))})
	}
	return hs
}

// seatHoles draws the seats of a cavity, which are bored before it is routed, each
// with its centre mark.
func seatHoles(j *job.Job, cavity part.Part) []render.Hole {
	var hs []render.Hole
	if cavity.Kind != part.Cavity {
		return nil
	}
	for _, p := range j.OfKind(part.Seat) {
		if p.Group == cavity.Group {
			b := p.Bores[0]
			hs = append(hs, render.Hole{ID: p.ID, At: b.From.Flat(), D: b.D, Kind: render.Mark, Layer: LayerMark,
				Text: fmt.Sprintf("first: bore %s flat, %s deep", mm(b.D), mm(b.Length()))})
		}
	}
	return hs
}

// bodies draws lightly the bodies of the controls that stand in a cavity.
func bodies(j *job.Job, cavity part.Part) []render.Group {
	g := render.Group{ID: "controls", Title: "controls that stand in the cavity"}
	for i, c := range j.Controls {
		if c.Group == cavity.Group {
			g.Shapes = append(g.Shapes, shapes(c.Body, fmt.Sprintf("control-%d", i+1),
				c.String()+": its body, not to be cut", render.Mark, LayerMark)...)
		}
	}
	if len(g.Shapes) == 0 {
		return nil
	}
	return []render.Group{g}
}

// controlNotes says what is bored before a cavity is routed, and how a cover's
// screws are set.
func controlNotes(j *job.Job, p part.Part) []string {
	var n []string
	switch p.Kind {
	case part.Cavity:
		for _, s := range j.OfKind(part.Seat) {
			if s.Group == p.Group {
				b := s.Bores[0]
				n = append(n, fmt.Sprintf(
					"Before routing, bore the seat of %s flat from the back: %s mm across, %s mm deep; %s mm of wood stay under the front.",
					s.Name, mm(b.D), mm(b.Length()), mm(b.To.Z)))
			}
		}
	case part.Cover:
		for _, s := range j.OfKind(part.Screw) {
			if s.Group == p.Group && len(s.Bores) > 0 {
				b := s.Bores[0]
				n = append(n, fmt.Sprintf(
					"Lay the cover into its rebate and prick its %d screws through its holes; drill %s mm, %s mm deep, and countersink the cover for the heads.",
					len(s.Bores), mm(b.D), mm(b.Length())))
			}
		}
	}
	return n
}
