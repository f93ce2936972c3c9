package main

import (
	"slices"

	"armwright/cmd/armwright/listing"
	"armwright/specs"
	"armwright/specs/people"

	"github.com/spf13/cobra"
)

// populations are the sources of body sizes that need no table, the first by default.
func populations() []string {
	list := people.Sources()
	return slices.DeleteFunc(list, func(name string) bool { return name == specs.PopulationTable })
}

// sources tells where a population's figures come from.
func sources(population string) string {
	const survey = "2012 survey (4082 men, 1986 women; NATICK/TR-15/007)"
	switch population {
	case "survey":
		return "body sizes of the " + survey
	case "national":
		return "statures and body mass index of civilians aged 20 and over (2009-2012 health survey, 5485 men, 5765 women), shapes of the " + survey
	case "national-18-65":
		return "statures and body mass index of civilians aged 18 to 65 (2009-2012 health survey, 4529 men, 4735 women), shapes of the " + survey
	case specs.PopulationTable:
		return "means, deviations and correlations of its own, the rest by regression of the " + survey
	}
	return "statures and shapes of the " + survey + ", body mass index of civilians (2009-2012 health survey)"
}

func newShowPeople(s *streams, asJSON *bool) *cobra.Command {
	var boundary bool
	cmd := &cobra.Command{
		Use:   "people [POPULATION|FILE]",
		Short: "Body sizes at the 5th, 50th and 95th percentile",
		Long: `People lists the body sizes behind a population: the 2012 survey with the mass
and girths of civilians (the default), survey with its own, national and
national-18-65 with the statures and mass of the national health survey of those
ages, or a CSV or YAML file of means, standard deviations and correlations, as
people.population names one; by sex, and the range
over both, which is not that from the small woman to the large man: women's hips
are broader. With --boundary it lists the persons that stand for that range in a
design. The names are those of the columns of a table of measured persons.`,
		Args:      between(0, 1, "the population"),
		ValidArgs: populations(),
		RunE: func(_ *cobra.Command, args []string) error {
			p := people.Population{Source: populations()[0], Carrying: people.DefaultCarrying(), Women: 0.5, Age: 30}
			title := p.Source
			if len(args) > 0 {
				title, p.Source = args[0], args[0]
			}
			switch {
			case specs.IsPopulationFile(p.Source):
				_, text, err := readPopulation(s, p.Source)
				if err != nil {
					return err
				}
				p.Source = specs.PopulationTable
				if p.Table, err = specs.ParsePopulation(text); err != nil {
					return err
				}
			case !slices.Contains(populations(), p.Source):
				return usage("populations are "+sentence(populations(), "and")+", or a CSV or YAML file", "show: no population %q", p.Source)
			}
			title += ": " + sources(p.Source)
			if boundary {
				return boundaryPersons(p, title).Print(s.out, s.columns, *asJSON)
			}
			t, err := sizes(p, title)
			if err != nil {
				return err
			}
			return t.Print(s.out, s.columns, *asJSON)
		},
	}
	cmd.Flags().BoolVar(&boundary, "boundary", false, "list the boundary persons of the 5th to 95th percentile instead")
	return cmd
}

// unitOf is the unit a dimension is shown in, and its size in inside units.
func unitOf(dim string) (unit string, scale float64) {
	switch dim {
	case "mass":
		return "kg", 1
	case "carrying_angle":
		return "deg", degree
	}
	return "mm", 1
}

func sizes(p people.Population, title string) (*listing.Table, error) {
	t := &listing.Table{
		Title:   title + "; carrying angle Van Roy et al. 2005",
		Columns: []string{"dimension", "unit", "women_5", "women_50", "women_95", "men_5", "men_50", "men_95", "both_from", "both_to"},
	}
	for _, name := range people.Dimensions() {
		unit, scale := unitOf(name)
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
		from, to, err := p.Envelope(name, 0.05, 0.95)
		if err != nil {
			return nil, err
		}
		t.Add(append(row, rounded(from/scale, 1), rounded(to/scale, 1))...)
	}
	return t, nil
}

func boundaryPersons(p people.Population, title string) *listing.Table {
	names := people.Dimensions()
	t := &listing.Table{Title: title, Columns: []string{"label", "extrapolated"}}
	for _, name := range names {
		unit, _ := unitOf(name)
		t.Columns = append(t.Columns, name+"_"+unit)
	}
	for _, person := range p.Boundary(0.05, 0.95) {
		row := []any{person.Label, person.Extrapolated}
		for i, x := range person.Values(nil) {
			_, scale := unitOf(names[i])
			row = append(row, rounded(x/scale, 1))
		}
		t.Add(row...)
	}
	return t
}
