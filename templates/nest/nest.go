// Package nest lays the pieces of a set out on sheets of stock: which piece
// goes on which sheet, where, and turned or not.
//
//	Piece   what is to be cut, by its box
//	Stock   the sheets at hand, with the margin at their edge and the kerf
//	Lay     the layout, the same for the same pieces
package nest

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"sort"
)

// Piece is one piece, by the box that holds it. mm.
type Piece struct {
	ID   string
	L, W float64 // along and across its grain, or its longer and shorter side
	Keep bool    // keeps its direction on the sheet: L along the sheet
}

// Stock is the sheets at hand, all alike. mm.
type Stock struct {
	L, W   float64 // of one sheet, L the longer
	Margin float64 // not used along the edges: planed, damaged or clamped
	Kerf   float64 // left between two pieces for the saw or the cutter
}

// Place is where a piece lies: the corner of its box nearest to the sheet's own
// corner, in mm along the sheet's length and width.
type Place struct {
	Piece  int // index into the pieces
	Sheet  int // from 0
	X, Y   float64
	Turned bool // by a quarter: W along the sheet
}

// Layout is a set of pieces on sheets.
type Layout struct {
	Stock  Stock
	Places []Place // in the order of the pieces
	Sheets int
	// Used is how much of the last sheet's length is used, mm, margins included.
	Used float64
	// Waste is the share of the used sheets, the last up to Used, that no piece
	// covers, from 0 to 1.
	Waste float64
}

// Length returns the length of stock that the layout takes, mm: whole sheets
// and what is used of the last.
func (l Layout) Length() float64 { return float64(l.Sheets-1)*l.Stock.L + l.Used }

// rounds is how many orders of the pieces are tried for every piece. Found by
// trial: more gain less than 1 %.
const rounds = 220

// Lay lays the pieces out on as little stock as it finds: fewest sheets first,
// then the least length of the last. It tries the pieces by size and in many
// changed orders, each laid by the lowest free corner; the same pieces give the
// same layout. The error names the pieces that no sheet holds. Cost grows with
// the cube of the pieces: 20 take some 20 ms, 100 a second.
func Lay(pieces []Piece, s Stock) (Layout, error) {
	l := Layout{Stock: s}
	if len(pieces) == 0 {
		return l, nil
	}
	if err := fits(pieces, s); err != nil {
		return l, err
	}
	best, bestCost := []Place(nil), math.Inf(1)
	var bestOrder []gene
	p := packer{pieces: pieces, stock: s}
	for _, o := range firstOrders(pieces, s) {
		if places, cost := p.lay(o); cost < bestCost {
			best, bestCost, bestOrder = slices.Clone(places), cost, append([]gene(nil), o...)
		}
	}
	// Changed orders, worse ones taken over less and less often (simulated
	// annealing, Kirkpatrick et al., Science 220, 1983). The seed is fixed.
	rnd := rand.New(rand.NewPCG(uint64(len(pieces)), 20))
	now, nowCost := append([]gene(nil), bestOrder...), bestCost
	next := make([]gene, len(now))
	tries := rounds * min(len(pieces), 60)
	for i := range tries {
		copy(next, now)
		change(next, pieces, s, rnd)
		places, cost := p.lay(next)
		heat := 0.03 * nowCost * (1 - float64(i)/float64(tries))
		if cost <= nowCost || rnd.Float64() < math.Exp((nowCost-cost)/heat) {
			now, next = next, now
			nowCost = cost
		}
		if cost < bestCost {
			best, bestCost = append(best[:0], places...), cost
		}
	}
	l.Places = make([]Place, len(pieces))
	area := 0.0
	for _, q := range best {
		l.Places[q.Piece] = q
		l.Sheets = max(l.Sheets, q.Sheet+1)
		area += pieces[q.Piece].L * pieces[q.Piece].W
	}
	for _, q := range best {
		if q.Sheet == l.Sheets-1 {
			long, _ := q.size(pieces)
			l.Used = max(l.Used, q.X+long+s.Margin)
		}
	}
	l.Waste = 1 - area/(l.Length()*s.W)
	return l, nil
}

// size returns the extent of a placed piece along and across the sheet.
func (q Place) size(pieces []Piece) (l, w float64) {
	p := pieces[q.Piece]
	if q.Turned {
		return p.W, p.L
	}
	return p.L, p.W
}

// fits tells which pieces no sheet holds.
func fits(pieces []Piece, s Stock) error {
	l, w := s.L-2*s.Margin, s.W-2*s.Margin
	for _, p := range pieces {
		if !(p.L > 0 && p.W > 0) {
			return fmt.Errorf("piece %q measures %.1f × %.1f mm", p.ID, p.L, p.W)
		}
		if (p.L > l || p.W > w) && (p.Keep || p.W > l || p.L > w) {
			return fmt.Errorf("piece %q of %.1f × %.1f mm fits no sheet of %.0f × %.0f mm with a margin of %.0f mm", p.ID, p.L, p.W, s.L, s.W, s.Margin)
		}
	}
	return nil
}

// gene is one piece in an order, and whether it is laid turned.
type gene struct {
	piece  int
	turned bool
}

// may reports whether a piece may lie turned, or not, on a sheet.
func may(p Piece, s Stock, turned bool) bool {
	l, w := s.L-2*s.Margin, s.W-2*s.Margin
	if turned {
		return !p.Keep && p.W <= l && p.L <= w
	}
	return p.L <= l && p.W <= w
}

// firstOrders returns the pieces by falling width, length, area and
// circumference, each as it is and turned.
func firstOrders(pieces []Piece, s Stock) [][]gene {
	keys := []func(p Piece) float64{
		func(p Piece) float64 { return max(p.L, p.W) },
		func(p Piece) float64 { return min(p.L, p.W) },
		func(p Piece) float64 { return p.L * p.W },
		func(p Piece) float64 { return p.L + p.W },
	}
	var out [][]gene
	for _, key := range keys {
		for _, turned := range []bool{false, true} {
			o := make([]gene, len(pieces))
			for i, p := range pieces {
				t := turned
				if !may(p, s, t) {
					t = !t
				}
				o[i] = gene{i, t}
			}
			sort.SliceStable(o, func(a, b int) bool { return key(pieces[o[a].piece]) > key(pieces[o[b].piece]) })
			out = append(out, o)
		}
	}
	return out
}

// change exchanges two pieces of an order, moves one, or turns one.
func change(o []gene, pieces []Piece, s Stock, rnd *rand.Rand) {
	i, j := rnd.IntN(len(o)), rnd.IntN(len(o))
	switch rnd.IntN(3) {
	case 0:
		o[i], o[j] = o[j], o[i]
	case 1:
		g := o[i]
		copy(o[i:], o[i+1:])
		copy(o[j+1:], o[j:len(o)-1])
		o[j] = g
	default:
		if may(pieces[o[i].piece], s, !o[i].turned) {
			o[i].turned = !o[i].turned
		}
	}
}
