package words

import (
	"fmt"
	"math"

	"armwright/geometry/cable"
	"armwright/solver/drive"
	"armwright/specs"
	"armwright/specs/stock"
)

// Cause tells what keeps a cam from its curve.
func Cause(c drive.Cause, u specs.Units) string {
	size := u.Size(c.Size, "mm")
	var words string
	switch c.Holds {
	case drive.Smoothness:
		return "the smoothness of the moment arm between its nodes"
	case drive.BendRadius:
		words = "the cable's bend radius of " + size
	case drive.LeastArm:
		words = "the least moment arm of " + size
	case drive.GreatestArm:
		words = "the greatest moment arm of " + size
	}
	if c.Beyond {
		return fmt.Sprintf("%s (reached at %.0f deg)", words, c.At/specs.Degree)
	}
	return words
}

// departures tells where the torque is off its curve at the middle load, where most, and
// what would mend it. The difference is that of the middle load in the table of loads.
func departures(list []drive.Departure, ratio float64, u specs.Units) []string {
	if len(list) == 0 {
		return nil
	}
	worst := 0
	for i := range list {
		if math.Abs(list[i].By) > math.Abs(list[worst].By) {
			worst = i
		}
	}
	w := list[worst]
	sense, stretches := "more", "1 stretch"
	if w.By < 0 {
		sense = "less"
	}
	if n := len(list); n > 1 {
		stretches = fmt.Sprintf("%d stretches", n)
	}
	return []string{fmt.Sprintf("At the middle load the torque is off the curve by %.1f %% of the peak at most, at %.0f deg (%s than wanted), and by over 0.5 %% in %s of the range. What keeps the cam from the curve: %s. The curvature that the curve asks for falls with the square of the drive ratio, now %.4g: a faster cam comes closer.",
		100*math.Abs(w.By), w.Worst/specs.Degree, sense, stretches, Cause(w.Cause, u), ratio)}
}

// sheaves tells when a brief counts other sheaves than the cable's way has.
func sheaves(way *drive.Route, counted int) []string {
	if way == nil || counted == cable.Sheaves {
		return nil
	}
	return []string{fmt.Sprintf("Friction is reckoned with %d sheaves between cam and stack as the brief says; the route drawn has %d (resistance.sheaves).", counted, cable.Sheaves)}
}

// transmission tells of a belt or chain that is too weak, and of a belt that is wider
// than the room beside the cam.
func transmission(v *stock.DriveStrength, u specs.Units) []string {
	switch {
	case v == nil:
		return nil
	case v.Factor < v.Wanted:
		return []string{fmt.Sprintf("Belt or chain carries only %.1f times its pull of %s at the heaviest load (%s), %.1f is wanted: allow a smaller ratio, or stock.transmission chain.", v.Factor, u.Size(v.Pull, "N"), v.Basis, v.Wanted)}
	case v.Width > drive.WheelRoom:
		return []string{fmt.Sprintf("The belt's pull of %s at the heaviest load asks for %s of width, the wheels beside the cam are laid out for %s: use stock.transmission chain, or move counterweight and guard outwards by the difference.", u.Size(v.Pull, "N"), u.Size(v.Width, "mm"), u.Size(drive.WheelRoom, "mm"))}
	}
	return nil
}

// hub tells of a hub that is too weak for the heaviest load.
func hub(h *drive.Hub, u specs.Units) []string {
	switch {
	case !h.Weak():
		return nil
	case h.Kind == "clamp":
		return []string{fmt.Sprintf("The split hub holds %s by friction, less than %.1f times the heaviest load's %s: use a thicker shaft or stock.hub keyway.", u.Size(h.Holding/1000, "N m"), drive.ClampReserve, u.Size(h.Torque/1000, "N m"))}
	}
	return []string{fmt.Sprintf("The key presses on the cam's plates with %s at the heaviest load, more than two thirds of their yield strength: use a thicker shaft or stock.hub clamp.", u.Size(h.Pressure, "N/mm²"))}
}
