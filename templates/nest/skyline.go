package nest

import "math"

// step is a part of the skyline: from Y, W mm across the sheet, the free wood
// begins at X.
type step struct{ y, w, x float64 }

// packer lays orders of pieces; it keeps its memory between them.
type packer struct {
	pieces []Piece
	stock  Stock
	lines  [][]step // the skyline of every sheet begun
	spare  [][]step // those of earlier orders, for their memory
	places []Place
}

// lay lays the pieces in order, each where it ends nearest to the beginning of
// the first sheet that holds it, and returns the places and what they cost: mm
// of stock, with a little for a ragged end, so that orders of equal length are
// told apart. The places are good until the next order.
//
// Every piece is taken one kerf larger, and so is the room: between two pieces
// one kerf stays, at the margins none is needed.
func (p *packer) lay(order []gene) ([]Place, float64) {
	s := p.stock
	long, wide := s.L-2*s.Margin+s.Kerf, s.W-2*s.Margin+s.Kerf
	p.spare, p.lines = append(p.spare, p.lines...), p.lines[:0]
	places := p.places[:0]
	for _, g := range order {
		l, w := p.pieces[g.piece].L, p.pieces[g.piece].W
		if g.turned {
			l, w = w, l
		}
		l, w = l+s.Kerf, w+s.Kerf
		for n := 0; ; n++ {
			if n == len(p.lines) {
				p.lines = append(p.lines, append(p.empty(), step{0, wide, 0}))
			}
			i, x, y := lowest(p.lines[n], l, w, long)
			if i < 0 {
				continue
			}
			line := p.lines[n]
			p.lines[n] = raise(p.empty(), line, i, y, w, x+l)
			p.spare = append(p.spare, line)
			places = append(places, Place{g.piece, n, s.Margin + x, s.Margin + y, g.turned})
			break
		}
	}
	p.places = places
	last := p.lines[len(p.lines)-1]
	end, mean := 0.0, 0.0
	for _, t := range last {
		end = max(end, t.x)
		mean += t.x * t.w / wide
	}
	return places, float64(len(p.lines)-1)*s.L + end + 1e-3*mean
}

// lowest returns where a piece of l × w ends nearest to the beginning of the
// sheet, the step it starts on, or −1 when it does not fit; of equal places the
// one that wastes the least behind it.
func lowest(line []step, l, w, long float64) (at int, x, y float64) {
	at, bestX, bestLoss := -1, math.Inf(1), math.Inf(1)
	wide := line[len(line)-1].y + line[len(line)-1].w
	for i := range line {
		if line[i].y+w > wide+tiny {
			break
		}
		top, loss := 0.0, 0.0
		for k, left := i, w; k < len(line) && left > tiny; k++ {
			top = max(top, line[k].x)
			left -= line[k].w
		}
		if top+l > long+tiny || top > bestX {
			continue
		}
		for k, left := i, w; k < len(line) && left > tiny; k++ {
			loss += (top - line[k].x) * min(left, line[k].w)
			left -= line[k].w
		}
		if top < bestX || loss < bestLoss {
			at, bestX, bestLoss, x, y = i, top, loss, top, line[i].y
		}
	}
	return at, x, y
}

// tiny is what rounding may add up to over a sheet, mm.
const tiny = 1e-6

// empty returns an empty skyline, in memory that is at hand.
func (p *packer) empty() []step {
	n := len(p.spare)
	if n == 0 {
		return nil
	}
	line := p.spare[n-1][:0]
	p.spare = p.spare[:n-1]
	return line
}

// raise puts a piece that starts on step i and is w wide into the skyline, which it
// copies to out.
func raise(out, line []step, i int, y, w, x float64) []step {
	out = append(out, line[:i]...)
	out = append(out, step{y, w, x})
	end := y + w
	for _, s := range line[i:] {
		if rest := s.y + s.w - end; rest > tiny {
			from := max(s.y, end)
			out = append(out, step{from, s.y + s.w - from, s.x})
		}
	}
	merged := out[:1]
	for _, s := range out[1:] {
		if m := &merged[len(merged)-1]; math.Abs(m.x-s.x) < tiny {
			m.w += s.w
		} else {
			merged = append(merged, s)
		}
	}
	return merged
}
