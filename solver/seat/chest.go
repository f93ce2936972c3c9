package seat

import (
	"math"

	"armwright/geometry/posture"
	"armwright/solver/drive"
	"armwright/specs"

	"gonum.org/v1/gonum/spatial/r3"
)

// Sizes of a chest pad, mm (judgement): over the breastbone, between the arms.
const (
	chestLong, chestWide = 130.0, 160.0
	chestAside           = 20.0 // from the arm pads
	chestPitch           = 20.0 // between positions: half of it either way the foam takes
	chestLeast           = 80.0
	// chestSlack is what the lean that a seat position leaves moves a chest by.
	chestSlack = 10.0
	// chestGive is how far from the chest a pad still serves: half a pitch and what a
	// person shifts by. Judgement.
	chestGive = 15.0
)

// ChestFor gives an arm-pad geometry a chest pad at the height of the arm pads' upper
// edge whose positions reach the chests of all boundary persons. How many there are
// depends on the persons alone, so that a search does not see them come and go.
func (s *Placer) ChestFor(g *specs.Geometry) {
	if s.Reclined() || s.Bench() {
		return
	}
	m := drive.NewMachine(g)
	edge := m.Rest.FarEdge()
	between := s.Asked.Posture.Lean
	middle := (between.From + between.To) / 2
	height := m.Pivot.Z + edge.Z
	low := math.Inf(1)
	near, far := math.Inf(1), math.Inf(-1) // chest ahead of the elbow, the upper arm level
	for i := range s.Bodies {
		b := &s.Bodies[i]
		low = min(low, posture.LeanOnPad(*b, m.Pivot, m.Rest, middle).ChestAt(*b, height))
		x := b.ChestDepth/2 - b.UpperArm
		near, far = min(near, x), max(far, x)
	}
	if g.ChestPad == nil {
		g.ChestPad = new(specs.ChestPad)
	}
	*g.ChestPad = specs.ChestPad{
		Height: height, Rear: low - chestSlack, Lean: middle,
		Pitch: chestPitch, Positions: min(30, 1+int(math.Ceil((far-near+2*chestSlack)/chestPitch-0.5))),
		Length: chestLong, Width: max(chestLeast, min(chestWide, g.Pivots.Spacing-m.Rest.Width-2*chestAside)),
	}
}

// lean puts a chest on the nearest position of the chest pad: the gap is how far that
// is ahead of the chest.
func lean(pad *specs.ChestPad, chest float64) (position int, gap float64) {
	position = max(0, min(pad.Positions-1, int(math.Round((chest-pad.Rear)/pad.Pitch))))
	return position, pad.Face(position) - chest
}

// ChestFace is where a placed person's chest lies on its pad, in the middle plane; false
// where no position of the pad is near enough.
func ChestFace(pad *specs.ChestPad, p *Person) (at r3.Vec, ok bool) {
	if pad == nil || p.Chest < 0 || math.Abs(p.ChestGap) > chestGive {
		return r3.Vec{}, false
	}
	return r3.Vec{X: pad.Face(p.Chest) - p.ChestGap, Z: pad.Height}, true
}
