package nlp

import (
	"context"
	"fmt"
	"math"
)

// Part is the part a row takes in a conflict.
type Part int

const (
	Apart     Part = iota // takes no part
	In                    // belongs to the smallest conflicting set: without it the others can hold
	Maybe                 // fights in the shared conflict, yet the conflict stands without it
	NotTested             // fights, but the work ended before it was tested
)

// RowDiagnosis tells what one row has to do with a conflict.
type RowDiagnosis struct {
	Part Part
	// Share is the part of the conflict this row carries when all rows are relaxed
	// alike, between 0 and 1; the shares of all rows sum to 1.
	Share float64
	// Repair is by how much the row is missed in the cheapest repair, in its unit.
	Repair float64
	// Alone is by how much this row alone would have to be relaxed, all others
	// held, in its unit. It means something only where AloneEnough is set, which is
	// tried for rows In that are not hard.
	Alone       float64
	AloneEnough bool
}

// BoundShare is a bound that takes part in the shared conflict.
type BoundShare struct {
	Variable int
	Upper    bool
	Gain     float64 // fall of Diagnosis.Shared per unit by which the bound is moved out
}

// Diagnosis explains why rows cannot all hold. All of it is local: it holds near
// the points that were found, and says from how many starts.
type Diagnosis struct {
	// Feasible is set when a start led to a point where all rows hold; X is that
	// point and nothing else is filled in.
	Feasible bool
	X        []float64

	Starts           int // starts tried
	InfeasibleStarts int // of which ended with rows missed

	// Shared is the least t such that every soft row missed by at most t of its
	// weight can hold, at SharedX.
	Shared  float64
	SharedX []float64

	// RepairCost is the least sum of violation over weight, at RepairX.
	RepairCost float64
	RepairX    []float64

	Rows     []RowDiagnosis // one a row
	Bounds   []BoundShare   // in order of variables
	Conflict []int          // rows In, ascending
	// Minimal is set when the rows in Conflict contradict each other by themselves
	// and each was shown to be needed for that.
	Minimal bool
	// HardConflict is set when the hard rows contradict each other already; repair
	// and shares then mean little.
	HardConflict bool

	Message string
}

// diagnoseIterations is the default limit of each of the many runs of Diagnose,
// which need a verdict more than the last digit.
const diagnoseIterations = 80

// Diagnose explains from x why the rows of p cannot all hold, or finds that they
// can. Weights are what a miss is counted in, one unit of pain for each row in its
// own unit; nil means RowScale, or 1. Rows marked hard are never relaxed; nil
// means none. The objective plays no part.
//
// It makes Settings.Starts least-violation runs (weighted L1: few rows, the
// cheapest repair), a minimax run (all rows that fight, with multipliers as
// shares), and a deletion filter over the latter (Chinneck and Dravnieks 1991).
// When ctx ends, what is known so far is returned with its error.
func Diagnose(ctx context.Context, p Problem, x []float64, s *Settings, weights []float64, hard []bool) (Diagnosis, error) {
	t, err := s.resolve()
	if err != nil {
		return Diagnosis{}, err
	}
	if t.Starts == 0 {
		t.Starts = 5
	}
	if s == nil || s.MaxIterations == 0 {
		t.MaxIterations = diagnoseIterations
	}
	t.Recorder, t.Warm = nil, nil
	if err := p.validate(); err != nil {
		return Diagnosis{}, err
	}
	if err := p.validateStart("x", x); err != nil {
		return Diagnosis{}, err
	}
	d := diagnoser{ctx: ctx, p: &p, t: &t, x: p.clip(x), weights: weights, hard: hard}
	if weights == nil {
		for i := range p.M {
			d.weights = append(d.weights, p.rowScale(i))
		}
	}
	if hard == nil {
		d.hard = make([]bool, p.M)
	}
	if len(d.weights) != p.M || len(d.hard) != p.M {
		return Diagnosis{}, &ProblemError{"weights", "weights or hard of wrong length", "give one entry a row, or nil"}
	}
	for i, w := range d.weights {
		if !(w > 0) || math.IsInf(w, 1) {
			return Diagnosis{}, &ProblemError{fmt.Sprintf("weights[%d]", i), fmt.Sprintf("%v is not a size", w), "give a finite value above zero"}
		}
	}
	d.Rows = make([]RowDiagnosis, p.M)
	err = d.run()
	d.tell()
	return d.Diagnosis, err
}

// tell writes the message.
func (d *diagnoser) tell() {
	switch {
	case d.Feasible:
		d.Message = fmt.Sprintf("all rows can hold: found at start %d", d.Starts)
	case d.Starts == 0:
		d.Message = "stopped before the first start was finished"
	default:
		d.Message = fmt.Sprintf("locally infeasible from %d of %d starts", d.InfeasibleStarts, d.Starts)
		if d.HardConflict {
			d.Message += "; the hard rows alone contradict each other"
		}
	}
}
