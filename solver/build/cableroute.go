package build

import (
	"math"

	"armwright/solver/drive"
)

// CableRoute is the way of the right arm's cable as the station leads it, with the
// forces on its axles at the heaviest load and the length to cut; nil without one.
func (s *Builder) CableRoute(st *Station, d *drive.State) *drive.Route {
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
