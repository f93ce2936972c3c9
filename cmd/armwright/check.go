package main

import (
	"context"
	"errors"

	"armwright/export/draw"
	"armwright/export/report"
	"armwright/geometry/cam"
	"armwright/solver/fit"
	"armwright/specs"

	"github.com/spf13/cobra"
)

type checkOptions struct {
	*common
	frame string // file, or - for stdin
	json  bool
	out   string // empty writes nothing
	force bool
}

func newCheck(s *streams, c *common, runF func(context.Context, *checkOptions) error) *cobra.Command {
	o := &checkOptions{common: c}
	cmd := &cobra.Command{
		Use:   "check FRAME",
		Short: "Judge the geometry of a station without solving",
		Long: `Check judges the geometry of a station, solved or measured, against what its
frame asks: who fits, what torque it gives, how it stands. Nothing is searched.
The frame of a design gives the verdict and the values that design gave.

FRAME may be - for stdin. With --out the drawings and reports of the frame are
written as design writes them.`,
		Example:           `  armwright check station/frame.yaml`,
		Args:              exactly(1, "the frame"),
		ValidArgsFunction: yamlFile,
		RunE: func(cmd *cobra.Command, args []string) error {
			o.frame = args[0]
			if o.force && o.out == "" {
				return usage("add --out DIR", "check: --force without --out")
			}
			if runF != nil {
				return runF(cmd.Context(), o)
			}
			return runCheck(cmd.Context(), s, o)
		},
	}
	f := cmd.Flags()
	f.BoolVar(&o.json, "json", false, "print the report as JSON instead of text")
	f.StringVarP(&o.out, "out", "o", "", "also write drawings and reports into this folder")
	f.BoolVar(&o.force, "force", false, "replace an earlier output even if files in it were changed or added")
	_ = cmd.MarkFlagDirname("out")
	return cmd
}

func runCheck(ctx context.Context, s *streams, o *checkOptions) error {
	label, data, err := readInput(s, o.frame, "a frame comes from: armwright design BRIEF --out DIR")
	if err != nil {
		return err
	}
	frame, err := specs.ParseFrame(label, data)
	if err != nil {
		return err
	}
	if o.out == "" {
		result, err := fit.Check(frame)
		if err != nil {
			return unsolved(label, err)
		}
		return verdict(s, o.common, report.New(result, program(), nil), o.json)
	}
	dir, err := openFolder(o.out, o.frame, o.force)
	if err != nil {
		return err
	}
	defer dir.discard()
	result, err := fit.Check(frame)
	if err != nil {
		return unsolved(label, err)
	}
	rep, n, err := deliver(ctx, dir, result, draw.Options{})
	if err != nil {
		return err
	}
	return finish(s, o.common, rep, o.json, n, o.out)
}

// unsolved says what a solver's error means for the file it came from: an
// input that describes no possible station is invalid, anything else is a
// failure to run.
func unsolved(label string, err error) error {
	var missing *fit.MissingError
	var impossible *fit.CamError
	var profile *cam.Error
	switch {
	case errors.Is(err, context.Canceled):
		return err
	case errors.As(err, &missing), errors.As(err, &impossible), errors.As(err, &profile):
		return &failure{code: exitInvalid, what: label, why: err, hint: hintOf(err)}
	}
	return &failure{code: exitFailed, what: label, why: err}
}
