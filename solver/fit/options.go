package fit

import (
	"sync"

	"armwright/specs"
)

// starts is from how many points the optimiser begins in all unless told.
const starts = 8

// servedStarts is the most of them where coverage is asked: the panel makes each take
// several times as long.
const servedStarts = 2

// Options steer Solve. The zero value means defaults.
type Options struct {
	// Progress is told what the search is doing, one call at a time. Nil means
	// nobody listens.
	Progress func(Progress)
	// Start is a station to begin from, such as the one solved for a brief that
	// differs by little. Its number of axis positions is tried alone, and only if
	// that leaves a requirement unmet, and the station itself does too, is everything
	// searched as without it. Nil means none.
	Start *specs.Geometry
	// Starts is from how many points the optimiser is begun in all once a station
	// is found, to see whether they lead to the same one. Zero means eight, 1 only
	// the first.
	Starts int
	// Room is what requirements are to have in hand beside their limits, by id and
	// inside units, as far as that can be: the verdict is of the limits alone. Nil
	// means none.
	Room map[string]float64
	// Terse leaves out what only a report tells, such as the drive ratios side by
	// side.
	Terse bool

	talk sync.Mutex
}

// starts is Starts with its default.
func (o *Options) starts() int {
	if o.Starts == 0 {
		return starts
	}
	return o.Starts
}

// Progress is one step of the search.
type Progress struct {
	Axes      int     // axis positions being tried
	Round     int     // of choosing settings anew
	Iteration int     // of the optimiser
	Worst     float64 // largest scaled violation
}
