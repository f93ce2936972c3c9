// Package made draws the parts that a saw, a drill, a lathe or a laser makes: one
// panel a part with its ends, holes, seats and keyways from one datum.
//
// What is made comes from two places: the part's solid, and the joints that it takes
// part in, which tell what a hole or a seat is for: its thread, its fit, its key.
package made

import (
	"math"

	"armwright/export/cutfile"
	"armwright/export/hidden"
	"armwright/export/partlist"
	"armwright/geometry/assembly"
	"armwright/geometry/solid"
	"armwright/specs/stock"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// Part is an item of the parts list that the shop makes, as it is drawn.
type Part struct {
	partlist.Line
	Drawn    *assembly.Part // the one that is drawn: not a left one where there is another
	Opposite int            // how many of the count are its mirror image, and differ from it
	Features []Feature

	screws stock.Screws
	shape  shape
	traces []cutfile.Trace // of what is welded to a plate
	look   hidden.Camera   // in the part's own frame, the datum at the picture's origin
	size   r2.Vec          // of the part in the picture
	thick  float64         // towards the viewer
}

// shape is how a part is looked at.
type shape int8

const (
	bar   shape = iota // along the picture: tubes, flat bars and what is round
	plate              // on its face: what a profile other than a bar's makes
)

// Of lists the parts that are made, in the order of the parts list, with threads for the
// screws of a system.
func Of(a *assembly.Assembly, list []partlist.Line, system stock.Screws) []Part {
	var out []Part
	for _, l := range list {
		if l.Form == assembly.Bought || len(l.Parts) == 0 {
			continue
		}
		p := Part{Line: l, Drawn: &a.Parts[l.Parts[0]], screws: system}
		at, left := l.Parts[0], 0
		for _, i := range l.Parts {
			if a.Parts[i].Side == assembly.Left {
				left++
			} else if p.Drawn.Side == assembly.Left {
				at, p.Drawn = i, &a.Parts[i]
			}
		}
		if left < l.Count && handed(p.Drawn.Solid) {
			p.Opposite = left
		}
		p.see(r3.Vec{})
		p.features(a, at)
		for _, f := range p.Features {
			// What joints ask for alone is seen, too, where the solid shows nothing else.
			if f.Asked && p.shape == bar && math.Abs(r3.Dot(f.Dir, p.look.Toward)) < 0.5 && p.see(f.Dir) {
				p.features(a, at)
				break
			}
		}
		if p.cut() {
			p.traces = cutfile.Traces(a, at)
		}
		out = append(out, p)
	}
	return out
}

// features finds what is made in the part of an index.
func (p *Part) features(a *assembly.Assembly, at int) {
	p.Features = drilled(p)
	p.joined(a, at)
}

// see decides how the part is looked at, and from where: of a bar with neither mitres
// nor holes from the side that a drill goes into, and reports whether that is so.
func (p *Part) see(drill r3.Vec) bool {
	low, high := solid.Bounds(p.Drawn.Solid, solid.World())
	x, y, z := r3.Vec{X: 1}, r3.Vec{Y: 1}, r3.Vec{Z: 1}
	s, prism := p.Drawn.Solid.(solid.Prism)
	if prism && !long(s, p.Drawn.Stock.Form) {
		p.shape, p.look = plate, hidden.Camera{Right: x, Up: y, Toward: z, Origin: r3.Vec{X: low.X, Y: low.Y, Z: low.Z}}
		p.size, p.thick = r2.Vec{X: high.X - low.X, Y: high.Y - low.Y}, high.Z-low.Z
		return false
	}
	// Mitres are seen in their true angle, else holes from the side they are drilled from.
	p.look = hidden.Camera{Right: z, Up: y, Toward: r3.Scale(-1, x)}
	aside, free := false, false
	switch {
	case !prism:
	case mitred(s):
		aside = math.Abs(s.From.Tilt.X)+math.Abs(s.To.Tilt.X) > math.Abs(s.From.Tilt.Y)+math.Abs(s.To.Tilt.Y)
	case len(s.Bores) > 0:
		aside = math.Abs(s.Bores[0].Dir.Y) > math.Abs(s.Bores[0].Dir.X)
	default:
		free = drill != r3.Vec{}
		aside = math.Abs(drill.Y) > math.Abs(drill.X)
	}
	if aside {
		p.look.Up, p.look.Toward = x, y
	}
	if prism {
		for _, b := range s.Bores {
			if b.Depth > 0 {
				drill = b.Dir
				break
			}
		}
	}
	if r3.Dot(drill, p.look.Toward) > 0 { // drilled from the far side
		p.look.Up, p.look.Toward = r3.Scale(-1, p.look.Up), r3.Scale(-1, p.look.Toward)
	}
	middle := r3.Scale(0.5, r3.Add(low, high))
	p.look.Origin = r3.Vec{X: middle.X, Y: middle.Y, Z: low.Z}
	wide, deep := high.X-low.X, high.Y-low.Y
	if aside {
		wide, deep = deep, wide
	}
	p.size, p.thick = r2.Vec{X: high.Z - low.Z, Y: deep}, wide
	return free
}

// long reports whether a prism is drawn along the picture: a tube, what is round, and a
// flat bar with a plain section that is longer than wide.
func long(s solid.Prism, form assembly.Form) bool {
	switch form {
	case assembly.Tube, assembly.Round:
		return true
	case assembly.Plate:
		box := s.Profile.Outer().Bounds()
		plain := len(s.Profile.Holes()) == 0 && len(s.Profile.Outer().Vertices) == 4 && convexBox(s.Profile)
		return plain && s.To.Z-s.From.Z > max(box.Max.X-box.Min.X, box.Max.Y-box.Min.Y)
	}
	return false
}

// convexBox reports whether a profile with four corners fills its box.
func convexBox(p *solid.Profile) bool {
	box := p.Outer().Bounds()
	return math.Abs(p.Area()-(box.Max.X-box.Min.X)*(box.Max.Y-box.Min.Y)) < 1e-6*p.Area()
}

// mitred reports whether an end is cut otherwise than square.
func mitred(s solid.Prism) bool {
	return r2.Norm(s.From.Tilt) > square || r2.Norm(s.To.Tilt) > square
}

// square is the tilt of an end below which it is cut square.
const square = 1e-4
