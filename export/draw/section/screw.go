package section

import (
	"armwright/export/sheet"
	"armwright/specs/stock"

	"gonum.org/v1/gonum/spatial/r2"
)

// Screw is a hexagon screw along the plane, in the camera's picture, mm. It is drawn uncut
// (ISO 128-3), its thread by a narrow line at the root (ISO 6410-1, both from memory).
type Screw struct {
	Seat   r2.Vec // under its head, or its washer
	Along  r2.Vec // unit vector, from the head to its end
	Thread stock.Thread
	Core   float64 // the root of its thread
	Length float64 // under the head
	Washer bool
	Loose  float64 // from its seat on, how far it goes through clearance holes, whose sides stand for its own
}

// start is where its shank begins from its seat, negative with a washer.
func (s *Screw) start() float64 {
	if s.Washer {
		return -s.Thread.Thick
	}
	return 0
}

// at is a place so far along it from its seat, and so far aside.
func (s *Screw) at(along, aside float64) r2.Vec {
	return r2.Add(s.Seat, r2.Add(r2.Scale(along, s.Along), r2.Scale(aside, r2.Vec{X: -s.Along.Y, Y: s.Along.X})))
}

// box is a rectangle about its axis.
func (s *Screw) box(from, to, across float64) []sheet.Vertex {
	var out []sheet.Vertex
	for _, q := range [4]r2.Vec{s.at(from, -across/2), s.at(to, -across/2), s.at(to, across/2), s.at(from, across/2)} {
		out = append(out, sheet.Vertex{Vec: q})
	}
	return out
}

// shank is what hatching stays clear of.
func (s *Screw) shank() []sheet.Vertex {
	return s.box(s.start(), s.start()+s.Length, s.Thread.Diameter)
}

// lines draw it, with its centre line.
func (s *Screw) lines() []sheet.Entity {
	t := &s.Thread
	from, end := s.start(), s.start()+s.Length
	out := []sheet.Entity{sheet.Polyline{Role: sheet.Visible, Vertices: s.box(from-t.Head, from, t.Across), Closed: true}}
	if s.Washer {
		out = append(out, sheet.Polyline{Role: sheet.Visible, Vertices: s.box(from, 0, t.Washer), Closed: true})
	}
	tip := sheet.Polyline{Role: sheet.Visible}
	for _, q := range [4]r2.Vec{s.at(s.Loose, -t.Diameter/2), s.at(end, -t.Diameter/2), s.at(end, t.Diameter/2), s.at(s.Loose, t.Diameter/2)} {
		tip.Vertices = append(tip.Vertices, sheet.Vertex{Vec: q})
	}
	out = append(out, tip)
	for _, side := range [2]float64{-s.Core / 2, s.Core / 2} {
		out = append(out, sheet.Line{Role: sheet.Thin, A: s.at(0, side), B: s.at(end, side)})
	}
	return append(out, sheet.CentreLine{A: s.at(from-t.Head, 0), B: s.at(end, 0)})
}
