package require

import (
	"strings"

	"armwright/specs"
)

// Unit is how a requirement's value is measured inside.
type Unit int

const (
	Length Unit = iota // mm
	Angle              // rad
	Share              // fraction
	Number             // plain ratio
)

// Subject is what a requirement is about.
type Subject int

const (
	Person     Subject = iota // how a person sits in the station
	Resistance                // how the drive feels and runs
	Room                      // what room the station takes and leaves, and how it stands
	Material                  // what it is made of
)

// Stations are those that a requirement is asked of.
type Stations int

const (
	WithSeat      Stations = iota // all but a bench
	WithArmPads                   // arms before the trunk, on pads
	Reclined                      // arms behind it
	WithFootPlate                 // asked for, and no bench
	WithCam                       // benches too
	Every
)

// Kind is one requirement of the contract: a line of the table.
type Kind struct {
	ID      string
	Asks    string
	Limit   string // where a brief holds the limit; "" where that follows from something else
	Unit    Unit
	AtLeast bool    // the value must be at least the limit; otherwise at most
	Within  bool    // the limit is the upper end of a range that the value must lie in
	Scale   float64 // one unit that matters, inside units
	About   Subject
	Where   Stations
	Drive   bool   // decided by the drive alone
	Kept    bool   // the usual limit is what safety or matter asks: nobody is advised to go past it
	Remedy  string // what giving way means, in the words of a designer; a verb that the new limit follows
	Keys    string // of the brief that do it; "" for the limit's own
	Source  string

	// DependsOn are the keys of what a brief may leave to the tool that the requirement
	// depends on.
	DependsOn []string
}

// AskedOf reports whether a station of what is asked is held to the requirement.
func (k *Kind) AskedOf(a *specs.Asked) bool {
	bench := a.Kind == "cam-study"
	switch k.Where {
	case WithArmPads:
		return a.Kind == "arm-pad"
	case Reclined:
		return a.Kind == "reclined"
	case WithFootPlate:
		return !bench && a.Posture.FootPlate != "none"
	case WithCam:
		return a.Resistance.Drive == "cam"
	case Every:
		return true
	}
	return !bench
}

// Levers are the keys of a brief that mend the requirement.
func (k *Kind) Levers() string {
	if k.Keys != "" {
		return k.Keys
	}
	return k.Key()
}

// Key is the key of a brief that holds the limit, a range as a whole; "" where no key
// holds it alone.
func (k *Kind) Key() string { return strings.TrimSuffix(k.Limit, ".to") }

// Asked is the limit that a brief sets, inside units, 0 where it follows from something
// else.
func (k *Kind) Asked(a *specs.Asked) float64 {
	if k.Limit == "" {
		return 0
	}
	b := specs.Brief{Asked: *a}
	s, ok := b.Span(k.Limit)
	if !ok {
		panic("require: no limit at " + k.Limit)
	}
	return s.Value
}

// Meets says whether a margin, inside unit, counts as met.
func (k *Kind) Meets(margin float64) bool { return margin/k.Scale >= Meets }

// Meets is the margin, in units that matter, down to which a requirement
// counts as met: the rounding of a frame file moves values by less.
const Meets = -1e-6

// Kinds lists every requirement in the order of reports.
func Kinds() []Kind {
	return []Kind{
		{ID: "axis-offset", Asks: "elbow axis on the machine axis", Limit: "limits.axis_offset", Unit: Length, Scale: 1,
			Remedy: "let the elbow sit farther off the machine axis: allow",
			Source: "judgement: adjust to 10 mm, warn above 15 mm; bone-fixed hinges 5 mm off cost about fourfold resistance (textbook, cadaver study)"},
		{ID: "axis-tilt", Asks: "elbow axis along the machine axis", Limit: "limits.axis_tilt", Unit: Angle, Scale: 1 * specs.Degree,
			Remedy: "let the elbow axis tilt more, or allow more axis positions: allow", Keys: "limits.axis_tilt or posture.axis_positions",
			Source: "judgement: adjust to 3 deg, warn above 5 deg; an axis wanders 2.6-5.7 deg about its mean (seven cadaver elbows)"},
		{ID: "hand-path", Asks: "hand and handle on one path", Limit: "limits.hand_path", Unit: Length, Scale: 1,
			Remedy: "lower the hand-path demand: allow",
			Source: "derived: 2.33 mm for each degree of carrying angle at 325 mm"},
		{ID: "abduction", Asks: "upper arm not spread sideways", Limit: "limits.abduction", Unit: Angle, Scale: 1 * specs.Degree,
			Remedy: "let the upper arm spread more: allow",
			Source: "judgement"},
		{ID: "lean", Asks: "trunk near upright", Limit: "posture.lean.to", Unit: Angle, Scale: 1 * specs.Degree, Where: WithArmPads,
			Remedy:    "let the trunk lean more: allow",
			Source:    "judgement",
			DependsOn: []string{"posture.seat_positions", "posture.seat_pitch"}},
		{ID: "arm-slope", Asks: "upper arm hanging within its range", Limit: "posture.arm_angle.to", Unit: Angle, Within: true, Scale: 1 * specs.Degree, Where: Reclined,
			Remedy:    "widen the range of the upper arm's slope: allow",
			Source:    "judgement",
			DependsOn: []string{"posture.seat_positions", "posture.seat_pitch"}},
		{ID: "seat-range", Asks: "a seat position that brings the shoulder to the pad", Unit: Length, AtLeast: true, Scale: 5,
			Remedy: "give the seat more travel, or trunk and upper arm a wider range", Keys: "posture.seat_positions, posture.seat_pitch, posture.lean or posture.arm_angle",
			Source:    "placing of each person",
			DependsOn: []string{"posture.seat_positions", "posture.seat_pitch"}},
		{ID: "hip-on-seat", Asks: "hip inside the seat", Limit: "limits.hip_on_seat", Unit: Length, AtLeast: true, Scale: 5,
			Remedy: "let the hip come nearer the seat's edge: accept",
			Source: "judgement"},
		{ID: "pad-cover", Asks: "upper arm on its pad over its whole width", Limit: "limits.pad_cover", Unit: Length, AtLeast: true, Scale: 5, Where: WithArmPads,
			Remedy: "let the upper arm reach past the side of its pad: accept",
			Source: "derived from girth and abduction; no published threshold"},
		{ID: "belly-gap", Asks: "trunk clear of pad and post", Limit: "limits.belly_gap", Unit: Length, AtLeast: true, Scale: 5, Where: WithArmPads,
			Remedy: "let the trunk come nearer to pad and post: accept",
			Source: "judgement"},
		{ID: "knee-gap", Asks: "hand clear of thigh and knee", Limit: "limits.knee_gap", Unit: Length, AtLeast: true, Scale: 5,
			Remedy: "let the hand come nearer to the thigh: accept",
			Source: "judgement"},
		{ID: "foot-gap", Asks: "foot on the floor or the foot plate", Limit: "limits.foot_gap", Unit: Length, Scale: 5, Where: WithFootPlate,
			Remedy: "let the feet hang or lift farther from the foot plate, or set its steps closer: allow", Keys: "limits.foot_gap or posture.foot_pitch",
			Source: "judgement: half a foot plate's usual step more than lets the heel drop"},
		{ID: "handle-reach", Asks: "a handle position at the grip", Limit: "limits.handle_reach", Unit: Length, Scale: 1,
			Remedy: "let the grip lie farther from a handle position, or set them closer: allow", Keys: "limits.handle_reach or posture.handle_pitch",
			Source:    "half the handle pitch",
			DependsOn: []string{"posture.handle_pitch"}},
		{ID: "grip-rotation", Asks: "forearm turned no further than it goes", Limit: "limits.grip_rotation", Unit: Angle, Scale: 1 * specs.Degree,
			Remedy: "let the forearm turn farther, or ask for less rotation: allow", Keys: "limits.grip_rotation or posture.grip_rotation",
			Source: "active supination 87 deg, n = 352 (Zwerus et al. 2019)"},
		{ID: "torque-match", Asks: "torque follows the strength curve", Limit: "limits.torque_match", Unit: Share, Scale: 0.01, Drive: true, About: Resistance, Where: Every,
			Remedy: "let the torque follow the curve less closely, or allow a larger cam or drive ratio: allow", Keys: "limits.torque_match, resistance.greatest_arm or resistance.ratio",
			Source:    "rms over the loaded range, share of the peak; no published threshold",
			DependsOn: []string{"stock.cable", "resistance.sheave_radius"}},
		{ID: "torque-swing", Asks: "torque much the same in every axis position", Limit: "limits.torque_swing", Unit: Share, Scale: 0.01, Drive: true, About: Resistance,
			Remedy: "let the torque of the outer axis positions follow the curve less closely, or ask for fewer of them: allow", Keys: "limits.torque_swing or posture.axis_positions",
			Source:    "rms beyond that of the middle position, share of the peak; no published threshold",
			DependsOn: []string{"resistance.sheave_radius", "resistance.side"}},
		{ID: "torque-range", Asks: "torque from weak to strong as asked", Unit: Share, Scale: 0.01, Drive: true, About: Resistance, Where: Every,
			Remedy: "ask for a narrower range of torque, or give lighter and heavier loads or a larger moment arm: allow", Keys: "resistance.torque, resistance.load.light, resistance.load.heavy or resistance.greatest_arm",
			Source:    "brief: the light load's torque over the least asked for, the most asked for over the heavy load's",
			DependsOn: []string{"stock.cable", "resistance.sheave_radius"}},
		{ID: "cam-bend", Asks: "cam no tighter than the cable bears", Unit: Length, AtLeast: true, Scale: 1, Drive: true, About: Resistance, Where: WithCam,
			Remedy: "take a thinner cable or the least tread ratio: a cable that bears", Keys: "stock.cable or stock.bend_rule",
			Source:    "tread ratio D/d of the cable's construction, cable makers' tables",
			DependsOn: []string{"stock.cable", "resistance.sheave_radius"}},
		{ID: "cable-factor", Asks: "cable strong enough", Limit: "limits.cable_factor", Unit: Number, AtLeast: true, Scale: 0.5, Drive: true, Kept: true, About: Resistance, Where: WithCam,
			Remedy: "take a stronger cable, or lower the factor: accept", Keys: "stock.cable or limits.cable_factor",
			Source:    "factor 6 on the greatest tension (EN 957-1 5.3.5, from memory)",
			DependsOn: []string{"stock.cable", "resistance.sheave_radius"}},
		{ID: "stack-travel", Asks: "stack stays in its tower", Limit: "limits.stack_travel", Unit: Length, Scale: 10, Drive: true, About: Resistance, Where: WithCam,
			Remedy: "give the stack more travel: allow",
			Source: "space"},
		{ID: "fleet-angle", Asks: "cable straight into its sheaves", Limit: "limits.fleet_angle", Unit: Angle, Scale: 0.25 * specs.Degree, About: Resistance, Where: WithCam,
			Remedy: "let the cable run in at a larger angle: allow",
			Source: "1.5 deg target, 4 deg hard limit (rope makers' tables)"},
		{ID: "tilt-empty", Asks: "empty station does not tip", Limit: "limits.tilt_empty", Unit: Angle, AtLeast: true, Scale: 1 * specs.Degree, Kept: true, About: Room,
			Remedy: "make room for wider feet, or accept an earlier tilt: accept", Keys: "space.length, space.width or limits.tilt_empty",
			Source: "10 deg plane (ASTM F2571-15 7.1)"},
		{ID: "tilt-occupied", Asks: "occupied station does not tip", Limit: "limits.tilt_occupied", Unit: Angle, AtLeast: true, Scale: 1 * specs.Degree, Kept: true, About: Room,
			Remedy: "make room for wider feet, or accept an earlier tilt: accept", Keys: "space.length, space.width or limits.tilt_occupied",
			Source: "10 deg plane with the heaviest user, at least 100 kg (ASTM F2571-15 7.1)"},
		{ID: "tilt-entry", Asks: "station stands while somebody gets on or pushes", Limit: "limits.tilt_entry", Unit: Angle, AtLeast: true, Scale: 1 * specs.Degree, Kept: true, About: Room,
			Remedy: "set the feet wider, anchor the station, or accept less tilt left while somebody gets on: accept", Keys: "limits.tilt_entry, space.anchored or space.push",
			Source: "derived: moments about the edge; weight 60 mm inside the seat's edge with 20 N outward (EN 1022:2018)"},
		{ID: "seat-load", Asks: "body weight stays on the seat", Limit: "limits.seat_load", Unit: Share, AtLeast: true, Scale: 0.02,
			Remedy: "let less weight rest on the seat, or lower the load: accept", Keys: "limits.seat_load or resistance.load.heavy",
			Source: "judgement; equilibrium of the seated person"},
		{ID: "contact", Asks: "a seated state that can exist", Limit: "limits.contact", Unit: Share, AtLeast: true, Scale: 0.05, Kept: true,
			Remedy: "let less of a person's load be held: accept", Keys: "limits.contact or resistance.load.heavy",
			Source: "derived: least forces of a chain of segments on contacts that push; friction at most 40 % of the push (judgement)"},
		{ID: "crush-gap", Asks: "no crush gap between moving and fixed parts", Limit: "limits.crush_gap", Unit: Length, AtLeast: true, Scale: 5, Kept: true, About: Room,
			Remedy: "guard the place, or accept a smaller gap: accept",
			Source: "ISO 13854:2017, finger 25 mm, hand 100 mm"},
		{ID: "entry-gap", Asks: "room for a hand or foot where one can enter", Limit: "limits.entry_gap", Unit: Share, AtLeast: true, Scale: 0.05, Kept: true, About: Room,
			Remedy: "make more room, guard the place, or accept a narrower gap for hand or foot: accept",
			Source: "ISO 13854:2017: hand 100 mm at the grip, foot 120 mm at the floor"},
		{ID: "body-gap", Asks: "moving arm clear of trunk, head and thighs", Limit: "limits.body_gap", Unit: Length, AtLeast: true, Scale: 5,
			Remedy: "let the arm come nearer to the body: accept",
			Source: "judgement; solids of the boundary persons"},
		{ID: "frame-clear", Asks: "every part with room to be made, held and moved", Limit: "limits.frame_clear", Unit: Length, AtLeast: true, Scale: 5, Kept: true, About: Room,
			Remedy: "give the parts less room: accept", Keys: "space, posture or stock",
			Source: "derived from the sizes of the parts: what is needed so that they can be joined and do not meet"},
		{ID: "body-frame", Asks: "legs, trunk and head clear of all that stands still", Limit: "limits.body_frame", Unit: Length, AtLeast: true, Scale: 2.5, Kept: true, About: Room,
			Remedy: "let a body come nearer to the frame: accept",
			Source: "placing of each person; a body that sinks into a part is a state that cannot exist"},
		{ID: "member-stress", Asks: "parts stay elastic under factored load", Limit: "limits.member_stress", Unit: Share, Scale: 0.05, Kept: true, About: Material,
			Remedy: "take a larger tube or shaft or a better steel, or allow more of the yield strength: allow", Keys: "stock.member, stock.shaft, stock.steel or limits.member_stress",
			Source:    "2.5 times the load (EN 957-2 5.2, from memory); yield of EN 10219",
			DependsOn: []string{"stock.member"}},
		{ID: "member-deflection", Asks: "tubes stay stiff", Limit: "limits.member_deflection", Unit: Share, Scale: 0.001, About: Material,
			Remedy: "take a larger tube, or allow more deflection: allow", Keys: "stock.member or limits.member_deflection",
			Source:    "judgement: 1/150 of the free length",
			DependsOn: []string{"stock.member"}},
		{ID: "bearing-static", Asks: "pivot bearings strong enough", Limit: "limits.bearing_static", Unit: Number, AtLeast: true, Scale: 0.5, Kept: true, About: Material,
			Remedy: "take a larger bearing, or lower the ratio: accept", Keys: "stock.bearing or limits.bearing_static",
			Source: "static ratio 2 for oscillating pivots (ISO 76, from memory)"},
		{ID: "footprint-length", Asks: "front to back within the space", Limit: "space.length", Unit: Length, Scale: 10, About: Room,
			Remedy: "make more room front to back: give it",
			Source: "brief"},
		{ID: "footprint-width", Asks: "side to side within the space", Limit: "space.width", Unit: Length, Scale: 10, About: Room,
			Remedy: "make more room side to side: give it",
			Source: "brief"},
		{ID: "height", Asks: "top within the space", Limit: "space.height", Unit: Length, Scale: 10, About: Room,
			Remedy: "make more room above: give it",
			Source: "brief"},
		{ID: "coverage", Asks: "enough of the users fit", Limit: "people.coverage", Unit: Share, AtLeast: true, Scale: 0.01,
			Remedy: "let fewer of the users fit, or give their settings more room: accept", Keys: "people.coverage, posture.axis_positions or posture.seat_positions",
			Source: "share of random persons whom the search has not seen; 95 % score interval (Wilson 1927)"},
	}
}
