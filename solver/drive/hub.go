package drive

import (
	"errors"
	"math"
	"slices"

	"armwright/geometry/cam"
	"armwright/specs/stock"
)

// Own choices for the hub of a cam, mm: four screws M8 on a flange, or through
// cheeks and core of a keyed cam, and four M6 on a split hub.
const (
	hubScrews   = 4
	hubThread   = 8.0
	hubHole     = 9.0 // clearance for M8, medium (ISO 273)
	clampThread = 6.0
	hubFlange   = 28.0 // bolt circle over the bore
	clampHole   = 7.5  // for M6 with washers: half the plate, the least that shops cut
	clampOver   = 21.0 // bolt circle of a split hub over the bore
	clampPlate  = 15.0 // of a split hub: between cam and counterweight
	clampWall   = 6.0  // of a split hub round bore and holes
	clampSlot   = 3.0  // of a split hub, so that it closes by more than the bore's play
	clampEar    = 12.0 // under the screw's head
	headRoom    = 3.0  // more than the screw's width across flats
)

// CheekPlate is the thickness of a cam's cheek plates, mm (own choice).
const CheekPlate = 3.0

// CorePlate returns the thickness of a cam's core plate, mm: the least of stock
// that leaves a cable of the given diameter room between the cheeks.
func CorePlate(cable float64) float64 {
	const room = 1.05
	all := stock.PlateThicknesses()
	for _, t := range all {
		if t >= room*cable {
			return t
		}
	}
	return all[len(all)-1]
}

// Outline closes a cam whose radius of curvature over the loaded range is at
// least the given one: with a bolt circle where there is room for one, otherwise
// without, and the hub is welded in; a split hub cannot do without. A measured cam
// that breaks the bend rule is closed as it is; the rule's own requirement says
// that it does.
func (s *Designer) Outline(p cam.Profile, least float64) (cam.Outline, cam.Plate, error) {
	bore := s.Asked.Stock.Shaft
	plate := cam.Plate{
		Cable: s.Cable.Diameter, MinRadius: math.Min(s.requiredRadius(), least), Bore: bore,
		Bolts: hubScrews, BoltHole: hubHole, BoltCircle: bore + hubFlange,
	}
	switch s.Asked.Stock.Hub {
	case "keyway":
		key, _ := stock.KeyFor(bore) // every shaft a brief may ask for has one
		plate.KeyWidth, plate.KeyDepth = key.Width, key.HubDepth
	case "clamp":
		plate.BoltHole, plate.BoltCircle = clampHole, bore+clampOver
	}
	o, err := p.Outline(plate)
	var e *cam.Error
	if errors.As(err, &e) && (e.Kind == cam.Hub || e.Kind == cam.Closing) && s.Asked.Stock.Hub != "clamp" {
		plate.Bolts, plate.BoltHole, plate.BoltCircle = 0, 0, 0
		o, err = p.Outline(plate)
	}
	return o, plate, err
}

// BoltThread is the thread of the screws through the plates of a cam, mm.
func (h *Hub) BoltThread() float64 {
	if h.Kind == "clamp" {
		return clampThread
	}
	return hubThread
}

// HubOf tells the hub of a finished cam.
func (s *Designer) HubOf(d *State) Hub {
	bore := s.Asked.Stock.Shaft
	out := Hub{Kind: s.Asked.Stock.Hub, Torque: d.HeavyTension * slices.Max(d.MomentArm), Yield: s.Steel.Yield}
	switch out.Kind {
	case "keyway":
		out.Key, _ = stock.KeyFor(bore)
		out.Pressure = out.Key.Pressure(out.Torque, bore, CorePlate(s.Cable.Diameter)+2*CheekPlate)
	case "clamp":
		out.Screw, out.Plate = stock.ClampScrew(), clampPlate
		out.Clamp = cam.Clamp{
			Bore: bore, BoltCircle: d.Plate.BoltCircle, BoltHole: d.Plate.BoltHole, Bolts: d.Plate.Bolts,
			Wall: clampWall, Slot: clampSlot, Screw: out.Screw.Hole, Head: out.Screw.Across + headRoom, Ear: clampEar,
		}
		out.Split = out.Clamp.Hub()
		out.Holding = out.Split.Holding(out.Screw.Preload, stock.SteelFriction, bore)
	}
	return out
}

// ClampReserve is how many times the heaviest load's torque a clamp should hold,
// and by how much the yield strength should exceed a key's pressure: handbooks ask
// for 1.5 to 2 of a joint that must not slip (M).
const ClampReserve = 1.5

// Weak says whether the hub is too weak for the heaviest load.
func (h *Hub) Weak() bool {
	switch h.Kind {
	case "keyway":
		return h.Pressure*ClampReserve > h.Yield
	case "clamp":
		return h.Holding < ClampReserve*h.Torque
	}
	return false
}
