package draw

import (
	"math"

	"armwright/export/sheet"
	"armwright/export/stroke"
	"armwright/geometry/elbow"
	"armwright/geometry/station"
	"armwright/solver"
	"armwright/solver/build"
	"armwright/specs"
	"armwright/specs/stock"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// Sizes of parts that neither frame nor layout hold, mm.
const (
	hubAcross  = 60.0 // diameter of the arm's hub
	rodAcross  = 20.0 // guide rods of the stack
	bossAcross = 70.0 // diameter of a bearing housing, simplified
	bossLong   = 30.0 // of it along its shaft
)

// machine is the geometry of one station in the terms of drawing.
type machine struct {
	r           *solver.Result
	geo         *specs.Geometry
	layout      station.Layout
	pivot       r3.Vec  // right
	axis        r3.Vec  // right, outward: the mean of the axis positions
	first, last float64 // loaded range
}

func newMachine(r *solver.Result) *machine {
	g := &r.Frame.Geometry
	m := &machine{r: r, geo: g, layout: r.Layout, pivot: g.Pivots.Right(), axis: g.Pivots.MeanAxis()}
	loaded := r.Frame.Resistance.Loaded
	m.first, m.last = loaded.From, loaded.To
	return m
}

// slope is that of the pad; level on a bench without one.
func (m *machine) slope() float64 {
	if m.geo.Pad == nil {
		return 0
	}
	return m.geo.Pad.Slope
}

// armAt is the unit vector along the right arm at a flexion.
func (m *machine) armAt(theta float64) r3.Vec {
	s, c := math.Sincos(m.slope())
	down := r3.Vec{X: c, Z: -s}
	down = r3.Unit(r3.Sub(down, r3.Scale(r3.Dot(down, m.axis), m.axis)))
	return elbow.Rotate(down, m.axis, theta)
}

// plane returns the cam plane's own directions, forward and up.
func (m *machine) plane() (forward, up r3.Vec) {
	x := r3.Vec{X: 1}
	forward = r3.Unit(r3.Sub(x, r3.Scale(r3.Dot(x, m.axis), m.axis)))
	return forward, r3.Cross(m.axis, forward)
}

// inPlane is a point of the cam plane, or of one beside it by aside outward,
// given from the cam axis.
func (m *machine) inPlane(p r2.Vec, aside float64) r3.Vec {
	c := m.geo.Cam
	return m.across(r2.Vec{X: c.CentreX + p.X, Y: c.CentreY + p.Y}, m.layout.CamPlane()+aside)
}

// across is a point of a plane across the right axis, outward from the pivot, its
// place given from the axis.
func (m *machine) across(p r2.Vec, outward float64) r3.Vec {
	forward, up := m.plane()
	return r3.Add(m.onAxis(outward), r3.Add(r3.Scale(p.X, forward), r3.Scale(p.Y, up)))
}

// onAxis is a point of the right axis.
func (m *machine) onAxis(outward float64) r3.Vec {
	return r3.Add(m.pivot, r3.Scale(outward, m.axis))
}

// middleHandle is the handle radius drawn.
func (m *machine) middleHandle() float64 { return m.geo.Handle.Radius(m.geo.Handle.Positions / 2) }

// arm is the right arm at a flexion: tube and grip, and where it stands still
// also what turns with it.
func (m *machine) arm(theta float64, role sheet.Role) []prism {
	d := m.armAt(theta)
	l := m.layout
	foot := m.onAxis(l.ArmPlane())
	inner, outer := m.onAxis(l.ArmPlane()-l.ArmTube/2), m.onAxis(l.ArmPlane()+l.ArmTube/2)
	tube := bar(r3.Add(foot, r3.Scale(station.HubReach, d)), r3.Add(foot, r3.Scale(m.geo.Handle.Greatest()+station.GripPast, d)), m.axis, l.ArmTube, l.ArmTube)
	tube.part = "Arm tube"
	h := m.geo.Handle
	at := r3.Scale(m.middleHandle(), d)
	grip := rod(r3.Add(m.onAxis(h.Middle-h.GripLength/2), at), r3.Add(inner, at), h.Diameter)
	grip.part = "Grip bar"
	out := []prism{tube, grip}
	still := role == sheet.Visible
	if still {
		out = append(out, rod(inner, outer, hubAcross),
			bar(r3.Add(foot, r3.Scale(hubAcross/2, d)), r3.Add(foot, r3.Scale(station.HubReach, d)), m.axis, l.ArmTube, l.ArmTube))
	}
	if c := m.geo.Counterweight; still && c != nil && c.Mass > 0 {
		// A square plate on a bar from the shaft's end.
		root := m.onAxis(l.CounterPlane())
		side, half := m.counterSide(), r3.Scale(station.CounterThick/2, m.axis)
		way := elbow.Rotate(d, m.axis, c.Phase)
		at := r3.Add(root, r3.Scale(-c.Radius, way))
		w := bar(r3.Sub(at, half), r3.Add(at, half), way, side, side)
		w.part = "Counterweight"
		out = append(out, w, bar(root, r3.Add(root, r3.Scale(side/2-c.Radius, way)), m.axis, l.ArmTube/2, l.ArmTube/2))
	}
	if w := m.geo.Eccentric; still && w != nil && w.Mass > 0 {
		// A round plate on a bar from the shaft's end.
		forward, _ := m.plane()
		reach := r3.Scale(w.Radius, elbow.Rotate(forward, m.axis, theta+w.Phase))
		root, half := m.onAxis(l.CounterPlane()), r3.Scale(station.CounterThick/2, m.axis)
		at := r3.Add(root, reach)
		p := rod(r3.Sub(at, half), r3.Add(at, half), m.eccentricAcross())
		p.part = "Eccentric weight"
		out = append(out, p, bar(root, at, m.axis, l.ArmTube/2, l.ArmTube/2))
	}
	if v := m.geo.Lever; v != nil {
		forward, _ := m.plane()
		e := elbow.Rotate(forward, m.axis, theta+v.Phase)
		at := r3.Scale(v.Radius, e)
		plane := l.CamPlane()
		half := build.PlateThickness(l.PlatesEachArm) / 2
		w := rod(r3.Add(m.onAxis(plane-half), at), r3.Add(m.onAxis(plane+half), at), 2*build.PlateRim)
		w.bare = true
		out = append(out, w)
		if still {
			root := m.onAxis(plane - half - l.ArmTube/2)
			out = append(out, bar(root, r3.Add(root, at), m.axis, l.ArmTube, l.ArmTube))
		}
	}
	for i := range out {
		out[i].role = role
	}
	return out
}

// counterSide is the side of the counterweight, a square plate of steel.
func (m *machine) counterSide() float64 {
	return math.Sqrt(m.geo.Counterweight.Mass / (stock.SteelDensity * station.CounterThick))
}

// eccentricAcross is the diameter of the eccentric weight, a round plate of
// steel as thick as the counterweight.
func (m *machine) eccentricAcross() float64 {
	return 2 * math.Sqrt(m.geo.Eccentric.Mass/(math.Pi*stock.SteelDensity*station.CounterThick))
}

// pivotUnit is the shaft of the right arm with its two bearings, simplified.
func (m *machine) pivotUnit() []prism {
	l := m.layout
	inner := l.ArmPlane() - l.ArmTube/2
	shaft := rod(m.onAxis(inner), m.onAxis(inner+m.partLength("Pivot shaft")), m.r.Frame.Stock.Shaft)
	shaft.part = "Pivot shaft"
	return append([]prism{shaft}, m.bearings(r2.Vec{}, "Pivot bearing")...)
}

// bearings are the two of a shaft at a place of the plane across the axis, on
// either face of what carries them, simplified.
func (m *machine) bearings(place r2.Vec, part string) []prism {
	var out []prism
	for _, aside := range [...]float64{-m.layout.ArmTube / 2, m.layout.ArmTube / 2} {
		from := m.layout.BearingPlane() + aside
		boss := rod(m.across(place, from), m.across(place, from+math.Copysign(bossLong, aside)), bossAcross)
		boss.part = part
		rim := m.across(r2.Add(place, at(0, 0.35*bossAcross)), from+math.Copysign(bossLong/2, aside)) // beside the shaft
		boss.mark = &rim
		out = append(out, boss)
	}
	return out
}

// partLength is the length of a line of the parts list, 0 without one.
func (m *machine) partLength(title string) float64 {
	for _, p := range m.r.Parts {
		if p.Title == title {
			return p.Length
		}
	}
	return 0
}

// swivelled turns a point of the right side's swivel bracket from the level
// position, in which the structure lists it, to the mean axis, as the plane
// across the axis turns.
func (m *machine) swivelled(p r3.Vec) r3.Vec {
	q := r3.Sub(p, m.pivot)
	return m.across(r2.Vec{X: q.X, Y: q.Z}, -q.Y)
}

// camParts are the cam at a flexion and what drives it, right side.
func (m *machine) camParts(root []r2.Vec, theta float64) []prism {
	c := m.geo.Cam
	half := m.r.Frame.Stock.CamPlate / 2
	s, k := math.Sincos(c.Ratio * theta)
	disc := prism{round: true, along: r3.Scale(2*half, m.axis), part: "Cam"}
	for _, p := range root {
		disc.base = append(disc.base, m.inPlane(r2.Vec{X: k*p.X - s*p.Y, Y: s*p.X + k*p.Y}, -half))
	}
	return append([]prism{disc}, m.belt()...)
}

// belt is the countershaft of a cam that does not sit on the arm shaft, with
// the two pulleys.
func (m *machine) belt() []prism {
	c := m.geo.Cam
	t, ok := transmission(&m.r.Frame)
	if !ok {
		return nil
	}
	const near, far, inward = 14.0, 34.0, 60.0 // beside the cam's plane
	pivot := r2.Vec{X: -c.CentreX, Y: -c.CentreY}
	out := []prism{rod(m.inPlane(r2.Vec{}, -inward), m.inPlane(r2.Vec{}, far), m.r.Frame.Stock.Shaft)}
	for _, p := range [...]struct {
		at    r2.Vec
		teeth int
	}{{pivot, c.ArmTeeth}, {r2.Vec{}, c.DrivenTeeth}} {
		w := rod(m.inPlane(p.at, near), m.inPlane(p.at, far), t.WheelDiameter(p.teeth))
		w.bare = true
		out = append(out, w)
	}
	return out
}

// transmission is what drives the countershaft of a frame's cam; not ok for a cam
// on the arm shaft and one whose wheels the frame does not tell.
func transmission(f *specs.Frame) (t stock.Transmission, ok bool) {
	if c := f.Geometry.Cam; c == nil || c.ArmTeeth == 0 {
		return t, false
	}
	t, err := stock.TransmissionOf(f.Stock.Transmission)
	return t, err == nil
}

// stackPlate begins the title of the stack's plates in the parts list.
const stackPlate = "Stack plate"

// lumpPart names the lumps that the parts list has under another title.
func lumpPart(l station.Lump) string {
	if l.IsStack() {
		return stackPlate
	}
	switch l.ID {
	case "pad-right", "pad-left":
		return "Arm pad"
	case "seat":
		return "Seat pad with carriage"
	case "back":
		return "Back pad"
	}
	return ""
}

// member is a tube of the structure.
func member(s station.Member) prism {
	d := r3.Unit(r3.Sub(s.B, s.A))
	u := r3.Vec{Y: 1}
	if math.Abs(d.Y) > 0.9 {
		u = r3.Vec{X: 1}
	}
	p := bar(s.A, s.B, u, s.Wide, s.Deep)
	p.part = station.Sideless(s.Title)
	return p
}

// lump is a box of the structure.
func lump(l station.Lump) prism {
	s, c := math.Sincos(l.Tilt)
	ex := r3.Vec{X: c, Z: s}
	h := r3.Scale(l.Size.X/2, ex)
	p := bar(r3.Sub(l.Centre, h), r3.Add(l.Centre, h), r3.Vec{Y: 1}, l.Size.Y, l.Size.Z)
	p.part = lumpPart(l)
	return p
}

// bodies are everything that stands on the floor, both sides: arms at the
// first loaded angle, the seat at its lowest; and as phantoms the arms at the
// last loaded angle and the seat at its highest.
func (d *drafter) bodies() []prism {
	m := d.machine
	var out []prism
	for _, s := range m.r.Structure.Members {
		if s.Length() < stroke.Step {
			continue
		}
		switch s.ID {
		case "swivel-left", "upright-left", "ground-left":
			continue // mirrored from the right
		case "swivel-right", "upright-right", "ground-right":
			s.A, s.B = m.swivelled(s.A), m.swivelled(s.B)
			p := member(s)
			q := p.mirrored()
			q.part = ""
			out = append(out, p, q)
			continue
		}
		out = append(out, member(s))
	}
	for _, l := range m.r.Structure.Lumps {
		switch l.ID {
		case "arm-right", "arm-left", "counter-right", "counter-left", "plates-right", "plates-left", "pivot-right", "pivot-left":
			continue // drawn in full below
		case "guides", "guides-right", "guides-left":
			for _, y := range [...]float64{-l.Size.Y / 2, l.Size.Y / 2} {
				at := r3.Vec{X: l.Centre.X, Y: l.Centre.Y + y, Z: l.Centre.Z}
				h := r3.Vec{Z: l.Size.Z / 2}
				rod := rod(r3.Sub(at, h), r3.Add(at, h), rodAcross)
				rod.bare = true
				out = append(out, rod)
			}
			continue
		}
		if math.Min(l.Size.X, math.Min(l.Size.Y, l.Size.Z)) < stroke.Step {
			continue // a point
		}
		if l.Axis != (r3.Vec{}) {
			p := disc(l.Centre, l.Axis, l.Size.X, l.Size.Z)
			p.part, p.bare = station.Sideless(l.Title), true
			out = append(out, p)
			continue
		}
		out = append(out, lump(l))
		if l.ID == "seat" && m.geo.Seat.Positions > 1 {
			l.Centre.Z += float64(m.geo.Seat.Positions-1) * m.geo.Seat.Pitch
			top := lump(l)
			top.role, top.part = sheet.Phantom, ""
			out = append(out, top)
		}
	}
	if r := m.r.Resistance.Route; r != nil && !r.Pair {
		s := r.Sheaves[len(r.Sheaves)-1]
		float := disc(s.Centre, s.Axis, 2*s.Radius, build.SheaveWide)
		float.part, float.bare = "Floating sheave", true
		out = append(out, float)
	}
	one := append(m.pivotUnit(), m.outputUnit()...)
	one = append(one, m.arm(m.first, sheet.Visible)...)
	one = append(one, m.train(m.first)...)
	if m.layout.Train != nil {
		one = append(one, m.platesOf(m.last, sheet.Phantom)...)
	}
	for _, p := range m.arm(m.last, sheet.Phantom) {
		p.part = ""
		one = append(one, p)
	}
	if m.geo.Cam != nil {
		one = append(one, m.camParts(d.cam.Outline.Blank.Points(chord), m.first)...)
	}
	for _, p := range one {
		// Hidden edges of small round parts would only blacken the pivots.
		p.bare = p.part != "Arm tube"
		q := p.mirrored()
		q.part = ""
		out = append(out, p, q)
	}
	return out
}

// chord is how far, mm, a straight line may stand off a curve of a general
// view.
const chord = 0.3
