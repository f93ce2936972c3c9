package judge

import (
	"iter"

	"armwright/solver/build"
	"armwright/solver/drive"
	"armwright/solver/require"
	"armwright/specs"
	"armwright/specs/people"
)

// Served adds the rows of coverage, where the brief asks for it, from who of the panel
// fits.
func (s *Judge) Served(g *specs.Geometry, d drive.State, st *build.Station, out *require.Rows) {
	all, sexes := s.panel(g, d, st)
	s.shares(all, sexes, out)
}

// panelSize is how many persons stand for the population while a station is searched
// for.
const panelSize = 400

// Panel are n persons who stand evenly for the population that coverage is asked of:
// as many women as men where it is asked of each, if there are both.
func (s *Judge) Panel(n int) iter.Seq[people.Person] {
	pop := drive.Population(s.Asked.People)
	if s.Asked.People.CoverageOf == "women-and-men" && pop.Women > 0 && pop.Women < 1 {
		pop.Women = 0.5
	}
	return pop.Panel(n)
}

// panel counts, for a brief that asks for coverage, who of the panel fits: persons that
// stand evenly for the population, and none of the random ones of the verdict.
func (s *Judge) panel(g *specs.Geometry, d drive.State, st *build.Station) (all Group, sexes [2]Group) {
	if s.Asked.People.Coverage == 0 {
		return all, sexes
	}
	u := s.usher(g, d, st)
	u.own.Quiet, u.other.Quiet, u.scratch.Quiet = true, true, true
	for _, who := range s.stand() {
		_, away := u.seat(who)
		for _, g := range [...]*Group{&all, &sexes[who.Sex]} {
			g.N++
			if away == 0 {
				g.Fits++
			}
		}
	}
	for _, g := range [...]*Group{&all, &sexes[0], &sexes[1]} {
		g.rate()
	}
	return all, sexes
}

// shares adds the rows of coverage from who fits, where the brief asks for it: of all,
// or of each sex that there is.
func (s *Judge) shares(all Group, sexes [2]Group, out *require.Rows) {
	who := &s.Asked.People
	if who.Coverage == 0 {
		return
	}
	add := func(g *Group, name string) {
		if g.N == 0 {
			return
		}
		w := out.Add("coverage", -1, g.Share)
		if out.Quiet {
			return
		}
		percent := func(x float64) require.Figure { return require.Figure{Value: 100 * x, Unit: "%", Measured: true} }
		w.Case = require.Phrase{Words: name + "%s persons, 95 %% interval %s to %s",
			Figures: []require.Figure{{Value: float64(g.N)}, percent(g.Low), percent(g.High)}}
	}
	if who.CoverageOf == "all" {
		add(&all, "")
		return
	}
	add(&sexes[people.Woman], "women, ")
	add(&sexes[people.Man], "men, ")
}
