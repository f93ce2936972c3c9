package draw

import (
	"fmt"
	"math"

	"armwright/export/sheet"
	"armwright/export/stroke"
	"armwright/geometry/elbow"
	"armwright/geometry/station"
	"armwright/solver/build"
	"armwright/solver/drive"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// cablePath is the centre line of the right arm's cable as points in space, at the
// first loaded angle: to the middle of the floating sheave, or to the head of the
// arm's own stack. Arcs are broken up into pieces of at most step.
func cablePath(r *drive.Route) []r3.Vec {
	const step = 10 * deg
	out := []r3.Vec{r.Start}
	for i, s := range r.Sheaves {
		turn := s.Turn
		if !r.Pair && i == len(r.Sheaves)-1 {
			turn /= 2
		}
		from := r3.Sub(s.In, s.Centre)
		n := int(math.Ceil(turn / step))
		for k := range n + 1 {
			out = append(out, r3.Add(s.Centre, elbow.Rotate(from, s.Axis, turn*float64(k)/float64(n))))
		}
	}
	if r.Pair {
		out = append(out, r.End)
	}
	return out
}

// cableLine is the cable in a view, of both arms or the right one alone.
func (d *drafter) cableLine(c camera, both bool) []sheet.Entity {
	r := d.r.Resistance.Route
	if r == nil {
		return nil
	}
	line := func(flip bool) sheet.Entity {
		p := sheet.Polyline{Role: sheet.Thin}
		for _, q := range cablePath(r) {
			if flip {
				q = station.Mirror(q)
			}
			v := c.see(q)
			if n := len(p.Vertices); n == 0 || r2.Norm(r2.Sub(v, p.Vertices[n-1].Vec)) > stroke.Step {
				p.Vertices = append(p.Vertices, sheet.Vertex{Vec: v})
			}
		}
		return p
	}
	out := []sheet.Entity{line(false)}
	if both && math.Abs(c.right.Y)+math.Abs(c.up.Y) > 0 { // not one behind the other
		out = append(out, line(true))
	}
	return out
}

// routeViews show the right arm's cable with its sheaves numbered, from the right
// and from the front.
func (d *drafter) routeViews() []sheet.View {
	r := d.r.Resistance.Route
	if r == nil {
		return nil
	}
	var bodies []prism
	for _, s := range r.Sheaves {
		p := disc(s.Centre, s.Axis, 2*s.Radius, build.SheaveWide)
		p.bare = true
		bodies = append(bodies, p)
	}
	var out []sheet.View
	for _, v := range [...]struct {
		title  string
		camera camera
	}{{"Cable of the right arm, from the user's right", fromRight()}, {"The same from the front", fromFront()}} {
		view := sheet.View{Title: v.title, Entities: append(drawn(bodies, v.camera), d.cableLine(v.camera, false)...)}
		for i, s := range r.Sheaves {
			at := v.camera.see(s.Centre)
			view.Entities = append(view.Entities, sheet.Leader{At: at, Note: fmt.Sprint(i + 1), Dot: true})
		}
		floor := v.camera.see(r3.Vec{})
		box := outside(bodies, v.camera, true)
		view.Entities = append(view.Entities,
			sheet.Line{Role: sheet.Thin, A: at(box.Min.X, floor.Y), B: at(box.Max.X, floor.Y)},
			sheet.Dimension{Kind: sheet.Vertical, Side: sheet.Rightward, A: at(box.Max.X, floor.Y), B: v.camera.see(r.Sheaves[3].Centre)},
			sheet.Dimension{Kind: sheet.Vertical, Side: sheet.Leftward, A: at(box.Min.X, floor.Y), B: v.camera.see(r.Sheaves[0].Centre)})
		out = append(out, view)
	}
	return out
}

// routeTable gives place, plane and wrap of every sheave of the right arm.
func (d *drafter) routeTable() sheet.Table {
	t := sheet.Table{
		Title:   "Sheaves of the right arm, " + d.unit() + "; axis: unit vector",
		Columns: columns(">No", "<Sheave", ">Radius", ">x", ">y", ">z", ">Axis x", ">y", ">z", ">Wrap °", ">Fleet °", ">Axle "+d.reads().Symbol("N")),
	}
	for i, s := range d.r.Resistance.Route.Sheaves {
		axis := func(v float64) string { return sheet.Unsigned(fmt.Sprintf("%.4f", v)) }
		t.Rows = append(t.Rows, []string{fmt.Sprint(i + 1), s.Name, d.fine(s.Radius), d.length(s.Centre.X), d.length(s.Centre.Y), d.length(s.Centre.Z),
			axis(s.Axis.X), axis(s.Axis.Y), axis(s.Axis.Z), degrees(s.Turn, 0), degrees(s.Fleet, 1), d.reads().Whole(s.Load, "N")})
	}
	return t
}

// routeNotes tell how the cable is led.
func (d *drafter) routeNotes() []string {
	r := d.r.Resistance.Route
	ends := "Both arms' cables are one, " + d.measure(r.Cut) + " to cut with its ends, under the floating sheave on the stack's head."
	if r.Pair {
		ends = "Each arm has its own cable, " + d.measure(r.Cut) + " to cut with its ends, and its own stack."
	}
	return []string{
		"Cable: coordinates as in the general arrangement; the left arm's sheaves are mirrored. Radii are to the cable's centre. The guide sheave swivels " + degrees(r.Sheaves[0].Swivel, 1) +
			"° to either side about the cable that leaves it; largest angle to the cam's plane " + degrees(r.CamFleet, 1) + "°. " + ends,
		"Axle: force of the cable on the sheave at the heaviest load, at rest. The line from sheave 2 to sheave 3 passes beside the user's legs: lead it through a guard.",
	}
}
