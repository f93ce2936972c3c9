package cam

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// Overrun is how far past either end of its range, rad, a law may be asked
// for: the travel to the stops.
const Overrun = 5 * math.Pi / 180

// leastNodes is what a not-a-knot spline needs.
const leastNodes = 4

// Law is the moment arm of the cable over elbow flexion, mm over rad: the
// not-a-knot cubic spline through values at equal steps (de Boor, A Practical
// Guide to Splines, 1978, chapter IV). Past the ends it goes on with the
// second derivative it has there. The zero Law is not usable; see NewLaw.
type Law struct {
	from, step float64
	value      []float64
	second     []float64 // second derivative at the nodes
}

// NewLaw returns the law through values at equal steps from the first flexion
// to the last. It needs at least four values, all positive, and from < to. The
// error is an *Error of kind Input.
func NewLaw(from, to float64, values []float64) (Law, error) {
	if err := checkRange(from, to, len(values)); err != nil {
		return Law{}, err
	}
	for _, v := range values {
		if !finite(v) || v <= 0 {
			return Law{}, &Error{Kind: Input, What: "moment arm (mm)", Value: v, Hint: "every value must be above zero"}
		}
	}
	return newLaw(from, to, append([]float64(nil), values...)), nil
}

func checkRange(from, to float64, n int) error {
	if !finite(from, to) || from >= to {
		return &Error{Kind: Input, What: "end of the range (rad)", Value: to, Limit: from, Hint: "the last flexion must be larger than the first"}
	}
	if n < leastNodes {
		return &Error{Kind: Input, What: "number of values", Value: float64(n), Limit: leastNodes, Hint: "give more values of the moment arm"}
	}
	return nil
}

func newLaw(from, to float64, values []float64) Law {
	step := (to - from) / float64(len(values)-1)
	return Law{from: from, step: step, value: values, second: seconds(values, step)}
}

// seconds returns the spline's second derivatives M at the nodes. Inside,
// M[i-1] + 4M[i] + M[i+1] = d[i], six times the second difference. The third
// derivative is continuous at the second node, M[0] = 2M[1] - M[2], which
// turns its equation into 6M[1] = d[1]; the same at the far end.
func seconds(y []float64, step float64) []float64 {
	n := len(y)
	d := make([]float64, n)
	for i := 1; i < n-1; i++ {
		d[i] = 6 * (y[i-1] - 2*y[i] + y[i+1]) / (step * step)
	}
	m := make([]float64, n)
	m[1], m[n-2] = d[1]/6, d[n-2]/6
	// Elimination downwards, then back substitution.
	upper := make([]float64, n)
	m1 := m[1]
	for i := 2; i < n-2; i++ {
		pivot := 4 - upper[i-1]
		upper[i] = 1 / pivot
		m1 = (d[i] - m1) / pivot
		m[i] = m1
	}
	for i := n - 3; i >= 2; i-- {
		m[i] -= upper[i] * m[i+1]
	}
	m[0], m[n-1] = 2*m[1]-m[2], 2*m[n-2]-m[n-3]
	return m
}

// Range returns the flexions between which the law's values are given.
func (l Law) Range() (from, to float64) {
	return l.from, l.from + l.step*float64(len(l.value)-1)
}

// Values returns a copy of the values at the nodes.
func (l Law) Values() []float64 { return append([]float64(nil), l.value...) }

// At returns the moment arm, mm, and its first and second derivatives by
// flexion, mm/rad and mm/rad^2. It is meant for the range and Overrun past its
// ends; farther out the parabola goes on but means nothing.
func (l Law) At(theta float64) (h, h1, h2 float64) {
	last := len(l.value) - 2
	u := (theta - l.from) / l.step
	i := int(math.Max(0, math.Min(float64(last), math.Floor(u))))
	u -= float64(i)
	s := l.step
	y0, y1, m0, m1 := l.value[i], l.value[i+1], l.second[i], l.second[i+1]
	slope := (y1 - y0) / s
	switch {
	case u < 0:
		x := u * s
		h1 = slope - s*(2*m0+m1)/6
		return y0 + x*(h1+x*m0/2), h1 + x*m0, m0
	case u > 1:
		x := (u - 1) * s
		h1 = slope + s*(m0+2*m1)/6
		return y1 + x*(h1+x*m1/2), h1 + x*m1, m1
	}
	v := 1 - u
	h = v*y0 + u*y1 + s*s/6*((v*v*v-v)*m0+(u*u*u-u)*m1)
	h1 = slope + s/6*((1-3*v*v)*m0+(3*u*u-1)*m1)
	h2 = v*m0 + u*m1
	return h, h1, h2
}

// Integral returns the integral of the moment arm over flexion, mm, from a to
// b, exact for the spline; negative if b < a.
func (l Law) Integral(a, b float64) float64 {
	if b < a {
		return -l.Integral(b, a)
	}
	// Two Gauss points integrate a cubic exactly; cut at the nodes.
	sum, x := 0.0, a
	for i := range l.value {
		if node := l.from + float64(i)*l.step; node > x && node < b {
			sum += l.gauss(x, node)
			x = node
		}
	}
	return sum + l.gauss(x, b)
}

func (l Law) gauss(a, b float64) float64 {
	mid, off := (a+b)/2, (b-a)/2/math.Sqrt(3)
	h0, _, _ := l.At(mid - off)
	h1, _, _ := l.At(mid + off)
	return (b - a) / 2 * (h0 + h1)
}

// Basis returns the linear maps from a law's n values, at equal steps from the
// first flexion to the last, to its moment arm and first and second
// derivatives at thetas: with y the values, b0 y, b1 y and b2 y are what
// Law.At gives. Rows go with thetas, columns with values. The error is an
// *Error of kind Input; thetas must not be empty.
func Basis(from, to float64, n int, thetas []float64) (b0, b1, b2 *mat.Dense, err error) {
	if err := checkRange(from, to, n); err != nil {
		return nil, nil, nil, err
	}
	if len(thetas) == 0 {
		return nil, nil, nil, &Error{Kind: Input, What: "number of angles", Limit: 1, Hint: "give the angles at which the law is wanted"}
	}
	b0, b1, b2 = mat.NewDense(len(thetas), n, nil), mat.NewDense(len(thetas), n, nil), mat.NewDense(len(thetas), n, nil)
	for j := range n {
		unit := make([]float64, n)
		unit[j] = 1
		l := newLaw(from, to, unit)
		for i, theta := range thetas {
			h, h1, h2 := l.At(theta)
			b0.Set(i, j, h)
			b1.Set(i, j, h1)
			b2.Set(i, j, h2)
		}
	}
	return b0, b1, b2, nil
}
