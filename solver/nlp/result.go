package nlp

import (
	"errors"
	"fmt"
)

// Settings steer a minimisation. Nil settings and the zero value mean defaults.
type Settings struct {
	// MaxIterations ends the run with IterationLimit. Zero means 200.
	MaxIterations int

	// Stationarity is the largest gradient of the Lagrangian allowed, over one scale
	// of a variable and relative to the slopes that must cancel (see KKT). Zero
	// means 1e-6.
	Stationarity float64
	// Violation is the largest miss of a row allowed, in units of its RowScale. A
	// row is also granted the rounding error of its own value. Zero means 1e-8.
	Violation float64
	// Complementarity is the largest product of multiplier and row value allowed,
	// relative as Stationarity is. Zero means 1e-6.
	Complementarity float64

	// Improvement ends a run whose rows hold, as Stalled, when the objective has
	// fallen by less than this, relative to the larger of itself and 1, over
	// ImprovementOver iterations, and one that restores rows, as Infeasible, when
	// their violation has fallen by less than this, relative to itself: for models
	// with kinks, on which the exit tests are met late or never. Zero means that
	// nothing is too little.
	Improvement float64

	// Starts is the number of starts of Diagnose (zero means 5). Minimize makes one.
	Starts int
	// Seed fixes the starts. Zero is a seed like any other.
	Seed uint64

	// Shallow ends Diagnose after the repair and the shares: no row is tested by
	// itself, the fighting ones stay NotTested. False means the whole work.
	Shallow bool

	// Recorder sees every iteration. Nil means none.
	Recorder Recorder

	// Warm continues from an earlier answer to a problem of the same shape. Nil
	// means a cold start.
	Warm *Warm

	// Difference selects the formula where Grad or Jac is nil. Zero means Forward.
	Difference Difference
	// Noise is the relative noise of model values; difference steps grow with it.
	// Zero means rounding, 2^-52.
	Noise float64
}

// Difference is a formula for derivatives from values.
type Difference int

const (
	// Forward takes one value a variable, and turns to Central where the
	// accuracy of Forward holds the search up.
	Forward Difference = iota
	// Central takes two values a variable.
	Central
)

// Warm is what a run can reuse from the last one (see Result.Warm).
type Warm struct {
	X           []float64 // start; overrides x0
	Multipliers []float64 // of the rows; nil means unknown
	Active      []int     // rows expected to hold with equality; nil means unknown

	factor []float64 // Hessian factor in scaled variables, if its size still fits
}

// Recorder sees every iteration. An error stops the run: ErrStop quietly, any
// other is handed on by Minimize.
type Recorder interface {
	Record(Iteration) error
}

// ErrStop is what a Recorder returns to end a run with status UserStop.
var ErrStop = errors.New("nlp: stopped by the recorder")

// Iteration is the state at the head of one iteration. F is unscaled; the
// residuals are scaled as in KKT; Step is the largest change of a variable in
// units of its scale that led here, and Alpha the share of the QP step taken.
type Iteration struct {
	Number       int
	F            float64
	Violation    float64
	Stationarity float64
	Step         float64
	Alpha        float64
	Promise      float64 // by how much the step from here would lower F, to first order
	Active       int     // rows and bounds in the active set of the QP
	Elastic      bool    // the linearised rows contradicted each other, or restoration
}

// Stats counts the effort of a run.
type Stats struct {
	Iterations     int
	Evaluations    int // points at which objective and rows were evaluated, differences apart
	JacEvaluations int // points at which derivatives were formed
	Differences    int // model evaluations spent on differences
	Checks         int // model evaluations spent on checking claims
	QPIterations   int // steps of the quadratic programs
}

// Result is the outcome of a minimisation. X and the values belong together
// whatever the status. Signs: the Lagrangian is f - Σ λ_i c_i - Σ zL (x-lower)
// - Σ zU (upper-x), multipliers of inequalities and bounds are >= 0, so λ_i is
// the rise of the optimum per unit by which row i is tightened. With Infeasible the
// multipliers are those of the violation alone, in no particular unit: they mark
// the rows that hold it up.
type Result struct {
	X    []float64
	F    float64
	Rows []float64

	Multipliers      []float64 // of the rows, objective per unit of the row
	LowerMultipliers []float64 // of the lower bounds, objective per unit of the variable
	UpperMultipliers []float64
	Active           []int // rows of the last active set, ascending

	Status  Status
	Message string // what ended the run, with the figures that matter
	Hint    string
	Clipped bool // x0 lay outside the bounds and was moved onto them

	Stats Stats
	KKT   KKT

	factor []float64
}

// Warm returns what a later run on a similar problem can start from.
func (r *Result) Warm() *Warm {
	return &Warm{X: r.X, Multipliers: r.Multipliers, Active: r.Active, factor: r.factor}
}

// resolve fills in the defaults, or reports a setting out of range.
func (s *Settings) resolve() (Settings, error) {
	var t Settings
	if s != nil {
		t = *s
	}
	for _, v := range []struct {
		name  string
		value *float64
		zero  float64
	}{
		{"Stationarity", &t.Stationarity, 1e-6},
		{"Violation", &t.Violation, 1e-8},
		{"Complementarity", &t.Complementarity, 1e-6},
		{"Noise", &t.Noise, epsilon},
	} {
		if *v.value == 0 {
			*v.value = v.zero
		}
		if !(*v.value > 0 && *v.value < 1) {
			return t, &ProblemError{"Settings." + v.name, fmt.Sprintf("%v is out of range", *v.value), "give a value between 0 and 1, or 0 for the default"}
		}
	}
	if t.MaxIterations < 0 || t.Starts < 0 {
		return t, &ProblemError{"Settings", "negative count", "give zero for the default"}
	}
	if t.MaxIterations == 0 {
		t.MaxIterations = 200
	}
	return t, nil
}

// ImprovementOver is the number of iterations over which Settings.Improvement
// looks back.
const ImprovementOver = 4

// epsilon is the spacing of float64 at one.
const epsilon = 0x1p-52
