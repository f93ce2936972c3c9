package judge

import (
	"armwright/solver/contact"
	"armwright/solver/require"
	"armwright/solver/screen"
	"armwright/solver/seat"
	"armwright/specs"
)

// contacts adds, for every boundary person, the part of the load within strength that
// can be held.
func contacts(s *seat.Placer, g *specs.Geometry, list []contact.Outcome, out *require.Rows) {
	for i := range list {
		w := out.Add("contact", i, list[i].Part).At(s.Angles[list[i].At])
		if g.ChestPad == nil && !s.Reclined() {
			w.Named("nothing before the chest")
		}
	}
}

// discLimit is the compression of the lowest disc above which the risk of lifting is
// held to rise, N (NIOSH 1981, M).
const discLimit = 3400.0

// disc tells the greatest compression of the lowest disc, of the person with the most.
func disc(sat []seat.Person, held []contact.Outcome) screen.Protection {
	worst := 0
	for i := range held {
		if held[i].Disc[1] > held[worst].Disc[1] {
			worst = i
		}
	}
	p := screen.Protection{Joint: "spine", What: "compression of the lowest disc at the heaviest load", Force: true, Limit: discLimit,
		Source: "3400 N (NIOSH 1981, M); back muscles at 50 mm, as most models take (Güngör 2013, S), to 75 mm (McGill and Norman, M)",
		Note:   "of the state of least forces; the lower figure with the longer lever arm"}
	p.Value, p.Least = held[worst].Disc[1], held[worst].Disc[0]
	p.Met, p.Person = p.Value <= discLimit, sat[worst].Person.Label
	return p
}
