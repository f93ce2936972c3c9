package main

import (
	"context"

	"armwright/cmd/armwright/storage"
	"armwright/export/answer"
	"armwright/export/compare"
	"armwright/export/draw"
	"armwright/export/report"
	"armwright/export/words"
	"armwright/solver"
	"armwright/solver/judge"
	"armwright/specs"

	"github.com/spf13/cobra"
)

type checkOptions struct {
	*common
	frame   string // file, or - for stdin
	against string // another frame to lay beside it
	json    bool
	full    bool
	out     string // empty writes nothing
	force   bool
	crowdOptions
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
written as design writes them.

Coverage is counted on random persons of the frame's population, or with
--people on measured ones: comma-separated values, a row a person, columns named
in words with their unit: label, sex, age_y, stature_mm, mass_kg, and any of the
dimensions of "armwright show people". Sex, stature and mass are needed; what is
missing is filled by regression on stature and mass, and said. Rows that cannot
be used are told one by one; with --keep-going the others are judged all the same.

With --where one line tells how many persons of a kind fit, and what turns the others
away: women, men or people, whose stature, mass, BMI or age is under, over or between
something. About as many of them are drawn as the sample holds, or those of --people
are counted. Nothing else is judged, and the exit code is 0.

The terminal gets what to know first; all of it with --full.

With --against the values of both frames stand side by side: requirements, what
spares the joints, sizes, with what fails and which of the two is better, and why.
The exit code is the first frame's.`,
		Example: `  armwright check station/frame.yaml
  armwright check station/frame.yaml --against other/frame.yaml
  armwright check station/frame.yaml --people members.csv --list outcome.csv
  armwright check station/frame.yaml --where "women under 1.60 m"
  armwright check station/frame.yaml --population survey --sample 20000`,
		Args:              exactly(1, "the frame"),
		ValidArgsFunction: yamlFile,
		RunE: func(cmd *cobra.Command, args []string) error {
			o.frame = args[0]
			if o.force && o.out == "" && o.list == "" {
				return usage("add --out DIR or --list FILE", "check: --force without --out or --list")
			}
			if o.against != "" && (o.out != "" || o.people != "" || o.list != "") {
				return usage("check each frame on its own for those", "check: --against with --out, --people or --list")
			}
			if o.where != "" && (o.against != "" || o.out != "" || o.full) {
				return usage("it answers in one line, on the terminal or as --json", "check: --where with --against, --out or --full")
			}
			if err := o.crowdOptions.check(o.frame); err != nil {
				return err
			}
			if runF != nil {
				return runF(cmd.Context(), o)
			}
			return runCheck(cmd.Context(), s, o)
		},
	}
	f := cmd.Flags()
	f.BoolVar(&o.json, "json", false, "print the report as JSON instead of text")
	f.BoolVar(&o.full, "full", false, fullHelp)
	f.StringVar(&o.against, "against", "", "lay this frame's values beside those of FRAME")
	_ = cmd.MarkFlagFilename("against", "yaml", "yml")
	f.StringVarP(&o.out, "out", "o", "", "also write drawings and reports into this folder")
	f.BoolVar(&o.force, "force", false, "replace an earlier output even if files in it were changed or added, and whatever --list names")
	_ = cmd.MarkFlagDirname("out")
	o.crowdOptions.flags(cmd)
	return cmd
}

func runCheck(ctx context.Context, s *streams, o *checkOptions) error {
	s.reads(o.people, o.against)
	label, data, frame, err := readFrame(s, o.frame)
	if err != nil {
		return err
	}
	if o.where != "" {
		return tellWhere(ctx, s, o, label, data, frame)
	}
	var dir *storage.Folder
	if o.out != "" {
		if dir, err = openFolder(s, o.out, o.force); err != nil {
			return err
		}
		defer dir.Discard()
	}
	result, err := judgeFrame(ctx, s, o, label, frame)
	if err != nil {
		return placed(label, data, err)
	}
	if o.against != "" {
		return beside(ctx, s, o, result)
	}
	if dir == nil {
		return verdict(s, o.common, report.New(result, program(), nil), o.json, o.full)
	}
	rep, n, err := deliver(ctx, s, o.common, dir, result, draw.Options{})
	if err != nil {
		return placed(label, data, err)
	}
	return finish(s, o.common, rep, o.json, o.full, n, o.out)
}

// beside prints the first frame's result beside the other frame's.
func beside(ctx context.Context, s *streams, o *checkOptions, first *solver.Result) error {
	label, data, frame, err := readFrame(s, o.against)
	if err != nil {
		return err
	}
	second, err := judgeFrame(ctx, s, o, label, frame)
	if err != nil {
		return placed(label, data, err)
	}
	c := compare.Of(report.New(first, program(), nil), report.New(second, program(), nil))
	switch {
	case o.json:
		err = compare.JSON(s.out, c)
	case !o.quiet:
		err = compare.Text(s.out, c, s.colour, s.columns)
	}
	if err == nil && first.Verdict != judge.Met {
		err = errUnmet
	}
	return err
}

// tellWhere tells how many persons of a kind fit.
func tellWhere(ctx context.Context, s *streams, o *checkOptions, label string, data []byte, frame specs.Frame) error {
	var crowd judge.Crowd
	_, err := withCrowd(ctx, s, o, label, frame, func(of judge.Persons) (err error) {
		crowd, err = judge.Cover(frame, of)
		return err
	})
	switch {
	case err != nil:
		return placed(label, data, err)
	case crowd.All.N == 0:
		return &failure{code: exitFailed, what: "there is nobody to judge: no " + o.kind.String() + " among the " + words.Source(crowd.Source),
			hint: "ask for more people at a time, or draw more of them with --sample"}
	}
	a := answer.Of(o.kind.String(), &crowd)
	if o.json {
		return a.JSON(s.out)
	}
	return a.Text(s.out, s.columns)
}
