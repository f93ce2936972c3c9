package page

import (
	"slices"
	"strings"

	"armwright/solver/require"
	"armwright/specs"
)

// uses reports whether a value of the brief can change anything of a station of the
// brief's kind and drive: only such have a control. What is left out is tried against
// the judge in the tests.
func uses(b *specs.Brief, path string, kinds []require.Kind) bool {
	section, key, _ := strings.Cut(path, ".")
	first, _, _ := strings.Cut(key, ".")
	r := &b.Resistance
	bench, reclined := b.Kind == "cam-study", b.Kind == "reclined"
	in := func(keys ...string) bool { return slices.Contains(keys, first) }
	switch section {
	case "people":
		switch {
		case first == "table":
			return b.People.Population == specs.PopulationTable
		case bench:
			return in("population", "low", "high", "boundary", "age", "strength_spread", "strength_percentile") || first == "share" && b.People.Boundary == "ellipsoid"
		case first == "share":
			return b.People.Boundary == "ellipsoid"
		}
		return true
	case "posture":
		switch {
		case bench:
			return false
		case in("pad_slope"):
			return !reclined
		case in("back_angle", "arm_angle"):
			return reclined
		case first == "foot_pitch":
			return b.Posture.FootPlate != "none"
		}
		return true
	case "resistance":
		switch {
		case in("stack", "efficiency", "sheaves", "eccentric", "least_arm", "greatest_arm", "ratio", "sheave_radius", "side"):
			return r.Drive == "cam"
		case first == "lever_radius":
			return r.Drive != "cam"
		case first == "curve_table":
			return r.Curve == specs.CurveTable
		}
		return true
	case "space":
		return !bench
	case "stock":
		switch {
		case in("cable", "bend_rule", "transmission", "cam_lightening", "hub"):
			return r.Drive == "cam"
		case in("member", "bearing", "max_user"):
			return !bench
		}
		return true
	case "limits":
		k := limitedAt(kinds, path)
		return k != nil && k.AskedOf(&b.Asked)
	}
	return false
}

// limitedAt is the requirement whose limit a brief holds at a path; nil for none.
func limitedAt(kinds []require.Kind, path string) *require.Kind {
	for i := range kinds {
		if kinds[i].Limit == path {
			return &kinds[i]
		}
	}
	return nil
}
