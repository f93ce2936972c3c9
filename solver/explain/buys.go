package explain

import (
	"cmp"
	"math"
	"slices"

	"armwright/solver/fit"
	"armwright/solver/judge"
	"armwright/specs"
)

// Buy is what one change of a brief does for coverage: a search of the changed brief,
// begun at the station at hand, met all the rest of it with this.
type Buy struct {
	Changes []Change
	Served  judge.Group // the random persons of the verdict, of the sex that fits less where each is asked
	Gain    float64     // share of them more than without the change
	Met     bool        // as many as are asked for
}

// giveWay is by how many units that matter a limit that turns people away is eased, and
// leastTurned the share of the persons that it alone must turn away to be worth it.
const (
	giveWay     = 5.0
	leastTurned = 0.005
	mostEased   = 4
)

// buys tells what single changes buy where coverage is all that is missed, those
// that bring the most people first: more positions of axis or seat where the brief allows no more, handle
// positions half as far apart, and more room in each limit that turns people away by
// itself; nil elsewhere. What is kept for safety is not eased.
func (e *explainer) buys() ([]Buy, error) {
	ctx, sol := e.ctx, e.from
	if _, asked := sol.Requirement("coverage"); !asked {
		return nil, nil
	}
	for _, q := range sol.Requirements {
		if q.Met == (q.ID == "coverage") {
			return nil, nil
		}
	}
	brief := specs.Brief{Name: sol.Frame.Name, Asked: sol.Frame.Asked}
	from := &sol.Frame.Geometry
	now := served(&sol.Result)
	list := changes(&brief, &sol.Result)
	var out []Buy
	for _, c := range list {
		b := brief
		if err := b.Set(c.Path, c.To); err != nil {
			return nil, err
		}
		b = b.Quantised()
		s, err := e.s.Like(&b.Asked)
		if err != nil {
			return nil, err
		}
		s.Reserve(nil)
		a, err := s.Serve(ctx, &fit.Options{Starts: 1, Terse: true}, &fit.SearchLog{}, &b, from)
		if ctx.Err() != nil {
			return nil, ctx.Err()
		}
		if err != nil {
			continue // it cannot be built so
		}
		r, err := s.Check(a.Frame(), judge.Random(b.People))
		if err != nil {
			return nil, err
		}
		g := served(r)
		if g.Share > now.Share {
			out = append(out, Buy{Changes: []Change{c}, Served: g, Gain: g.Share - now.Share, Met: r.Verdict == judge.Met})
		}
	}
	slices.SortStableFunc(out, func(a, b Buy) int { return cmp.Compare(b.Gain, a.Gain) })
	return out, nil
}

// served is the group that coverage is judged by.
func served(r *judge.Result) judge.Group {
	c := &r.People.Crowd
	least := c.All
	if r.Frame.People.CoverageOf != "all" {
		least.Share = math.Inf(1)
		for _, g := range c.Sexes {
			if g.N > 0 && g.Share < least.Share {
				least = g
			}
		}
	}
	return least
}

// changes are those that may bring people in, of a brief that the station falls short of.
func changes(b *specs.Brief, r *judge.Result) []Change {
	var list []Change
	to := func(id, path string, x float64) {
		s, ok := b.Span(path)
		if x = math.Max(s.Least, math.Min(s.Most, x)); ok && x != s.Value {
			list = append(list, Change{Path: path, From: s.Format(s.Value), To: s.Format(x), ID: id, By: math.Abs(x - s.Value)})
		}
	}
	p, g := &b.Posture, &r.Frame.Geometry
	if len(g.Pivots.Axes) >= p.AxisPositions {
		to("posture.axis_positions", "posture.axis_positions", float64(p.AxisPositions+1))
	}
	if g.Seat.Positions >= p.SeatPositions {
		to("posture.seat_positions", "posture.seat_positions", float64(p.SeatPositions+2))
	}
	to("posture.handle_pitch", "posture.handle_pitch", p.HandlePitch/2)
	eased := 0
	for _, t := range r.People.Crowd.TurnedBy {
		q, ok := r.Requirement(t.ID)
		if !ok || q.Kept || q.Kind.Limit == "" || float64(t.Only) < leastTurned*float64(r.People.Sample) || eased == mostEased {
			continue
		}
		s, ok := b.Span(q.Kind.Limit)
		if !ok || q.Within {
			continue
		}
		eased++
		by := giveWay * q.Scale
		if q.AtLeast {
			by = -by
		}
		to(t.ID, q.Kind.Limit, s.Value+by)
	}
	return list
}
