package main

import (
	"context"
	"slices"

	"armwright/cmd/armwright/storage"
	"armwright/export/builds"
	"armwright/export/plot"
	"armwright/solver/judge"
	"armwright/solver/tolerance"

	"github.com/spf13/cobra"
)

type toleranceOptions struct {
	*common
	frame    string // file, or - for stdin
	builds   int
	seed     int
	machined string // empty is the frame's
	welded   string
	times    float64
	hold     bool
	json     bool
	plot     string
	force    bool
}

func newTolerance(s *streams, c *common, runF func(context.Context, *toleranceOptions) error) *cobra.Command {
	o := &toleranceOptions{common: c}
	cmd := &cobra.Command{
		Use:   "tolerance FRAME",
		Short: "Study what building to shop tolerances does to a station",
		Long: `Tolerance draws builds of a station whose dimensions, masses and plays are off
within shop tolerances, and tells how every requirement spreads, how many builds
meet the brief, which dimension matters most, and how closely each has to be held
for the station to stay what was designed. The same seed draws the same builds.

Parts are cut and drilled to a class of ISO 2768-1, f, m, c or v, by default the
one that the frame's drawings name; weldments stand to a class of ISO 13920, A to
D. With --hold the dimensions are as closely held as the sheets ask.`,
		Example: `  armwright tolerance station/frame.yaml
  armwright tolerance station/frame.yaml --welded A --machined f
  armwright tolerance station/frame.yaml --hold --plot builds.svg`,
		Args:              exactly(1, "the frame"),
		ValidArgsFunction: yamlFile,
		RunE: func(cmd *cobra.Command, args []string) error {
			o.frame = args[0]
			if err := o.check(); err != nil {
				return err
			}
			if runF != nil {
				return runF(cmd.Context(), o)
			}
			return runTolerance(cmd.Context(), s, o)
		},
	}
	f := cmd.Flags()
	f.IntVar(&o.builds, "builds", 10000, "number of builds drawn")
	f.IntVar(&o.seed, "seed", 1, "which builds are drawn")
	f.StringVar(&o.machined, "machined", "", "class of cut and drilled parts: "+sentence(machinedClasses[:], "or")+" (default the frame's)")
	f.StringVar(&o.welded, "welded", "B", "class of weldments: "+sentence(weldedClasses[:], "or"))
	f.Float64Var(&o.times, "times", 1, "all tolerances times this; 0 is the perfect build")
	f.BoolVar(&o.hold, "hold", false, "hold the dimensions as closely as the sheets ask")
	f.BoolVar(&o.json, "json", false, "print JSON instead of text")
	f.StringVar(&o.plot, "plot", "", "draw the distributions into this SVG file")
	_ = cmd.RegisterFlagCompletionFunc("machined", cobra.FixedCompletions(machinedClasses[:], cobra.ShellCompDirectiveNoFileComp))
	_ = cmd.RegisterFlagCompletionFunc("welded", cobra.FixedCompletions(weldedClasses[:], cobra.ShellCompDirectiveNoFileComp))
	f.BoolVar(&o.force, "force", false, "replace whatever file --plot names")
	_ = cmd.MarkFlagFilename("plot", "svg")
	return cmd
}

var (
	machinedClasses = [...]string{"f", "m", "c", "v"}
	weldedClasses   = [...]string{"A", "B", "C", "D"}
)

func (o *toleranceOptions) check() error {
	switch {
	case o.builds < 1 || o.builds > tolerance.MostBuilds:
		return usage("from 1 to 200000", "tolerance: --builds %d", o.builds)
	case o.seed < 0:
		return usage("a number from 0 up", "tolerance: --seed %d is negative", o.seed)
	case o.machined != "" && !slices.Contains(machinedClasses[:], o.machined):
		return usage("classes are "+sentence(machinedClasses[:], "and"), "tolerance: --machined %q", o.machined)
	case !slices.Contains(weldedClasses[:], o.welded):
		return usage("classes are "+sentence(weldedClasses[:], "and"), "tolerance: --welded %q", o.welded)
	case !(o.times >= 0 && o.times <= 10):
		return usage("from 0 to 10", "tolerance: --times %g", o.times)
	}
	return nil
}

func runTolerance(ctx context.Context, s *streams, o *toleranceOptions) error {
	label, data, f, err := readFrame(s, o.frame)
	if err != nil {
		return err
	}
	var picture *storage.Document
	if o.plot != "" {
		if picture, err = openDocument(s, o.plot, plot.FileMark, o.force); err != nil {
			return err
		}
		defer picture.Discard()
	}
	judge, err := judge.New(&f.Asked)
	if err != nil {
		return placed(label, data, unsolved(label, err))
	}
	classes := tolerance.Classes{Machined: f.Drawing.Tolerance, Welded: o.welded}
	if o.machined != "" {
		classes.Machined = o.machined
	}
	model, err := tolerance.NewModel(judge, &f, classes)
	if err != nil {
		return placed(label, data, unsolved(label, err))
	}
	p := newProgress(s, o.quiet)
	defer p.clear()
	options := tolerance.Options{Builds: o.builds, Seed: uint64(o.seed), Times: o.times, Progress: func(drawn int) {
		p.part(float64(drawn)/float64(o.builds), "%d of %s", drawn, count(o.builds, "build"))
	}}
	if o.hold {
		options.Hold = map[int]float64{}
		for _, h := range model.Holds() {
			options.Hold[h.Dimension] = h.To
		}
	}
	r, err := model.Run(ctx, options)
	if err != nil {
		return err
	}
	p.clear()
	b := builds.New(&f, r, classes, o.times, o.hold)
	if picture != nil {
		if err := picture.Finish(builds.Plot(b)); err != nil {
			return err
		}
	}
	switch {
	case o.json:
		return builds.JSON(s.out, b)
	case o.quiet:
		return nil
	}
	return builds.Text(s.out, b, s.colour, s.columns)
}
