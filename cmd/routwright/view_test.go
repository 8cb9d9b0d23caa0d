package main

import (
	"bufio"
	"context"
	"encoding/json"
	"io"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// viewing starts the viewer on a copy of the demo and returns its address and
// the copy's name.
func viewing(t *testing.T) (address, name string) {
	t.Helper()
	src, err := os.ReadFile(demo)
	if err != nil {
		t.Fatal(err)
	}
	name = filepath.Join(t.TempDir(), "guitar.toml")
	if err := os.WriteFile(name, src, 0o666); err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(context.Background())
	ready, done := make(chan string, 1), make(chan error, 1)
	go func() { done <- serveView(ctx, newViewer(name, nil), 0, func(a string) { ready <- a }) }()
	t.Cleanup(func() {
		stop()
		if err := <-done; err != nil && err != http.ErrServerClosed {
			t.Error(err)
		}
	})
	select {
	case address = <-ready:
	case err := <-done:
		done <- err
		t.Fatal(err)
	}
	return address, name
}

func get(t *testing.T, req *http.Request) (*http.Response, string) {
	t.Helper()
	r, err := http.DefaultClient.Do(req)
	if err != nil {
		t.Fatal(err)
	}
	defer r.Body.Close()
	b, err := io.ReadAll(r.Body)
	if err != nil {
		t.Fatal(err)
	}
	return r, string(b)
}

func request(t *testing.T, method, url string) *http.Request {
	t.Helper()
	r, err := http.NewRequest(method, url, nil)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func stateOf(t *testing.T, address string) (s state) {
	t.Helper()
	_, b := get(t, request(t, "GET", address+"state"))
	if err := json.Unmarshal([]byte(b), &s); err != nil {
		t.Fatal(err)
	}
	return s
}

// The page is for this machine under its own name alone, and may load nothing
// from elsewhere.
func TestViewIsForThisMachineAlone(t *testing.T) {
	address, _ := viewing(t)
	host, err := net.ResolveTCPAddr("tcp", strings.Trim(strings.TrimPrefix(address, "http:"), "/"))
	if err != nil || !host.IP.IsLoopback() {
		t.Fatalf("listens on %v, %v", host, err)
	}
	for _, tt := range []struct {
		path, host, origin string
		method             string
		want               int
	}{
		{path: "", want: 200},
		{path: "view.js", want: 200},
		{path: "view.css", want: 200},
		{path: "state", want: 200},
		{path: "sheet/layout", want: 200},
		{path: "sheet/finding:0", want: 200},
		{path: "book", want: 200},
		{path: "sheet/nothing", want: 404},
		{path: "sheet/..%2F..%2Fgo.mod", want: 404},
		{path: "page/view.js", want: 404},
		{path: "state", host: "evil.example", want: 421},
		{path: "state", host: "evil.example:80", want: 421},
		{path: "state", origin: "http://evil.example", want: 403},
		{path: "state", origin: "null", want: 403},
		{path: "state", method: "POST", want: 405},
	} {
		m := tt.method
		if m == "" {
			m = "GET"
		}
		req := request(t, m, address+tt.path)
		if tt.host != "" {
			req.Host = tt.host
		}
		if tt.origin != "" {
			req.Header.Set("Origin", tt.origin)
		}
		r, body := get(t, req)
		if r.StatusCode != tt.want {
			t.Errorf("%+v: %s %.80s", tt, r.Status, body)
		}
		if p := r.Header.Get("Content-Security-Policy"); !strings.HasPrefix(p, "default-src 'none'") || r.Header.Get("X-Content-Type-Options") != "nosniff" {
			t.Errorf("%+v: policy %q", tt, p)
		}
	}
	// Nothing in the page that its own policy would refuse.
	for _, f := range []string{"view.html", "view.js", "view.css"} {
		b, err := page.ReadFile("page/" + f)
		if err != nil {
			t.Fatal(err)
		}
		for _, bad := range []string{"style=", "onclick", "http://", "https://", "innerHTML"} {
			if strings.Contains(string(b), bad) {
				t.Errorf("%s holds %q", f, bad)
			}
		}
	}
}

// A save is seen, however the editor does it: written in place, or by renaming a
// new file over the old one. A wrong design leaves the sheets and names the errors.
func TestViewFollowsTheFile(t *testing.T) {
	address, name := viewing(t)
	r, err := http.Get(address + "events")
	if err != nil {
		t.Fatal(err)
	}
	defer r.Body.Close()
	versions := make(chan string, 16)
	go func() {
		for s := bufio.NewScanner(r.Body); s.Scan(); {
			if v, ok := strings.CutPrefix(s.Text(), "data: "); ok {
				versions <- v
			}
		}
	}()
	next := func(what string) {
		t.Helper()
		select {
		case <-versions:
		case <-time.After(20 * time.Second):
			t.Fatalf("%s: nothing is told", what)
		}
	}
	next("the first")
	first := stateOf(t, address)
	_, layout := get(t, request(t, "GET", address+"sheet/layout"))
	src, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	with := func(old, new string) []byte {
		if !strings.Contains(string(src), old) {
			t.Fatalf("the demo has no %q", old)
		}
		return []byte(strings.Replace(string(src), old, new, 1))
	}
	if err := os.WriteFile(name, with("at = 42 ", "at = 44 "), 0o666); err != nil {
		t.Fatal(err)
	}
	next("written in place")
	if _, moved := get(t, request(t, "GET", address+"sheet/layout")); moved == layout {
		t.Error("a moved pickup does not show")
	}
	beside := filepath.Join(filepath.Dir(name), ".guitar.toml.new")
	if err := os.WriteFile(beside, src, 0o666); err != nil {
		t.Fatal(err)
	}
	if err := os.Rename(beside, name); err != nil {
		t.Fatal(err)
	}
	next("renamed over")
	if _, back := get(t, request(t, "GET", address+"sheet/layout")); back != layout {
		t.Error("the old design does not show again")
	}
	if err := os.WriteFile(name, with("at = 42 ", "att = 42 "), 0o666); err != nil {
		t.Fatal(err)
	}
	next("wrong")
	s := stateOf(t, address)
	if len(s.Errors) == 0 || !strings.Contains(s.Errors[0], "guitar.toml:") || len(s.Sheets) != len(first.Sheets) {
		t.Errorf("a wrong design: errors %q, %d sheets", s.Errors, len(s.Sheets))
	}
	if _, kept := get(t, request(t, "GET", address+"sheet/layout")); kept != layout {
		t.Error("the last good sheet is not kept")
	}
	if err := os.WriteFile(name, src, 0o666); err != nil {
		t.Fatal(err)
	}
	next("right again")
	if s := stateOf(t, address); len(s.Errors) != 0 || s.Name != first.Name {
		t.Errorf("right again: %+v", s.Errors)
	}
}

// A design that is wrong from the start is shown as such.
func TestViewOfAWrongDesign(t *testing.T) {
	name := filepath.Join(t.TempDir(), "wrong.toml")
	if err := os.WriteFile(name, []byte("design = 1\nname = 7\n"), 0o666); err != nil {
		t.Fatal(err)
	}
	v := newViewer(name, nil)
	if s := v.state(); len(s.Errors) == 0 || len(s.Sheets) != 0 || s.Name != "" {
		t.Errorf("%+v", s)
	}
	if b, err := v.scene().picture("layout"); b != nil || err != nil {
		t.Errorf("%d bytes, %v", len(b), err)
	}
	if b, err := v.scene().book(); b != nil || err != nil {
		t.Errorf("%d bytes, %v", len(b), err)
	}
}
