// Package stock lists what a station is built from, by name: tubes with their
// section properties, steels, cables, bearing units, plates, shafts, belt
// pulleys and weight plates; and the handbook formulas and general tolerances
// that go with them. Lengths are mm, masses kg, forces N, stresses N/mm².
//
// Every list tells where its figures come from and how far that was checked: S
// seen in the source, M from memory of a named source, D derived, own a choice
// made here. Figures marked M need the maker's sheet before anything is built.
package stock

import (
	"fmt"
	"strings"
)

// UnknownError reports a name that a list does not have.
type UnknownError struct {
	Kind  string // "tube", "cable", ...
	Name  string
	Known []string
}

func (e *UnknownError) Error() string {
	return fmt.Sprintf("no %s %q in stock; %s", e.Kind, e.Name, e.hint())
}

// hint names the entries that share the longest beginning with the name asked
// for, all of them where the list is short.
func (e *UnknownError) hint() string {
	const short = 8
	near := e.Known
	for n := len(e.Name); n > 0 && len(e.Known) > short; n-- {
		var alike []string
		for _, known := range e.Known {
			if strings.HasPrefix(known, e.Name[:n]) {
				alike = append(alike, known)
			}
		}
		if alike != nil {
			near = alike
			break
		}
	}
	if len(near) > short {
		return fmt.Sprintf("%d are known, from %s to %s", len(near), near[0], near[len(near)-1])
	}
	return "known are " + strings.Join(near, ", ")
}

// named is an entry of a list.
type named interface{ name() string }

// names returns the names of a list, in its order.
func names[T named](list []T) []string {
	out := make([]string, len(list))
	for i, item := range list {
		out[i] = item.name()
	}
	return out
}

// find returns the entry with a name, or an *UnknownError.
func find[T named](kind, name string, list []T) (T, error) {
	for _, item := range list {
		if item.name() == name {
			return item, nil
		}
	}
	var none T
	return none, &UnknownError{Kind: kind, Name: name, Known: names(list)}
}

const (
	inch       = 25.4       // mm
	pound      = 4.448222   // N, pound-force
	poundMass  = 0.45359237 // kg
	perMetre   = 1000       // mm
	steelMass  = 7.85e-6    // kg/mm³
	kilonewton = 1000       // N
)

// Inch says whether a name of stock is of the inch system, as 1.5x1.5x0.125in.
func Inch(name string) bool { return strings.HasSuffix(name, "in") }
