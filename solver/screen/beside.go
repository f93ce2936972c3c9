package screen

import (
	"armwright/geometry/person"
	"armwright/geometry/station"
	"armwright/solver/build"
	"armwright/solver/drive"
	"armwright/solver/require"
	"armwright/solver/seat"
	"armwright/specs"
)

// Beside stands persons beside one station, one after another. It is for one goroutine
// at a time.
type Beside struct {
	s       *Screen
	g       *specs.Geometry
	station *build.Station
	machine drive.Machine
	swings  []build.Swing
	around  person.Surroundings
}

// Beside readies a station, which must stay as it is.
func (s *Screen) Beside(g *specs.Geometry, st *build.Station) *Beside {
	b := &Beside{s: s, g: g, station: st, machine: drive.NewMachine(g), swings: swingsOf(g)}
	if st.Assembly != nil {
		b.around.Reset(st.Assembly, station.Contacts(), s.Angles[:1])
	}
	return b
}

// Add adds the rows of body-gap and body-frame of a person who need not be one of the
// boundary, where one is not met. What cannot be built is in nobody's way.
func (b *Beside) Add(p *seat.Person, out *require.Rows) {
	s, v := b.s, &b.station.Values
	below := s.LimitOf("body-gap")
	right, left, two := s.grasps(b.swings, p)
	s.bodyGap(b.g, right, v, -1, p, below, out)
	if two {
		s.bodyGap(b.g, left, v, -1, p, below, out)
	}
	if b.station.Assembly == nil {
		return
	}
	sizes, pose, positions := s.Figure(b.machine, p)
	limit := s.LimitOf("body-frame")
	if near := b.around.Seated(&sizes, &pose, positions, limit); near.Part >= 0 {
		out.Add("body-frame", -1, near.Gap)
	}
}
