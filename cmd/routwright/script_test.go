package main

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

var update = flag.Bool("update", false, "rewrite what the scripts expect")

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){
		"routwright": func() { os.Exit(run(os.Args, os.Stdout, os.Stderr)) },
	})
}

// TestScripts runs the command as its users do. $DATA is the project's own test
// data.
func TestScripts(t *testing.T) {
	data, err := filepath.Abs("../../testdata")
	if err != nil {
		t.Fatal(err)
	}
	testscript.Run(t, testscript.Params{
		Dir:           "testdata/script",
		UpdateScripts: *update,
		Setup: func(e *testscript.Env) error {
			e.Setenv("DATA", data)
			return nil
		},
		Condition: func(cond string) (bool, error) {
			if cond == "root" {
				return os.Geteuid() == 0, nil
			}
			return false, fmt.Errorf("unknown condition %q", cond)
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){"code": cmdCode, "spoil": cmdSpoil, "replace": cmdReplace},
	})
}

// cmdCode runs a command and compares its exit code: code 2 routwright check x.
func cmdCode(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: code N command args...")
	}
	err := ts.Exec(args[1], args[2:]...)
	got := "0"
	if err != nil {
		type coder interface{ ExitCode() int }
		c, ok := err.(coder)
		if !ok {
			ts.Fatalf("%v", err)
		}
		got = string(rune('0' + c.ExitCode()))
	}
	if got != args[0] {
		ts.Fatalf("exit code %s, want %s", got, args[0])
	}
}

// cmdReplace writes a copy of a file with other words in it: replace FROM TO old new
// and so on.
func cmdReplace(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 4 || len(args)%2 != 0 {
		ts.Fatalf("usage: replace FROM TO old new [old new…]")
	}
	text := ts.ReadFile(args[0])
	for i := 2; i < len(args); i += 2 {
		old, to := strings.ReplaceAll(args[i], `\n`, "\n"), strings.ReplaceAll(args[i+1], `\n`, "\n")
		if !strings.Contains(text, old) {
			ts.Fatalf("%s has no %q", args[0], old)
		}
		text = strings.Replace(text, old, to, 1)
	}
	ts.Check(os.WriteFile(ts.MkAbs(args[1]), []byte(text), 0o666))
}

// cmdSpoil writes a file that no design file should be: spoil KIND FILE.
func cmdSpoil(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 2 {
		ts.Fatalf("usage: spoil empty|binary|huge FILE")
	}
	name := ts.MkAbs(args[1])
	switch args[0] {
	case "empty":
		ts.Check(os.WriteFile(name, nil, 0o666))
	case "binary":
		ts.Check(os.WriteFile(name, []byte{0x7f, 'E', 'L', 'F', 0, 1, 2, 0xff, 0xfe, 0}, 0o666))
	case "huge":
		f, err := os.Create(name)
		ts.Check(err)
		ts.Check(f.Truncate(200 << 20)) // sparse: 200 MB of nothing
		ts.Check(f.Close())
	default:
		ts.Fatalf("spoil %q", args[0])
	}
}
