package draw

import (
	"fmt"
	"math"

	"armwright/export/hidden"
	"armwright/export/sheet"
	"armwright/export/stroke"
	"armwright/geometry/assembly"

	"gonum.org/v1/gonum/spatial/r2"
)

// flexible are cables, chains and belts in a view, of both arms or the right one
// alone.
func (d *drafter) flexible(c hidden.Camera, both bool) []sheet.Entity {
	var out []sheet.Entity
	level := math.Abs(c.Right.Y)+math.Abs(c.Up.Y) > 0 // not one behind the other
	for i := range d.a.Flexible {
		f := &d.a.Flexible[i]
		if f.Side == assembly.Left && !(both && level) {
			continue
		}
		p := sheet.Polyline{Role: sheet.Thin, Closed: f.Closed}
		for _, q := range f.Path {
			v := c.See(q)
			if n := len(p.Vertices); n == 0 || r2.Norm(r2.Sub(v, p.Vertices[n-1].Vec)) > stroke.Step {
				p.Vertices = append(p.Vertices, sheet.Vertex{Vec: v})
			}
		}
		if len(p.Vertices) > 1 {
			out = append(out, p)
		}
	}
	return out
}

// routeParts are the sheaves of the right arm's cable with what carries them, and the
// stack.
func (m *machine) routeParts() []int {
	return m.chosen(func(p *assembly.Part) bool {
		if p.Side == assembly.Left {
			return false
		}
		switch p.Item {
		case "sheave", "sheave-fork", "guide-fork", "sheave-axle", "sheave-stem", "sheave-rail-foot", "sheave-tower-foot",
			"guide-stem", "guide-sleeve", "guide-bush", "guide-collar", "guide-post", "guide-stub", "guide-post-cap",
			"stack-head", "stack-eye", "stack-plate", "selector-bar", "selector-pin", "cam-core", "cam-cheek":
			return true
		}
		return false
	})
}

// routeViews show the right arm's cable with its sheaves numbered, from the right
// and from the front.
func (d *drafter) routeViews() []sheet.View {
	r := d.r.Resistance.Route
	if r == nil || d.a == nil {
		return nil
	}
	bodies := d.bodies(d.routeParts(), d.reference(), sheet.Visible, true)
	var out []sheet.View
	var scenes []shown
	for i, v := range [...]struct {
		title  string
		camera hidden.Camera
	}{{"Cable of the right arm, from the user's right", hidden.FromRight()}, {"The same from the front", hidden.FromFront()}} {
		view, s := show(v.title, [...]sheet.Position{sheet.Front, sheet.FromRight}[i], bodies, v.camera)
		view.Entities = append(view.Entities, d.flexible(v.camera, false)...)
		for i, s := range r.Sheaves {
			view.Entities = append(view.Entities, sheet.Leader{At: v.camera.See(s.Centre), Note: fmt.Sprint(i + 1), Dot: true})
		}
		box := s.Extent(true)
		view.Entities = append(view.Entities, sheet.Line{Role: sheet.Thin, A: at(box.Min.X, 0), B: at(box.Max.X, 0)},
			sheet.Dimension{Kind: sheet.OrdinateY, Side: sheet.Rightward, A: at(box.Max.X, 0), B: at(box.Max.X, 0)})
		var heights, along []float64
		for _, s := range r.Sheaves {
			q := v.camera.See(s.Centre)
			heights, along = append(heights, q.Y), append(along, q.X)
		}
		d.ordinates(&view, sheet.OrdinateY, sheet.Rightward, at(box.Max.X, 0), heights, box.Max.X)
		d.ordinates(&view, sheet.OrdinateX, sheet.Above, at(0, box.Max.Y), append(along, 0), box.Max.Y)
		out, scenes = append(out, view), append(scenes, s)
	}
	for i := range scenes {
		scenes[i].view = &out[i]
	}
	d.balloons(scenes...)
	return out
}

// routeTable gives place, plane and wrap of every sheave of the right arm.
func (d *drafter) routeTable() sheet.Table {
	t := sheet.Table{
		Title:   "Sheaves of the right arm, " + d.unit() + "; axis: unit vector",
		Columns: sheet.Columns(">No", "<Sheave", ">Radius", ">x", ">y", ">z", ">Axis x", ">y", ">z", ">Wrap °", ">Fleet °", ">Axle "+d.reads().Symbol("N")),
	}
	for i, s := range d.r.Resistance.Route.Sheaves {
		axis := func(v float64) string { return sheet.Unsigned(fmt.Sprintf("%.4f", v)) }
		t.Rows = append(t.Rows, []string{fmt.Sprint(i + 1), s.Name, d.fine(s.Radius), d.length(s.Centre.X), d.length(s.Centre.Y), d.length(s.Centre.Z),
			axis(s.Axis.X), axis(s.Axis.Y), axis(s.Axis.Z), sheet.Degrees(s.Turn, 0), sheet.Degrees(s.Fleet, 1), d.reads().Whole(s.Load, "N")})
	}
	return t
}

// guideTable gives the height of the right guide sheave for every axis position, and the
// hole of its pull pin.
func (d *drafter) guideTable() sheet.Table {
	t := sheet.Table{
		Title:   "Guide sheave by axis position, " + d.unit(),
		Columns: sheet.Columns(">Axis position", ">Sheave z", ">Pin in hole, from the top", ">Cable loose"),
	}
	r := d.r.Station.Route
	for i := range r.Rise {
		t.Rows = append(t.Rows, []string{fmt.Sprint(i + 1), d.length(r.At(i).Z), fmt.Sprint(r.Step(i) + 1), d.length(r.Slack[i])})
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
	notes := []string{
		"Cable: coordinates as in the general arrangement; the left arm's sheaves are mirrored. Radii are to the cable's centre. The guide sheave swivels " + sheet.Degrees(r.Sheaves[0].Swivel, 1) +
			"° to either side about the cable that leaves it; largest angle to the cam's plane " + sheet.Degrees(r.CamFleet, 1) + "°. " + ends,
		"Axle: force of the cable on the sheave at the heaviest load, at rest. Ordinates are those of the sheaves' middles, from the floor and from the pivots.",
	}
	if len(d.geo.Pivots.Axes) > 1 {
		notes = append(notes, "With every change of the axis position the guide sheave's pull pin goes into the hole of that position, on both sides, stack at rest. Cable loose, below 0: the cable is short by that, and lifts the stack as the axis is set.")
	}
	return notes
}
