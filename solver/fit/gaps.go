package fit

import (
	"math"

	"armwright/geometry/station"
	"armwright/specs"

	"gonum.org/v1/gonum/spatial/r3"
)

// obstacle is what an arm may meet.
type obstacle struct {
	name  string
	box   station.Box
	reach float64
}

// obstacles lists the members and lumps that stand still, but for those that
// turn with the axis from position to position: swivel bars, bearing uprights
// and pivot units keep their distance from the arm, see sweep.
func obstacles(st station.Structure) []obstacle {
	list := make([]obstacle, 0, len(st.Members)+len(st.Lumps))
	add := func(name string, b station.Box) { list = append(list, obstacle{name, b, b.Reach()}) }
	for i := range st.Members {
		m := &st.Members[i]
		if !ofPivot(m.ID) {
			add(m.Title, m.Box())
		}
	}
	for i := range st.Lumps {
		u := &st.Lumps[i]
		if !swings(u.ID) && u.Size != (r3.Vec{}) {
			add(u.Title, u.Box())
		}
	}
	return list
}

// meeting is a moving body and another part at one axis position.
type meeting struct {
	moving, fixed string
	axis          int
	part          station.Part // that can be between them
	guarded       bool
}

func meet(moving, fixed string, axis int) meeting {
	return meeting{moving, fixed, axis, enters(moving, fixed), guarded(moving, fixed)}
}

// sweep calls see with the gap of every moving body to every other part, at
// every angle and axis position. A gap that is certainly above cut may be left
// out.
//
// A body moves by no more than its greatest radius times the turn: from a gap
// that has that much to spare, angles are passed over.
func (s *study) sweep(g *specs.Geometry, l station.Layout, st station.Structure, cut func(*meeting) float64, see func(m *meeting, gap float64, at int)) {
	list := obstacles(st)
	movers := s.movers(g, l)
	m := newMachine(g)
	pivot := l.RightPivot()
	ends := make([][2]r3.Vec, len(s.angles))
	var pair meeting
	for axis, a := range m.axes {
		sw, level := station.NewSwing(pivot, a, m.rest.Slope), station.NewSwing(pivot, a, 0)
		for i := range movers {
			mv := &movers[i]
			sp, cp := math.Sincos(mv.phase)
			half, far := mv.half(), mv.far()
			// Whatever is out of reach of the ball that holds the whole swing need
			// not be looked at angle by angle.
			hub := r3.Add(pivot, r3.Scale((mv.w1+mv.w2)/2, a))
			ball := math.Hypot(far, (mv.w2-mv.w1)/2)
			for k, sin := range s.sin {
				cos := s.cos[k]
				if mv.places != nil {
					e := mv.places[k]
					ends[k] = [2]r3.Vec{level.InPlane(e[0].X, e[0].Y, mv.w1), level.InPlane(e[1].X, e[1].Y, mv.w2)}
				} else {
					p, q := mv.ends(sw, sin*cp+cos*sp, cos*cp-sin*sp)
					ends[k] = [2]r3.Vec{p, q}
				}
			}
			if mv.places != nil {
				far = math.Inf(1) // it does not turn with the arm
			}
			for j := range list {
				o := &list[j]
				pair = meet(mv.name, o.name, axis)
				if beyond(hub, o.box.Centre, ball+o.reach+mv.radius+cut(&pair)) {
					continue
				}
				for k := 0; k < len(ends); {
					p, q := ends[k][0], ends[k][1]
					gap := math.Sqrt(r3.Norm2(r3.Sub(r3.Scale(0.5, r3.Add(p, q)), o.box.Centre))) - half - o.reach - mv.radius
					if gap <= cut(&pair) {
						gap = o.box.Gap(p, q) - mv.radius
						see(&pair, gap, k)
					}
					spare, from := gap-cut(&pair), s.angles[k]
					for k++; k < len(ends) && (s.angles[k]-from)*far <= spare; k++ {
					}
				}
			}
			pair = meet(mv.name, floorName, axis)
			for k := range ends {
				see(&pair, min(ends[k][0].Z, ends[k][1].Z)-mv.radius, k)
			}
			// The other arm may stand at any angle: nearest where it mirrors this one.
			pair = meet(mv.name, otherName, axis)
			for k := range ends {
				see(&pair, 2*(min(-ends[k][0].Y, -ends[k][1].Y)-mv.radius), k)
			}
		}
	}
	// The arm against what turns with its axis: a gap that stays.
	pair = meet(tubeName, bearingName, 0)
	see(&pair, l.BearingPlane()-l.ArmPlane()-l.ArmTube, 0)
	if l.Train != nil {
		for _, v := range ownLinkageGaps(l) {
			pair = meet(v.moving, v.fixed, 0)
			see(&pair, v.gap, 0)
		}
	}
}

// least is the least gap of some, or the least share of what is needed.
type least struct {
	value         float64
	at            int
	moving, fixed string // empty where there is none below the value
}

// gaps adds the rows of crushing, for each axis position: the least gap of tube,
// grip and weights to anything, and the least share of what a foot needs at the
// floor and a hand at everything hard. Where below is not nil it gives what each
// row is thought to lie below; if one does not, gaps says so and adds nothing. Of
// rows that must govern it adds one for all positions.
func (s *study) gaps(g *specs.Geometry, l station.Layout, st station.Structure, below func(i int) float64, out *rows) bool {
	const (
		tube = iota
		grip
		weights
		floor
		hard
		each
	)
	list := make([]least, each*len(g.Pivots.Axes))
	for i := range list {
		list[i].value = farAway
		if below != nil {
			list[i].value = min(farAway, below(i))
		}
	}
	if out.bars != nil {
		list = list[:each]
		for i := range list {
			list[i].value = min(farAway, out.below("crush-gap"))
			if i >= floor {
				list[i].value = min(farAway, out.below("entry-gap"))
			}
		}
	}
	of := func(m *meeting) (any, entry *least) {
		at := list
		if out.bars == nil {
			at = list[each*m.axis:]
		}
		any, entry = &at[weights], &at[hard]
		switch {
		case out.bars != nil, m.moving == tubeName:
			any = &at[tube]
		case m.moving == gripName:
			any = &at[grip]
		}
		if m.fixed == floorName {
			entry = &at[floor]
		}
		return any, entry
	}
	cut := func(m *meeting) float64 {
		if m.guarded {
			return math.Inf(-1)
		}
		any, entry := of(m)
		if m.part != station.Finger {
			return max(any.value, entry.value*m.part.LeastGap())
		}
		return any.value
	}
	s.sweep(g, l, st, cut, func(m *meeting, gap float64, at int) {
		if m.guarded {
			return
		}
		any, entry := of(m)
		if gap < any.value {
			*any = least{gap, at, m.moving, m.fixed}
		}
		if m.part == station.Finger {
			return
		}
		if share := gap / m.part.LeastGap(); share < entry.value {
			*entry = least{share, at, m.moving, m.fixed}
		}
	})
	for i := range list {
		if below != nil && list[i].moving == "" && list[i].value < farAway {
			return false
		}
	}
	for i := range list {
		e := &list[i]
		if i%each < floor {
			w := out.add("crush-gap", -1, e.value).at(s.angles[e.at])
			if !out.quiet {
				out.named(w, "%s to %s", e.moving, e.fixed)
			}
			continue
		}
		w := out.add("entry-gap", -1, e.value).at(s.angles[e.at])
		if !out.quiet {
			part, units := enters(e.moving, e.fixed), s.units()
			out.named(w, "%s to %s, %s for a %v of %s", e.moving, e.fixed, units.Figure(e.value*part.LeastGap(), "mm"), part, units.Size(part.LeastGap(), "mm"))
		}
	}
	return true
}

// farAway stands for the gap of what is not there, mm, so that the number of
// rows does not hang on the geometry.
const farAway = 1e4
