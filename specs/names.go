package specs

import (
	"armwright/specs/people"
	"armwright/specs/stock"
	"armwright/specs/strength"
)

// Names are the names a brief may use for things described elsewhere.
type Names struct {
	Populations []string // package people
	Curves      []string // strength curves, package strength
	Members     []string // tubes, package stock
	Cables      []string
	Bearings    []string
}

// KnownNames returns the names that a brief may use, in the order in which
// they are listed where they are described.
func KnownNames() Names {
	return Names{
		Populations: people.Sources(),
		Curves:      append(strength.Names(), CurveTable),
		Members:     stock.MemberNames(),
		Cables:      stock.CableNames(),
		Bearings:    stock.BearingNames(),
	}
}

// list is the list a names tag speaks of.
func (n Names) list(tag string) []string {
	switch tag {
	case "populations":
		return n.Populations
	case "curves":
		return n.Curves
	case "members":
		return n.Members
	case "cables":
		return n.Cables
	case "bearings":
		return n.Bearings
	}
	panic("specs: no list of names called " + tag)
}
