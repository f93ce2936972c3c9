package judge

import (
	"math"

	"armwright/solver/drive"
	"armwright/solver/seat"

	"gonum.org/v1/gonum/spatial/r3"
)

// atShoulder compares the strength curve that is followed with the one at the shoulder's
// flexion of the boundary persons as they sit; nil where the curve does not know the
// shoulder.
func atShoulder(s *drive.Designer, d *drive.State, sat []seat.Person) *drive.AtShoulder {
	at := drive.AtShoulder{Least: math.Inf(1), Most: math.Inf(-1)}
	for i := range sat {
		v := shoulderFlexion(&sat[i])
		at.Least, at.Most = math.Min(at.Least, v), math.Max(at.Most, v)
		at.Flexion += v / float64(len(sat))
	}
	var ok bool
	if at.Curve, at.Match, ok = s.Shoulder(d, at.Flexion); !ok || len(sat) == 0 {
		return nil
	}
	return &at
}

// shoulderFlexion is the angle of a person's upper arm from the trunk in the side view,
// forward of it positive: 0 with the arm at the side.
func shoulderFlexion(p *seat.Person) float64 {
	trunk := r3.Sub(p.Pose.Hip, p.Pose.Shoulder)
	arm := r3.Scale(-1, p.Pose.Proximal)
	return math.Remainder(math.Atan2(arm.X, -arm.Z)-math.Atan2(trunk.X, -trunk.Z), 2*math.Pi)
}
