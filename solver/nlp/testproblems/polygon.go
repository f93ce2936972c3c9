package testproblems

import (
	"fmt"
	"math"

	"armwright/solver/nlp"
)

// Polygon is the largest small polygon: the vertices of an n-gon no two of which
// are farther apart than one, of largest area (R. L. Graham, The largest small
// hexagon, J. Combinatorial Theory A 18, 1975; Dolan and Moré, COPS, problem 1).
// One vertex is the origin; the others are given in polar coordinates r_i, θ_i,
// with the angles in order, which makes 2n-2 variables and (n-1)(n-2)/2 + n-1
// rows: pair distances, rising angles, and the last angle at most π. The
// objective is minus the area.
//
// It panics for n below 3.
func Polygon(n int) Problem {
	if n < 3 {
		panic(fmt.Sprintf("testproblems: polygon of %d vertices", n))
	}
	k := n - 1 // free vertices
	p := nlp.Problem{N: 2 * k, M: k*(k-1)/2 + k - 1}
	p.Lower, p.Upper = make([]float64, 2*k), make([]float64, 2*k)
	for i := range k {
		p.Upper[i], p.Upper[k+i] = 1, math.Pi
	}
	p.Func = func(x []float64) float64 {
		var area float64
		for i := range k - 1 {
			area += x[i] * x[i+1] * math.Sin(x[k+i+1]-x[k+i]) / 2
		}
		return -area
	}
	p.Grad = func(g, x []float64) {
		clear(g)
		for i := range k - 1 {
			s, c := math.Sincos(x[k+i+1] - x[k+i])
			g[i] -= x[i+1] * s / 2
			g[i+1] -= x[i] * s / 2
			g[k+i+1] -= x[i] * x[i+1] * c / 2
			g[k+i] += x[i] * x[i+1] * c / 2
		}
	}
	p.Rows = func(v, x []float64) {
		r := 0
		for i := range k {
			for j := range i {
				v[r] = 1 - x[i]*x[i] - x[j]*x[j] + 2*x[i]*x[j]*math.Cos(x[k+i]-x[k+j])
				r++
			}
		}
		for i := range k - 1 {
			v[r+i] = x[k+i+1] - x[k+i]
		}
	}
	p.Jac = func(jac, x []float64) {
		clear(jac)
		r := 0
		for i := range k {
			for j := range i {
				row := jac[r*2*k:]
				s, c := math.Sincos(x[k+i] - x[k+j])
				row[i] = -2*x[i] + 2*x[j]*c
				row[j] = -2*x[j] + 2*x[i]*c
				row[k+i] = -2 * x[i] * x[j] * s
				row[k+j] = 2 * x[i] * x[j] * s
				r++
			}
		}
		for i := range k - 1 {
			jac[(r+i)*2*k+k+i+1] = 1
			jac[(r+i)*2*k+k+i] = -1
		}
	}
	q := Problem{Problem: p, Name: fmt.Sprintf("polygon%d", n), Source: "Graham 1975; COPS problem 1 (M)", X0: make([]float64, 2*k)}
	for i := range k { // a start of COPS (M): 4i(n-i)/(n+1)² and πi/n
		q.X0[i] = 4 * float64((i+1)*(n-i-1)) / float64((n+1)*(n+1))
		q.X0[k+i] = math.Pi * float64(i+1) / float64(n)
	}
	// Areas of local maxima found by another solver (S). That of the hexagon is
	// Graham's; for 25 a better one is known, 0.780232.
	if area, ok := map[int]float64{6: .674981, 12: .760730, 20: .776859, 25: .779741}[n]; ok {
		q.Minima = []Minimum{{F: -area, Global: n == 6}}
	}
	return q
}
