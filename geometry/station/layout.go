package station

import (
	"math"
	"strings"

	"armwright/geometry/linkage"

	"gonum.org/v1/gonum/spatial/r3"
)

// Member is a straight tube of the frame between the ends of its centreline.
type Member struct {
	ID       string
	Title    string
	A, B     r3.Vec  // mm
	Deep     float64 // section side in the member's own vertical (or x for uprights), mm
	Wide     float64 // section side along y or across, mm
	PerMetre float64 // kg/m
}

// Length between the ends, mm.
func (m Member) Length() float64 { return r3.Norm(r3.Sub(m.B, m.A)) }

// Mass in kg.
func (m Member) Mass() float64 { return m.Length() / 1000 * m.PerMetre }

// Lump is anything with a mass and a place that is not a tube: pads, stack,
// plates, arms. Size is its box for drawing and for gaps; zero size is a point.
type Lump struct {
	ID     string
	Title  string
	Centre r3.Vec
	Size   r3.Vec  // full extents along x, y, z before tilting
	Tilt   float64 // turn of the box in the side view, counter-clockwise seen from the user's right, rad
	Axis   r3.Vec  // of a disc, unit length: Size is its diameter, diameter and thickness; zero for a box
	Mass   float64 // kg
}

// IsStack tells the one weight stack, or each of a pair.
func (l Lump) IsStack() bool {
	return l.ID == "stack" || l.ID == "stack-right" || l.ID == "stack-left"
}

// Sideless drops the side that Build puts behind a title, as the parts list does,
// where a pair is one line.
func Sideless(title string) string {
	return strings.TrimSuffix(strings.TrimSuffix(title, ", right"), ", left")
}

// Structure is everything that stands on the floor.
type Structure struct {
	Members []Member
	Lumps   []Lump
}

// Centre returns total mass (kg) and centre of mass (mm).
func (s Structure) Centre() (mass float64, centre r3.Vec) {
	add := func(m float64, c r3.Vec) {
		mass += m
		centre = r3.Add(centre, r3.Scale(m, c))
	}
	for _, m := range s.Members {
		add(m.Mass(), r3.Scale(0.5, r3.Add(m.A, m.B)))
	}
	for _, l := range s.Lumps {
		add(l.Mass, l.Centre)
	}
	if mass > 0 {
		centre = r3.Scale(1/mass, centre)
	}
	return mass, centre
}

// Layout places the members and lumps of a station. Lengths mm, masses kg.
type Layout struct {
	Side     float64 // section side, square tube
	PerMetre float64

	PivotHeight, PivotSpacing float64
	Rest                      Rest
	ArmReach                  float64 // axis to the outermost handle position
	GripMiddle, GripLength    float64 // axial place of the grip's middle outward from the pivot, and its length
	ArmTube, ArmPerMetre      float64 // side and mass per metre of the arm's square tube
	ArmMass, ArmCentre        float64 // of one arm
	CounterMass, CounterPlace float64 // of one arm's counterweight, opposite the arm
	CounterPhase              float64 // ahead of opposite the arm
	StartAngle                float64 // arm below horizontal at the first loaded angle: slope of the forearm

	Rear, Front, Width            float64
	PadPost, SeatPost             float64
	Tower, TowerTall              float64
	SeatTop, SeatFront            float64 // seat surface at the lowest position
	SeatDepth, SeatWidth          float64
	HasBack                       bool
	BackAngle, BackFoot, BackLong float64
	StackMass, StackTop           float64  // one selectorised stack, and the height of its top at rest; 0 = plate-loaded
	StackLong, StackDeep          float64  // plan size of its plates, along y and x
	StackAside                    float64  // of the middle of each arm's own stack from the midline; 0 = one stack for both
	PlatesEachArm, PlateRadius    float64  // plates on the levers at the first loaded angle
	PlatePhase                    float64  // of the lever above forward horizontal at the first loaded angle
	EccentricMass, EccentricPlace float64  // of one arm's eccentric weight, and its distance from the axis
	EccentricPhase                float64  // above forward horizontal at the first loaded angle
	Drive                         []Lump   // what else of the right arm's drive stands still: sheaves, countershaft, cam; mirrored
	Stands                        []Member // tubes that carry it, right; mirrored

	Train      *linkage.Train // between arm and plates; nil without a linkage
	First      float64        // first loaded angle
	Shaft      float64        // diameter of pivot and output shaft
	BarThick   float64        // of the plate the bars are cut from
	BarPerArea float64        // of that plate, kg/mm²
}

// Stated masses of bought and upholstered parts, kg. Judgement from board,
// foam and cover of the stated sizes: a 25 mm board at 650 kg/m³ and 60 mm of
// foam at 60 kg/m³ is 20 kg/m².
const (
	PadPerSquareMetre = 20.0
	PadThickness      = 60.0 // mm
	carriageMass      = 4.0  // seat carriage with its pop pin
	pivotUnitMass     = 5.0  // swivel bracket, two bearings, shaft and hub of one arm
	stackFrameMass    = 6.0  // two guide rods of 20 mm with caps
)

func box(id, title string, centre r3.Vec, x, y, z, tilt, mass float64) Lump {
	return Lump{ID: id, Title: title, Centre: centre, Size: r3.Vec{X: x, Y: y, Z: z}, Tilt: tilt, Mass: mass}
}

// Build returns the structure: a rectangular base with cross members under
// every post, a post with a crossbar under the pivots, a seat post, and a
// tower for the stack or the plates.
func (l Layout) Build() Structure {
	s := Structure{Members: make([]Member, 0, 32), Lumps: make([]Lump, 0, 48)}
	h := l.Side / 2
	tube := func(id, title string, a, b r3.Vec) {
		s.Members = append(s.Members, Member{ID: id, Title: title, A: a, B: b, Deep: l.Side, Wide: l.Side, PerMetre: l.PerMetre})
	}
	rail := l.Width/2 - h
	cross := func(id, title string, x float64) {
		tube(id, title, r3.Vec{X: x, Y: -rail + h, Z: h}, r3.Vec{X: x, Y: rail - h, Z: h})
	}
	tube("rail-right", "Base rail, right", r3.Vec{X: l.Rear, Y: -rail, Z: h}, r3.Vec{X: l.Front, Y: -rail, Z: h})
	tube("rail-left", "Base rail, left", r3.Vec{X: l.Rear, Y: rail, Z: h}, r3.Vec{X: l.Front, Y: rail, Z: h})
	// Where one under a post leaves no room for that at an end, it ties the rails
	// there instead.
	if x := l.Rear + h; l.roomFor(x) {
		cross("cross-rear", "Cross member, rear", x)
	}
	if x := l.Front - h; l.roomFor(x) {
		cross("cross-front", "Cross member, front", x)
	}
	cross("cross-seat", "Cross member, seat post", l.SeatPost)
	cross("cross-pivot", "Cross member, pivot post", l.PadPost)

	bar := l.CrossbarHeight()
	if !l.HasBack {
		tube("post-pivot", "Pivot post", r3.Vec{X: l.PadPost, Z: l.Side}, r3.Vec{X: l.PadPost, Z: bar - h})
		tube("crossbar", "Crossbar", r3.Vec{X: l.PadPost, Y: -l.PivotSpacing/2 - h, Z: bar}, r3.Vec{X: l.PadPost, Y: l.PivotSpacing/2 + h, Z: bar})
	}
	seatUnder := l.SeatTop - PadThickness
	tube("post-seat", "Seat post", r3.Vec{X: l.SeatPost, Z: l.Side}, r3.Vec{X: l.SeatPost, Z: math.Max(l.Side+60, seatUnder-h)})

	for _, side := range []struct {
		id, title string
		y         float64
	}{{"right", "right", -l.PivotSpacing / 2}, {"left", "left", l.PivotSpacing / 2}} {
		pivot := r3.Vec{Y: side.y, Z: l.PivotHeight}
		// Nothing may stand where the elbow is: the bearings are outside the
		// arm, and what carries them comes from below.
		bearing := r3.Vec{Y: math.Copysign(l.PivotSpacing/2+l.BearingPlane(), side.y), Z: l.PivotHeight}
		if l.HasBack {
			// The arm hangs down from the pivot when straight: the post stands
			// behind it, and a swivel bar carries the bearing forward.
			head := r3.Vec{X: l.PadPost, Y: bearing.Y, Z: l.PivotHeight + h}
			tube("post-pivot-"+side.id, "Pivot post, "+side.title, r3.Vec{X: l.PadPost, Y: bearing.Y, Z: l.Side}, head)
			if math.Abs(l.PadPost) > h {
				s.Members = append(s.Members, Member{ID: "swivel-" + side.id, Title: "Swivel bar, " + side.title,
					A: r3.Vec{X: l.PadPost, Y: bearing.Y, Z: l.PivotHeight}, B: bearing, Deep: l.ArmTube, Wide: l.ArmTube, PerMetre: l.ArmPerMetre})
			}
		} else {
			z := bar + h + l.ArmTube/2
			s.Members = append(s.Members,
				Member{ID: "swivel-" + side.id, Title: "Swivel bar, " + side.title, A: r3.Vec{X: l.PadPost, Y: side.y, Z: z},
					B: r3.Vec{X: l.PadPost, Y: bearing.Y, Z: z}, Deep: l.ArmTube, Wide: l.ArmTube, PerMetre: l.ArmPerMetre},
				Member{ID: "upright-" + side.id, Title: "Bearing upright, " + side.title, A: r3.Vec{X: l.PadPost, Y: bearing.Y, Z: z + l.ArmTube/2},
					B: bearing, Deep: l.ArmTube, Wide: l.ArmTube, PerMetre: l.ArmPerMetre})
		}
		s.Lumps = append(s.Lumps, Lump{ID: "pivot-" + side.id, Title: "Pivot unit, " + side.title, Centre: bearing, Mass: pivotUnitMass})
		long := l.Rest.Far - l.Rest.Near
		mid := r3.Sub(r3.Scale((l.Rest.Far+l.Rest.Near)/2, l.Rest.upper()), r3.Scale(l.Rest.Offset+PadThickness/2, l.Rest.normal()))
		s.Lumps = append(s.Lumps, box("pad-"+side.id, "Arm pad, "+side.title, r3.Add(pivot, mid),
			long, l.Rest.Width, PadThickness, -l.Rest.Slope, PadPerSquareMetre*long*l.Rest.Width*1e-6))
		s.Lumps = l.moving(s.Lumps, side.id, side.title, pivot, 0)
		if l.Train != nil {
			members, unit := l.ground(side.id, side.title, pivot)
			s.Members, s.Lumps = append(s.Members, members...), append(s.Lumps, unit)
		}
		for _, m := range l.Stands {
			m.ID, m.Title = m.ID+"-"+side.id, m.Title+", "+side.title
			if side.y > 0 {
				m.A, m.B = Mirror(m.A), Mirror(m.B)
			}
			s.Members = append(s.Members, m)
		}
		for _, u := range l.Drive {
			u.ID, u.Title = u.ID+"-"+side.id, u.Title+", "+side.title
			if side.y > 0 {
				u.Centre, u.Axis.Y = Mirror(u.Centre), -u.Axis.Y
			}
			s.Lumps = append(s.Lumps, u)
		}
	}

	seatX := l.SeatFront - l.SeatDepth/2
	s.Lumps = append(s.Lumps, box("seat", "Seat pad", r3.Vec{X: seatX, Z: l.SeatTop - PadThickness/2},
		l.SeatDepth, l.SeatWidth, PadThickness, 0, carriageMass+PadPerSquareMetre*l.SeatDepth*l.SeatWidth*1e-6))
	if l.HasBack {
		sn, cs := math.Sincos(l.BackAngle)
		along := r3.Vec{X: -sn, Z: cs}
		forward := r3.Vec{X: cs, Z: sn}
		pad := r3.Vec{X: l.BackFoot, Z: l.SeatTop}
		mid := r3.Add(pad, r3.Sub(r3.Scale(l.BackLong/2, along), r3.Scale(PadThickness/2, forward)))
		s.Lumps = append(s.Lumps, box("back", "Back pad", mid, PadThickness, backWidth, l.BackLong, l.BackAngle,
			PadPerSquareMetre*l.BackLong*backWidth*1e-6))
		top := r3.Add(pad, r3.Sub(r3.Scale(0.6*l.BackLong, along), r3.Scale(PadThickness+h, forward)))
		foot := l.Rear + h
		if !l.roomFor(foot) {
			foot = l.PadPost
		}
		tube("strut-back", "Back pad strut", r3.Vec{X: foot, Z: l.Side}, top)
	}
	if l.TowerTall > 0 {
		wide := l.TowerHalf()
		tube("tower-right", "Tower upright, right", r3.Vec{X: l.Tower, Y: -wide, Z: l.Side}, r3.Vec{X: l.Tower, Y: -wide, Z: l.TowerTall - l.Side})
		tube("tower-left", "Tower upright, left", r3.Vec{X: l.Tower, Y: wide, Z: l.Side}, r3.Vec{X: l.Tower, Y: wide, Z: l.TowerTall - l.Side})
		tube("tower-top", "Tower top", r3.Vec{X: l.Tower, Y: -wide - h, Z: l.TowerTall - h}, r3.Vec{X: l.Tower, Y: wide + h, Z: l.TowerTall - h})
		cross("cross-tower", "Cross member, tower", l.Tower)
	}
	if l.StackMass > 0 {
		tall := l.StackTop - l.Side
		stack := func(suffix, title string, y float64) {
			s.Lumps = append(s.Lumps,
				box("stack"+suffix, "Weight stack"+title, r3.Vec{X: l.Tower, Y: y, Z: l.Side + tall/2}, l.StackDeep, l.StackLong, tall, 0, l.StackMass),
				box("guides"+suffix, "Guide rods"+title, r3.Vec{X: l.Tower, Y: y, Z: l.TowerTall / 2}, 20, l.StackLong-100, l.TowerTall-2*l.Side, 0, stackFrameMass))
		}
		if l.StackAside > 0 {
			stack("-right", ", right", -l.StackAside)
			stack("-left", ", left", l.StackAside)
		} else {
			stack("", "", 0)
		}
	}
	return s
}

// roomFor says whether a cross member at x clears those under the posts.
func (l Layout) roomFor(x float64) bool {
	clear := func(post float64) bool { return math.Abs(post-x) >= l.Side }
	return clear(l.SeatPost) && clear(l.PadPost) && (l.TowerTall <= 0 || clear(l.Tower))
}

const backWidth = 280.0 // between the arms; judgement

// TowerHalf is the tower uprights' distance from the midline.
func (l Layout) TowerHalf() float64 { return l.StackAside + l.StackLong/2 + l.Side }

// CrossbarHeight is the height of the crossbar's centreline: below the pads and
// the swivel bars that lie on it.
func (l Layout) CrossbarHeight() float64 {
	return l.PivotHeight - l.Rest.Offset - PadThickness - l.ArmTube - l.Side
}

// The tube of an arm starts HubReach from the axis and ends GripPast beyond the
// outermost handle position, mm (own choice).
const (
	HubReach = 60.0
	GripPast = 40.0
)

// The planes across one pivot axis, outward from the pivot, mm: the arm's tube
// beyond the grip's outer end, the bearings beyond the arm, the cam or the
// plates beyond the bearings.
func (l Layout) ArmPlane() float64 { return l.GripMiddle + l.GripLength/2 + l.ArmTube/2 + endClear }

// BearingPlane is the middle of the two bearings; see ArmPlane.
func (l Layout) BearingPlane() float64 { return l.ArmPlane() + l.ArmTube/2 + bearingRoom }

// CamPlane is the plane of the cam or the plates; see ArmPlane.
func (l Layout) CamPlane() float64 { return l.BearingPlane() + bearingRoom }

// CounterPlane is the plane of the counterweight or the eccentric weight, on the
// shaft's end under the drive's guard: in the arm's own plane it would sweep past
// the pad, where the user's upper arm is, and in the cam's past guide sheave and
// countershaft.
func (l Layout) CounterPlane() float64 { return l.CamPlane() + counterAside }

// CounterThick is the thickness of the counterweight, a square plate of steel.
const CounterThick = 30.0

// DriveEnd is the outer end of the drive along the axis: shaft end and guard.
func (l Layout) DriveEnd() float64 { return l.PlatePlane() + guardRoom }

const (
	endClear     = 10.0 // between grip end and arm tube
	bearingRoom  = 60.0 // half the bearing pair with its nuts
	counterAside = 55.0 // from the cam's plane to the counterweight's, past the wheels of a countershaft
	guardRoom    = 75.0 // cam cheeks or plate sleeve, wheels, counterweight, shaft end and a guard
)

// moving appends the lumps of one arm at an arm angle theta past the first loaded
// angle: the arm, its counterweight, its plates and the bars that move them.
func (l *Layout) moving(out []Lump, id, title string, pivot r3.Vec, theta float64) []Lump {
	at := func(r, angle float64) r3.Vec {
		s, c := math.Sincos(angle)
		return r3.Add(pivot, r3.Vec{X: r * c, Z: r * s})
	}
	a := theta - l.StartAngle
	beside := func(v r3.Vec, plane float64) r3.Vec { v.Y += math.Copysign(plane, v.Y); return v }
	out = append(out, box("arm-"+id, "Arm, "+title, beside(at(l.ArmCentre, a), l.ArmPlane()), l.ArmReach, l.ArmTube, l.ArmTube, a, l.ArmMass))
	if l.CounterMass > 0 {
		out = append(out, Lump{ID: "counter-" + id, Title: "Counterweight, " + title, Centre: beside(at(-l.CounterPlace, a+l.CounterPhase), l.CounterPlane()), Mass: l.CounterMass})
	}
	if l.EccentricMass > 0 {
		out = append(out, Lump{ID: "eccentric-" + id, Title: "Eccentric weight, " + title, Centre: beside(at(l.EccentricPlace, theta+l.EccentricPhase), l.CounterPlane()), Mass: l.EccentricMass})
	}
	if l.Train != nil {
		return l.trainLumps(out, id, title, pivot, theta)
	}
	if l.PlatesEachArm > 0 {
		out = append(out, Lump{ID: "plates-" + id, Title: "Plates, " + title, Centre: beside(at(l.PlateRadius, theta+l.PlatePhase), l.CamPlane()), Mass: l.PlatesEachArm})
	}
	return out
}

// RightPivot is where the right arm turns.
func (l Layout) RightPivot() r3.Vec { return r3.Vec{Y: -l.PivotSpacing / 2, Z: l.PivotHeight} }

// Swinging returns mass (kg) and moment of mass (kg·mm, about the origin) of
// what turns with the right arm, without plates, at theta past the first
// loaded angle, and the place of the plates' centre.
func (l Layout) Swinging(theta float64) (mass float64, moment, plates r3.Vec) {
	bare := l
	bare.PlatesEachArm = 0
	var few [8]Lump
	list := bare.moving(few[:0], "", "", l.RightPivot(), theta) // nobody reads their names
	for i := range list {
		u := &list[i]
		mass += u.Mass
		moment = r3.Add(moment, r3.Scale(u.Mass, u.Centre))
	}
	if l.Train != nil {
		return mass, moment, output(l.RightPivot(), l.pose(theta).Plates, l.PlatePlane())
	}
	s, c := math.Sincos(theta + l.PlatePhase)
	plates = r3.Add(l.RightPivot(), r3.Vec{X: l.PlateRadius * c, Y: -l.CamPlane(), Z: l.PlateRadius * s})
	return mass, moment, plates
}

// Moved returns the structure with the arms at theta past the first loaded
// angle and the stack raised by lift.
func (l Layout) Moved(s Structure, theta, lift float64) Structure {
	out := Structure{Members: s.Members, Lumps: make([]Lump, 0, len(s.Lumps))}
	moved := map[string]Lump{}
	for _, side := range []struct {
		id string
		y  float64
	}{{"right", -l.PivotSpacing / 2}, {"left", l.PivotSpacing / 2}} {
		for _, m := range l.moving(nil, side.id, side.id, r3.Vec{Y: side.y, Z: l.PivotHeight}, theta) {
			moved[m.ID] = m
		}
	}
	for _, lump := range s.Lumps {
		if m, ok := moved[lump.ID]; ok {
			m.Title = lump.Title
			lump = m
		}
		if lump.IsStack() {
			lump.Centre.Z += lift
		}
		out.Lumps = append(out.Lumps, lump)
	}
	return out
}
