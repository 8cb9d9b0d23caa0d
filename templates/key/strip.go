package key

import (
	"fmt"
	"math"

	"routwright/geom"
	"routwright/templates/design"
)

// Bending radii of veneer in thicknesses: 25 dry, 8 over heat. Common practice.
const (
	BendDry = 25
	BendHot = 8
)

// Strip is one kind of border strip. Mitred strips are as long as the wall of
// the recess that they lie on, tip to tip.
type Strip struct {
	Where  string // "end", "flank" or "all round"
	Count  int    // a key
	Length float64
	// Mitres are the angles of its two ends, in words.
	Mitres [2]Mitre
}

// Mitre is how one end of a strip is cut.
type Mitre struct {
	Off   geom.Angle // from the strip's length at an end corner, off square at the waist
	Words string     // empty for a butt
}

// Strips returns the border strips of one key: mitred where the corners are
// sharp, one bent strip where they are round; nil without a border. At an end
// corner of angle θ a mitre lies at θ/2 to the strip, at the waist α off square.
func (f Fit) Strips() []Strip {
	s := f.Spec
	if s.Border <= 0 {
		return nil
	}
	if s.Corners == Rounded {
		return []Strip{{Where: "all round", Count: 1, Length: f.Recess[0].Length(), Mitres: [2]Mitre{{Words: "butt"}, {Words: "butt"}}}}
	}
	r := s.Recess()
	corner := Mitre{s.End() / 2, fmt.Sprintf("%s° to the strip", design.MM((s.End() / 2).Degrees()))}
	waist := Mitre{s.Flank(), fmt.Sprintf("%s° off square", design.MM(s.Flank().Degrees()))}
	return []Strip{
		{Where: "end", Count: 2, Length: r[2].Length(), Mitres: [2]Mitre{corner, corner}},
		{Where: "flank", Count: 4, Length: r[0].Length(), Mitres: [2]Mitre{corner, waist}},
	}
}

// String returns the strip in words: "2 at the end, 27.74 mm long, …".
func (s Strip) String() string {
	where := s.Where
	if where != "all round" {
		where = map[string]string{"end": "at the ends", "flank": "on the flanks"}[s.Where]
	}
	if s.Mitres[0].Off == 0 {
		return fmt.Sprintf("%d %s, %s mm long, butted in the middle of an end", s.Count, where, design.MM(s.Length))
	}
	return fmt.Sprintf("%d %s, %s mm long on the outside, mitred %s and %s", s.Count, where, design.MM(s.Length), s.Mitres[0].Words, s.Mitres[1].Words)
}

// BendRadius returns the radius of the inner face of a bent strip in its
// tightest corner, mm; +Inf where nothing is bent.
func (f Fit) BendRadius() float64 {
	if f.Spec.Border <= 0 || f.Spec.Corners != Rounded {
		return math.Inf(1)
	}
	return f.Radius - f.Spec.GlueLine - f.Spec.Border
}
