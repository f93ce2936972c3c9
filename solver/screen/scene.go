package screen

import (
	"sync"

	"armwright/geometry/person"
	"armwright/geometry/solid"
	"armwright/geometry/station"
	"armwright/solver/build"
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
	Station  *build.Station
	stand    build.Stand
	drive    drive.State
	seated   []seat.Person // by boundary person
}

// Scene is that of a station with everybody seated.
func (s *Screen) Scene(g *specs.Geometry, d drive.State, sat []seat.Person, st *build.Station) *Scene {
	return &Scene{Geometry: g, drive: d, seated: sat, Station: st, stand: st.Stand(g.Base)}
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

// Workshop is where stations are built and persons stood beside them, again and
// again in the same memory. The zero value is ready; it is for one goroutine at a
// time.
type Workshop struct {
	maker  station.Maker
	around person.Surroundings
	slots  slots // of needs

	// Of the last station that was looked at whole.
	parts   int              // how many it has
	nearest []person.Closest // to each boundary person
	outmost []outlier        // parts at the edges of its envelope
	taken   []taken          // scratch: parts that were looked at for them
	balls   []float64        // and how far each reaches from its centre
	places  []solid.Placement
}

// Maker is what builds the station.
func (w *Workshop) Maker() *station.Maker { return &w.maker }

// looked takes note of the station that was looked at.
func (w *Workshop) looked(sc *Scene, known Memory) {
	if !known.Near() {
		w.parts = sc.parts()
	}
}

// follows says whether a station differs so little from the last that was looked at
// whole that what governed there is all that need be looked at.
func (w *Workshop) follows(sc *Scene, known Memory) bool {
	return known.Near() && w.parts > 0 && w.parts == sc.parts()
}

// parts is how many parts the station has, 0 where nothing can be built.
func (sc *Scene) parts() int {
	if sc.Station.Assembly == nil {
		return 0
	}
	return len(sc.Station.Assembly.Parts)
}
