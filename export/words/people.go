package words

import (
	"fmt"
	"math"
	"strings"

	"armwright/solver/judge"
	"armwright/solver/tolerance"
	"armwright/specs"
)

// Source tells where persons come from.
func Source(s judge.Source) string {
	switch {
	case s.Table != "":
		return "measured persons of " + s.Table
	case s.Population == specs.PopulationTable:
		return fmt.Sprintf("random persons, body sizes of a table of its own, %.0f %% women", 100*s.Women)
	case s.Population != "":
		return fmt.Sprintf("random persons, %s body sizes, %.0f %% women", s.Population, 100*s.Women)
	}
	return ""
}

// Room tells what room for builds does, "" where no builds were drawn.
func Room(r *tolerance.Room) string {
	if r.Builds == nil {
		return ""
	}
	percent := func(v float64) string { return fmt.Sprintf("%.0f %%", math.Floor(100*v)) }
	note := fmt.Sprintf("Solved with room for builds, parts to ISO 2768-%s and welds to ISO 13920-%s: of %d drawn %s meet everything, %s miss no limit by more than one unit that matters.",
		r.Classes.Machined, r.Classes.Welded, r.Builds.Builds, percent(r.Builds.Met), percent(r.Builds.Near))
	if len(r.Short) == 0 {
		return note + " Each limit is met by 95 % at least."
	}
	var list []string
	for _, s := range r.Short {
		list = append(list, fmt.Sprintf("%s by %s", s.ID, percent(s.Met)))
	}
	return note + " There is no room for 95 % to meet each limit: " + strings.Join(list, ", ") + "."
}
