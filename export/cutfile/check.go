// Package cutfile holds drawings for cutting machines against what cutting
// shops ask for.
package cutfile

import (
	"fmt"
	"math"
	"strings"

	"armwright/export/dxf"
	"armwright/geometry/contour"
	"armwright/specs/angle"

	"gonum.org/v1/gonum/spatial/r2"
)

// Code numbers a kind of fault. The hundreds are those of dxf.Code, where 6 is a
// cut file.
type Code int

// Codes of [Check].
const (
	Units     Code = 601 // not in millimetres
	Layers    Code = 602 // something on another layer than CUT or ETCH
	Kind      Code = 603 // something a cutting machine does not follow
	Open      Code = 604 // a piece on CUT that is no closed loop
	Loop      Code = 605 // a loop that crosses itself, has a piece without length, or is a near-full arc
	Duplicate Code = 606 // the same loop twice
	Crossing  Code = 607 // two loops that cross, touch or overlap
	Feature   Code = 608 // a loop narrower than the least feature
	Bridge    Code = 609 // less material between two loops than the least bridge
	Hole      Code = 610 // a hole narrower than the thickness allows
	Nothing   Code = 611 // nothing to cut
	Size      Code = 612 // a loop larger than any sheet of material
)

// Rules are limits of a cutting shop, mm. A zero field takes the default.
// Source: public guides of cutting shops (docs/dxf.md).
type Rules struct {
	Thickness    float64 // of the sheet; zero leaves holes unchecked
	LeastFeature float64 // narrowest loop; default 1
	LeastBridge  float64 // least material between loops; default 2
}

// Shares of the sheet's thickness below which a hole is an error or deserves
// a warning. Shops ask for 0.5, 1 or 1.5.
const (
	holeError   = 0.5
	holeWarning = 1.0
)

// Fault is something a cutting shop would send back.
type Fault struct {
	Code    Code
	Warning bool // may pass
	Entity  int  // index in the document
	Other   int  // index of the second loop, or -1
	Message string
}

func (f Fault) String() string {
	kind := "error"
	if f.Warning {
		kind = "warning"
	}
	return fmt.Sprintf("D%d %s, entity %d: %s", int(f.Code), kind, f.Entity, f.Message)
}

// flatness is the sagitta, mm, to which arcs are broken up to find how close
// two loops come: half the step of written coordinates times ten, far below
// any bridge.
const flatness = 1e-3

// touching is the gap, mm, below which two loops count as touching: twice the
// flatness, and the rounding of the file.
const touching = 2*flatness + 1e-4

// largestCut is the largest extent of a loop, mm: above any cutting bed, and
// small enough for a loop broken up to flatness to stay a few ten thousand
// points.
const largestCut = 1e5

// loop is a loop to be cut.
type loop struct {
	index int
	path  contour.Path
	area  float64
	box   r2.Box
	line  []r2.Vec // broken up to flatness, closed
}

// Check checks that a document is fit for a cutting machine: full size in
// millimetres, nothing but cut paths and marks, every piece on CUT one simple
// closed loop, no loop twice, loops apart from each other, holes and features
// not too small. Necks within one loop are not measured.
func Check(d *dxf.Document, rules Rules) []Fault {
	if rules.LeastFeature == 0 {
		rules.LeastFeature = 1
	}
	if rules.LeastBridge == 0 {
		rules.LeastBridge = 2
	}
	c := checker{rules: rules}
	if d.Units != dxf.Millimetres {
		c.add(Units, 0, -1, "units are not millimetres")
	}
	for i, e := range d.Entities {
		c.entity(i, e)
	}
	if len(c.loops) == 0 {
		c.add(Nothing, 0, -1, "no closed loop on layer %s", dxf.CutLayer)
	}
	c.pairs()
	c.sizes()
	return c.faults
}

type checker struct {
	rules  Rules
	loops  []loop
	faults []Fault
}

func (c *checker) add(code Code, entity, other int, format string, args ...any) {
	c.faults = append(c.faults, Fault{Code: code, Entity: entity, Other: other, Message: fmt.Sprintf(format, args...)})
}

func (c *checker) entity(i int, e dxf.Entity) {
	switch e.(type) {
	case dxf.Line, dxf.Circle, dxf.Arc, dxf.Polyline:
	default:
		c.add(Kind, i, -1, "%s is no path", dxf.NameOf(e))
		return
	}
	switch strings.ToUpper(dxf.LayerOf(e)) {
	case dxf.EtchLayer:
		return
	case dxf.CutLayer:
	default:
		c.add(Layers, i, -1, "on layer %s", dxf.LayerOf(e))
		return
	}
	path, closed := loopOf(e)
	if !closed {
		c.add(Open, i, -1, "%s is no closed loop", dxf.NameOf(e))
		return
	}
	if err := path.Validate(); err != nil {
		c.add(Loop, i, -1, "%v", err)
		return
	}
	if box := path.Bounds(); max(box.Max.X-box.Min.X, box.Max.Y-box.Min.Y) > largestCut {
		c.add(Size, i, -1, "%s is larger than %g m", dxf.NameOf(e), largestCut/1000)
		return
	}
	points := path.Points(flatness)
	c.loops = append(c.loops, loop{i, path, math.Abs(path.Area()), path.Bounds(), append(points, points[0])})
}

// pairs checks how loops lie to each other.
func (c *checker) pairs() {
	for j, b := range c.loops {
		for _, a := range c.loops[:j] {
			gap := a.gap(b, c.rules.LeastBridge)
			switch {
			case gap > touching && gap < c.rules.LeastBridge:
				c.add(Bridge, b.index, a.index, "%.3f mm from entity %d, at least %g mm must stay", gap, a.index, c.rules.LeastBridge)
			case gap > touching:
			case a.same(b):
				c.add(Duplicate, b.index, a.index, "the same loop as entity %d", a.index)
			default:
				c.add(Crossing, b.index, a.index, "meets entity %d", a.index)
			}
		}
	}
}

// sizes checks the loops by themselves; one inside an odd number of others is
// a hole.
func (c *checker) sizes() {
	for _, l := range c.loops {
		w := width(l.path)
		if w < c.rules.LeastFeature-touching {
			c.add(Feature, l.index, -1, "%.3f mm wide, at least %g mm can be cut", w, c.rules.LeastFeature)
		}
		if c.rules.Thickness <= 0 || !c.isHole(l) || w >= holeWarning*c.rules.Thickness-touching {
			continue
		}
		c.add(Hole, l.index, -1, "hole %.3f mm wide in a sheet of %g mm", w, c.rules.Thickness)
		c.faults[len(c.faults)-1].Warning = w >= holeError*c.rules.Thickness-touching
	}
}

func (c *checker) isHole(l loop) bool {
	depth := 0
	for _, o := range c.loops {
		if o.index != l.index && o.area > l.area && o.path.Contains(l.line[0]) {
			depth++
		}
	}
	return depth%2 == 1
}

// gap returns the least distance between two loops, or some larger number
// than enough if they are further apart than that.
func (l loop) gap(o loop, enough float64) float64 {
	if away(l.box, o.box) > enough {
		return math.Inf(1)
	}
	least := math.Inf(1)
	for i := 1; i < len(l.line); i++ {
		piece := span(l.line[i-1], l.line[i])
		if away(piece, o.box) > enough {
			continue
		}
		for j := 1; j < len(o.line); j++ {
			if away(piece, span(o.line[j-1], o.line[j])) > min(enough, least) {
				continue
			}
			least = min(least, apart(l.line[i-1], l.line[i], o.line[j-1], o.line[j]))
		}
	}
	return least
}

// same reports whether two loops cover the same ground.
func (l loop) same(o loop) bool {
	const slack = 10 * touching
	near := func(a, b r2.Vec) bool { return r2.Norm(r2.Sub(a, b)) < slack }
	perimeter := l.path.Length()
	return near(l.box.Min, o.box.Min) && near(l.box.Max, o.box.Max) &&
		math.Abs(l.area-o.area) < slack*perimeter && math.Abs(perimeter-o.path.Length()) < slack*perimeter
}

// away returns a lower bound of the distance between what two boxes hold.
func away(a, b r2.Box) float64 {
	dx := max(a.Min.X-b.Max.X, b.Min.X-a.Max.X, 0)
	dy := max(a.Min.Y-b.Max.Y, b.Min.Y-a.Max.Y, 0)
	return max(dx, dy)
}

func span(a, b r2.Vec) r2.Box {
	return r2.Box{Min: r2.Vec{X: min(a.X, b.X), Y: min(a.Y, b.Y)}, Max: r2.Vec{X: max(a.X, b.X), Y: max(a.Y, b.Y)}}
}

// apart returns the distance between the segments a-b and c-d, 0 if they
// cross.
func apart(a, b, c, d r2.Vec) float64 {
	side := func(p, q, r r2.Vec) float64 { return r2.Cross(r2.Sub(q, p), r2.Sub(r, p)) }
	if side(a, b, c)*side(a, b, d) < 0 && side(c, d, a)*side(c, d, b) < 0 {
		return 0
	}
	return min(offSegment(a, c, d), offSegment(b, c, d), offSegment(c, a, b), offSegment(d, a, b))
}

func offSegment(p, a, b r2.Vec) float64 {
	v := r2.Sub(b, a)
	u := 0.0
	if n := r2.Norm2(v); n > 0 {
		u = min(max(r2.Dot(r2.Sub(p, a), v)/n, 0), 1)
	}
	return r2.Norm(r2.Sub(p, r2.Add(a, r2.Scale(u, v))))
}

// width returns the least distance between two parallel lines that hold the
// path, over directions one degree apart.
func width(p contour.Path) float64 {
	least := math.Inf(1)
	for deg := range 180 {
		s, c := math.Sincos(float64(deg) * angle.Degree)
		n := r2.Vec{X: c, Y: s}
		up, _ := p.Support(n)
		down, _ := p.Support(r2.Scale(-1, n))
		least = min(least, up+down)
	}
	return least
}

// loopOf returns the closed path of an entity that is a whole loop by itself.
func loopOf(e dxf.Entity) (contour.Path, bool) {
	switch v := e.(type) {
	case dxf.Circle:
		return contour.Circle(r2.Vec{X: v.Centre.X, Y: v.Centre.Y}, v.Radius), true
	case dxf.Polyline:
		return v.Path(), v.Closed
	}
	return contour.Path{}, false
}
