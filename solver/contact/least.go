// Package contact finds the forces between a seated person and what that person leans
// on, and judges whether the person can be held at all.
package contact

import (
	"fmt"
	"math"

	"armwright/geometry/statics"
	"armwright/solver/nlp"
)

// Joint is what the muscles over a segment's joint with its parent can do.
type Joint struct {
	Least, Most float64 // moment on the segment, N·mm; infinite where no more than balance is asked
	Arm         float64 // of the muscles about the joint, mm; 0 for effort that does not count
}

// State is a way in which a body can be held.
type State struct {
	Contacts []statics.Contact
	statics.Forces
	Moments []float64 // by segment, at its joint, N·mm
}

// turnArm makes a moment comparable with forces, mm: about half a seated body's height.
// It scales an equation that holds exactly, and so no answer.
const turnArm = 500.0

// balanceRows are those that keep the whole body in balance, the first of a program.
const balanceRows = 3

// program finds the state with the least sum of squares of contact and muscle forces, a
// patch's evenly spread, of a body on its contacts, for one load after another: what a
// load changes is the constants of its balance alone. The least is that of least energy
// in foam and muscle, if both give in proportion to their force.
type program struct {
	contacts []statics.Contact
	joints   []Joint
	eq       statics.Balance // without a load

	series  *nlp.Series // nil where nothing holds the body
	muscles []int       // segments whose joints' effort counts
	limits  []limit     // of moments at joints
	want    []float64   // of the least squares: zeros of the contacts, then of each joint with muscles
	lo      []float64   // of the rows: balance, joints' limits, then zeros of the contacts
	x       []float64   // of the last state
}

// limit is what a segment's joint may hold at least, sign 1, or at most, sign -1, N·mm.
type limit struct {
	segment     int
	sign, value float64
}

func newProgram(b *statics.Body, joints []Joint, friction float64) *program {
	p := &program{contacts: b.Contacts(), joints: joints}
	p.eq = b.Balance(p.contacts)
	c := len(p.contacts)
	if c == 0 {
		return p
	}
	n := 2 * c
	var squares, rows []float64
	line := func(dst []float64, l *statics.Linear, scale float64) []float64 {
		for i := range c {
			dst = append(dst, scale*l.Normal[i], scale*l.Tangent[i])
		}
		return dst
	}
	for i := range p.contacts {
		w := 1 / math.Sqrt(p.contacts[i].Share)
		for k := range 2 {
			row := make([]float64, n)
			row[2*i+k] = w
			squares = append(squares, row...)
		}
	}
	rows = line(rows, &p.eq.Level, 1)
	rows = line(rows, &p.eq.Upright, 1)
	rows = line(rows, &p.eq.Turn, 1/turnArm)
	for i := 1; i < len(joints); i++ {
		m, j := &p.eq.Moments[i], &joints[i]
		if j.Arm > 0 {
			p.muscles = append(p.muscles, i)
			squares = line(squares, m, 1/j.Arm)
		}
		for _, l := range [2]limit{{i, -1, j.Most}, {i, 1, j.Least}} {
			if !math.IsInf(l.value, -int(l.sign)) {
				p.limits = append(p.limits, l)
				rows = line(rows, m, l.sign/turnArm)
			}
		}
	}
	for i := range p.contacts {
		hold := friction * p.contacts[i].Friction
		for _, side := range [2]float64{1, -1} { // both together keep it from pulling
			cone := make([]float64, n)
			cone[2*i], cone[2*i+1] = hold, side
			rows = append(rows, cone...)
		}
		if hold <= 0 {
			push := make([]float64, n)
			push[2*i] = 1
			rows = append(rows, push...)
		}
	}
	equality := make([]bool, len(rows)/n)
	for i := range balanceRows {
		equality[i] = true
	}
	p.want, p.lo = make([]float64, len(squares)/n), make([]float64, len(equality))
	var err error
	if p.series, err = nlp.NewSeries(n, squares, rows, equality); err != nil {
		panic(fmt.Sprintf("contact: %v", err)) // sizes fit and a body's numbers are finite
	}
	return p
}

// solve looks for the state in which a balance of the body holds, and is false where
// there is none.
func (p *program) solve(eq *statics.Balance) bool {
	if p.series == nil {
		return false
	}
	p.lo[0], p.lo[1], p.lo[2] = -eq.Level.Constant, -eq.Upright.Constant, -eq.Turn.Constant/turnArm
	for k, l := range p.limits {
		p.lo[balanceRows+k] = l.sign * (l.value - eq.Moments[l.segment].Constant) / turnArm
	}
	for k, i := range p.muscles {
		p.want[2*len(p.contacts)+k] = -eq.Moments[i].Constant / p.joints[i].Arm
	}
	x, status, err := p.series.Solve(p.want, p.lo)
	if err != nil {
		panic(fmt.Sprintf("contact: %v", err)) // a body's numbers are finite
	}
	p.x = x
	return status == nlp.Converged
}

// state is that of the last solve.
func (p *program) state(eq *statics.Balance) State {
	c := len(p.contacts)
	out := State{Contacts: p.contacts, Forces: statics.Forces{Push: make([]float64, c), Hold: make([]float64, c)}, Moments: make([]float64, len(p.joints))}
	for i := range c {
		out.Push[i] = math.Max(0, p.x[2*i])
		out.Hold[i] = p.x[2*i+1]
	}
	for i := 1; i < len(p.joints); i++ {
		out.Moments[i] = eq.Moments[i].At(&out.Forces)
	}
	return out
}
