package solid

import (
	"math"
	"strings"

	"armwright/geometry/assembly"
	"armwright/geometry/person"
	"armwright/geometry/solid"
)

// skin is the colour of a person's bodies: own choice.
var skin = Colour{R: 0.85, G: 0.68, B: 0.56}

// Person are the bodies of a seated person as parts, named person/..., with both arms
// at a flexion, rad.
func Person(sizes *person.Sizes, pose *person.Pose, flexion float64) ([]Part, error) {
	still := sizes.Bodies(pose)
	all := still[:]
	sin, cos := math.Sincos(flexion)
	for i := range pose.Arms {
		forearm, hand := sizes.Forearm(&pose.Arms[i], i == 1, sin, cos)
		all = append(all, forearm, hand)
	}
	out := make([]Part, len(all))
	for i := range all {
		b := &all[i]
		round, err := NewRound(b.Balls()...)
		if err != nil {
			return nil, err
		}
		id := "person/" + strings.ReplaceAll(b.Segment.String(), " ", "-")
		if b.Segment.Paired() {
			side := assembly.Right
			if b.Left {
				side = assembly.Left
			}
			id += "-" + side.String()
		}
		out[i] = Part{ID: id, Title: b.Segment.String(), Solid: round, At: solid.World(), Colour: skin}
	}
	return out, nil
}
