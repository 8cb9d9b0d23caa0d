package relief

import (
	"image"
	"image/color"
	"math"
)

// Light of the picture: from the upper left, as maps are lit, 45° high, with as
// much light from all round as keeps shadows readable. Common practice of shaded
// maps.
const (
	ambient  = 0.34
	diffuse  = 0.66
	shadowed = 0.45  // share of the direct light that a cast shadow leaves
	steepest = 3.0   // rise per run; steeper walls are drawn as steep as this
	soft     = 0.8   // mm of height over which the edge of a shadow fades
	deepTone = 0.012 // light lost by mm of depth
)

// Tints are the materials that a picture can tell apart: each lightens its tone.
var tints = [...]float64{1, 1.28, 0.8}

// paper is the tone where there is no material.
const paper = 255

// lit is the lightest tone of material, so that it stands out from the paper.
const lit = 222

// Shade returns the picture of the field, over×over cells averaged to a pixel,
// as 256 tones from dark to light; white is no material. The tones lie in a
// palette of wood colours whose lightness rises evenly, so that a print without
// colour reads the same. The same field gives the same picture.
func (f *Field) Shade(over int) *image.Paletted {
	over = max(over, 1)
	w, h := f.W/over, f.H/over
	img := image.NewPaletted(image.Rect(0, 0, w, h), palette)
	shadow := make([]float32, f.W) // height of the shadow over the row above, cell by cell
	next := make([]float32, f.W)
	for i := range shadow {
		shadow[i] = -Nothing
	}
	sums := make([]int, w)
	fall := float32(f.Step * math.Sqrt2) // of a ray at 45° from one cell to the next, slantwise
	for row := 0; row < h*over; row++ {
		line := f.Depth[row*f.W : (row+1)*f.W]
		up, down := line, line
		if row > 0 {
			up = f.Depth[(row-1)*f.W : row*f.W]
		}
		if row+1 < f.H {
			down = f.Depth[(row+1)*f.W : (row+2)*f.W]
		}
		tint := f.Tint[row*f.W : (row+1)*f.W]
		for col, d := range line {
			cast := -Nothing
			if col > 0 && row > 0 {
				cast = shadow[col-1] - fall
			}
			tone := paper
			if d != Nothing {
				tone = f.tone(line, up, down, col, cast, tint[col])
				cast = max(cast, -d)
			}
			next[col] = cast
			if col/over < w {
				sums[col/over] += tone
			}
		}
		shadow, next = next, shadow
		if row%over == over-1 {
			out := img.Pix[row/over*img.Stride:]
			for i, s := range sums {
				out[i] = uint8(s / (over * over))
				sums[i] = 0
			}
		}
	}
	return img
}

// tone returns the lightness of one cell: Lambert's law, the cast shadow, and a
// little less light the deeper it lies.
func (f *Field) tone(line, up, down []float32, col int, cast float32, tint uint8) int {
	d := line[col]
	over := float64(cast + d)
	if over <= 0 && col > 0 && col+1 < len(line) && line[col-1] == d && line[col+1] == d && up[col] == d && down[col] == d {
		return level(d, tint) // most cells
	}
	// An edge of the material falls away as steeply as anything is drawn.
	slope := func(a, b float32) float64 {
		cells := 2.0
		if a == Nothing && b == Nothing {
			return 0
		}
		if a == Nothing {
			return steepest / 2
		}
		if b == Nothing {
			return -steepest / 2
		}
		s := float64(a-b) / (cells * f.Step) // height rises from a to b when depth falls
		return max(-steepest, min(steepest, s))
	}
	left, right := d, d
	if col > 0 {
		left = line[col-1]
	}
	if col+1 < len(line) {
		right = line[col+1]
	}
	gx, gy := slope(left, right), slope(down[col], up[col]) // of the height, to the right and up
	// Normal (−gx, −gy, 1), light (−1, 1, √2)/2.
	n := (gx - gy + math.Sqrt2) / (2 * math.Sqrt(1+gx*gx+gy*gy))
	direct := max(0, n) / (math.Sqrt2 / 2)
	if over > 0 {
		direct *= 1 - (1-shadowed)*min(1, over/soft)
	}
	return toned(ambient+diffuse*min(direct, 1.3), d, tint)
}

// level returns the lightness of a cell in a level place in full light.
func level(d float32, tint uint8) int { return toned(ambient+diffuse, d, tint) }

// toned returns the lightness under a light of 1 for a level place at the face.
func toned(light float64, d float32, tint uint8) int {
	light /= 1 + deepTone*float64(d)
	if int(tint) < len(tints) {
		light *= tints[tint]
	}
	if v := 176 * light; v < lit {
		return int(v)
	}
	return lit
}

// palette runs from dark brown over wood to white: each colour's lightness is
// its number (luma of ITU-R BT.601).
var palette = woods()

func woods() color.Palette {
	p := make(color.Palette, 256)
	for i := range p {
		t := float64(i) / 255
		// Warmth is greatest in the middle and gone at both ends.
		warm := 36 * 4 * t * (1 - t)
		r, b := float64(i)+warm, float64(i)-1.4*warm
		// Luma 0.299 r + 0.587 g + 0.114 b = i fixes green.
		g := (float64(i) - 0.299*r - 0.114*b) / 0.587
		p[i] = color.RGBA{clamp(r), clamp(g), clamp(b), 255}
	}
	return p
}

func clamp(v float64) uint8 { return uint8(math.Round(max(0, min(255, v)))) }
