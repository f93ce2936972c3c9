// Package station builds a station from its values: the assembly of its parts and
// joints, one part family a file. It is pure geometry in the machine frame: origin
// on the floor midway between the pivots, +x the way the user faces, +y to the user's
// left, +z up; mm and rad.
package station

import (
	"fmt"
	"math"

	"armwright/geometry/assembly"
	"armwright/geometry/cable"
	"armwright/geometry/solid"
	"armwright/geometry/station/profiles"
	"armwright/geometry/station/values"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// Need is a condition without which a part cannot be made or held as it is meant:
// Slack, mm, is positive where it is met. A late one is judged where a station
// is checked: it leads neither a search nor a study of tolerances.
type Need struct {
	ID    string
	Slack float64
	Late  bool
}

// ValueError tells a value from which no station can be built.
type ValueError struct {
	Value string // "handle.positions"
	Hint  string
}

func (e *ValueError) Error() string { return fmt.Sprintf("station: %s: %s", e.Value, e.Hint) }

// builder is a station under way. Families are methods, one file each; they read
// what earlier ones left in the fields.
type builder struct {
	assembly.Builder
	v      *values.Station
	planes values.Planes
	needs  []Need
	failed error // what a family could not build at all
	shapes profiles.Store[shape]

	// The rest plane: from pivot, up the pad and out of it.
	pivot, up, normal r3.Vec
	angles            []float64 // of each axis position about the swivel line, from across the station towards up
	misfits           []float64 // of each axis out of the rest plane
	middle            int       // middle axis position
	axis, down        r3.Vec    // of the middle position, in the rest plane: outward, and down the pad
	swivelPlane       solid.Placement
	armPlane          solid.Placement
	carry             float64 // depth below the axis of the plane that carries index plate and pad

	frame               int // groups
	swivels, arms, hand assembly.Both

	// Parts that others are joined to, and places.
	rails                         assembly.Both
	crossRear, crossFront         crossMember // one that stands for another is the same
	crossSeat, crossTower         crossMember
	post, stub                    assembly.Both // stub only of a reclined station
	carrier                       assembly.Both // the one of them that carries index plate and pad
	index, sole                   assembly.Both
	innerCheek, outerCheek        assembly.Both
	hub, armTube, armShaft, slide assembly.Both
	pivotUnits                    [2]unit // inner and outer bearing of the pivot
	postX, postY                  float64 // of the right post
	postTop                       r3.Vec  // where the carrier's axis meets the carrying plane
	shift                         float64 // of the carrier's end up the pad from under the bearings
	points                        swivelPoints
	padTube                       assembly.Both // the arm pad bracket, and where its front face is, beside the pivot
	padFront                      r3.Vec
	padUp                         float64 // of the pad's bracket tube, up the pad from the pivot
	floor, baseTop                float64 // underside and top of the base tubes
	second                        r2.Vec  // second shaft in (down, normal) from the pivot
	oval                          r2.Vec  // long way of the bearing housings in (down, normal)
	crossBack                     crossMember
	hoist
}

// crossMember is a tube of the base across the rails.
type crossMember struct {
	part int // -1 for none
	x    float64
}

// begin sets out frames and groups.
func (b *builder) begin(v *values.Station) {
	b.Reset()
	b.v, b.planes, b.needs, b.failed, b.hoist = v, v.Planes(), b.needs[:0], nil, hoist{}
	b.shapes.Begin()
	s, c := math.Sincos(v.Rest.Slope)
	b.pivot = v.Pivot()
	b.up, b.normal = r3.Vec{X: -c, Z: s}, r3.Vec{X: s, Z: c}
	b.angles, b.misfits = b.angles[:0], b.misfits[:0]
	for _, a := range v.Axes {
		b.angles = append(b.angles, math.Atan2(r3.Dot(a, b.up), -a.Y))
		b.misfits = append(b.misfits, math.Asin(max(-1, min(1, r3.Dot(a, b.normal)))))
	}
	b.middle = len(v.Axes) / 2
	sn, cs := math.Sincos(b.angles[b.middle])
	across := r3.Vec{Y: -1}
	b.axis = r3.Add(r3.Scale(cs, across), r3.Scale(sn, b.up))
	b.down = r3.Sub(r3.Scale(sn, across), r3.Scale(cs, b.up))
	b.swivelPlane = solid.Placement{Origin: b.pivot, X: b.down, Y: b.normal, Z: b.axis}
	b.armPlane = b.swivelPlane.Then(solid.Turn(r3.Vec{}, r3.Vec{Z: 1}, v.First))
	b.carry = v.Rest.Offset + padThick + padPlate
	b.floor = footRise
	b.baseTop = b.floor + v.Member.Height

	b.Reference = assembly.Pose{Axis: b.middle, Flexion: [2]float64{v.First, v.First}}
	b.frame = b.Group("frame", -1, nil)
	frame := assembly.One(b.frame)
	swivel := &assembly.Positions{Setting: assembly.Axis, Places: make([]solid.Placement, len(v.Axes))}
	for i, t := range b.angles {
		// About the swivel line, and what the axis leaves the rest plane by about the
		// line across it.
		turn := solid.Turn(b.pivot, b.normal, b.angles[b.middle]-t)
		if m := b.misfits[i]; m != 0 {
			turn = solid.Turn(b.pivot, turn.Vector(b.down), m).Then(turn)
		}
		swivel.Places[i] = turn
	}
	b.swivels = b.GroupPair("swivel", frame, swivel)
	b.arms = b.GroupPair("arm", b.swivels, &assembly.Turn{Point: b.pivot, Axis: b.axis, From: v.First, Ratio: 1})
	b.hand = b.GroupPair("handle", b.arms, &assembly.Steps{Setting: assembly.Handle, Step: r3.Scale(v.Handle.Pitch, b.armPlane.X)})

	b.second, b.oval = r2.Vec{}, r2.Vec{X: 1}
	if second := v.Second; second != nil {
		forward := r3.Unit(r3.Sub(r3.Vec{X: 1}, r3.Scale(b.axis.X, b.axis)))
		at := r3.Add(r3.Scale(second.X, forward), r3.Scale(second.Y, r3.Cross(b.axis, forward)))
		b.second = r2.Vec{X: r3.Dot(at, b.down), Y: r3.Dot(at, b.normal)}
		if math.Abs(b.second.X) > math.Abs(b.second.Y) {
			b.oval = r2.Vec{Y: 1} // past each other
		}
	}
	worst := 0.0
	for _, m := range b.misfits {
		worst = max(worst, math.Abs(m))
	}
	b.need("axes-in-rest-plane", b.planes.Bearings*(axisMisfit-worst))
}

// axisMisfit is how far an axis position may leave the rest plane: what the flat
// faces of sole and index plate give way by, judgement.
const axisMisfit = 0.5 * math.Pi / 180

func (b *builder) need(id string, slack float64) {
	b.needs = append(b.needs, Need{ID: id, Slack: slack})
}

// fail tells that a part of the station has no shape at all.
func (b *builder) fail(value, hint string) {
	if b.failed == nil {
		b.failed = &ValueError{value, hint}
	}
}

// hoist is what tower, stack, cable and countershaft leave for each other.
type hoist struct {
	towerPlan            Tower
	route                cable.Route
	routed               bool
	towerTop, rodBarPart int
	stackGroup           int
	stackHead            assembly.Both
	counterShaft         assembly.Both
	counterGroup         int
}

// unit is one bearing with its housing.
type unit struct{ housing, insert assembly.Both }

// swivelPoints are the places of what holds the swivel, in (down, outward) from
// the swivel line: clamp bolts before and behind the cheeks, where their nuts stay
// clear of the post in every position, and the pull pin in front, between the
// planes of the cheeks.
type swivelPoints struct{ rear, front, pin r2.Vec }
