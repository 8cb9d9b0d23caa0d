//go:build verify

package verify

import (
	"bytes"
	_ "embed"
	"flag"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"net/url"
	"os"
	"path/filepath"
	"slices"
	"sort"
	"strconv"
	"strings"
	"testing"

	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"

	"routwright/geom"
	"routwright/render"
	"routwright/render/html"
	"routwright/render/svg"
	"routwright/render/verify/browser"
)

var update = flag.Bool("update", false, "take the pictures of the book in testdata/pictures anew")

// pageScript measures a page from within.
//
//go:embed page.js
var pageScript string

// Windows that a book is read in, CSS pixels: the narrowest that WCAG 2.2, 1.4.10
// Reflow asks for, a telephone, a tablet, a desk.
var windows = []int{320, 390, 768, 1280}

// papers to print on, inches, and how wide the text is on each between the margins of
// 12 mm that the book asks for, CSS pixels.
var papers = []struct {
	name string
	w, h float64
	text int
}{
	{"A4", 210 / 25.4, 297 / 25.4, 703},
	{"Letter", 8.5, 11, 725},
}

// A book printed by a browser has as many pages as the program's own PDF of it, less a
// third to half as many again: the two break lines and pages by rules of their own.
const fewestPages, mostPages = 2.0 / 3, 1.5

// leastLetters is the size of the smallest letters in a drawing on a screen, CSS
// pixels. Under 12 px text counts as too small to read on a telephone: Lighthouse,
// audit "Document uses legible font sizes".
const leastLetters = 12.0

// startBrowser runs the browser for one test.
func startBrowser(t *testing.T, env ...string) *browser.Browser {
	t.Helper()
	b, err := browser.Start("chromium", env...)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := b.Close(); err != nil {
			t.Error(err)
		}
	})
	return b
}

// axe is the source of the rules of accessibility that install.sh put there.
func axe(t *testing.T) string {
	t.Helper()
	b, err := os.ReadFile(filepath.FromSlash("../../testdata/verify/node_modules/axe-core/axe.min.js"))
	if err != nil {
		t.Fatalf("%v: run testdata/verify/install.sh first", err)
	}
	return string(b)
}

func address(file string) string {
	return (&url.URL{Scheme: "file", Path: filepath.ToSlash(file)}).String()
}

// reader holds one book in a page, and what is wrong with it, by check.
type reader struct {
	t     *testing.T
	p     *browser.Page
	file  string
	axe   string
	wrong map[string][]string
	notes []string
	pages int // on the first paper
}

func (r *reader) must(err error) {
	r.t.Helper()
	if err != nil {
		r.t.Fatalf("%s: %v", short(r.file), err)
	}
}

func (r *reader) found(check, where string, what ...string) {
	for _, w := range what {
		r.wrong[check] = append(r.wrong[check], strings.TrimSpace(where+" "+w))
	}
}

// ask runs one of the functions of page.js.
func (r *reader) ask(check, where, function string) {
	r.t.Helper()
	var bad []string
	r.must(r.p.Eval("look."+function+"()", &bad))
	r.found(check, where, bad...)
}

// open opens the book and brings what measures it.
func (r *reader) open() {
	r.t.Helper()
	r.must(r.p.Open(address(r.file)))
	r.must(r.p.Eval(r.axe+";0", nil))
	r.must(r.p.Eval(pageScript+";0", nil))
}

// read opens a book in a browser and returns what is wrong with it, by check: all
// checks, or only those named. The program's own PDF has pages pages; 0: it is not
// known.
func read(t *testing.T, b *browser.Browser, file string, pages int, only ...string) *reader {
	t.Helper()
	p, err := b.NewPage()
	if err != nil {
		t.Fatal(err)
	}
	defer p.Close()
	r := &reader{t: t, p: p, file: file, axe: axe(t), wrong: map[string][]string{}}
	wants := func(checks ...string) bool {
		return len(only) == 0 || slices.ContainsFunc(checks, func(c string) bool { return slices.Contains(only, c) })
	}
	r.must(p.Size(1280, 900, 1))
	r.must(p.Media("screen", "light"))
	r.open()
	if wants("structure") {
		r.ask("structure", "", "structure")
	}
	if wants("width", "clipped", "targets", "axe", "letters") {
		for _, w := range windows {
			r.window(w)
		}
	}
	if wants("contrast") {
		r.must(p.Media("screen", "dark"))
		r.ask("contrast", "where dark is preferred:", "contrast")
		r.must(p.Media("print", "light"))
		r.ask("contrast", "in print:", "contrast")
	}
	if wants("print width") {
		r.must(p.Media("print", "light"))
		for _, q := range papers {
			r.must(p.Size(q.text, 1000, 1))
			r.ask("print width", q.name+":", "width")
			r.ask("print width", q.name+":", "clipped")
		}
	}
	r.must(p.Size(1280, 900, 1))
	r.must(p.Media("", "light"))
	// What the page said and asked for so far, before it is opened again.
	r.found("quiet", "", p.Said()...)
	for _, q := range p.Asked() {
		if u, _, _ := strings.Cut(q, "#"); !strings.HasPrefix(q, "data:") && u != address(file) {
			r.found("quiet", "", "asks for "+q)
		}
	}
	if wants("pages", "page breaks", "ticks", "scripts off") {
		printed := r.print(pages)
		if wants("ticks") {
			r.ticks(printed)
		}
		if wants("scripts off") {
			r.without(printed)
		}
	}
	return r
}

// window looks at the book in a window of one width.
func (r *reader) window(w int) {
	r.t.Helper()
	at := fmt.Sprintf("%d px:", w)
	r.must(r.p.Size(w, 900, 1))
	r.ask("width", at, "width")
	r.ask("clipped", at, "clipped")
	r.ask("clipped", at, "overlaid")
	r.ask("targets", at, "targets")
	r.ask("contrast", at, "contrast")
	if w == windows[1] || w == windows[len(windows)-1] { // axe takes seconds
		r.ask("axe", at, "axe")
	}
	var letters []struct {
		Name    string
		PX      float64
		Scrolls bool
	}
	r.must(r.p.Eval("look.letters()", &letters))
	least, n := 1e9, 0
	for _, l := range letters {
		least = min(least, l.PX)
		if l.Scrolls {
			n++
		}
		if l.PX < leastLetters-0.1 {
			r.found("letters", at, fmt.Sprintf("%s has letters of %.1f px", l.Name, l.PX))
		}
	}
	if len(letters) > 0 {
		r.notes = append(r.notes, fmt.Sprintf("%d px: letters of %.1f px, %d of %d drawings scroll", w, least, n, len(letters)))
	}
}

// print prints the book on both papers and returns the file of the first.
func (r *reader) print(pages int) string {
	r.t.Helper()
	first := ""
	for _, q := range papers {
		out := r.pdf(q.w, q.h)
		run(r.t, "qpdf", "--check", out)
		n, err := strconv.Atoi(strings.TrimSpace(run(r.t, "qpdf", "--show-npages", out)))
		r.must(err)
		if first == "" {
			first, r.pages = out, n
		}
		if pages > 0 && (float64(n) < fewestPages*float64(pages) || float64(n) > mostPages*float64(pages)) {
			r.found("pages", q.name+":", fmt.Sprintf("%d pages, where the program's own PDF has %d", n, pages))
		}
		full := 0.0
		for i, low := range ink(r.t, out) {
			if low == 0 {
				r.found("pages", q.name+":", fmt.Sprintf("page %d is empty", i+1))
			}
			full += low / float64(n)
		}
		g := readTags(r.t, out)
		r.found("page breaks", q.name+":", g.parted()...)
		var pictures int
		r.must(r.p.Eval("document.images.length", &pictures))
		if f := g.pictures(); f != pictures {
			r.found("page breaks", q.name+":", fmt.Sprintf("%d pictures in print, %d on the screen", f, pictures))
		}
		r.notes = append(r.notes, fmt.Sprintf("%s: %d pages (own PDF %d), ink down to %.0f %% on average", q.name, n, pages, 100*full))
	}
	return first
}

func (r *reader) pdf(w, h float64) string {
	r.t.Helper()
	b, err := r.p.Print(w, h)
	r.must(err)
	out := filepath.Join(r.t.TempDir(), "printed.pdf")
	r.must(os.WriteFile(out, b, 0o666))
	return out
}

// ticks ticks boxes, closes the book and opens it again: the ticks are there, and the
// printed boxes are empty all the same.
func (r *reader) ticks(printed string) {
	r.t.Helper()
	var n int
	r.must(r.p.Eval(`(() => { const b = document.querySelectorAll("input[type=checkbox]"); for (let i = 0; 3 * i < b.length; i++) b[3 * i].click(); return b.length })()`, &n))
	if n == 0 {
		return
	}
	r.must(r.p.Open("about:blank"))
	r.must(r.p.Open(address(r.file)))
	var kept []int
	r.must(r.p.Eval(`[...document.querySelectorAll("input[type=checkbox]")].flatMap((b, i) => b.checked ? [i] : [])`, &kept))
	var want []int
	for i := 0; i < n; i += 3 {
		want = append(want, i)
	}
	if !slices.Equal(kept, want) {
		r.found("ticks", "", fmt.Sprintf("%d boxes ticked, %d after the page was left and opened again", len(want), len(kept)))
	}
	r.must(r.p.Eval(`document.querySelectorAll("input[type=checkbox]").forEach(b => b.checked = true)`, nil))
	if !samePages(r.t, printed, r.pdf(papers[0].w, papers[0].h)) {
		r.found("ticks", "", "the page prints otherwise when its boxes are ticked")
	}
}

// without reads the book with scripts forbidden: it prints the same words.
func (r *reader) without(printed string) {
	r.t.Helper()
	r.must(r.p.Scripts(false))
	r.must(r.p.Open(address(r.file)))
	words := run(r.t, "pdftotext", "-layout", r.pdf(papers[0].w, papers[0].h), "-")
	if words != run(r.t, "pdftotext", "-layout", printed, "-") {
		r.found("scripts off", "", "the page prints other words without scripts")
	}
	r.must(r.p.Scripts(true))
}

// samePages compares the first pages of two PDFs, coarsely. They hold boxes of lists
// and of tables.
func samePages(t *testing.T, a, b string) bool {
	t.Helper()
	var pages [2][][]byte
	for i, f := range []string{a, b} {
		base := filepath.Join(t.TempDir(), "p")
		run(t, "pdftocairo", "-png", "-gray", "-r", "40", "-l", "4", f, base)
		names, _ := filepath.Glob(base + "*.png")
		sort.Strings(names)
		for _, n := range names {
			pages[i] = append(pages[i], decode(t, n).Pix)
		}
	}
	return slices.EqualFunc(pages[0], pages[1], bytes.Equal)
}

// books returns every book of the sets to look at, the one asked for first.
func books(t *testing.T) []string {
	t.Helper()
	files := setFiles(t, "book.html")
	if dir := os.Getenv("ROUTWRIGHT_SETS"); dir != "" {
		more, err := filepath.Glob(filepath.Join(dir, "*", "book.html"))
		if err != nil {
			t.Fatal(err)
		}
		if len(more) == 0 {
			t.Fatalf("%s holds no set with a book: make them first", dir)
		}
		files = append(files, more...)
	}
	return files
}

// Every book reads well in a browser: on a telephone and a desk, printed, in the dark,
// without scripts, for those who hear it, and without a word from the console or to
// the network.
func TestBook(t *testing.T) {
	b := startBrowser(t)
	for _, f := range books(t) {
		t.Run(short(f), func(t *testing.T) {
			own := filepath.Join(filepath.Dir(f), "print", "book.pdf")
			pages, err := strconv.Atoi(strings.TrimSpace(run(t, "qpdf", "--show-npages", own)))
			if err != nil {
				t.Fatal(err)
			}
			r := read(t, b, f, pages)
			for check, bad := range r.wrong {
				for i, w := range bad {
					if i == 12 {
						t.Errorf("%s: and %d more", check, len(bad)-i)
						break
					}
					t.Errorf("%s: %s", check, w)
				}
			}
			for _, n := range r.notes {
				report("%-34s %-12s %s", short(f), "chromium", n)
			}
		})
	}
}

// small is a document with one of everything that a book has.
func small(t *testing.T) []byte {
	t.Helper()
	d, err := render.Layout(render.Sheet{ID: "plate", Groups: []render.Group{{ID: "plate", Shapes: []render.Shape{{Path: geom.Rect(geom.Pt(0, 0), 120, 60)}}}},
		Dims: []render.Dim{{A: geom.Pt(0, 0), B: geom.Pt(120, 0), Text: "120 mm"}}}, render.LayoutOptions{Bare: true})
	if err != nil {
		t.Fatal(err)
	}
	var long render.Table
	long.Caption, long.Head, long.Number = "Holes", []string{"hole", "drill, mm", "where"}, []bool{true, true}
	for i := range 60 {
		long.Rows = append(long.Rows, []string{fmt.Sprint(i + 1), "3.5", "on the bass side of the middle line"})
	}
	picture := render.Figure{Alt: "A plate, 120 by 60 mm.", Drawing: &d, Caption: "Full size."}
	var para render.Para
	for i := range 40 {
		para += render.Para(fmt.Sprintf("Line up the plate with the mark, then turn it over, %d. ", i))
	}
	doc := render.Document{Title: "Plate", Lead: "In mm.", Sections: []render.Section{
		{ID: "one", Title: "First", Blocks: []render.Block{para, render.Caution{Word: "Stop", Text: "Eyes."}, picture},
			Sections: []render.Section{
				{ID: "drill", Title: "Drill", Blocks: []render.Block{render.List{Tick: true, Items: []string{"Mark.", "Drill.", "Turn over.", "Drill."}}, long}},
				{ID: "saw", Title: "Saw", Blocks: []render.Block{render.Facts{{Name: "Face", Value: "front"}}, picture, para, picture, para}}}},
		{ID: "two", Title: "Second", NewPage: true, Blocks: []render.Block{para}},
	}}
	var b bytes.Buffer
	if err := html.Write(&b, doc, svg.Write); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// Each check finds a page that was spoilt for it. The page that nothing was done to
// passes.
func TestBookChecksFind(t *testing.T) {
	b := startBrowser(t)
	whole := small(t)
	file := filepath.Join(t.TempDir(), "small.html")
	if err := os.WriteFile(file, whole, 0o666); err != nil {
		t.Fatal(err)
	}
	sound := read(t, b, file, 0)
	for check, bad := range sound.wrong {
		t.Errorf("nothing done: %s: %s", check, strings.Join(bad, "\n"))
	}
	for _, c := range []struct {
		check, what string
		old, new    string
	}{
		{"quiet", "a script warns", "</main>", "</main><script>console.warn('x')</script>"},
		{"quiet", "a script fails", "</main>", "</main><script>nothing.here()</script>"},
		{"quiet", "a picture from the network", "</main>", `</main><img alt="a" src="https://example.invalid/a.png"/>`},
		{"quiet", "a style beside the file", "</head>", `<link rel="stylesheet" href="a.css"/></head>`},
		{"width", "a line that does not break", "<main>", `<main><p style="white-space:nowrap">` + strings.Repeat("wood ", 90) + "</p>"},
		{"width", "a box that does not scroll", ".wide { overflow-x: auto; }", ""},
		{"clipped", "words cut off", "<main>", `<main><p style="overflow:hidden;height:9px">cut off</p>`},
		{"clipped", "words out of their box", "<main>", `<main><div style="width:3rem"><p style="white-space:nowrap">out of the box</p></div>`},
		{"clipped", "words on words", "<main>", `<main><p style="margin-bottom:-1.4rem">over the next</p><p>under the last</p>`},
		{"targets", "a small button", "<main>", `<main><button style="min-height:0;height:14px;font-size:8px;padding:0">a</button>`},
		{"axe", "a list of no points", "<main>", "<main><ul><p>a</p></ul>"},
		{"axe", "grey on white", "color: #1c1c1c;", "color: #999;"},
		{"contrast", "dark on dark", ":root {", "@media (prefers-color-scheme: dark) { body { color: #777 !important; } } :root {"},
		{"contrast", "grey in print", "line-height: 1.4; color: #000;", "line-height: 1.4; color: #999;"},
		{"structure", "two first headings", "<main>", "<main><h1>again</h1>"},
		{"structure", "a heading left out", "<h3>Saw</h3>", "<h5>Saw</h5>"},
		{"structure", "a picture without words", `<img alt="A plate, 120 by 60 mm."`, `<img alt=""`},
		{"structure", "a picture that does not show", "<main>", `<main><img alt="a" src="data:image/png;base64,AAAA"/>`},
		{"structure", "a table without caption", "<caption>Holes</caption>", ""},
		{"structure", "a head of nothing", `scope="row"`, ""},
		{"structure", "a box without words", "<span>Mark.</span>", ""},
		{"structure", "no language", `lang="en"`, ""},
		{"structure", "no title", "<title>Plate</title>", "<title></title>"},
		{"structure", "a link to nowhere", `href="#one"`, `href="#eleven"`},
		{"structure", "an id twice", `id="saw"`, `id="drill"`},
		{"letters", "pictures as wide as the window", "min-width: var(--legible, 0);", ""},
		{"print width", "a line too wide for paper", "<main>", `<main><p style="white-space:nowrap">` + strings.Repeat("wood ", 60) + "</p>"},
		{"pages", "four times the pages", "@media print {", "@media print { p, li, td { line-height: 9 !important; }"},
		{"pages", "an empty page", "<main>", `<main><div style="break-after:page;height:1px"></div><div style="break-before:page;height:1px;break-after:page"></div>`},
		{"page breaks", "pictures cut", "figure img { max-height: 205mm;", "figure, figure * { break-inside: auto !important; } figure img { width: auto !important; height: 600mm; max-height: none !important;"},
		{"page breaks", "headings left behind", "h2, h3, h4, caption, thead { break-after: avoid; }", "h3 { break-after: page !important; }"},
		{"page breaks", "rows cut", "figure, tr, caption", "td { font-size: 50pt; } tr { break-inside: auto !important; } figure, caption"},
		{"ticks", "no script", "<script>", `<script type="text/plain">`},
		{"ticks", "ticked boxes in print", "appearance: none;", ""},
		{"scripts off", "words from a script", "</main>", "</main><script>document.querySelector('main').append('words')</script>"},
	} {
		t.Run(c.check+", "+c.what, func(t *testing.T) {
			text := strings.ReplaceAll(string(whole), c.old, c.new)
			if text == string(whole) {
				t.Fatalf("the page has no %q", c.old)
			}
			file := filepath.Join(t.TempDir(), "spoilt.html")
			if err := os.WriteFile(file, []byte(text), 0o666); err != nil {
				t.Fatal(err)
			}
			if bad := read(t, b, file, sound.pages, c.check).wrong[c.check]; len(bad) == 0 {
				t.Error("not found")
			} else {
				t.Log(bad[0])
			}
		})
	}
}

// What a picture for the README may take, bytes.
const pictureBytes = 150 << 10

// Pictures of the first book's first page and of its first step with a drawing and two
// tables, in the font that a book asks for first; -update writes them into
// testdata/pictures.
func TestBookPictures(t *testing.T) {
	file := setFiles(t, "book.html")[0]
	b := startBrowser(t, "XDG_DATA_HOME="+goFonts(t))
	p, err := b.NewPage()
	if err != nil {
		t.Fatal(err)
	}
	r := &reader{t: t, p: p, file: file, axe: axe(t)}
	r.must(p.Size(1000, 1250, 1))
	r.must(p.Media("screen", "light"))
	r.open()
	var step struct{ X, Y, Width, Height float64 }
	r.must(p.Eval(`(() => {
		const s = document.querySelector("#step-rout-recesses") || [...document.querySelectorAll("section section")].find(s => s.querySelector("figure") && s.querySelectorAll("table").length > 1);
		if (!s) return {};
		const r = s.getBoundingClientRect();
		return {x: 0, y: r.y + scrollY - 16, width: 1000, height: r.height + 32};
	})()`, &step))
	if step.Height == 0 {
		t.Fatal("the book has no step with a drawing and two tables")
	}
	for _, c := range []struct {
		name       string
		x, y, w, h float64
	}{{"book.png", 0, 0, 1000, 1250}, {"step.png", step.X, step.Y, step.Width, step.Height}} {
		shot, err := p.Shot(c.x, c.y, c.w, c.h)
		r.must(err)
		shot = sixteen(t, shot)
		report("%-34s %-12s %.0f × %.0f px, %d kB", c.name, "chromium", c.w, c.h, len(shot)>>10)
		if len(shot) > pictureBytes {
			t.Errorf("%s takes %d bytes, more than %d", c.name, len(shot), pictureBytes)
		}
		if *update {
			r.must(os.WriteFile(filepath.Join("..", "..", "testdata", "pictures", c.name), shot, 0o666))
		}
	}
}

// goFonts writes the Go fonts where fontconfig looks for them under XDG_DATA_HOME.
func goFonts(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	fonts := filepath.Join(dir, "fonts")
	if err := os.Mkdir(fonts, 0o777); err != nil {
		t.Fatal(err)
	}
	for name, ttf := range map[string][]byte{"Go-Regular.ttf": goregular.TTF, "Go-Bold.ttf": gobold.TTF} {
		if err := os.WriteFile(filepath.Join(fonts, name), ttf, 0o666); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

// sixteen returns a PNG with 16 shades of grey: a book is black on white but for its
// links.
func sixteen(t *testing.T, in []byte) []byte {
	t.Helper()
	img, err := png.Decode(bytes.NewReader(in))
	if err != nil {
		t.Fatal(err)
	}
	var shades color.Palette
	for i := range 16 {
		shades = append(shades, color.Gray{Y: uint8(17 * i)})
	}
	out := image.NewPaletted(img.Bounds(), shades)
	draw.Draw(out, out.Bounds(), img, img.Bounds().Min, draw.Src)
	var b bytes.Buffer
	if err := (&png.Encoder{CompressionLevel: png.BestCompression}).Encode(&b, out); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}
