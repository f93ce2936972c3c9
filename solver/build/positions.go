package build

import (
	"armwright/geometry/cam"
	"armwright/solver/drive"
	"armwright/specs"
)

// AlongAxes adds to a weighed state the resistance in the wanted axis positions of its
// built station, nil for all: the moment arm of the cable as it is led there, and gravity
// about that axis.
// What the drive's own parts weigh is that of the middle position, from which it differs
// by the cosine of the swing.
func (s *Builder) AlongAxes(g *specs.Geometry, st *Station, d *drive.State, wanted func(position int) bool) {
	if st.Assembly == nil {
		return
	}
	d.Positions = make([]drive.AxisTorque, len(g.Pivots.Axes))
	for i := range d.Positions {
		if wanted == nil || wanted(i) {
			d.Positions[i] = s.alongAxis(g, st, d, i)
		}
	}
}

func (s *Builder) alongAxis(g *specs.Geometry, st *Station, d *drive.State, position int) (out drive.AxisTorque) {
	about := *g
	about.Pivots.Axes = g.Pivots.Axes[position : position+1]
	var unit []float64
	gravity := s.GravityMoments(&about)
	if g.Cam == nil {
		var bars []float64
		var err error
		if unit, bars, err = s.PlateMoments(&about); err != nil {
			return drive.AxisTorque{Fault: err}
		}
		for i, v := range bars {
			gravity[i] += v
		}
	} else {
		if st.Route == nil {
			return drive.AxisTorque{Fault: &cam.Error{Kind: cam.Reach, What: "turn of the cable round the guide sheave (rad)", Hint: "lead the cable to a guide sheave that turns it down"}}
		}
		unit = make([]float64, len(s.Angles))
		out.MomentArm = make([]float64, len(s.Angles))
		out.Slack, out.Rise = st.Route.Slack[position], st.Route.Rise[position]
		each := g.Cam.Ratio * s.Tension(1)
		for i, theta := range s.Angles {
			pull, err := st.Route.Pull(&d.Profile, position, theta)
			if err != nil {
				return drive.AxisTorque{Fault: err}
			}
			out.MomentArm[i], unit[i] = pull.Arm, each*pull.Arm
			out.Fleet = max(out.Fleet, pull.Fleet)
		}
	}
	for i, v := range d.Own {
		gravity[i] += v + d.Dead*(unit[i]-d.Unit[i])
	}
	out.Unit, out.Gravity = unit, gravity
	out.Light, out.Middle, out.Heavy = s.Loads(unit, gravity)
	return out
}
