package words

import (
	"fmt"

	"armwright/geometry/station/values"
	"armwright/solver"
	"armwright/solver/screen"
)

// Workshop tells what the workshop must see to, so that nobody is hurt by what moves;
// nothing of a bench, nor of what cannot be built.
func Workshop(r *solver.Result) []string {
	if r.Station.Assembly == nil {
		return nil
	}
	u, h, v := r.Frame.Drawing.Reads(), &r.Hazards, &r.Station.Values
	slots, reach := u.Size(screen.GuardOpening, "mm"), u.Size(h.GuardReach, "mm")
	list := []string{
		"arms rest on their stops at either end of the loaded range, with rubber buffers on both stops",
		"edges and corners that users touch: radius 2.5 mm at least; tube ends closed (EN 957-1 5.3, M)",
		"grip ends: 50 mm across with a radius of 5 mm, or bent back by 180 degrees (second hand); grips hold 90 N along their axis (ASTM F2571-15, second hand)",
	}
	if v.Drive == values.LinkageDrive {
		list = append(list, fmt.Sprintf("cover input bar, coupler and output bar on both sides: where they join they close like scissors; slots of %s in the cover need %s to the bars (ISO 13857:2019, second hand)", slots, reach))
	}
	if v.HasStack() {
		list = append(list, fmt.Sprintf("cover the stack on all sides up to %s; slots of %s in the cover need %s to the weights (ISO 13857:2019, second hand)", u.Size(h.GuardHeight, "mm"), slots, reach))
	}
	return list
}
