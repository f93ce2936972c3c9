package measure

import (
	"encoding/json"
	"io/fs"
)

// assemblyPath is the list of parts and joints within the folder.
const assemblyPath = "model/assembly.json"

// listedAssembly is what is compared of it.
type listedAssembly struct {
	Parts []struct {
		ID, Item, Title string
		Mass            float64
		Place           listedPlace
		Box             [2][3]float64 // corners in the own frame
	} `json:"parts"`
	Flexible  []string         `json:"flexible"`
	Joints    []listedJoint    `json:"joints"`
	Weldments []listedWeldment `json:"weldments"`
}

func readAssembly(fsys fs.FS) (*listedAssembly, error) {
	data, err := read(fsys, assemblyPath)
	if err != nil {
		return nil, err
	}
	a := new(listedAssembly)
	if err := json.Unmarshal(data, a); err != nil {
		return nil, &FileError{Path: assemblyPath, Line: 1, Column: 1, Err: err}
	}
	return a, nil
}

// What is compared of the weldments in the list of the assembly.
type (
	listedPlace struct{ Origin, X, Y, Z [3]float64 }
	listedJoint struct {
		Kind   string
		Parts  [2]string
		Detail struct{ Run float64 }
	}
	listedWeldment struct {
		Sheet   int
		Frame   listedPlace
		Members []struct {
			Part             string
			At               [3]float64
			Square           bool
			Plan, Rise, Turn float64
		}
		Welds []struct {
			Parts [2]string
			Run   float64
		}
	}
)

// point takes a place of the own frame to the outer one.
func (p *listedPlace) point(q [3]float64) (out [3]float64) {
	for k := range out {
		out[k] = p.Origin[k] + q[0]*p.X[k] + q[1]*p.Y[k] + q[2]*p.Z[k]
	}
	return out
}

// own takes a place of the outer frame to the own one.
func (p *listedPlace) own(q [3]float64) (out [3]float64) {
	for i, axis := range [3][3]float64{p.X, p.Y, p.Z} {
		for k := range axis {
			out[i] += (q[k] - p.Origin[k]) * axis[k]
		}
	}
	return out
}
