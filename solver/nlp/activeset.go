package nlp

import (
	"math"
	"slices"
)

// This file keeps the factors of the active set of dual up to date: with L the
// Cholesky factor of the Hessian and N the active normals, an orthogonal Q and an
// upper triangular R such that QᵀL⁻¹N = (R; 0). Rows enter and leave by Givens
// rotations in O(n²) operations (Goldfarb and Idnani 1983, section 4).

// normal adds alpha times the normal of row p to dst.
func (d *dual) normal(dst []float64, alpha float64, p int) {
	switch j := p - d.m; {
	case j < 0:
		axpy(dst, alpha, d.a[p*d.n:(p+1)*d.n])
	case j < d.n:
		dst[j] += alpha
	default:
		dst[j-d.n] -= alpha
	}
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
		if l != 0 && d.pos[p] < 0 {
			d.normal(d.z, -l, p)
		}
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
