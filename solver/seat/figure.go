package seat

import (
	"armwright/geometry/assembly"
	"armwright/geometry/elbow"
	"armwright/geometry/person"
	"armwright/geometry/posture"
	"armwright/solver/drive"
	"armwright/specs/people"

	"gonum.org/v1/gonum/spatial/r3"
)

// Sizes are what a person's bodies are made from, in shoes of a height.
func Sizes(p people.Person, b posture.Body, shoe float64) person.Sizes {
	return person.Sizes{
		Trunk: b.Trunk, HipHeight: b.Hip, Behind: b.Behind, SittingHeight: p.SittingHeight,
		Bideltoid: p.Bideltoid, ChestDepth: p.ChestDepth, ChestBreadth: p.ChestBreadth, AbdominalDepth: p.AbdominalDepth,
		HipBreadth: p.HipBreadth, ThighClearance: p.ThighClearance, ButtockKnee: p.ButtockKnee,
		PoplitealHeight: p.PoplitealHeight, KneeHeight: p.KneeHeight, CalfGirth: person.CalfGirth(p.Mass, p.Stature),
		UpperArmGirth: p.UpperArmGirth, ForearmGirth: p.ForearmGirth, HandBreadth: p.HandBreadth, FootLength: p.FootLength, Shoe: shoe,
	}
}

// Figure is a placed person as bodies take it, see [Figure].
func (s *Placer) Figure(m drive.Machine, p *Person) (person.Sizes, person.Pose, assembly.Pose) {
	return Figure(m, p, s.Asked.People.Shoe)
}

// Figure is a placed person as bodies take it, in shoes of a height, mm: sizes, pose, and
// the positions that the station is set to. Where the arms differ it is the right one's,
// on both sides. A handle that is free counts as in its first position.
func Figure(m drive.Machine, p *Person, shoe float64) (person.Sizes, person.Pose, assembly.Pose) {
	axis := m.Axes[p.Axis]
	turned, _ := p.Pose.Turned(axis, HumeralTurn)
	path := p.Body.Hinge.Path(p.Body.Forearm)
	arm := person.Arm{
		Shoulder: p.Pose.Shoulder, Elbow: p.Pose.Elbow, Grip: axis,
		Path: elbow.Path{Still: r3.Add(p.Pose.Elbow, turned.To(path.Still)), Sin: turned.To(path.Sin), Cos: turned.To(path.Cos)},
	}
	pose := person.Pose{
		Hip: r3.Vec{X: p.Pose.Hip.X, Z: p.Pose.Hip.Z}, Lean: p.Pose.Lean, Seat: p.SeatTop,
		Arms: [2]person.Arm{arm, arm.Mirrored()},
	}
	if p.Pose.Lean >= 0 { // leaning back, the shoulders stay back
		pose.Behind = posture.Protraction
	}
	positions := assembly.Pose{Axis: p.Axis, Seat: p.Seat, Handle: max(0, p.Handle)}
	positions.Chest = max(0, p.Chest)
	if p.Foot >= 0 {
		plate := m.Geometry.FootPlate
		pose.Ground = plate.Height(p.Foot)
		positions.Foot = p.Foot
	}
	return Sizes(p.Person, p.Body, shoe), pose, positions
}
