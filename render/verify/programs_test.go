//go:build verify

package verify

import (
	"bufio"
	"bytes"
	"context"
	"fmt"
	"image"
	"image/png"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	_ "image/png"
)

// run starts a program of the outside and returns what it printed.
func run(t *testing.T, name string, args ...string) string {
	t.Helper()
	out, err := try(name, args...)
	if err != nil {
		t.Fatalf("%s %s: %v\n%.2000s", name, strings.Join(args, " "), err, out)
	}
	return out
}

func try(name string, args ...string) (string, error) {
	ctx, stop := context.WithTimeout(context.Background(), 3*time.Minute)
	defer stop()
	out, err := exec.CommandContext(ctx, name, args...).CombinedOutput()
	return string(out), err
}

// renderer makes a grey picture of a page at 600 dpi.
type renderer struct {
	name string
	make func(t *testing.T, file string, page int, out string)
}

// pdfRenderers are three programs that share no code.
var pdfRenderers = []renderer{
	// pdftoppm would snap lines to whole pixels.
	{"poppler", func(t *testing.T, file string, page int, out string) {
		n := fmt.Sprint(page)
		run(t, "pdftocairo", "-png", "-gray", "-r", fmt.Sprint(dpi), "-f", n, "-l", n, "-singlefile", file, strings.TrimSuffix(out, ".png"))
	}},
	{"mupdf", func(t *testing.T, file string, page int, out string) {
		run(t, "mutool", "draw", "-q", "-A", "8", "-r", fmt.Sprint(dpi), "-c", "gray", "-o", out, file, fmt.Sprint(page))
	}},
	{"ghostscript", func(t *testing.T, file string, page int, out string) {
		n := fmt.Sprint(page)
		run(t, "gs", "-q", "-dSAFER", "-dBATCH", "-dNOPAUSE", "-sDEVICE=pnggray", "-r"+fmt.Sprint(dpi),
			"-dGraphicsAlphaBits=4", "-dTextAlphaBits=4", "-dFirstPage="+n, "-dLastPage="+n, "-sOutputFile="+out, file)
	}},
}

// largestColour is the largest picture read in colour, pixels: librsvg makes no
// grey ones, and a body at 600 dpi in colour takes a gigabyte.
const largestColour = 60e6

// svgRenderers are three more. The browser prints, as a user would.
var svgRenderers = []renderer{
	{"librsvg", func(t *testing.T, file string, _ int, out string) {
		if s, err := readSVG(file); err == nil && s.w*s.h/(px*px) > largestColour {
			printed := strings.TrimSuffix(out, ".png") + ".pdf"
			run(t, "rsvg-convert", "--unlimited", "-f", "pdf", "-o", printed, file)
			run(t, "pdftocairo", "-png", "-gray", "-r", fmt.Sprint(dpi), "-singlefile", printed, strings.TrimSuffix(out, ".png"))
			return
		}
		run(t, "rsvg-convert", "--unlimited", "-d", fmt.Sprint(dpi), "-p", fmt.Sprint(dpi), "-b", "white", "-o", out, file)
	}},
	{"mupdf", func(t *testing.T, file string, _ int, out string) {
		run(t, "mutool", "draw", "-q", "-A", "8", "-r", fmt.Sprint(dpi), "-c", "gray", "-o", out, file, "1")
	}},
	{"chromium", func(t *testing.T, file string, _ int, out string) {
		printed := strings.TrimSuffix(out, ".png") + ".pdf"
		browserPrint(t, file, printed)
		run(t, "pdftocairo", "-png", "-gray", "-r", fmt.Sprint(dpi), "-singlefile", printed, strings.TrimSuffix(out, ".png"))
	}},
}

// browserPrint prints an SVG inlined in a page of its own size. As a bare file,
// as an <img> or with a margin it would come out scaled.
func browserPrint(t *testing.T, file, out string) {
	t.Helper()
	s, err := readSVG(file)
	if err != nil {
		t.Fatal(err)
	}
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if i := bytes.Index(text, []byte("<svg")); i > 0 {
		text = text[i:] // no XML declaration inside HTML
	}
	html := fmt.Sprintf("<!DOCTYPE html><meta charset=utf-8><style>@page { size: %gmm %gmm; margin: 0 } html, body { margin: 0 } svg { display: block }\n"+
		"section { width: %gmm; height: %gmm; overflow: hidden }</style><section>%s</section>\n", s.w, s.h, s.w, s.h, text)
	page := strings.TrimSuffix(out, ".pdf") + ".html"
	if err := os.WriteFile(page, []byte(html), 0o666); err != nil {
		t.Fatal(err)
	}
	run(t, "chromium", "--headless", "--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage", "--no-pdf-header-footer",
		"--user-data-dir="+t.TempDir(), "--print-to-pdf="+out, "file://"+page)
}

// picture renders a page and reads the picture.
func (r renderer) picture(t *testing.T, file string, page int) *image.Gray {
	t.Helper()
	out := filepath.Join(t.TempDir(), "page.png")
	r.make(t, file, page, out)
	img := decode(t, out)
	os.Remove(out) // some are large
	return img
}

// decode reads a PNG in grey.
func decode(t *testing.T, file string) *image.Gray {
	t.Helper()
	f, err := os.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	img, err := png.Decode(bufio.NewReaderSize(f, 1<<20))
	if err != nil {
		t.Fatal(err)
	}
	return grey(img)
}

// grey returns a picture's green, which is its grey: everything is black on
// white.
func grey(img image.Image) *image.Gray {
	b := img.Bounds()
	g := image.NewGray(image.Rect(0, 0, b.Dx(), b.Dy()))
	switch src := img.(type) {
	case *image.Gray:
		return src
	case *image.NRGBA:
		for i := range g.Pix {
			a := int(src.Pix[4*i+3])
			g.Pix[i] = uint8((int(src.Pix[4*i+1])*a + 255*(255-a)) / 255)
		}
	case *image.RGBA:
		for i := range g.Pix {
			g.Pix[i] = src.Pix[4*i+1] + 255 - src.Pix[4*i+3]
		}
	default:
		for y := 0; y < b.Dy(); y++ {
			for x := 0; x < b.Dx(); x++ {
				_, v, _, _ := img.At(b.Min.X+x, b.Min.Y+y).RGBA()
				g.Pix[y*g.Stride+x] = uint8(v >> 8)
			}
		}
	}
	return g
}

// report prints the figure of a check, and keeps it for the record.
func report(format string, a ...any) {
	fmt.Printf("verify: "+format+"\n", a...)
}

// file writes what w makes into a temporary file.
func file(t *testing.T, name string, w func(io.Writer) error) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	f, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := w(f); err != nil {
		t.Fatal(err)
	}
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
	return path
}
