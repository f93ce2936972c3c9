package solid

import (
	"encoding/binary"
	"encoding/json"
	"io"
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Constants of glTF 2.0.
const (
	glbMagic     = 0x46546C67 // "glTF"
	chunkJSON    = 0x4E4F534A
	chunkBinary  = 0x004E4942
	float32Type  = 5126
	uint16Type   = 5123
	uint32Type   = 5125
	arrayBuffer  = 34962
	indexBuffer  = 34963
	glTFTriangle = 4
)

type (
	gltf struct {
		Asset struct {
			Version   string `json:"version"`
			Generator string `json:"generator"`
			Copyright string `json:"copyright,omitempty"`
		} `json:"asset"`
		Scene       int            `json:"scene"`
		Scenes      []gltfScene    `json:"scenes"`
		Nodes       []gltfNode     `json:"nodes"`
		Meshes      []gltfMesh     `json:"meshes"`
		Materials   []gltfMaterial `json:"materials"`
		Accessors   []gltfAccessor `json:"accessors"`
		BufferViews []gltfView     `json:"bufferViews"`
		Buffers     []gltfBuffer   `json:"buffers"`
	}
	gltfScene struct {
		Name  string `json:"name"`
		Nodes []int  `json:"nodes"`
	}
	gltfNode struct {
		Name        string     `json:"name"`
		Mesh        *int       `json:"mesh,omitempty"`
		Translation *[3]metric `json:"translation,omitempty"`
		Rotation    *[4]metric `json:"rotation,omitempty"`
		Scale       *[3]metric `json:"scale,omitempty"`
		Children    []int      `json:"children,omitempty"`
	}
	gltfMesh struct {
		Name       string          `json:"name"`
		Primitives []gltfPrimitive `json:"primitives"`
	}
	gltfPrimitive struct {
		Attributes struct {
			Normal   int `json:"NORMAL"`
			Position int `json:"POSITION"`
		} `json:"attributes"`
		Indices  int `json:"indices"`
		Material int `json:"material"`
		Mode     int `json:"mode"`
	}
	gltfMaterial struct {
		Colour struct {
			Base      [4]metric `json:"baseColorFactor"`
			Metallic  metric    `json:"metallicFactor"`
			Roughness metric    `json:"roughnessFactor"`
		} `json:"pbrMetallicRoughness"`
	}
	gltfAccessor struct {
		View   int       `json:"bufferView"`
		Offset int       `json:"byteOffset"`
		Type   int       `json:"componentType"`
		Count  int       `json:"count"`
		Shape  string    `json:"type"`
		Min    []float32 `json:"min,omitempty"`
		Max    []float32 `json:"max,omitempty"`
	}
	gltfView struct {
		Buffer int `json:"buffer"`
		Offset int `json:"byteOffset"`
		Length int `json:"byteLength"`
		Stride int `json:"byteStride,omitempty"`
		Target int `json:"target"`
	}
	gltfBuffer struct {
		Length int `json:"byteLength"`
	}
)

// metric is a number written to seven decimals.
type metric float64

// MarshalJSON implements json.Marshaler.
func (x metric) MarshalJSON() ([]byte, error) {
	q := math.Round(float64(x)*1e7) / 1e7
	return json.Marshal(q + 0) // -0 becomes 0
}

// WriteMesh writes the model as a binary glTF 2.0 file: one node a part, named
// by its id, in triangles within Sagitta of the body (those of persons 0.5 mm),
// plane faces flat and round ones smooth. As that format asks, the scene is in metres with y up: a root node
// named after the model turns and scales the parts, which are in mm with z up.
func WriteMesh(w io.Writer, m Model) error {
	if err := m.validate(); err != nil {
		return err
	}
	var g gltf
	g.Asset.Version, g.Asset.Generator, g.Asset.Copyright = "2.0", "armwright", m.Notice
	half := metric(math.Sqrt2 / 2)
	root := gltfNode{Name: m.Name, Rotation: &[4]metric{-half, 0, 0, half}, Scale: &[3]metric{.001, .001, .001}}
	g.Scenes = []gltfScene{{Name: m.Name, Nodes: []int{0}}}
	g.Nodes = []gltfNode{root}
	materials := map[Colour]int{}
	var vertices, indices []byte
	for i, p := range m.Parts {
		mesh, err := Divide(p.Solid, Sagitta)
		if err != nil {
			return &Error{Part: p.ID, Defect: "its faces cannot be divided", Hint: "check the body with Validate: " + err.Error()}
		}
		material, ok := materials[p.Colour]
		if !ok {
			material = len(g.Materials)
			materials[p.Colour] = material
			g.Materials = append(g.Materials, newMaterial(p.Colour))
		}
		part := gltfPrimitive{Indices: len(g.Accessors) + 2, Material: material, Mode: glTFTriangle}
		part.Attributes.Position, part.Attributes.Normal = len(g.Accessors), len(g.Accessors)+1
		low, high := mesh.bounds()
		count := len(mesh.Points)
		index := gltfAccessor{View: 1, Offset: len(indices), Type: uint16Type, Count: 3 * len(mesh.Triangles), Shape: "SCALAR"}
		if count >= math.MaxUint16 {
			index.Type = uint32Type
		}
		g.Accessors = append(g.Accessors,
			gltfAccessor{Offset: len(vertices), Type: float32Type, Count: count, Shape: "VEC3", Min: low[:], Max: high[:]},
			gltfAccessor{Offset: len(vertices) + 12, Type: float32Type, Count: count, Shape: "VEC3"},
			index)
		for k := range mesh.Points {
			vertices = appendVec(appendVec(vertices, mesh.Points[k]), mesh.Normals[k])
		}
		for _, t := range mesh.Triangles {
			for _, v := range t {
				if index.Type == uint16Type {
					indices = binary.LittleEndian.AppendUint16(indices, uint16(v))
				} else {
					indices = binary.LittleEndian.AppendUint32(indices, uint32(v))
				}
			}
		}
		indices = pad(indices, 0)
		g.Meshes = append(g.Meshes, gltfMesh{p.ID, []gltfPrimitive{part}})
		o := p.At.Origin
		rotation := quaternion(p.At.X, p.At.Y, p.At.Z)
		g.Nodes = append(g.Nodes, gltfNode{
			Name: p.ID, Mesh: &i, Translation: &[3]metric{metric(o.X), metric(o.Y), metric(o.Z)}, Rotation: &rotation,
		})
		g.Nodes[0].Children = append(g.Nodes[0].Children, i+1)
	}
	g.BufferViews = []gltfView{
		{Length: len(vertices), Stride: 24, Target: arrayBuffer},
		{Offset: len(vertices), Length: len(indices), Target: indexBuffer},
	}
	g.Buffers = []gltfBuffer{{len(vertices) + len(indices)}}
	return writeChunks(w, &g, vertices, indices)
}

func writeChunks(w io.Writer, g *gltf, vertices, indices []byte) error {
	head, err := json.Marshal(g)
	if err != nil {
		return err
	}
	head = pad(head, ' ')
	size := len(vertices) + len(indices)
	var out []byte
	for _, n := range [...]int{glbMagic, 2, 12 + 8 + len(head) + 8 + size, len(head), chunkJSON} {
		out = binary.LittleEndian.AppendUint32(out, uint32(n))
	}
	out = append(out, head...)
	out = binary.LittleEndian.AppendUint32(out, uint32(size))
	out = binary.LittleEndian.AppendUint32(out, chunkBinary)
	out = append(append(out, vertices...), indices...)
	_, err = w.Write(out)
	return err
}

// pad fills up to a multiple of four bytes.
func pad(b []byte, with byte) []byte {
	for len(b)%4 != 0 {
		b = append(b, with)
	}
	return b
}

func appendVec(b []byte, v r3.Vec) []byte {
	for _, x := range [...]float64{v.X, v.Y, v.Z} {
		b = binary.LittleEndian.AppendUint32(b, math.Float32bits(single(x)))
	}
	return b
}

// single rounds to a millionth, so that rounding of what went before does not
// show, and to what is stored.
func single(x float64) float32 { return float32(math.Round(x*1e6)/1e6 + 0) }

// bounds returns the corners of the box round the points, as they are stored.
func (m *Mesh) bounds() (low, high [3]float32) {
	for i, p := range m.Points {
		for k, x := range [...]float64{p.X, p.Y, p.Z} {
			if s := single(x); i == 0 {
				low[k], high[k] = s, s
			} else {
				low[k], high[k] = min(low[k], s), max(high[k], s)
			}
		}
	}
	return low, high
}

// newMaterial returns a dull material. Colours of the format are linear: the
// transfer function of sRGB (IEC 61966-2-1) taken off.
func newMaterial(c Colour) (m gltfMaterial) {
	linear := func(x float64) metric {
		if x <= .04045 {
			return metric(x / 12.92)
		}
		return metric(math.Pow((x+.055)/1.055, 2.4))
	}
	m.Colour.Base = [4]metric{linear(c.R), linear(c.G), linear(c.B), 1}
	m.Colour.Metallic, m.Colour.Roughness = .1, .7 // judgement: painted steel in daylight
	return m
}

// quaternion returns the turn whose axes are x, y and z, as (x, y, z, w) with w
// not negative (Shepperd 1978, from memory).
func quaternion(x, y, z r3.Vec) [4]metric {
	trace := x.X + y.Y + z.Z
	q := [4]float64{1 + x.X - y.Y - z.Z, 1 - x.X + y.Y - z.Z, 1 - x.X - y.Y + z.Z, 1 + trace} // 4 times the squares
	off := [4][4]float64{
		{0, x.Y + y.X, x.Z + z.X, y.Z - z.Y},
		{x.Y + y.X, 0, y.Z + z.Y, z.X - x.Z},
		{x.Z + z.X, y.Z + z.Y, 0, x.Y - y.X},
		{y.Z - z.Y, z.X - x.Z, x.Y - y.X, 0},
	}
	largest := 3
	for i := range q {
		if q[i] > q[largest]+1e-9 {
			largest = i
		}
	}
	v := off[largest]
	v[largest] = q[largest]
	length := 0.0
	for _, c := range v {
		length += c * c
	}
	length = math.Sqrt(length)
	if v[3] < 0 {
		length = -length
	}
	var out [4]metric
	for i, c := range v {
		out[i] = metric(c / length)
	}
	return out
}
