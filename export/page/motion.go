package page

import (
	"math"

	"armwright/export/draw/platework"
	"armwright/export/sheet"
	"armwright/export/svg"
	"armwright/geometry/contour"
	"armwright/solver"
	"armwright/specs"

	"gonum.org/v1/gonum/spatial/r2"
)

// motion is a cam through the loaded range, for the page to move. Lengths mm
// from the cam axis, seen from the user's right with y running down as on a
// screen; angles degrees; what is told in figures is in the units of the reader.
type motion struct {
	Ratio   float64      `json:"ratio"`   // cam turn per arm turn, flexion turns it against the clock
	Cadence float64      `json:"cadence"` // repetitions a minute
	Outline string       `json:"outline"` // path data of the groove's root at flexion 0
	Rim     string       `json:"rim"`     // of the plates' rim
	Holes   [][3]float64 `json:"holes"`   // x, y, radius
	Guide   [3]float64   `json:"guide"`   // x, y, radius to the cable
	Pivot   [2]float64   `json:"pivot"`
	Cable   float64      `json:"cable"` // diameter
	Box     [4]float64   `json:"box"`   // x, y, width, height that holds all of it
	Steps   []moment     `json:"steps"`
	Length  string       `json:"length"` // unit of the moment arm
	Torque  string       `json:"torque"`
}

// moment is one flexion.
type moment struct {
	Flexion   float64    `json:"flexion"`
	Contact   [2]float64 `json:"contact"` // where the cable leaves the cam
	Leave     [2]float64 `json:"leave"`   // where it meets the sheave
	Foot      [2]float64 `json:"foot"`    // end of the moment arm on the cable's line
	Arm       float64    `json:"arm"`     // moment arm
	Target    float64    `json:"target"`  // torque
	Delivered float64    `json:"delivered"`
}

// motionOf is the motion of a station's cam, nil without one.
func motionOf(r *solver.Result) (*motion, error) {
	c := r.Frame.Geometry.Cam
	if c == nil {
		return nil, nil
	}
	plate, err := platework.CamOf(r)
	if err != nil {
		return nil, err
	}
	o := plate.Outline
	units := r.Frame.Drawing.Reads()
	torque := func(x float64) float64 { return rounded(units.In(x/1000, "N·m")) }
	m := &motion{
		Ratio: c.Ratio, Cadence: r.Frame.Resistance.Cadence, Cable: plate.Cable.Diameter,
		Length: units.Symbol("mm"), Torque: units.Symbol("N·m"),
		Outline: svg.Path(vertices(o.Root), true), Rim: svg.Path(vertices(o.Blank), true),
		Guide: [3]float64{rounded(c.GuideX), rounded(-c.GuideY), rounded(c.GuideR)},
		Pivot: down(r2.Vec{X: -c.CentreX, Y: -c.CentreY}),
	}
	for _, h := range o.Holes {
		p := down(h.Centre)
		m.Holes = append(m.Holes, [3]float64{p[0], p[1], rounded(h.Diameter / 2)})
	}
	reach := 0.0
	for _, v := range o.Blank.Vertices {
		reach = math.Max(reach, math.Hypot(v.X, v.Y))
	}
	box := r2.Box{Min: r2.Vec{X: -reach, Y: -reach}, Max: r2.Vec{X: reach, Y: reach}}
	box.Min.X, box.Min.Y = math.Min(box.Min.X, m.Guide[0]-c.GuideR), math.Min(box.Min.Y, m.Guide[1]-c.GuideR)
	box.Max.X, box.Max.Y = math.Max(box.Max.X, m.Guide[0]+c.GuideR), math.Max(box.Max.Y, m.Guide[1]+c.GuideR)
	const edge = 10.0
	m.Box = [4]float64{rounded(box.Min.X - edge), rounded(box.Min.Y - edge), rounded(box.Max.X - box.Min.X + 2*edge), rounded(box.Max.Y - box.Min.Y + 2*edge)}
	d := &r.Resistance
	for i, theta := range d.Angles {
		st, err := plate.Profile.At(theta)
		if err != nil {
			return nil, err
		}
		s, k := math.Sincos(st.Psi)
		m.Steps = append(m.Steps, moment{
			Flexion: rounded(theta / specs.Degree), Contact: down(st.Contact), Leave: down(st.Leave),
			Foot: down(r2.Vec{X: st.Arm * k, Y: st.Arm * s}), Arm: rounded(units.In(st.Arm, "mm")),
			Target: torque(d.Middle.Target[i]), Delivered: torque(d.Middle.Delivered[i]),
		})
	}
	return m, nil
}

// down is a point with y running down.
func down(p r2.Vec) [2]float64 { return [2]float64{rounded(p.X), rounded(-p.Y)} }

// rounded rounds to a hundredth, which no screen shows.
func rounded(x float64) float64 { return math.Round(x*100)/100 + 0 }

// vertices is a contour as a path of a drawing.
func vertices(p contour.Path) []sheet.Vertex {
	out := make([]sheet.Vertex, len(p.Vertices))
	for i, v := range p.Vertices {
		out[i] = sheet.Vertex{Vec: v.Point(), Bulge: v.Bulge}
	}
	return out
}
