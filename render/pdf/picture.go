package pdf

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"image/png"

	"codeberg.org/go-pdf/fpdf"

	"routwright/render"
)

// picture draws pixels. A picture that is there twice is kept once.
func (d *doc) picture(p render.Picture, height float64) {
	if d.err != nil || p.At.Empty() {
		return
	}
	p, err := d.widen(p)
	if err != nil {
		d.err = err
		return
	}
	sum := sha256.Sum256(p.PNG)
	name, opt := hex.EncodeToString(sum[:]), fpdf.ImageOptions{ImageType: "PNG"}
	if d.f.GetImageInfo(name) == nil {
		d.f.RegisterImageOptionsReader(name, opt, bytes.NewReader(p.PNG))
	}
	// The library measures downward from the top of the page.
	d.f.ImageOptions(name, p.At.Min.X, height-p.At.Max.Y, p.At.W(), p.At.H(), false, opt, 0, "")
	if err := d.f.Error(); err != nil {
		d.err = fmt.Errorf("picture %q: %w", p.Alt, err)
	}
}

// widen gives a picture white columns at its right until no other of the file is as
// wide. The library writes pictures in the order of their widths, and equal ones in
// any order: the bytes would differ from run to run.
func (d *doc) widen(p render.Picture) (render.Picture, error) {
	cfg, err := png.DecodeConfig(bytes.NewReader(p.PNG))
	if err != nil {
		return p, fmt.Errorf("picture %q: %w", p.Alt, err)
	}
	sum := sha256.Sum256(p.PNG)
	w := cfg.Width
	for ; ; w++ {
		if had, ok := d.widths[w]; !ok || had == sum {
			break
		}
	}
	if d.widths == nil {
		d.widths = map[int][32]byte{}
	}
	d.widths[w] = sum
	if w == cfg.Width {
		return p, nil
	}
	img, err := png.Decode(bytes.NewReader(p.PNG))
	if err != nil {
		return p, fmt.Errorf("picture %q: %w", p.Alt, err)
	}
	var b bytes.Buffer
	if err := png.Encode(&b, onWhite(img, w)); err != nil {
		return p, fmt.Errorf("picture %q: %w", p.Alt, err)
	}
	p.PNG = b.Bytes()
	p.At.Max.X = p.At.Min.X + p.At.W()*float64(w)/float64(cfg.Width)
	return p, nil
}

// onWhite returns a picture w pixels wide, white at its right.
func onWhite(img image.Image, w int) image.Image {
	from := img.Bounds()
	box := image.Rect(0, 0, w, from.Dy())
	if p, ok := img.(*image.Paletted); ok {
		out := image.NewPaletted(box, p.Palette)
		white := uint8(p.Palette.Index(color.White))
		for i := range out.Pix {
			out.Pix[i] = white
		}
		for y := range from.Dy() { // row by row: drawing would look every colour up
			row := p.Pix[p.PixOffset(from.Min.X, from.Min.Y+y):]
			copy(out.Pix[y*out.Stride:], row[:from.Dx()])
		}
		return out
	}
	out := image.NewRGBA(box)
	draw.Draw(out, box, image.NewUniform(color.White), image.Point{}, draw.Src)
	draw.Draw(out, from.Sub(from.Min), img, from.Min, draw.Src)
	return out
}
