//go:build verify

package verify

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"routwright/render/pdf/pdftest"
)

// setFiles returns the files of the set in ROUTWRIGHT_SET that match a pattern.
func setFiles(t *testing.T, pattern string) []string {
	t.Helper()
	dir := os.Getenv("ROUTWRIGHT_SET")
	if dir == "" {
		t.Skip("ROUTWRIGHT_SET names no set")
	}
	files, err := filepath.Glob(filepath.Join(dir, filepath.FromSlash(pattern)))
	if err != nil {
		t.Fatal(err)
	}
	if len(files) == 0 {
		t.Fatalf("%s holds no %s: make the set first", dir, pattern)
	}
	return files
}

func short(file string) string {
	return filepath.Join(filepath.Base(filepath.Dir(file)), filepath.Base(file))
}

// Every sheet is valid XML and shows its own numbers at full size; the first
// sheets in three programs, the others in one, for time.
func TestSetSVG(t *testing.T) {
	for i, f := range setFiles(t, "sheets/*.svg") {
		run(t, "xmllint", "--noout", "--nonet", f)
		s, err := readSVG(f)
		if err != nil {
			t.Error(err)
			continue
		}
		for k, r := range svgRenderers {
			if k == 0 || i < 3 {
				check(t, r, short(f), f, 1, s.h, s.lines)
			}
		}
	}
}

// Every PDF is sound, and its pages show the numbers that they hold: of each
// file the first page and three more in one program, the first in the others.
func TestSetPDF(t *testing.T) {
	for _, f := range setFiles(t, "print/*.pdf") {
		run(t, "qpdf", "--check", f)
		b, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		pages, err := pdftest.Pages(b)
		if err != nil {
			t.Errorf("%s: %v", f, err)
			continue
		}
		if !strings.Contains(pdftest.Catalog(b), "/PrintScaling /None") {
			t.Errorf("%s: does not ask for 100 %%", f)
		}
		report("%-34s %-12s %d pages, sound", short(f), "qpdf", len(pages))
		n := len(pages)
		for i, p := range pages {
			sampled := i == 0 || i == n/3 || i == 2*n/3 || i == n-1
			for k, r := range pdfRenderers {
				if sampled && (k == 0 || i == 0) {
					check(t, r, fmt.Sprintf("%s, page %d", short(f), i+1), f, i+1, p.H, readLines(p))
				}
			}
		}
	}
}

// Both readers find every DXF sound and agree on what it holds.
func TestSetDXF(t *testing.T) {
	files := append(setFiles(t, "cut/*.dxf"), setFiles(t, "drawing/*.dxf")...)
	a, b := readDXF(t, dxfReaders[0].script, files), readDXF(t, dxfReaders[1].script, files)
	for i, f := range files {
		text, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		r12 := strings.Contains(string(text), "AC1009")
		if !r12 && a[i].Units != 4 {
			t.Errorf("%s: units %d, want 4, mm", f, a[i].Units)
		}
		if filepath.Base(filepath.Dir(f)) == "cut" && strings.Contains(string(text), "\nTEXT\n") {
			t.Errorf("%s: words in a cut file", f)
		}
		bad := append(a[i].Errors, b[i].Errors...)
		if len(bad) > 0 {
			t.Errorf("%s: %.300s", f, strings.Join(bad, "; "))
		}
		worst, n := 0.0, 0
		for l, area := range a[i].Area {
			n += a[i].Closed[l]
			worst = math.Max(worst, math.Abs(b[i].Area[l]-area)/area)
			if a[i].Closed[l] != b[i].Closed[l] {
				t.Errorf("%s: layer %s has %d closed outlines in one reader, %d in the other", f, l, a[i].Closed[l], b[i].Closed[l])
			}
		}
		off := 0.0
		for k := range a[i].Min {
			off = math.Max(off, math.Max(math.Abs(a[i].Min[k]-b[i].Min[k]), math.Abs(a[i].Max[k]-b[i].Max[k])))
		}
		// GDAL makes chords of arcs, 0.25° each: along an edge of length l and radius R the
		// area is short by l·R·θ²/12 = 1.6e-6·l·R, so of a narrow piece with a flat curve by
		// more than the 1.6e-6 of a circle's area.
		if worst > 2e-5 || off > 0.005 {
			t.Errorf("%s: the readers differ by %.1e of an area, %.4f mm of the extents", f, worst, off)
		}
		report("%-34s %-12s %3d closed outlines: readers differ by %.1e of an area, %.4f mm; errors and repairs %d", short(f), "ezdxf, gdal", n, worst, off, len(bad))
	}
}
