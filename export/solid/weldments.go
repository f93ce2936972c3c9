package solid

import (
	"armwright/export/draw/weldment"
	"armwright/geometry/assembly"
	"armwright/geometry/solid"
	"armwright/specs"

	"gonum.org/v1/gonum/spatial/r3"
)

// The weldments as the file has them: where each is made from, and where its members
// and welds are.
type (
	listedWeldment struct {
		Sheet   int            `json:"sheet"`
		Title   string         `json:"title"`
		Side    string         `json:"side"`
		Frame   listedPlace    `json:"frame"` // of its datum, in the machine frame
		Members []listedMember `json:"members"`
		Welds   []listedWeld   `json:"welds"`
	}
	listedMember struct {
		Part   string `json:"part"`
		At     vector `json:"at"`     // in the weldment's frame: a face, an axis; of one askew its first end
		Square bool   `json:"square"` // along the frame's axes
		Plan   number `json:"plan"`   // of one askew
		Rise   number `json:"rise"`
		Turn   number `json:"turn"`
	}
	listedWeld struct {
		Parts [2]string `json:"parts"`
		Run   number    `json:"run"` // of all runs
	}
)

func weldments(a *assembly.Assembly) []listedWeldment {
	out := []listedWeldment{}
	list := weldment.Find(a)
	for i := range list {
		w := &list[i]
		frame := w.Frame(a)
		v := listedWeldment{Sheet: w.Number, Title: w.Title, Side: w.Side.String(), Frame: axesOf(frame)}
		for _, p := range w.Members(a, frame) {
			v.Members = append(v.Members, listedMember{Part: a.Parts[p.Part].ID, At: vector{number(p.At[0]), number(p.At[1]), number(p.At[2])},
				Square: p.Square, Plan: number(p.Plan / specs.Degree), Rise: number(p.Rise / specs.Degree), Turn: number(p.Turn / specs.Degree)})
		}
		for _, k := range w.Welds {
			j := &a.Joints[k]
			v.Welds = append(v.Welds, listedWeld{[2]string{a.Parts[j.A].ID, a.Parts[j.B].ID}, number(j.Detail.Run)})
		}
		out = append(out, v)
	}
	return out
}

func components(v r3.Vec) vector { return vector{number(v.X), number(v.Y), number(v.Z)} }

func axesOf(p solid.Placement) listedPlace {
	return listedPlace{components(p.Origin), components(p.X), components(p.Y), components(p.Z)}
}
