package main

import (
	"bytes"
	"embed"
	"encoding/json"
	"fmt"
	"net/http"
	"path/filepath"
	"strings"
	"sync"
	"time"

	"routwright/render"
	"routwright/render/html"
	"routwright/render/svg"
	"routwright/templates/book"
	"routwright/templates/check"
	"routwright/templates/job"
	"routwright/templates/sheet"
)

//go:embed page
var page embed.FS

// viewer holds what one design file made, and tells the browsers that watch it.
type viewer struct {
	name   string
	kept   *job.Kept
	memory job.Memory

	mu      sync.Mutex
	now     *scene
	waiting map[chan struct{}]bool
}

// scene is what one reading of the design made. While it is wrong, job and sheets
// are those of the last reading that was right.
type scene struct {
	version  int
	errors   []string
	took     time.Duration
	job      *job.Job // nil until the design was right once
	findings []check.Finding
	sheets   []render.Sheet

	drawn *drawn
}

// drawn is the pictures that were asked for so far, by the id of their sheet.
type drawn struct {
	mu  sync.Mutex
	svg map[string][]byte
}

// newViewer reads a design for the first time; kept is what a set made before holds
// of the wood, nil without one.
func newViewer(name string, kept *job.Kept) *viewer {
	v := &viewer{name: name, kept: kept, waiting: map[chan struct{}]bool{}}
	v.build()
	return v
}

// files returns the files that the picture depends on.
func (v *viewer) files() []string {
	out := []string{v.name}
	if j := v.scene().job; j != nil && j.Design.Body.File.Set() {
		out = append(out, filepath.Join(filepath.Dir(v.name), j.Design.Body.File.V))
	}
	return out
}

func (v *viewer) scene() *scene {
	v.mu.Lock()
	defer v.mu.Unlock()
	return v.now
}

// build reads the design again and tells everybody.
func (v *viewer) build() {
	before := v.scene()
	s := &scene{drawn: &drawn{svg: map[string][]byte{}}, version: 1}
	if before != nil {
		s.version = before.version + 1
	}
	start := time.Now()
	j, _, err := loadRound(v.kept, v.name, &v.memory)
	switch {
	case err == nil:
		s.job, s.findings = j, check.Run(j)
		warning := ""
		if w, ok := check.Worst(s.findings); ok && w == check.Stop {
			warning = stopWarning(s.findings)
		}
		s.sheets = sheet.All(j, warning)
	default:
		s.errors = strings.Split(err.Error(), "\n")
		if before != nil {
			s.job, s.findings, s.sheets, s.drawn = before.job, before.findings, before.sheets, before.drawn
		}
	}
	s.took = time.Since(start)
	v.mu.Lock()
	defer v.mu.Unlock()
	v.now = s
	for c := range v.waiting {
		select {
		case c <- struct{}{}:
		default:
		}
	}
}

// state is what the page shows, as it reads it.
type state struct {
	Version  int           `json:"version"`
	File     string        `json:"file"`
	Name     string        `json:"name"`
	Errors   []string      `json:"errors"`
	Findings []jsonFinding `json:"findings"`
	Sheets   []stateSheet  `json:"sheets"`
	Took     int64         `json:"took_ms"`
}

type stateSheet struct {
	ID    string `json:"id"`
	Title string `json:"title"`
}

func (v *viewer) state() state {
	s := v.scene()
	out := state{Version: s.version, File: v.name, Errors: s.errors, Findings: findingList(s.findings), Sheets: []stateSheet{}, Took: s.took.Milliseconds()}
	if out.Errors == nil {
		out.Errors = []string{}
	}
	if s.job != nil {
		out.Name = s.job.Name
	}
	for _, e := range s.sheets {
		out.Sheets = append(out.Sheets, stateSheet{e.ID, e.Title})
	}
	return out
}

// picture returns a sheet as SVG, or the picture of a finding; nil for an id that
// nothing has.
func (s *scene) picture(id string) ([]byte, error) {
	s.drawn.mu.Lock()
	defer s.drawn.mu.Unlock()
	if b, ok := s.drawn.svg[id]; ok {
		return b, nil
	}
	if s.job == nil {
		return nil, nil
	}
	find := func(list []render.Sheet) (render.Sheet, bool) {
		for _, e := range list {
			if e.ID == id {
				return e, true
			}
		}
		return render.Sheet{}, false
	}
	e, ok := find(s.sheets)
	if !ok && strings.HasPrefix(id, findingPrefix) {
		for i, f := range sheet.Findings(s.job, s.findings) {
			f.ID = fmt.Sprintf("%s%d", findingPrefix, i)
			if f.ID == id {
				e, ok = f, true
			}
		}
	}
	if !ok {
		return nil, nil
	}
	d, err := render.Layout(e, render.LayoutOptions{})
	if err != nil {
		return nil, err
	}
	var b bytes.Buffer
	if err := svg.Write(&b, d); err != nil {
		return nil, err
	}
	s.drawn.svg[id] = b.Bytes()
	return b.Bytes(), nil
}

// findingPrefix and its number from 0 are the id of a finding's picture.
const findingPrefix = "finding:"

// book returns the shop book as HTML; nil while there is none.
func (s *scene) book() ([]byte, error) {
	if s.job == nil {
		return nil, nil
	}
	warning := ""
	if w, ok := check.Worst(s.findings); ok && w == check.Stop {
		warning = stopWarning(s.findings)
	}
	set := newSet(nil)
	if err := set.pictures(s.job); err != nil {
		return nil, err
	}
	d, err := book.Of(book.Input{Job: s.job, Findings: s.findings, Sheets: s.sheets, Warning: warning,
		Front: set.file("pictures/front.png"), Back: set.file("pictures/back.png")})
	if err != nil {
		return nil, err
	}
	var b bytes.Buffer
	if err := html.Write(&b, d, svg.Write); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}

// pagePolicy lets the page load its own script, style and pictures, and nothing
// else. The book stands alone: style, pictures and the script that keeps its ticks are
// inside it.
const (
	pagePolicy = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"
	bookPolicy = "default-src 'none'; script-src 'unsafe-inline'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"
)

// handler serves the page at an address of this machine. A request under another
// name, or from a page of somebody else, is refused: a name that leads here from
// outside must not read the builder's files.
func (v *viewer) handler(address string) http.Handler {
	_, port, _ := strings.Cut(address, ":")
	hosts := map[string]bool{address: true, "localhost:" + port: true}
	mux := http.NewServeMux()
	for path, f := range map[string][2]string{
		"GET /{$}":      {"page/view.html", "text/html; charset=utf-8"},
		"GET /view.css": {"page/view.css", "text/css; charset=utf-8"},
		"GET /view.js":  {"page/view.js", "text/javascript; charset=utf-8"},
	} {
		mux.HandleFunc(path, func(w http.ResponseWriter, r *http.Request) {
			b, err := page.ReadFile(f[0])
			send(w, f[1], b, err)
		})
	}
	mux.HandleFunc("GET /favicon.ico", func(w http.ResponseWriter, r *http.Request) { w.WriteHeader(http.StatusNoContent) })
	mux.HandleFunc("GET /state", func(w http.ResponseWriter, r *http.Request) {
		b, err := json.Marshal(v.state())
		send(w, "application/json", b, err)
	})
	mux.HandleFunc("GET /sheet/{id}", func(w http.ResponseWriter, r *http.Request) {
		b, err := v.scene().picture(r.PathValue("id"))
		send(w, "image/svg+xml", b, err)
	})
	mux.HandleFunc("GET /book", func(w http.ResponseWriter, r *http.Request) {
		b, err := v.scene().book()
		w.Header().Set("Content-Security-Policy", bookPolicy)
		send(w, "text/html; charset=utf-8", b, err)
	})
	mux.HandleFunc("GET /events", v.events)
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		h.Set("Content-Security-Policy", pagePolicy)
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Referrer-Policy", "no-referrer")
		h.Set("Cross-Origin-Resource-Policy", "same-origin")
		h.Set("Cache-Control", "no-store")
		if !hosts[r.Host] {
			http.Error(w, "this address serves "+address+" alone", http.StatusMisdirectedRequest)
			return
		}
		if o := r.Header.Get("Origin"); o != "" && !hosts[strings.TrimPrefix(o, "http://")] {
			http.Error(w, "a page of another origin may not read this", http.StatusForbidden)
			return
		}
		mux.ServeHTTP(w, r)
	})
}

// send answers with what was made: an error, nothing there, or the bytes.
func send(w http.ResponseWriter, kind string, b []byte, err error) {
	switch {
	case err != nil:
		http.Error(w, err.Error(), http.StatusInternalServerError)
	case b == nil:
		http.Error(w, "there is no such thing", http.StatusNotFound)
	default:
		w.Header().Set("Content-Type", kind)
		_, _ = w.Write(b) // the browser has gone: nothing to do
	}
}

// keepAlive is how often a quiet stream sends a word, so that nothing between
// gives it up.
const keepAlive = 15 * time.Second

// events sends the version of the scene each time it changes.
func (v *viewer) events(w http.ResponseWriter, r *http.Request) {
	c := make(chan struct{}, 1)
	v.mu.Lock()
	v.waiting[c] = true
	v.mu.Unlock()
	defer func() {
		v.mu.Lock()
		delete(v.waiting, c)
		v.mu.Unlock()
	}()
	w.Header().Set("Content-Type", "text/event-stream")
	out := http.NewResponseController(w)
	tick := time.NewTicker(keepAlive)
	defer tick.Stop()
	word := fmt.Sprintf("data: %d\n\n", v.scene().version)
	for {
		if _, err := w.Write([]byte(word)); err != nil {
			return
		}
		if err := out.Flush(); err != nil {
			return
		}
		select {
		case <-c:
			word = fmt.Sprintf("data: %d\n\n", v.scene().version)
		case <-tick.C:
			word = ": still here\n\n"
		case <-r.Context().Done():
			return
		}
	}
}
