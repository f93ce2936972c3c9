package build

import (
	"math"

	"armwright/geometry/cam"
	"armwright/geometry/contour"
	"armwright/solver/drive"
)

// cableEnd is what is cut more at either end of a cable, for an eye and its sleeve,
// mm (own choice).
const cableEnd = 150.0

// Route is the way of the right arm's cable as the station leads it, with the
// forces on its axles at the heaviest load and the length to cut; nil without one.
func (s *Builder) Route(st *Station, d *drive.State) *drive.Route {
	r := st.Route
	if r == nil || st.Assembly == nil {
		return nil
	}
	out := &drive.Route{Start: r.Start, End: r.End, Pair: s.Pair(), Length: r.Length, CamFleet: r.Fleet}
	for i := range r.Sheaves {
		w := &r.Sheaves[i]
		out.Sheaves = append(out.Sheaves, drive.RouteSheave{Sheave: w.Sheave, Load: w.Load(d.HeavyTension)})
		if w.Floating {
			whole := w.Sheave
			whole.Turn *= 2 // the other half is the left arm's
			out.Sheaves[i].Load = whole.Load(d.HeavyTension)
		}
	}
	for _, swing := range r.Swing {
		out.Sheaves[0].Swivel = max(out.Sheaves[0].Swivel, math.Abs(swing))
	}
	start, err := d.Profile.At(s.Angles[0])
	if o := d.Outline; o.Pitch.Len() > 0 && err == nil {
		each := out.Length + onCam(o, start.Phi)
		if out.Pair {
			out.Cut = each + 2*cableEnd
		} else {
			out.Cut = 2 * (each + cableEnd)
		}
	}
	return out
}

// onCam is the length of cable, mm, that lies on the cam from the contact with
// normal angle phi to where it leaves the groove for its anchor.
func onCam(o cam.Outline, phi float64) float64 {
	return turning(o.Pitch, o.WrapTo+o.DeadWrap-o.WrapFrom) - turning(o.Pitch, phi-o.WrapFrom)
}

// turning is the length of a convex path from its start until it has turned by
// an angle.
func turning(p contour.Path, angle float64) float64 {
	length := 0.0
	for i := range p.Len() {
		e := p.Element(i)
		sweep := e.Sweep()
		if sweep >= angle {
			if sweep > 0 {
				length += e.Length() * math.Max(0, angle) / sweep
			}
			return length
		}
		length, angle = length+e.Length(), angle-sweep
	}
	return length
}

// Fleet is the largest angle of the cable to the cam's plane over the loaded range
// and the axis positions, rad: 0 on a bench, a right angle where no cable can be led.
func (s *Builder) Fleet(st *Station) float64 {
	switch {
	case s.Bench():
		return 0
	case st.Route == nil:
		return math.Pi / 2
	}
	return st.Route.Fleet
}
