package report

import (
	"armwright/export/partlist"
	"armwright/export/sheet"
	"armwright/export/words"
	"armwright/geometry/solid"
	"armwright/solver"
	"armwright/solver/fit"
	"armwright/solver/judge"
	"armwright/specs"

	"gonum.org/v1/gonum/spatial/r3"
)

// New returns the report of a result. Program names the program with its
// version; files are what is written beside the report.
func New(r *solver.Result, program string, files []File) *Report {
	if r.NoStation != nil {
		bare := *r
		bare.Frame.Geometry = specs.Geometry{} // where the search stood is no station
		r = &bare
	}
	g := &r.Frame.Geometry
	out := &Report{
		Schema: Schema, Program: program, Name: r.Frame.Name, Kind: r.Frame.Kind,
		Verdict: string(r.Verdict), Units: r.Frame.Drawing.Reads(), Notice: sheet.Notice,
		Pivots:     pivots(r),
		Resistance: resistance(r),
		Stability:  stability(r),
		Seated:     seated(r),
		Hazards:    hazards(r),
		Strength:   strengthOf(r),
		Protection: protection(r),
		People:     persons(r),
		Elbow:      elbows(r),
		Search:     search(r.Search),
		Notes:      append([]string{}, words.Notes(r)...),
		Files:      append([]File{}, files...),
	}
	h := g.Handle
	out.Handle = Handle{
		Positions: positions(h.Positions, h.Radius),
		Middle:    mm(h.Middle), GripLength: mm(h.GripLength), Diameter: mm(h.Diameter),
		ArmMass: kg(h.ArmMass), ArmCentre: mm(h.ArmCentre),
	}
	if p := g.Pad; p != nil {
		edge := g.Pivots.Height + r.Rest.FarEdge().Z
		out.Pad = Pad{some(deg(p.Slope)), some(mm(p.Offset)), some(mm(edge)), some(mm(p.Near)), some(mm(p.Far)), some(mm(p.Width))}
	}
	out.Seat.Positions = []float64{}
	if s := g.Seat; s != nil {
		out.Seat = Seat{positions(s.Positions, s.Top), some(mm(s.Pitch)), some(mm(s.Front)), some(mm(s.Depth)), some(mm(s.Width))}
	}
	if b := g.Back; b != nil {
		out.Back = Back{some(deg(b.Angle)), some(mm(b.Foot)), some(mm(b.Length))}
	}
	out.Footprint.Feet = [][2]float64{}
	if b := g.Base; b != nil {
		half := b.Width / 2
		out.Footprint = Footprint{some(mm(b.Front - b.Rear)), some(mm(b.Width)), [][2]float64{
			{mm(b.Rear), mm(-half)}, {mm(b.Front), mm(-half)}, {mm(b.Front), mm(half)}, {mm(b.Rear), mm(half)},
		}}
		if wide := baseWidth(r); wide > 0 {
			out.Footprint.Width = some(mm(wide))
		}
	}
	if r.NoStation != nil {
		out.NoStation = named(r.NoStation.Error())
	}
	out.Requirements = requirements(r)
	out.Conflict, out.Proofs, out.Repairs = conflicts(r, out.Units), proofs(r), repairs(r, out.Units)
	out.Buys, out.Choices = coverageBuys(r, out.Units), choices(r)
	out.Trades = trades(r, out.Units)
	out.Parts = parts(r)
	out.Assumptions = assumptions(r, out.Units)
	out.Summary, out.Headline = summary(out), headline(out)
	return out
}

// baseWidth is that over the base's rails, 0 without a station.
func baseWidth(r *solver.Result) float64 {
	a := r.Station.Assembly
	if a == nil {
		return 0
	}
	i, ok := a.Index("rail-right")
	if !ok {
		return 0
	}
	low, _ := solid.Bounds(a.Parts[i].Solid, a.Parts[i].Place)
	return -2 * low.Y
}

// positions lists what n positions come to, the first first.
func positions(n int, of func(int) float64) []float64 {
	out := make([]float64, n)
	for i := range out {
		out[i] = mm(of(i))
	}
	return out
}

func pivots(r *solver.Result) Pivots {
	p := r.Frame.Geometry.Pivots
	at := p.Right()
	right := Pivot{X: mm(at.X), Y: mm(at.Y), Z: mm(at.Z), Axes: []Axis{}}
	for _, a := range p.Axes {
		right.Axes = append(right.Axes, axis(a.Vector()))
	}
	if len(p.Axes) > 0 {
		right.Axis = axis(p.MeanAxis())
	}
	left := right
	left.Y = 0 - right.Y // no -0
	left.Axis = mirrored(right.Axis)
	left.Axes = make([]Axis, len(right.Axes))
	for i, a := range right.Axes {
		left.Axes[i] = mirrored(a)
	}
	return Pivots{Left: left, Right: right}
}

// axis is the right arm's axis of an outward unit vector.
func axis(v r3.Vec) Axis {
	a := specs.AxisOf(v)
	return Axis{deg(a.Toe), deg(a.Cant), [3]float64{round(v.X, fine), round(v.Y, fine), round(v.Z, fine)}}
}

func mirrored(a Axis) Axis {
	a.Vector[1] = 0 - a.Vector[1] // no -0
	return a
}

func stability(r *solver.Result) Stability {
	s := Stability{Cases: []StabilityCase{}, Anchored: r.Balance.Anchored, Envelope: envelope(r), Entry: entryCases(r)}
	if len(r.Stability) == 0 {
		return s
	}
	s.LeastTilt, s.AnchorPull = some(deg(r.Least.Tilt)), some(newton(r.Balance.AnchorPull))
	for _, c := range r.Stability {
		s.Cases = append(s.Cases, StabilityCase{
			Case: words.Phrase(c.Case, r.Frame.Drawing.Reads()), Person: named(c.Person), Mass: kg(c.Mass),
			Centre: [3]float64{mm(c.X), mm(c.Y), mm(c.Z)},
			Tilt:   deg(c.Tilt), Edge: c.Edge, Energy: torque(c.Energy),
			Angle: deg(c.Angle), Lift: mm(c.Lift),
		})
	}
	return s
}

// bindingShare of a difference that matters is the room below which a
// requirement binds (judgement): what a workshop cannot tell from none.
const bindingShare = 0.1

func requirements(r *solver.Result) []Requirement {
	list := []Requirement{}
	for _, q := range r.Requirements {
		sense, limit := governing(q)
		out := Requirement{
			ID: q.ID, Asks: q.Asks, Unit: words.Symbol(q.Unit), Sense: sense,
			Value: outside(q.Value, q.Unit), Limit: outside(limit, q.Unit),
			Margin: outside(q.Margin, q.Unit), Scale: outside(q.Scale, q.Unit),
			Met: q.Met, Person: named(q.Person), Case: named(words.Phrase(q.Case, r.Frame.Drawing.Reads())), Source: q.Source,
			Binding: q.Margin <= bindingShare*q.Scale,
		}
		if q.HasAngle {
			out.Angle = some(deg(q.Angle))
		}
		list = append(list, out)
	}
	return list
}

// governing returns the limit that leaves the margin, and its sense. Of a
// requirement with a limit on either side the solver gives the upper one; the
// margin tells when the lower is nearer.
func governing(q judge.Requirement) (sense string, limit float64) {
	const rounding = 1e-9
	switch {
	case q.AtLeast:
		return "at least", q.Limit
	case q.Limit-q.Value > q.Margin+rounding*q.Scale:
		return "at least", q.Value - q.Margin
	}
	return "at most", q.Limit
}

func search(s *fit.SearchLog) *Search {
	if s == nil {
		return nil
	}
	out := &Search{s.Status, s.Message, s.Starts, s.Agreed, s.Iterations, s.Evaluations, []AxesChoice{}, []Aim{}}
	for _, a := range s.Axes {
		out.Axes = append(out.Axes, AxesChoice{a.Positions, mm(a.HandPath), some(round(a.Worst, decimals)), a.Chosen})
	}
	for _, t := range s.Objective {
		out.Objective = append(out.Objective, Aim{t.Name, t.What, t.Weight, round(t.Value, decimals), round(t.Share, decimals)})
	}
	return out
}

func parts(r *solver.Result) []Part {
	list := []Part{}
	for _, p := range partlist.Of(r) {
		out := Part{Item: p.Item, Title: p.Title, Count: p.Count, Stock: p.Stock, Mitre: p.Ends}
		if p.Length > 0 {
			out.Length = some(mm(p.Length))
		}
		if p.Mass > 0 {
			out.Mass = some(kg(p.Mass))
		}
		list = append(list, out)
	}
	return list
}

// summary is the verdict with the share who fit.
func summary(r *Report) string {
	s := outcome(r)
	if r.People.Coverage != nil && r.NoStation == nil {
		s += " " + fitting(&r.People)
	}
	return s
}
