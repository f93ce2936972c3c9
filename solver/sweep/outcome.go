package sweep

import (
	"context"
	"crypto/sha256"
	"math"
	"slices"
	"strings"

	"armwright/solver/fit"
	"armwright/solver/judge"
	"armwright/solver/require"
	"armwright/specs"
)

// Invalid is the verdict of a design that is no valid brief, or of which
// nothing can be made; Reason says why.
const Invalid judge.Verdict = "invalid"

// Figure is one number told of every design.
type Figure struct {
	Name string // with underscores, and the unit it is written in at its end
	Unit require.Unit
	More bool // more of it is better
}

// Figures lists the figures of a design in the order of Outcome.Figures: what
// is told of the design as a whole, coverage among it, then the value of every other
// requirement in the order of require.Kinds.
func Figures() []Figure {
	list := []Figure{
		{"margin", require.Number, true},
		{"coverage_percent", require.Share, true},
		{"axis_positions", require.Number, false},
		{"drive_ratio", require.Number, false},
		{"parts_mass_kg", require.Number, false},
	}
	for _, k := range kinds() {
		name := strings.ReplaceAll(k.ID, "-", "_")
		switch k.Unit {
		case require.Length:
			name += "_mm"
		case require.Angle:
			name += "_deg"
		case require.Share:
			name += "_percent"
		}
		list = append(list, Figure{name, k.Unit, k.AtLeast})
	}
	return list
}

// kinds are the requirements that have a figure of their own.
func kinds() []require.Kind {
	return slices.DeleteFunc(require.Kinds(), func(k require.Kind) bool { return k.ID == "coverage" })
}

// Places of the first figures; the requirements follow.
const (
	margin = iota // least of all requirements, in units that matter
	coverage
	axisPositions
	driveRatio
	partsMass
	requirements
)

// Outcome is one design judged.
type Outcome struct {
	Values  []string          // of the axes, as they stand in a file
	Digest  [sha256.Size]byte // of the design's brief or frame as a file
	Verdict judge.Verdict
	Governs string    // requirement with the least margin
	Figures []float64 // inside units; NaN for what is not known
	Reason  string    // why the verdict is Invalid
}

// Worker judges one design after another. It is used by one goroutine.
type Worker interface {
	// Judge gives the outcome of the design with the texts of the axes' values,
	// which are the worker's own to keep. The error is ctx's.
	Judge(ctx context.Context, values []string) (Outcome, error)
	// Digest is the outcome's digest alone.
	Digest(values []string) [sha256.Size]byte
}

// variant is what both workers do with the file that varies.
type variant[T specs.Brief | specs.Frame] struct {
	*specs.Variant[T]
	text []byte
}

func (v *variant[T]) set(values []string) (digest [sha256.Size]byte, err error) {
	err = v.Set(values)
	v.text = v.AppendText(v.text[:0])
	return sha256.Sum256(v.text), err
}

func (v *variant[T]) Digest(values []string) [sha256.Size]byte {
	digest, _ := v.set(values)
	return digest
}

// Evaluator judges frames that differ in a few values; nothing is searched.
type Evaluator struct {
	variant[specs.Frame]
	judge *judge.Judge
	asked bool // values of what is asked change, not of the geometry alone
}

// NewEvaluator returns the worker for a frame with the values at the paths to
// change. The judge is of the frame as it is; several workers may share it.
func NewEvaluator(f specs.Frame, judge *judge.Judge, paths []string) (*Evaluator, error) {
	v, err := specs.Vary(f, paths...)
	if err != nil {
		return nil, err
	}
	e := &Evaluator{variant: variant[specs.Frame]{Variant: v}, judge: judge}
	for _, p := range paths {
		e.asked = e.asked || !strings.HasPrefix(p, "geometry.")
	}
	return e, nil
}

// Judge implements Worker.
func (e *Evaluator) Judge(_ context.Context, values []string) (Outcome, error) {
	out := Outcome{Values: values}
	var err error
	if out.Digest, err = e.set(values); err != nil {
		return out.invalid(err), nil
	}
	f := e.Value()
	judge := e.judge
	if e.asked {
		asked := f.Asked // f changes from design to design
		if judge, err = judge.For(&asked); err != nil {
			return out.invalid(err), nil
		}
	}
	list, err := judge.Margins(&f.Geometry)
	if err != nil {
		return out.invalid(err), nil
	}
	out.take(list, &f.Geometry)
	return out, nil
}

// Solver solves briefs that differ in a few values.
type Solver struct {
	variant[specs.Brief]
	start *specs.Geometry
}

// NewSolver returns the worker for a brief with the values at the paths to
// change. Every search begins from the station start, such as the brief's own,
// or from nothing where that is nil, so that a design's outcome does not hang
// on the ones before.
func NewSolver(b specs.Brief, start *specs.Geometry, paths []string) (*Solver, error) {
	v, err := specs.Vary(b, paths...)
	if err != nil {
		return nil, err
	}
	return &Solver{variant[specs.Brief]{Variant: v}, start}, nil
}

// Judge implements Worker.
func (s *Solver) Judge(ctx context.Context, values []string) (Outcome, error) {
	out := Outcome{Values: values}
	var err error
	if out.Digest, err = s.set(values); err != nil {
		return out.invalid(err), nil
	}
	r, err := fit.Solve(ctx, *s.Value(), &fit.Options{Start: s.start, Starts: 1, Terse: true})
	switch {
	case ctx.Err() != nil:
		return out, ctx.Err()
	case err != nil:
		return out.invalid(err), nil
	case r.NoStation != nil:
		return out.invalid(r.NoStation), nil
	}
	out.take(r.Requirements, &r.Frame.Geometry)
	out.Verdict = r.Verdict
	if r.People.Sample > 0 {
		out.Figures[coverage] = r.People.Coverage
	}
	out.Figures[partsMass] = r.Station.Mass()
	return out, nil
}

// blank makes all figures unknown.
func (o *Outcome) blank() {
	o.Figures = make([]float64, requirements+len(kinds()))
	for i := range o.Figures {
		o.Figures[i] = math.NaN()
	}
}

func (o Outcome) invalid(err error) Outcome {
	o.blank()
	o.Verdict = Invalid
	o.Reason, _, _ = strings.Cut(err.Error(), "\n")
	return o
}

// take fills in the figures from the requirements and the geometry.
func (o *Outcome) take(list []judge.Requirement, g *specs.Geometry) {
	o.blank()
	o.Verdict = judge.Met
	o.Figures[axisPositions] = float64(len(g.Pivots.Axes))
	if g.Cam != nil {
		o.Figures[driveRatio] = g.Cam.Ratio
	}
	at := requirements
	kinds := kinds()
	for i := range list {
		q := &list[i]
		if q.ID == "coverage" {
			o.Figures[coverage] = q.Value
		} else {
			for kinds[at-requirements].ID != q.ID { // both are in the order of Kinds
				at++
			}
			o.Figures[at] = q.Value
		}
		if m := q.Margin / q.Scale; !(m >= o.Figures[margin]) { // the first is NaN
			o.Figures[margin], o.Governs = m, q.ID
		}
		if !q.Met {
			o.Verdict = judge.NotMet
		}
	}
}
