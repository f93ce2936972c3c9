package fit

import (
	"sync"

	"armwright/geometry/station"
	"armwright/specs"

	"gonum.org/v1/gonum/spatial/r2"
)

// screening judges a station as a whole, with everybody seated: how it stands, what
// meets, what it bears.
type screening struct{ placer }

// scene is a station as it stands, with everybody seated on it.
type scene struct {
	geo    *specs.Geometry
	layout station.Layout
	built  station.Structure
	drive  drive
	seated []Person // by boundary person
}

// watcher is told every case of balance, which takes longer than finding those
// that govern.
type watcher interface {
	Tipping(StabilityCase)
	Entry(EntryCase)
	// Stands tells the outcome over all cases of tipping: the hull of the centres of mass
	// on the floor, and the greatest pull on an anchor, N.
	Stands(anchored bool, envelope []r2.Vec, pull float64)
}

// whole adds the rows of the station as a whole. Nobody watches where watch is nil.
func (s *screening) whole(g *specs.Geometry, d drive, sat []Person, out *rows, known memory, watch watcher) {
	l := s.furnish(g, &d)
	sc := &scene{geo: g, layout: l, built: l.Build(), drive: d, seated: sat}
	if watch == nil {
		s.stability(sc, out, known, nil)
		s.solid(sc, out, known)
		return
	}
	// Every case told of takes long enough for the rest to be worked out beside it.
	other := &rows{card: &s.card, quiet: out.quiet}
	var group sync.WaitGroup
	group.Go(func() { s.solid(sc, other, known) })
	s.stability(sc, out, known, watch)
	group.Wait()
	out.list = append(out.list, other.list...)
}

// solid adds the rows of what is strong enough, clear of each other, and how large.
func (s *screening) solid(sc *scene, out *rows, known memory) {
	if !known.Recall(ofMembers, -1, out) {
		first := len(out.list)
		s.members(sc.geo, sc.layout, sc.seated, sc.drive.level, sc.drive.heavyTension, out)
		known.Keep(ofMembers, -1, out.list[first:])
	}
	s.crushing(sc, out, known)
	s.bodyGaps(sc, out, known)
	s.sizes(sc.geo, sc.layout, out)
}
