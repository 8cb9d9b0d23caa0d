package ingest

import "routwright/geom"

// through returns the cubic spline with continuous second derivative through
// the points, its parameter the chord length (de Boor, "A Practical Guide to
// Splines", chapter IV): natural at an end, or along ends[i] if given; periodic
// when closed. nil when fewer than two points differ. O(n).
func through(ps []geom.Point, closed bool, ends [2]*geom.Vec) []geom.Cubic {
	var q []geom.Point
	for _, p := range ps {
		if len(q) == 0 || q[len(q)-1].Dist(p) >= geom.Coincident {
			q = append(q, p)
		}
	}
	if closed && len(q) > 1 && q[0].Dist(q[len(q)-1]) < geom.Coincident {
		q = q[:len(q)-1]
	}
	n := len(q)
	if n < 2 || closed && n < 3 {
		return nil
	}
	if closed {
		q = append(q, q[0])
	}
	h := make([]float64, len(q)-1)
	for i := range h {
		h[i] = q[i+1].Dist(q[i])
	}
	var m []geom.Vec // derivatives at q
	if closed {
		m = periodic(q, h)
	} else {
		m = clamped(q, h, ends)
	}
	out := make([]geom.Cubic, len(h))
	for i := range h {
		out[i] = geom.Cubic{q[i], q[i].Add(m[i].Mul(h[i] / 3)), q[i+1].Add(m[i+1].Mul(-h[i] / 3)), q[i+1]}
	}
	return out
}

// slope returns the divided difference of step i.
func slope(q []geom.Point, h []float64, i int) geom.Vec { return q[i+1].Sub(q[i]).Mul(1 / h[i]) }

// clamped solves for the derivatives of an open spline.
func clamped(q []geom.Point, h []float64, ends [2]*geom.Vec) []geom.Vec {
	n := len(q)
	lo, di, up, r := make([]float64, n), make([]float64, n), make([]float64, n), make([]geom.Vec, n)
	for i := 1; i < n-1; i++ {
		lo[i], di[i], up[i] = h[i], 2*(h[i-1]+h[i]), h[i-1]
		r[i] = slope(q, h, i-1).Mul(3 * h[i]).Add(slope(q, h, i).Mul(3 * h[i-1]))
	}
	// Natural: 2m₀ + m₁ = 3·slope.
	di[0], up[0], r[0] = 2, 1, slope(q, h, 0).Mul(3)
	lo[n-1], di[n-1], r[n-1] = 1, 2, slope(q, h, n-2).Mul(3)
	for i, k := range [2]int{0, n - 1} {
		if e := ends[i]; e != nil && e.Len() > 0 {
			lo[k], di[k], up[k], r[k] = 0, 1, 0, e.Unit() // unit speed by chord length
		}
	}
	return tridiagonal(lo, di, up, r)
}

// periodic solves for the derivatives of a closed spline, q's last point being
// its first, by Sherman and Morrison's correction of the open system.
func periodic(q []geom.Point, h []float64) []geom.Vec {
	n := len(h)
	lo, di, up, r := make([]float64, n), make([]float64, n), make([]float64, n), make([]geom.Vec, n)
	for i := range n {
		before := (i + n - 1) % n
		lo[i], di[i], up[i] = h[i], 2*(h[before]+h[i]), h[before]
		r[i] = slope(q, h, before).Mul(3 * h[i]).Add(slope(q, h, i).Mul(3 * h[before]))
	}
	// Corner entries: row 0 holds lo[0] in the last column, row n−1 up[n−1] in
	// the first.
	g := -di[0]
	a, b := up[n-1], lo[0]
	di[0] -= g
	di[n-1] -= a * b / g
	u := make([]geom.Vec, n)
	u[0].X, u[n-1].X = g, a
	x := tridiagonal(lo, di, up, r)
	z := tridiagonal(lo, di, up, u)
	den := 1 + z[0].X + b/g*z[n-1].X
	k := x[0].Add(x[n-1].Mul(b / g)).Mul(1 / den)
	for i := range x {
		x[i] = x[i].Sub(k.Mul(z[i].X))
	}
	return append(x, x[0])
}

// tridiagonal solves the diagonally dominant system by elimination.
func tridiagonal(lo, di, up []float64, r []geom.Vec) []geom.Vec {
	n := len(di)
	d := append([]float64(nil), di...)
	x := append([]geom.Vec(nil), r...)
	for i := 1; i < n; i++ {
		k := lo[i] / d[i-1]
		d[i] -= k * up[i-1]
		x[i] = x[i].Sub(x[i-1].Mul(k))
	}
	x[n-1] = x[n-1].Mul(1 / d[n-1])
	for i := n - 2; i >= 0; i-- {
		x[i] = x[i].Sub(x[i+1].Mul(up[i])).Mul(1 / d[i])
	}
	return x
}
