package render

import (
	"fmt"
	"strings"
	"sync"
	"unicode"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// MinText is the smallest height of a capital letter on paper, mm.
const MinText = 2.2

// typeface holds what layout needs of one font: for each rune it can write, how
// wide it is and how far it reaches below and above the base line, in em.
type typeface struct {
	glyphs map[rune]glyph
	common [common]glyph // the same of the first runes; those it lacks have no advance
	cap    float64       // height of H, em
	box    glyph         // of the missing-glyph box
}

// common is how many runes are looked up without a map: those of Latin scripts.
const common = 0x250

// glyph returns the measures of a rune, and whether the font has it.
func (t *typeface) glyph(r rune) (glyph, bool) {
	if r >= 0 && r < common && t.common[r].advance > 0 {
		return t.common[r], true
	}
	g, ok := t.glyphs[r]
	return g, ok
}

type glyph struct{ advance, low, high float64 }

var (
	regular = sync.OnceValue(func() *typeface { return loadTypeface(goregular.TTF) })
	bold    = sync.OnceValue(func() *typeface { return loadTypeface(gobold.TTF) })
)

func face(isBold bool) *typeface {
	if isBold {
		return bold()
	}
	return regular()
}

// lastRune bounds the search for what a font can write; the embedded fonts hold
// nothing beyond the ligatures at U+FB0x.
const lastRune = 0xfb10

// loadTypeface reads the measures of an embedded font. The fonts are part of the
// program, so a font that does not parse is a fault of the build: the face is
// then empty and every text is shown by its code points.
func loadTypeface(ttf []byte) *typeface {
	t := &typeface{glyphs: map[rune]glyph{}, cap: 0.7}
	f, err := sfnt.Parse(ttf)
	if err != nil {
		return t
	}
	var buf sfnt.Buffer
	upem := float64(f.UnitsPerEm())
	ppem := fixed.I(int(f.UnitsPerEm())) // one pixel a unit: nothing is rounded
	read := func(x sfnt.GlyphIndex) (glyph, bool) {
		b, adv, err := f.GlyphBounds(&buf, x, ppem, font.HintingNone)
		k := 1 / (64 * upem)
		return glyph{float64(adv) * k, -float64(b.Max.Y) * k, -float64(b.Min.Y) * k}, err == nil
	}
	t.box, _ = read(0)
	for r := rune(' '); r < lastRune; r++ {
		x, err := f.GlyphIndex(&buf, r)
		if err != nil || x == 0 {
			continue
		}
		if g, ok := read(x); ok {
			t.glyphs[r] = g
			if r < common {
				t.common[r] = g
			}
		}
	}
	if m, err := f.Metrics(&buf, ppem, font.HintingNone); err == nil && m.CapHeight > 0 {
		t.cap = float64(m.CapHeight) / (64 * upem)
	}
	return t
}

// FontSize returns the em, as a format states it, of letters whose capitals are
// size mm high.
func FontSize(size float64, isBold bool) float64 { return size / face(isBold).cap }

// TextWidth returns how wide s is in mm when its capitals are size mm high, by
// the embedded font, without kerning.
func TextWidth(s string, size float64, isBold bool) float64 {
	t := face(isBold)
	var w float64
	for _, r := range s {
		g, ok := t.glyph(r)
		if !ok {
			g = t.box
		}
		w += g.advance
	}
	return w * size / t.cap
}

// Written returns s as the embedded font can write it: one line, control
// characters as spaces, and letters that the font lacks as U+XXXX, which are
// returned, too. Text that is not UTF-8 shows U+FFFD.
func Written(s string) (string, []rune) {
	t := regular()
	plain := true
	for _, r := range s {
		if _, ok := t.glyph(r); !ok || r == unicode.ReplacementChar {
			plain = false
			break
		}
	}
	if plain {
		return s, nil
	}
	var b strings.Builder
	var lacking []rune
	for _, r := range s {
		switch _, ok := t.glyph(r); {
		case unicode.IsControl(r) || unicode.IsSpace(r):
			b.WriteByte(' ')
		case !ok || r == unicode.ReplacementChar:
			fmt.Fprintf(&b, "U+%04X", r)
			lacking = append(lacking, r)
		default:
			b.WriteRune(r)
		}
	}
	return b.String(), lacking
}

// wrap breaks s at spaces into lines of at most width mm; a word that is wider
// is broken inside.
func wrap(s string, width, size float64, isBold bool) []string {
	var lines []string
	line := ""
	for _, w := range strings.Fields(s) {
		if line != "" && TextWidth(line+" "+w, size, isBold) <= width {
			line += " " + w
			continue
		}
		if line != "" {
			lines = append(lines, line)
		}
		for TextWidth(w, size, isBold) > width {
			head := cutWord(w, width, size, isBold)
			lines = append(lines, head)
			w = w[len(head):]
		}
		line = w
	}
	if line != "" {
		lines = append(lines, line)
	}
	return lines
}

// cutWord returns the longest beginning of w that fits, at least one rune.
func cutWord(w string, width, size float64, isBold bool) string {
	end := 0
	for i, r := range w {
		next := i + len(string(r))
		if end > 0 && TextWidth(w[:next], size, isBold) > width {
			break
		}
		end = next
	}
	return w[:end]
}
