package explain

import (
	"cmp"
	"slices"

	"armwright/solver/drive"
	"armwright/solver/fit"
	"armwright/solver/judge"
	"armwright/specs"
)

// rival is a demand in a contest of demands that cannot all hold.
type rival struct {
	demand
	share  float64       // of the conflict when all give way alike
	strict bool          // suspected, and in the end a member of the smallest conflict
	alone  *judge.Result // a station that holds everything else as asked; nil if none was found
}

// contest finds a smallest conflict among the demands of a part: a set of which
// not all can hold even with every other demand at its loosest, but all others
// once any one of them gives way.
type contest struct {
	*explainer
	list  []rival
	known []*judge.Result // stations found on the way: witnesses of what can hold together
}

// run marks the members of the smallest conflict. First each suspect gives way
// alone, everything else held as asked: where that is enough, the suspect belongs
// to every conflict there is. If these few conflict by themselves they are the
// answer; otherwise suspects are dropped one after another (deletion filter;
// Chinneck and Dravnieks 1991) after being joined by whatever a station that
// meets them breaks (additive method; Chinneck 2008, 6.1). No member is marked
// where a search of the demands in doubt found a station after all.
func (c *contest) run() error {
	var suspects []*rival
	for i := range c.list {
		r := &c.list[i]
		if c.accused(r) || c.tight(&r.demand) {
			suspects = append(suspects, r)
		}
	}
	// What fights least is dropped first.
	slices.SortStableFunc(suspects, func(a, b *rival) int {
		return cmp.Compare(a.share, b.share)
	})
	found, failed, made := make([]*judge.Result, len(suspects)), make([]error, len(suspects)), make([]int, len(suspects))
	fit.ShareOut(len(suspects), func(i int) {
		own := *c.explainer
		own.searches = 0
		found[i], failed[i] = (&contest{explainer: &own}).alone(suspects[i])
		made[i] = own.searches
	})
	for i, r := range suspects {
		if c.searches += made[i]; c.searches > mostSearches {
			return errSearches
		}
		if failed[i] != nil {
			return failed[i]
		}
		if r.alone = found[i]; r.alone != nil {
			r.strict = true
			c.known = append(c.known, r.alone)
		}
	}
	holds, err := c.hold()
	if err != nil || holds == nil {
		return err
	}
	for _, r := range suspects {
		r.strict = true
	}
	for {
		if holds, err = c.hold(); err != nil {
			return err
		}
		if holds == nil {
			break
		}
		grown := false
		for i := range c.list {
			r := &c.list[i]
			if !r.strict && c.broken(&r.demand, holds) {
				r.strict, grown = true, true
				suspects = append(suspects, r)
			}
		}
		if !grown {
			for _, r := range suspects {
				r.strict = false
			}
			return nil
		}
	}
	for _, r := range suspects {
		if r.alone != nil {
			continue
		}
		r.strict = false
		if holds, err = c.hold(); err != nil {
			return err
		}
		r.strict = holds != nil
	}
	return nil
}

// alone returns a station that holds everything as asked but for one suspect, which
// gives way, as little as a search can have it; nil if none is found.
func (c *contest) alone(r *rival) (*judge.Result, error) {
	b := c.brief
	if r.loosen(&b); b == c.brief {
		return nil, nil
	}
	if c.part != standing {
		return c.seek(&b)
	}
	if r.coarse() {
		return c.closely(&b)
	}
	found, err := c.concede(&r.demand, &b, c.start())
	if err != nil || found != nil || !c.accused(r) {
		return found, err
	}
	// Too far from where the search ended: begin afresh.
	if found, err = c.closely(&b); err != nil || found == nil {
		return nil, err
	}
	return c.concede(&r.demand, &b, &found.Frame.Geometry)
}

// accused says whether a demand is missed, fights when all give way alike, or
// stands in a proof.
func (c *contest) accused(r *rival) bool {
	return r.share > leastShare || c.broken(&r.demand, c.last) ||
		slices.ContainsFunc(c.Proofs, func(p fit.Proof) bool { return slices.Contains(p.Demands, r.id) })
}

// hold returns a station that meets the strict demands with the others at their
// loosest, one known or newly sought; nil if none is found.
func (c *contest) hold() (*judge.Result, error) {
	b := c.brief
	for i := range c.list {
		if r := &c.list[i]; !r.strict {
			r.loosen(&b)
		}
	}
	for _, a := range c.known {
		if c.witness(a) {
			return a, nil
		}
	}
	a, err := c.seek(&b)
	if a != nil {
		c.known = append(c.known, a)
	}
	return a, err
}

// witness says whether a station keeps every strict demand. Past those it meets
// whatever the loosest demands still ask, as every station that was found does.
func (c *contest) witness(a *judge.Result) bool {
	return !slices.ContainsFunc(c.list, func(r rival) bool { return r.strict && c.broken(&r.demand, a) })
}

// seek looks for a station of a loosened brief, nil if it finds none: the drive
// alone on the station where the search ended, or what look finds.
func (c *contest) seek(b *specs.Brief) (*judge.Result, error) {
	if c.part != standing {
		return c.drives(b)
	}
	found, _, err := c.look(b)
	return found, err
}

// closely is seek with the nearest of what it finds begun anew, as Solve does: one search
// may miss by next to nothing a station that is there.
func (c *contest) closely(b *specs.Brief) (*judge.Result, error) {
	found, near, err := c.look(b)
	if found != nil || near == nil || err != nil {
		return found, err
	}
	return met(near.Anew(c.ctx, b, nil))
}

// look searches a loosened brief from where the search ended, then, unless that is
// hopeless, from the middle of the ranges with as many axis positions, and with more
// where they are allowed, until one is met. Near is the nearest of those that are not,
// nil for none.
func (c *contest) look(b *specs.Brief) (found *judge.Result, near *fit.Attempt, err error) {
	if s, err := c.open(b); s == nil {
		return nil, nil, err
	}
	here := c.start()
	n := len(here.Pivots.Axes)
	type try struct {
		axes int
		from *specs.Geometry
	}
	tries := []try{{n, here}, {n, nil}, {n + 3, nil}}
	if b.Posture.AxisPositions > c.brief.Posture.AxisPositions { // they are what gives way: each number is another station
		tries = append(tries, try{n + 2, nil}, try{n + 1, nil}, try{n + 4, nil}, try{n + 5, nil})
	}
	for i, t := range tries {
		if i > 0 && t.axes > b.Posture.AxisPositions {
			continue
		}
		a, err := c.attempt(b, t.axes, t.from)
		if found, err = met(a, err); found != nil || err != nil {
			return found, nil, err
		}
		if i == 0 && a.Hopeless() && b.Posture.AxisPositions == c.brief.Posture.AxisPositions {
			return nil, nil, nil
		}
		if near == nil || a.Misses() < near.Misses() {
			near = a
		}
	}
	return nil, near, nil
}

// met is the outcome of an attempt that meets everything, nil of any other.
func met(a *fit.Attempt, err error) (*judge.Result, error) {
	if err != nil || !a.Met {
		return nil, err
	}
	return a.Outcome()
}

// attempt searches a brief with one number of axis positions. A brief whose
// drive cannot be made gives an empty attempt.
func (e *explainer) attempt(b *specs.Brief, axes int, from *specs.Geometry) (*fit.Attempt, error) {
	if err := e.search(); err != nil {
		return nil, err
	}
	s, err := e.s.Like(&b.Asked)
	if err != nil {
		return nil, err
	}
	a := &fit.Attempt{Search: fit.Search{Program: s, Options: e.opt, Axes: axes, Start: from}}
	a.Make(e.ctx, b)
	if drive.Unmade(a.Err) {
		return &fit.Attempt{}, nil
	}
	return a, a.Err
}
