package draw

import (
	"math"

	"armwright/export/hidden"
	"armwright/export/sheet"
	"armwright/geometry/person"
	"armwright/solver/drive"
	"armwright/solver/seat"
)

// body is a person with thickness in the place found: what is seen of the right side,
// and before it the right arm at the first loaded angle.
func (d *drafter) body(p *seat.Person, c hidden.Camera) []sheet.Entity {
	sizes, pose, _ := seat.Figure(drive.NewMachine(d.geo), p, d.r.Frame.Asked.People.Shoe)
	sin, cos := math.Sincos(d.first)
	forearm, hand := sizes.Forearm(&pose.Arms[0], false, sin, cos)
	arm := []person.Body{forearm, hand}
	var trunk []person.Body
	still := sizes.Bodies(&pose)
	for _, b := range still {
		switch {
		case b.Left:
		case b.Segment == person.UpperArm:
			arm = append(arm, b)
		default:
			trunk = append(trunk, b)
		}
	}
	var out []sheet.Entity
	for _, bodies := range [][]person.Body{trunk, arm} {
		for _, line := range person.Silhouette(bodies, c.See, d.sagitta) {
			e := sheet.Polyline{Role: sheet.Thin}
			for _, v := range line {
				e.Vertices = append(e.Vertices, sheet.Vertex{Vec: v})
			}
			out = append(out, e)
		}
	}
	return out
}
