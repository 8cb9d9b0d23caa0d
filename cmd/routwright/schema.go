package main

import (
	"github.com/urfave/cli/v2"

	"routwright/templates/design"
)

func schemaCommand() *cli.Command {
	return &cli.Command{
		Name:  "schema",
		Usage: "print the JSON Schema of the design file, for editors",
		Description: "Editors with a TOML plug-in complete and check a design file by this schema.\n\n" +
			"Example:  routwright schema > routwright.schema.json",
		OnUsageError: usageError,
		Action: func(c *cli.Context) error {
			text, err := design.Schema()
			if err != nil {
				return err
			}
			_, err = c.App.Writer.Write(text)
			return failed(err)
		},
	}
}
