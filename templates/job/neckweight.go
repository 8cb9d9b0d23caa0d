package job

import (
	"fmt"
	"math"

	"routwright/geom"
	"routwright/templates/balance"
	"routwright/templates/design"
	"routwright/templates/part"
)

// rodGrams are rods with their nuts, from memory: weigh yours.
const rodGrams = 80.0

// weighNeck weighs the neck with its board: as it was laid out, or before it is
// drawn by a guess.
func (s *solver) weighNeck(b *Balance) {
	if s.Board == nil {
		return
	}
	var how string
	d := s.density(s.d.Neck.Wood, neckDensity, &how)
	if s.Shape == nil || s.Neck == nil {
		s.guessNeck(b, d, how)
		return
	}
	l := s.Shape.Solid()
	b.add("neck", "wood as laid out; "+how, balance.At(l.Volume, s.onNeck(geom.Pt(l.X, l.Y), l.Depth)), d)
	v, at := s.boardBulk()
	b.add("fretboard", "counted as wood of the neck; "+how, balance.At(v, s.onNeck(at, -s.Neck.Board/2)), d)
}

// onNeck returns where a place of the neck stands over the body: p in the plan
// frame of the board, so many mm below the underside of the board.
func (s *solver) onNeck(p geom.Point, below float64) part.Point {
	n := s.Neck
	to, up := n.OnBody(n.Angle, s.Board.CentreScale()-p.Y, n.Board+below)
	return part.Point{X: p.X, Y: n.JointY - to, Z: -up}
}

// boardSlices is how many pieces the board is cut into for its volume: twice as
// many change it by less than a ten-thousandth.
const boardSlices = 60

// boardBulk returns the volume of the fretboard, mm³, and the middle of its plan.
// Across the board it is a rectangle of the thickness at the edge under the
// segment of a circle: of half width a and radius R the segment has the area
// R²·asin(a/R) − a·√(R² − a²), and stands R − √(R² − a²) high.
func (s *solver) boardBulk() (volume float64, at geom.Point) {
	o := s.Board.Outline
	box := o.Bounds()
	at = geom.Region{o}.Centroid()
	lost := 0.0 // beside the middle, where the board is thinner, mm² by mm
	step := box.H() / boardSlices
	for i := range boardSlices {
		y := box.Min.Y + (float64(i)+0.5)*step
		R := s.Board.RadiusAt(y)
		a := s.Shape.WidthAt(y) / 2
		if !(R > a) || math.IsInf(R, 0) {
			continue
		}
		root := math.Sqrt(R*R - a*a)
		lost += step * (2*a*(R-root) - (R*R*math.Asin(a/R) - a*root))
	}
	return o.Area()*s.Neck.Board - lost, at
}

// guessNeck weighs a neck before it is drawn: half round under its board, from
// the board's end to the nut, and a head.
func (s *solver) guessNeck(b *Balance, density float64, how string) {
	scale := s.scale()
	frets := float64(defaultFrets)
	if v := s.d.Strings.Frets; v.Set() {
		frets = float64(v.V)
	}
	divisions := float64(defaultOctave)
	if v := s.d.Strings.Divisions; v.Set() {
		divisions = float64(v.V)
	}
	val := func(v design.Val[design.Length], def float64) float64 {
		if v.Set() {
			return float64(v.V)
		}
		return def
	}
	long := scale*(1-math.Exp2(-frets/divisions)) + val(s.d.Board.Overhang, defaultOverhang)
	wide := (val(s.d.Board.NutWidth, defaultNutWidth) + val(s.d.Board.EndWidth, defaultEndWidth)) / 2
	v := balance.At(long*wide*(boardDeep+neckDeep*math.Pi/4), part.Point{Y: scale - long/2, Z: 0})
	v = v.Plus(balance.At(headLong*headWide*headUp, part.Point{Y: scale + headLong/2, Z: headUp}))
	b.add("neck", fmt.Sprintf("a first guess: half round, %g under a board of %g, head %g × %g × %g; %s", neckDeep, boardDeep, headLong, headWide, headUp, how), v, density)
}

// rodAt returns where the rod lies, in the middle of its channel.
func (s *solver) rodAt() (part.Point, bool) {
	if s.Shape == nil || s.Neck == nil || s.Shape.Rod == nil {
		return part.Point{}, false
	}
	c := s.Shape.Rod
	return s.onNeck(geom.Pt(0, (c.From+c.To)/2), s.Shape.Spec.Rod.Depth/2), true
}

// tunersAt returns where the tuners' weight hangs: at the middle of their posts,
// half way through the head, or on a guessed head.
func (s *solver) tunersAt() part.Point {
	if s.Shape == nil || s.Neck == nil || len(s.Shape.Tuners) == 0 {
		return part.Point{Y: s.scale() + headLong/2, Z: headUp}
	}
	var sum geom.Vec
	for _, t := range s.Shape.Tuners {
		sum = sum.Add(t.Post.Sub(geom.Point{}))
	}
	p := geom.Point{}.Add(sum.Mul(1 / float64(len(s.Shape.Tuners))))
	y, depth := s.Shape.OnHead(p, s.Shape.Spec.Head.Thickness/2)
	return s.onNeck(geom.Pt(p.X, y), depth)
}
