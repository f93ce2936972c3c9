package screen

import (
	"math"

	"armwright/geometry/station"
	"armwright/solver/build"
	"armwright/solver/drive"
	"armwright/specs"

	"gonum.org/v1/gonum/spatial/r3"
)

// obstacle is what an arm may meet. Part is its place among the members or, after
// those, the lumps.
type obstacle struct {
	name  string
	part  int
	box   station.Box
	reach float64
}

// obstacles lists the members and lumps that stand still, but for those that
// turn with the axis from position to position: swivel bars, bearing uprights
// and pivot units keep their distance from the arm, see sweep.
func obstacles(st station.Structure) []obstacle {
	list := make([]obstacle, 0, len(st.Members)+len(st.Lumps))
	for i := range len(st.Members) + len(st.Lumps) {
		if name, ok := obstructs(&st, i); ok {
			b := boxOf(&st, i)
			list = append(list, obstacle{name, i, b, b.Reach()})
		}
	}
	return list
}

// obstructs gives the name of a part that is an obstacle, and says whether it is.
func obstructs(st *station.Structure, part int) (string, bool) {
	if part < len(st.Members) {
		m := &st.Members[part]
		return m.Title, !ofPivot(m.ID)
	}
	if part -= len(st.Members); part >= len(st.Lumps) {
		return "", false
	}
	u := &st.Lumps[part]
	return u.Title, !swings(u.ID) && u.Size != (r3.Vec{})
}

func boxOf(st *station.Structure, part int) station.Box {
	if part < len(st.Members) {
		return st.Members[part].Box()
	}
	return st.Lumps[part-len(st.Members)].Box()
}

// meeting is a moving body and another part at one axis position.
type meeting struct {
	moving, fixed string
	pair
	part    station.Part // that can be between them
	guarded bool
}

// pair is a meeting by the places of its parts: mover among the movers, other
// an obstacle's part or one of the constants below, from toTrain on the gaps that
// the linkage has in itself.
type pair struct{ axis, mover, other int }

const (
	toFloor = -1 - iota
	toOtherArm
	toBearing
	toTrain
)

func meet(moving, fixed string, p pair) meeting {
	return meeting{moving, fixed, p, enters(moving, fixed), guarded(moving, fixed)}
}

// course is a moving body on its way about one axis position.
type course struct {
	s         *Screen
	body      *build.Mover
	sw, level station.Swing
	sin, cos  float64 // of the body's own phase
}

func (s *Screen) course(body *build.Mover, pivot, axis r3.Vec, slope float64) course {
	c := course{s: s, body: body, sw: station.NewSwing(pivot, axis, slope)}
	if body.Places != nil {
		c.level = station.NewSwing(pivot, axis, 0)
	}
	c.sin, c.cos = math.Sincos(body.Phase)
	return c
}

// ends is the segment at the k-th angle.
func (c *course) ends(k int) [2]r3.Vec {
	if c.body.Places != nil {
		e := c.body.Places[k]
		return [2]r3.Vec{c.level.InPlane(e[0].X, e[0].Y, c.body.W1), c.level.InPlane(e[1].X, e[1].Y, c.body.W2)}
	}
	sin, cos := c.s.Sin[k], c.s.Cos[k]
	p, q := c.body.Ends(c.sw, sin*c.cos+cos*c.sin, cos*c.cos-sin*c.sin)
	return [2]r3.Vec{p, q}
}

// bearingGap is that of an arm to what turns with its axis: a gap that stays.
func bearingGap(l *station.Layout) float64 { return l.BearingPlane() - l.ArmPlane() - l.ArmTube }

// sweep calls see with the gap of every moving body to every other part, at
// every angle and axis position. A gap that is certainly above cut may be left
// out.
//
// A body moves by no more than its greatest radius times the turn: from a gap
// that has that much to spare, angles are passed over.
func (s *Screen) sweep(g *specs.Geometry, l station.Layout, st station.Structure, cut func(*meeting) float64, see func(m *meeting, gap float64, at int)) {
	list := obstacles(st)
	movers := s.Movers(g, l)
	m := drive.NewMachine(g)
	pivot := l.RightPivot()
	ends := make([][2]r3.Vec, len(s.Angles))
	var now meeting
	for axis, a := range m.Axes {
		for i := range movers {
			mv := &movers[i]
			half, far := mv.Half(), mv.Far()
			// Whatever is out of reach of the ball that holds the whole swing need
			// not be looked at angle by angle.
			hub := r3.Add(pivot, r3.Scale((mv.W1+mv.W2)/2, a))
			ball := math.Hypot(far, (mv.W2-mv.W1)/2)
			way := s.course(mv, pivot, a, m.Rest.Slope)
			for k := range ends {
				ends[k] = way.ends(k)
			}
			if mv.Places != nil {
				far = math.Inf(1) // it does not turn with the arm
			}
			for j := range list {
				o := &list[j]
				now = meet(mv.Name, o.name, pair{axis, i, o.part})
				if build.Beyond(hub, o.box.Centre, ball+o.reach+mv.Radius+cut(&now)) {
					continue
				}
				for k := 0; k < len(ends); {
					p, q := ends[k][0], ends[k][1]
					gap := math.Sqrt(r3.Norm2(r3.Sub(r3.Scale(0.5, r3.Add(p, q)), o.box.Centre))) - half - o.reach - mv.Radius
					if gap <= cut(&now) {
						gap = mv.Gap(ends[k], &o.box)
						see(&now, gap, k)
					}
					spare, from := gap-cut(&now), s.Angles[k]
					for k++; k < len(ends) && (s.Angles[k]-from)*far <= spare; k++ {
					}
				}
			}
			now = meet(mv.Name, floorName, pair{axis, i, toFloor})
			for k := range ends {
				see(&now, mv.OverFloor(ends[k]), k)
			}
			now = meet(mv.Name, otherName, pair{axis, i, toOtherArm})
			for k := range ends {
				see(&now, mv.OtherArm(ends[k]), k)
			}
		}
	}
	now = meet(build.TubeName, bearingName, pair{other: toBearing})
	see(&now, bearingGap(&l), 0)
	if l.Train != nil {
		for i, v := range build.LinkageGaps(l) {
			now = meet(v.Moving, v.Fixed, pair{other: toTrain - i})
			see(&now, v.Gap, 0)
		}
	}
}

// gapOf is the gap of a pair at the k-th angle, as sweep would see it; false where
// the station has no such pair.
func (s *Screen) gapOf(m drive.Machine, l *station.Layout, st *station.Structure, movers []build.Mover, v *Least) (float64, bool) {
	switch {
	case v.other == toBearing:
		return bearingGap(l), true
	case v.other <= toTrain:
		return build.LinkageGaps(*l)[toTrain-v.other].Gap, true
	}
	body := &movers[v.mover]
	way := s.course(body, l.RightPivot(), m.Axes[v.axis], m.Rest.Slope)
	switch ends := way.ends(v.at); v.other {
	case toFloor:
		return body.OverFloor(ends), true
	case toOtherArm:
		return body.OtherArm(ends), true
	default:
		if name, ok := obstructs(st, v.other); !ok || name != v.fixed {
			return 0, false // the frame has another number of parts
		}
		b := boxOf(st, v.other)
		return body.Gap(ends, &b), true
	}
}
