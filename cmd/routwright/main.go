// Command routwright turns one hand-edited design file for a solid-body electric
// guitar into full-scale templates, tables and checks, and proves each template
// by simulating the cut.
package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"strings"

	"github.com/urfave/cli/v2"
)

// version is set by the build: -ldflags "-X main.version=…".
var version = "0.1.0"

// Exit codes.
const (
	exitDone   = 0 // all is well
	exitStop   = 1 // a check says stop
	exitUsage  = 2 // the design or the command line is wrong
	exitFailed = 3 // a file could not be read or written
)

func main() {
	roomy()
	os.Exit(run(os.Args, os.Stdout, os.Stderr))
}

// run does one command and returns its exit code. Data goes to stdout, errors
// to stderr.
func run(args []string, stdout, stderr io.Writer) int {
	app := newApp(stdout, stderr)
	err := app.Run(flagsFirst(app, args))
	if err == nil {
		return exitDone
	}
	if msg := err.Error(); msg != "" {
		fmt.Fprintln(stderr, "routwright: "+strings.ReplaceAll(msg, "\n", "\nroutwright: "))
	}
	var coded codedError
	if errors.As(err, &coded) {
		return coded.code
	}
	return exitUsage
}

// codedError is an error with the exit code it asks for.
type codedError struct {
	code int
	err  error
}

func (e codedError) Error() string { return e.err.Error() }
func (e codedError) Unwrap() error { return e.err }

// failed marks an error of reading or writing a file.
func failed(err error) error {
	if err == nil {
		return nil
	}
	return codedError{exitFailed, err}
}

// errStop ends a command whose findings say stop; the findings are printed
// already.
var errStop = codedError{exitStop, errors.New("")}

func newApp(stdout, stderr io.Writer) *cli.App {
	return &cli.App{
		Name:                 "routwright",
		Usage:                "templates, jigs, tables and checks for a solid-body electric guitar, from one design file",
		Version:              version,
		Writer:               stdout,
		ErrWriter:            stderr,
		EnableBashCompletion: true,
		Suggest:              true,
		HideHelpCommand:      true,
		ExitErrHandler:       func(*cli.Context, error) {}, // main alone exits
		OnUsageError:         usageError,
		CommandNotFound:      nil,
		Action: func(c *cli.Context) error {
			if c.Args().Present() {
				return unknownCommand(c)
			}
			return cli.ShowAppHelp(c)
		},
		Commands: []*cli.Command{
			newCommand(), checkCommand(), makeCommand(), viewCommand(), fretsCommand(), keyCommand(), schemaCommand(), completionCommand(),
		},
		Description: "Start with:  routwright new guitar.toml\nthen         routwright check guitar.toml\nand          routwright make guitar.toml -o guitar\n\n" +
			"Exit codes: 0 done, 1 a check says stop, 2 the design or the command line is wrong, 3 a file could not be read or written.",
	}
}

// usageError keeps the library from printing help on stdout.
func usageError(c *cli.Context, err error, _ bool) error {
	name := c.App.Name
	if c.Command != nil && c.Command.Name != "" && c.Command.Name != name {
		name += " " + c.Command.Name
	}
	return codedError{exitUsage, fmt.Errorf("%v; see %s --help", err, name)}
}

func unknownCommand(c *cli.Context) error {
	name := c.Args().First()
	msg := fmt.Sprintf("no command %q", name)
	var names []string
	for _, k := range c.App.Commands {
		names = append(names, k.Name)
	}
	return codedError{exitUsage, fmt.Errorf("%s; the commands are %s", msg, strings.Join(names, ", "))}
}

// flagsFirst moves the flags of a command before its arguments: the library
// would take every flag after the first argument for an argument.
func flagsFirst(app *cli.App, args []string) []string {
	if len(args) < 3 {
		return args
	}
	cmd := app.Command(args[1])
	if cmd == nil {
		return args
	}
	takesValue := map[string]bool{}
	for _, f := range cmd.Flags {
		_, isBool := f.(*cli.BoolFlag)
		for _, n := range f.Names() {
			takesValue[n] = !isBool
		}
	}
	var flags, rest []string
	for i := 2; i < len(args); i++ {
		a := args[i]
		if a == "--" {
			rest = append(rest, args[i:]...)
			break
		}
		name := strings.TrimLeft(a, "-")
		if a == "-" || name == a || isNumber(a) {
			rest = append(rest, a)
			continue
		}
		flags = append(flags, a)
		if takesValue[name] && i+1 < len(args) { // --flag value; --flag=value stands alone
			i++
			flags = append(flags, args[i])
		}
	}
	return append(append(append([]string{}, args[:2]...), flags...), rest...)
}

// isNumber reports whether an argument that starts with a dash is a number.
func isNumber(s string) bool {
	return len(s) > 1 && s[0] == '-' && (s[1] >= '0' && s[1] <= '9' || s[1] == '.')
}

// oneArg returns the only argument of a command.
func oneArg(c *cli.Context, what string) (string, error) {
	switch c.Args().Len() {
	case 1:
		return c.Args().First(), nil
	case 0:
		return "", codedError{exitUsage, fmt.Errorf("%s needs %s; see routwright %s --help", c.Command.Name, what, c.Command.Name)}
	}
	return "", codedError{exitUsage, fmt.Errorf("%s takes %s and nothing else, not %q", c.Command.Name, what, c.Args().Slice())}
}
