package erection

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"armwright/export/draw/weldment"
	"armwright/export/hidden"
	"armwright/export/partlist"
	"armwright/export/sheet"
	"armwright/geometry/assembly"
	"armwright/geometry/solid"
	"armwright/specs/stock"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// First is the number of the first step's sheet.
const First = 301

// Drawer draws the steps of one assembly.
type Drawer struct {
	Assembly *assembly.Assembly
	List     []partlist.Line
	Item     []string                             // number of each part in the parts list
	Body     func(part int) hidden.Body           // of a part in its place
	Screws   stock.Screws                         // that the parts list has
	Torque   func(nmm float64) string             // with its unit
	Blank    func(title, kind string) sheet.Sheet // an empty sheet with its title block
}

// Sheet is a step's sheet with the name its files bear.
type Sheet struct {
	Slug string
	sheet.Sheet
}

// Sheets draws all steps, in their order.
func (d *Drawer) Sheets() []Sheet {
	steps := Plan(d.Assembly)
	welded := weldment.Find(d.Assembly)
	stands := make([]bool, len(d.Assembly.Parts))
	var out []Sheet
	for i := range steps {
		s := &steps[i]
		title := fmt.Sprintf("Step %d of %d", i+1, len(steps))
		n := Sheet{Slug: strings.ReplaceAll(strings.ToLower(s.Title), " ", "-"), Sheet: d.Blank(s.Title, "Assembly instruction")}
		n.Views = []sheet.View{d.view(s, stands, i == 0)}
		n.Tables = []sheet.Table{d.pieces(s, title, welded)}
		if t := d.fasteners(s); len(t.Rows) > 0 {
			n.Tables = append(n.Tables, t)
		}
		n.Notes = append(slices.Clone(s.Checks), d.reading(s, i == 0)...)
		for _, u := range s.Units {
			for _, p := range u.Parts {
				stands[p] = true
			}
		}
		out = append(out, n)
	}
	return out
}

// reading tells how the picture is to be read.
func (d *Drawer) reading(s *Step, first bool) []string {
	if first {
		return nil
	}
	for _, u := range s.Units {
		if d.Assembly.Parts[u.Parts[0]].Side == assembly.Right {
			return []string{"Full lines: what is put on in this step, drawn apart along thin lines to its place; narrow lines: what stands. The right side is shown; the left one is done alike."}
		}
	}
	return []string{"Full lines: what is put on in this step, drawn apart along thin lines to its place; narrow lines: what stands."}
}

// pieces lists the weldments and parts of a step.
func (d *Drawer) pieces(s *Step, title string, welded []weldment.Weldment) sheet.Table {
	t := sheet.Table{Title: title + ", what is put on", Columns: sheet.Columns("Item, sheet", "Qty", "<What")}
	row := func(what, name string, n int) {
		for i := range t.Rows {
			if t.Rows[i][0] == what {
				k, _ := strconv.Atoi(t.Rows[i][1])
				t.Rows[i][1] = strconv.Itoa(k + n)
				return
			}
		}
		t.Rows = append(t.Rows, []string{what, strconv.Itoa(n), name})
	}
	for _, u := range s.Units {
		if len(u.Parts) > 1 {
			what, name := d.weldment(u.Parts, welded)
			row(what, name, 1)
			continue
		}
		p := &d.Assembly.Parts[u.Parts[0]]
		row(d.Item[u.Parts[0]], p.Title, 1)
	}
	for i := range d.List {
		if l := &d.List[i]; len(s.Flexible) > 0 && len(l.Parts) == 0 && l.Fastener == nil {
			row(strconv.Itoa(l.Item), l.Title, l.Count)
		}
	}
	return t
}

// weldment names the weldment of some parts: the sheet that it is made by.
func (d *Drawer) weldment(parts []int, welded []weldment.Weldment) (sheet, title string) {
	for i := range welded {
		w := &welded[i]
		if own := w.Parts(); len(own) == len(parts) && slices.Contains(own, parts[0]) {
			return "sheet " + strconv.Itoa(w.Number), w.Title
		}
	}
	return "items " + d.Item[parts[0]], d.Assembly.Parts[parts[0]].Title
}

// fasteners lists what the joints of a step are made with.
func (d *Drawer) fasteners(s *Step) sheet.Table {
	t := sheet.Table{Title: "Fasteners", Columns: sheet.Columns("Qty", "<Fastener", "<Size, class", ">Tighten to")}
	for _, f := range partlist.Fasteners(d.Assembly, s.Joints, d.Screws) {
		torque := ""
		switch {
		case f.Torque > 0:
			torque = d.Torque(f.Torque)
		case f.Kind == "screw" || f.Kind == "set screw":
			torque = "by hand"
		}
		t.Rows = append(t.Rows, []string{strconv.Itoa(f.Count), f.Title, f.Ordered(), torque})
	}
	return t
}

// Sizes of an exploded view, mm.
const (
	roundView  = 60.0  // of what stands round the parts of a step, within which it is shown
	leastApart = 35.0  // from a unit to its place
	mostApart  = 220.0 // and at most
)

// view is the exploded picture of a step. Of pairs the right one is shown; of the first
// step all of it, in its place.
func (d *Drawer) view(s *Step, stands []bool, first bool) sheet.View {
	a := d.Assembly
	v := sheet.View{Pictorial: true}
	var bodies []hidden.Body
	low, high := r3.Vec{X: math.Inf(1), Y: math.Inf(1), Z: math.Inf(1)}, r3.Vec{X: math.Inf(-1), Y: math.Inf(-1), Z: math.Inf(-1)}
	by := map[int]r3.Vec{} // offset of each part of this step
	camera := hidden.Axonometric()
	mates := map[int]bool{}
	shifts := d.shifts(s)
	for i, u := range s.Units {
		if !first && d.left(u.Parts) {
			continue
		}
		off := r3.Vec{}
		if u.On >= 0 {
			j := &a.Joints[u.On]
			on := mateOf(&u, j)
			mates[on] = true
			off = by[on]
			if shifts[i] != (r3.Vec{}) {
				off = r3.Add(off, shifts[i])
				v.Entities = append(v.Entities, sheet.Line{Role: sheet.Thin, A: camera.See(r3.Add(j.At, by[on])), B: camera.See(r3.Add(j.At, off))})
			}
		}
		for _, p := range u.Parts {
			by[p] = off
			b := d.Body(p)
			b.Place.Origin = r3.Add(b.Place.Origin, off)
			b.Item = d.Item[p]
			bodies = append(bodies, b)
			l, h := solid.Bounds(a.Parts[p].Solid, b.Place)
			low, high = least(low, l), most(high, h)
		}
	}
	shown := len(bodies)
	if len(s.Flexible) > 0 && shown == 0 { // cables: all that stands
		low, high = r3.Vec{X: math.Inf(-1), Y: math.Inf(-1), Z: math.Inf(-1)}, r3.Vec{X: math.Inf(1), Y: math.Inf(1), Z: math.Inf(1)}
	}
	size := r3.Norm(r3.Sub(high, low))
	margin := r3.Vec{X: roundView, Y: roundView, Z: roundView}
	low, high = r3.Sub(low, margin), r3.Add(high, margin)
	for p := range a.Parts {
		if !stands[p] || !first && a.Parts[p].Side == assembly.Left && len(s.Flexible) == 0 {
			continue
		}
		l, h := solid.Bounds(a.Parts[p].Solid, a.Parts[p].Place)
		// What is larger than the step itself tells nothing unless something goes on it.
		if !mates[p] && (r3.Norm(r3.Sub(h, l)) > size || l.X > high.X || l.Y > high.Y || l.Z > high.Z || h.X < low.X || h.Y < low.Y || h.Z < low.Z) {
			continue
		}
		b := d.Body(p)
		b.Role, b.Item = sheet.Thin, ""
		bodies = append(bodies, b)
	}
	scene := hidden.NewScene(bodies, camera)
	v.Entities = append(v.Entities, scene.Lines()...)
	d.balloons(&v, scene, shown)
	for _, i := range s.Flexible {
		f := &a.Flexible[i]
		for k := 1; k < len(f.Path); k++ {
			v.Entities = append(v.Entities, sheet.Line{Role: sheet.Visible, A: camera.See(f.Path[k-1]), B: camera.See(f.Path[k])})
		}
	}
	return v
}

// mateOf is the part that a unit goes on by a joint.
func mateOf(u *Unit, j *assembly.Joint) int {
	if slices.Contains(u.Parts, j.A) {
		return j.B
	}
	return j.A
}

// shifts are by how much each unit of a step is drawn off what it goes on. What is put
// on a shaft stands beyond the end that it is nearer to, the innermost next to it.
func (d *Drawer) shifts(s *Step) []r3.Vec {
	a := d.Assembly
	out := make([]r3.Vec, len(s.Units))
	type end struct {
		shaft int
		sign  float64
	}
	var ends []end
	on := map[end][]int{} // units by the end of the shaft that they come from
	for i := range s.Units {
		u := &s.Units[i]
		if u.On < 0 {
			continue
		}
		j := &a.Joints[u.On]
		m := mateOf(u, j)
		mate := &a.Parts[m]
		switch {
		case mate.Item == a.Parts[u.Parts[0]].Item: // a pile stays together
		case shaft(mate) && j.Kind == assembly.Fit:
			axis := mate.Place.Z
			from, to := d.reach([]int{m}, axis)
			low, high := d.reach(u.Parts, axis)
			e := end{m, 1}
			if low-from < to-high {
				e.sign = -1
			}
			if on[e] == nil {
				ends = append(ends, e)
			}
			on[e] = append(on[e], i)
		default:
			out[i] = d.apart(u.Parts, m, j)
		}
	}
	for _, e := range ends {
		axis := r3.Scale(e.sign, a.Parts[e.shaft].Place.Z)
		near := func(i int) float64 { low, _ := d.reach(s.Units[i].Parts, axis); return low }
		slices.SortStableFunc(on[e], func(p, q int) int { return cmp.Compare(near(p), near(q)) })
		_, free := d.reach([]int{e.shaft}, axis)
		for _, i := range on[e] {
			const gap = 15.0 // mm, between what is put on one after the other
			low, high := d.reach(s.Units[i].Parts, axis)
			out[i] = r3.Scale(free+gap-low, axis)
			free += gap + high - low
		}
	}
	return out
}

// shaft reports whether hubs are put on a part.
func shaft(p *assembly.Part) bool {
	return strings.HasSuffix(p.Item, "shaft") && p.Round()
}

// reach is how far some parts reach along a direction.
func (d *Drawer) reach(parts []int, dir r3.Vec) (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, i := range parts {
		p := &d.Assembly.Parts[i]
		frame := solid.Along(r3.Vec{}, dir, r3.Vec{})
		l, h := solid.Bounds(p.Solid, frame.Inverse().Then(p.Place))
		low, high = min(low, l.Z), max(high, h.Z)
	}
	return low, high
}

// left reports whether a unit belongs to the left side alone.
func (d *Drawer) left(parts []int) bool {
	for _, p := range parts {
		if d.Assembly.Parts[p].Side != assembly.Left {
			return false
		}
	}
	return true
}

// apart is by how much a unit is drawn off what it goes on: along the round in a fit,
// the bolts or else from place to middle, in steps of what it is long that way.
func (d *Drawer) apart(parts []int, on int, j *assembly.Joint) r3.Vec {
	a := d.Assembly
	mate, own := &a.Parts[j.A], &a.Parts[j.B]
	if on == j.B {
		mate, own = own, mate
	}
	middle := centre(a, parts)
	dir := r3.Sub(middle, j.At)
	switch {
	case own.Round() || mate.Round() && j.Kind.Through():
		axis := own.Place.Z
		if !own.Round() {
			axis = mate.Place.Z
		}
		dir = along(axis, dir)
	case j.Kind == assembly.Bolts || j.Kind == assembly.Swivel || j.Kind == assembly.Fit:
		if holes := append(own.About(j), mate.About(j)...); len(holes) > 0 {
			dir = along(holes[0].Dir, dir)
		}
	case j.Kind == assembly.Slide:
		dir = along(own.Place.Z, r3.Sub(middle, mate.Centre))
	case j.Kind == assembly.Rest:
		dir = along(own.Place.Z, dir)
	}
	if r3.Norm(dir) < 1e-6 {
		dir = r3.Vec{Z: 1}
	}
	dir = r3.Unit(dir)
	low, high := d.reach(parts, dir)
	return r3.Scale(max(leastApart, min(mostApart, 0.7*(high-low)+25)), dir)
}

// along is an axis, turned to where a direction points, or outward to the right where
// that says nothing.
func along(axis, dir r3.Vec) r3.Vec {
	s := r3.Dot(axis, dir)
	if math.Abs(s) < 1 {
		s = r3.Dot(axis, r3.Vec{X: 0.1, Y: -1, Z: 0.3})
	}
	return r3.Scale(math.Copysign(1, s), axis)
}

// balloons points at one body of each item of the step.
func (d *Drawer) balloons(v *sheet.View, s *hidden.Scene, shown int) {
	const apart = 25.0 // mm, between dots
	done := map[string]bool{}
	var dots []r2.Vec
	for i := range shown {
		item := s.Bodies[i].Item
		if done[item] {
			continue
		}
		for _, q := range s.Spots(i) {
			if !slices.ContainsFunc(dots, func(o r2.Vec) bool { return r2.Norm(r2.Sub(o, q)) < apart }) {
				done[item] = true
				dots = append(dots, q)
				v.Entities = append(v.Entities, sheet.Balloon{At: q, Item: item})
				break
			}
		}
	}
}

func least(a, b r3.Vec) r3.Vec { return r3.Vec{X: min(a.X, b.X), Y: min(a.Y, b.Y), Z: min(a.Z, b.Z)} }
func most(a, b r3.Vec) r3.Vec  { return r3.Vec{X: max(a.X, b.X), Y: max(a.Y, b.Y), Z: max(a.Z, b.Z)} }
