package solid

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"armwright/geometry/contour"
)

// Validate returns an *Error unless the loops are simple, the holes lie inside
// the outer loop and apart from each other.
func (p *Profile) Validate() error {
	if err := p.outer.Validate(); err != nil {
		return &Error{Feature: "profile", Defect: "the outer loop is not sound", Hint: "give a simple closed loop", Cause: err}
	}
	for i, h := range p.holes {
		fail := func(defect, hint string, cause error) error {
			return &Error{Feature: "hole", Index: i, Defect: defect, Hint: hint, Cause: cause}
		}
		if err := h.Validate(); err != nil {
			return fail("its loop is not sound", "give a simple closed loop", err)
		}
		if h.Meets(p.outer) || !p.outer.Contains(h.Vertices[0].Point()) {
			return fail("it is not inside the outline", "move the hole or make it smaller", nil)
		}
		for _, other := range p.holes[:i] {
			if h.Meets(other) || other.Contains(h.Vertices[0].Point()) || h.Contains(other.Vertices[0].Point()) {
				return fail("it meets another hole", "move one of them", nil)
			}
		}
	}
	return nil
}

// Validate implements Solid. Bores must go through flat faces only, clear of
// their edges, of each other and of the ends.
func (p Prism) Validate() error {
	if err := p.Profile.Validate(); err != nil {
		return err
	}
	if !finite(p.From.Z, p.From.Tilt.X, p.From.Tilt.Y, p.To.Z, p.To.Tilt.X, p.To.Tilt.Y) {
		return &Error{Feature: "ends", Defect: "number not finite", Hint: "check the calculation that gave the end planes"}
	}
	// The least height between the planes is at the edge of the outline.
	slope := r2.Sub(p.To.Tilt, p.From.Tilt)
	edge := p.Profile.edge()
	low := edge.support(r2.Scale(-1, slope))
	if p.To.At(low)-p.From.At(low) < touching {
		return &Error{Feature: "ends", Defect: "the end planes meet over the profile", Hint: "make the body longer or the cuts less oblique"}
	}
	var before []stretch
	for i, b := range p.Bores {
		cut, err := p.validBore(i, b)
		if err != nil {
			return err
		}
		for k := range cut {
			for n := range before {
				if gap, _, _ := Distance(&cut[k], World(), &before[n], World()); gap < touching {
					return &Error{Feature: "bore", Index: i, Defect: "it meets another bore", Hint: "move one of them"}
				}
			}
		}
		before = append(before, cut...)
	}
	return nil
}

// validBore checks one bore by itself.
func (p Prism) validBore(i int, b Bore) ([]stretch, error) {
	fail := func(defect, hint string) ([]stretch, error) {
		return nil, &Error{Feature: "bore", Index: i, Defect: defect, Hint: hint}
	}
	if !finite(b.At.X, b.At.Y, b.At.Z, b.Dir.X, b.Dir.Y, b.Dir.Z, b.Depth) || !(b.Diameter > 0) || math.IsInf(b.Diameter, 0) || b.Depth < 0 {
		return fail("its numbers are not a hole", "give a diameter above 0 and a depth of 0 or more")
	}
	if b.Dir == (r3.Vec{}) || b.Dir.Z != 0 && !b.endways() {
		return fail("it is drilled aslant", "drill across the body's length or along it")
	}
	radius := b.Diameter / 2
	cut := p.cut(b)
	if b.endways() {
		c := r2.Vec{X: b.At.X, Y: b.At.Y}
		for loop := range 1 + len(p.Profile.holes) {
			path := p.Profile.loop(loop)
			if d, _ := path.Distance(c); d < radius+touching || path.Contains(c) != (loop == 0) {
				return fail("it reaches a side or another hole", "move it inward or make it smaller")
			}
		}
	} else if len(cut) == 0 {
		return fail("it misses the body", "move it onto a face")
	}
	for k := range cut {
		s := &cut[k]
		if !b.endways() {
			if err := p.clearSides(s); err != "" {
				return fail(err, "move it onto a flat face, clear of edges")
			}
			for n, e := range [2]End{p.From, p.To} {
				down := r3.Vec{X: e.Tilt.X, Y: e.Tilt.Y, Z: -1}
				if n == 1 {
					down = r3.Scale(-1, down)
				}
				q := s.Support(down)
				if r3.Dot(down, q)+down.Z*-e.Z > -touching {
					return fail("it reaches an end", "move it away from the end or make it smaller")
				}
			}
		}
		if s.out.loop == atBottom {
			// The bottom must clear the face that it is drilled from and the next.
			deepest := s.enter.plane.Z + radius*r2.Norm(s.enter.plane.Tilt)
			beyond := s.out.along + touching
			whole := p.cut(Bore{At: b.At, Dir: b.Dir, Diameter: b.Diameter})[k].out.plane
			if deepest > s.out.along-touching || whole.Z-radius*r2.Norm(whole.Tilt) < beyond {
				return fail("its bottom breaks through a face", "change its depth")
			}
		}
	}
	return cut, nil
}

// clearSides says what is wrong where a stretch of a bore across meets the
// sides, or nothing.
func (p Prism) clearSides(s *stretch) string {
	r := s.radius
	o, d := r2.Vec{X: s.at.Origin.X, Y: s.at.Origin.Y}, r2.Vec{X: s.at.Z.X, Y: s.at.Z.Y}
	side := r2.Vec{X: s.at.X.X, Y: s.at.X.Y}
	for loop := range 1 + len(p.Profile.holes) {
		path := p.Profile.loop(loop)
		for k := range path.Len() {
			e := path.Element(k)
			face := false
			for _, m := range [2]*meeting{&s.enter, &s.out} {
				if m.loop != loop || m.element != k {
					continue
				}
				face = true
				if e.IsArc() {
					return "it meets a round face"
				}
				// The rim's places farthest to either side, along the face.
				along := r2.Unit(r2.Sub(e.End, e.Start))
				for _, x := range [2]float64{-r, r} {
					q := r2.Add(o, r2.Add(r2.Scale(x, side), r2.Scale(m.plane.At(r2.Vec{X: x}), d)))
					u := r2.Dot(along, r2.Sub(q, e.Start))
					if u < touching || u > e.Length()-touching {
						return "it reaches an edge"
					}
				}
			}
			if !face && s.strip(o, d, side, e) {
				return "it breaks through another face"
			}
		}
	}
	return ""
}

// strip reports whether an element comes into the strip that the stretch takes
// up in the profile's plane. Arcs are followed within a thousandth of the radius.
func (s *stretch) strip(o, d, side r2.Vec, e contour.Element) bool {
	path := contour.Path{Vertices: []contour.Vertex{{X: e.Start.X, Y: e.Start.Y, Bulge: e.Bulge}, {X: e.End.X, Y: e.End.Y}}}
	points := path.Points(s.radius / 1000)
	own := func(q r2.Vec) r2.Vec {
		q = r2.Sub(q, o)
		return r2.Vec{X: r2.Dot(side, q), Y: r2.Dot(d, q)} // across, along
	}
	for i := range len(points) - 1 {
		a, b := own(points[i]), own(points[i+1])
		if a.X > b.X {
			a, b = b, a
		}
		if b.X <= -s.radius || a.X >= s.radius {
			continue
		}
		// Clipped to the strip, both ends must be before it or both beyond.
		before, beyond := true, true
		for _, x := range [2]float64{max(a.X, -s.radius), min(b.X, s.radius)} {
			ys := [2]float64{a.Y, b.Y}
			if b.X > a.X {
				y := a.Y + (b.Y-a.Y)*(x-a.X)/(b.X-a.X)
				ys = [2]float64{y, y}
			}
			for _, y := range ys {
				before = before && y < s.enter.plane.At(r2.Vec{X: x})-touching
				beyond = beyond && y > s.out.plane.At(r2.Vec{X: x})+touching
			}
		}
		if !before && !beyond {
			return true
		}
	}
	return false
}
