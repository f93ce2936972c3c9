package assembly

import (
	"armwright/geometry/solid"

	"gonum.org/v1/gonum/spatial/r3"
)

// Pose is one setting of the machine. Positions count from 0.
type Pose struct {
	Axis, Seat, Handle, Foot, Chest int
	Flexion                         [2]float64 // of the right and the left arm, rad
	Lift                            [2]float64 // of the right and the left stack above its rest, mm; a shared one follows the first
}

// Group is a set of parts that move as one.
type Group struct {
	ID     string
	Side   Side
	Parent int    // index of the group it rides on; -1 for the frame
	Motion Motion // relative to the parent; nil keeps still. Of a left group, that of its right twin
}

// Motion carries a group from the reference pose to another. It is told for the
// right side or the middle; side is 0, or 1 for the left group, whose motion is
// the mirror image.
type Motion interface {
	// Displacement takes a point of the group from where it is in the reference
	// pose to where it is in another while the parent keeps still.
	Displacement(pose *Pose, side int) solid.Placement
}

// Turn is a turn about a line by Ratio times the flexion past From, right-handed.
type Turn struct {
	Point, Axis r3.Vec
	From        float64 // flexion of the reference pose, rad
	Ratio       float64
}

// Displacement implements Motion.
func (t *Turn) Displacement(pose *Pose, side int) solid.Placement {
	return solid.Turn(t.Point, t.Axis, t.Ratio*(pose.Flexion[side]-t.From))
}

// Setting is which of a pose's positions moves a group.
type Setting int8

// The settings.
const (
	Axis Setting = iota
	Seat
	Handle
	Foot
	Chest
)

// Of returns the position of a setting in a pose.
func (s Setting) Of(pose *Pose) int {
	return [...]int{pose.Axis, pose.Seat, pose.Handle, pose.Foot, pose.Chest}[s]
}

// Steps is a shift by Step for every position of a setting.
type Steps struct {
	Setting Setting
	Step    r3.Vec
}

// Displacement implements Motion.
func (s *Steps) Displacement(pose *Pose, _ int) solid.Placement {
	return solid.Shift(r3.Scale(float64(s.Setting.Of(pose)), s.Step))
}

// Positions holds a displacement for each position of a setting; beyond the last
// the last counts.
type Positions struct {
	Setting Setting
	Places  []solid.Placement
}

// Displacement implements Motion.
func (p *Positions) Displacement(pose *Pose, _ int) solid.Placement {
	return p.Places[max(0, min(len(p.Places)-1, p.Setting.Of(pose)))]
}

// Lift is a rise of Share times the lift.
type Lift struct{ Share float64 }

// Displacement implements Motion.
func (l *Lift) Displacement(pose *Pose, side int) solid.Placement {
	return solid.Shift(r3.Vec{Z: l.Share * pose.Lift[side]})
}

// At returns the displacement of every group from the reference pose to another,
// written over dst as far as it reaches. A part of group g stands at
// At(...)[g].Then(part.Place).
func (a *Assembly) At(pose Pose, dst []solid.Placement) []solid.Placement {
	dst = dst[:0]
	for i := range a.Groups {
		g := &a.Groups[i]
		d := solid.World()
		if g.Motion != nil {
			if g.Side == Left {
				d = g.Motion.Displacement(&pose, 1).Mirrored()
			} else {
				d = g.Motion.Displacement(&pose, 0)
			}
		}
		if g.Parent >= 0 {
			d = dst[g.Parent].Then(d)
		}
		dst = append(dst, d)
	}
	return dst
}

// Place returns where a part stands when the groups are displaced.
func (a *Assembly) Place(part int, groups []solid.Placement) solid.Placement {
	p := &a.Parts[part]
	return groups[p.Group].Then(p.Place)
}
