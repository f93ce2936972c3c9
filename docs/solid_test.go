package docs_test

import (
	"bytes"
	"math"
	"testing"

	"armwright/export/hidden"
	"armwright/export/sheet"
	"armwright/export/solid"
	"armwright/export/svg"
	body "armwright/geometry/solid"

	"gonum.org/v1/gonum/spatial/r2"
)

// The picture of the page on solids is drawn from what armwright solid writes with the
// flags beside it.
func TestSolidPicture(t *testing.T) {
	r := judgedOn(t, "measuring/solved.yaml", 1)
	pose := r.Station.Middle()
	theta := 60 * math.Pi / 180
	up := r.Resistance.Lift(theta)
	pose.Axis, pose.Seat, pose.Handle = 2, 4, 7
	pose.Flexion, pose.Lift = [2]float64{theta, theta}, [2]float64{up, up}
	ropes, err := solid.Cables(&r.Station, &r.Resistance, pose)
	if err != nil {
		t.Fatal(err)
	}
	camera := hidden.Axonometric()
	var bodies []hidden.Body
	for _, p := range solid.Parts(r.Station.Assembly, pose) {
		s := p.Solid.(body.Solid)
		bodies = append(bodies, hidden.Body{Shape: hidden.NewShape(s, 1), Place: p.At, Role: sheet.Visible, Bare: true})
	}
	v := sheet.View{Title: "Bent", Entities: hidden.NewScene(bodies, camera).Lines()}
	for _, p := range ropes {
		line := sheet.Polyline{Role: sheet.Thin}
		for _, f := range p.Solid.(body.Rope).Frames(1) {
			q := camera.See(f.Origin)
			if n := len(line.Vertices); n == 0 || r2.Norm(r2.Sub(q, line.Vertices[n-1].Vec)) > 1 {
				line.Vertices = append(line.Vertices, sheet.Vertex{Vec: q})
			}
		}
		v.Entities = append(v.Entities, line)
	}
	d, err := v.Picture(1, "A station with its arms bent", "Axonometric view of all solids and cables.", 700, 640)
	if err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	if err := svg.Thumbnail(&out, d); err != nil {
		t.Fatal(err)
	}
	kept(t, "pictures/bent.svg", []byte(alone(out.String())))
}
