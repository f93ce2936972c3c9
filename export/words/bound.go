package words

import "armwright/solver/fit"

// Bound tells what every station obeys.
func Bound(b fit.Bound) string {
	switch b {
	case fit.RotationOfHandle:
		return "the handle asks for this much rotation of every forearm"
	case fit.SheaveTooSmall:
		return "the cable asks for this radius, and the guide sheave has a smaller one"
	case fit.CamSpread:
		return "a cam that bends the cable gently enough spreads its moment arm by this much over the range"
	case fit.CableTakenUp:
		return "the smallest moment arm allowed takes up this much cable"
	case fit.CableFactor:
		return "the cable's factor at the heaviest load is no more than what is allowed here"
	case fit.PivotsApart:
		return "the broadest person needs the pivots this far apart"
	case fit.PivotsTooFarApart:
		return "the pivots are at least this far apart, and the narrowest person allows less"
	case fit.PivotsContested:
		return "the broadest person needs pivots farther apart than the narrowest allows"
	case fit.PivotsHigh:
		return "the pivots alone reach this high"
	case fit.TowerHigh:
		return "the tower of the weight stack reaches this high"
	case fit.SeatTravel:
		return "between the persons who need the highest and the lowest seat it must travel this far"
	case fit.AxesApart:
		return "the elbow axes of the persons lie too far apart for fewer axis positions"
	}
	return ""
}
