package neck

import (
	"math"

	"routwright/geom"
)

// Lump is a volume of wood in mm³ and its centre: X and Y in the plan frame of the
// board, Depth below the underside of the board, square to it, mm.
type Lump struct{ Volume, X, Y, Depth float64 }

// add puts v mm³ at a place to the lump; a negative v takes it away.
func (l *Lump) add(v, x, y, depth float64) {
	all := l.Volume + v
	if all == 0 {
		return
	}
	k := v / all
	l.Volume, l.X, l.Y, l.Depth = all, l.X+k*(x-l.X), l.Y+k*(y-l.Y), l.Depth+k*(depth-l.Depth)
}

// slices is how many pieces the shaft is cut into across the board: twice as many
// change its volume by less than a thousandth.
const slices = 240

// Solid returns the wood of the neck as it is laid out, its board aside: heel,
// shaft and head, less the rod's channel and the tuners' holes.
//
// The shaft is summed over its sections: a rectangle in the heel, the profile
// where the back follows it, from the one to the other along the hollow, and the
// profile at the depth of the side in the throat. The head is its plan beyond the
// fold at its own thickness. Rounded edges, and what a scarf or the curve under
// the nut adds, are left out.
func (sh *Shape) Solid() Lump {
	var l Lump
	from, fold := sh.Spec.Heel.End, sh.Side.Fold.Y
	step := (fold - from) / slices
	for i := range slices {
		y := from + (float64(i)+0.5)*step // midpoint rule
		if area, x, depth := sh.section(y); area > 0 {
			l.add(area*step, x, y, depth)
		}
	}
	if c := sh.Rod; c != nil {
		deep := sh.Spec.Rod.Depth + 2*sh.Spec.Rod.Bow/3 // the mean of a flat arc
		l.add(-c.Plan.Area()*deep, 0, (c.From+c.To)/2, deep/2)
	}
	sh.addHead(&l)
	return l
}

// section returns the area of the wood across the board at y, mm², and where its
// middle lies; 0 where there is none.
func (sh *Shape) section(y float64) (area, x, depth float64) {
	lo, hi := span(sh.Shaft, y)
	from, to := span(sh.Side.Back, y)
	deep := math.Max(-from, to) // a mirrored side lies at −x
	if !(hi > lo) || !(deep > 0) {
		return 0, 0, 0
	}
	square := 0.0 // share of the rectangle
	switch foot := sh.Spec.Heel.Joint + sh.Spec.Back.Foot; {
	case y <= foot:
		square = 1
	case y < sh.Side.From:
		square = (sh.Side.From - y) / (sh.Side.From - foot)
	}
	p := sh.ProfileAt(y)
	p.Half, p.Depth = (hi-lo)/2, deep
	m := p.Region().Moments()
	box := square * (hi - lo) * deep
	area = box + (1-square)*m.Area
	return area, (lo + hi) / 2, (box*deep/2 - (1-square)*m.Area*m.Centroid.Y) / area
}

// addHead adds the head beyond the fold, which the plan holds and the shaft does
// not.
func (sh *Shape) addHead(l *Lump) {
	h := sh.Spec.Head
	all, shaft := (geom.Region{sh.Plan}).Moments(), (geom.Region{sh.Shaft}).Moments()
	add := func(area float64, at geom.Point) {
		y, depth := sh.OnHead(at, h.Thickness/2)
		l.add(area*h.Thickness, at.X, y, depth)
	}
	area := all.Area - shaft.Area
	if !(area > 0) {
		return
	}
	mean := func(a, s float64) float64 { return (a*all.Area - s*shaft.Area) / area }
	add(area, geom.Pt(mean(all.Centroid.X, shaft.Centroid.X), mean(all.Centroid.Y, shaft.Centroid.Y)))
	for _, t := range sh.Tuners {
		add(-math.Pi/4*h.Hole*h.Hole, t.Post)
	}
}

// OnHead returns where a place of the head, laid flat as in the plan, stands when
// it lies so many mm below the face: along the board, and below its underside.
func (sh *Shape) OnHead(p geom.Point, below float64) (y, depth float64) {
	sin, cos := math.Sincos(float64(sh.Spec.Head.Tilt))
	out := p.Y - sh.Side.Fold.Y
	return sh.Side.Fold.Y + out*cos - below*sin, sh.Spec.Head.Step + out*sin + below*cos
}

// span returns the least and the greatest x of a path at height y; the least is
// above the greatest where the path does not come there.
func span(p geom.Path, y float64) (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	take := func(x float64) { lo, hi = math.Min(lo, x), math.Max(hi, x) }
	for _, e := range p {
		if b := e.Bounds(); y < b.Min.Y || y > b.Max.Y {
			continue
		}
		if !e.IsArc() {
			if e.A.Y != e.B.Y {
				take(xOf(e, y))
			}
			continue
		}
		dx := math.Sqrt(math.Max(0, e.Radius*e.Radius-(y-e.Center.Y)*(y-e.Center.Y)))
		for _, x := range []float64{e.Center.X - dx, e.Center.X + dx} {
			if q := geom.Pt(x, y); e.Closest(q).Dist(q) < geom.Coincident { // on this arc, not elsewhere on its circle
				take(x)
			}
		}
	}
	return lo, hi
}
