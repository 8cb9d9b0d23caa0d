package nest

import (
	"flag"
	"math"
	"math/rand/v2"
	"strings"
	"testing"
	"time"
)

var search = flag.Duration("search", 0, "how long TestAgainstSearch draws random layouts to compare with")

// demo are the template blanks of a full set, mm: boxes as they come.
func demo() []Piece {
	return []Piece{
		{ID: "body", L: 470, W: 326}, {ID: "pocket", L: 410, W: 290}, {ID: "tail", L: 400, W: 285},
		{ID: "neck pickup", L: 396, W: 300}, {ID: "control", L: 420, W: 310}, {ID: "rebate", L: 424, W: 316},
		{ID: "recess", L: 140, W: 110}, {ID: "key", L: 60, W: 28}, {ID: "cover", L: 120, W: 75},
		{ID: "rail a", L: 320, W: 60}, {ID: "rail b", L: 320, W: 60}, {ID: "stop", L: 120, W: 60},
		{ID: "neck", L: 640, W: 90, Keep: true}, {ID: "neck side", L: 650, W: 60}, {ID: "gauge 1", L: 70, W: 50},
		{ID: "gauge 12", L: 75, W: 52}, {ID: "strip", L: 520, W: 30}, {ID: "caul", L: 160, W: 90},
	}
}

var halfSheet = Stock{L: 1220, W: 610, Margin: 10, Kerf: 4}

// legal holds a layout against the rules by comparing every pair.
func legal(t *testing.T, pieces []Piece, l Layout) {
	t.Helper()
	for i, p := range l.Places {
		if p.Piece != i {
			t.Fatalf("place %d holds piece %d", i, p.Piece)
		}
		long, wide := p.size(pieces)
		s := l.Stock
		if p.X < s.Margin-1e-6 || p.Y < s.Margin-1e-6 || p.X+long > s.L-s.Margin+1e-6 || p.Y+wide > s.W-s.Margin+1e-6 {
			t.Errorf("piece %q at %.1f, %.1f leaves the sheet", pieces[i].ID, p.X, p.Y)
		}
		if p.Turned && pieces[i].Keep {
			t.Errorf("piece %q was turned", pieces[i].ID)
		}
		for k := range l.Places[:i] {
			q := l.Places[k]
			ql, qw := q.size(pieces)
			if p.Sheet == q.Sheet && p.X < q.X+ql+s.Kerf-1e-6 && q.X < p.X+long+s.Kerf-1e-6 && p.Y < q.Y+qw+s.Kerf-1e-6 && q.Y < p.Y+wide+s.Kerf-1e-6 {
				t.Errorf("pieces %q and %q are nearer than the kerf", pieces[i].ID, pieces[k].ID)
			}
		}
	}
}

func TestLayIsLegalAndTheSame(t *testing.T) {
	for seed := range uint64(60) {
		rnd := rand.New(rand.NewPCG(seed, 1))
		pieces := make([]Piece, 1+rnd.IntN(14))
		for i := range pieces {
			pieces[i] = Piece{ID: string(rune('a' + i)), L: 20 + 400*rnd.Float64(), W: 20 + 300*rnd.Float64(), Keep: rnd.IntN(4) == 0}
		}
		l, err := Lay(pieces, halfSheet)
		if err != nil {
			t.Fatal(err)
		}
		legal(t, pieces, l)
		again, _ := Lay(pieces, halfSheet)
		for i := range l.Places {
			if l.Places[i] != again.Places[i] {
				t.Fatalf("seed %d: two layouts of the same pieces", seed)
			}
		}
	}
}

// Pieces that fill a sheet exactly, as a joiner would see at once.
func TestLayFillsASheet(t *testing.T) {
	s := Stock{L: 1220, W: 610, Margin: 5, Kerf: 10}
	var pieces []Piece
	for range 6 { // three by two: 3·396⅔ + 2·10 = 1210, 2·295 + 10 = 600
		pieces = append(pieces, Piece{L: 1190.0 / 3, W: 295})
	}
	l, err := Lay(pieces, s)
	if err != nil {
		t.Fatal(err)
	}
	legal(t, pieces, l)
	if l.Sheets != 1 {
		t.Errorf("%d sheets, want 1", l.Sheets)
	}
}

func TestLayRefuses(t *testing.T) {
	for _, c := range []struct {
		p    Piece
		want string
	}{
		{Piece{ID: "long", L: 1300, W: 20}, `piece "long" of 1300.0 × 20.0 mm fits no sheet`},
		{Piece{ID: "kept", L: 20, W: 700, Keep: true}, `piece "kept"`},
		{Piece{ID: "none", L: 0, W: 20}, `piece "none" measures`},
		{Piece{ID: "nan", L: math.NaN(), W: 20}, `piece "nan" measures`},
	} {
		if _, err := Lay([]Piece{c.p}, halfSheet); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%+v: %v", c.p, err)
		}
	}
	if l, err := Lay(nil, halfSheet); err != nil || l.Sheets != 0 {
		t.Errorf("no piece: %+v, %v", l, err)
	}
}

// What ten minutes of random search find is at most a tenth better:
//
//	go test ./templates/nest -run Search -search 10m -timeout 20m -v
//
// The search draws random orders and turns and lays each into the lowest free
// corner; in a usual run it takes a second.
func TestAgainstSearch(t *testing.T) {
	pieces := demo()
	l, err := Lay(pieces, halfSheet)
	if err != nil {
		t.Fatal(err)
	}
	legal(t, pieces, l)
	p := packer{pieces: pieces, stock: halfSheet}
	rnd := rand.New(rand.NewPCG(7, 7))
	order := make([]gene, len(pieces))
	for i := range order {
		order[i].piece = i
	}
	best, tries := math.Inf(1), 0
	for start := time.Now(); time.Since(start) < max(*search, time.Second); tries++ {
		rnd.Shuffle(len(order), func(a, b int) { order[a], order[b] = order[b], order[a] })
		for i := range order {
			order[i].turned = rnd.IntN(2) == 0
			if !may(pieces[order[i].piece], halfSheet, order[i].turned) {
				order[i].turned = !order[i].turned
			}
		}
		if _, cost := p.lay(order); cost < best {
			best = cost
		}
	}
	best += 2*halfSheet.Margin - halfSheet.Kerf // the order's cost counts the room alone
	t.Logf("%.1f mm of stock on %d sheets, waste %.0f %%; %d random layouts: at best %.1f mm; ratio %.3f", l.Length(), l.Sheets, 100*l.Waste, tries, best, l.Length()/best)
	if l.Length() > 1.1*best {
		t.Errorf("%.1f mm, a random search found %.1f", l.Length(), best)
	}
}

func BenchmarkLay(b *testing.B) {
	for b.Loop() {
		if _, err := Lay(demo(), halfSheet); err != nil {
			b.Fatal(err)
		}
	}
}
