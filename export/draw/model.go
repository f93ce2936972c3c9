package draw

import (
	"math"

	"armwright/export/sheet"
	"armwright/geometry/cam"
	"armwright/geometry/elbow"
	"armwright/geometry/station"
	"armwright/solver/fit"
	"armwright/specs"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// Sizes of parts that the frame does not hold, mm; those of the arm tube are
// the ones its mass was worked out with.
const (
	camOffset  = 80.0 // plane of the cam from the pivot, outward along the axis
	armTube    = 40.0 // side of the arm's square tube
	hubReach   = 60.0 // the arm's tube starts this far from the axis
	gripPast   = 40.0 // and ends this far past the outermost handle position
	hubAcross  = 60.0 // diameter of the arm's hub
	sheaveWide = 16.0
	plateAcros = 450.0 // diameter of the plates of a lever
	plateThick = 30.0
	rodAcross  = 20.0 // guide rods of the stack
	counterAcr = 90.0 // diameter of the counterweight
)

// machine is the geometry of one station in the terms of drawing.
type machine struct {
	r     *fit.Result
	geo   *specs.Geometry
	pivot r3.Vec // right
	axis  r3.Vec // right, outward: the mean of the axis positions
	first float64
	last  float64
}

func newMachine(r *fit.Result) *machine {
	g := &r.Frame.Geometry
	m := &machine{r: r, geo: g, pivot: r3.Vec{Y: -g.Pivots.Spacing / 2, Z: g.Pivots.Height}}
	var sum r3.Vec
	for _, a := range g.Pivots.Axes {
		sum = r3.Add(sum, station.AxisVector(a.Toe, a.Cant))
	}
	m.axis = r3.Unit(sum)
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
	forward, up := m.plane()
	c := m.geo.Cam
	at := r3.Add(m.pivot, r3.Scale(camOffset+aside, m.axis))
	return r3.Add(at, r3.Add(r3.Scale(c.CentreX+p.X, forward), r3.Scale(c.CentreY+p.Y, up)))
}

// onAxis is a point of the right axis.
func (m *machine) onAxis(outward float64) r3.Vec {
	return r3.Add(m.pivot, r3.Scale(outward, m.axis))
}

// outermost is the largest handle radius; middleHandle the one drawn.
func (m *machine) outermost() float64 {
	h := m.geo.Handle
	return h.Least + float64(h.Positions-1)*h.Pitch
}

func (m *machine) middleHandle() float64 {
	h := m.geo.Handle
	return h.Least + float64(h.Positions/2)*h.Pitch
}

// armPlane is the axial place of the arm's tube: beyond the grip's outer end
// and beyond the cam.
func (m *machine) armPlane() float64 {
	h := m.geo.Handle
	return math.Max(h.Middle+h.GripLength/2, camOffset+m.r.Frame.Stock.CamPlate) + armTube/2
}

// tube is the arm's tube at a flexion, and grip the bar in it.
func (m *machine) arm(theta float64, role sheet.Role) []prism {
	d := m.armAt(theta)
	foot := m.onAxis(m.armPlane())
	tube := bar(r3.Add(foot, r3.Scale(hubReach, d)), r3.Add(foot, r3.Scale(m.outermost()+gripPast, d)), m.axis, armTube, armTube)
	tube.part = "Arm tube"
	h := m.geo.Handle
	at := r3.Scale(m.middleHandle(), d)
	grip := rod(r3.Add(m.onAxis(h.Middle-h.GripLength/2), at), r3.Add(m.onAxis(m.armPlane()-armTube/2), at), h.Diameter)
	grip.part = "Grip bar"
	out := []prism{tube, grip}
	if role == sheet.Visible {
		hub := rod(m.onAxis(m.armPlane()-armTube/2), m.onAxis(m.armPlane()+armTube/2), hubAcross)
		web := bar(r3.Add(foot, r3.Scale(hubAcross/2, d)), r3.Add(foot, r3.Scale(hubReach, d)), m.axis, armTube, armTube)
		out = append(out, hub, web)
		if c := m.geo.Counterweight; c != nil && c.Mass > 0 {
			at := r3.Scale(-c.Radius, d)
			w := rod(r3.Add(m.onAxis(m.armPlane()-armTube/2), at), r3.Add(m.onAxis(m.armPlane()+armTube/2), at), counterAcr)
			w.part = "Counterweight"
			stem := bar(r3.Add(foot, r3.Scale(-hubAcross/2, d)), r3.Add(foot, r3.Scale(counterAcr/2-c.Radius, d)), m.axis, armTube/2, armTube/2)
			out = append(out, w, stem)
		}
	}
	if v := m.geo.Lever; v != nil {
		forward, _ := m.plane()
		e := elbow.Rotate(forward, m.axis, theta+v.Phase)
		at := r3.Scale(v.Radius, e)
		base := m.armPlane() + armTube/2
		w := rod(r3.Add(m.onAxis(base), at), r3.Add(m.onAxis(base+plateThick), at), plateAcros)
		w.bare = true
		out = append(out, w)
		if role == sheet.Visible {
			out = append(out, bar(r3.Add(foot, r3.Scale(hubAcross/2, e)), r3.Add(foot, at), m.axis, armTube, armTube))
		}
	}
	for i := range out {
		out[i].role = role
	}
	return out
}

// pivotUnit is the shaft of the right arm and the bracket that carries it,
// simplified.
func (m *machine) pivotUnit() []prism {
	inner := camOffset - m.r.Frame.Stock.CamPlate
	shaft := rod(m.onAxis(inner-30), m.onAxis(m.armPlane()+armTube/2+10), m.r.Frame.Stock.Shaft)
	shaft.part = "Pivot shaft"
	out := []prism{shaft}
	for _, s := range m.r.Structure.Members {
		if s.ID != "crossbar" {
			continue
		}
		end := s.A
		plate := bar(r3.Add(end, r3.Scale(inner-20, m.axis)), r3.Add(m.pivot, r3.Scale(inner-20, m.axis)), m.axis, 12, 70)
		boss := rod(m.onAxis(inner-30), m.onAxis(inner-10), 70)
		boss.part = "Pivot bearing"
		foot := bar(r3.Add(end, r3.Vec{Y: 20}), r3.Add(end, r3.Scale(inner-14, m.axis)), r3.Vec{X: 1}, 70, 12)
		out = append(out, plate, boss, foot)
	}
	return out
}

// camParts are the cam at a flexion and its guide sheave, right side.
func (m *machine) camParts(root []r2.Vec, theta float64) []prism {
	c := m.geo.Cam
	half := m.r.Frame.Stock.CamPlate / 2
	s, k := math.Sincos(c.Ratio * theta)
	disc := prism{round: true, along: r3.Scale(2*half, m.axis), part: "Cam"}
	for _, p := range root {
		disc.base = append(disc.base, m.inPlane(r2.Vec{X: k*p.X - s*p.Y, Y: s*p.X + k*p.Y}, -half))
	}
	q := r2.Vec{X: c.GuideX, Y: c.GuideY}
	sheave := rod(m.inPlane(q, -sheaveWide/2), m.inPlane(q, sheaveWide/2), 2*c.GuideR)
	sheave.part = "Guide sheave"
	return []prism{disc, sheave}
}

// sheaveTitles names the lumps that the parts list has under another title.
func lumpPart(id string) string {
	switch id {
	case "pad-right", "pad-left":
		return "Arm pad"
	case "seat":
		return "Seat pad with carriage"
	case "back":
		return "Back pad"
	case "stack":
		return "Stack plate 5 kg"
	}
	return ""
}

// memberPart drops the side from a member's title, as the parts list does.
func memberPart(title string) string {
	for _, side := range [...]string{", right", ", left"} {
		if n := len(title) - len(side); n > 0 && title[n:] == side {
			return title[:n]
		}
	}
	return title
}

// member is a tube of the structure.
func member(s station.Member) prism {
	d := r3.Unit(r3.Sub(s.B, s.A))
	u := r3.Vec{Y: 1}
	if math.Abs(d.Y) > 0.9 {
		u = r3.Vec{X: 1}
	}
	p := bar(s.A, s.B, u, s.Wide, s.Deep)
	p.part = memberPart(s.Title)
	return p
}

// lump is a box of the structure.
func lump(l station.Lump) prism {
	s, c := math.Sincos(l.Tilt)
	ex := r3.Vec{X: c, Z: s}
	h := r3.Scale(l.Size.X/2, ex)
	p := bar(r3.Sub(l.Centre, h), r3.Add(l.Centre, h), r3.Vec{Y: 1}, l.Size.Y, l.Size.Z)
	p.part = lumpPart(l.ID)
	return p
}

// bodies are everything that stands on the floor, both sides: arms at the
// first loaded angle, the seat at its lowest; and as phantoms the arms at the
// last loaded angle and the seat at its highest.
func (d *drafter) bodies() []prism {
	m := d.machine
	var out []prism
	for _, s := range m.r.Structure.Members {
		out = append(out, member(s))
	}
	for _, l := range m.r.Structure.Lumps {
		switch l.ID {
		case "arm-right", "arm-left", "counter-right", "counter-left", "plates-right", "plates-left", "pivot-right", "pivot-left":
			continue // drawn in full below
		case "guides":
			for _, y := range [...]float64{-l.Size.Y / 2, l.Size.Y / 2} {
				at := r3.Vec{X: l.Centre.X, Y: y, Z: l.Centre.Z}
				h := r3.Vec{Z: l.Size.Z / 2}
				rod := rod(r3.Sub(at, h), r3.Add(at, h), rodAcross)
				rod.bare = true
				out = append(out, rod)
			}
			continue
		}
		p := lump(l)
		out = append(out, p)
		if l.ID == "seat" && m.geo.Seat.Positions > 1 {
			l.Centre.Z += float64(m.geo.Seat.Positions-1) * m.geo.Seat.Pitch
			top := lump(l)
			top.role, top.part = sheet.Phantom, ""
			out = append(out, top)
		}
	}
	one := m.pivotUnit()
	one = append(one, m.arm(m.first, sheet.Visible)...)
	for _, p := range m.arm(m.last, sheet.Phantom) {
		p.part = ""
		one = append(one, p)
	}
	if m.geo.Cam != nil {
		one = append(one, m.camParts(d.cam.Outline.Blank.Points(chord), m.first)...)
	}
	for _, p := range one {
		q := p.mirrored()
		q.part = ""
		out = append(out, p, q)
	}
	return out
}

// chord is how far, mm, a straight line may stand off a curve of a general
// view.
const chord = 0.3

// side returns the guide's side in the words of the cam.
func side(c *specs.Cam) int {
	if c.Side == "crossed" {
		return cam.Crossed
	}
	return cam.Open
}
