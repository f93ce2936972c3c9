package nlp

import "math"

// factor is the lower Cholesky factor L of a symmetric positive definite matrix
// B = L Lᵀ, stored row-major n×n with the strict upper part zero.
type factor struct {
	n int
	l []float64

	v, w, bs []float64 // scratch
}

func newFactor(n int) *factor {
	return &factor{n: n, l: make([]float64, n*n), v: make([]float64, n), w: make([]float64, n), bs: make([]float64, n)}
}

// identity sets B = b I.
func (f *factor) identity(b float64) {
	clear(f.l)
	d := math.Sqrt(b)
	for i := range f.n {
		f.l[i*f.n+i] = d
	}
}

// setDiagonal sets B to the diagonal matrix b.
func (f *factor) setDiagonal(b []float64) {
	clear(f.l)
	for i, v := range b {
		f.l[i*f.n+i] = math.Sqrt(v)
	}
}

// qr sets B = AᵀA + ridge² I for the matrix a, row-major m×n, by Householder
// reflections of A with ridge·I below it, which keeps the accuracy that forming
// AᵀA would lose (Golub and Van Loan, Matrix Computations, 5.2).
func (f *factor) qr(a []float64, m int, ridge float64) {
	n := f.n
	rows := m + n
	q := make([]float64, rows*n)
	copy(q, a)
	for i := range n {
		q[(m+i)*n+i] = ridge
	}
	for k := range n {
		var norm float64
		for i := k; i < rows; i++ {
			norm = math.Hypot(norm, q[i*n+k])
		}
		if norm == 0 {
			continue
		}
		if q[k*n+k] > 0 {
			norm = -norm
		}
		// Reflector v = column - norm e_k, kept in place below the diagonal.
		vk := q[k*n+k] - norm
		for j := k + 1; j < n; j++ {
			s := vk * q[k*n+j]
			for i := k + 1; i < rows; i++ {
				s += q[i*n+k] * q[i*n+j]
			}
			s /= norm * vk
			q[k*n+j] += s * vk
			for i := k + 1; i < rows; i++ {
				q[i*n+j] += s * q[i*n+k]
			}
		}
		q[k*n+k] = norm
	}
	clear(f.l)
	for i := range n {
		sign := math.Copysign(1, q[i*n+i])
		for j := i; j < n; j++ {
			f.l[j*n+i] = sign * q[i*n+j]
		}
	}
}

// mulT stores Lᵀ x in dst.
func (f *factor) mulT(dst, x []float64) {
	n := f.n
	clear(dst)
	for i, xi := range x {
		axpy(dst[:i+1], xi, f.l[i*n:i*n+i+1])
	}
}

// mul stores B x in dst.
func (f *factor) mul(dst, x []float64) {
	n := f.n
	f.mulT(f.v, x)
	for i := range n {
		dst[i] = dot(f.l[i*n:i*n+i+1], f.v[:i+1])
	}
}

// solve replaces x by B⁻¹ x.
func (f *factor) solve(x []float64) {
	n := f.n
	for i := range n {
		x[i] = (x[i] - dot(f.l[i*n:i*n+i], x[:i])) / f.l[i*n+i]
	}
	for i := n - 1; i >= 0; i-- {
		x[i] /= f.l[i*n+i]
		axpy(x[:i], -x[i], f.l[i*n:i*n+i])
	}
}

// invert stores L⁻¹, row-major lower triangular, in dst.
func (f *factor) invert(dst []float64) {
	n := f.n
	clear(dst)
	for i := range n {
		di := dst[i*n : i*n+i+1]
		for k := range i {
			axpy(di, -f.l[i*n+k], dst[k*n:k*n+i+1])
		}
		di[i] = 1
		r := 1 / f.l[i*n+i]
		for k := range di {
			di[k] *= r
		}
	}
}

// spread returns the ratio of the largest to the smallest diagonal entry, a lower
// bound of the square root of the condition of B.
func (f *factor) spread() float64 {
	lo, hi := math.Inf(1), 0.0
	for i := range f.n {
		d := math.Abs(f.l[i*f.n+i])
		lo, hi = math.Min(lo, d), math.Max(hi, d)
	}
	return hi / lo
}

// diagonal returns entry k of the diagonal of B.
func (f *factor) diagonal(k int) float64 {
	row := f.l[k*f.n : k*f.n+k+1]
	return dot(row, row)
}

// along returns the curvature of B along x, zero for a zero x.
func (f *factor) along(x []float64) float64 {
	xx := dot(x, x)
	if xx == 0 {
		return 0
	}
	f.mulT(f.v, x)
	return dot(f.v, f.v) / xx
}

// damping is the least curvature along the step, as a share of the curvature
// already in B, that an update lets in (Powell 1978).
const damping = 0.2

// update makes the damped BFGS update of B for the step s and the change y of the
// gradient, in product form L + w vᵀ made triangular again by Givens rotations:
// B stays positive definite by construction (Dennis and Schnabel 1983, A9.4.2).
// It overwrites y with the damped change and reports whether it was damped.
func (f *factor) update(s, y []float64) (damped bool) {
	n := f.n
	f.mul(f.bs, s) // leaves Lᵀs in v
	v, w := f.v, f.w
	sbs, sy := dot(v, v), dot(s, y)
	if !(sbs > 0) || !finite(sbs, sy) {
		return true
	}
	if sy < damping*sbs {
		theta := (1 - damping) * sbs / (sbs - sy)
		for i := range y {
			y[i] = theta*y[i] + (1-theta)*f.bs[i]
		}
		sy, damped = damping*sbs, true
	}
	alpha := math.Sqrt(sy / sbs)
	for i := range w {
		w[i] = (y[i] - alpha*f.bs[i]) / (alpha * sbs)
	}
	// Rows of U = Lᵀ are columns of L: rotate v onto its first entry, upwards,
	// which makes U upper Hessenberg; add v₀wᵀ to row 0; rotate back downwards.
	for k := n - 2; k >= 0; k-- {
		c, sn, r := givens(v[k], v[k+1])
		v[k], v[k+1] = r, 0
		f.rotate(k, c, sn, k)
	}
	for j := range n {
		f.l[j*n] += v[0] * w[j]
	}
	for k := range n - 1 {
		c, sn, _ := givens(f.l[k*n+k], f.l[k*n+k+1])
		f.rotate(k, c, sn, k)
		f.l[k*n+k+1] = 0
	}
	for k := range n {
		if f.l[k*n+k] < 0 {
			for j := k; j < n; j++ {
				f.l[j*n+k] = -f.l[j*n+k]
			}
		}
	}
	return damped
}

// rotate applies a rotation to columns k and k+1 of L from row first down.
func (f *factor) rotate(k int, c, s float64, first int) {
	n := f.n
	for j := first; j < n; j++ {
		a, b := f.l[j*n+k], f.l[j*n+k+1]
		f.l[j*n+k] = c*a + s*b
		f.l[j*n+k+1] = c*b - s*a
	}
}

// givens returns the rotation (c, s) that turns (a, b) into (r, 0).
func givens(a, b float64) (c, s, r float64) {
	if b == 0 {
		return 1, 0, a
	}
	r = math.Hypot(a, b)
	return a / r, b / r, r
}

func dot(a, b []float64) float64 {
	b = b[:len(a)]
	var s float64
	for i, v := range a {
		s += v * b[i]
	}
	return s
}

// axpy adds alpha x to dst.
func axpy(dst []float64, alpha float64, x []float64) {
	if alpha == 0 {
		return
	}
	x = x[:len(dst)]
	for i := range dst {
		dst[i] += alpha * x[i]
	}
}

// largest returns the largest absolute value of x, zero for an empty x.
func largest(x []float64) float64 {
	var s float64
	for _, v := range x {
		if a := math.Abs(v); a > s {
			s = a
		}
	}
	return s
}

// LeastSquaresRidge is the relative size of the ridge in LeastSquares: the square
// root of the rounding unit, so that the ridge adds rounding to the normal matrix.
const LeastSquaresRidge = 0x1p-26
