//go:build verify

package verify

import (
	"bufio"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// The viewer in a browser: it shows the design, follows a save within seconds, keeps
// the last good sheet over an error, loads nothing from elsewhere, says nothing on
// the console, breaks no rule of accessibility, and fits a telephone.
func TestView(t *testing.T) {
	src, err := os.ReadFile("../../testdata/millrace.toml")
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	name, program := filepath.Join(dir, "guitar.toml"), filepath.Join(dir, "routwright")
	save := func(text string) {
		t.Helper()
		if err := os.WriteFile(name, []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	save(string(src))
	if out, err := exec.Command("go", "build", "-o", program, "routwright/cmd/routwright").CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	view := exec.Command(program, "view", name)
	out, err := view.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := view.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		_ = view.Process.Signal(os.Interrupt)
		if err := view.Wait(); err != nil {
			t.Errorf("interrupted, the viewer ends with %v", err)
		}
	})
	line, err := bufio.NewReader(out).ReadString('\n')
	if err != nil {
		t.Fatal(err)
	}
	home, _, _ := strings.Cut(line, " ")

	p, err := startBrowser(t).NewPage()
	if err != nil {
		t.Fatal(err)
	}
	must := func(err error) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
	}
	// until waits for an expression to hold.
	until := func(what, expression string) {
		t.Helper()
		for end := time.Now().Add(30 * time.Second); time.Now().Before(end); time.Sleep(50 * time.Millisecond) {
			var ok bool
			if must(p.Eval("Boolean("+expression+")", &ok)); ok {
				return
			}
		}
		t.Fatalf("%s: not within 30 s", what)
	}
	must(p.Size(1280, 800, 1))
	must(p.Open(home + "#pickup-tail"))
	until("a picture", `document.getElementById("picture").naturalWidth > 0`)
	if *update {
		time.Sleep(time.Second) // the picture is drawn
		b, err := p.Shot(0, 0, 1280, 800)
		must(err)
		must(os.WriteFile("../../testdata/pictures/view.png", b, 0o666))
	}
	var was string
	picture := `document.getElementById("picture").src`
	must(p.Eval(picture, &was))
	save(strings.Replace(string(src), "at = 42 ", "at = 44 ", 1))
	until("a new picture after a save", picture+` !== "`+was+`" && document.getElementById("picture").complete`)
	save(strings.Replace(string(src), "at = 42 ", "att = 42 ", 1))
	until("the error", `!document.getElementById("errors").hidden && document.getElementById("error-list").textContent.includes("guitar.toml:")`)
	var kept bool
	if must(p.Eval(`document.getElementById("picture").naturalWidth > 0`, &kept)); !kept {
		t.Error("the last good sheet is gone")
	}
	rules := axe(t)
	for _, w := range windows {
		must(p.Size(w, 844, 1))
		for _, scheme := range []string{"light", "dark"} {
			must(p.Media("screen", scheme))
			var wide int
			if must(p.Eval("document.documentElement.scrollWidth", &wide)); wide > w {
				t.Errorf("%d px: the page is %d wide", w, wide)
			}
			var bad []string
			must(p.Eval(rules+`;0`, nil))
			must(p.Eval(`axe.run({runOnly: ["wcag2a", "wcag2aa", "wcag21aa", "wcag22aa"]}).then(r => r.violations.map(v => v.id + ": " + v.nodes.map(n => n.target).join(" ")))`, &bad))
			for _, b := range bad {
				t.Errorf("%d px, %s: %s", w, scheme, b)
			}
		}
	}
	save(string(src))
	until("all well again", `document.getElementById("errors").hidden`)
	must(p.Open(home + "book"))
	var title string
	if must(p.Eval("document.title", &title)); !strings.Contains(title, "Millrace") {
		t.Errorf("the book is called %q", title)
	}
	for _, s := range p.Said() {
		t.Errorf("the console says %s", s)
	}
	for _, a := range p.Asked() {
		if !strings.HasPrefix(a, home) && !strings.HasPrefix(a, "data:") {
			t.Errorf("it asks for %s", a)
		}
	}
}
