package main

import (
	"armwright/specs/people"

	"github.com/spf13/cobra"
)

// populations are the sources of body sizes, the first by default.
var populations = [...]string{"civilian", "survey"}

func newShowPeople(s *streams, asJSON *bool) *cobra.Command {
	return &cobra.Command{
		Use:   "people [civilian|survey]",
		Short: "Body sizes at the 5th, 50th and 95th percentile",
		Long: `People lists the body sizes behind a population: the 2012 survey with the mass
and girths of civilians (the default), or with its own.`,
		Args:      between(0, 1, "the population"),
		ValidArgs: populations[:],
		RunE: func(_ *cobra.Command, args []string) error {
			p := people.Population{Source: populations[0], Carrying: people.DefaultCarrying(), Women: 0.5}
			if len(args) > 0 {
				p.Source = args[0]
			}
			if p.Source != populations[0] && p.Source != populations[1] {
				return usage("populations are "+sentence(populations[:], "and"), "show: no population %q", p.Source)
			}
			t, err := sizes(p)
			if err != nil {
				return err
			}
			return t.print(s, *asJSON)
		},
	}
}

func sizes(p people.Population) (*table, error) {
	t := &table{columns: []string{"dimension", "unit", "women_5", "women_50", "women_95", "men_5", "men_50", "men_95"}}
	for _, name := range people.Dimensions() {
		unit, scale := "mm", 1.0
		switch name {
		case "mass":
			unit = "kg"
		case "carrying_angle":
			unit, scale = "deg", degree
		}
		row := []any{name, unit}
		for _, sex := range []people.Sex{people.Woman, people.Man} {
			for _, q := range []float64{0.05, 0.5, 0.95} {
				v, err := p.Percentile(name, sex, q)
				if err != nil {
					return nil, err
				}
				row = append(row, rounded(v/scale, 1))
			}
		}
		t.add(row...)
	}
	return t, nil
}
