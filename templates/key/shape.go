// Package key makes butterfly keys and their recesses: one curve for both, the
// glue gap taken off the key.
package key

import (
	"fmt"
	"math"

	"routwright/geom"
	"routwright/templates/cut"
	"routwright/templates/tool"
)

// Corners says how the corners of a recess are made to fit.
type Corners string

const (
	Chiselled Corners = "chiselled" // sharp; the router leaves wood, a chisel takes it
	Rounded   Corners = "rounded"   // every corner at least the cutter's radius
	Relieved  Corners = "relieved"  // the cutter runs into each corner and overcuts it
)

// Ease is added to the cutter's radius in a rounded corner, mm, so that the bit
// turns through the corner rather than stamps it. Common practice.
const Ease = 0.05

// Spec is a key as the builder asks for it. Lengths in mm.
type Spec struct {
	Length, Ends, Waist float64
	Gap                 float64 // a side; it comes off the key
	Corners             Corners
	// Template is the smallest inside radius that the template's maker can cut.
	Template float64
	// Border is the thickness of veneer strips round the key, and GlueLine that of
	// the glue on both of their faces; the recess grows by Border + 2·GlueLine.
	Border, GlueLine float64
}

// Grows returns by how much a border widens the recess a side.
func (s Spec) Grows() float64 {
	if s.Border <= 0 {
		return 0
	}
	return s.Border + 2*s.GlueLine
}

// Check returns an error for a key that is no key.
func (s Spec) Check() error {
	switch {
	case !(s.Length > 0) || !(s.Ends > 0) || !(s.Waist > 0):
		return fmt.Errorf("a key of length %g, ends %g and waist %g mm: all three must be greater than 0", s.Length, s.Ends, s.Waist)
	case s.Waist >= s.Ends:
		return fmt.Errorf("a waist of %g mm in a key with ends of %g mm: the waist must be the narrower", s.Waist, s.Ends)
	case s.Gap < 0:
		return fmt.Errorf("a gap of %g mm: it must not be negative", s.Gap)
	case s.Border < 0 || s.GlueLine < 0:
		return fmt.Errorf("a border of %g mm with a glue line of %g mm: neither may be negative", s.Border, s.GlueLine)
	case 2*s.Gap >= s.Waist:
		return fmt.Errorf("a gap of %g mm a side leaves nothing of a waist of %g mm", s.Gap, s.Waist)
	}
	return nil
}

// Flank returns the angle α between a flank and the key's axis:
// tan α = (ends − waist)/length.
func (s Spec) Flank() geom.Angle {
	return geom.Angle(math.Atan((s.Ends - s.Waist) / s.Length))
}

// CornerDistance returns how far a cutter of radius r stays from the tip of a
// corner of interior angle θ: r(1/sin(θ/2) − 1), derived from the
// bisector.
func CornerDistance(r float64, theta geom.Angle) float64 {
	return r * (1/math.Sin(float64(theta)/2) - 1)
}

// CornerTangent returns the length along each flank that a cutter of radius r
// leaves in a corner of interior angle θ: r/tan(θ/2).
func CornerTangent(r float64, theta geom.Angle) float64 {
	return r / math.Tan(float64(theta)/2)
}

// CornerArea returns the area in mm² that a cutter of radius r leaves in a
// corner of interior angle θ: r²(cot(θ/2) − (π − θ)/2).
func CornerArea(r float64, theta geom.Angle) float64 {
	h := float64(theta) / 2
	return r * r * (1/math.Tan(h) - (math.Pi/2 - h))
}

// End returns the interior angle of an end corner: 90° − α.
func (s Spec) End() geom.Angle { return math.Pi/2 - s.Flank() }

// Outline returns the sharp key without its gap, centred on the origin with its
// axis along +X, counter-clockwise:
//
//	f───────e───────d      half ends at a, c, d, f
//	 \             /       half waist at b, e
//	 /             \
//	a───────b───────c
func (s Spec) Outline() geom.Path {
	return s.grown(0)
}

// Recess returns the sharp recess: the outline grown by the border, its corners
// mitred: length + 2o, waist + 2o/cos α, ends + 2o(1 + sin α)/cos α.
func (s Spec) Recess() geom.Path { return s.grown(s.Grows()) }

func (s Spec) grown(o float64) geom.Path {
	sin, cos := math.Sincos(float64(s.Flank()))
	x, e, w := s.Length/2+o, s.Ends/2+o*(1+sin)/cos, s.Waist/2+o/cos
	return geom.Polygon(geom.Pt(-x, -e), geom.Pt(0, -w), geom.Pt(x, -e), geom.Pt(x, e), geom.Pt(0, w), geom.Pt(-x, e))
}

// Fit is a key with its recess and the two templates that make them, about the
// origin, the key's axis along +X. What the router really leaves is told by the
// proof of each template.
type Fit struct {
	Spec   Spec
	Tool   tool.Tool
	Recess geom.Region // as drawn
	Key    geom.Region // recess less the gap
	Radius float64     // of the end corners of the recess as drawn; 0 sharp
	Female geom.Region // opening for the recess
	Male   geom.Region // template for the key; empty where it vanishes
	Inlay  *Inlay      // one template for both; nil otherwise
	Made   geom.Region // key that an inlay bush leaves; nil without one
	// RecessHand and KeyHand are what a chisel must do.
	RecessHand, KeyHand []cut.HandWork
}

// Way names how the bit is led: one of a few words for programs.
func (f Fit) Way() string {
	switch {
	case f.Inlay != nil:
		return "inlay bush with collar"
	case f.Tool.Free():
		return "free path"
	case f.Tool.Guide == tool.Bush:
		return "guide bush"
	case f.Tool.Offset() > 0:
		return "larger bearing"
	case f.Tool.Offset() < 0:
		return "smaller bearing"
	}
	return "equal bearing"
}

// Inlay is one female template for both: a guide bush of outside diameter Bush
// for the key, and a collar on it of outside diameter Collar for the recess. The
// collar fixes the gap.
type Inlay struct{ Bush, Collar float64 }

// Gap returns the gap a side that an inlay set leaves with a cutter of diameter
// d: (bush + 2d − collar)/2. Negative: the key is too large.
func (i Inlay) Gap(d float64) float64 { return (i.Bush + 2*d - i.Collar) / 2 }

// MakeInlay draws key, recess and the one template of an inlay set. The gap of s
// is not used: the collar fixes it.
func MakeInlay(s Spec, bit string, d float64, in Inlay) (Fit, error) {
	s.Gap = in.Gap(d)
	if in.Bush <= d {
		return Fit{}, fmt.Errorf("a bush of %g mm for a bit of %g mm: the bit must pass through the bush", in.Bush, d)
	}
	if s.Gap < 0 {
		return Fit{}, fmt.Errorf("a collar of %g mm over a bush of %g mm with a bit of %g mm makes the key %g mm a side too large: the collar may be %g mm at most", in.Collar, in.Bush, d, -s.Gap, in.Bush+2*d)
	}
	t := tool.Tool{Bit: bit, Cutter: d, Guide: tool.Bush, GuideOf: "collar", Follower: in.Collar}
	f, err := draw(s, t, false)
	if err != nil {
		return Fit{}, err
	}
	// The bush without its collar runs inside the same opening; the cutter's inner
	// edge leaves the key.
	var c geom.Calc
	f.Inlay = &in
	f.Male = nil
	f.Made = c.Offset(c.Offset(f.Female, -in.Bush/2, geom.Round), -d/2, geom.Round)
	return f, c.Err()
}

// Make draws key, recess and templates for a tool.
func Make(s Spec, t tool.Tool) (Fit, error) { return draw(s, t, true) }

// draw draws key, recess and templates; male says that the key is trimmed round a
// male template.
func draw(s Spec, t tool.Tool, male bool) (Fit, error) {
	if err := s.Check(); err != nil {
		return Fit{}, err
	}
	if t.Free() {
		s.Template = 0 // no template, so no maker of one
	}
	f := Fit{Spec: s, Tool: t}
	var c geom.Calc
	var err error
	switch s.Corners {
	case Rounded:
		f.Recess, f.Radius, err = rounded(s, t, male)
	case Relieved:
		f.Recess = relieved(&c, s, t)
	default:
		f.Recess = geom.Region{s.Recess()}
	}
	if err != nil {
		return Fit{}, err
	}
	plain := f.Recess
	if s.Corners == Relieved {
		plain = geom.Region{s.Recess()} // the key does not follow the reliefs
	}
	f.Key = c.Offset(plain, -(s.Gap + s.Grows()), geom.Mitre)
	f.Female = cut.OpeningFor(&c, f.Recess, t)
	f.Male = cut.MaleFor(&c, f.Key, t)
	if err := c.Err(); err != nil {
		return Fit{}, fmt.Errorf("drawing the key: %w", err)
	}
	if f.Female.Empty() {
		return Fit{}, fmt.Errorf("a recess %g long, ends %g, waist %g mm, which a bit of %g mm does not enter", s.Length, s.Ends, s.Waist, t.Cutter)
	}
	f.declareHandWork()
	return f, nil
}

// rounded returns the recess with every corner, inside and outside, of a radius
// that needs no hand work: the cutter turns in the end corners, the template's
// maker can cut them, and the follower's offset does not blunt the waist.
func rounded(s Spec, t tool.Tool, male bool) (geom.Region, float64, error) {
	k := t.Offset()
	corner := t.LeastCorner(s.Template) + Ease
	if s.Border > 0 { // a border is parallel only where the key keeps a radius too
		corner = math.Max(corner, s.Grows()+s.Gap+Ease)
	}
	if male { // a follower larger than the cutter rounds even a sharp template by k
		corner = math.Max(corner, k+s.Gap+s.Grows()+Ease)
	}
	// The waist of the key, which is the recess's plus the gap, is cut from
	// outside and must hold the cutter; where the follower is larger, the
	// recess's waist must hold the difference.
	waist := math.Max(math.Max(t.CutRadius(), s.Template+k), k) + Ease
	p := s.Recess()
	radii := []float64{corner, waist, corner, corner, waist, corner}
	for i := len(radii) - 1; i >= 0; i-- { // from the last, so that the numbers before stay
		q, err := p.Fillet(i, radii[i])
		if err != nil {
			return nil, 0, fmt.Errorf("a key %g long, ends %g, waist %g mm cannot have corners of radius %.2f mm, which a bit of %g mm with template corners of %g mm needs: %w", s.Length, s.Ends, s.Waist, radii[i], t.Cutter, s.Template, err)
		}
		p = q
	}
	return geom.Region{p}, corner, nil
}

// relieved returns the sharp recess with a relief in each end corner: a circle
// of the cutter's radius through the corner's tip, and the way the cutter takes
// there. It overcuts each flank by r(1 − sin(θ/2)).
func relieved(c *geom.Calc, s Spec, t tool.Tool) geom.Region {
	r := t.CutRadius() + Ease
	p := s.Recess()
	all := []geom.Region{{p}}
	for _, i := range []int{0, 2, 3, 5} {
		tip := p[i].A
		in := bisector(p, i)
		far := r / math.Sin(float64(s.End())/2) // where the cutter touches both sides
		all = append(all, geom.Region{geom.Stadium(tip.Add(in.Mul(r)), tip.Add(in.Mul(far)), r)})
	}
	return c.Union(all...)
}

// bisector returns the unit vector from vertex i of a polygon into it.
func bisector(p geom.Path, i int) geom.Vec {
	a := p[(i+len(p)-1)%len(p)].Tangent(1).Neg()
	return a.Add(p[i].Tangent(0)).Unit()
}

// declareHandWork lists the places that a chisel finishes: the end corners of a
// chiselled recess, and the waist of a sharp key that is trimmed on its outside.
func (f *Fit) declareHandWork() {
	if f.Spec.Corners == Rounded {
		return
	}
	p := f.Spec.Recess()
	if f.Spec.Corners == Chiselled {
		reach := f.cornerRadius()
		zone := CornerTangent(reach, f.Spec.End()) + 1
		for _, i := range endCorners {
			f.RecessHand = append(f.RecessHand, cut.HandWork{
				Words: fmt.Sprintf("square the corner with a chisel: %.2f mm along each side", CornerTangent(reach, f.Spec.End())),
				Zone:  geom.Region{geom.Circle(p[i].A, zone)},
			})
		}
	}
	fill := math.Max(f.Tool.CutRadius(), f.Spec.Template+f.Tool.Offset())
	cos := math.Cos(float64(f.Spec.Flank()))
	p = f.Spec.Outline()
	for _, i := range []int{1, 4} {
		f.KeyHand = append(f.KeyHand, cut.HandWork{
			Words: fmt.Sprintf("pare the fillet at the waist: %.2f mm a side (rounded corners need none)", WaistExcess(fill, f.Spec.Flank())),
			Zone:  geom.Region{geom.Circle(p[i].A, fill*math.Tan(float64(f.Spec.Flank()))+fill*(1/cos-1)+1)},
		})
	}
}

// MaleWaist returns the waist of the key's template in mm, across its axis at its
// middle; 0 where the template falls apart or vanishes.
func (f Fit) MaleWaist() float64 {
	if len(f.Male) != 1 || len(f.Male[0]) == 0 {
		return 0
	}
	_, half := geom.IndexOf(f.Male).Closest(geom.Point{})
	return 2 * half
}

// WaistExcess returns the wood that a cutter of radius r leaves a side at the
// waist of a key trimmed on its outside: r(1/cos α − 1).
func WaistExcess(r float64, alpha geom.Angle) float64 {
	return r * (1/math.Cos(float64(alpha)) - 1)
}
