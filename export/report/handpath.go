package report

import (
	"fmt"
	"html/template"
	"math"
	"slices"

	"armwright/export/plot"
	"armwright/geometry/elbow"
	"armwright/solver"
	"armwright/solver/seat"

	"gonum.org/v1/gonum/spatial/r3"
)

// gaps are the distances of hand and handle.
func (p *Path) gaps() []float64 {
	out := make([]float64, len(p.Radial))
	for i := range out {
		out[i] = math.Hypot(p.Radial[i]-p.HandleRadial, p.Axial[i]-p.HandleAxial)
	}
	return out
}

// handPaths are the paths of three boundary persons.
func handPaths(r *solver.Result) []HandPath {
	list := []HandPath{}
	all := make([]*seat.Person, len(r.People.Boundary))
	for i := range all {
		all[i] = &r.People.Boundary[i]
	}
	slices.SortStableFunc(all, func(a, b *seat.Person) int {
		switch {
		case a.Person.Stature < b.Person.Stature:
			return -1
		case a.Person.Stature > b.Person.Stature:
			return 1
		}
		return 0
	})
	if len(all) < 3 {
		return list
	}
	g := &r.Frame.Geometry
	for _, p := range []*seat.Person{all[0], all[len(all)/2], all[len(all)-1]} {
		pivot, axis := g.Pivots.Right(), g.Pivots.Axes[p.Axis].Vector()
		arm, _ := p.Pose.Turned(axis, math.Abs(p.Turn))
		own := p.Body.Hinge.Path(p.Body.Forearm)
		here := elbow.Path{Still: r3.Add(p.Pose.Elbow, arm.To(own.Still)), Sin: arm.To(own.Sin), Cos: arm.To(own.Cos)}
		seen, common := seenFrom(here, pivot, axis, r.Resistance.Angles), seenFrom(own, r3.Vec{}, r3.Vec{Z: 1}, r.Resistance.Angles)
		best, _ := elbow.Mismatch(common)
		list = append(list, HandPath{p.Person.Label,
			path(seen, elbow.Setting{Radius: g.Handle.Radius(p.Handle), Axial: p.Axial}),
			path(common, best)})
	}
	return list
}

func seenFrom(p elbow.Path, pivot, axis r3.Vec, angles []float64) []elbow.AxisPoint {
	sin, cos := make([]float64, len(angles)), make([]float64, len(angles))
	for i, a := range angles {
		sin[i], cos[i] = math.Sincos(a)
	}
	return p.Seen(nil, pivot, axis, sin, cos)
}

func path(points []elbow.AxisPoint, handle elbow.Setting) Path {
	p := Path{HandleRadial: mm(handle.Radius), HandleAxial: mm(handle.Axial), Radial: []float64{}, Axial: []float64{}}
	for _, at := range points {
		p.Radial, p.Axial = append(p.Radial, mm(at.Radial)), append(p.Axial, mm(at.Axial))
	}
	return p
}

// handPathPlot shows three hands around their handles, on the station and on
// one straight common axis, all at one scale.
func handPathPlot(r *Report) template.HTML {
	list := r.Elbow.Paths
	if len(list) == 0 {
		return ""
	}
	const top, half, middle, head = 40.0, 80.0, 110.0, 22.0 // a panel is a square of 2*half
	most := 1.0
	for i := range list {
		for _, p := range []*Path{&list[i].Here, &list[i].Common} {
			most = math.Max(most, slices.Max(append(p.gaps(), 0)))
		}
	}
	limit := 0.0
	if i := indexOf(r.Requirements, "hand-path"); i >= 0 {
		limit = r.Requirements[i].Limit
	}
	scale := half / math.Max(most, limit) * 0.96
	d := &plot.Drawing{}
	d.Text(middle, 14, "middle", "this station")
	d.Text(plot.Width-middle, 14, "middle", "one straight common axis")
	d.Text(plot.Width/2, 31, "middle", "across: outward along the axis; up: away from it")
	y := top
	for i := range list {
		d.Text(plot.Width/2, y+14, "middle", abridged(list[i].Person))
		y += head
		for k, p := range []*Path{&list[i].Here, &list[i].Common} {
			cx, cy := middle+float64(k)*(plot.Width-2*middle), y+half
			d.Line("grid", cx-half, cy, cx+half, cy)
			d.Line("grid", cx, cy-half, cx, cy+half)
			if limit > 0 {
				d.Dot("limit", cx, cy, limit*scale, "")
			}
			px := func(i int) (float64, float64) {
				return cx + (p.Axial[i]-p.HandleAxial)*scale, cy - (p.Radial[i]-p.HandleRadial)*scale
			}
			class := [...]string{"one", "two"}[k]
			d.Open(`<path class="` + class + ` path" d="M`)
			for j := range p.Radial {
				d.Point(px(j))
			}
			d.Close(`"/>`)
			d.Dot("dot", cx, cy, 3, "handle")
			gaps := p.gaps()
			far := 0
			for j, g := range gaps {
				if g > gaps[far] {
					far = j
				}
			}
			x, up := px(far)
			d.Dot("dot "+class, x, up, 4, fmt.Sprintf("%s at %s", r.Units.Figure(gaps[far], "mm"), r.Units.Figure(r.Resistance.Angles[far], "deg")))
			d.Text(cx-half, y+2*half-2, "start", fmt.Sprintf("%s at %.0f deg", r.Units.Figure(gaps[far], "mm"), r.Resistance.Angles[far]))
		}
		y += 2*half + 6
	}
	key := plot.Legend{Drawing: d, X: 24, Y: y + 4}
	key.Entry("handle", func(x, y float64) { d.Dot("dot", x+11, y, 3, "") })
	key.Entry("hand, farthest at the dot", func(x, y float64) { d.Line("one", x, y, x+22, y); d.Dot("dot one", x+22, y, 4, "") })
	if limit > 0 {
		key.Entry("limit", func(x, y float64) { d.Line("limit", x, y, x+22, y) })
	}
	return d.SVG(plot.Width, key.Y+8, "Hand paths of three persons around their handles, on this station and on one straight common axis")
}
