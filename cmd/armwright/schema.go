package main

import (
	"slices"

	"armwright/export/report"
	"armwright/specs"

	"github.com/spf13/cobra"
)

// schemas are the kinds of file that have one, the first by default.
var schemas = [...]string{"brief", "frame", "report"}

func newSchema(s *streams) *cobra.Command {
	return &cobra.Command{
		Use:   "schema [brief|frame|report]",
		Short: "Print the JSON Schema of a file format",
		Long: `Schema prints the JSON Schema of a brief (the default), a frame or a report.
An editor that is given it completes and checks while one types.`,
		Example:   `  armwright schema > brief.schema.json`,
		Args:      between(0, 1, "the kind of file"),
		ValidArgs: schemas[:],
		RunE: func(_ *cobra.Command, args []string) error {
			kind := schemas[0]
			if len(args) > 0 {
				kind = args[0]
			}
			if !slices.Contains(schemas[:], kind) {
				return usage("there is one of "+sentence(schemas[:], "and"), "schema: no schema of %q", kind)
			}
			text := report.SchemaJSON()
			if kind != "report" {
				var err error
				if text, err = specs.Schema(kind); err != nil {
					return err
				}
			}
			_, err := s.out.Write(text)
			return err
		},
	}
}
