package fit

import (
	"fmt"
	"math"
	"strings"

	"armwright/geometry/station"
	"armwright/specs"
	"armwright/specs/stock"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// Hazards is what could crush or shear while the arms move, and what keeps
// hands away. Screening by the tables of standards; it proves no conformity.
type Hazards struct {
	Pairs       []HazardPair
	GuardHeight float64    // to which the moving weights must be covered, mm; 0 without a stack
	GuardReach  float64    // gap to keep behind a guard with openings of guardOpening, mm
	Stops       [2]float64 // flexion at which the arms meet their stops, rad
	Notes       []string
}

// HazardPair is a moving and another part with the least gap between them over
// the motion and over all positions of axis and handle.
type HazardPair struct {
	Moving, Fixed string
	Gap           float64 // mm
	Angle         float64 // flexion of the least gap, rad
	Axis          int     // axis position of the least gap
	Closing       bool    // the gap changes: it can crush; otherwise it can only shear
	Part          station.Part
	Required      float64 // least gap for that part, mm
	Admits        string  // the largest part of the body the gap leaves whole, "" for none
	Met           bool
}

const (
	// closing is the change of a gap, mm, above which it counts as one that
	// closes (own choice: what play in the bearings may give).
	closing = 2.0
	// guardOpening is the width of the slots of the stack's guard, mm: a common
	// mesh (own choice).
	guardOpening = 8.0
	// headRadius of a ball round the head's centre of mass, mm: half of the
	// length of a man's head, 199 (2012 survey, M).
	headRadius = 100.0
	// bellyReach is how far the belly reaches up and down from its foremost
	// height, mm (judgement).
	bellyReach = 80.0
	// Names of moving parts.
	tubeName, gripName, counterName, plateName, eccentricName = "arm", "grip", "counterweight", "plates", "eccentric weight"
	inputName, couplerName, outputName, leverName             = "input bar", "coupler", "output bar", "plate lever"
)

// mover is one moving body of the right arm: a segment from (r, w) to (r, w),
// distances from the axis and outward along it, thickened by a radius; a disc
// has several, one for each of its diameters.
type mover struct {
	name           string
	r1, w1, r2, w2 float64
	radius         float64
	phase          float64 // ahead of the arm
	across         float64 // half length across the radius: a diameter of a disc, mm
	turn           float64 // of that diameter
	// places are both ends at each angle of the grid, forward and up in the plane
	// across the axis, of what does not turn with the arm; nil of what does.
	places [][2]r2.Vec
}

// ends returns the segment at a flexion whose sine and cosine, with the
// mover's own phase, are given.
func (m *mover) ends(sw station.Swing, sin, cos float64) (a, b r3.Vec) {
	if m.across == 0 {
		return sw.Place(m.r1, m.w1, sin, cos), sw.Place(m.r2, m.w2, sin, cos)
	}
	c := sw.Place(m.r1, m.w1, sin, cos)
	s, k := math.Sincos(m.turn)
	d := r3.Scale(m.across, r3.Add(r3.Scale(k, sw.Forward), r3.Scale(s, sw.Up)))
	return r3.Add(c, d), r3.Sub(c, d)
}

// half the length of the mover.
func (m *mover) half() float64 {
	if m.places != nil {
		return r2.Norm(r2.Sub(m.places[0][0], m.places[0][1])) / 2
	}
	if m.across > 0 {
		return m.across
	}
	return math.Hypot(m.r2-m.r1, m.w2-m.w1) / 2
}

// far is how far from the axis the mover comes.
func (m *mover) far() float64 {
	if m.places == nil {
		return max(math.Abs(m.r1), math.Abs(m.r2)) + m.across
	}
	most := 0.0
	for _, ends := range m.places {
		most = max(most, r2.Norm2(ends[0]), r2.Norm2(ends[1]))
	}
	return math.Sqrt(most)
}

// beyond tells whether two places are farther apart than a distance.
func beyond(a, b r3.Vec, distance float64) bool {
	return distance < 0 || r3.Norm2(r3.Sub(a, b)) > distance*distance
}

// movers lists the moving bodies of one arm.
func (s *study) movers(g *specs.Geometry, l station.Layout) []mover {
	plane := l.ArmPlane()
	in, out := l.GripMiddle-l.GripLength/2, plane
	list := []mover{
		{name: tubeName, r1: station.HubReach, w1: plane, r2: l.ArmReach + station.GripPast, w2: plane, radius: l.ArmTube / 2},
		{name: gripName, r1: l.ArmReach, w1: in, r2: l.ArmReach, w2: out, radius: g.Handle.Diameter / 2},
		{name: gripName, r1: g.Handle.Least, w1: in, r2: g.Handle.Least, w2: out, radius: g.Handle.Diameter / 2},
	}
	if l.CounterMass > 0 {
		half := math.Sqrt(l.CounterMass/(stock.SteelDensity*station.CounterThick)) / 2
		w := l.CounterPlane()
		list = append(list, mover{name: counterName, r1: -l.CounterPlace - half, w1: w, r2: half - l.CounterPlace, w2: w, radius: station.CounterThick / 2, phase: l.CounterPhase})
	}
	// Round plates by some of their diameters.
	disc := func(name string, r, w, rim, thick, phase float64) {
		const diameters = 8
		for i := range diameters {
			list = append(list, mover{name: name, r1: r, w1: w, radius: thick / 2, phase: phase, across: rim, turn: math.Pi * float64(i) / diameters})
		}
	}
	slope := l.Rest.Slope // the swing points down the pad at flexion 0
	if e := g.Eccentric; e != nil && e.Mass > 0 {
		disc(eccentricName, e.Radius, l.CounterPlane(), math.Sqrt(e.Mass/(math.Pi*stock.SteelDensity*station.CounterThick)), station.CounterThick, e.Phase+slope)
	}
	if v := g.Lever; v != nil {
		disc(plateName, v.Radius, l.CamPlane(), plateRim, plateThickness(l.PlatesEachArm), v.Phase+slope)
	}
	if g.Linkage != nil {
		list = append(list, s.linkageMovers(g, l)...)
	}
	return list
}

// ofPivot tells the members that turn with the axis positions.
func ofPivot(id string) bool {
	switch id {
	case "swivel-right", "swivel-left", "upright-right", "upright-left", "ground-right", "ground-left":
		return true
	}
	return false
}

// enters is the part of the body that can be between a moving and another
// part: a hand is on the grip and follows it to whatever is hard, a foot may stand
// under what comes down to the floor, and elsewhere a finger may be put in.
func enters(moving, fixed string) station.Part {
	switch {
	case fixed == floorName:
		return station.Foot
	case fixed == otherName: // both hands are on their grips
		return station.Finger
	case moving == gripName && !soft(fixed):
		return station.Hand
	}
	return station.Finger
}

// guarded tells the pairs that are both under the drive's guard, where no finger
// gets in: a weight on the shaft's end, and the sheaves with
// their stand. They must only not touch.
func guarded(moving, fixed string) bool {
	if moving != counterName && moving != eccentricName {
		return false
	}
	return strings.HasPrefix(fixed, "Guide sheave") || strings.HasPrefix(fixed, "Redirect sheave") || strings.HasPrefix(fixed, "Sheave stand")
}

// guardClear is what parts under one guard keep apart, mm (own choice: sag and
// play of a cable's stand).
const guardClear = 5.0

// soft tells the upholstered parts: their foam gives way by more than what a
// hand is thicker than a finger's gap (judgement; the standard knows no foam).
func soft(title string) bool {
	switch title {
	case "Seat pad", "Back pad", "Arm pad, right", "Arm pad, left":
		return true
	}
	return false
}

const (
	floorName   = "the floor"
	otherName   = "the other arm"
	bearingName = "its bearing upright"
)

// hazards lists every pair with its least gap.
func (s *study) hazards(g *specs.Geometry, l station.Layout, st station.Structure, d drive) Hazards {
	type key struct{ moving, fixed string }
	index := map[key]int{}
	var list []HazardPair
	var most []float64
	none := func(*meeting) float64 { return math.Inf(1) }
	s.sweep(g, l, st, none, func(m *meeting, gap float64, at int) {
		k := key{m.moving, m.fixed}
		i, ok := index[k]
		if !ok {
			i = len(list)
			index[k] = i
			part := m.part
			need := max(part.LeastGap(), s.limits[s.index["crush-gap"]])
			if m.guarded {
				need = guardClear
			} else if part != station.Finger {
				need = part.LeastGap() * s.limits[s.index["entry-gap"]]
			}
			list = append(list, HazardPair{Moving: m.moving, Fixed: m.fixed, Gap: math.Inf(1), Part: part, Required: need})
			most = append(most, math.Inf(-1))
		}
		if gap < list[i].Gap {
			list[i].Gap, list[i].Angle, list[i].Axis = gap, s.angles[at], m.axis
		}
		most[i] = max(most[i], gap)
	})
	var touch []string
	for i := range list {
		p := &list[i]
		p.Closing = most[i]-p.Gap > closing
		p.Met = p.Gap >= p.Required-gapRounding
		if guarded(p.Moving, p.Fixed) && !p.Met {
			touch = append(touch, fmt.Sprintf("under the guard the %s comes within %s of the %s: %s are wanted", p.Moving, s.size(p.Gap), strings.ToLower(p.Fixed), s.size(guardClear)))
		}
		if part, ok := station.Admits(p.Gap + gapRounding); ok {
			p.Admits = part.String()
		}
	}
	safety, _ := station.SafetyDistance(station.Slot, guardOpening) // 8 mm is in the table
	out := Hazards{Pairs: list, Stops: [2]float64{s.angles[0], s.angles[len(s.angles)-1]}}
	out.Notes = append(out.Notes,
		"arms rest on their stops at either end of the loaded range, with rubber buffers on both stops",
		"edges and corners that users touch: radius 2.5 mm at least; tube ends closed (EN 957-1 5.3, M)",
		"grip ends: 50 mm across with a radius of 5 mm, or bent back by 180 degrees (second hand); grips hold 90 N along their axis (ASTM F2571-15, second hand)")
	if g.Linkage != nil {
		out.Notes = append(out.Notes, fmt.Sprintf("cover input bar, coupler and output bar on both sides: where they join they close like scissors; slots of %s in the cover need %s to the bars (ISO 13857:2019, second hand)",
			s.size(guardOpening), s.size(safety)))
	}
	out.Notes = append(out.Notes, touch...)
	if l.StackMass > 0 {
		out.GuardHeight = station.GuardHeight(l.StackTop + stackRest + d.TakeUp)
		out.GuardReach = safety
		out.Notes = append(out.Notes, fmt.Sprintf("cover the stack on all sides up to %s; slots of %s in the cover need %s to the weights (ISO 13857:2019, second hand)",
			s.size(out.GuardHeight), s.size(guardOpening), s.size(out.GuardReach)))
	}
	return out
}

// gapRounding is what a gap may fall short of its limit by rounding, mm: the
// frame file holds 1e-4 mm.
const gapRounding = 1e-3

// bodyGaps adds, for every boundary person, the least gap of the moving arm
// and grip to the person's own trunk, head and thigh, and to those of nobody
// else: by mirror symmetry one side is enough. The model is nil but for the
// search.
func (s *study) bodyGaps(g *specs.Geometry, l station.Layout, sat []Person, out *rows, known *model) {
	m := newMachine(g)
	swings := make([]station.Swing, len(m.axes))
	for i, axis := range m.axes {
		swings[i] = station.NewSwing(l.RightPivot(), axis, m.rest.Slope)
	}
	for i := range sat {
		known.gap(i, out, func(below float64) *row { return s.bodyGap(g, &swings[sat[i].Axis], &l, i, &sat[i], below, out) })
	}
}

// bodyGap adds the row of one person if the gap lies below a limit, nil if it does
// not: the lower the limit, the more can be passed over.
func (s *study) bodyGap(g *specs.Geometry, sw *station.Swing, l *station.Layout, i int, p *Person, below float64, out *rows) *row {
	plane, in := l.ArmPlane(), l.GripMiddle-l.GripLength/2
	parts := p.solids()
	var radii [2]float64
	if p.Handle >= 0 {
		r := g.Handle.Least + float64(p.Handle)*g.Handle.Pitch
		radii = [2]float64{r, r}
	} else { // while the handle is free it may come to lie half a pitch to either side
		own := r3.Norm(p.Body.Hinge.Path(p.Body.Forearm).Sin)
		radii = [2]float64{own - g.Handle.Pitch/2, own + g.Handle.Pitch/2}
	}
	least, at, moving, part := below, 0, "", ""
	// A body between (r1, w1) and (r2, w2), radii and places along the axis, moves
	// by no more than its greatest radius times the turn: from a gap that has that
	// much to spare, angles may be passed over.
	swing := func(name string, r1, w1, r2, w2, radius float64) {
		half, far := math.Hypot(r2-r1, w2-w1)/2, max(r1, r2)
		for j := range parts {
			o := &parts[j]
			for k := 0; k < len(s.angles); {
				middle := sw.Place((r1+r2)/2, (w1+w2)/2, s.sin[k], s.cos[k])
				gap := math.Sqrt(r3.Norm2(r3.Sub(middle, o.box.Centre))) - half - o.reach - radius
				if gap < least {
					a, b := sw.Place(r1, w1, s.sin[k], s.cos[k]), sw.Place(r2, w2, s.sin[k], s.cos[k])
					if gap = o.box.Gap(a, b) - o.radius - radius; gap < least {
						least, at, moving, part = gap, k, name, o.name
					}
				}
				from := s.angles[k]
				for k++; k < len(s.angles) && (s.angles[k]-from)*far <= gap-least; k++ {
				}
			}
		}
	}
	for j, r := range radii {
		if j == 0 || r != radii[0] {
			swing(gripName, r, in, r, plane, g.Handle.Diameter/2)
		}
	}
	swing(tubeName, station.HubReach, plane, l.ArmReach+station.GripPast, plane, l.ArmTube/2)
	if part == "" {
		return nil
	}
	w := out.add("body-gap", i, least).at(s.angles[at])
	if !out.quiet {
		out.named(w, "%s to %s", moving, part)
	}
	return w
}

// solid is a part of a person: a box thickened by a radius.
type solid struct {
	name   string
	box    station.Box
	radius float64
	reach  float64
}

// solids are the person's trunk, belly, head and right thigh: the chest's
// section with round sides about a middle plane that lies Protraction behind
// the line from hip to shoulder when reaching forward, the belly likewise about
// its foremost point, a ball, and a round bar along the seat.
func (p *Person) solids() [4]solid {
	b := p.Body
	hip := p.Pose.Hip
	shoulder := p.Pose.Shoulder
	hip.Y, shoulder.Y = 0, 0
	along := r3.Unit(r3.Sub(shoulder, hip))
	forward := r3.Vec{X: along.Z, Z: -along.X}
	axes := [3]r3.Vec{along, {Y: 1}, forward}
	back := station.Protraction
	if p.Pose.Lean < 0 { // reclined: the shoulders stay back
		back = 0
	}
	depth := b.ChestDepth / 2
	side := max(0, b.ChestBreadth/2-depth)
	chest := station.Box{Centre: r3.Sub(r3.Scale(0.5, r3.Add(hip, shoulder)), r3.Scale(back, forward)), Axes: axes, Half: [3]float64{b.Trunk / 2, side, 0}}
	belly := station.Box{Centre: r3.Add(hip, r3.Add(r3.Scale(b.BellyHeight, along), r3.Scale(b.BellyFront-depth, forward))),
		Axes: axes, Half: [3]float64{bellyReach, side, 0}}
	head := station.Box{Centre: r3.Add(hip, r3.Scale(headAlong(p.Person, b), along)), Axes: axes}
	radius := b.ThighDepth / 2
	length := max(0, b.Knee-radius)
	thigh := station.Box{
		Centre: r3.Vec{X: hip.X + length/2, Y: -b.ThighHalf, Z: hip.Z - b.Hip + radius},
		Axes:   [3]r3.Vec{{X: 1}, {Y: 1}, {Z: 1}}, Half: [3]float64{length / 2, 0, 0},
	}
	out := [4]solid{{name: "chest", box: chest, radius: depth}, {name: "belly", box: belly, radius: depth},
		{name: "head", box: head, radius: headRadius}, {name: "thigh", box: thigh, radius: radius}}
	for i := range out {
		out[i].reach = out[i].box.Reach() + out[i].radius
	}
	return out
}

// safety completes a result with what is told of balance, hazards, strength
// and joints beside the requirements.
func (s *study) safety(g *specs.Geometry, d drive, r *Result) {
	sat := r.People.Boundary
	r.Balance.Seated = s.seatedCurves(g, r.Layout, sat, d.level)
	r.Hazards = s.hazards(g, r.Layout, r.Structure, d)
	cable, _ := r.Requirement("cable-factor")
	r.Strength = s.strength(g, r.Layout, sat, d, cable)
	r.Protection = s.protection(g, r.Layout, sat, d.level)
	if b := r.Balance; b.Anchored {
		r.Notes = append(r.Notes, fmt.Sprintf("the station must be anchored to the floor: four anchors, at least %s of pull each by the tilt, and what their maker asks on top", s.units().Size(math.Ceil(b.AnchorPull), "N")))
	}
}
