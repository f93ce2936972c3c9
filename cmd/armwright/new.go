package main

import (
	"io/fs"
	"path"
	"slices"
	"strings"

	"armwright/cmd/armwright/storage"
	"armwright/specs"

	"github.com/spf13/cobra"
)

type newOptions struct {
	kind    string
	region  string
	example string // empty is a starter brief
	out     string // empty is stdout
	full    bool
}

// kinds are the kinds of station, the first by default.
var kinds = [...]string{"arm-pad", "reclined", "cam-study"}

// regions are those whose stock, sheets and units a starter takes, the first by
// default.
var regions = [...]string{"iso", "us"}

func newNew(s *streams, runF func(*newOptions) error) *cobra.Command {
	o := &newOptions{}
	cmd := &cobra.Command{
		Use:   "new [KIND]",
		Short: "Write a starter brief with its keys explained",
		Long: `New writes a starter brief on stdout: the keys that matter first, at their defaults
and explained; all of them with --full.
KIND is arm-pad (seated, upper arms on a sloping pad; the default), reclined
(trunk on a back pad) or cam-study (a cam alone, on a bench).

--region us asks for inch stock, plates in pounds, ASME inch sheets and third
angle at once; sheets, report and page then read in inches and pounds.

With --example it writes a finished brief instead: ` + sentence(exampleNames(), "or") + `.`,
		Example: `  armwright new > brief.yaml
  armwright new reclined --full --out reclined.yaml
  armwright new --region us > inches.yaml`,
		Args:      between(0, 1, "the kind"),
		ValidArgs: kinds[:],
		RunE: func(cmd *cobra.Command, args []string) error {
			o.kind = kinds[0]
			if len(args) > 0 {
				o.kind = args[0]
			}
			switch {
			case !slices.Contains(kinds[:], o.kind):
				return usage("kinds are "+sentence(kinds[:], "and"), "new: no kind %q", o.kind)
			case o.example != "" && len(args) > 0:
				return usage("leave one of them out", "new: a kind and --example")
			case !slices.Contains(regions[:], o.region):
				return usage("regions are "+sentence(regions[:], "and"), "new: no region %q", o.region)
			case o.example != "" && o.full:
				return usage("leave one of them out", "new: --full and --example")
			case o.example != "" && cmd.Flags().Changed("region"):
				return usage("leave one of them out", "new: a region and --example")
			case o.example != "" && !slices.Contains(exampleNames(), o.example):
				return usage("examples are "+sentence(exampleNames(), "and"), "new: no example %q", o.example)
			}
			if runF != nil {
				return runF(o)
			}
			return runNew(s, o)
		},
	}
	cmd.Flags().StringVar(&o.region, "region", regions[0], "stock, sheets and units of a starter brief: "+sentence(regions[:], "or"))
	cmd.Flags().BoolVar(&o.full, "full", false, "write every key")
	cmd.Flags().StringVar(&o.example, "example", "", "a finished brief: "+sentence(exampleNames(), "or"))
	cmd.Flags().StringVarP(&o.out, "out", "o", "", "file to write, which must not exist yet (default stdout)")
	_ = cmd.RegisterFlagCompletionFunc("region", cobra.FixedCompletions(regions[:], cobra.ShellCompDirectiveNoFileComp))
	_ = cmd.RegisterFlagCompletionFunc("example", cobra.FixedCompletions(exampleNames(), cobra.ShellCompDirectiveNoFileComp))
	return cmd
}

// exampleNames lists the example briefs.
func exampleNames() []string {
	paths, _ := fs.Glob(specs.Examples, "examples/*.yaml") // the pattern is good
	names := make([]string, len(paths))
	for i, p := range paths {
		names[i] = strings.TrimSuffix(path.Base(p), ".yaml")
	}
	return names
}

func runNew(s *streams, o *newOptions) error {
	text := specs.ShortStarter(o.kind, o.region)
	if o.full {
		text = specs.StarterIn(o.kind, o.region)
	}
	if o.example != "" {
		var err error
		if text, err = specs.Examples.ReadFile("examples/" + o.example + ".yaml"); err != nil {
			return err
		}
	}
	if o.out == "" || o.out == "-" {
		_, err := s.out.Write(text)
		return err
	}
	f, err := storage.NewDocument(s.disk, o.out)
	if err != nil {
		return err
	}
	return f.Finish(text)
}
