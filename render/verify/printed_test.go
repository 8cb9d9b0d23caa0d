//go:build verify

package verify

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"sort"
	"strings"
	"testing"
)

// leaf is a stretch of content of a tagged PDF, in reading order.
type leaf struct {
	page  int   // from 1
	marks []int // the elements that it lies in, outermost first
}

// tagged is the structure of a PDF as ISO 32000-1, 14.7, has it.
type tagged struct {
	objects map[string]any
	page    map[string]int // by reference
	roles   map[string]any
	kind    []string // of each element
	over    []int    // of each element, the one that it lies in; −1
	words   []bool   // of each element: it has words for who cannot see it
	leaves  []leaf
}

// readTags reads the structure of a tagged PDF with qpdf.
func readTags(t *testing.T, file string) tagged {
	t.Helper()
	var doc struct {
		Pages []struct{ Object string }
		Qpdf  []json.RawMessage
	}
	if err := json.Unmarshal([]byte(run(t, "qpdf", "--json=2", "--json-key=pages", "--json-key=qpdf", file)), &doc); err != nil {
		t.Fatal(err)
	}
	if len(doc.Qpdf) < 2 {
		t.Fatalf("qpdf: %d parts of its JSON, want 2", len(doc.Qpdf))
	}
	var raw map[string]struct{ Value any }
	if err := json.Unmarshal(doc.Qpdf[1], &raw); err != nil {
		t.Fatal(err)
	}
	g := tagged{objects: map[string]any{}, page: map[string]int{}}
	var root map[string]any
	for k, v := range raw {
		g.objects[strings.TrimPrefix(k, "obj:")] = v.Value
	}
	for i, p := range doc.Pages {
		g.page[p.Object] = i + 1
	}
	trailer, _ := raw["trailer"]
	top, _ := trailer.Value.(map[string]any)
	catalog := g.dict(top["/Root"])
	root = g.dict(catalog["/StructTreeRoot"])
	if root == nil {
		t.Fatalf("%s is not tagged", file)
	}
	g.roles = g.dict(root["/RoleMap"])
	g.walk(root["/K"], "", nil)
	if len(g.leaves) == 0 {
		t.Fatalf("%s: tags without content", file)
	}
	return g
}

func (g *tagged) at(v any) any {
	if s, ok := v.(string); ok && strings.HasSuffix(s, " R") {
		return g.objects[s]
	}
	return v
}

func (g *tagged) dict(v any) map[string]any {
	m, _ := g.at(v).(map[string]any)
	return m
}

func (g *tagged) walk(v any, page string, marks []int) {
	switch k := g.at(v).(type) {
	case []any:
		for _, c := range k {
			g.walk(c, page, marks)
		}
	case float64: // marked content of the element's page
		g.leaves = append(g.leaves, leaf{g.page[page], marks})
	case map[string]any:
		if p, ok := k["/Pg"].(string); ok {
			page = p
		}
		switch k["/Type"] {
		case "/MCR":
			g.leaves = append(g.leaves, leaf{g.page[page], marks})
		case "/OBJR": // a link's box
		default:
			kind, _ := k["/S"].(string)
			if r, ok := g.roles[kind].(string); ok {
				kind = r
			}
			_, alt := k["/Alt"]
			over := -1
			if len(marks) > 0 {
				over = marks[len(marks)-1]
			}
			g.kind, g.over, g.words = append(g.kind, strings.TrimPrefix(kind, "/")), append(g.over, over), append(g.words, alt)
			g.walk(k["/K"], page, append(marks[:len(marks):len(marks)], len(g.kind)-1))
		}
	}
}

// within tells whether element m lies directly in one of a kind.
func (g *tagged) within(m int, kind string) bool {
	return g.over[m] >= 0 && g.kind[g.over[m]] == kind
}

// head tells whether element m is the head of a table, its first row.
func (g *tagged) head(m int) bool {
	if g.kind[m] != "TR" {
		return false
	}
	for k := range m {
		if g.kind[k] == "TR" && g.over[k] == g.over[m] {
			return false
		}
	}
	return true
}

// whole says in words what element m is if no page may end within it; else "".
func (g *tagged) whole(m int) string {
	switch k := g.kind[m]; {
	case k == "TR" && !g.head(m):
		return "row"
	case k == "LI":
		return "point of a list"
	case k == "Figure":
		return "picture"
	case k == "Caption":
		return "caption"
	}
	return g.heading(m)
}

// heading says in words what element m is if no page may end after it; else "".
func (g *tagged) heading(m int) string {
	switch k := g.kind[m]; {
	case k == "H1" || k == "H2" || k == "H3" || k == "H4":
		return "heading"
	case k == "Caption" && g.within(m, "Table"):
		return "table's caption"
	case g.head(m):
		return "table's head"
	}
	return ""
}

// parted returns what lies on two pages and should not, and what stands last on a page
// and leads on to the next.
func (g *tagged) parted() []string {
	var bad []string
	first, last := map[int]int{}, map[int]int{}
	// The head of a table is printed again on each of its pages.
	var leaves []leaf
	for _, l := range g.leaves {
		again := false
		for _, m := range l.marks {
			if p, ok := first[m]; ok && g.head(m) && p != l.page {
				again = true
			} else if !ok {
				first[m] = l.page
			}
		}
		if !again {
			leaves = append(leaves, l)
		}
	}
	first = map[int]int{}
	for i, l := range leaves {
		for _, m := range l.marks {
			if _, ok := first[m]; !ok {
				first[m] = l.page
			}
			first[m], last[m] = min(first[m], l.page), max(last[m], l.page)
		}
		if i+1 == len(leaves) || leaves[i+1].page <= l.page {
			continue
		}
		for _, m := range l.marks {
			if w := g.heading(m); w != "" {
				bad = append(bad, fmt.Sprintf("a %s is the last thing on page %d", w, l.page))
				break
			}
		}
	}
	for m, p := range first {
		if w := g.whole(m); w != "" && last[m] != p {
			bad = append(bad, fmt.Sprintf("a %s begins on page %d and ends on page %d", w, p, last[m]))
		}
	}
	sort.Strings(bad)
	return bad
}

// pictures returns how many pictures with words there are.
func (g *tagged) pictures() int {
	n := 0
	for m, k := range g.kind {
		if k == "Figure" && g.words[m] {
			n++
		}
	}
	return n
}

// ink returns how low on each page the last ink lies, above the page's number, as a
// share of its height; 0 for an empty page.
func ink(t *testing.T, file string) []float64 {
	t.Helper()
	const footer = 1 - 14.0/279.4 // the bottom margin of the shorter paper, less a hair
	base := filepath.Join(t.TempDir(), "p")
	run(t, "pdftocairo", "-png", "-gray", "-r", "30", file, base)
	names, _ := filepath.Glob(base + "*.png")
	sort.Strings(names)
	var low []float64
	for _, n := range names {
		g := decode(t, n)
		b := g.Bounds()
		last := 0.0
		for y := 0; y < int(footer*float64(b.Dy())); y++ {
			for x := 0; x < b.Dx(); x++ {
				if g.Pix[y*g.Stride+x] < 200 {
					last = float64(y+1) / float64(b.Dy())
					break
				}
			}
		}
		low = append(low, last)
		os.Remove(n)
	}
	return low
}
