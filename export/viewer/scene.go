package viewer

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"armwright/export/sheet"
	"armwright/geometry/assembly"
	body "armwright/geometry/solid"
	"armwright/solver/judge"
	"armwright/solver/screen"

	"gonum.org/v1/gonum/spatial/r3"
)

// Scene is a station in space.
type Scene struct {
	Name     string          `json:"name"`
	Notice   string          `json:"notice"`
	Meshes   map[string]Mesh `json:"meshes,omitempty"` // by key; see Bodies
	Parts    []Part          `json:"parts"`
	Groups   []Group         `json:"groups"`
	First    float64         `json:"first"` // flexion at the ends of the range, rad
	Last     float64         `json:"last"`
	Cadence  float64         `json:"cadence"`        // repetitions a minute
	Lift     []float64       `json:"lift,omitempty"` // of the stack, mm, evenly over the range
	Settings []Setting       `json:"settings"`
	Axis     Line            `json:"axis"`   // the right pivot axis, of the group that swivels
	Handle   *Spot           `json:"handle"` // middle of the right grip
	Cables   []Cable         `json:"cables,omitempty"`
	People   []Person        `json:"people"`
	Short    []Short         `json:"short"`
	Box      [2][3]float64   `json:"box"` // corners of the box round all of it at rest, mm

	bodies map[string]body.Solid
}

// Part is one body in its place; of a pair the right one, which stands for both.
type Part struct {
	ID    string `json:"id"`
	Title string `json:"title"`
	Mesh  string `json:"mesh"`
	Group int    `json:"group"`
	Pair  bool   `json:"pair,omitempty"`
	At    Place  `json:"at"`
	Does  string `json:"does"` // what it does, by which it is coloured: stands, turns, swivels, rises, adjusts, soft, guards, fastens
}

// Setting is what is set by hand, with the number of its positions and the middle one.
type Setting struct {
	Name   string `json:"name"`
	Count  int    `json:"count"`
	Middle int    `json:"middle"`
}

// Line and Spot belong to a group and stand where they do in the reference pose.
type (
	Line struct {
		Group int        `json:"group"`
		From  [3]float64 `json:"from"`
		To    [3]float64 `json:"to"`
	}
	Spot struct {
		Group int        `json:"group"`
		At    [3]float64 `json:"at"`
	}
)

// Short is a gap that falls short: what moves, what it comes near to, and where.
type Short struct {
	Text  string  `json:"text"`
	Angle float64 `json:"angle"` // flexion at which it is least, rad
	Axis  int     `json:"axis"`
	Parts []int   `json:"parts"` // among the scene's
}

// New is the scene of a station, without its meshes; nil where there is no assembly,
// as on a bench. The judge must be of the station's brief.
func New(j *judge.Judge, r *judge.Result) (*Scene, error) {
	a := r.Station.Assembly
	if a == nil {
		return nil, nil
	}
	v := &r.Station.Values
	s := &Scene{Name: r.Frame.Name, Notice: sheet.Notice, First: fine(v.First), Last: fine(v.Last), Cadence: r.Frame.Resistance.Cadence, bodies: map[string]body.Solid{}}
	var index []int
	s.Groups, index = groups(a, v.First, v.Last)
	low, high := r3.Vec{X: math.Inf(1), Y: math.Inf(1), Z: math.Inf(1)}, r3.Vec{X: math.Inf(-1), Y: math.Inf(-1), Z: math.Inf(-1)}
	for i := range a.Parts {
		p := &a.Parts[i]
		l, h := body.Bounds(p.Solid, p.Place)
		low, high = r3.Vec{X: min(low.X, l.X), Y: min(low.Y, l.Y), Z: min(low.Z, l.Z)}, r3.Vec{X: max(high.X, h.X), Y: max(high.Y, h.Y), Z: max(high.Z, h.Z)}
		if p.Side == assembly.Left {
			continue
		}
		k := key(p.Solid)
		s.bodies[k] = p.Solid
		s.Parts = append(s.Parts, Part{ID: strings.TrimSuffix(p.ID, "-right"), Title: p.Title, Mesh: k, Group: index[p.Group], Pair: p.Side == assembly.Right, At: placeOf(p.Place), Does: does(p)})
		if p.Item == "grip-rubber" {
			s.Handle = &Spot{index[p.Group], vec(p.Centre)}
		}
	}
	s.Box = [2][3]float64{vec(low), vec(high)}
	middle := r.Station.Middle()
	for i, n := range [5]int{len(v.Axes), v.Seat.Positions, v.Handle.Positions, v.FootPlate.Positions, v.Chest.Positions} {
		s.Settings = append(s.Settings, Setting{settings()[i], n, assembly.Setting(i).Of(&middle)})
	}
	s.axis(r)
	s.cables(r)
	if r.Frame.Geometry.Cam != nil {
		for k := range liftSteps + 1 {
			s.Lift = append(s.Lift, rounded(r.Resistance.Lift(v.First+(v.Last-v.First)*float64(k)/liftSteps)))
		}
	}
	s.people(j, r)
	s.gaps(r)
	return s, nil
}

// Bodies adds the meshes of all parts.
func (s *Scene) Bodies() error {
	s.Meshes = make(map[string]Mesh, len(s.bodies))
	for k := range s.bodies {
		m, _, err := s.Body(k)
		if err != nil {
			return err
		}
		s.Meshes[k] = m
	}
	return nil
}

// Body is the mesh of a key; not ok where the scene has none of it.
func (s *Scene) Body(key string) (m Mesh, ok bool, err error) {
	b, ok := s.bodies[key]
	if !ok {
		return Mesh{}, false, nil
	}
	m, err = NewMesh(b)
	return m, true, err
}

// liftSteps is how finely the rise of the stack is told.
const liftSteps = 40

// does tells what a part does.
func does(p *assembly.Part) string {
	switch {
	case p.Is(assembly.Guard):
		return "guards"
	case p.Is(assembly.Soft), p.Stock.Form == assembly.Foam:
		return "soft"
	case p.Is(assembly.Rises):
		return "rises"
	case p.Is(assembly.Fastener):
		return "fastens"
	case p.Is(assembly.Turns):
		return "turns"
	case p.Is(assembly.Swivels):
		return "swivels"
	case p.Is(assembly.Adjusts):
		return "adjusts"
	}
	return "stands"
}

// axis is the pivot axis, a little longer than what stands on it.
func (s *Scene) axis(r *judge.Result) {
	const beyond = 120.0
	v := &r.Station.Values
	planes := v.Planes()
	pivot, axis := v.Pivot(), v.Axes[r.Station.Assembly.Reference.Axis]
	along := func(w float64) [3]float64 { return vec(r3.Add(pivot, r3.Scale(w, axis))) }
	s.Axis = Line{From: along(planes.GripIn - beyond), To: along(planes.DriveEnd + beyond)}
	for i := range s.Groups {
		if m := &s.Groups[i].Motion; m.Setting == "axis" && s.Groups[i].ID == "swivel-right" {
			s.Axis.Group = i
		}
	}
}

// gaps are the pairs that come too near, the worst first, with the parts that bear their names.
func (s *Scene) gaps(r *judge.Result) {
	s.Short = []Short{}
	units := r.Frame.Drawing.Reads()
	worst := slices.Clone(r.Hazards.Pairs)
	slices.SortStableFunc(worst, func(a, b screen.HazardPair) int { return cmp.Compare(a.Gap-a.Required, b.Gap-b.Required) })
	for _, q := range worst {
		if q.Met {
			continue
		}
		v := Short{Text: q.Moving + " to " + q.Fixed + ": " + units.Figure(q.Gap, "mm") + " of " + units.Figure(q.Required, "mm"), Angle: fine(q.Angle), Axis: q.Axis, Parts: []int{}}
		for i, p := range s.Parts {
			if strings.EqualFold(p.Title, q.Fixed) || named(p, q.Moving) {
				v.Parts = append(v.Parts, i)
			}
		}
		s.Short = append(s.Short, v)
	}
}

// named reports whether a part is what the screening calls so.
func named(p Part, moving string) bool {
	switch moving {
	case "grip":
		return strings.HasPrefix(p.ID, "grip-")
	case "arm":
		return p.ID == "arm-tube"
	}
	return strings.EqualFold(p.Title, moving)
}

func vec(v r3.Vec) [3]float64 { return [3]float64{rounded(v.X), rounded(v.Y), rounded(v.Z)} }

func unit(v r3.Vec) [3]float64 {
	v = r3.Unit(v)
	return [3]float64{fine(v.X), fine(v.Y), fine(v.Z)}
}

// fine rounds a direction or an angle: over 3 m it moves nothing by a hundredth of a millimetre.
func fine(x float64) float64 { return math.Round(x*1e6)/1e6 + 0 }
