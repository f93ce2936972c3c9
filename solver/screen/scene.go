package screen

import (
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

// parts is how many parts the station has, 0 where nothing can be built.
func (sc *Scene) parts() int {
	if sc.Station.Assembly == nil {
		return 0
	}
	return len(sc.Station.Assembly.Parts)
}

// EntryCase is somebody getting on, or pushing.
type EntryCase struct {
	Case   require.Phrase
	Weight float64 // of the person on the station, kg; 0 for a push alone
	Push   float64 // level, outward, N
	Height float64 // of the push, mm
	X, Y   float64 // where the floor's resultant acts, mm
	Inside float64 // of the nearest tipping edge, mm
	Edge   string
	Tilt   float64 // left until it tips, rad
}

// StabilityCase is one case of balance.
type StabilityCase struct {
	Case    require.Phrase
	Person  string
	Mass    float64 // kg
	X, Y, Z float64 // centre of mass, mm
	Tilt    float64 // rad, least over the edges
	Edge    string  // front, rear, side
	Energy  float64 // N·mm
	Angle   float64 // flexion, rad
	Lift    float64 // of the load, mm
}

// The ways of using the arms.
const (
	bothArms = iota
	rightAlone
	waysOfUse
)
