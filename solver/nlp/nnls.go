package nlp

import "math"

// nnls minimises ‖A x − b‖ over x >= 0, where a holds the columns of A. It is the
// active-set method of Lawson and Hanson (Solving Least Squares Problems, 1974,
// ch. 23); each inner problem is solved afresh with a ridge at rounding level, so
// that dependent columns share their load.
func nnls(a [][]float64, b []float64) []float64 {
	n, m := len(a), len(b)
	x := make([]float64, n)
	res := append([]float64(nil), b...)
	in, barred := make([]bool, n), make([]bool, n)
	norm := make([]float64, n)
	for k, c := range a {
		norm[k] = math.Sqrt(dot(c, c))
	}
	// A column enters when its cosine with the residual is above rounding.
	tol := 16 * epsilon * math.Sqrt(dot(b, b))
	for range 3 * (n + 1) {
		enter, most := -1, tol
		for k, c := range a {
			if in[k] || barred[k] || norm[k] == 0 {
				continue
			}
			if g := dot(c, res) / norm[k]; g > most {
				enter, most = k, g
			}
		}
		if enter < 0 {
			break
		}
		in[enter] = true
		for {
			s := ridgeFit(a, in, norm, b)
			step, block := 1.0, -1
			for k := range s {
				if in[k] && s[k] <= 0 {
					if t := x[k] / (x[k] - s[k]); block < 0 || t < step {
						step, block = t, k
					}
				}
			}
			if block < 0 {
				copy(x, s)
				break
			}
			for k := range x {
				if in[k] {
					x[k] += step * (s[k] - x[k])
				}
			}
			x[block], in[block] = 0, false
		}
		if in[enter] {
			clear(barred)
		} else {
			barred[enter] = true // rounding let it in; try the others first
		}
		copy(res, b[:m])
		for k, c := range a {
			axpy(res, -x[k], c)
		}
	}
	return x
}

// ridgeFit solves the least-squares problem over the columns marked in, each
// brought to length one, and returns zeros for the others.
func ridgeFit(a [][]float64, in []bool, norm, b []float64) []float64 {
	var use []int
	for k := range a {
		if in[k] {
			use = append(use, k)
		}
	}
	n, m := len(use), len(b)
	mat, rhs := make([]float64, m*n), make([]float64, n)
	for j, k := range use {
		for i, v := range a[k] {
			mat[i*n+j] = v / norm[k]
		}
		rhs[j] = dot(a[k], b) / norm[k]
	}
	f := newFactor(n)
	f.qr(mat, m, LeastSquaresRidge)
	f.solve(rhs)
	x := make([]float64, len(a))
	for j, k := range use {
		x[k] = rhs[j] / norm[k]
	}
	return x
}
