package nlp

import (
	"math"
	"slices"
)

// dual is the dual active-set method of Goldfarb and Idnani ("A numerically stable
// dual method for solving strictly convex quadratic programs", Mathematical
// Programming 27, 1983), extended to upper limits on the multipliers.
//
// It starts at the unconstrained minimum and raises the multiplier of one violated
// row after another, keeping the rows of the active set satisfied with equality,
// so that the dual objective rises with every step. A multiplier that returns to
// zero frees its row. One that reaches its cap is held there: its row stays
// violated and the objective contains the cap times the violation. That is the
// exact L1 penalty, without slack variables. Without caps, a violated row whose
// normal depends on the active ones and that blocks nothing proves inconsistency.
//
// Rows are numbered 0..m-1, lower bounds m+j, upper bounds m+n+j. All storage is
// allocated once and used again.
type dual struct {
	n, m int

	f            *factor // Cholesky factor of the Hessian
	g, a, b      []float64
	equality     []bool
	lower, upper []float64
	cap          []float64
	warm         []int     // rows tried first
	start        []float64 // multipliers to start from, nil for zero

	x   []float64
	lam []float64 // multipliers of rows, lower and upper bounds
	pos []int     // place of a row in act, -1 when it is not active
	act []int     // the active set, in the order of the columns of r

	jt []float64 // (L⁻ᵀQ)ᵀ; its first len(act) rows span the active normals
	r  []float64 // upper triangular factor of L⁻¹ times the active normals

	norm    []float64 // Euclidean norms of the rows of a
	d, z, u []float64
	skip    []bool    // rows that miss only by rounding
	seen    []float64 // x when the worst row was last looked for
	way     float64   // length of the way of x from one such look to the next
	clear   []float64 // way up to which a row cannot be violated
	steps   int
	travel  float64 // largest component of any x on the way
	blocked int     // the row that could not be met
}

func newDual(n, m int) *dual {
	k := m + 2*n
	return &dual{
		n: n, m: m,
		x: make([]float64, n), lam: make([]float64, k), pos: make([]int, k), act: make([]int, 0, n),
		jt: make([]float64, n*n), r: make([]float64, n*n),
		norm: make([]float64, m), d: make([]float64, n), z: make([]float64, n), u: make([]float64, n),
		skip: make([]bool, k), seen: make([]float64, n), clear: make([]float64, m),
	}
}

const (
	// qpTolerance is the miss of a row, relative to the length of the terms it is
	// the difference of, that counts as rounding: some tens of units.
	qpTolerance = 0x1p-46
	// qpDependent is the sine, in the metric of H⁻¹, of the angle to the span of
	// the active normals below which a normal counts as dependent on them. Sines
	// from rounding alone stay near 2^-52 times the square root of the condition.
	qpDependent = 1e-10
	// qpDependentMiss is the relative miss a dependent row is forgiven, and qpTravel
	// that relative to the farthest point on the way, whose rounding stays in x.
	qpDependentMiss = 1e-9
	qpTravel        = 64 * epsilon
)

// solve runs the method and returns Converged, Infeasible, IterationLimit or
// NotFinite.
func (d *dual) solve() Status {
	d.prepare()
	d.free()
	for k, l := range d.start {
		lo, hi := d.limits(k)
		d.lam[k] = math.Min(math.Max(l, lo), hi)
	}
	d.lowest()
	return d.raise()
}

// prepare works out what depends on the matrices alone; no row is active.
func (d *dual) prepare() {
	n := d.n
	d.f.invert(d.jt)
	d.act = d.act[:0]
	for k := range d.pos {
		d.pos[k] = -1
	}
	for i := range d.m {
		d.norm[i] = math.Sqrt(dot(d.a[i*n:(i+1)*n], d.a[i*n:(i+1)*n]))
	}
}

// again is solve for another g and b, once prepared: it begins at the minimum over the
// rows that were active last, less those that hold x back no more. Neither start nor
// caps are asked for.
func (d *dual) again() Status {
	d.free()
	d.lowest()
	if !finite(d.x...) {
		return NotFinite
	}
	for {
		d.refine() // leaves the multipliers times R in u
		d.backSolve(d.u[:len(d.act)], d.u[:len(d.act)])
		drop, least := -1, 0.0
		for k, p := range d.act {
			if d.lam[p] = d.u[k]; !d.equal(p) && d.u[k]*d.norm[p] < least {
				drop, least = k, d.u[k]*d.norm[p]
			}
		}
		if drop < 0 {
			return d.raise()
		}
		d.lam[d.act[drop]] = 0
		d.remove(drop)
		d.lowest()
	}
}

// free forgets all multipliers and what was found of rows.
func (d *dual) free() {
	d.steps, d.blocked = 0, -1
	clear(d.lam)
	clear(d.skip)
}

// lowest sets x to the minimum of the Lagrangian, g and the multipliers of rows that are
// not active its gradient at zero: x = -L⁻ᵀL⁻¹g.
func (d *dual) lowest() {
	n := d.n
	copy(d.z, d.g)
	for k, l := range d.lam {
		if l != 0 && d.pos[k] < 0 {
			d.normal(d.z, -l, k)
		}
	}
	clear(d.x)
	for k := range n {
		row := d.jt[k*n : (k+1)*n]
		axpy(d.x, -dot(row, d.z), row)
	}
}

// raise is the method from a minimum over the active rows on.
func (d *dual) raise() Status {
	if !finite(d.x...) {
		return NotFinite
	}
	copy(d.seen, d.x)
	d.way = 0
	clear(d.clear)
	d.travel = largest(d.x)
	limit := 20*(d.m+2*d.n) + 100
	for _, p := range d.warm {
		if p >= 0 && p < len(d.pos) && d.wanting(p, largest(d.x)) > 0 {
			if s := d.add(p, limit); s != Converged {
				return s
			}
		}
	}
	for range 3 { // a polish may uncover a miss that the errors before it hid
		for {
			p := d.worst()
			if p < 0 {
				break
			}
			if s := d.add(p, limit); s != Converged {
				return s
			}
		}
		d.polish()
		if d.worst() < 0 {
			break
		}
	}
	if !finite(d.x...) {
		return NotFinite
	}
	return Converged
}

// residual returns the value of row p less its right-hand side.
func (d *dual) residual(p int) float64 {
	switch {
	case p < d.m:
		return dot(d.a[p*d.n:(p+1)*d.n], d.x) - d.b[p]
	case p < d.m+d.n:
		return d.x[p-d.m] - d.lower[p-d.m]
	}
	return d.upper[p-d.m-d.n] - d.x[p-d.m-d.n]
}

// limits returns the range of the multiplier of row p.
func (d *dual) limits(p int) (lo, hi float64) {
	hi = math.Inf(1)
	if p < d.m {
		if len(d.cap) > 0 {
			hi = d.cap[p]
		}
		if d.equal(p) {
			lo = -hi
		}
	}
	return lo, hi
}

// equal says whether row p, no bound, is an equality.
func (d *dual) equal(p int) bool { return len(d.equality) > 0 && d.equality[p] }

// wanting returns how much the multiplier of row p, not active, asks to be moved:
// the relative miss of the row when it may still move that way, else zero. Size is
// the largest component of x.
func (d *dual) wanting(p int, size float64) float64 {
	if d.pos[p] >= 0 || d.skip[p] {
		return 0
	}
	var rhs, norm float64
	switch {
	case p < d.m:
		rhs, norm = d.b[p], d.norm[p]
	case p < d.m+d.n:
		if len(d.lower) == 0 || math.IsInf(d.lower[p-d.m], -1) {
			return 0
		}
		rhs, norm = d.lower[p-d.m], 1
	default:
		if len(d.upper) == 0 || math.IsInf(d.upper[p-d.m-d.n], 1) {
			return 0
		}
		rhs, norm = d.upper[p-d.m-d.n], 1
	}
	s := d.residual(p)
	lo, hi := d.limits(p)
	if !(s < 0 && d.lam[p] < hi || s > 0 && d.lam[p] > lo) {
		return 0
	}
	if norm == 0 {
		return math.Abs(s)
	}
	miss := math.Abs(s) / norm
	if miss <= qpTolerance*(math.Abs(rhs)/norm+size) {
		return 0
	}
	return miss
}

// worst returns the row that misses most, or -1. A row that was met by some
// distance is not looked at again before x has come as far, unless it has a
// multiplier to lose.
func (d *dual) worst() int {
	p, most, size := -1, 0.0, largest(d.x)
	for j, v := range d.x {
		d.z[j] = v - d.seen[j]
	}
	d.way += math.Sqrt(dot(d.z, d.z))
	copy(d.seen, d.x)
	n := d.n
	for k, from := range d.clear {
		if d.lam[k] == 0 && !d.equal(k) {
			if d.way < from {
				continue
			}
			if s := dot(d.a[k*n:(k+1)*n], d.x) - d.b[k]; s >= 0 {
				d.clear[k] = d.way + s/d.norm[k]
				continue
			}
		}
		if w := d.wanting(k, size); w > most {
			p, most = k, w
		}
	}
	for k := d.m; k < len(d.pos); k++ {
		if w := d.wanting(k, size); w > most {
			p, most = k, w
		}
	}
	return p
}

// add moves the multiplier of row p until the row holds with equality or the
// multiplier is at a limit, dropping rows whose multipliers reach theirs first.
func (d *dual) add(p, limit int) Status {
	n := d.n
	s := d.residual(p)
	sign := 1.0 // of the change of the multiplier
	if s > 0 {
		sign = -1
	}
	for {
		if d.steps++; d.steps > limit {
			return IterationLimit
		}
		s = math.Min(0, sign*d.residual(p))
		q := len(d.act)
		d.project(d.d, p, sign)
		d1, d2 := d.d[:q], d.d[q:]
		clear(d.z)
		for k, v := range d2 {
			axpy(d.z, v, d.jt[(q+k)*n:(q+k+1)*n])
		}
		d.backSolve(d.u[:q], d1)
		curvature := dot(d2, d2)
		independent := curvature > qpDependent*qpDependent*(dot(d1, d1)+curvature)

		// The longest step that keeps every active multiplier in its range.
		t, drop := math.Inf(1), -1
		for k, a := range d.act {
			lo, hi := d.limits(a)
			var room float64
			switch u := d.u[k]; {
			case u > 0:
				room = (d.lam[a] - lo) / u
			case u < 0:
				room = (hi - d.lam[a]) / -u
			default:
				continue
			}
			if room < t {
				t, drop = math.Max(room, 0), k
			}
		}
		lo, hi := d.limits(p)
		room := hi - d.lam[p]
		if sign < 0 {
			room = d.lam[p] - lo
		}
		full := math.Inf(1)
		if independent {
			full = -s / curvature
		}
		if !independent && d.rounding(p, s) {
			d.skip[p] = true
			return Converged
		}
		if math.IsInf(min(t, room, full), 1) {
			d.blocked = p
			return Infeasible
		}
		step := min(t, room, full)
		if independent {
			axpy(d.x, step, d.z)
			d.travel = math.Max(d.travel, largest(d.x))
		}
		for k, a := range d.act {
			d.lam[a] -= step * d.u[k]
		}
		d.lam[p] += sign * step
		switch {
		case step == full:
			d.insert(p, sign)
			d.refine()
			return Converged
		case step == room:
			d.lam[p] = hi
			if sign < 0 {
				d.lam[p] = lo
			}
			d.refine()
			return Converged
		default:
			a := d.act[drop]
			lo, hi := d.limits(a)
			d.lam[a] = lo
			if d.u[drop] < 0 {
				d.lam[a] = hi
			}
			d.remove(drop)
		}
	}
}

// rounding reports whether the miss s of row p is small enough to be blamed on
// the rounding of the rows it depends on.
func (d *dual) rounding(p int, s float64) bool {
	rhs, norm := 0.0, 1.0
	switch {
	case p < d.m:
		rhs, norm = d.b[p], d.norm[p]
	case p < d.m+d.n:
		rhs = d.lower[p-d.m]
	default:
		rhs = d.upper[p-d.m-d.n]
	}
	return -s <= qpDependentMiss*(math.Abs(rhs)+norm*largest(d.x))+qpTravel*norm*d.travel
}

// activeRows appends the rows held with equality, bounds left out, to dst in
// ascending order. A row that depends on others may carry a multiplier without
// being in the active set.
func (d *dual) activeRows(dst []int) []int {
	for i, l := range d.lam[:d.m] {
		if lo, hi := d.limits(i); d.pos[i] >= 0 || l != 0 && lo <= l && l < hi {
			dst = append(dst, i)
		}
	}
	return dst
}

// conflict returns the rows of the certificate: the blocked one and those active
// ones its normal is a combination of.
func (d *dual) conflict() (rows []int, bounds bool) {
	q := len(d.act)
	d.project(d.d, d.blocked, 1)
	d.backSolve(d.u[:q], d.d[:q])
	take := func(p int) {
		if p < d.m {
			rows = append(rows, p)
		} else {
			bounds = true
		}
	}
	take(d.blocked)
	for k, p := range d.act {
		if p < d.m {
			d.u[k] *= d.norm[p]
		}
	}
	// Shares below the square root of rounding are rounding.
	floor := math.Sqrt(epsilon) * largest(d.u[:q])
	for k, p := range d.act {
		if math.Abs(d.u[k]) > floor {
			take(p)
		}
	}
	slices.Sort(rows)
	return rows, bounds
}
