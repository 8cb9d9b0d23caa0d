package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"

	"github.com/urfave/cli/v2"

	"routwright/templates/design"
)

func newCommand() *cli.Command {
	return &cli.Command{
		Name:      "new",
		Usage:     "write a commented starter design",
		ArgsUsage: "FILE",
		Description: "Writes a complete design that builds as it stands, to be edited beside a ruler.\n" +
			"An existing file is never overwritten.\n\nExample:  routwright new guitar.toml",
		OnUsageError: usageError,
		Action: func(c *cli.Context) error {
			name, err := oneArg(c, "the name of the file to write")
			if err != nil {
				return err
			}
			if err := writeNew(name, design.Starter()); err != nil {
				return err
			}
			fmt.Fprintf(c.App.Writer, "%s written. Next: routwright check %s\n", name, name)
			return nil
		},
	}
}

// writeNew writes a file that must not exist yet.
func writeNew(name string, data []byte) error {
	f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
	if errors.Is(err, fs.ErrExist) {
		return failed(fmt.Errorf("%s exists already and is left as it is: give another name", name))
	}
	if err != nil {
		return failed(err)
	}
	if _, err := f.Write(data); err != nil {
		f.Close()
		os.Remove(name)
		return failed(err)
	}
	if err := f.Close(); err != nil {
		os.Remove(name)
		return failed(err)
	}
	return nil
}
