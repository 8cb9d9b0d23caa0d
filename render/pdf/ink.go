package pdf

import (
	"fmt"
	"math"

	"routwright/geom"
	"routwright/render"
)

// num prints a number in points to 1e-5, far below what a printer resolves.
func num(v float64) string { return string(appendNum(nil, v)) }

func appendNum(b []byte, v float64) []byte {
	const decimals, half = 5, 0.5e-5
	if math.Abs(v) < half {
		v = 0 // no "-0.00000"
	}
	return render.AppendFixed(b, v, decimals)
}

func (d *doc) shape(s render.Shape, o geom.Point) {
	if len(s.Path) == 0 || d.err != nil {
		return
	}
	st := s.Kind.Style()
	b := make([]byte, 0, 64+32*len(s.Path))
	at := func(p geom.Point) {
		b = append(appendNum(b, (p.X-o.X)*pt), ' ')
		b = append(appendNum(b, (p.Y-o.Y)*pt), ' ')
	}
	// Blunt ends: a tick and a dash end where they are said to end.
	b = append(appendNum(b, st.Width*pt), " w 0 J 1 j ["...)
	for _, v := range st.Dash {
		b = append(appendNum(b, v*pt), ' ')
	}
	b = append(b, "] 0 d 0 G 0 g "...)
	at(s.Path[0].A)
	b = append(b, "m\n"...)
	for _, e := range s.Path {
		if !e.A.IsFinite() || !e.B.IsFinite() || !e.Center.IsFinite() {
			d.err = fmt.Errorf("line %q: a coordinate is not a finite number", s.ID)
			return
		}
		if !e.IsArc() {
			at(e.B)
			b = append(b, "l\n"...)
			continue
		}
		for _, c := range beziers(e) {
			at(c[1])
			at(c[2])
			at(c[3])
			b = append(b, "c\n"...)
		}
	}
	op := "S"
	if s.Path.Closed() {
		op = "s"
	}
	if s.Fill {
		op = "f" // no stroke: it would make the figure larger
	}
	d.f.RawWriteStr(string(append(b, op...)))
}

// beziers returns an arc as cubics of at most 30°, control points at
// 4/3·tan(Δ/4)·r: off by less than 5e-5 mm at a radius of 140 mm.
func beziers(s geom.Seg) []geom.Cubic {
	const most = math.Pi / 6
	sweep := float64(s.Sweep())
	n := int(math.Ceil(math.Abs(sweep)/most - 1e-9))
	if n < 1 {
		n = 1
	}
	k := 4.0 / 3 * math.Tan(sweep/float64(n)/4)
	out := make([]geom.Cubic, n)
	a := s.A
	for i := range out {
		b := s.At(float64(i+1) / float64(n))
		out[i] = geom.Cubic{a, a.Add(a.Sub(s.Center).Left().Mul(k)), b.Add(b.Sub(s.Center).Left().Mul(-k)), b}
		a = b
	}
	return out
}
