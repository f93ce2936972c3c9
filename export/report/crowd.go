package report

import (
	"fmt"
	"strings"

	"armwright/export/words"
	"armwright/solver"
	"armwright/solver/judge"
	"armwright/solver/seat"
	"armwright/specs"
	"armwright/specs/people"
)

func persons(r *solver.Result) People {
	c := &r.People.Crowd
	w := People{Source: words.Source(c.Source), Sample: r.People.Sample, Extrapolated: c.Extrapolated,
		TurnedAway: []Turned{}, Settings: []Band{}, Explorer: cellsOf(c), OneAxis: []OneAxis{}, Boundary: []Person{}}
	if n := r.People.Sample; n > 0 {
		w.Coverage, w.Low, w.High = some(share(r.People.Coverage)), some(share(r.People.Low)), some(share(r.People.High))
		w.Shrug = some(share(c.Shrug.Share))
		w.Women, w.Men = coverage(c.Sexes[people.Woman]), coverage(c.Sexes[people.Man])
		w.HandPath, w.CommonPath, w.FootGap = spreads(c.HandPath), spreads(c.Common), spreads(c.FootGap)
		for _, t := range c.TurnedBy {
			w.TurnedAway = append(w.TurnedAway, Turned{t.ID, t.N, share(float64(t.N) / float64(n)), t.Only,
				t.Sexes[people.Woman], t.Sexes[people.Man], mm(t.From), mm(t.To)})
		}
		for _, b := range c.Bands {
			w.Settings = append(w.Settings, Band{mm(b.From), mm(b.To), *coverage(b.Group), coverage(b.Sexes[people.Woman]), coverage(b.Sexes[people.Man]),
				usual(b.Seat), usual(b.Handle), usual(b.Axis[people.Woman]), usual(b.Axis[people.Man]), footing(b.Foot)})
		}
		for _, a := range c.OneAxis {
			w.OneAxis = append(w.OneAxis, OneAxis{a.Axis + 1, spread(a.HandPath), spread(a.Slide), Swivel(spread(a.Swivel)), share(a.Within)})
		}
	}
	for i := range r.People.Boundary {
		w.Boundary = append(w.Boundary, person(&r.Frame, &r.People.Boundary[i]))
	}
	return w
}

// cellsOf are the cells of a crowd.
func cellsOf(c *judge.Crowd) []Cell {
	list := []Cell{}
	for _, q := range c.Cells {
		cell := Cell{q.Sex.String(), mm(q.Stature), deg(q.Carrying), q.N, q.Fits, []Most{}}
		for _, a := range q.Away {
			cell.Away = append(cell.Away, Most{a.ID, a.N})
		}
		list = append(list, cell)
	}
	return list
}

// coverage is nil where there is nobody.
func coverage(g judge.Group) *Covered {
	if g.N == 0 {
		return nil
	}
	return &Covered{g.N, g.Fits, share(g.Share), share(g.Low), share(g.High)}
}

// footing is usual of foot plate positions, among which the floor is 0.
func footing(u judge.Usual) *Usual {
	if u.N == 0 {
		return nil
	}
	return &Usual{u.Low, u.Middle, u.High}
}

// usual is nil where nobody fits.
func usual(u judge.Usual) *Usual {
	if u.N == 0 {
		return nil
	}
	return &Usual{u.Low + 1, u.Middle + 1, u.High + 1}
}

func spreads(s judge.Spread) *Spread { out := spread(s); return &out }

func spread(s judge.Spread) Spread { return Spread{mm(s.Median), mm(s.P95), mm(s.Worst)} }

// person tells one person's outcome on a frame.
func person(f *specs.Frame, p *seat.Person) Person {
	return Person{
		Label: p.Person.Label, Sex: p.Person.Sex.String(),
		Stature: mm(p.Person.Stature), Mass: kg(p.Person.Mass), CarryingAngle: deg(p.Person.CarryingAngle),
		SeatPosition: p.Seat + 1, SeatHeight: mm(p.SeatTop), AxisPosition: p.Axis + 1,
		HandlePlace: p.Handle + 1, HandleRadius: mm(f.Geometry.Handle.Radius(p.Handle)), HandAxial: mm(p.Axial),
		Abduction: deg(p.Pose.Abduction), Lean: deg(p.Pose.Lean), ArmSlope: deg(p.Pose.ArmSlope),
		AxisOffset: mm(p.Offset), AxisTilt: deg(p.Tilt), ArmTurn: deg(p.Turn),
		HandPath: mm(p.HandPath), HandPathRMS: mm(p.HandRMS), HandPathAngle: deg(p.HandAngle), CommonPath: mm(p.Common),
		FootPosition: p.Foot + 1, ChestPosition: p.Chest + 1, FootGap: mm(p.FootGap), LeftAxis: p.Left.Axis + 1, LeftHandle: p.Left.Handle + 1, SeatLoad: share(p.SeatLoad),
		Fits: p.Fits, TurnedBy: append([]string{}, p.TurnedBy...),
	}
}

// HandPathSentence tells what the axes are worth in a sentence.
func HandPathSentence(r *Report) string {
	p := &r.People
	if p.HandPath == nil {
		return ""
	}
	tell := func(s *Spread) string {
		return fmt.Sprintf("%s for half of them, %s for 95 %%, %s at worst", r.Units.Figure(s.Median, "mm"), r.Units.Figure(s.P95, "mm"), r.Units.Figure(s.Worst, "mm"))
	}
	return "Hand and handle part by up to " + tell(p.HandPath) + "; on one straight common axis with fixed handles by " + tell(p.CommonPath) + "."
}

// Statures writes a range of body heights, in millimetres, without the unit.
func Statures(u specs.Units, from, to float64) string {
	return stature(u, from) + " to " + stature(u, to)
}

// stature writes a body height, in millimetres, without the unit.
func stature(u specs.Units, height float64) string {
	decimals := 0
	if u == specs.InchPound {
		decimals = 1
	}
	return fmt.Sprintf("%.*f", decimals, u.In(height, "mm"))
}

// fewest is the least number of persons a line of the printed settings chart
// rests on; report.json has them all.
const fewest = 5

// Chart is the settings chart as printed: bands of stature with enough persons.
func (p *People) Chart() []Band {
	var list []Band
	for _, b := range p.Settings {
		if b.Persons >= fewest {
			list = append(list, b)
		}
	}
	return list
}

// String is the usual position with the range that eight in ten take.
func (u *Usual) String() string {
	switch {
	case u == nil:
		return "-"
	case u.Low == u.High:
		return fmt.Sprint(u.Usual)
	}
	return fmt.Sprintf("%d (%d-%d)", u.Usual, u.Low, u.High)
}

// Percent of a coverage, for the page.
func (c *Covered) Percent() string { return strings.TrimSpace(Percent(&c.Coverage)) }
