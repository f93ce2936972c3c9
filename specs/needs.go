package specs

import (
	"fmt"
	"math"

	"armwright/specs/stock"
)

// relations are the rules between the values of a frame: what its kind and its
// drive need to be a station at all.
func (f Frame) relations() []relation {
	g := f.Geometry
	has := func(key string, present bool, needed bool, why string) relation {
		return relation{"geometry." + key, []string{"kind", "resistance.drive"}, present || !needed, "missing", why}
	}
	seated := f.Kind == "arm-pad" || f.Kind == "reclined"
	padWhy := "the arm-pad posture rests on a pad"
	if f.Kind == "reclined" {
		padWhy = "the upper arm stops on a pad"
	}
	rules := append(f.Asked.relations(),
		has("pad", g.Pad != nil, seated, padWhy),
		has("seat", g.Seat != nil, seated, "the user sits"),
		has("back", g.Back != nil, f.Kind == "reclined", "the reclined posture leans on a back pad"),
		has("base", g.Base != nil, seated, "a station stands on its base"),
		has("cam", g.Cam != nil, f.Resistance.Drive == "cam", "resistance.drive is cam"),
		has("linkage", g.Linkage != nil, f.Resistance.Drive == "linkage", "resistance.drive is linkage"),
		has("lever", g.Lever != nil, f.Resistance.Drive == "lever", "resistance.drive is lever"),
	)
	if p := g.Pad; p != nil {
		rules = append(rules, relation{"geometry.pad.near", []string{"geometry.pad.far"}, p.Near < p.Far,
			fmt.Sprintf("%s is not below far, %s", Length.format(p.Near), Length.format(p.Far)), "near < far, both from the pivot along the pad"})
	}
	if c := g.Cam; c != nil {
		rules = append(rules, c.relations(f.Stock.Transmission)...)
	}
	if c := g.Counterweight; c != nil {
		rules = append(rules, weighs("counterweight", c.Mass))
	}
	if e := g.Eccentric; e != nil {
		rules = append(rules, weighs("eccentric", e.Mass))
	}
	return rules
}

// weighs is the rule that a weight of the frame is one.
func weighs(key string, mass float64) relation {
	return relation{"geometry." + key + ".mass", nil, mass > 0, "a weight of " + Mass.format(mass) + " is none",
		"leave geometry." + key + " out, or write its mass"}
}

// fewestTeeth is of the smallest sprocket of ISO 606 (M). Pulleys are larger.
const fewestTeeth = 9

// relations are the rules of what drives a cam's own shaft.
func (c *Cam) relations(transmission string) []relation {
	const arm, driven, pitches = "geometry.cam.arm_teeth", "geometry.cam.driven_teeth", "geometry.cam.pitches"
	onShaft := c.ArmTeeth == 0
	teeth := func(path string, n int) relation {
		return relation{path, nil, n == 0 || n >= fewestTeeth, fmt.Sprintf("a wheel of %d teeth cannot be had", n), fmt.Sprintf("wheels have %d teeth or more; 0 for no wheel", fewestTeeth)}
	}
	rules := []relation{teeth(arm, c.ArmTeeth), teeth(driven, c.DrivenTeeth)}
	if onShaft {
		const hint = "write arm_teeth, or leave both out for a cam on the arm's own shaft"
		return append(rules,
			relation{driven, []string{arm}, c.DrivenTeeth == 0, "there is no wheel on the arm's shaft to drive this one", hint},
			relation{pitches, []string{arm}, c.Pitches == 0 || c.DrivenTeeth != 0, "there is no wheel on the arm's shaft for a belt or chain", hint})
	}
	rules = append(rules,
		relation{driven, []string{arm}, c.DrivenTeeth > 0, fmt.Sprintf("the wheel of %d teeth on the arm's shaft drives none", c.ArmTeeth), "write the teeth of the wheel on the cam's shaft, or arm_teeth: 0 for a cam on the arm's own shaft"},
		relation{pitches, []string{arm}, c.Pitches > 0, "no belt or chain joins the wheels", "count the pitches of the belt or chain"})
	t, err := stock.TransmissionOf(transmission)
	if err != nil || c.ArmTeeth < fewestTeeth || c.DrivenTeeth < fewestTeeth {
		return rules // told already
	}
	apart, least := math.Hypot(c.CentreX, c.CentreY), (t.WheelDiameter(c.ArmTeeth)+t.WheelDiameter(c.DrivenTeeth))/2
	return append(rules, relation{"geometry.cam.centre_x", []string{"geometry.cam.centre_y", arm, driven, "stock.transmission"}, apart > least,
		fmt.Sprintf("the cam's axis is %s from the arm's, where the wheels' pitch circles touch at %s", FormatQuantity(apart, Length, digitsTold), FormatQuantity(least, Length, digitsTold)),
		"measure centre_x and centre_y from the pivot to the cam's own shaft"})
}
