package viewer

import (
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"hash"
	"math"

	"armwright/export/solid"
	"armwright/geometry/contour"
	body "armwright/geometry/solid"

	"gonum.org/v1/gonum/spatial/r3"
)

// Sagitta is how far, mm, triangles stand off round faces at most: less than a
// screen shows of a whole station.
const Sagitta = 0.8

// Mesh is a body in triangles, packed. Numbers of one kind stand together, each told
// as the difference from the one before, which compresses well.
type Mesh struct {
	Low       [3]float64 `json:"low"`       // corner of its box, mm
	Step      float64    `json:"step"`      // mm a unit of Points
	Points    []int      `json:"points"`    // all x, all y, all z
	Normals   []int      `json:"normals"`   // 127ths: all x, all y, all z
	Triangles []int      `json:"triangles"` // all first, second and third corners
}

// NewMesh packs a body.
func NewMesh(s body.Solid) (Mesh, error) {
	m, err := solid.Divide(s.(solid.Body), Sagitta)
	if err != nil {
		return Mesh{}, err
	}
	if len(m.Points) > math.MaxUint16 {
		return Mesh{}, &solid.Error{Defect: "it has too many corners to be shown", Hint: "give it fewer holes"}
	}
	low, high := m.Points[0], m.Points[0]
	for _, p := range m.Points {
		low = r3.Vec{X: min(low.X, p.X), Y: min(low.Y, p.Y), Z: min(low.Z, p.Z)}
		high = r3.Vec{X: max(high.X, p.X), Y: max(high.Y, p.Y), Z: max(high.Z, p.Z)}
	}
	out := Mesh{Low: [3]float64{rounded(low.X), rounded(low.Y), rounded(low.Z)}}
	// A round step, so that equal lengths are equal numbers.
	const fine = 0.05
	out.Step = math.Max(fine, math.Ceil(max(high.X-low.X, high.Y-low.Y, high.Z-low.Z)/(math.MaxUint16-1)/fine)*fine)
	for k := range 3 {
		var point, normal int
		for i := range m.Points {
			q := int(math.Max(0, math.Round((at(m.Points[i], k)-out.Low[k])/out.Step)))
			out.Points = append(out.Points, q-point)
			n := int(math.Round(127 * at(m.Normals[i], k)))
			out.Normals = append(out.Normals, n-normal)
			point, normal = q, n
		}
	}
	for k := range 3 {
		last := 0
		for _, t := range m.Triangles {
			out.Triangles = append(out.Triangles, t[k]-last)
			last = t[k]
		}
	}
	return out, nil
}

func at(v r3.Vec, k int) float64 { return [3]float64{v.X, v.Y, v.Z}[k] }

// rounded rounds to a hundredth of a millimetre, less than a screen shows.
func rounded(x float64) float64 { return math.Round(x*100)/100 + 0 }

// key tells bodies of different shape apart, without dividing them.
func key(s body.Solid) string {
	h := digest{sha256.New()}
	switch s := s.(type) {
	case body.Prism:
		h.add(0, s.From.Z, s.From.Tilt.X, s.From.Tilt.Y, s.To.Z, s.To.Tilt.X, s.To.Tilt.Y)
		h.path(s.Profile.Outer())
		for _, p := range s.Profile.Holes() {
			h.path(p)
		}
		for _, b := range s.Bores {
			h.add(3, b.At.X, b.At.Y, b.At.Z, b.Dir.X, b.Dir.Y, b.Dir.Z, b.Diameter, b.Depth)
		}
	case body.Turned:
		h.add(1, s.Bore)
		for _, q := range s.Outline {
			h.add(q.X, q.Y)
		}
	default: // no other has come up; the boundary tells all
		h.add(2)
		shell := s.(solid.Body).Shell()
		for _, v := range shell.Vertices {
			h.add(v.X, v.Y, v.Z)
		}
		for _, f := range shell.Faces {
			h.add(float64(f.Surface.Kind), f.Surface.Radius, f.Surface.Slope)
		}
	}
	return hex.EncodeToString(h.Sum(nil)[:6])
}

type digest struct{ hash.Hash }

// add adds numbers, to a hundredth of a micrometre: less than rounding of what went
// before.
func (d digest) add(all ...float64) {
	var b [8]byte
	for _, x := range all {
		binary.LittleEndian.PutUint64(b[:], uint64(int64(math.Round(x*1e5))))
		d.Write(b[:])
	}
}

func (d digest) path(p contour.Path) {
	d.add(float64(len(p.Vertices)))
	for _, v := range p.Vertices {
		d.add(v.X, v.Y, v.Bulge)
	}
}
