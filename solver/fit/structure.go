package fit

import (
	"math"
	"slices"

	"armwright/geometry/station"
	"armwright/specs"

	"gonum.org/v1/gonum/spatial/r2"
)

// Own choices of construction, mm and kg.
const (
	stackApart = 60.0  // between the two stacks of a pair
	plateRim   = 225.0 // half the diameter of a 450 mm plate
)

// layout turns geometry into members and lumps.
func (s *builder) layout(g *specs.Geometry) station.Layout {
	m := newMachine(g)
	reach := g.Handle.Least + float64(g.Handle.Positions-1)*g.Handle.Pitch
	l := station.Layout{
		Side: s.member.H, PerMetre: s.member.Mass,
		PivotHeight: g.Pivots.Height, PivotSpacing: g.Pivots.Spacing,
		Rest: m.rest, ArmReach: reach, GripMiddle: g.Handle.Middle, GripLength: g.Handle.GripLength,
		ArmTube: s.arm.H, ArmPerMetre: s.arm.Mass, ArmMass: g.Handle.ArmMass, ArmCentre: g.Handle.ArmCentre,
		StartAngle: m.rest.Slope - s.angles[0], First: s.angles[0],
		Shaft: s.asked.Stock.Shaft, BarThick: s.asked.Stock.CamPlate, BarPerArea: s.perArea(),
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
	heavy := s.asked.Resistance.Load.Heavy
	if g.Cam != nil {
		plate := s.plate
		_, tall := plate.Stack(heavy)
		l.StackMass, l.StackLong, l.StackDeep = heavy, plate.Length, plate.Width
		l.StackTop = l.Side + stackRest + tall
		if s.pair() {
			l.StackAside = plate.Length/2 + stackApart/2
		}
	}
	if v := g.Lever; v != nil {
		l.PlatesEachArm, l.PlateRadius, l.PlatePhase = heavy, v.Radius, v.Phase+s.angles[0]
	}
	if g.Linkage != nil {
		t := Train(g.Linkage)
		l.Train, l.PlatesEachArm = &t, heavy
	}
	if e := g.Eccentric; e != nil {
		l.EccentricMass, l.EccentricPlace, l.EccentricPhase = e.Mass, e.Radius, e.Phase+s.angles[0]
	}
	return l
}

// feet of the base, counter-clockwise: rear right, front right, front left,
// rear left. Edge i runs from foot i to the next.
func feet(b *specs.Base) []r2.Vec {
	w := b.Width / 2
	return []r2.Vec{{X: b.Rear, Y: -w}, {X: b.Front, Y: -w}, {X: b.Front, Y: w}, {X: b.Rear, Y: w}}
}

// driveWidth is the outside width over the drives in every axis position. The
// plane of cam or plates stands across the canted axis, so that a part far from
// the axis in that plane reaches outward too.
func (s *builder) driveWidth(g *specs.Geometry, l station.Layout) float64 {
	reach := 0.0
	if c := g.Cam; c != nil {
		reach = math.Hypot(c.CentreX, c.CentreY) + slices.Max(c.Law) + s.cable.GrooveDepth()
	}
	if v := g.Lever; v != nil {
		reach = v.Radius + plateRim
	}
	half := 0.0
	for _, a := range newMachine(g).axes {
		out := -a.Y*l.DriveEnd() + math.Sqrt(1-a.Y*a.Y)*reach
		if g.Linkage != nil {
			out = s.linkageReach(g, l, a)
		}
		half = max(half, out)
	}
	return g.Pivots.Spacing + 2*half
}
