package judge

import (
	"fmt"
	"math"

	"armwright/solver/build"
	"armwright/solver/drive"
	"armwright/solver/require"
	"armwright/solver/screen"
	"armwright/solver/seat"
	"armwright/solver/suppose"
	"armwright/specs"

	"gonum.org/v1/gonum/spatial/r2"
)

// MissingError says that a frame lacks a part its kind or drive needs.
type MissingError struct{ Part, Kind string }

func (e *MissingError) Error() string {
	return fmt.Sprintf("geometry.%s is missing: a frame of kind %s needs it", e.Part, e.Kind)
}

// Missing reports the first part that the frame lacks.
func Missing(f *specs.Frame) error {
	g := &f.Geometry
	miss := func(part string) error { return &MissingError{part, f.Kind} }
	if len(g.Pivots.Axes) == 0 {
		return miss("pivots.axes")
	}
	if f.Resistance.Drive == "cam" && g.Cam == nil {
		return miss("cam")
	}
	if f.Resistance.Drive == "lever" && g.Lever == nil {
		return miss("lever")
	}
	if f.Resistance.Drive == "linkage" && g.Linkage == nil {
		return miss("linkage")
	}
	if f.Kind == "cam-study" {
		return nil
	}
	switch {
	case g.Pad == nil:
		return miss("pad")
	case g.Seat == nil:
		return miss("seat")
	case g.Base == nil:
		return miss("base")
	case f.Kind == "reclined" && g.Back == nil:
		return miss("back")
	}
	return nil
}

// CheckPeople judges a frame: it places every boundary person in the best of the
// frame's settings, works out resistance, balance and screening, and places the
// persons of a crowd for coverage, as drawn by [Random] or measured. Nothing is
// searched. The frame is taken as it would be read back from its file.
func CheckPeople(f specs.Frame, crowd Persons) (*Result, error) {
	f = f.Quantised()
	if err := Missing(&f); err != nil {
		return nil, err
	}
	s, err := New(&f.Asked)
	if err != nil {
		return nil, err
	}
	return s.Check(f, crowd)
}

// Check judges a frame, as it would be read back from its file, of the judge's
// brief. Without persons in the crowd coverage is judged, where it is asked for, on the
// panel.
func (s *Judge) Check(f specs.Frame, crowd Persons) (*Result, error) {
	g := &f.Geometry
	made, err := s.Evaluate(g)
	if err != nil {
		return nil, err
	}
	st, err := s.Complete(g, &made)
	if err != nil {
		return nil, err
	}
	out := &require.Rows{Card: &s.Card, List: make([]require.Row, 0, rowsEach*(len(s.Persons)+1))}
	res := &Result{Frame: f, Resistance: made.Resistance, Station: st}
	res.Rest = drive.NewMachine(g).Rest
	var sat []seat.Person
	persons := s.recall.of(s.Asked, g, &made)
	known := persons.known()
	if !s.Bench() {
		scratch := &require.Rows{Card: &s.Card}
		who := 0
		sat = s.Assess(g, made, &st, &Desk{}, func(m drive.Machine, p *seat.Sitter) seat.Person {
			first := len(out.List)
			r := s.Best(m, p, out, scratch)
			r.Common = s.CommonAxis(p)
			if known {
				r.Still, r.Turning = persons.paths[who][0], persons.paths[who][1]
			} else {
				s.TellTurns(m, p, &r)
				persons.paths = append(persons.paths, [2]float64{r.Still, r.Turning})
			}
			who++
			s.fits(&r, out.List[first:])
			return r
		}, out, &account{res})
		res.People.Boundary, res.TurnTold = sat, s.TurnTold()
		if crowd.All != nil {
			c := s.cover(g, made, &st, crowd)
			res.People.count(c)
			s.shares(c.All, c.Sexes, out)
			res.Suppositions = suppose.All(&s.Placer, g, made.Level)
		} else {
			s.Served(g, made, &st, out)
		}
		res.Resistance.Shoulder = atShoulder(&s.Designer, &made, sat)
		for i, c := range res.Stability {
			if i == 0 || c.Tilt < res.Least.Tilt {
				res.Least = c
			}
		}
	}
	s.DriveRows(g, made, &st, sat, out)
	if !s.Bench() {
		if !known {
			persons.hold(&s.Placer, drive.NewMachine(g), sat)
			s.recall.keep(persons)
		}
		contacts(&s.Placer, g, persons.held, out)
	}
	res.Requirements = s.Requirements(out)
	if !s.Bench() {
		s.safety(g, made, res, persons)
	}
	res.Verdict = Met
	for _, q := range res.Requirements {
		if !q.Met {
			res.Verdict = NotMet
		}
	}
	if err := finite(res); err != nil {
		return nil, err
	}
	return res, nil
}

// fits marks whether a person fits, from the person's own rows.
func (s *Judge) fits(p *seat.Person, own []require.Row) {
	away := s.away(own)
	p.Fits = away == 0
	for _, f := range s.shortfalls(nil, own, away) {
		p.TurnedBy = append(p.TurnedBy, f.ID)
	}
}

// account takes down every case of balance.
type account struct{ *Result }

func (a *account) Tipping(c screen.StabilityCase) { a.Stability = append(a.Stability, c) }
func (a *account) Entry(c screen.EntryCase)       { a.Balance.Entry = append(a.Balance.Entry, c) }
func (a *account) Stands(anchored bool, envelope []r2.Vec, pull float64) {
	a.Balance.Anchored, a.Balance.Envelope, a.Balance.AnchorPull = anchored, envelope, pull
}

// Assess places every boundary person as sit says and adds the rows of the
// station as a whole. What it returns is the desk's.
func (s *Judge) Assess(g *specs.Geometry, d drive.State, st *build.Station, on *Desk, sit func(m drive.Machine, p *seat.Sitter) seat.Person, out *require.Rows, watch screen.Watcher) []seat.Person {
	m := drive.NewMachine(g)
	p := &on.sitter
	p.Level = d.Level
	on.sat = on.sat[:0]
	for i := range s.Persons {
		p.Take(&s.Placer, i)
		on.sat = append(on.sat, sit(m, p))
	}
	s.Whole(g, d, st, on.sat, out, &on.afresh, watch)
	return on.sat
}

// count takes over what the crowd gave.
func (p *People) count(c Crowd) {
	p.Crowd = c
	p.Sample = c.All.N
	p.Coverage, p.Low, p.High = c.All.Share, c.All.Low, c.All.High
	for _, t := range c.TurnedBy {
		p.TurnedBy = append(p.TurnedBy, Count{t.ID, t.N})
	}
}

// wilson returns a share with its 95 % score interval (Wilson 1927).
func wilson(k, n int) (share, low, high float64) {
	if n == 0 {
		return 0, 0, 1
	}
	const z = 1.959963984540054
	p, m := float64(k)/float64(n), float64(n)
	mid := (p + z*z/(2*m)) / (1 + z*z/m)
	half := z / (1 + z*z/m) * math.Sqrt(p*(1-p)/m+z*z/(4*m*m))
	return p, math.Max(0, mid-half), math.Min(1, mid+half)
}

// governing returns the row with the least margin of each kind, nil where a
// kind has no rows.
func governing(c *require.Card, out *require.Rows) []*require.Row {
	least := make([]*require.Row, len(c.Kinds))
	for i := range out.List {
		w := &out.List[i]
		if l := least[w.Kind]; l == nil || w.Margin < l.Margin {
			least[w.Kind] = w
		}
	}
	return least
}

// Requirements reduces the rows to the governing row of each requirement, in
// the order of Kinds.
func (s *Judge) Requirements(out *require.Rows) []Requirement {
	all := make([]Requirement, 0, len(s.Kinds))
	for k, w := range governing(&s.Card, out) {
		if w == nil {
			continue
		}
		q := Requirement{Kind: s.Kinds[k], Value: w.Value, Limit: s.Limits[k], Margin: w.Margin,
			Met: s.Scaled(w) >= require.Meets, Angle: w.Angle, HasAngle: w.HasAngle, Case: w.Case}
		if w.Who >= 0 {
			q.Person = s.Persons[w.Who].Label
		}
		all = append(all, q)
	}
	return all
}

// safety completes a result with what is told of balance, hazards, strength
// and joints beside the requirements.
func (s *Judge) safety(g *specs.Geometry, d drive.State, r *Result, persons *lasting) {
	sat := r.People.Boundary
	r.Seated = persons.curves
	r.Hazards = s.Hazards(s.Scene(g, d, sat, &r.Station))
	r.Strength = s.Strength(g, &r.Station, sat, &d)
	if cable, ok := r.Requirement("cable-factor"); ok {
		r.Strength.Checks = append(r.Strength.Checks, screen.StrengthCheck{Part: require.Name("cable " + s.Cable.Name), What: require.Name("breaking load over the greatest tension"), Value: cable.Value,
			Limit: cable.Limit, AtLeast: true, Met: cable.Met, Source: cable.Source, Mark: "M"})
	}
	r.Protection = s.Protection(g, sat)
	r.Protection = append(r.Protection, disc(sat, persons.held))
}
