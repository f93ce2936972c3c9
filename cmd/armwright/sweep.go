package main

import (
	"context"
	"fmt"
	"runtime"
	"slices"
	"strings"

	"armwright/solver/judge"
	"armwright/solver/sweep"
	"armwright/specs"

	"github.com/spf13/cobra"
)

type sweepOptions struct {
	*common
	input    string // brief or frame, or - for stdin
	vary     []string
	method   string
	points   int
	seed     int
	evaluate bool
	shard    string
	out      string // empty is stdout
	json     bool
	force    bool
	design   int // print this one's file instead, from 1; 0 for none
	cores    int
}

func newSweep(s *streams, c *common, runF func(context.Context, *sweepOptions) error) *cobra.Command {
	o := &sweepOptions{common: c}
	var methods []string
	for _, m := range sweep.Methods() {
		methods = append(methods, string(m))
	}
	cmd := &cobra.Command{
		Use:   "sweep BRIEF --vary PATH=VALUES",
		Short: "Solve or judge many designs that differ in a few values",
		Long: `Sweep varies values of a brief and solves each design, or varies values of a
frame and judges each without solving; with --evaluate a brief is solved once and
its station is judged against each variation of the brief. One row a design:
its number, the SHA-256 of its file, the values, the verdict, and the value of
every requirement.

A value is named by its path in the file and takes on levels, or a range:
  --vary "limits.hand_path=10 mm, 12 mm, 15 mm"
  --vary "posture.seat_pitch=10 mm..30 mm:5"         five levels
  --vary "resistance.load.heavy=60 kg..100 kg"       for a random method
  --vary "geometry.pivots.axes[0].toe=5 deg..15 deg" of a frame

With --out the rows go to a file. Ctrl-C keeps the rows that are done, and the
same command goes on where the file ends, with the same bytes as if it had not
been stopped. --shard 3/16 does every 16th design from the third on; sweep merge
puts the shards together. The exit code is 0 whatever the verdicts.`,
		Example: `  armwright sweep brief.yaml --vary "space.length=1.6 m..2.2 m:7" --out study.csv
  armwright sweep station/frame.yaml --method sobol --points 4096 --vary "limits.hand_path=8 mm..20 mm" --out study.csv
  armwright sweep brief.yaml --vary "space.length=1.6 m..2.2 m:7" --design 3 > third.yaml
  armwright sweep best study.csv --figure footprint_length_mm --figure hand_path_mm`,
		Args:              exactly(1, "the brief or frame"),
		ValidArgsFunction: yamlFile,
		RunE: func(cmd *cobra.Command, args []string) error {
			o.input = args[0]
			if err := o.check(); err != nil {
				return err
			}
			if runF != nil {
				return runF(cmd.Context(), o)
			}
			return runSweep(cmd.Context(), s, o)
		},
	}
	f := cmd.Flags()
	f.StringArrayVar(&o.vary, "vary", nil, "value that varies, as \"PATH=FROM..TO:LEVELS\" or \"PATH=A, B, C\"; may be given again")
	f.StringVar(&o.method, "method", methods[0], "how designs are spread: "+sentence(methods, "or"))
	f.IntVar(&o.points, "points", 0, "number of designs of a random method")
	f.IntVar(&o.seed, "seed", 1, "which random hypercube")
	f.BoolVar(&o.evaluate, "evaluate", false, "solve the brief once and judge that station against each design")
	f.StringVar(&o.shard, "shard", "", "do only this part, as 3/16")
	f.StringVarP(&o.out, "out", "o", "", "file of the rows, new or of the same study; stdout without it")
	f.BoolVar(&o.json, "json", false, "write JSON lines instead of comma-separated values")
	f.BoolVar(&o.force, "force", false, "start again even if the file holds something else")
	f.IntVar(&o.design, "design", 0, "print the brief or frame of this design instead, numbered from 1")
	f.IntVar(&o.cores, "cores", 0, "designs done at a time; 0 for as many as there are cores")
	_ = cmd.MarkFlagFilename("out", "csv", "jsonl")
	_ = cmd.RegisterFlagCompletionFunc("method", cobra.FixedCompletions(methods, cobra.ShellCompDirectiveNoFileComp))
	cmd.AddCommand(newSweepMerge(s, c), newSweepBest(s, c))
	return cmd
}

// mostCores is how many designs may be done at a time.
const mostCores = 1024

func (o *sweepOptions) check() error {
	switch {
	case len(o.vary) == 0:
		return usage(`add --vary "limits.hand_path=10 mm..20 mm:5"`, "sweep: --vary is missing")
	case o.seed < 0:
		return usage("a number from 0 up", "sweep: --seed %d is negative", o.seed)
	case o.points < 0:
		return usage("a number from 1 up", "sweep: --points %d is negative", o.points)
	case o.cores < 0 || o.cores > mostCores:
		return usage(fmt.Sprintf("0 for as many as there are, at most %d", mostCores), "sweep: --cores %d", o.cores)
	case o.force && o.out == "":
		return usage("add --out FILE", "sweep: --force without --out")
	case o.design < 0:
		return usage("numbers count from 1", "sweep: --design %d is negative", o.design)
	}
	if !slices.Contains(sweep.Methods(), sweep.Method(o.method)) {
		return usage("see armwright sweep --help", "sweep: no method %q", o.method)
	}
	_, err := o.part()
	return err
}

// part is the shard asked for.
func (o *sweepOptions) part() (sweep.Shard, error) {
	if o.shard == "" {
		return sweep.Shard{}, nil
	}
	var p sweep.Shard
	var rest string
	n, _ := fmt.Sscanf(o.shard, "%d/%d%s", &p.Number, &p.Of, &rest)
	if n != 2 || p.Number < 1 || p.Number > p.Of {
		return p, usage("write 1/16 to 16/16", "sweep: --shard %q", o.shard)
	}
	return p, nil
}

// study is a sweep made ready.
type study struct {
	plan    *sweep.Plan
	workers []sweep.Worker
	places  []*specs.Place
	print   func(values []string) ([]byte, error) // one design's file
}

func runSweep(ctx context.Context, s *streams, o *sweepOptions) error {
	shard, err := o.part()
	if err != nil {
		return err
	}
	study, err := prepare(ctx, s, o)
	if err != nil {
		return err
	}
	switch n := study.plan.Len(); {
	case o.design > n:
		return usage(fmt.Sprintf("numbers go from 1 to %d", n), "sweep: no design %d", o.design)
	case o.design > 0:
		text, err := study.print(study.plan.Design(nil, o.design-1))
		if err == nil {
			_, err = s.out.Write(text)
		}
		return err
	case shard.Of > n:
		return usage("take fewer shards", "sweep: %s cannot be spread over %d shards", count(n, "design"), shard.Of)
	}
	if o.out == "" {
		return study.toStdout(ctx, s, o, shard)
	}
	return study.toFile(ctx, s, o, shard)
}

// prepare reads the input, lays out the plan and makes the workers.
func prepare(ctx context.Context, s *streams, o *sweepOptions) (*study, error) {
	label, data, err := readInput(s, o.input, "a first brief comes from: armwright new > brief.yaml")
	if err != nil {
		return nil, err
	}
	paths, values, err := o.axes()
	if err != nil {
		return nil, err
	}
	if specs.FormatOf(data) == specs.FrameFormat {
		f, err := specs.ParseFrame(label, data)
		if err != nil {
			return nil, err
		}
		return evaluating(label, f, o, paths, values)
	}
	b, err := specs.ParseBrief(label, data)
	if err != nil {
		return nil, err
	}
	if err := withFiles(s, o.input, &b); err != nil {
		return nil, err
	}
	if o.evaluate {
		r, _, err := solve(ctx, s, &designOptions{common: o.common}, label, b)
		if err != nil {
			return nil, err
		}
		if r.NoStation != nil {
			return nil, unsolved(label, r.NoStation)
		}
		return evaluating(label, r.Frame, o, paths, values)
	}
	return solving(ctx, s, label, b, o, paths, values)
}

// axes are the paths and the values of --vary.
func (o *sweepOptions) axes() (paths, values []string, err error) {
	for _, v := range o.vary {
		path, value, ok := strings.Cut(v, "=")
		if !ok {
			return nil, nil, usage("write PATH=VALUES, as \"limits.hand_path=10 mm, 15 mm\"", "sweep: --vary %q names no values", v)
		}
		paths, values = append(paths, strings.TrimSpace(path)), append(values, strings.TrimSpace(value))
	}
	return paths, values, nil
}

// laidOut makes the plan over the places. What is wrong with an axis is wrong
// with the command line.
func (o *sweepOptions) laidOut(places []*specs.Place, values []string) (*sweep.Plan, error) {
	var axes []sweep.Axis
	for i, p := range places {
		a, err := sweep.ParseAxis(p, values[i])
		if err != nil {
			return nil, asUsage(err)
		}
		axes = append(axes, a)
	}
	plan, err := sweep.NewPlan(sweep.Method(o.method), axes, o.points, uint64(o.seed))
	if err != nil {
		return nil, asUsage(err)
	}
	return plan, nil
}

// asUsage tells an error of a flag's value as one of the command line.
func asUsage(err error) error {
	what, hint := err.Error(), hintOf(err)
	if first, rest, ok := strings.Cut(what, "\n  hint: "); ok {
		what, hint = first, rest
	}
	return usage(hint, "sweep: --vary %s", what)
}

func (o *sweepOptions) abreast() int {
	if o.cores > 0 {
		return o.cores
	}
	return runtime.GOMAXPROCS(0)
}

// evaluating makes a study that judges a frame.
func evaluating(label string, f specs.Frame, o *sweepOptions, paths, values []string) (*study, error) {
	v, err := specs.Vary(f, paths...)
	if err != nil {
		return nil, asUsage(err)
	}
	plan, err := o.laidOut(v.Places(), values)
	if err != nil {
		return nil, err
	}
	judge, err := judge.New(&f.Asked)
	if err != nil {
		return nil, unsolved(label, err)
	}
	st := &study{plan: plan, places: v.Places(), print: printed(v)}
	for range o.abreast() {
		w, err := sweep.NewEvaluator(f, judge, paths)
		if err != nil {
			return nil, err
		}
		st.workers = append(st.workers, w)
	}
	return st, nil
}

// solving makes a study that solves briefs, each search beginning from the
// station of the brief as it is, where there is one.
func solving(ctx context.Context, s *streams, label string, b specs.Brief, o *sweepOptions, paths, values []string) (*study, error) {
	v, err := specs.Vary(b, paths...)
	if err != nil {
		return nil, asUsage(err)
	}
	plan, err := o.laidOut(v.Places(), values)
	if err != nil {
		return nil, err
	}
	st := &study{plan: plan, places: v.Places(), print: printed(v)}
	if o.design > 0 {
		return st, nil
	}
	var start *specs.Geometry
	if r, _, err := solve(ctx, s, &designOptions{common: o.common}, label, b); err == nil && r.NoStation == nil {
		start = &r.Frame.Geometry
	} else if ctx.Err() != nil {
		return nil, err
	}
	for range o.abreast() {
		w, err := sweep.NewSolver(b, start, paths)
		if err != nil {
			return nil, err
		}
		st.workers = append(st.workers, w)
	}
	return st, nil
}

// printed prints one design's file.
func printed[T specs.Brief | specs.Frame](v *specs.Variant[T]) func([]string) ([]byte, error) {
	return func(values []string) ([]byte, error) {
		if err := v.Set(values); err != nil {
			return nil, err
		}
		return v.AppendText(nil), nil
	}
}
