package viewer

import (
	"armwright/geometry/assembly"
	"armwright/geometry/cable"
	"armwright/solver/judge"

	"gonum.org/v1/gonum/spatial/r3"
)

// Cable is what bends: Path stands as in the reference pose of its group; a cable's
// beginning follows the arm, and its end the stack.
type Cable struct {
	Diameter float64      `json:"diameter"`
	Group    int          `json:"group"`
	Closed   bool         `json:"closed,omitempty"`
	Path     [][3]float64 `json:"path"`
	Rising   int          `json:"rising,omitempty"` // how many of its last points go up with the stack
	// Lead is its beginning, from the cam to below the guide sheave, for each axis
	// position at each of evenly spaced flexions; nil of what keeps its shape.
	Lead [][][][3]float64 `json:"lead,omitempty"`
}

// leadSteps is how finely the beginning is told over the flexion.
const leadSteps = 16

// loopThick is the thickness at which a belt or chain is drawn, mm: own choice.
const loopThick = 8.0

// cables are the right ones; the left are their mirror images.
func (s *Scene) cables(r *judge.Result) {
	a := r.Station.Assembly
	for i := range a.Flexible {
		f := &a.Flexible[i]
		if f.Side == assembly.Left {
			continue
		}
		c := Cable{Closed: f.Closed, Diameter: f.Stock.Size[0]}
		path := f.Path
		if f.Closed { // on the arm's shaft, within the swivel bracket
			c.Diameter, c.Group = loopThick, s.Axis.Group
		} else if route := r.Station.Route; route != nil {
			if c.Lead = leads(r, route); c.Lead != nil { // it stands for the way from cam to guide sheave
				path = route.Onward([]r3.Vec{route.Hang})[1:]
			}
			c.Rising = 1
			if n := len(route.Sheaves) - 1; route.Sheaves[n].Floating {
				high := *route
				high.Sheaves = route.Sheaves[:n]
				c.Rising = 1 + len(route.Onward([]r3.Vec{{}})) - len(high.Onward([]r3.Vec{{}}))
			}
		}
		for _, q := range path {
			c.Path = append(c.Path, vec(q))
		}
		s.Cables = append(s.Cables, c)
	}
}

// leads are the beginnings of the cable by axis position and flexion; nil where it
// does not reach the guide sheave.
func leads(r *judge.Result, route *cable.Route) (out [][][][3]float64) {
	v := &r.Station.Values
	for axis := range v.Axes {
		var over [][][3]float64
		for k := range leadSteps + 1 {
			at, err := r.Resistance.Profile.At(v.First + (v.Last-v.First)*float64(k)/leadSteps)
			if err != nil {
				return nil
			}
			var line [][3]float64
			for _, q := range route.Lead(axis, at.Contact) {
				line = append(line, vec(q))
			}
			over = append(over, line)
		}
		out = append(out, over)
	}
	return out
}
