package job

import (
	"fmt"
	"sync"

	"routwright/geom"
	"routwright/templates/design"
	"routwright/templates/outline"
)

// Memory keeps the outlines of families that it has built: arcs fitted to a curve
// take a third of the time of a design, and depend on a dozen of its numbers. It
// is for those who solve designs one after another that are nearly alike. The
// zero value is ready, nil keeps nothing; any number of goroutines may use one.
type Memory struct {
	mu       sync.Mutex
	outlines map[string]built
}

// built is what outline.Build returned.
type built struct {
	path geom.Path
	used []outline.Used
	err  error
}

// mostOutlines is how many outlines a Memory keeps: some 300 arcs each.
const mostOutlines = 64

// Solve is the function Solve with the memory's help: the same job comes out.
func (m *Memory) Solve(d *design.Design, files Files) (*Job, error) { return solveWith(d, files, m) }

// outline is outline.Build, from memory where it can be. A nil Memory keeps
// nothing.
func (m *Memory) outline(family string, given map[string]float64) (geom.Path, []outline.Used, error) {
	if m == nil {
		return outline.Build(family, given)
	}
	key := fmt.Sprintf("%q %v", family, given) // a map is printed in the order of its keys
	m.mu.Lock()
	b, ok := m.outlines[key]
	m.mu.Unlock()
	if !ok {
		b.path, b.used, b.err = outline.Build(family, given)
		m.mu.Lock()
		if m.outlines == nil || len(m.outlines) >= mostOutlines {
			m.outlines = map[string]built{}
		}
		m.outlines[key] = b
		m.mu.Unlock()
	}
	return b.path, b.used, b.err
}
