package main

import (
	"context"
	"errors"
	"strings"

	"armwright/cmd/armwright/storage"
	"armwright/export/draw"
	"armwright/export/report"
	"armwright/solver/judge"
	"armwright/specs"

	"github.com/spf13/cobra"
)

type camOptions struct {
	*common
	load  string
	set   map[string]*string // value of a brief by its path; empty keeps the default
	out   string
	force bool
	json  bool
	full  bool
	csv   bool
}

// camFlags are the flags that set one value of the study's brief.
func camFlags() []struct{ name, path, help string } {
	return []struct{ name, path, help string }{
		{"curve", "resistance.curve", "strength curve of show curves, or a CSV file: flexion in degrees, strength"},
		{"loaded", "resistance.loaded", "flexion over which the torque is matched, as 5deg..130deg"},
		{"ratio", "resistance.ratio", "cam turn per arm turn that may be used, as 1..2"},
		{"least-arm", "resistance.least_arm", "smallest moment arm, as 30mm"},
		{"greatest-arm", "resistance.greatest_arm", "largest moment arm, as 150mm"},
		{"sheave", "resistance.sheave_radius", "radius of the guide sheave, as 48mm"},
		{"side", "resistance.side", "cable open or crossed to the guide sheave"},
		{"eccentric", "resistance.eccentric", "heaviest eccentric weight allowed, as 5kg"},
		{"cable", "stock.cable", "cable of show stock, as 7x19-4"},
		{"match", "limits.torque_match", "rms difference that is still met, as 5%"},
	}
}

func newCam(s *streams, c *common, runF func(context.Context, *camOptions) error) *cobra.Command {
	o := &camOptions{common: c, set: map[string]*string{}}
	cmd := &cobra.Command{
		Use:   "cam",
		Short: "Study a cam alone, from a strength curve and a few numbers",
		Long: `Cam solves the closest cam to a strength curve on a bench rig and prints its
match, what each drive ratio would buy, and its outline as a table with --csv.
With --out it writes cut file, sheets, tables and report as design does. What no
flag sets stays as in: armwright new cam-study`,
		Example: `  armwright cam --curve women-measured --load 20kg
  armwright cam --curve own.csv --ratio 1..2 --csv > cam.csv
  armwright cam --load 20kg --ratio 1..1 --out cam`,
		Args: exactly(0, ""),
		RunE: func(cmd *cobra.Command, _ []string) error {
			if o.csv && o.json {
				return usage("choose one of the two", "cam: --csv and --json together")
			}
			if runF != nil {
				return runF(cmd.Context(), o)
			}
			return runCam(cmd.Context(), s, o)
		},
	}
	f := cmd.Flags()
	f.StringVar(&o.load, "load", "20kg", "middle load on the stack; light is a quarter of it, heavy twice")
	for _, v := range camFlags() {
		o.set[v.path] = f.String(v.name, "", v.help)
	}
	f.StringVarP(&o.out, "out", "o", "", "folder to write, new or of an earlier run")
	f.BoolVar(&o.force, "force", false, "replace an earlier output even if files in it were changed or added")
	f.BoolVar(&o.json, "json", false, "print report.json on stdout instead of text")
	f.BoolVar(&o.full, "full", false, fullHelp)
	f.BoolVar(&o.csv, "csv", false, "print the cam in steps of a degree as CSV instead of text")
	_ = cmd.MarkFlagDirname("out")
	return cmd
}

// brief is the bench study that the flags ask for.
func (o *camOptions) brief(s *streams) (specs.Brief, error) {
	b, err := specs.ParseBrief("starter", specs.Starter("cam-study"))
	if err != nil {
		return b, err
	}
	b.Name = "Cam study"
	load, err := quantity("cam: --load", o.load, specs.Mass)
	if err != nil {
		return b, err
	}
	b.Resistance.Load = specs.Loads{Light: load / 4, Middle: load, Heavy: 2 * load}
	for _, v := range camFlags() {
		value := *o.set[v.path]
		if value == "" {
			continue
		}
		if err := b.Set(v.path, value); err != nil {
			return b, flagFault(err)
		}
	}
	if err := withFiles(s, "-", &b); err != nil {
		return b, err
	}
	if err := b.Validate(); err != nil {
		return b, flagFault(err)
	}
	return b, nil
}

// flagFault tells the first problem of a brief that was made of flags as one of
// the flag that set the value.
func flagFault(err error) error {
	var p *specs.Problems
	if !errors.As(err, &p) || len(p.List) == 0 {
		return err
	}
	first := p.List[0]
	flag, message := "load", strings.TrimPrefix(first.Message, first.Path+": ")
	for _, v := range camFlags() {
		if strings.HasPrefix(first.Path, v.path) {
			flag = v.name
		}
	}
	return usage(first.Hint, "cam: --%s: %s", flag, message)
}

func runCam(ctx context.Context, s *streams, o *camOptions) error {
	brief, err := o.brief(s)
	if err != nil {
		return err
	}
	var dir *storage.Folder
	if o.out != "" {
		if dir, err = openFolder(s, o.out, o.force); err != nil {
			return err
		}
		defer dir.Discard()
	}
	result, _, err := solve(ctx, s, &designOptions{common: o.common}, "cam", brief)
	if err != nil {
		return err
	}
	rep := report.New(result, program(), nil)
	files := 0
	if dir != nil {
		if rep, files, err = deliver(ctx, s, o.common, dir, result, draw.Options{}); err != nil {
			return err
		}
	}
	switch {
	case o.csv:
		if err := report.CamTable(s.out, result); err != nil {
			return err
		}
		if result.Verdict != judge.Met {
			return errUnmet
		}
		return nil
	case dir != nil:
		return finish(s, o.common, rep, o.json, o.full, files, o.out)
	}
	return verdict(s, o.common, rep, o.json, o.full)
}
