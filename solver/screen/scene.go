package screen

import (
	"sync"

	"armwright/geometry/station"
	"armwright/solver/drive"
	"armwright/solver/require"
	"armwright/solver/seat"
	"armwright/specs"

	"gonum.org/v1/gonum/spatial/r2"
)

// Screen judges a station as a whole, with everybody seated: how it stands, what
// meets, what it bears.
type Screen struct{ seat.Placer }

// Scene is a station as it stands, with everybody seated on it.
type Scene struct {
	Geometry *specs.Geometry
	layout   station.Layout
	built    station.Structure
	drive    drive.State
	seated   []seat.Person // by boundary person
}

// Watcher is told every case of balance, which takes longer than finding those
// that govern.
type Watcher interface {
	Tipping(StabilityCase)
	Entry(EntryCase)
	// Stands tells the outcome over all cases of tipping: the hull of the centres of mass
	// on the floor, and the greatest pull on an anchor, N.
	Stands(anchored bool, envelope []r2.Vec, pull float64)
}

// Whole adds the rows of the station as a whole. Nobody watches where watch is nil.
func (s *Screen) Whole(g *specs.Geometry, d drive.State, sat []seat.Person, out *require.Rows, known Memory, watch Watcher) {
	l := s.Furnish(g, &d)
	sc := &Scene{Geometry: g, layout: l, built: l.Build(), drive: d, seated: sat}
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
		s.members(sc.Geometry, sc.layout, sc.seated, sc.drive.Level, sc.drive.HeavyTension, out)
		known.Keep(ofMembers, -1, out.List[first:])
	}
	s.crushing(sc, out, known)
	s.bodyGaps(sc, out, known)
	s.sizes(sc.Geometry, sc.layout, out)
}
