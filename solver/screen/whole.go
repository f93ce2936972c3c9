package screen

import (
	"sync"

	"armwright/solver/build"
	"armwright/solver/drive"
	"armwright/solver/require"
	"armwright/solver/seat"
	"armwright/specs"
)

// Whole adds the rows of the station as a whole. Nobody watches where watch is nil.
func (s *Screen) Whole(g *specs.Geometry, d drive.State, st *build.Station, sat []seat.Person, out *require.Rows, known Memory, watch Watcher) {
	sc := s.Scene(g, d, sat, st)
	if watch == nil {
		s.stability(sc, out, known, nil)
		s.solid(sc, out, known)
		return
	}
	// Every case told of takes long enough for the rest to be worked out beside it.
	other := &require.Rows{Card: &s.Card, Quiet: out.Quiet}
	var group sync.WaitGroup
	group.Go(func() { s.solid(sc, other, known) })
	s.stability(sc, out, known, watch)
	group.Wait()
	out.List = append(out.List, other.List...)
}

// solid adds the rows of what is strong enough, clear of each other, and how large.
func (s *Screen) solid(sc *Scene, out *require.Rows, known Memory) {
	if !known.Recall(ofMembers, -1, out) {
		first := len(out.List)
		s.members(sc, out)
		known.Keep(ofMembers, -1, out.List[first:])
	}
	s.crushing(sc, out, known)
	s.bodyGaps(sc, out, known)
	s.frame(sc, out, known)
	s.bodies(sc, out, known)
	s.sizes(sc, out, known)
	known.Workshop().looked(sc, known)
}
