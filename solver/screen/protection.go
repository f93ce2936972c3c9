package screen

import (
	"math"

	"armwright/solver/drive"
	"armwright/solver/require"
	"armwright/solver/seat"
	"armwright/specs"

	"gonum.org/v1/gonum/spatial/r3"
)

// Protection is one thing that spares a joint, over all boundary persons: the
// worst value with its limit. Inside units.
type Protection struct {
	Joint   string // elbow, wrist, shoulder, spine, head and neck
	What    string
	Value   float64
	Least   float64 // other end of its range; 0 where it has none
	Limit   float64
	Unit    require.Unit
	Force   bool // Value and Limit are N, Unit does not apply
	AtLeast bool
	Met     bool
	Person  string // who has the worst value
	Source  string
	Note    string

	// Requirement is the id of the requirement that judges the same value by the same
	// limit; empty where the limit is told only.
	Requirement string
}

const (
	// wristDeviation is how far a grip may bend the wrist sideways (judgement; no
	// published limit at hand).
	wristDeviation = 10 * specs.Degree
	// shoulderFlexion above which the upper arm is raised (judgement).
	shoulderFlexion = 90 * specs.Degree
	// neckExtension to look ahead from a leaning trunk (judgement).
	neckExtension = 20 * specs.Degree
	// headHold is how far above the head's centre a pad must reach, mm (judgement).
	headHold = 60.0
)

// Protection summarises what the station asks of the joints.
func (s *Screen) Protection(g *specs.Geometry, sat []seat.Person) []Protection {
	var list []Protection
	// worst adds the worst of a value over the persons.
	worst := func(p Protection, value func(i int) float64) {
		p.Value = math.Inf(-1)
		if p.AtLeast {
			p.Value = math.Inf(1)
		}
		for i := range sat {
			if v := value(i); v > p.Value != p.AtLeast && v != p.Value {
				p.Value, p.Person = v, sat[i].Person.Label
			}
		}
		margin := p.Limit - p.Value
		if p.AtLeast {
			margin = -margin
		}
		p.Met = margin >= -1e-9
		if p.Requirement != "" {
			p.Met = s.Kinds[s.KindOf(p.Requirement)].Meets(margin)
		}
		list = append(list, p)
	}
	// judged is worst of what a requirement asks for.
	judged := func(id string, p Protection, value func(i int) float64) {
		k := &s.Kinds[s.KindOf(id)]
		p.Requirement, p.Limit, p.Unit, p.Source = id, s.LimitOf(id), k.Unit, k.Source
		worst(p, value)
	}
	judged("axis-offset", Protection{Joint: "elbow", What: "axis beside the machine's"},
		func(i int) float64 { return sat[i].Offset })
	judged("axis-tilt", Protection{Joint: "elbow", What: "axis tilted against the machine's"},
		func(i int) float64 { return sat[i].Tilt })
	judged("hand-path", Protection{Joint: "elbow", What: "hand path off the handle's"},
		func(i int) float64 { return sat[i].HandPath })

	m := drive.NewMachine(g)
	judged("grip-rotation", Protection{Joint: "wrist", What: "forearm rotation asked for"},
		func(i int) float64 { return math.Abs(s.Asked.Posture.GripRotation) + sat[i].Tilt })
	worst(Protection{Joint: "wrist", What: "sideways bend forced by a fixed grip over the motion", Unit: require.Angle, Limit: wristDeviation, Source: "judgement",
		Note: "a grip that swivels square to its bar forces none"},
		func(i int) float64 { return s.wristBend(m, &sat[i]) })

	worst(Protection{Joint: "shoulder", What: "upper arm raised against the trunk", Unit: require.Angle, Limit: shoulderFlexion, Source: "judgement"},
		func(i int) float64 {
			p := sat[i].Pose
			along := r3.Unit(r3.Vec{X: p.Shoulder.X - p.Hip.X, Z: p.Shoulder.Z - p.Hip.Z})
			down := r3.Scale(-1, p.Proximal)
			down.Y = 0
			return math.Acos(math.Max(-1, math.Min(1, r3.Dot(r3.Unit(down), r3.Scale(-1, along)))))
		})
	judged("abduction", Protection{Joint: "shoulder", What: "upper arm spread sideways"},
		func(i int) float64 { return math.Abs(sat[i].Pose.Abduction) })

	if s.Reclined() {
		worst(Protection{Joint: "shoulder", What: "width of the upper arm on its stop pad", Unit: require.Share, AtLeast: true, Limit: 1, Source: "derived from girth and abduction; judgement",
			Note: "the pads stand straight ahead; an arm that spreads lies askew on its own"},
			func(i int) float64 {
				p, rest := &sat[i], m.Rest
				rest.Slope = p.Pose.ArmSlope
				return p.Pose.PadCover(p.Body, m.Pivot, rest)
			})
		worst(Protection{Joint: "spine", What: "trunk from vertical", Unit: require.Angle, Limit: s.Asked.Posture.BackAngle.To, Source: "judgement", Note: "the back pad carries the trunk"},
			func(i int) float64 { return math.Abs(sat[i].Pose.Lean) })
		worst(Protection{Joint: "head and neck", What: "back pad beyond the head's centre", Unit: require.Length, AtLeast: true, Limit: headHold, Source: "judgement",
			Note: "head on the pad, neck straight"},
			func(i int) float64 {
				p := &sat[i]
				foot := (p.SeatTop - g.Seat.Lowest + p.Body.Hip) / math.Cos(g.Back.Angle) // along the pad from its foot to beside the hip, nearly
				return g.Back.Length - foot - seat.HeadAlong(p.Person, p.Body)
			})
	} else {
		judged("lean", Protection{Joint: "spine", What: "trunk from vertical", Note: "the chest pad keeps it from going forward"},
			func(i int) float64 { return sat[i].Pose.Lean })
		worst(Protection{Joint: "head and neck", What: "neck bent back to look ahead", Unit: require.Angle, Limit: neckExtension, Source: "judgement", Note: "no head support; the head follows the trunk's lean"},
			func(i int) float64 { return sat[i].Pose.Lean })
	}
	return list
}

// wristBend is the range over the motion of the angle between forearm and grip
// bar, which runs along the machine's axis: what a fixed grip makes the wrist
// do.
func (s *Screen) wristBend(m drive.Machine, p *seat.Person) float64 {
	axis := m.Axes[p.Axis]
	arm, _ := p.Pose.Turned(axis, seat.HumeralTurn)
	path := p.Body.Hinge.Path(1)
	lo, hi := math.Inf(1), math.Inf(-1)
	for k := range s.Angles {
		v := math.Acos(math.Max(-1, math.Min(1, r3.Dot(arm.To(path.At(s.Sin[k], s.Cos[k])), axis))))
		lo, hi = math.Min(lo, v), math.Max(hi, v)
	}
	return hi - lo
}
