package pdf

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"fmt"

	"codeberg.org/go-pdf/fpdf"

	"routwright/render"
)

// picture draws pixels. A picture that is there twice is kept once.
func (d *doc) picture(p render.Picture, height float64) {
	if d.err != nil || p.At.Empty() {
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
