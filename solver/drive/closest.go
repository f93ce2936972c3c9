package drive

import (
	"math"
	"slices"

	"armwright/geometry/cam"
	"armwright/solver/nlp"
)

// closest is the problem of the closest feasible cam. Unknown are the nodal
// values of the moment-arm law and, where it is allowed, the two components of
// the moment of an eccentric weight, told as a moment arm at the middle load:
//
//	minimise   Σ over loads and angles (h(θ) + share (p cos θ + q sin θ) − want(θ))²
//	subject to ρ(θ) >= radius,  leastArm <= h(θ) <= greatestArm,  |(p, q)| <= most
//
// with h the not-a-knot spline through the values. All but ρ is linear in the
// unknowns, and ρ is linear in h″ and nearly so in h and h' where the guide is
// far off, so a convex least-squares problem with ρ linearised about the last
// answer is solved until the answer stands. Its multipliers then prove it.
type closest struct {
	from, to               float64 // loaded range, rad
	guide                  cam.Guide
	ratio                  float64
	nodes                  int
	angles                 []float64 // where the match is judged, rad
	loads                  []loadCase
	radius                 float64 // least radius of curvature of the cable's centre line, mm
	leastArm, greatestArm  float64 // mm
	most                   float64 // of the eccentric weight, mm; 0 for none
	grid                   []float64
	value, slope, bend, at [][]float64 // maps from nodal values: at the grid, and value at the angles
}

// loadCase is what one load wants. An eccentric weight counts share times as
// much as at the middle load: middle mass over the load's.
type loadCase struct {
	share float64
	want  []float64 // moment arm at each angle, mm
}

// closestAnswer is where the search ended.
type closestAnswer struct {
	law       []float64
	eccentric [2]float64 // p, q, mm
	kkt       nlp.KKT    // of the last convex problem
	rounds    int        // convex problems solved
	settled   float64    // last change of an unknown, mm
}

const (
	finer       = 8    // rows to a step of the law
	relinearise = 40   // linearisations of the radius of curvature; four to eight settle it in practice
	settled     = 1e-7 // mm, change of an unknown at which the answer stands
	bounding    = 16   // sides of the polygon that stands for the circle of the eccentric weight
)

// prepare fills the linear maps. The grid holds the law's nodes, where the
// second derivative bends.
func (c *closest) prepare() error {
	c.nodes = max(int(math.Ceil((c.to-c.from)/lawStep-1e-9))+1, 5)
	c.grid = make([]float64, (c.nodes-1)*finer+1)
	for i := range c.grid {
		c.grid[i] = c.from + (c.to-c.from)*float64(i)/float64(len(c.grid)-1)
	}
	b0, b1, b2, err := cam.Basis(c.from, c.to, c.nodes, c.grid)
	if err != nil {
		return err
	}
	at, _, _, err := cam.Basis(c.from, c.to, c.nodes, c.angles)
	if err != nil {
		return err
	}
	for i := range c.grid {
		c.value = append(c.value, b0.RawRowView(i))
		c.slope = append(c.slope, b1.RawRowView(i))
		c.bend = append(c.bend, b2.RawRowView(i))
	}
	for i := range c.angles {
		c.at = append(c.at, at.RawRowView(i))
	}
	return nil
}

// unknowns is the length of the vector that is solved for.
func (c *closest) unknowns() int {
	if c.most > 0 {
		return c.nodes + 2
	}
	return c.nodes
}

// aims returns the least-squares rows.
func (c *closest) aims() (a, want []float64) {
	for _, l := range c.loads {
		for i, theta := range c.angles {
			a = append(a, c.at[i]...)
			if c.most > 0 {
				sin, cos := math.Sincos(theta)
				a = append(a, l.share*cos, l.share*sin)
			}
			want = append(want, l.want[i])
		}
	}
	return a, want
}

// profile is the cam of nodal values.
func (c *closest) profile(law []float64) (cam.Profile, error) {
	l, err := cam.NewLaw(c.from, c.to, law)
	return cam.Profile{Law: l, Guide: c.guide, Ratio: c.ratio}, err
}

// limits returns the rows, linearised about a law: rows·x >= low.
func (c *closest) limits(law []float64) (rows, low []float64, err error) {
	p, err := c.profile(law)
	if err != nil {
		return nil, nil, err
	}
	n := c.unknowns()
	most := 3*len(c.grid) + bounding
	rows, low = make([]float64, 0, most*n), make([]float64, 0, most)
	add := func(bound float64, row func(j int) float64) {
		for j := range n {
			if j < c.nodes {
				rows = append(rows, row(j))
			} else {
				rows = append(rows, 0)
			}
		}
		low = append(low, bound)
	}
	for i, theta := range c.grid {
		l, err := p.RhoLinear(theta)
		if err != nil {
			return nil, nil, err
		}
		h, h1, h2 := p.Law.At(theta)
		b0, b1, b2 := c.value[i], c.slope[i], c.bend[i]
		add(c.radius-l.Rho+l.C0*h+l.C1*h1+l.C2*h2, func(j int) float64 { return l.C0*b0[j] + l.C1*b1[j] + l.C2*b2[j] })
		add(c.leastArm, func(j int) float64 { return b0[j] })
		add(-c.greatestArm, func(j int) float64 { return -b0[j] })
	}
	if c.most > 0 {
		for k := range bounding {
			sin, cos := math.Sincos(2 * math.Pi * float64(k) / bounding)
			row := make([]float64, n)
			row[n-2], row[n-1] = -cos, -sin
			rows, low = append(rows, row...), append(low, -c.most*math.Cos(math.Pi/bounding))
		}
	}
	return rows, low, nil
}

// solve finds the closest cam from a round one. The error is a *cam.Error or a
// *CamError.
func (c *closest) solve() (closestAnswer, error) {
	if err := c.prepare(); err != nil {
		return closestAnswer{}, err
	}
	n := c.unknowns()
	a, want := c.aims()
	mean := 0.0
	for _, w := range want {
		mean += w / float64(len(want))
	}
	x := make([]float64, n)
	for i := range c.nodes {
		x[i] = math.Min(math.Max(math.Max(mean, c.radius), c.leastArm), c.greatestArm)
	}
	var out closestAnswer
	var rows, low, multipliers []float64
	var active []int
	share, before := 1.0, math.Inf(1)
	for out.rounds = 1; out.rounds <= relinearise; out.rounds++ {
		var err error
		if rows, low, err = c.limits(x[:c.nodes]); err != nil {
			return out, err
		}
		q, err := nlp.LeastSquares(n, a, want, rows, low, nil, active)
		if err != nil {
			return out, err
		}
		if !q.Status.Usable() {
			return out, &CamError{Ratio: c.ratio, Reason: "the cable's bend radius does not fit between the least and the greatest moment arm"}
		}
		multipliers, active = q.Multipliers, q.Active
		out.settled = 0
		for i := range x {
			out.settled = math.Max(out.settled, math.Abs(q.X[i]-x[i]))
		}
		// A step that does not shrink swings about the answer: go part of the way.
		if out.rounds > 3 && out.settled > before/2 {
			share = math.Max(share/2, 0.25)
		}
		before = out.settled
		for i := range x {
			x[i] += share * (q.X[i] - x[i])
		}
		if out.settled < settled {
			copy(x, q.X)
			break
		}
	}
	out.law = x[:c.nodes]
	if c.most > 0 {
		out.eccentric = [2]float64{x[n-2], x[n-1]}
	}
	kkt, err := certify(n, a, want, rows, low, x, multipliers)
	out.kkt = kkt
	return out, err
}

// certify measures the optimality conditions of the convex problem at x: with
// them small no point that meets the rows comes closer.
func certify(n int, a, want, rows, low, x, multipliers []float64) (nlp.KKT, error) {
	residual := make([]float64, len(want))
	miss := func(x []float64) {
		for i := range want {
			residual[i] = -want[i]
			for j := range n {
				residual[i] += a[i*n+j] * x[j]
			}
		}
	}
	p := nlp.Problem{
		N: n, M: len(low), Scale: slices.Repeat([]float64{1}, n), RowScale: slices.Repeat([]float64{1}, len(low)),
		Func: func(x []float64) float64 {
			miss(x)
			sum := 0.0
			for _, r := range residual {
				sum += r * r / 2
			}
			return sum
		},
		Grad: func(grad, x []float64) {
			miss(x)
			for j := range grad {
				grad[j] = 0
				for i, r := range residual {
					grad[j] += a[i*n+j] * r
				}
			}
		},
		Rows: func(c, x []float64) {
			for i := range low {
				c[i] = -low[i]
				for j := range n {
					c[i] += rows[i*n+j] * x[j]
				}
			}
		},
		Jac: func(jac, x []float64) { copy(jac, rows) },
	}
	check, err := nlp.CheckKKT(p, x, multipliers)
	return check.KKT, err
}
