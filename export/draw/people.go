package draw

import (
	"math"
	"strconv"

	"armwright/export/hidden"
	"armwright/export/sheet"
	"armwright/export/stroke"
	"armwright/export/words"
	"armwright/solver/seat"
	"armwright/specs"
	"armwright/specs/people"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// peopleSheet is sheet 08: the smallest and the largest of the boundary
// persons in their places, and what everybody sets.
func (d *drafter) peopleSheet() sheet.Sheet {
	s := d.sheet(medium, "People fit", "Detail drawing")
	small, large := d.extremes()
	side := sheet.View{Title: "Reach and lean, from the user's right", Position: sheet.Front, Entities: hidden.NewScene(d.rests(), hidden.FromRight()).Lines()}
	plan := sheet.View{Title: "Plan", Position: sheet.FromAbove, Entities: hidden.NewScene(d.rests(), hidden.FromAbove()).Lines()}
	for _, p := range [...]struct {
		*seat.Person
		role sheet.Role
		name string
	}{{small, sheet.Visible, "smallest"}, {large, sheet.Phantom, "largest"}} {
		side.Entities = append(side.Entities, d.figure(p.Person, hidden.FromRight(), p.role)...)
		plan.Entities = append(plan.Entities, d.figure(p.Person, hidden.FromAbove(), p.role)...)
		hip, shoulder := hidden.FromRight().See(p.Pose.Hip), hidden.FromRight().See(p.Pose.Shoulder)
		trunk := r2.Norm(r2.Sub(shoulder, hip))
		up := r2.Add(hip, at(0, trunk))
		lean := sheet.Dimension{Kind: sheet.Angular, Vertex: hip, A: shoulder, B: up}
		if r2.Cross(r2.Sub(shoulder, hip), r2.Sub(up, hip)) < 0 {
			lean.A, lean.B = up, shoulder
		}
		if math.Abs(p.Pose.Lean) > 1*specs.Degree {
			side.Entities = append(side.Entities, lean)
		}
		side.Entities = append(side.Entities,
			sheet.Leader{At: hidden.FromRight().See(headOf(p.Person)), Note: p.name + ", " + d.stature(p.Person.Person.Stature) + " " + d.unit(), Dot: true},
			sheet.Dimension{Kind: sheet.Vertical, Side: sheet.Leftward, A: at(d.seatRear(), 0), B: at(d.seatRear(), p.SeatTop)})
	}
	side.Entities = append(side.Entities, sheet.CentreMark{Centre: at(0, d.pivot.Z), Radius: 12},
		sheet.Line{Role: sheet.Thin, A: at(d.seatRear(), 0), B: at(d.geo.Seat.Front+400, 0)})
	plan.Entities = append(plan.Entities, sheet.CentreMark{Centre: at(0, d.pivot.Y), Radius: 12}, sheet.CentreMark{Centre: at(0, -d.pivot.Y), Radius: 12})
	s.Views = []sheet.View{side, plan}
	s.Tables = []sheet.Table{d.personTable()}
	if chart := d.settingsChart(); len(chart.Rows) > 0 {
		s.Tables = append(s.Tables, chart)
	}
	s.Notes = []string{
		"Full lines: the smallest of the boundary persons; double-dot chain lines: the largest. Joints are circles: hip, shoulder, elbow, knee. Arms at " + sheet.Degrees(d.first, 0) + "° of flexion, trunk and legs as the solver places them; only the right arm is drawn.",
		"Positions count from 1: seat from the lowest, handle from the axis, axis in order of rising toe. In the chart the usual position is that of the middle person of a band, in brackets those from the 10th to the 90th percentile.",
	}
	return s
}

// extremes are the boundary persons of the least and the greatest stature.
func (d *drafter) extremes() (small, large *seat.Person) {
	all := d.r.People.Boundary
	small, large = &all[0], &all[0]
	for i := range all {
		if all[i].Person.Stature < small.Person.Stature {
			small = &all[i]
		}
		if all[i].Person.Stature > large.Person.Stature {
			large = &all[i]
		}
	}
	return small, large
}

func (d *drafter) seatRear() float64 { return d.geo.Seat.Front - d.geo.Seat.Depth }

// rests are the pads and the seat in the place of everybody, in narrow lines.
func (d *drafter) rests() []hidden.Body {
	small, large := d.extremes()
	pads := d.ofItems(false, "arm-pad-board", "arm-pad-foam", "back-board", "back-foam")
	out := d.bodies(pads, d.reference(), sheet.Thin, true)
	for _, p := range [...]*seat.Person{small, large} {
		pose := d.reference()
		pose.Seat = p.Seat
		out = append(out, d.bodies(d.ofItems(false, "seat-board", "seat-foam"), pose, sheet.Thin, true)...)
	}
	return out
}

// mostListed is how many boundary persons the sheet has room for; all are in
// tables/people.csv.
const mostListed = 12

// personTable lists the boundary persons that are drawn, the first of either
// sex, who is in the middle, and those who do not fit, with their settings.
func (d *drafter) personTable() sheet.Table {
	small, large := d.extremes()
	seen := [2]bool{}
	listed := 0
	t := sheet.Table{Title: "Boundary persons, in part", Columns: sheet.Columns("<Person", ">Stature "+d.unit(), ">Mass "+d.reads().Symbol("kg"), ">Seat", ">Axis", ">Handle",
		">Lean °", ">Abduction °", ">Hand path "+d.unit(), "<Fits")}
	for i := range d.r.People.Boundary {
		p := &d.r.People.Boundary[i]
		middle := !seen[p.Person.Sex]
		seen[p.Person.Sex] = true
		if p != small && p != large && !middle && (p.Fits || listed >= mostListed) {
			continue
		}
		listed++
		fits := "yes"
		if !p.Fits {
			fits = "no"
			if len(p.TurnedBy) > 0 {
				fits += ": " + p.TurnedBy[0]
			}
		}
		t.Rows = append(t.Rows, []string{p.Person.Label, d.stature(p.Person.Stature), d.reads().Whole(p.Person.Mass, "kg"),
			strconv.Itoa(p.Seat + 1), strconv.Itoa(p.Axis + 1), strconv.Itoa(p.Handle + 1),
			sheet.Degrees(p.Pose.Lean, 1), sheet.Degrees(p.Pose.Abduction, 1), d.length(p.HandPath), fits})
	}
	return t
}

// fewest is the least number of persons that a line of the chart rests on.
const fewest = 5

// settingsChart tells by stature what to set.
func (d *drafter) settingsChart() sheet.Table {
	t := sheet.Table{Title: "Settings by stature", Columns: sheet.Columns("<Stature "+d.unit(), ">Persons", "Seat", "Handle", "Axis, women", "Axis, men")}
	steps := d.geo.FootPlate != nil
	if steps {
		t.Columns = append(t.Columns, sheet.Columns("Foot plate")...)
	}
	for _, b := range d.r.People.Crowd.Bands {
		if b.N < fewest {
			continue
		}
		row := []string{d.stature(b.From) + " to " + d.stature(b.To), strconv.Itoa(b.N), words.Usual(b.Seat, 1), words.Usual(b.Handle, 1),
			words.Usual(b.Axis[people.Woman], 1), words.Usual(b.Axis[people.Man], 1)}
		if steps {
			row = append(row, words.Usual(b.Foot, 0))
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// Sizes of the stick figure, mm; judgement.
const (
	headHigh   = 170.0 // shoulder to the middle of the head
	headAcross = 200.0
	jointRing  = 14.0
)

// neck is the direction from the hips to the shoulders in the midplane.
func neck(p *seat.Person) r3.Vec {
	hip, shoulder := p.Pose.Hip, p.Pose.Shoulder
	return r3.Unit(r3.Sub(shoulder, r3.Vec{X: hip.X, Y: shoulder.Y, Z: hip.Z}))
}

// headOf is the middle of the head, beside the right shoulder in the side view.
func headOf(p *seat.Person) r3.Vec {
	q := r3.Add(p.Pose.Shoulder, r3.Scale(headHigh, neck(p)))
	q.Y = 0
	return q
}

// figure is a person as a stick figure in the place found, right arm at the
// first loaded angle.
func (d *drafter) figure(p *seat.Person, c hidden.Camera, role sheet.Role) []sheet.Entity {
	arm, _ := p.Pose.Turned(d.axis, math.Abs(p.Turn))
	hip, shoulder, elbow := p.Pose.Hip, p.Pose.Shoulder, p.Pose.Elbow
	hand := p.Pose.Hand(p.Body, arm, d.first)
	knee := r3.Add(hip, r3.Vec{X: p.Body.Knee - p.Body.ThighDepth/2})
	sole := r3.Vec{X: knee.X, Y: knee.Y, Z: knee.Z - p.Person.PoplitealHeight}
	head := headOf(p)
	chin := r3.Sub(head, r3.Scale(headAcross/2, neck(p)))
	line := func(points ...r3.Vec) sheet.Entity {
		e := sheet.Polyline{Role: role}
		for _, q := range points {
			v := c.See(q)
			if n := len(e.Vertices); n > 0 && r2.Norm(r2.Sub(e.Vertices[n-1].Vec, v)) < stroke.Step {
				continue
			}
			e.Vertices = append(e.Vertices, sheet.Vertex{Vec: v})
		}
		return e
	}
	out := []sheet.Entity{
		line(chin, shoulder, hip, knee, sole, r3.Add(sole, r3.Vec{X: p.Person.FootLength * 0.75})),
		line(shoulder, elbow, hand),
		sheet.Circle{Role: role, Centre: c.See(head), Radius: headAcross / 2},
	}
	for _, q := range [...]r3.Vec{hip, shoulder, elbow, knee} {
		out = append(out, sheet.Circle{Role: sheet.Thin, Centre: c.See(q), Radius: jointRing})
	}
	return out
}
