package build

import (
	"armwright/geometry/station"
	"armwright/solver/drive"
	"armwright/specs"
)

// Own choices of construction, mm and kg.
const (
	stackApart = 60.0  // between the two stacks of a pair
	PlateRim   = 225.0 // half the diameter of a 450 mm plate
)

// Layout turns geometry into members and lumps.
func (s *Builder) Layout(g *specs.Geometry) station.Layout {
	m := drive.NewMachine(g)
	reach := g.Handle.Greatest()
	l := station.Layout{
		Side: s.Member.H, PerMetre: s.Member.Mass,
		PivotHeight: g.Pivots.Height, PivotSpacing: g.Pivots.Spacing,
		Rest: m.Rest, ArmReach: reach, GripMiddle: g.Handle.Middle, GripLength: g.Handle.GripLength,
		ArmTube: s.Arm.H, ArmPerMetre: s.Arm.Mass, ArmMass: g.Handle.ArmMass, ArmCentre: g.Handle.ArmCentre,
		StartAngle: m.Rest.Slope - s.Angles[0], First: s.Angles[0],
		Shaft: s.Asked.Stock.Shaft, BarThick: s.Asked.Stock.CamPlate, BarPerArea: s.PerArea(),
	}
	if c := g.Counterweight; c != nil {
		l.CounterMass, l.CounterPlace, l.CounterPhase = c.Mass, c.Radius, c.Phase
	}
	if b := g.Base; b != nil {
		l.Rear, l.Front, l.Width = b.Rear, b.Front, b.Width
		l.PadPost, l.SeatPost, l.Tower, l.TowerTall = b.PadPost, b.SeatPost, b.Tower, b.TowerTall
	}
	if t := g.Seat; t != nil {
		l.SeatTop, l.SeatFront, l.SeatDepth, l.SeatWidth = t.Lowest, t.Front, t.Depth, t.Width
	}
	if b := g.Back; b != nil {
		l.HasBack, l.BackAngle, l.BackFoot, l.BackLong = true, b.Angle, b.Foot, b.Length
	}
	heavy := s.Asked.Resistance.Load.Heavy
	if g.Cam != nil {
		plate := s.Plate
		_, tall := plate.Stack(heavy)
		l.StackMass, l.StackLong, l.StackDeep = heavy, plate.Length, plate.Width
		l.StackTop = l.Side + drive.StackRest + tall
		if s.Pair() {
			l.StackAside = plate.Length/2 + stackApart/2
		}
	}
	if v := g.Lever; v != nil {
		l.PlatesEachArm, l.PlateRadius, l.PlatePhase = heavy, v.Radius, v.Phase+s.Angles[0]
	}
	if g.Linkage != nil {
		t := drive.Train(g.Linkage)
		l.Train, l.PlatesEachArm = &t, heavy
	}
	if e := g.Eccentric; e != nil {
		l.EccentricMass, l.EccentricPlace, l.EccentricPhase = e.Mass, e.Radius, e.Phase+s.Angles[0]
	}
	return l
}

// PlateThickness is that of plates of a mass, kg, and full diameter, mm.
func PlateThickness(mass float64) float64 {
	v := station.PlateValues{Mass: mass, Across: 2 * PlateRim}
	return v.Thickness()
}
