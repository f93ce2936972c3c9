package station

import "armwright/geometry/person"

// Contacts are where a seated person is meant to touch the station, and may sink into
// what gives way.
func Contacts() []person.Contact {
	const seat, back, pad, grip, foot, chest = "seat-foam", "back-foam", "arm-pad-foam", "grip-rubber", "foot-tread", "chest-pad-foam"
	return []person.Contact{
		{Segment: person.Pelvis, Item: seat}, {Segment: person.Thigh, Item: seat},
		{Segment: person.Pelvis, Item: back}, {Segment: person.Belly, Item: back}, {Segment: person.Chest, Item: back},
		{Segment: person.Neck, Item: back}, {Segment: person.Head, Item: back},
		{Segment: person.Chest, Item: pad}, {Segment: person.Chest, Item: "arm-pad-board"}, // a chest may lean on the pads' upper edges: belly-gap asks by how much it may not
		{Segment: person.Chest, Item: chest}, {Segment: person.Belly, Item: chest},
		{Segment: person.UpperArm, Item: pad}, {Segment: person.Forearm, Item: pad}, // the forearm's end is the elbow
		{Segment: person.Hand, Item: grip}, {Segment: person.Hand, Item: "grip-bar"}, {Segment: person.Hand, Item: "grip-plug"},
		{Segment: person.Forearm, Item: grip}, // and its other end the wrist
		{Segment: person.Forearm, Item: "grip-bar"}, {Segment: person.Forearm, Item: "grip-plug"},
		{Segment: person.Foot, Item: foot},
	}
}
