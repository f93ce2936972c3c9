package explain

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
	"sort"
	"strings"

	"armwright/solver/drive"
	"armwright/solver/fit"
	"armwright/solver/judge"
	"armwright/solver/nlp"
	"armwright/solver/require"
	"armwright/specs"
)

// explainer works out which demands of a brief contradict each other, and what
// would mend it. All of it is local: it rests on searches that may miss a
// station, except where prove says otherwise.
type explainer struct {
	ctx   context.Context
	opt   *fit.Options
	s     *fit.Program // of the brief as asked
	brief specs.Brief  // as asked, with what mends earlier conflicts
	all   []demand
	from  *fit.Solution // of the brief as asked
	last  *judge.Result // where the search of the brief ended
	part  part

	Findings

	searches int // made so far

	// nearest is the station at the least sum of misses, nil before shares.
	nearest *judge.Result
}

// part is what a conflict is about. Each rests on the one before it.
type part int

const (
	making   part = iota // whether a drive can be made at all
	driving              // what the drive delivers
	standing             // the station
)

// Findings are why a brief cannot be met, and what would mend it.
type Findings struct {
	Proofs   []fit.Proof // contradictions that simple bounds show
	Conflict []Conflict
	Repairs  []Repair // cheapest first
	Buys     []Buy    // where coverage is all that is missed: most people first

	// Starts are those that the verdict rests on where nothing is proved; 0 where no
	// conflict was looked into.
	Starts int
	// Spent is how many searches the conflict took, where that was all that it may
	// take: it may be smaller, and other changes may mend it. 0 elsewhere.
	Spent   int
	Stopped bool // before the conflict was looked into
}

// Conflicts works out proofs, conflict and repairs of a brief that was solved as opt says and
// is not met. A drive that
// cannot be made, or that falls short even when it is designed for the station
// found, comes first, since it hardly depends on the station; what conflicts in the
// station is then told with the drive mended. The error is ctx.Err() when stopped
// early.
func Conflicts(ctx context.Context, sol *fit.Solution, opt *fit.Options) (Findings, error) {
	brief := specs.Brief{Name: sol.Frame.Name, Asked: sol.Frame.Asked}
	s, err := fit.NewProgram(&brief.Asked)
	if err != nil {
		return Findings{}, err
	}
	if sol.Search != nil && sol.Search.Objective != nil {
		s.Aim(sol.Search.Aims())
	}
	e := &explainer{ctx: ctx, opt: opt, s: s, brief: brief, all: demands(&brief.Asked), from: sol, last: &sol.Result}
	sol.Verdict, e.Proofs, e.Starts = judge.Infeasible, s.Prove(), 1
	if sol.Search != nil {
		e.Starts = max(e.Starts, len(sol.Search.Axes)+sol.Search.Starts-1)
	}
	if e.Buys, err = e.buys(); e.Buys != nil || err != nil {
		e.Starts = 1
		for _, b := range e.Buys {
			if b.Met {
				e.Repairs = append(e.Repairs, Repair{Changes: b.Changes, Cost: giveWay})
			}
		}
		e.note(Conflict{ID: "coverage", Share: 1})
		e.tell()
		return e.Findings, err
	}
	err = e.parts()
	if errors.Is(err, errSearches) {
		e.Spent, err = mostSearches, nil
	}
	if sol.NoStation != nil && len(e.Conflict) == 0 {
		// It can be made on some axes, not on those that the searches began with:
		// any of what it depends on may be to blame.
		for _, d := range e.all {
			if d.drive {
				e.note(Conflict{ID: d.id})
			}
		}
	}
	e.tell()
	return e.Findings, err
}

// mostSearches bounds what a conflict may cost. Contradictory briefs take some
// tens; a brief that asks for everything at once, hundreds.
const mostSearches = 80

// errSearches ends an explanation that takes more.
var errSearches = errors.New("explain: too many searches")

// search counts a search.
func (e *explainer) search() error {
	if e.searches++; e.searches > mostSearches {
		return errSearches
	}
	return nil
}

// open is the program of a changed brief, nil where a bound shows that it cannot hold:
// no search finds what cannot be.
func (e *explainer) open(b *specs.Brief) (*fit.Program, error) {
	s, err := e.s.Like(&b.Asked)
	if err != nil || s.Prove() != nil {
		return nil, err
	}
	return s, nil
}

// parts explains one part after the other.
func (e *explainer) parts() error {
	brief := &e.brief
	done := Repair{}
	if e.from.NoStation != nil {
		e.all = append(e.all, makings(&brief.Asked)...)
		if ok, err := e.pass(making, &done); err != nil || !ok {
			return err
		}
	}
	e.part = driving
	driven, err := e.drives(&e.brief)
	if err != nil {
		return err
	}
	if driven == nil {
		if _, err := e.pass(driving, &done); err != nil {
			return err
		}
	}
	if e.start() != nil && e.last.Verdict != judge.Met && (driven != nil || e.stands()) {
		if e.Repairs, err = e.stage(standing); err != nil {
			return err
		}
		for i := range e.Repairs {
			e.Repairs[i] = done.and(e.Repairs[i])
		}
	}
	return nil
}

// pass explains one part of the drive and goes over to the brief that the
// cheapest way mends, adding it to what was done before; false where there is no
// way. It notes the ways with which everything is met.
func (e *explainer) pass(p part, done *Repair) (bool, error) {
	ways, err := e.stage(p)
	if err != nil {
		return false, err
	}
	e.Repairs = nil
	asked, before, found := e.brief, *done, false
	for _, way := range ways {
		if found && p == driving {
			e.Repairs = append(e.Repairs, before.and(way)) // a search met it already
			continue
		}
		b := asked
		if err := way.Apply(&b); err != nil {
			return false, err
		}
		a, err := e.settle(&b)
		if err != nil {
			return false, err
		}
		r, err := a.Outcome()
		if err != nil {
			return false, err
		}
		if r == nil {
			continue // the drive can be made, but not where this brief's station stands
		}
		whole := before.and(way)
		if r.Verdict == judge.Met {
			e.Repairs = append(e.Repairs, whole)
		}
		if !found {
			found, *done, e.brief, e.last = true, whole, b, r
		}
		if e.last.Verdict != judge.Met {
			break // the others mend no more than this part
		}
	}
	return found, nil
}

// stands says whether something other than the drive is missed where the search
// ended.
func (e *explainer) stands() bool {
	return slices.ContainsFunc(e.last.Requirements, func(q judge.Requirement) bool { return !q.Met && !q.Drive })
}

// start is the station that searches begin from, nil for none.
func (e *explainer) start() *specs.Geometry {
	if e.from.Frame.Kind == "cam-study" {
		return nil
	}
	return &e.last.Frame.Geometry
}

// stage finds the smallest conflict of a part, notes it in the result, and returns
// what mends it, cheapest first.
func (e *explainer) stage(p part) ([]Repair, error) {
	e.part = p
	var shares map[string]float64
	var err error
	if p == standing {
		if shares, err = e.shares(); err != nil {
			return nil, err
		}
	}
	c := &contest{explainer: e}
	for _, d := range e.all {
		if _, judged := e.last.Requirement(d.id); d.drive == (p != standing) && (judged || strings.Contains(d.id, ".")) {
			c.list = append(c.list, rival{demand: d, share: shares[d.id]})
		}
	}
	failed := c.run()
	if failed != nil && !errors.Is(failed, errSearches) {
		return nil, failed
	}
	for _, r := range c.list {
		if r.strict {
			e.note(Conflict{ID: r.id, Share: r.share, Needed: failed == nil || r.alone != nil})
		}
	}
	if failed != nil {
		return nil, failed
	}
	ways, err := e.ways(c.list)
	if err == nil && p == making {
		ways, err = e.swaps(ways)
	}
	if err != nil || len(ways) > 0 {
		return ways, err
	}
	if p == standing {
		return e.together()
	}
	if ways, err = e.several(c.list); err == nil && p == making && len(e.Conflict) == 0 {
		// Even at their loosest: with what is given they conflict all the same.
		for _, r := range c.list {
			e.note(Conflict{ID: r.id})
		}
	}
	return ways, err
}

// note takes a member of a conflict down, once.
func (e *explainer) note(c Conflict) {
	if !slices.ContainsFunc(e.Conflict, func(known Conflict) bool { return known.ID == c.ID }) {
		e.Conflict = append(e.Conflict, c)
	}
}

// leastShare is the part of a conflict below which a demand is no suspect.
const leastShare = 1e-3

// broken says whether a station goes past what a demand asks.
func (e *explainer) broken(d *demand, r *judge.Result) bool {
	for i := range d.ends {
		s, _ := e.brief.Span(d.ends[i].path)
		x, ok := taken(d, &d.ends[i], r)
		if ok && d.ends[i].beyond(s, x) > 1e-6*d.ends[i].unit {
			return true
		}
	}
	return false
}

// tight says whether the station leaves a range or count no room.
func (e *explainer) tight(d *demand) bool {
	if !strings.Contains(d.id, ".") {
		return false
	}
	for i := range d.ends {
		s, _ := e.brief.Span(d.ends[i].path)
		x, ok := taken(d, &d.ends[i], e.last)
		if near := d.ends[i].unit / 10; !ok || math.Abs(s.Value-x) <= near {
			return true
		}
	}
	return false
}

// taken is how much of an end a station takes: the requirement's value, the
// design variable or the count, or what it was allowed where the station does not
// show it. It is unknown where the requirement does not apply.
func taken(d *demand, e *end, r *judge.Result) (float64, bool) {
	g := &r.Frame.Geometry
	switch e.path {
	case "posture.seat_positions":
		return float64(g.Seat.Positions), true
	case "posture.axis_positions":
		return float64(len(g.Pivots.Axes)), true
	case "posture.handle_pitch":
		return g.Handle.Pitch, true
	case "posture.lean.from", "posture.arm_angle.from", "posture.arm_angle.to":
		return reached(e, r), true
	case "posture.pivot_height.from", "posture.pivot_height.to":
		return g.Pivots.Height, true
	case "posture.pivot_spacing.from", "posture.pivot_spacing.to":
		return g.Pivots.Spacing, true
	case "posture.pad_slope.from", "posture.pad_slope.to":
		return g.Pad.Slope, true
	case "posture.back_angle.from", "posture.back_angle.to":
		return g.Back.Angle, true
	}
	if !strings.Contains(d.id, ".") {
		q, ok := r.Requirement(d.id)
		return q.Value, ok
	}
	b := specs.Brief{Asked: r.Frame.Asked}
	s, ok := b.Span(e.path)
	return s.Value, ok
}

// reached is the outermost angle of the boundary persons that a range of the
// posture bounds.
func reached(e *end, r *judge.Result) float64 {
	far := math.Inf(1)
	if e.up {
		far = math.Inf(-1)
	}
	for i := range r.People.Boundary {
		pose := &r.People.Boundary[i].Pose
		x := pose.ArmSlope
		if e.path == "posture.lean.from" {
			x = pose.Lean
		}
		if (x > far) == e.up {
			far = x
		}
	}
	return far
}

// drives judges the drive alone, designed anew for the station that the search
// ended at: nil if it cannot be made or, unless that is all that is asked, falls
// short.
func (e *explainer) drives(b *specs.Brief) (*judge.Result, error) {
	if err := e.ctx.Err(); err != nil {
		return nil, err
	}
	s, err := e.s.Like(&b.Asked)
	if err != nil {
		return nil, err
	}
	g := judge.Clone(&e.last.Frame.Geometry)
	d, err := s.Design(g)
	if drive.Unmade(err) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	out := &require.Rows{Card: &s.Card}
	st := s.Station(g, &d, nil)
	_, d.Dead = s.DriveWeights(&st, &d) // which the design knows as part of d.Own
	sat := e.last.People.Boundary
	s.AlongAxes(g, &st, &d, judge.Others(sat, len(g.Pivots.Axes)))
	s.DriveRows(g, d, &st, sat, out)
	r := &judge.Result{Frame: specs.Frame{Asked: b.Asked, Geometry: *g}, Requirements: s.Requirements(out), Verdict: judge.Met}
	if e.part != making && slices.ContainsFunc(r.Requirements, func(q judge.Requirement) bool { return q.Drive && !q.Met }) {
		return nil, nil
	}
	return r, nil
}

// shares is the part of each requirement in the conflict when all give way
// alike, counted in units that matter. It also finds the station that misses
// the least.
func (e *explainer) shares() (map[string]float64, error) {
	s, err := e.s.Like(&e.brief.Asked)
	if err != nil {
		return nil, err
	}
	se := &fit.Search{Program: s, Options: e.opt, Axes: len(e.start().Pivots.Axes), Guard: make([]float64, len(s.Kinds))}
	if err := se.Enter(e.start()); err != nil {
		return nil, err
	}
	p, kinds, settings := se.Problem()
	settings.Starts, settings.MaxIterations, settings.Shallow = 1, 40, true
	hard := make([]bool, p.M)
	for i := len(kinds); i < p.M; i++ {
		hard[i] = true
	}
	d, err := nlp.Diagnose(e.ctx, p, se.Point(), settings, nil, hard)
	if err != nil {
		return nil, fmt.Errorf("explain: %w", err)
	}
	out := map[string]float64{}
	if d.Feasible {
		return out, nil
	}
	for i, k := range kinds {
		out[s.Kinds[k].ID] += d.Rows[i].Share
	}
	if d.RepairX != nil {
		se.Apply(d.RepairX)
		if err := se.Complete(se.Geometry); drive.Unmade(err) {
			return out, nil
		} else if err != nil {
			return nil, err
		}
		f := e.last.Frame
		f.Geometry = *se.Geometry
		if e.nearest, err = s.Check(f.Quantised(), judge.Persons{}); err != nil {
			return nil, err
		}
	}
	return out, nil
}

// tell completes the conflict: by how much each requirement is missed where the
// search ended, by how much the cheapest repair moves it, and those that are
// missed without being needed for the conflict.
func (e *explainer) tell() {
	for _, q := range e.from.Requirements {
		if !q.Met && !slices.ContainsFunc(e.Conflict, func(c Conflict) bool { return c.ID == q.ID }) {
			e.Conflict = append(e.Conflict, Conflict{ID: q.ID})
		}
	}
	for i := range e.Conflict {
		c := &e.Conflict[i]
		c.Proved = slices.ContainsFunc(e.Proofs, func(p fit.Proof) bool { return slices.Contains(p.Demands, c.ID) })
		if q, ok := e.from.Requirement(c.ID); ok {
			c.Unit = q.Unit
			if !q.Met {
				c.Excess = -q.Margin
			}
		}
		if len(e.Repairs) > 0 {
			c.Repair = e.Repairs[0].moves(c.ID)
		}
	}
	sort.SliceStable(e.Conflict, func(i, j int) bool {
		a, b := &e.Conflict[i], &e.Conflict[j]
		if a.Needed != b.Needed {
			return a.Needed
		}
		return a.Share > b.Share
	})
}

// Conflict is one demand of a brief that cannot hold with the others. Inside
// units.
type Conflict struct {
	ID     string // of the requirement, or the path of a range or count in the brief
	Unit   require.Unit
	Share  float64 // of the conflict, 0 to 1, when all requirements give way alike
	Proved bool    // a bound shows the conflict whatever the station, see Findings.Proofs
	Needed bool    // in a smallest conflicting set: without it the rest of the set can hold
	Excess float64 // by how much it fails at the best compromise
	Repair float64 // by how much it gives way in the cheapest repair; 0 when it need not
}
