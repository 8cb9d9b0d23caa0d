package main

import (
	"os/exec"
	"strings"
	"testing"
)

// allowed lists, for each layer, the layers of this module that it may import.
// An arrow goes down only: cmd → templates → render → geom.
var allowed = map[string][]string{
	"geom":          {},
	"geom/ingest":   {"geom"},
	"render":        {"geom"},
	"render/relief": {"geom"},
	"templates":     {"templates", "render", "render/relief", "geom", "geom/ingest"},
	"cmd":           {"cmd", "templates", "render", "render/relief", "render/", "geom", "geom/ingest"},
}

// layer returns the layer that a package of this module lies in. The format
// packages below render lie in a layer of their own each, "render/".
func layer(pkg string) string {
	p := strings.TrimPrefix(pkg, "routwright/")
	switch {
	case p == "geom" || p == "geom/ingest" || p == "render" || p == "render/relief":
		return p
	case strings.HasPrefix(p, "geom/"):
		return "geom"
	case strings.HasPrefix(p, "render/"):
		return "render/"
	}
	return strings.SplitN(p, "/", 2)[0]
}

func TestArrowsGoDownOnly(t *testing.T) {
	out, err := exec.Command("go", "list", "-f", `{{.ImportPath}}{{range .Deps}} {{.}}{{end}}`, "routwright/...").CombinedOutput()
	if err != nil {
		t.Fatalf("go list: %v\n%s", err, out)
	}
	seen := 0
	for _, line := range strings.Split(strings.TrimSpace(string(out)), "\n") {
		f := strings.Fields(line)
		from := layer(f[0])
		ok := map[string]bool{}
		for _, a := range allowed[from] {
			ok[a] = true
		}
		if from == "render/" {
			ok["render"], ok["geom"] = true, true
		}
		for _, dep := range f[1:] {
			if !strings.HasPrefix(dep, "routwright/") {
				continue
			}
			seen++
			if to := layer(dep); !ok[to] {
				t.Errorf("%s imports %s: an arrow from %q to %q goes up", f[0], dep, from, to)
			}
		}
	}
	if seen == 0 {
		t.Fatal("no import between packages of this module was seen: the test looks at nothing")
	}
}
