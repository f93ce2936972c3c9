package main

import (
	"slices"

	"armwright/cmd/armwright/listing"
	"armwright/specs/stock"

	"github.com/spf13/cobra"
)

// shelves are the lists of stock, in the order they are shown.
var shelves = [...]string{"tubes", "steels", "cables", "bearings", "pulleys"}

func newShowStock(s *streams, asJSON *bool) *cobra.Command {
	return &cobra.Command{
		Use:       "stock [tubes|steels|cables|bearings|pulleys]",
		Short:     "Tubes, steels, cables, bearings and pulleys, with their sources",
		Args:      between(0, 1, "the list"),
		ValidArgs: shelves[:],
		RunE: func(_ *cobra.Command, args []string) error {
			if len(args) > 0 && !slices.Contains(shelves[:], args[0]) {
				return usage("lists are "+sentence(shelves[:], "and"), "show: no list of stock %q", args[0])
			}
			if *asJSON && len(args) == 0 {
				return usage("name one of "+sentence(shelves[:], "or"), "show: stock as JSON comes one list at a time")
			}
			for i, name := range shelves {
				if len(args) > 0 && name != args[0] {
					continue
				}
				t, err := shelf(name)
				if err != nil {
					return err
				}
				if len(args) == 0 {
					t.Title = name
					if i > 0 {
						t.Title = "\n" + name
					}
				}
				if err := t.Print(s.out, s.columns, *asJSON); err != nil {
					return err
				}
			}
			return nil
		},
	}
}

func shelf(name string) (*listing.Table, error) {
	t := &listing.Table{}
	switch name {
	case "tubes":
		t.Columns = []string{"name", "height_mm", "width_mm", "wall_mm", "mass_kg_per_m", "mark", "source"}
		for _, n := range stock.MemberNames() {
			m, err := stock.Member(n)
			if err != nil {
				return nil, err
			}
			t.Add(m.Name, rounded(m.H, 2), rounded(m.B, 2), rounded(m.T, 2), rounded(m.Mass, 2), m.Mark, m.Source)
		}
	case "steels":
		t.Columns = []string{"name", "yield_n_per_mm2", "tensile_n_per_mm2", "mark", "source"}
		for _, n := range stock.SteelNames() {
			g, err := stock.SteelGrade(n)
			if err != nil {
				return nil, err
			}
			t.Add(g.Name, rounded(g.Yield, 0), rounded(g.Tensile, 0), g.Mark, g.Source)
		}
	case "cables":
		t.Columns = []string{"name", "diameter_mm", "breaking_n", "least_tread_ratio", "desirable_tread_ratio", "mark", "source"}
		for _, n := range stock.CableNames() {
			c, err := stock.Cable(n)
			if err != nil {
				return nil, err
			}
			t.Add(c.Name, rounded(c.Diameter, 2), rounded(c.Breaking, 0), c.CriticalRatio, c.DesirableRatio, c.Mark, c.Source)
		}
	case "bearings":
		t.Columns = []string{"name", "bore_mm", "dynamic_n", "static_n", "mark", "source"}
		for _, n := range stock.BearingNames() {
			b, err := stock.Bearing(n)
			if err != nil {
				return nil, err
			}
			t.Add(b.Name, b.Bore, b.Dynamic, b.Static, b.Mark, b.Source)
		}
	case "pulleys":
		t.Columns = []string{"teeth", "pitch_diameter_mm"}
		for _, n := range stock.PulleyTeeth() {
			t.Add(n, rounded(stock.PitchDiameter(n), 2))
		}
	}
	return t, nil
}
