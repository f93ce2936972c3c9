package screen

import (
	"armwright/solver/build"
	"armwright/solver/drive"
	"armwright/solver/require"
	"armwright/solver/screen/crush"
)

// The least values of each axis position, in the order of their rows.
const (
	leastOfTube = iota
	leastOfGrip
	leastOfWeights
	leastOfFloor // from here on shares of what a part of the body needs
	leastOfHard
	leastsEach
)

// crushing adds the rows of crushing.
func (s *Screen) crushing(sc *Scene, out *require.Rows, known Memory) {
	if known.Recall(OfGaps, -1, out) {
		return
	}
	if sc.Station.Assembly == nil {
		none := make([]Least, leastsEach*len(sc.Geometry.Pivots.Axes))
		for i := range none {
			none[i].value = -unbuildable
			if i%leastsEach >= leastOfFloor {
				none[i].value /= crush.Hand.LeastGap()
			}
		}
		s.gapRows(none, out)
		return
	}
	first := len(out.List)
	list, follow, below := known.Gaps()
	switch {
	case !follow:
		var ok bool
		if list, ok = s.gaps(sc, below, out); !ok {
			list, _ = s.gaps(sc, nil, out)
		}
		known.KeepGaps(list)
	case !s.gapsOf(list, sc, out):
		s.gaps(sc, nil, out)
	}
	known.Keep(OfGaps, -1, out.List[first:])
}

// gaps adds the rows of crushing, for each axis position: the least gap of tube,
// grip and weights to anything, and the least share of what a foot needs at the
// floor and a hand at everything hard. Where below is not nil it gives what each
// row is thought to lie below; if one does not, gaps says so and adds nothing. Of
// rows that must govern it adds one for all positions. It returns what they are
// of.
func (s *Screen) gaps(sc *Scene, below func(i int) float64, out *require.Rows) ([]Least, bool) {
	g := sc.Geometry
	list := make([]Least, leastsEach*len(g.Pivots.Axes))
	for i := range list {
		list[i].value = farAway
		if below != nil {
			list[i].value = min(farAway, below(i))
		}
	}
	if out.Governing() {
		list = list[:leastsEach]
		for i := range list {
			list[i].value = min(farAway, out.Below("crush-gap"))
			if i >= leastOfFloor {
				list[i].value = min(farAway, out.Below("entry-gap"))
			}
		}
	}
	of := func(m *meeting) (any, entry *Least) {
		at := list
		if !out.Governing() {
			at = list[leastsEach*m.axis:]
		}
		any, entry = &at[leastOfWeights], &at[leastOfHard]
		switch {
		case out.Governing(), m.moving == build.TubeName:
			any = &at[leastOfTube]
		case m.moving == build.GripName:
			any = &at[leastOfGrip]
		}
		if m.fixed == floorName {
			entry = &at[leastOfFloor]
		}
		return any, entry
	}
	cut := func(m *meeting) float64 {
		any, entry := of(m)
		if m.part != crush.Finger {
			return max(any.value, entry.value*m.part.LeastGap())
		}
		return any.value
	}
	s.sweep(sc, cut, func(m *meeting, gap float64, at int) {
		any, entry := of(m)
		if gap < any.value {
			*any = Least{gap, at, m.moving, m.fixed, m.pair, m.part}
		}
		if m.part == crush.Finger {
			return
		}
		if share := gap / m.part.LeastGap(); share < entry.value {
			*entry = Least{share, at, m.moving, m.fixed, m.pair, m.part}
		}
	})
	for i := range list {
		if below != nil && list[i].moving == "" && list[i].value < farAway {
			return nil, false
		}
	}
	s.gapRows(list, out)
	return list, true
}

// gapsOf adds the rows of gaps for a station that differs from one whose least gaps
// are known by a difference: what was least there is least here too, but for
// ties, where it is one of the gaps that meet. It adds nothing and says so where a
// part is no longer there.
func (s *Screen) gapsOf(known []Least, sc *Scene, out *require.Rows) bool {
	m, movers := drive.NewMachine(sc.Geometry), s.Movers(&sc.Station.Values)
	now := make([]Least, len(known))
	for i, v := range known {
		if v.moving != "" {
			var ok bool
			if v.value, ok = s.gapOf(m, sc.Station, movers, &v); !ok {
				return false
			}
			if i%leastsEach >= leastOfFloor {
				v.value /= v.part.LeastGap()
			}
		}
		now[i] = v
	}
	s.gapRows(now, out)
	return true
}

// gapRows adds a row for each of the least gaps.
func (s *Screen) gapRows(list []Least, out *require.Rows) {
	for i := range list {
		e := &list[i]
		if i%leastsEach < leastOfFloor {
			w := out.Add("crush-gap", -1, e.value).At(s.Angles[e.at])
			if !out.Quiet && e.moving != "" {
				out.Named(w, "%s to %s", e.moving, e.fixed)
			}
			continue
		}
		w := out.Add("entry-gap", -1, e.value).At(s.Angles[e.at])
		if !out.Quiet && e.moving != "" {
			w.Case = require.Phrase{
				Words:   e.moving + " to " + e.fixed + ", %s for a " + e.part.String() + " of %s",
				Figures: []require.Figure{{Value: e.value * e.part.LeastGap(), Unit: "mm", Measured: true}, {Value: e.part.LeastGap(), Unit: "mm"}},
			}
		}
	}
}

// farAway stands for the gap of what is not there, mm, so that the number of
// rows does not depend on the geometry.
const farAway = 1e4
