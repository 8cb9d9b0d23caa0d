package dxf

import (
	"fmt"
	"strings"

	"routwright/render"
)

// layer is a layer of the file. It looks as the first line on it does; lines of
// another kind state their own line type.
type layer struct {
	asked string // the name asked for, in capitals
	name  string
	kind  render.Kind
}

// kindLayers names the layer of a line that asks for none.
var kindLayers = [...]string{
	render.Cut: "CUT", render.Mark: "MARK", render.Centre: "CENTRE", render.Hidden: "HIDDEN",
	render.Dimension: "DIMENSION", render.Hatch: "WASTE", render.Frame: "FRAME",
	render.Edge: "EDGE", render.Solid: "SECTION",
}

// kindLayer returns the layer of a kind of line; of an unknown one that of cut
// lines, as it is drawn.
func kindLayer(k render.Kind) string {
	if int(k) >= len(kindLayers) {
		return kindLayers[render.Cut]
	}
	return kindLayers[k]
}

// longest is the length of a layer's name in R12.
const longest = 31

// layer returns the name of a layer as the format allows it, and keeps it. Two
// layers whose names come out alike get a number, so that no two operations
// fall into one.
func (f *file) layer(asked string, k render.Kind) string {
	asked = strings.ToUpper(asked)
	for _, l := range f.layers {
		if l.asked == asked {
			return l.name
		}
	}
	taken := map[string]bool{"0": true} // every file has that one
	for _, l := range f.layers {
		taken[l.name] = true
	}
	name := LayerName(asked)
	for i := 2; taken[name]; i++ {
		tail := fmt.Sprintf("_%d", i)
		name = LayerName(asked)
		name = name[:min(len(name), longest-len(tail))] + tail
	}
	f.layers = append(f.layers, layer{asked, name, k})
	return name
}

// kindOf returns the kind of line that gives a layer its line type.
func (f *file) kindOf(name string) render.Kind {
	for _, l := range f.layers {
		if l.name == name {
			return l.kind
		}
	}
	return render.Cut
}

// LayerName returns s in the letters that every version allows: A–Z, 0–9, $, _
// and -, at most 31 of them.
func LayerName(s string) string {
	s = strings.Map(func(r rune) rune {
		switch {
		case r >= 'a' && r <= 'z':
			return r - 'a' + 'A'
		case r >= 'A' && r <= 'Z', r >= '0' && r <= '9', r == '$', r == '_', r == '-':
			return r
		}
		return '_'
	}, s)
	if s == "" {
		return "0"
	}
	return s[:min(len(s), longest)]
}

// ltypeName is the line type of a kind of line.
func ltypeName(k render.Kind) string {
	if len(k.Style().Dash) == 0 {
		return "CONTINUOUS"
	}
	return strings.ToUpper(k.Style().Class)
}

// dashed lists the kinds with a line type of their own.
func dashed() []render.Kind {
	var ks []render.Kind
	for k := render.Cut; k <= render.Solid; k++ {
		if len(k.Style().Dash) > 0 {
			ks = append(ks, k)
		}
	}
	return ks
}

// weights are the line widths that the format knows, in 1/100 mm.
var weights = [...]int{0, 5, 9, 13, 15, 18, 20, 25, 30, 35, 40, 50, 53, 60, 70, 80, 90, 100, 106, 120, 140, 158, 200, 211}

// weight returns the known width nearest to that of a kind of line.
func weight(k render.Kind) int {
	want, best := k.Style().Width*100, 0
	for _, w := range weights {
		if abs(float64(w)-want) < abs(float64(best)-want) {
			best = w
		}
	}
	return best
}

func abs(v float64) float64 { return max(v, -v) }
