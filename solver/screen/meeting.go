package screen

import (
	"math"

	"armwright/geometry/assembly"
	"armwright/geometry/solid"
	"armwright/geometry/station"
	"armwright/solver/build"
	"armwright/solver/drive"
	"armwright/solver/screen/crush"

	"gonum.org/v1/gonum/spatial/r3"
)

// obstacle is what an arm may meet. Part is its place among the assembly's parts.
type obstacle struct {
	name  string
	part  int
	soft  bool
	box   solid.Box
	reach float64
}

// obstacles lists the parts that stand still, but for those that turn with the axis
// from position to position: they keep their distance from the arm, see sweep.
func obstacles(a *assembly.Assembly) []obstacle {
	still := standing(a)
	list := make([]obstacle, 0, len(a.Parts))
	for i := range a.Parts {
		if p := &a.Parts[i]; still[p.Group] {
			b := solid.BoxOf(p.Solid, p.Place)
			list = append(list, obstacle{p.Title, i, p.Is(assembly.Soft), b, b.Reach()})
		}
	}
	return list
}

// standing tells the groups that neither flexion nor the axis position moves.
func standing(a *assembly.Assembly) []bool {
	out := make([]bool, len(a.Groups))
	for g := range a.Groups {
		parent := a.Groups[g].Parent
		switch m := a.Groups[g].Motion.(type) {
		case nil:
			out[g] = parent < 0 || out[parent]
		case *assembly.Steps:
			out[g] = m.Setting != assembly.Axis && (parent < 0 || out[parent])
		case *assembly.Lift:
			out[g] = parent < 0 || out[parent]
		}
	}
	return out
}

// meeting is a moving body and another part at one axis position.
type meeting struct {
	moving, fixed string
	pair
	part crush.Part // that can be between them
}

const (
	toFloor = -1 - iota
	toOtherArm
	toBearing
)

func meet(moving, fixed string, soft bool, p pair) meeting {
	return meeting{moving, fixed, p, enters(moving, fixed, soft)}
}

// course is a moving body on its way about one axis position.
type course struct {
	s         *Screen
	body      *build.Mover
	sw, level build.Swing
	sin, cos  float64 // of the body's own phase
}

func (s *Screen) course(body *build.Mover, pivot, axis r3.Vec, slope float64) course {
	c := course{s: s, body: body, sw: build.NewSwing(pivot, axis, slope)}
	if body.Places != nil {
		c.level = build.NewSwing(pivot, axis, 0)
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

// sweep calls see with the gap of every moving body to every other part, at
// every angle and axis position. A gap that is certainly above cut may be left
// out.
//
// A body moves by no more than its greatest radius times the turn: from a gap
// that has that much to spare, angles are passed over.
func (s *Screen) sweep(sc *Scene, cut func(*meeting) float64, see func(m *meeting, gap float64, at int)) {
	v := &sc.Station.Values
	list := obstacles(sc.Station.Assembly)
	movers := s.Movers(v)
	m := drive.NewMachine(sc.Geometry)
	pivot := m.Pivot
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
				now = meet(mv.Name, o.name, o.soft, pair{axis, i, o.part})
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
			now = meet(mv.Name, floorName, false, pair{axis, i, toFloor})
			for k := range ends {
				see(&now, mv.OverFloor(ends[k]), k)
			}
			now = meet(mv.Name, otherName, false, pair{axis, i, toOtherArm})
			for k := range ends {
				see(&now, mv.OtherArm(ends[k]), k)
			}
		}
	}
	now = meet(build.TubeName, bearingName, false, pair{other: toBearing})
	see(&now, station.BearingGap(v), 0)
}

// gapOf is the gap of a pair at the k-th angle, as sweep would see it; false where
// the station has no such pair.
func (s *Screen) gapOf(m drive.Machine, st *build.Station, movers []build.Mover, v *Least) (float64, bool) {
	if v.other == toBearing {
		return station.BearingGap(&st.Values), true
	}
	body := &movers[v.mover]
	way := s.course(body, m.Pivot, m.Axes[v.axis], m.Rest.Slope)
	switch ends := way.ends(v.at); v.other {
	case toFloor:
		return body.OverFloor(ends), true
	case toOtherArm:
		return body.OtherArm(ends), true
	default:
		if v.other >= len(st.Assembly.Parts) || st.Assembly.Parts[v.other].Title != v.fixed {
			return 0, false // the station has other parts
		}
		p := &st.Assembly.Parts[v.other]
		b := solid.BoxOf(p.Solid, p.Place)
		return body.Gap(ends, &b), true
	}
}
