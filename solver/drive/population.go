package drive

import (
	"armwright/specs"
	"armwright/specs/people"
	"armwright/specs/strength"
)

// boundary returns the persons a station must fit.
func boundary(w specs.People) []people.Person {
	if w.Boundary == "ellipsoid" {
		return Population(w).Ellipsoid(w.Share)
	}
	return Population(w).Boundary(w.Low, w.High)
}

// Population is the population a brief asks for.
func Population(w specs.People) people.Population {
	var c people.Carrying
	c.Mean[people.Man], c.SD[people.Man] = w.Carrying.MenMean, w.Carrying.MenSD
	c.Mean[people.Woman], c.SD[people.Woman] = w.Carrying.WomenMean, w.Carrying.WomenSD
	c.Stature = w.Carrying.Stature
	p := people.Population{Source: w.Population, Carrying: c, Age: w.Age, Women: w.Women,
		Stronger: strength.Stronger(w.StrengthAt, w.StrengthSpread)}
	if w.Population == specs.PopulationTable {
		p.Table, _ = specs.ParsePopulation(w.Table) // a brief's has been read before
	}
	return p
}

// limb is a forearm with its hand: mass, kg, and its centre's distance from the elbow, mm.
type limb struct{ mass, centre float64 }

// medianLimbs are those of the median woman and man (segments of de Leva 1996).
func medianLimbs(w specs.People) (list [2]limb) {
	for i, sex := range []people.Sex{people.Woman, people.Man} {
		list[i].mass, list[i].centre = Population(w).Median(sex).ForearmHand()
	}
	return list
}
