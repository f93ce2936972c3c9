// Package where holds conditions on people in plain English: "women under 1.60 m",
// "people over 100 kg and under 1.70 m", "men with BMI between 30 and 40".
package where

import (
	"strings"

	"armwright/specs"
	"armwright/specs/people"
)

// Condition is a set of persons: those for whom one of its groups holds. Parse makes
// it; the zero value holds for nobody.
type Condition struct {
	text   string
	groups []group
}

// group holds for persons of a sex who keep every bound.
type group struct {
	sexes  [2]bool // by people.Sex
	bounds []bound
}

// bound holds a measure of a person between two values, inside units.
type bound struct {
	measure   measure
	from, to  float64 // -Inf and +Inf where there is no end
	including bool    // the ends themselves
}

// measure is something of a person that can be told in a number.
type measure struct {
	kind specs.Kind // of its quantities
	of   func(*people.Person) float64
}

// String is the condition as it was written.
func (c *Condition) String() string { return c.text }

// Holds says whether a person is meant.
func (c *Condition) Holds(p *people.Person) bool {
	for i := range c.groups {
		if c.groups[i].holds(p) {
			return true
		}
	}
	return false
}

func (g *group) holds(p *people.Person) bool {
	if !g.sexes[p.Sex] {
		return false
	}
	for _, b := range g.bounds {
		v := b.measure.of(p)
		if v < b.from || v > b.to || !b.including && (v == b.from || v == b.to) {
			return false
		}
	}
	return true
}

// named are the measures by the words that name them, without a unit's help.
func named(words string) (measure, bool) {
	switch words {
	case "height", "body height", "tall":
		words = "stature"
	case "weight", "body mass", "body weight", "heavy":
		words = "mass"
	case "bmi", "body mass index":
		return measure{specs.Number, func(p *people.Person) float64 { return p.BMI() }}, true
	case "age", "old", "aged":
		return measure{specs.Time, func(p *people.Person) float64 { return p.Age }}, true
	}
	name := strings.ReplaceAll(words, " ", "_")
	for _, known := range people.Dimensions() {
		if known != name {
			continue
		}
		return measure{specs.DimensionKind(name), func(p *people.Person) float64 {
			v, _ := p.Dimension(name) // which is known
			return v
		}}, true
	}
	return measure{}, false
}
