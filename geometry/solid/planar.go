package solid

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"armwright/geometry/contour"
)

// planar holds the moments of an area, [i][j] = ∫ xⁱ yʲ dA, for i+j at most 2 what
// the volume and centroid of a prism with oblique ends take, and at most 3 what its
// inertia takes.
type planar [4][4]float64

// Abscissae and weights of Gauss and Legendre's rule on -1...1. Three points are
// exact for a line, along which the integrand is a polynomial of degree 4. On a
// quarter of a circle it is a trigonometric polynomial of degree 5, for which
// the remainder of twelve points is below 1e-16 of the result.
var (
	gauss3 = [...]node{{0, 8. / 9}, {-.7745966692414834, 5. / 9}, {.7745966692414834, 5. / 9}}

	// Each abscissa stands for its negative too.
	gauss12 = [...]node{
		{.1252334085114689, .2491470458134028}, {.3678314989981802, .2334925365383548},
		{.5873179542866175, .2031674267230659}, {.7699026741943047, .1600783285433462},
		{.9041172563704749, .1069393259953184}, {.9815606342467193, .0471753363865118},
	}
)

type node struct{ at, weight float64 }

// roundRule is the sines and cosines of gauss12 on an arc of half an angle: most arcs
// of an outline are alike.
type roundRule struct {
	half     float64
	sin, cos [len(gauss12)]float64
}

func (r *roundRule) set(half float64) {
	if r.half == half {
		return
	}
	r.half = half
	for i, g := range gauss12 {
		r.sin[i], r.cos[i] = math.Sincos(half * g.at)
	}
}

// add adds the area on the left of a closed path up to a degree: by Green's theorem
// ∫ xⁱ yʲ dA = ∮ xⁱ⁺¹ yʲ dy / (i+1).
func (m *planar) add(p contour.Path, degree int, r *roundRule) {
	for k := range p.Len() {
		e := p.Element(k)
		if !e.IsArc() {
			mid, half := r2.Scale(.5, r2.Add(e.Start, e.End)), r2.Scale(.5, r2.Sub(e.End, e.Start))
			for _, g := range gauss3 {
				m.sample(r2.Add(mid, r2.Scale(g.at, half)), half.Y*g.weight, degree)
			}
			continue
		}
		sweep := e.Sweep()
		n := max(1, int(math.Ceil(math.Abs(sweep)/(math.Pi/2)-1e-9)))
		half := sweep / float64(2*n)
		r.set(half)
		across := r2.Sub(e.Start, e.Centre)
		for i := range n {
			mid := turned(across, half*float64(2*i+1))
			for k, g := range gauss12 {
				s, c := r.sin[k], r.cos[k]
				for _, s := range [2]float64{-s, s} {
					d := r2.Vec{X: c*mid.X - s*mid.Y, Y: s*mid.X + c*mid.Y}
					m.sample(r2.Add(e.Centre, d), half*d.X*g.weight, degree)
				}
			}
		}
	}
}

// turned returns v turned by an angle.
func turned(v r2.Vec, angle float64) r2.Vec {
	s, c := math.Sincos(angle)
	return r2.Vec{X: c*v.X - s*v.Y, Y: s*v.X + c*v.Y}
}

// sample adds the share of one point of the loop with the weight dy.
func (m *planar) sample(q r2.Vec, dy float64, degree int) {
	x := q.X
	for i := range degree + 1 {
		f := x * dy / float64(i+1)
		for j := range degree + 1 - i {
			m[i][j] += f
			f *= q.Y
		}
		x *= q.X
	}
}

// disc returns the moments of a full circle about the origin.
func disc(radius float64) planar {
	r2 := radius * radius
	var m planar
	m[0][0] = math.Pi * r2
	m[2][0] = math.Pi * r2 * r2 / 4
	m[0][2] = m[2][0]
	return m
}

// over returns ∫ xⁱ yʲ zⁿ dA with z the height of the end plane, for i+j+n up to
// the degree of the moments.
func (m *planar) over(i, j, n int, e End) float64 {
	if e.Tilt == (r2.Vec{}) {
		return power(e.Z, n) * m[i][j]
	}
	sum := 0.0
	px := 1.0 // binomial share and power of Tilt.X
	for p := range n + 1 {
		py := px
		for q := range n - p + 1 {
			sum += py * power(e.Z, n-p-q) * m[i+p][j+q]
			py *= e.Tilt.Y * float64(n-p-q) / float64(q+1)
		}
		px *= e.Tilt.X * float64(n-p) / float64(p+1)
	}
	return sum
}

func power(x float64, n int) float64 {
	f := 1.0
	for range n {
		f *= x
	}
	return f
}

// bulk returns that of the area carried from one plane to the other.
func (m *planar) bulk(from, to End) (out bulk) {
	out.volume = m.carried(0, 0, 0, from, to)
	out.first.X, out.first.Y, out.first.Z = m.carried(1, 0, 0, from, to), m.carried(0, 1, 0, from, to), m.carried(0, 0, 1, from, to)
	return out
}

// carried is ∫ xⁱ yʲ zᵏ dV of the area carried from one plane to the other.
func (m *planar) carried(i, j, k int, from, to End) float64 {
	return (m.over(i, j, k+1, to) - m.over(i, j, k+1, from)) / float64(k+1)
}

// between returns the moments of the area carried from one plane to the other.
func (m *planar) between(from, to End) moments {
	zed := func(i, j, k int) float64 { return m.carried(i, j, k, from, to) }
	out := moments{bulk: m.bulk(from, to)}
	xy, xz, yz := zed(1, 1, 0), zed(1, 0, 1), zed(0, 1, 1)
	out.second = Tensor{{zed(2, 0, 0), xy, xz}, {xy, zed(0, 2, 0), yz}, {xz, yz, zed(0, 0, 2)}}
	return out
}
