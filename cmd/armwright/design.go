package main

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"time"

	"armwright/export/draw"
	"armwright/export/words"
	"armwright/solver"
	"armwright/solver/fit"
	"armwright/solver/tolerance"
	"armwright/specs"

	"github.com/spf13/cobra"
)

type designOptions struct {
	*common
	brief string // file, or - for stdin
	out   string
	force bool
	json  bool
	full  bool
	dxf   string
	nest  bool
	weld  string        // class of weldments to leave room for; empty for none
	limit time.Duration // 0 is none
}

// dxfForms are the words of --dxf.
var dxfForms = [...]string{"2000", "r12"}

func newDesign(s *streams, c *common, runF func(context.Context, *designOptions) error) *cobra.Command {
	o := &designOptions{common: c}
	cmd := &cobra.Command{
		Use:        "design BRIEF --out DIR",
		SuggestFor: []string{"solve"},
		Short:      "Solve a brief and write drawings, cut files and report",
		Long: `Design solves the geometry of the station that a brief asks for and writes
everything into one folder: report.html and report.json, frame.yaml (which
check reads), drawings, cut files, tables, and last MANIFEST.sha256.

BRIEF may be - for stdin. DIR must be new or empty, or hold an earlier output,
which is replaced. A failed or interrupted run leaves nothing behind. When
requirements cannot be met everything is written all the same, with what
conflicts and the cheapest way out, and the exit code is 4.

The terminal gets what to know first: the verdict, who fits, what fails or lies
beyond a limit of protection, and the leading figures; all of it with --full.

A station solved stands at some of its limits, so that next to no build within
shop tolerances keeps them all. With --welded it is solved with room for what
builds of that class take, as far as that can be: 95 % of them meet each limit.`,
		Example: `  armwright design brief.yaml --out station
  armwright design brief.yaml --out station --welded B
  armwright new cam-study | armwright design - --out cam`,
		Args:              exactly(1, "the brief"),
		ValidArgsFunction: yamlFile,
		RunE: func(cmd *cobra.Command, args []string) error {
			o.brief = args[0]
			if err := o.check(); err != nil {
				return err
			}
			if runF != nil {
				return runF(cmd.Context(), o)
			}
			return runDesign(cmd.Context(), s, o)
		},
	}
	f := cmd.Flags()
	f.StringVarP(&o.out, "out", "o", "", "folder to write, new or of an earlier run")
	f.BoolVar(&o.force, "force", false, "replace an earlier output even if files in it were changed or added")
	f.BoolVar(&o.json, "json", false, "print report.json on stdout instead of text")
	f.BoolVar(&o.full, "full", false, fullHelp)
	f.StringVar(&o.dxf, "dxf", dxfForms[0], "form of the DXF files: 2000, or r12 for old controllers")
	f.BoolVar(&o.nest, "nest", false, "also lay all pieces of each plate into one cut file")
	f.StringVar(&o.weld, "welded", "", "leave room for weldments of this class of ISO 13920, "+sentence(weldedClasses[:], "or")+", and parts as the sheets name them")
	f.DurationVar(&o.limit, "time-limit", 0, "stop the search after this long, as 90s or 5m, and keep the best so far")
	_ = cmd.RegisterFlagCompletionFunc("dxf", cobra.FixedCompletions(dxfForms[:], cobra.ShellCompDirectiveNoFileComp))
	_ = cmd.RegisterFlagCompletionFunc("welded", cobra.FixedCompletions(weldedClasses[:], cobra.ShellCompDirectiveNoFileComp))
	_ = cmd.MarkFlagDirname("out")
	return cmd
}

func (o *designOptions) check() error {
	switch {
	case o.out == "":
		return usage("add --out DIR, a folder to write", "design: --out is missing")
	case o.dxf != dxfForms[0] && o.dxf != dxfForms[1]:
		return usage("forms are "+sentence(dxfForms[:], "and"), "design: no DXF form %q", o.dxf)
	case o.weld != "" && !slices.Contains(weldedClasses[:], o.weld):
		return usage("classes are "+sentence(weldedClasses[:], "and"), "design: --welded %q", o.weld)
	case o.limit < 0:
		return usage("leave it out for none", "design: --time-limit %s is negative", o.limit)
	}
	return nil
}

func runDesign(ctx context.Context, s *streams, o *designOptions) error {
	label, data, brief, err := readBrief(s, o.brief)
	if err != nil {
		return err
	}
	dir, err := openFolder(s, o.out, o.force)
	if err != nil {
		return err
	}
	defer dir.Discard()

	result, stopped, err := solve(ctx, s, o, label, brief)
	if err != nil {
		return placed(label, data, err)
	}
	rep, n, err := deliver(ctx, s, o.common, dir, result, draw.Options{R12: o.dxf == "r12", Nest: o.nest})
	if err != nil {
		return placed(label, data, err)
	}
	err = finish(s, o.common, rep, o.json, o.full, n, o.out)
	if stopped && (err == nil || errors.Is(err, errUnmet)) {
		return &failure{code: exitStopped, what: "design", why: errors.New("stopped by the time limit before the search was done"),
			hint: "give it more time with --time-limit, or none"}
	}
	return err
}

// solve runs the search and shows its progress. stopped tells that the time
// limit ended it and the result is the best so far.
func solve(ctx context.Context, s *streams, o *designOptions, label string, brief specs.Brief) (result *solver.Result, stopped bool, err error) {
	if o.limit > 0 {
		var cancel context.CancelFunc
		ctx, cancel = context.WithTimeout(ctx, o.limit)
		defer cancel()
	}
	p := newProgress(s, o.quiet)
	defer p.clear()
	opt := &fit.Options{Progress: func(q fit.Progress) {
		doing := fmt.Sprintf("searching with %s of at most %d, round %d, step %d", count(q.Axes, "axis position"), brief.Posture.AxisPositions, q.Round, q.Iteration)
		if o.limit > 0 { // how long the search takes nobody knows, but no longer than that
			p.part(float64(time.Since(p.start))/float64(o.limit), "%s, within the time limit", doing)
		} else {
			p.show("%s", doing)
		}
	}}
	if o.weld == "" {
		result, err = solver.Solve(ctx, brief, opt)
	} else {
		result, err = solveRoom(ctx, brief, opt, tolerance.Classes{Machined: brief.Drawing.Tolerance, Welded: o.weld})
	}
	switch {
	case errors.Is(err, context.DeadlineExceeded) && result != nil:
		return result, true, nil
	case errors.Is(err, context.DeadlineExceeded):
		return nil, true, &failure{code: exitStopped, what: "design", why: errors.New("stopped by the time limit before there was a station; nothing was written"),
			hint: "give it more time with --time-limit, or none"}
	case err != nil:
		return nil, false, unsolved(label, err)
	}
	return result, false, nil
}

// solveRoom solves with room for builds, and notes what that does.
func solveRoom(ctx context.Context, brief specs.Brief, opt *fit.Options, c tolerance.Classes) (*solver.Result, error) {
	r, err := tolerance.Solve(ctx, brief, c, opt)
	if r == nil {
		return nil, err
	}
	if room := words.Room(r); room != "" {
		r.Notes = append(r.Notes, room)
	}
	return r.Result, err
}
