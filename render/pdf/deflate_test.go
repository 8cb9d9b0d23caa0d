package pdf

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"testing"
	"time"

	"codeberg.org/go-pdf/fpdf"
	"golang.org/x/image/font/gofont/goregular"
)

// What is compressed afterwards is what the library writes when it compresses
// itself, byte for byte: pages, pictures with a palette, fonts, bookmarks.
func TestDeflatedIsTheLibrarysOwn(t *testing.T) {
	write := func(compressed bool, pages int) []byte {
		f := fpdf.New("P", "mm", "A4", "")
		f.SetCompression(compressed)
		f.SetCatalogSort(true)
		f.SetCreationDate(time.Unix(0, 0))
		f.SetModificationDate(time.Unix(0, 0))
		f.AddUTF8FontFromBytes("go", "", goregular.TTF)
		f.SetFont("go", "", 10)
		for i := range pages {
			f.AddPage()
			f.Bookmark("page", 0, 0)
			for k := range 400 * i {
				f.Text(float64(k%20)*9, float64(k/20)*9, "endstream endobj 1 0 obj")
				f.Line(0, float64(k), 100, float64(k*k))
			}
			f.RegisterImageOptionsReader("p", fpdf.ImageOptions{ImageType: "PNG"}, bytes.NewReader(palettePNG(t)))
			f.ImageOptions("p", 10, 10, 50, 50, false, fpdf.ImageOptions{}, 0, "")
		}
		var b bytes.Buffer
		if err := f.Output(&b); err != nil {
			t.Fatal(err)
		}
		return b.Bytes()
	}
	for _, pages := range []int{1, 2, 7} {
		for range 2 { // the second time with compressors that were used
			got, err := deflated(write(false, pages))
			if err != nil {
				t.Fatal(err)
			}
			if want := write(true, pages); !bytes.Equal(got, want) {
				t.Errorf("%d pages: %d bytes, the library writes %d", pages, len(got), len(want))
			}
		}
	}
}

// A file that is none is told, not panicked on.
func TestDeflatedRefuses(t *testing.T) {
	for _, s := range []string{"", "startxref", "startxref\n9\n", "xref\n0 2\nstartxref\n0\n", "%PDF\nxref\n0 900\n0000000000 65535 f \ntrailer\nstartxref\n5\n%%EOF", "%PDF\nxref\n0 2\n0000000000 65535 f \n9999999999 00000 n \ntrailer\nstartxref\n5\n%%EOF"} {
		if _, err := deflated([]byte(s)); err == nil {
			t.Errorf("%q passes", s)
		}
	}
}

// palettePNG returns a small picture with a palette.
func palettePNG(t *testing.T) []byte {
	t.Helper()
	img := image.NewPaletted(image.Rect(0, 0, 16, 16), color.Palette{color.Black, color.White, color.RGBA{200, 100, 50, 255}})
	for i := range img.Pix {
		img.Pix[i] = uint8(i % 3)
	}
	var b bytes.Buffer
	if err := png.Encode(&b, img); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}
