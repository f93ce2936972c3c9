package solid

import (
	"encoding/json"
	"io"
	"math"

	"armwright/geometry/assembly"
	"armwright/geometry/solid"
	"armwright/specs"
)

// alloyLimit is the density, kg/mm³, below which a made part is no steel.
const alloyLimit = 5e-6

// Parts are those of an assembly in a pose.
func Parts(a *assembly.Assembly, pose assembly.Pose) []Part {
	places := a.At(pose, nil)
	out := make([]Part, len(a.Parts))
	for i := range a.Parts {
		p := &a.Parts[i]
		out[i] = Part{ID: p.ID, Title: p.Title, Solid: p.Solid.(Body), At: a.Place(i, places), Colour: colour(p)}
	}
	return out
}

// colour is that of what a part is made of, as workshops paint and trim it: own
// choice.
func colour(p *assembly.Part) Colour {
	switch {
	case p.Is(assembly.Soft), p.Stock.Form == assembly.Foam:
		return Colour{0.22, 0.23, 0.26}
	case p.Stock.Form == assembly.Board:
		return Colour{0.78, 0.66, 0.48}
	case p.Stock.Form == assembly.Bought:
		return Colour{0.46, 0.52, 0.58}
	case p.Density > 0 && p.Density < alloyLimit:
		return Colour{0.80, 0.81, 0.82}
	}
	return Colour{0.62, 0.64, 0.67}
}

// Schema names the format of model/assembly.json.
const Schema = "armwright/assembly/1"

// The list as the file has it: lengths mm, masses kg, densities kg/m³.
type (
	listed struct {
		Schema   string       `json:"schema"`
		Notice   string       `json:"notice"`
		Parts    []listedPart `json:"parts"`
		Joints   []listedJoin `json:"joints"`
		Groups   []listedSet  `json:"groups"`
		Flexible []string     `json:"flexible"`

		Weldments []listedWeldment `json:"weldments"`
	}
	listedPart struct {
		ID      string      `json:"id"`
		Item    string      `json:"item"`
		Title   string      `json:"title"`
		Side    string      `json:"side"`
		Stock   listedStock `json:"stock"`
		Mass    number      `json:"mass"`
		Density *number     `json:"density"`
		Group   string      `json:"group"`
		Centre  [3]number   `json:"centre"`
		Place   listedPlace `json:"place"` // of the own frame, arms at the first loaded angle
		Box     [2]vector   `json:"box"`   // low and high corner in the own frame
	}
	listedPlace struct {
		Origin vector `json:"origin"`
		X      vector `json:"x"`
		Y      vector `json:"y"`
		Z      vector `json:"z"`
	}
	vector      [3]number
	listedStock struct {
		Form   string    `json:"form"`
		Name   string    `json:"name,omitempty"`
		Grade  string    `json:"grade,omitempty"`
		Size   [3]number `json:"size"`
		Length number    `json:"length,omitempty"`
	}
	listedJoin struct {
		Kind   string        `json:"kind"`
		Parts  [2]string     `json:"parts"`
		At     [3]number     `json:"at"`
		Detail *listedDetail `json:"detail"`
	}
	listedDetail struct {
		Throat   number   `json:"throat,omitempty"`
		Run      number   `json:"run,omitempty"`
		Thread   number   `json:"thread,omitempty"`
		Count    int      `json:"count,omitempty"`
		Length   number   `json:"length,omitempty"`
		Diameter number   `json:"diameter,omitempty"`
		Class    string   `json:"class,omitempty"`
		Pitch    number   `json:"pitch,omitempty"`
		Steps    int      `json:"steps,omitempty"`
		Angles   []number `json:"angles,omitempty"`
	}
	listedSet struct {
		ID     string `json:"id"`
		On     string `json:"on,omitempty"`
		Motion string `json:"motion"`
	}
)

// number is written to four decimals.
type number float64

// MarshalJSON implements json.Marshaler.
func (x number) MarshalJSON() ([]byte, error) {
	return json.Marshal(math.Round(float64(x)*1e4)/1e4 + 0) // -0 becomes 0
}

// WriteList writes an assembly's parts, joints, groups and weldments as JSON, angles in
// degrees.
func WriteList(w io.Writer, a *assembly.Assembly, notice string) error {
	out := listed{Schema: Schema, Notice: notice, Parts: []listedPart{}, Joints: []listedJoin{}, Groups: []listedSet{}, Flexible: []string{}}
	for i := range a.Parts {
		p := &a.Parts[i]
		v := listedPart{
			ID: p.ID, Item: p.Item, Title: p.Title, Side: p.Side.String(), Mass: number(p.Mass), Group: a.Groups[p.Group].ID,
			Stock:  listedStock{Form: p.Stock.Form.String(), Name: p.Stock.Name, Grade: p.Stock.Grade, Length: number(p.Stock.Length)},
			Centre: [3]number{number(p.Centre.X), number(p.Centre.Y), number(p.Centre.Z)},
		}
		low, high := solid.Bounds(p.Solid, solid.World())
		v.Place, v.Box = axesOf(p.Place), [2]vector{components(low), components(high)}
		for k, x := range p.Stock.Size {
			v.Stock.Size[k] = number(x)
		}
		if p.Density > 0 {
			d := number(p.Density * 1e9)
			v.Density = &d
		}
		out.Parts = append(out.Parts, v)
	}
	for i := range a.Joints {
		j := &a.Joints[i]
		d := &j.Detail
		v := &listedDetail{Throat: number(d.Throat), Run: number(d.Run), Thread: number(d.Thread), Count: d.Count, Length: number(d.Length),
			Diameter: number(d.Diameter), Class: d.Class, Pitch: number(d.Pitch), Steps: d.Steps}
		for _, t := range d.Angles {
			v.Angles = append(v.Angles, number(t/specs.Degree))
		}
		out.Joints = append(out.Joints, listedJoin{Kind: j.Kind.String(), Parts: [2]string{a.Parts[j.A].ID, a.Parts[j.B].ID},
			At: [3]number{number(j.At.X), number(j.At.Y), number(j.At.Z)}, Detail: v})
	}
	for i := range a.Groups {
		g := &a.Groups[i]
		v := listedSet{ID: g.ID, Motion: motion(g.Motion)}
		if g.Parent >= 0 {
			v.On = a.Groups[g.Parent].ID
		}
		out.Groups = append(out.Groups, v)
	}
	for i := range a.Flexible {
		out.Flexible = append(out.Flexible, a.Flexible[i].ID)
	}
	out.Weldments = weldments(a)
	e := json.NewEncoder(w)
	e.SetIndent("", " ")
	e.SetEscapeHTML(false)
	return e.Encode(out)
}

// motion is what moves a group, in a word.
func motion(m assembly.Motion) string {
	switch m.(type) {
	case nil:
		return "still"
	case *assembly.Turn:
		return "turns with the arm"
	case *assembly.Steps:
		return "slides in steps"
	case *assembly.Positions:
		return "swivels to positions"
	case *assembly.Lift:
		return "rises with the load"
	}
	return "moves with the arm"
}
