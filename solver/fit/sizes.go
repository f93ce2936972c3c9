package fit

import (
	"math"

	"armwright/geometry/station"
	"armwright/specs"
)

// sizes adds the outside dimensions of the station.
func (s *screening) sizes(g *specs.Geometry, l station.Layout, out *rows) {
	if g.Base == nil {
		return
	}
	out.add("footprint-length", -1, g.Base.Front-g.Base.Rear)
	out.add("footprint-width", -1, max(g.Base.Width, s.driveWidth(g, l))).named("the wider of base and drives")
	top, angle := l.TowerTall, 0.0
	for _, theta := range s.angles {
		z := l.PivotHeight + (l.ArmReach+station.GripPast)*math.Sin(theta-s.angles[0]-l.StartAngle) + l.ArmTube/2
		if z > top {
			top, angle = z, theta
		}
	}
	out.add("height", -1, top).at(angle)
}
