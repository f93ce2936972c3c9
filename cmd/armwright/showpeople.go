package main

import (
	"armwright/cmd/armwright/listing"
	"armwright/specs/people"

	"github.com/spf13/cobra"
)

// populations are the sources of body sizes, the first by default.
var populations = [...]string{"civilian", "survey"}

// sources tells where a population's figures come from.
func sources(population string) string {
	if population == "survey" {
		return "body sizes of the 2012 survey (4082 men, 1986 women; NATICK/TR-15/007)"
	}
	return "statures and shapes of the 2012 survey (4082 men, 1986 women; NATICK/TR-15/007), body mass index of civilians (2009-2012 health survey)"
}

func newShowPeople(s *streams, asJSON *bool) *cobra.Command {
	var boundary bool
	cmd := &cobra.Command{
		Use:   "people [civilian|survey]",
		Short: "Body sizes at the 5th, 50th and 95th percentile",
		Long: `People lists the body sizes behind a population: the 2012 survey with the mass
and girths of civilians (the default), or with its own; by sex, and the range
over both, which is not that from the small woman to the large man: women's hips
are broader. With --boundary it lists the persons that stand for that range in a
design. The names are those of the columns of a table of measured persons.`,
		Args:      between(0, 1, "the population"),
		ValidArgs: populations[:],
		RunE: func(_ *cobra.Command, args []string) error {
			p := people.Population{Source: populations[0], Carrying: people.DefaultCarrying(), Women: 0.5, Age: 30}
			if len(args) > 0 {
				p.Source = args[0]
			}
			if p.Source != populations[0] && p.Source != populations[1] {
				return usage("populations are "+sentence(populations[:], "and"), "show: no population %q", p.Source)
			}
			if boundary {
				return boundaryPersons(p).Print(s.out, s.columns, *asJSON)
			}
			t, err := sizes(p)
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

func sizes(p people.Population) (*listing.Table, error) {
	t := &listing.Table{
		Title:   p.Source + ": " + sources(p.Source) + "; carrying angle Van Roy et al. 2005",
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

func boundaryPersons(p people.Population) *listing.Table {
	names := people.Dimensions()
	t := &listing.Table{Title: p.Source + ": " + sources(p.Source), Columns: []string{"label", "extrapolated"}}
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
