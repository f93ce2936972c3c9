package judge

import (
	"reflect"
	"sync"

	"armwright/solver/contact"
	"armwright/solver/drive"
	"armwright/solver/seat"
	"armwright/specs"
)

// recall keeps what was worked out last of a station's persons and depends on the heaviest
// load alone. While somebody drags one of the others, most of judging is spared. It may be
// used by several goroutines at a time.
type recall struct {
	mu   sync.Mutex
	last *lasting
}

// lasting is what checking tells of the persons of one station beside their places: hand
// paths of arms that turn, and how the persons are held.
type lasting struct {
	asked    specs.Asked // without the lighter loads
	geometry *specs.Geometry
	level    float64 // greatest torque of the heaviest load over the peak of strength, N·mm

	paths  [][2]float64 // by person: hand path of an arm that is still, and of one that turns, mm
	held   []contact.Outcome
	curves []contact.Curve
}

// of is what is known of the persons of a station, empty at first.
func (r *recall) of(a *specs.Asked, g *specs.Geometry, d *drive.State) *lasting {
	t := &lasting{asked: *a, geometry: g, level: d.Level}
	t.asked.Resistance.Load.Light, t.asked.Resistance.Load.Middle = 0, 0
	r.mu.Lock()
	last := r.last
	r.mu.Unlock()
	if last != nil && last.asked == t.asked && last.level == t.level && reflect.DeepEqual(last.geometry, t.geometry) {
		return last
	}
	t.geometry = Clone(g)
	return t
}

// keep is called once all of it is known.
func (r *recall) keep(t *lasting) {
	r.mu.Lock()
	r.last = t
	r.mu.Unlock()
}

// known reports whether nothing of it is to be worked out.
func (t *lasting) known() bool { return t.held != nil }

// hold works out how the placed persons are held.
func (t *lasting) hold(s *seat.Placer, m drive.Machine, sat []seat.Person) {
	t.held, t.curves = contact.All(s, m, sat, t.level), contact.Curves(s, m, sat, t.level)
}
