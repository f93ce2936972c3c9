package nlp

import (
	"cmp"
	"context"
	"math"
	"slices"
)

// diagnoser is the work behind Diagnose.
type diagnoser struct {
	Diagnosis
	ctx     context.Context
	p       *Problem
	t       *Settings
	x       []float64
	weights []float64
	hard    []bool
}

func (d *diagnoser) run() error {
	found, err := d.repair()
	if err != nil || found {
		return err
	}
	found, err = d.share()
	if err != nil || found || d.t.Shallow {
		return err
	}
	if err := d.filter(); err != nil {
		return err
	}
	return d.alone()
}

// holds reports whether the rows of r that count all hold, and finds it worth
// believing.
func (d *diagnoser) holds(r *Result, counts func(i int) bool) bool {
	if r.Rows == nil || r.Status == NotFinite {
		return false
	}
	for i, v := range r.Rows {
		// Well above the exit tolerance, well below what an engineer would notice.
		const slack = 100
		if counts(i) && d.p.violation(i, v) > slack*d.t.Violation*d.p.rowScale(i) {
			return false
		}
	}
	return true
}

func every(int) bool { return true }

// repair finds the cheapest repair over all starts, or a point where all holds.
func (d *diagnoser) repair() (found bool, err error) {
	price := make([]float64, d.p.M)
	for i, w := range d.weights {
		price[i] = 1 / w
		if d.hard[i] {
			price[i] = math.Inf(1)
		}
	}
	isHard := func(i int) bool { return d.hard[i] }
	d.RepairCost, d.HardConflict = math.Inf(1), true
	for _, x := range d.p.Spread(d.x, d.t.Starts, d.t.Seed) {
		r := leastViolation(d.ctx, d.p, x, d.t, price)
		if d.ctx.Err() != nil {
			break
		}
		d.Starts++
		if d.holds(&r, every) {
			d.Feasible, d.X = true, r.X
			return true, nil
		}
		d.InfeasibleStarts++
		if r.Status == NotFinite {
			continue
		}
		var cost float64
		for i, v := range r.Rows {
			cost += d.p.violation(i, v) / d.weights[i]
		}
		sound := d.holds(&r, isHard)
		if d.RepairX == nil || sound && d.HardConflict || sound == !d.HardConflict && cost < d.RepairCost {
			d.RepairCost, d.RepairX = cost, r.X
			for i, v := range r.Rows {
				d.Rows[i].Repair = d.p.violation(i, v)
				if d.Rows[i].Repair <= d.t.Violation*d.p.rowScale(i) {
					d.Rows[i].Repair = 0
				}
			}
		}
		d.HardConflict = d.HardConflict && !sound
	}
	if d.RepairX == nil {
		d.RepairCost = 0
		if err := d.ctx.Err(); err != nil {
			return false, err
		}
		return false, &ProblemError{"x", "the model is not finite at any start", "start where the model is defined"}
	}
	return false, d.ctx.Err()
}

// leastShare is the share below which a row does not count as fighting.
const leastShare = 1e-5

// share relaxes all rows alike.
func (d *diagnoser) share() (found bool, err error) {
	var best Result
	for _, x := range [][]float64{d.RepairX, d.x} {
		r, err := minimax(d.ctx, d.p, x, d.t, d.weights, d.hard)
		if err != nil {
			return false, err
		}
		if r.Status != NotFinite && (best.X == nil || r.KKT.Violation <= 1e-6 && r.F < best.F*(1-1e-9)) {
			best = r
		}
	}
	if best.X == nil {
		return false, nil
	}
	n := d.p.N
	d.Shared, d.SharedX = best.F, best.X[:n]
	if best.Status.Usable() {
		c := Result{X: d.SharedX, Rows: make([]float64, d.p.M)}
		rowsOnly(d.p).evaluate(c.Rows, c.X)
		if d.holds(&c, every) {
			d.Diagnosis = Diagnosis{Feasible: true, X: d.SharedX, Starts: d.Starts, InfeasibleStarts: d.InfeasibleStarts}
			return true, nil
		}
	}
	var sum float64
	for i, l := range best.Multipliers {
		d.Rows[i].Share = math.Abs(l) * d.weights[i]
		sum += d.Rows[i].Share
	}
	for i := range d.Rows {
		if sum > 0 {
			d.Rows[i].Share /= sum
		}
		if d.Rows[i].Share > leastShare {
			d.Rows[i].Part = NotTested
		}
	}
	for j := range n {
		for _, b := range []BoundShare{{j, false, best.LowerMultipliers[j]}, {j, true, best.UpperMultipliers[j]}} {
			if b.Gain*d.p.scale(j, d.SharedX[j]) > leastShare*math.Max(best.F, epsilon) {
				d.Bounds = append(d.Bounds, b)
			}
		}
	}
	return false, nil
}

// conflicting reports whether the rows of the set cannot all hold, from the points
// known to be near the conflict. When they can, met is such a point.
func (d *diagnoser) conflicting(set []bool) (stands bool, met Result) {
	price := make([]float64, d.p.M)
	for i, in := range set {
		if in {
			price[i] = 1 / d.weights[i]
		}
	}
	for _, x := range [][]float64{d.SharedX, d.RepairX} {
		if x == nil {
			continue
		}
		r := leastViolation(d.ctx, d.p, x, d.t, price)
		if d.holds(&r, func(i int) bool { return set[i] }) {
			return false, r
		}
	}
	return true, Result{}
}

// gather makes a set of rows that conflicts by itself: those that fight in the
// shared conflict, and as long as these can hold, whatever rows are missed where
// they do (the additive method; Chinneck 2008, 6.1).
func (d *diagnoser) gather() (set []bool, order []int) {
	set = make([]bool, d.p.M)
	for i, r := range d.Rows {
		set[i] = r.Part == NotTested || r.Repair > 0
	}
	for d.ctx.Err() == nil {
		stands, met := d.conflicting(set)
		if stands {
			break
		}
		grown := false
		for i, v := range met.Rows {
			if !set[i] && d.p.violation(i, v) > d.t.Violation*d.p.rowScale(i) {
				set[i], grown = true, true
			}
		}
		if !grown {
			break // all rows hold there after all, within the slack of holds
		}
	}
	for i, in := range set {
		if in {
			d.Rows[i].Part = NotTested
			order = append(order, i)
		}
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(d.Rows[a].Share, d.Rows[b].Share) })
	return set, order
}

// filter drops one fighting row after another, smallest share first, and keeps
// those without which the rest can hold.
func (d *diagnoser) filter() error {
	set, order := d.gather()
	d.Minimal = true
	for _, i := range order {
		if d.ctx.Err() != nil {
			break
		}
		set[i] = false
		stands, _ := d.conflicting(set)
		if d.ctx.Err() != nil {
			break
		}
		switch {
		case !stands:
			set[i] = true
			d.Rows[i].Part = In
			d.Conflict = append(d.Conflict, i)
		case d.Rows[i].Share > leastShare:
			d.Rows[i].Part = Maybe
		default:
			d.Rows[i].Part = Apart
		}
	}
	slices.Sort(d.Conflict)
	d.Minimal = d.ctx.Err() == nil
	return d.ctx.Err()
}

// alone finds how far each row of the conflict would have to move by itself: from
// a point where all others hold, if there is one.
func (d *diagnoser) alone() error {
	others, price := make([]bool, d.p.M), make([]float64, d.p.M)
	for i := range others {
		others[i], price[i] = true, math.Inf(1)
	}
	for _, k := range d.Conflict {
		if d.hard[k] {
			continue
		}
		others[k], price[k] = false, 1/d.weights[k]
		row := &d.Rows[k]
		if stands, met := d.conflicting(others); !stands {
			for _, x := range [][]float64{met.X, d.RepairX} {
				r := leastViolation(d.ctx, d.p, x, d.t, price)
				if !d.holds(&r, func(i int) bool { return i != k }) {
					continue
				}
				if miss := d.p.violation(k, r.Rows[k]); !row.AloneEnough || miss < row.Alone {
					row.Alone, row.AloneEnough = miss, true
				}
			}
		}
		others[k], price[k] = true, math.Inf(1)
		if d.ctx.Err() != nil {
			return d.ctx.Err()
		}
	}
	return nil
}
