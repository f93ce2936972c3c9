package fit

import (
	"context"
	"fmt"
	"math"
	"slices"

	"armwright/solver/drive"
	"armwright/solver/judge"
	"armwright/solver/nlp"
	"armwright/solver/seat"
	"armwright/specs"
)

// A search whose worst requirement is missed by more than hopeless units that
// matter is not begun again with other settings, nor one whose miss fell to no
// less than stalled of what it was.
// A single run is left when it is still that far off after patience iterations.
const (
	Hopeless = 10
	stalled  = 0.8
	patience = 15
)

// improvement of the objective, relative, that is worth four more iterations.
const improvement = 2e-3

// rounds bounds how often settings are chosen anew and discretisation guards
// widened for one number of axis positions.
const rounds = 6

// Search is the constrained minimisation for one number of axis positions.
type Search struct {
	Program     *Program
	Options     *Options
	Axes        int
	Start       *specs.Geometry // to begin from; nil for the middle of every range
	Geometry    *specs.Geometry
	Drive       drive.State
	Settings    []seat.Setting
	free        *specs.Geometry // where the optimiser left the best round, before finish
	held        []seat.Setting  // that it held there
	Guard       []float64       // by kind, inside units: what discrete settings cost
	anyCounter  bool            // the optimiser may count on another counterweight than the drive was designed with
	iterations  int
	evaluations int
	round       int
	laid        float64 // slope of the pad that the cam is placed for, rad
	Last        nlp.Result
	kinds       []int // of its rows
}

func (se *Search) run(ctx context.Context) error {
	s := se.Program
	se.Geometry = s.begin(se.Axes)
	if se.Start != nil {
		se.Geometry = s.resume(se.Start)
	}
	se.Guard = make([]float64, len(s.Kinds))
	for k := range se.Guard {
		se.Guard[k] = s.RoomOf(k)
	}
	before, least := math.Inf(1), math.Inf(1)
	var best Search
	var held []seat.Setting
	lags := false
	for se.round = 1; se.round <= rounds; se.round++ {
		set, err := se.prepare()
		if drive.Unmade(err) && best.Geometry != nil {
			break // the drive that an earlier round made will do
		}
		if err != nil {
			return err
		}
		if se.Last.Status == nlp.Infeasible && slices.Equal(set, held) && !lags {
			break // nothing has changed that could help
		}
		se.Settings, held = set, set
		if err := se.minimise(ctx); err != nil {
			if ctx.Err() != nil && best.Geometry != nil {
				break // what an earlier round found is the best there is
			}
			return err
		}
		free := judge.Clone(se.Geometry)
		// Complete it as Check would see it, and see what the discrete settings cost.
		done := judge.Clone(se.Geometry)
		if err = se.Complete(done); drive.Unmade(err) && best.Geometry != nil {
			break
		}
		if err != nil {
			return err
		}
		all, err := s.Margins(done)
		if drive.Unmade(err) && best.Geometry != nil {
			break
		}
		if err != nil {
			return err
		}
		short, guard := 0.0, slices.Clone(se.Guard)
		for _, q := range all {
			k := s.KindOf(q.ID)
			miss := s.RoomOf(k) - q.Margin
			if miss <= 0 {
				continue
			}
			short += miss / q.Scale
			if se.Last.Status.Usable() {
				guard[k] += 1.1 * miss
			}
		}
		if short < least {
			least, best = short, *se
			best.Geometry, best.free, best.held = done, free, set
		}
		se.Guard = guard
		miss := se.Last.KKT.Violation
		// Parts that the drive does without are in nobody's way: only where it cannot is it
		// to have another counterweight.
		lags = !se.anyCounter && se.lags()
		if short == 0 || !se.Last.Status.Usable() && (miss > Hopeless || miss > stalled*before && !lags) {
			break
		}
		se.anyCounter = se.anyCounter || lags
		before = miss
	}
	// A later round is not always the better one.
	best.round, best.iterations, best.evaluations = se.round, se.iterations, se.evaluations
	*se = best
	return nil
}

// prepare designs handles and drive for the geometry as it stands, and chooses the
// settings that the optimiser is to hold.
func (se *Search) prepare() ([]seat.Setting, error) {
	s := se.Program
	s.anchor(se.Geometry)
	s.HandlesOf(se.Geometry, s.served(se.Geometry, drive.State{}, s.FreeSettings(se.Geometry, drive.State{})))
	var err error
	// Where the optimiser found what it asks for, the cam stays where it is: to place it anew
	// would undo that.
	if !se.Last.Status.Usable() {
		se.laid = drive.NewMachine(se.Geometry).Rest.Slope
	}
	if se.Drive, err = s.DesignLaid(se.Geometry, se.laid); err != nil {
		return nil, err
	}
	return s.FreeSettings(se.Geometry, se.Drive), nil
}

// Finish chooses the discrete settings and trims what nobody uses.
func (se *Search) Finish(g *specs.Geometry) {
	s := se.Program
	se.Settings = s.FreeSettings(g, se.Drive)
	who := s.served(g, se.Drive, se.Settings)
	s.HandlesOf(g, who)
	s.StepsOf(g, who)
	lo, hi := g.Seat.Positions, 0
	for i := range who {
		lo, hi = min(lo, who[i].Seat), max(hi, who[i].Seat)
	}
	g.Seat.Lowest += float64(lo) * g.Seat.Pitch
	g.Seat.Positions = hi - lo + 1
	s.derive(g) // handle and arm have changed
}

// Complete finishes what the optimiser has left, with a drive designed for where the axes
// and the arm now are. The errors are those of a drive that cannot be made.
func (se *Search) Complete(g *specs.Geometry) error {
	se.Finish(g)
	d, err := se.Program.DesignLaid(g, se.laid)
	if err == nil {
		se.Program.tower(g, &d)
	}
	return err
}

// tower gives the base's tower the height that stack and cable need.
func (s *Program) tower(g *specs.Geometry, d *drive.State) {
	g.Base.TowerTall = 0
	if st := s.Station(g, d, nil); st.Values.HasStack() {
		g.Base.TowerTall = math.Ceil(st.Tower.Tall)
	}
}

// anchor moves the lowest seat position by whole pitches to one below the
// lowest seat anybody wants, so that the optimiser may move people both ways. The
// settings are held while the optimiser works, and a whole pitch too few or too
// many is something it could not mend.
func (s *Program) anchor(g *specs.Geometry) {
	m := drive.NewMachine(g)
	lowest := math.Inf(1)
	var p seat.Sitter
	for i := range s.Persons {
		p.Take(&s.Placer, i)
		lowest = math.Min(lowest, s.WantedSeat(m, &p))
	}
	g.Seat.Lowest += g.Seat.Pitch * (math.Floor((lowest-g.Seat.Lowest)/g.Seat.Pitch) - 1)
}

// minimise runs the optimiser over the continuous variables with the settings
// held.
func (se *Search) minimise(ctx context.Context) error {
	// While it works, the seat goes no higher than somebody sits.
	seats := &se.Geometry.Seat.Positions
	all := *seats
	defer func() { *seats = all }()
	n := 1
	for _, o := range se.Program.served(se.Geometry, se.Drive, se.Settings) {
		n = max(n, o.Seat+1)
	}
	*seats = n
	p, kinds, settings := se.Problem()
	settings.Warm = se.warm(&p)
	r, err := nlp.Minimize(ctx, p, se.Point(), settings)
	if ctx.Err() != nil {
		return ctx.Err()
	}
	if err != nil {
		return fmt.Errorf("fit: %w", err)
	}
	se.Last, se.kinds = r, kinds
	se.iterations += r.Stats.Iterations
	se.evaluations += r.Stats.Evaluations + r.Stats.Differences
	se.Apply(r.X)
	return nil
}

// lags says whether the optimiser ended where nothing misses by more than the torque does
// the curve.
func (se *Search) lags() bool {
	worst, least := -1, -quantisation/2
	for i, v := range se.Last.Rows {
		if v < least {
			worst, least = se.kinds[i], v
		}
	}
	return worst == se.Program.KindOf("torque-match")
}

// warm is what a run before knows of the curvature and of what binds: nothing where
// another drive has since given the station other parts, and so other rows.
func (se *Search) warm(p *nlp.Problem) *nlp.Warm {
	if se.Last.X == nil || len(se.Last.Multipliers) != p.M || len(se.Last.X) != p.N {
		return nil
	}
	w := se.Last.Warm()
	w.X = nil
	return w
}

// Point is where the geometry stands now, inside the bounds.
func (se *Search) Point() []float64 {
	vars := se.Program.Variables(se.Geometry)
	x := make([]float64, len(vars))
	for j, v := range vars {
		x[j] = math.Max(v.low, math.Min(v.high, *v.at))
	}
	return x
}

func (se *Search) Apply(x []float64) {
	for j, v := range se.Program.Variables(se.Geometry) {
		*v.at = x[j]
	}
	se.Program.derive(se.Geometry)
}

// Enter puts the search on a station, with the settings chosen for it.
func (se *Search) Enter(from *specs.Geometry) (err error) {
	se.Geometry = se.Program.resume(from)
	se.Settings, err = se.prepare()
	return err
}
