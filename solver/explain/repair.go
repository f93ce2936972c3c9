package explain

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"sort"

	"armwright/solver/fit"
	"armwright/solver/judge"
	"armwright/specs"
)

// Repair is a change of the brief that lets it be met: a search of the changed
// brief, begun as Solve begins, ended in a station that meets everything.
type Repair struct {
	Changes []Change
	Cost    float64 // units that matter by which the brief gives way
}

// Change is one value of a brief moved, as Brief.Set takes it.
type Change struct {
	Path     string // "posture.seat_positions"
	From, To string // as they stand in a file: "4", "1500 mm"
	ID       string // of the demand that gives way
	By       float64
}

// moves is by how much a demand gives way, inside units.
func (r *Repair) moves(id string) float64 {
	by := 0.0
	for _, c := range r.Changes {
		if c.ID == id {
			by = math.Max(by, c.By)
		}
	}
	return by
}

// and is a repair that makes the changes of both, more's after r's.
func (r Repair) and(more Repair) Repair {
	out := Repair{slices.Clone(r.Changes), r.Cost + more.Cost}
	for _, c := range more.Changes {
		i := slices.IndexFunc(out.Changes, func(before Change) bool { return before.Path == c.Path })
		if i < 0 {
			out.Changes = append(out.Changes, c)
			continue
		}
		out.Changes[i].To, out.Changes[i].By = c.To, out.Changes[i].By+c.By
	}
	return out
}

// Apply makes the changes in a brief. The error is a *specs.Problems where the
// brief has no such value.
func (r Repair) Apply(b *specs.Brief) error {
	for _, c := range r.Changes {
		if err := b.Set(c.Path, c.To); err != nil {
			return err
		}
	}
	return nil
}

// ways are the repairs by which one demand of a conflict gives way alone, as
// little as will do, cheapest first.
func (e *explainer) ways(set []rival) ([]Repair, error) {
	var list []Repair
	for i := range set {
		if set[i].alone == nil {
			continue
		}
		r, err := e.give(&set[i].demand, set[i].alone)
		if errors.Is(err, errSearches) && len(list) > 0 {
			break // those found will do
		}
		if err != nil {
			return nil, err
		}
		if r != nil {
			list = append(list, *r)
		}
	}
	sort.SliceStable(list, func(i, j int) bool { return list[i].Cost < list[j].Cost })
	return list, nil
}

// test says whether a changed brief holds.
type test func(*specs.Brief) (bool, error)

// solves says whether a search of a brief, begun as Solve begins, meets it.
func (e *explainer) solves(b *specs.Brief) (bool, error) {
	a, err := e.sought(b)
	return err == nil && a != nil && a.Met, err
}

// solvesAnew is solves with a search that came near begun anew, as Solve does: for what
// is counted, where the next number would be a dear answer.
func (e *explainer) solvesAnew(b *specs.Brief) (bool, error) {
	a, err := e.sought(b)
	if err == nil && a != nil {
		brief := b.Quantised()
		a, err = a.Anew(e.ctx, &brief, nil)
	}
	return err == nil && a != nil && a.Met, err
}

// sought is what a search of a brief ends with; nil where a proof says that it is in vain.
func (e *explainer) sought(b *specs.Brief) (*fit.Attempt, error) {
	brief := b.Quantised()
	if s, err := e.open(&brief); s == nil {
		return nil, err
	}
	return e.settle(b)
}

// give finds by how little a demand must give way alone, given a station that
// shows that it can; nil if the brief does not hold when it is changed so. Where
// more than the drive fails, a change of the drive is asked only to mend the
// drive.
func (e *explainer) give(d *demand, shown *judge.Result) (*Repair, error) {
	holds := test(e.solves)
	if d.drive && (e.part == making || e.stands()) {
		holds = func(b *specs.Brief) (bool, error) {
			r, err := e.drives(b)
			return r != nil, err
		}
	}
	switch {
	case d.drive && d.ends[0].kind != "" && e.failsBy(d.id) > 0:
		// The drive comes as close as it can.
		s, _ := e.brief.Span(d.ends[0].path)
		return e.assure(d, []float64{d.ends[0].moved(s, e.failsBy(d.id))}, holds)
	case d.id == "posture.seat_positions" || d.id == "posture.axis_positions":
		return e.counted(d, shown)
	case d.drive || d.coarse():
		return e.narrow(d, holds)
	}
	values := make([]float64, len(d.ends))
	for i := range d.ends {
		values[i], _ = taken(d, &d.ends[i], shown)
	}
	return e.assure(d, values, holds)
}

// failsBy is by how much a requirement is missed where the search ended.
func (e *explainer) failsBy(id string) float64 {
	if q, ok := e.last.Requirement(id); ok && !q.Met {
		return -q.Margin
	}
	return 0
}

// changed returns the brief with the ends of a demand at values, rounded to the
// lenient side, and the changes and cost of that.
func (e *explainer) changed(d *demand, values []float64) (specs.Brief, Repair) {
	b := e.brief
	var r Repair
	for i := range d.ends {
		v := &d.ends[i]
		s, _ := b.Span(v.path)
		by := v.beyond(s, values[i])
		if by == 0 {
			continue
		}
		x := v.lenient(s, values[i])
		by = v.beyond(s, x)
		c := Change{Path: v.path, From: s.Format(s.Value), To: s.Format(x), ID: d.id, By: by}
		if err := b.Set(c.Path, c.To); err != nil {
			panic(fmt.Sprintf("explain: %s: %v", c.Path, err))
		}
		r.Changes, r.Cost = append(r.Changes, c), r.Cost+by/v.unit
	}
	return b, r
}

// pushes bounds how often a repair is enlarged, by a quarter of it or half a
// unit that matters, before it is given up.
const pushes = 4

// assure moves a demand, and moves it farther until the brief holds. Nil if it
// never does.
func (e *explainer) assure(d *demand, values []float64, holds test) (*Repair, error) {
	before := 0.0
	for range pushes {
		b, r := e.changed(d, values)
		if r.Cost <= before { // it gives way no farther
			return nil, nil
		}
		before = r.Cost
		if ok, err := holds(&b); err != nil || ok {
			return &r, err
		}
		for i := range d.ends {
			v := &d.ends[i]
			s, _ := e.brief.Span(v.path)
			if by := v.beyond(s, values[i]); by > 0 {
				values[i] = v.moved(s, by+math.Max(by/4, v.unit/2))
			}
		}
	}
	return nil, nil
}

// counted finds a number of positions that mends the brief: the one that a
// station took when it was allowed as many as the format allows, or fewer while
// the brief still holds.
func (e *explainer) counted(d *demand, found *judge.Result) (*Repair, error) {
	s, _ := e.brief.Span(d.ends[0].path)
	most, _ := taken(d, &d.ends[0], found)
	var best *Repair
	for n := most; n > s.Value; n-- {
		b, r := e.changed(d, []float64{n})
		ok, err := e.solvesAnew(&b)
		if err != nil {
			return nil, err
		}
		if !ok {
			break
		}
		best = &r
	}
	if best == nil { // one position to spare for where a search from the middle ends
		return e.assure(d, []float64{most + 1}, e.solves)
	}
	return best, nil
}

// narrow halves, between what is asked and the loosest, how far one end of a
// demand must move for the brief to hold, and assures the answer. It is for
// demands that are quick to judge or coarse.
func (e *explainer) narrow(d *demand, holds test) (*Repair, error) {
	var best *Repair
	for i := range d.ends {
		one := *d
		one.ends = d.ends[i : i+1]
		r, err := e.halve(&one, holds)
		if err != nil {
			return nil, err
		}
		if r != nil && (best == nil || r.Cost < best.Cost) {
			best = r
		}
	}
	return best, nil
}

// halve is narrow for a demand of one end.
func (e *explainer) halve(d *demand, holds test) (*Repair, error) {
	const halvings = 6
	s, _ := e.brief.Span(d.ends[0].path)
	at := func(t float64) []float64 { return []float64{s.Value + t*(d.ends[0].loosest(s)-s.Value)} }
	enough := func(t float64) (bool, error) {
		b, _ := e.changed(d, at(t))
		return holds(&b)
	}
	if ok, err := enough(1); err != nil || !ok {
		return nil, err
	}
	lo, hi := 0.0, 1.0
	for range halvings {
		ok, err := enough((lo + hi) / 2)
		switch {
		case err != nil:
			return nil, err
		case ok:
			hi = (lo + hi) / 2
		default:
			lo = (lo + hi) / 2
		}
	}
	return e.assure(d, at(hi), holds)
}

// together moves every limit that is missed, starting from the station that
// misses the least, until the brief is met. It is for conflicts that no demand
// mends alone.
func (e *explainer) together() ([]Repair, error) {
	missed := e.nearest
	if missed == nil || fit.Cost(e.last.Requirements) < fit.Cost(missed.Requirements) {
		missed = e.last
	}
	b := e.brief
	for range pushes {
		for _, q := range missed.Requirements {
			if !q.Met {
				e.yield(&b, q)
			}
		}
		a, err := e.settle(&b)
		if err != nil {
			return nil, err
		}
		if a.Met {
			return []Repair{e.difference(&b)}, nil
		}
		if missed, err = a.Outcome(); err != nil || missed == nil {
			return nil, err
		}
	}
	return nil, nil
}

// yield moves in the brief what lets a requirement hold that is missed: its own
// limit, or seat positions where it has none.
func (e *explainer) yield(b *specs.Brief, q judge.Requirement) {
	if q.ID == "seat-range" {
		s, _ := b.Span("posture.seat_positions")
		s.Set(math.Min(s.Most, s.Value+math.Ceil(-q.Margin/b.Posture.SeatPitch)))
		return
	}
	for i := range e.all {
		for _, v := range e.all[i].ends {
			if v.kind != q.ID {
				continue
			}
			s, _ := b.Span(v.path)
			if q.Within && v.up != (q.Value > s.Value) {
				continue // the other end of the range
			}
			x := v.lenient(s, v.moved(s, -q.Margin+v.unit/4))
			if err := b.Set(v.path, s.Format(x)); err != nil {
				panic(fmt.Sprintf("explain: %s: %v", v.path, err))
			}
		}
	}
}

// difference tells what has given way from the brief explained to another.
func (e *explainer) difference(to *specs.Brief) Repair {
	var r Repair
	for i := range e.all {
		d := &e.all[i]
		for k := range d.ends {
			v := &d.ends[k]
			was, _ := e.brief.Span(v.path)
			now, _ := to.Span(v.path)
			if by := v.beyond(was, now.Value); by > 0 {
				r.Changes = append(r.Changes, Change{Path: v.path, From: was.Format(was.Value), To: was.Format(now.Value), ID: d.id, By: by})
				r.Cost += by / v.unit
			}
		}
	}
	return r
}
