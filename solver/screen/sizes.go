package screen

import (
	"math"

	"armwright/geometry/station"
	"armwright/solver/require"
	"armwright/specs"
)

// sizes adds the outside dimensions of the station.
func (s *Screen) sizes(g *specs.Geometry, l station.Layout, out *require.Rows) {
	if g.Base == nil {
		return
	}
	out.Add("footprint-length", -1, g.Base.Front-g.Base.Rear)
	out.Add("footprint-width", -1, max(g.Base.Width, s.DriveWidth(g, l))).Named("the wider of base and drives")
	top, angle := l.TowerTall, 0.0
	for _, theta := range s.Angles {
		z := l.PivotHeight + (l.ArmReach+station.GripPast)*math.Sin(theta-s.Angles[0]-l.StartAngle) + l.ArmTube/2
		if z > top {
			top, angle = z, theta
		}
	}
	out.Add("height", -1, top).At(angle)
}
