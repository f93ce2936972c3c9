package made

import (
	"math"
	"slices"

	"armwright/geometry/assembly"
	"armwright/geometry/contour"
	"armwright/geometry/solid"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// Kind is what a feature is.
type Kind int8

// The kinds of features.
const (
	End     Kind = iota // an end that is not cut square
	Hole                // round, through or to a depth
	Slot                // one of its round ends
	Opening             // a hole of any other outline
	Step                // an outside diameter of a turned part, from At for Depth along it
	Seat                // a length of it that a fit is asked of
	Keyway              // in a shaft, from At for Depth along it; in a bore where Inside
	Screw               // set screw, across to the bore
)

// String is the kind's name on sheets.
func (k Kind) String() string {
	return [...]string{"end", "hole", "slot, end", "opening", "diameter", "seat", "keyway", "set screw"}[k]
}

// name is what sheets call a feature.
func (f *Feature) name() string {
	switch {
	case f.Open && f.Kind == Hole:
		return "open bore"
	case f.Open && f.Kind == Screw:
		return "clamp screw"
	}
	return f.Kind.String()
}

// Feature is one thing that is made in a part. Lengths mm, places and directions in
// the part's own frame.
type Feature struct {
	Kind   Kind
	At     r3.Vec // of a hole, where its centreline enters
	Dir    r3.Vec // the way the tool goes; of a step, a seat, a keyway along the part
	Size   float64
	Depth  float64 // of a hole, 0 right through; else its length
	Deep   float64 // of a keyway, below the surface of the shaft or past the bore
	Inside bool    // in a bore
	Open   bool    // a bore that a slot opens, and the screw that closes it
	Count  int     // of screws; 0 is one
	Note   string  // thread, fit, what it is for
	Asked  bool    // by a joint alone: the solid has no such hole

	Standard string // of a keyway's key

	Tilt r2.Vec // of an end, from square across the picture's Up and towards the viewer, rad
}

// drilled are the features of a part's solid.
func drilled(p *Part) []Feature {
	switch s := p.Drawn.Solid.(type) {
	case solid.Prism:
		return pierced(p, s)
	case solid.Turned:
		return turned(s)
	}
	return nil
}

// pierced are the ends and holes of a prism.
func pierced(p *Part, s solid.Prism) []Feature {
	var out []Feature
	for i, e := range [2]solid.End{s.From, s.To} {
		if r2.Norm(e.Tilt) <= square {
			continue
		}
		tilt := r3.Vec{X: e.Tilt.X, Y: e.Tilt.Y}
		f := Feature{Kind: End, At: r3.Vec{Z: e.Z}, Dir: r3.Vec{Z: float64(1 - 2*i)}}
		f.Tilt = r2.Vec{X: math.Atan(r3.Dot(tilt, p.look.Up)), Y: math.Atan(r3.Dot(tilt, p.look.Toward))}
		out = append(out, f)
	}
	low, high := solid.Bounds(s, solid.World())
	if _, radius, ok := s.Profile.Outer().Round(); ok && p.shape == bar {
		out = append(out, Feature{Kind: Step, At: r3.Vec{Z: low.Z}, Dir: r3.Vec{Z: 1}, Size: 2 * radius, Depth: high.Z - low.Z})
	}
	for _, h := range s.Profile.Holes() {
		if p.shape == bar { // the hollow of a tube is stock
			if centre, radius, ok := h.Round(); ok && p.Drawn.Stock.Form == assembly.Round {
				out = append(out, Feature{Kind: Hole, At: r3.Vec{X: centre.X, Y: centre.Y, Z: low.Z}, Dir: r3.Vec{Z: 1}, Size: 2 * radius, Inside: true})
			}
			continue
		}
		if centre, radius, ok := h.Round(); ok {
			out = append(out, Feature{Kind: Hole, At: r3.Vec{X: centre.X, Y: centre.Y, Z: high.Z}, Dir: r3.Vec{Z: -1}, Size: 2 * radius})
			continue
		}
		ends := h.RoundEnds()
		for _, e := range ends {
			out = append(out, Feature{Kind: Slot, At: r3.Vec{X: e.Centre.X, Y: e.Centre.Y, Z: high.Z}, Dir: r3.Vec{Z: -1}, Size: 2 * e.Radius})
		}
		if len(ends) == 0 {
			box := h.Bounds()
			out = append(out, Feature{Kind: Opening, At: r3.Vec{X: (box.Min.X + box.Max.X) / 2, Y: (box.Min.Y + box.Max.Y) / 2, Z: high.Z}, Dir: r3.Vec{Z: -1},
				Size: box.Max.X - box.Min.X, Deep: box.Max.Y - box.Min.Y})
		}
	}
	if p.shape != bar {
		for _, b := range openBores(s.Profile.Outer()) {
			out = append(out, Feature{Kind: Hole, At: r3.Vec{X: b.Centre.X, Y: b.Centre.Y, Z: high.Z}, Dir: r3.Vec{Z: -1}, Size: 2 * b.Radius, Open: true})
		}
	}
	for _, b := range s.Bores {
		dir := r3.Unit(b.Dir)
		// From the side that is seen, where it goes right through.
		if b.Depth == 0 && (r3.Dot(dir, p.look.Toward) > 0.5 || r3.Dot(dir, p.look.Up) > 0.5 || r3.Dot(dir, p.look.Right) < -0.5) {
			dir = r3.Scale(-1, dir)
		}
		out = append(out, Feature{Kind: Hole, At: b.At, Dir: dir, Size: b.Diameter, Depth: b.Depth})
	}
	return out
}

// openBores are the bores of an outline that a slot opens: its hollow arcs that together
// go more than half round one place.
func openBores(p contour.Path) []contour.Element {
	var out []contour.Element
	var sweeps []float64
	for i := range p.Len() {
		e := p.Element(i)
		if !e.IsArc() || e.Bulge > 0 {
			continue
		}
		k := slices.IndexFunc(out, func(o contour.Element) bool {
			return r2.Norm(r2.Sub(o.Centre, e.Centre)) < same && math.Abs(o.Radius-e.Radius) < same
		})
		if k < 0 {
			k = len(out)
			out, sweeps = append(out, e), append(sweeps, 0)
		}
		sweeps[k] += 4 * math.Atan(-e.Bulge)
	}
	n := 0
	for i := range out {
		if sweeps[i] > math.Pi+0.1 { // a slot's round end is half a circle
			out[n] = out[i]
			n++
		}
	}
	return out[:n]
}

// turned are the diameters of a turned part and its bore.
func turned(s solid.Turned) []Feature {
	var out []Feature
	z := r3.Vec{Z: 1}
	for i := 1; i < len(s.Outline); i++ {
		a, b := s.Outline[i-1], s.Outline[i]
		if b.Y-a.Y < same {
			continue
		}
		f := Feature{Kind: Step, At: r3.Vec{Z: a.Y}, Dir: z, Size: 2 * a.X, Depth: b.Y - a.Y}
		if math.Abs(b.X-a.X) > same {
			f.Deep = 2 * b.X // a cone, to this diameter
		}
		out = append(out, f)
	}
	if s.Bore > 0 {
		out = append(out, Feature{Kind: Hole, At: r3.Vec{Z: s.Outline[0].Y}, Dir: z, Size: s.Bore, Inside: true})
	}
	return out
}
