package main

import (
	"math"

	"armwright/cmd/armwright/listing"
	"armwright/solver/require"
	"armwright/specs"
	"armwright/specs/strength"

	"github.com/spf13/cobra"
)

func newShow(s *streams) *cobra.Command {
	show := &cobra.Command{
		Use:   "show",
		Short: "List what a brief may use: people, curves, stock, requirements, units, exit codes",
		Args:  knownCommand,
		RunE:  func(cmd *cobra.Command, _ []string) error { return cmd.Help() },
	}
	var asJSON bool
	show.PersistentFlags().BoolVar(&asJSON, "json", false, "print a list of objects as JSON instead of text")
	list := func(name, short string, rows func() (*listing.Table, error)) {
		show.AddCommand(&cobra.Command{
			Use: name, Short: short, Args: exactly(0, ""),
			RunE: func(*cobra.Command, []string) error {
				t, err := rows()
				if err != nil {
					return err
				}
				return t.Print(s.out, s.columns, asJSON)
			},
		})
	}
	show.AddCommand(newShowPeople(s, &asJSON), newShowStock(s, &asJSON))
	list("curves", "Strength curves, with their sources", curves)
	list("requirements", "Requirements, with their default limits", requirements)
	list("units", "Units that quantities may carry", units)
	list("exit-codes", "What the exit codes mean", codes)
	return show
}

// rounded keeps a few decimals of a number that is only shown.
func rounded(x float64, decimals int) float64 {
	p := math.Pow10(decimals)
	return math.Round(x*p)/p + 0
}

const degree = specs.Degree

func curves() (*listing.Table, error) {
	t := &listing.Table{Columns: []string{"name", "peak_deg", "from_deg", "to_deg", "shape_0_to_140", "mark", "title", "source"}}
	for _, name := range strength.Names() {
		c, err := strength.ByName(name)
		if err != nil {
			return nil, err
		}
		t.Add(c.Name, rounded(c.Peak/degree, 0), rounded(c.Valid[0]/degree, 0), rounded(c.Valid[1]/degree, 0), plotted(c), c.Mark, c.Title, c.Source)
	}
	return t, nil
}

// plotted draws a curve in one line: its height above zero every ten degrees of
// flexion from 0 to 140, in eighths of its peak.
func plotted(c strength.Curve) string {
	levels := []rune("▁▂▃▄▅▆▇█")
	var line []rune
	for d := 0.0; d <= 140; d += 10 {
		k := int(math.Ceil(c.At(d*degree)*float64(len(levels)))) - 1
		line = append(line, levels[max(0, min(k, len(levels)-1))])
	}
	return string(line)
}

// requirements lists the requirements with the limits of a brief that leaves
// everything at its default.
func requirements() (*listing.Table, error) {
	t := &listing.Table{Columns: []string{"id", "asks", "sense", "default_limit", "key", "source"}}
	brief, err := specs.ParseBrief("starter", specs.Starter("arm-pad"))
	if err != nil {
		return nil, err
	}
	for _, k := range require.Kinds() {
		sense := "at most"
		if k.AtLeast {
			sense = "at least"
		}
		limit, key := defaultLimit(&brief, &k)
		t.Add(k.ID, k.Asks, sense, limit, key, k.Source)
	}
	return t, nil
}

func codes() (*listing.Table, error) {
	t := &listing.Table{Columns: []string{"code", "meaning"}}
	for _, c := range exitCodes() {
		t.Add(int(c.code), c.meaning)
	}
	return t, nil
}

// unitRows lists the units that quantities may carry, with an example. The
// reader of briefs is asked for the size of each; a test holds the list
// against what the reader names.
func unitRows() []struct {
	kind  specs.Kind
	units []string
} {
	return []struct {
		kind  specs.Kind
		units []string
	}{
		{specs.Length, []string{"mm", "cm", "m", "in", "ft"}},
		{specs.Angle, []string{"deg", "°", "rad"}},
		{specs.Mass, []string{"kg", "g", "lb"}},
		{specs.Force, []string{"N", "kN", "lbf"}},
		{specs.Torque, []string{"N m", "N·m", "Nm", "N mm", "N·mm", "Nmm", "lbf in", "lbf ft"}},
		{specs.Percent, []string{"%"}},
		{specs.Time, []string{"y"}},
	}
}

func units() (*listing.Table, error) {
	t := &listing.Table{Columns: []string{"kind", "unit", "is"}}
	for _, r := range unitRows() {
		for _, u := range r.units {
			v, err := specs.ParseQuantity("1 "+u, r.kind)
			if err != nil {
				return nil, err
			}
			const digits = -9
			t.Add(string(r.kind), u, specs.FormatQuantity(v, r.kind, digits))
		}
	}
	return t, nil
}

// defaultLimit is the limit of a requirement that a brief leaves at its default, and the
// key that sets it; of one whose limit follows from other values, the keys of those.
func defaultLimit(b *specs.Brief, k *require.Kind) (limit, key string) {
	if s, ok := b.Span(k.Limit); ok {
		return s.Format(s.Value), k.Key()
	}
	return "follows from", k.Levers()
}
