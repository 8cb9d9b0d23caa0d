package pdf

import (
	"bytes"
	"fmt"
	"math"

	"routwright/geom"
	"routwright/render"
)

// num prints a number in points to 1e-4, far below what a printer resolves.
func num(v float64) string {
	s := fmt.Sprintf("%.5f", v)
	if s == "-0.00000" {
		return "0.00000"
	}
	return s
}

func (d *doc) shape(s render.Shape, o geom.Point) {
	if len(s.Path) == 0 || d.err != nil {
		return
	}
	st := s.Kind.Style()
	dash := ""
	for _, v := range st.Dash {
		dash += num(v*pt) + " "
	}
	at := func(p geom.Point) string { return num((p.X-o.X)*pt) + " " + num((p.Y-o.Y)*pt) }
	var b bytes.Buffer
	// Blunt ends: a tick and a dash end where they are said to end.
	fmt.Fprintf(&b, "%s w 0 J 1 j [%s] 0 d 0 G 0 g %s m\n", num(st.Width*pt), dash, at(s.Path[0].A))
	for _, e := range s.Path {
		if !e.A.IsFinite() || !e.B.IsFinite() || !e.Center.IsFinite() {
			d.err = fmt.Errorf("line %q: a coordinate is not a finite number", s.ID)
			return
		}
		if !e.IsArc() {
			fmt.Fprintf(&b, "%s l\n", at(e.B))
			continue
		}
		for _, c := range beziers(e) {
			fmt.Fprintf(&b, "%s %s %s c\n", at(c[1]), at(c[2]), at(c[3]))
		}
	}
	op := "S"
	if s.Path.Closed() {
		op = "s"
	}
	if s.Fill {
		op = "f" // no stroke: it would make the figure larger
	}
	b.WriteString(op)
	d.f.RawWriteStr(b.String())
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
