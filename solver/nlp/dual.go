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
	warm         []int

	x   []float64
	lam []float64 // multipliers of rows, lower and upper bounds
	pos []int     // place of a row in act, -1 when it is not active
	act []int     // the active set, in the order of the columns of r

	jt []float64 // (L⁻ᵀQ)ᵀ; its first len(act) rows span the active normals
	r  []float64 // upper triangular factor of L⁻¹ times the active normals

	norm    []float64 // Euclidean norms of the rows of a
	d, z, u []float64
	skip    []bool // rows that miss only by rounding
	steps   int
	blocked int // the row that could not be met
}

func newDual(n, m int) *dual {
	k := m + 2*n
	return &dual{
		n: n, m: m,
		x: make([]float64, n), lam: make([]float64, k), pos: make([]int, k), act: make([]int, 0, n),
		jt: make([]float64, n*n), r: make([]float64, n*n),
		norm: make([]float64, m), d: make([]float64, n), z: make([]float64, n), u: make([]float64, n),
		skip: make([]bool, k),
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
	// qpDependentMiss is the relative miss a dependent row is forgiven.
	qpDependentMiss = 1e-9
)

// solve runs the method and returns Converged, Infeasible, IterationLimit or
// NotFinite.
func (d *dual) solve() Status {
	n := d.n
	d.f.invert(d.jt)
	d.act = d.act[:0]
	d.steps, d.blocked = 0, -1
	for k := range d.pos {
		d.pos[k], d.lam[k], d.skip[k] = -1, 0, false
	}
	for i := range d.m {
		d.norm[i] = math.Sqrt(dot(d.a[i*n:(i+1)*n], d.a[i*n:(i+1)*n]))
	}
	// The unconstrained minimum is x = -L⁻ᵀL⁻¹g.
	clear(d.x)
	for k := range n {
		row := d.jt[k*n : (k+1)*n]
		axpy(d.x, -dot(row, d.g), row)
	}
	if !finite(d.x...) {
		return NotFinite
	}
	limit := 20*(d.m+2*n) + 100
	for _, p := range d.warm {
		if p >= 0 && p < len(d.pos) && d.wanting(p) > 0 {
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
		if len(d.equality) > 0 && d.equality[p] {
			lo = -hi
		}
	}
	return lo, hi
}

// wanting returns how much the multiplier of row p, not active, asks to be moved:
// the relative miss of the row when it may still move that way, else zero.
func (d *dual) wanting(p int) float64 {
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
	if miss <= qpTolerance*(math.Abs(rhs)/norm+largest(d.x)) {
		return 0
	}
	return miss
}

// worst returns the row that misses most, or -1.
func (d *dual) worst() int {
	p, most := -1, 0.0
	for k := range d.pos {
		if w := d.wanting(k); w > most {
			p, most = k, w
		}
	}
	return p
}

// project stores (L⁻ᵀQ)ᵀ times sign times the normal of row p in dst.
func (d *dual) project(dst []float64, p int, sign float64) {
	n := d.n
	j := p - d.m
	if j >= n {
		j, sign = j-n, -sign
	}
	for k := range n {
		row := d.jt[k*n : (k+1)*n]
		if p < d.m {
			dst[k] = sign * dot(row, d.a[p*n:(p+1)*n])
		} else {
			dst[k] = sign * row[j]
		}
	}
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
	return -s <= qpDependentMiss*(math.Abs(rhs)+norm*largest(d.x))
}

// backSolve stores R⁻¹ b in dst.
func (d *dual) backSolve(dst, b []float64) {
	n := d.n
	for k := len(b) - 1; k >= 0; k-- {
		s := b[k]
		for j := k + 1; j < len(b); j++ {
			s -= d.r[k*n+j] * dst[j]
		}
		dst[k] = s / d.r[k*n+k]
	}
}

// insert appends row p to the active set; d.d holds its projection times sign.
func (d *dual) insert(p int, sign float64) {
	n, q := d.n, len(d.act)
	for k := n - 1; k > q; k-- {
		c, s, r := givens(d.d[k-1], d.d[k])
		d.d[k-1], d.d[k] = r, 0
		rotateRows(d.jt[(k-1)*n:k*n], d.jt[k*n:(k+1)*n], c, s)
	}
	for k := range q + 1 {
		d.r[k*n+q] = sign * d.d[k]
	}
	d.pos[p] = q
	d.act = append(d.act, p)
}

// remove takes the row at place l out of the active set.
func (d *dual) remove(l int) {
	n, q := d.n, len(d.act)
	d.pos[d.act[l]] = -1
	d.act = slices.Delete(d.act, l, l+1)
	for k := l; k < q-1; k++ {
		d.pos[d.act[k]] = k
		for i := range k + 2 {
			d.r[i*n+k] = d.r[i*n+k+1]
		}
	}
	for k := l; k < q-1; k++ {
		c, s, r := givens(d.r[k*n+k], d.r[(k+1)*n+k])
		d.r[k*n+k], d.r[(k+1)*n+k] = r, 0
		rotateRows(d.r[k*n+k+1:k*n+q-1], d.r[(k+1)*n+k+1:(k+1)*n+q-1], c, s)
		rotateRows(d.jt[k*n:(k+1)*n], d.jt[(k+1)*n:(k+2)*n], c, s)
	}
}

func rotateRows(a, b []float64, c, s float64) {
	b = b[:len(a)]
	for i, v := range a {
		w := b[i]
		a[i] = c*v + s*w
		b[i] = c*w - s*v
	}
}

// refine moves x back onto the active rows, which the rounding of earlier and
// longer steps may have left by a little.
func (d *dual) refine() {
	n := d.n
	for k, p := range d.act { // Rᵀ w = -residuals, forward
		s := -d.residual(p)
		for i := range k {
			s -= d.r[i*n+k] * d.u[i]
		}
		d.u[k] = s / d.r[k*n+k]
	}
	for k := range d.act {
		axpy(d.x, d.u[k], d.jt[k*n:(k+1)*n])
	}
}

// polish makes one Newton step on the active set from the gradient measured at x,
// for x and for the multipliers.
func (d *dual) polish() {
	n, q := d.n, len(d.act)
	d.f.mul(d.z, d.x)
	axpy(d.z, 1, d.g)
	for p, l := range d.lam {
		if l == 0 || d.pos[p] >= 0 {
			continue
		}
		axpy(d.z, -l, d.a[p*n:(p+1)*n]) // bounds have no cap: only rows come here
	}
	for k := range n {
		d.d[k] = dot(d.jt[k*n:(k+1)*n], d.z)
	}
	for k := q; k < n; k++ {
		axpy(d.x, -d.d[k], d.jt[k*n:(k+1)*n])
	}
	d.backSolve(d.u[:q], d.d[:q])
	for k, p := range d.act {
		lo, hi := d.limits(p)
		d.lam[p] = math.Min(math.Max(d.u[k], lo), hi)
	}
	d.refine()
}

// activeRows appends the active rows, bounds left out, to dst in ascending order.
func (d *dual) activeRows(dst []int) []int {
	for i := range d.m {
		if d.pos[i] >= 0 {
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
