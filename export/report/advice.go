package report

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"armwright/solver"
	"armwright/solver/judge"
	"armwright/specs"
)

func conflicts(r *solver.Result, u specs.Units) []Conflict {
	list := []Conflict{}
	for _, c := range r.Conflict {
		q, ok := r.Requirement(c.ID)
		if !ok {
			list = append(list, Conflict{ID: c.ID, Needed: c.Needed, Proved: c.Proved, Advice: demandAdvice(r, c.ID, u)})
			continue
		}
		list = append(list, Conflict{
			ID: c.ID, Proved: c.Proved, Share: share(c.Share), Needed: c.Needed, Unit: q.Unit.Symbol(),
			Excess: outside(c.Excess, q.Unit), Repair: outside(c.Repair, q.Unit),
			Advice: advice(q, c.Excess, c.Repair, u),
		})
	}
	return list
}

// remedy says what giving way means for a requirement, in the words of a
// designer, and which keys of the brief do it. The verbs are followed by the
// new limit and the old one.
type remedy struct{ words, keys string }

func remedyFor(id string) remedy {
	key := "limits." + strings.ReplaceAll(id, "-", "_")
	switch id {
	case "axis-offset":
		return remedy{"let the elbow sit farther off the machine axis: allow", key}
	case "axis-tilt":
		return remedy{"let the elbow axis tilt more, or allow more axis positions: allow", key + " or posture.axis_positions"}
	case "hand-path":
		return remedy{"lower the hand-path demand: allow", key}
	case "abduction":
		return remedy{"let the upper arm spread more: allow", key}
	case "lean":
		return remedy{"let the trunk lean more: allow", "posture.lean"}
	case "arm-slope":
		return remedy{"widen the range of the upper arm's slope: allow", "posture.arm_angle"}
	case "seat-range":
		return remedy{"give the seat more travel, or trunk and upper arm a wider range", "posture.seat_positions, posture.seat_pitch, posture.lean or posture.arm_angle"}
	case "hip-on-seat":
		return remedy{"let the hip come nearer the seat's edge: accept", key}
	case "belly-gap":
		return remedy{"let the trunk come nearer to pad and post: accept", key}
	case "knee-gap":
		return remedy{"let the hand come nearer to the thigh: accept", key}
	case "foot-gap":
		return remedy{"let the feet hang or lift farther from the foot plate, or set its steps closer: allow", key + " or posture.foot_pitch"}
	case "handle-reach":
		return remedy{"let the grip lie farther from a handle position, or set them closer: allow", key + " or posture.handle_pitch"}
	case "grip-rotation":
		return remedy{"let the forearm turn farther, or ask for less rotation: allow", key + " or posture.grip_rotation"}
	case "torque-match":
		return remedy{"let the torque follow the curve less closely, or allow a larger cam or drive ratio: allow", key + ", resistance.greatest_arm or resistance.ratio"}
	case "cam-bend":
		return remedy{"take a thinner cable or the least tread ratio: a cable that bears", "stock.cable or stock.bend_rule"}
	case "cable-factor":
		return remedy{"take a stronger cable, or lower the factor: accept", "stock.cable or " + key}
	case "stack-travel":
		return remedy{"give the stack more travel: allow", key}
	case "fleet-angle":
		return remedy{"let the cable run in at a larger angle: allow", key}
	case "tilt-empty", "tilt-occupied":
		return remedy{"make room for wider feet, or accept an earlier tilt: accept", "space.length, space.width or " + key}
	case "seat-load":
		return remedy{"let less weight rest on the seat, or lower the load: accept", key + " or resistance.load.heavy"}
	case "tilt-entry":
		return remedy{"set the feet wider, anchor the station, or accept less tilt left while somebody gets on: accept", key + ", space.anchored or space.push"}
	case "entry-gap":
		return remedy{"make more room, guard the place, or accept a narrower gap for hand or foot: accept", key}
	case "body-gap":
		return remedy{"let the arm come nearer to the body: accept", key}
	case "crush-gap":
		return remedy{"guard the place, or accept a smaller gap: accept", key}
	case "member-stress":
		return remedy{"take a larger tube or a better steel, or allow more of the yield strength: allow", "stock.member, stock.steel or " + key}
	case "member-deflection":
		return remedy{"take a larger tube, or allow more deflection: allow", "stock.member or " + key}
	case "bearing-static":
		return remedy{"take a larger bearing, or lower the ratio: accept", "stock.bearing or " + key}
	case "footprint-length":
		return remedy{"make more room front to back: give it", "space.length"}
	case "footprint-width":
		return remedy{"make more room side to side: give it", "space.width"}
	case "height":
		return remedy{"make more room above: give it", "space.height"}
	}
	return remedy{"move the limit of " + id + ": allow", key}
}

// advice says how to mend one requirement of a conflict that fails by excess
// and whose limit must move by repair, inside units. The proposed limit is
// rounded to the lenient side, so that it is enough.
func advice(q judge.Requirement, excess, repair float64, u specs.Units) string {
	m := remedyFor(q.ID)
	switch {
	case repair <= 0 && excess > 0:
		return "leave its limit alone: it holds once the others give way"
	case repair <= 0:
		return "leave its limit alone: it holds, but only just, and pulls against the others"
	}
	unit := q.Unit.Symbol()
	limit, by := u.In(outside(q.Limit, q.Unit), unit), u.In(outside(repair, q.Unit), unit)
	if q.ID == "seat-range" { // has no limit of its own to move
		return fmt.Sprintf("%s: %s are missing (%s)", m.words, quantity(lenient(by, false), u.Symbol(unit)), m.keys)
	}
	moved := lenient(limit+by, false)
	if q.AtLeast {
		moved = lenient(limit-by, true)
	}
	return fmt.Sprintf("%s %s instead of %s (%s)", m.words, quantity(moved, u.Symbol(unit)), quantity(round(limit, decimals), u.Symbol(unit)), m.keys)
}

// lenient rounds to tenths, or hundredths of small numbers, down or up.
func lenient(x float64, down bool) float64 {
	p := 10.0
	if math.Abs(x) < 2 {
		p = 100
	}
	const noise = 1e-6
	if down {
		return round(math.Floor(x*p+noise)/p, decimals)
	}
	return round(math.Ceil(x*p-noise)/p, decimals)
}

// quantity writes a value with as many decimals as it has.
func quantity(x float64, unit string) string {
	s := strconv.FormatFloat(x, 'f', -1, 64)
	if unit != "" {
		s += " " + unit
	}
	return s
}
