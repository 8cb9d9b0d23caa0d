package table

import (
	"math"
	"strconv"
	"testing"

	"routwright/templates/job/jobtest"
	"routwright/templates/part"
)

// Every bore of the body is one row, and every number of the row follows from
// the bore and the slab as a builder would measure them.
func TestDrillTableRecomputed(t *testing.T) {
	j := jobtest.Full(t)
	tab := drills(j)
	col := map[string]int{}
	for i, h := range tab.Head {
		col[h] = i
	}
	slab := j.Blank.Bounds()
	left := map[[6]string]int{} // rows not yet claimed, by both ends
	n := func(v float64) string { return strconv.FormatFloat(v+0, 'f', 5, 64) }
	for i, r := range tab.Rows {
		left[[6]string{r[col["x"]], r[col["y"]], r[col["z"]], r[col["end_x"]], r[col["end_y"]], r[col["end_z"]]}] = i
	}
	count := 0
	for _, p := range j.Parts {
		if p.Adds {
			continue
		}
		for _, b := range p.Bores {
			count++
			i, ok := left[[6]string{n(b.From.X), n(b.From.Y), n(b.From.Z), n(b.To.X), n(b.To.Y), n(b.To.Z)}]
			if !ok {
				t.Errorf("no row for %s at %v", b.Words, b.From)
				continue
			}
			r := tab.Rows[i]
			dx, dy, dz := b.To.X-b.From.X, b.To.Y-b.From.Y, b.To.Z-b.From.Z
			along := math.Sqrt(dx*dx + dy*dy + dz*dz)
			want := map[string]string{
				"diameter": n(b.D), "depth": n(along), "for": b.Words, "part": p.ID,
				"from_bass_edge": n(b.From.X - slab.Min.X), "from_tail_edge": n(b.From.Y - slab.Min.Y),
				"lean_deg": n(math.Acos(math.Abs(dz)/along) * 180 / math.Pi),
			}
			if along == math.Abs(dz) && along >= j.Thickness {
				want["ends"] = "through"
			}
			for k, w := range want {
				if got := r[col[k]]; got != w {
					t.Errorf("%s: %s is %s, want %s", b.Words, k, got, w)
				}
			}
		}
	}
	if count != len(tab.Rows) {
		t.Errorf("%d rows for %d bores", len(tab.Rows), count)
	}
}

// The order of the parts' bores in memory does not matter.
func TestDrillTableIsStable(t *testing.T) {
	j, k := jobtest.Full(t), jobtest.Full(t)
	for i := range k.Parts {
		b := append([]part.Bore(nil), k.Parts[i].Bores...)
		for a, z := 0, len(b)-1; a < z; a, z = a+1, z-1 {
			b[a], b[z] = b[z], b[a]
		}
		k.Parts[i].Bores = b
	}
	a, b := drills(j).Rows, drills(k).Rows
	for i := range a {
		for c := range a[i] {
			if a[i][c] != b[i][c] {
				t.Fatalf("row %d: %v, reversed %v", i, a[i], b[i])
			}
		}
	}
}
