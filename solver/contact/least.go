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

// Least is the state with the least sum of squares of contact and muscle forces, a
// patch's evenly spread; it is false where none exists. Friction is a factor on that of
// every patch. The least is that of least energy in foam and muscle, if both give in
// proportion to their force.
func Least(b *statics.Body, joints []Joint, friction float64) (State, bool) {
	contacts := b.Contacts()
	eq := b.Balance(contacts)
	c := len(contacts)
	n := 2 * c
	line := func(l *statics.Linear, scale float64) []float64 {
		row := make([]float64, 0, n)
		for i := range c {
			row = append(row, scale*l.Normal[i], scale*l.Tangent[i])
		}
		return row
	}
	var q program
	for i := range contacts {
		w := 1 / math.Sqrt(contacts[i].Share)
		for k := range 2 {
			row := make([]float64, n)
			row[2*i+k] = w
			q.least(row, 0)
		}
	}
	for _, v := range []struct {
		of    *statics.Linear
		scale float64
	}{{&eq.Level, 1}, {&eq.Upright, 1}, {&eq.Turn, 1 / turnArm}} {
		q.equal(line(v.of, v.scale), -v.scale*v.of.Constant)
	}
	for i := range joints {
		m, j := &eq.Moments[i], &joints[i]
		if i == 0 {
			continue
		}
		if j.Arm > 0 {
			q.least(line(m, 1/j.Arm), -m.Constant/j.Arm)
		}
		if !math.IsInf(j.Most, 1) {
			q.atLeast(line(m, -1/turnArm), (m.Constant-j.Most)/turnArm)
		}
		if !math.IsInf(j.Least, -1) {
			q.atLeast(line(m, 1/turnArm), (j.Least-m.Constant)/turnArm)
		}
	}
	for i := range contacts {
		push := make([]float64, n)
		push[2*i] = 1
		q.atLeast(push, 0)
		for _, side := range [2]float64{1, -1} {
			cone := make([]float64, n)
			cone[2*i], cone[2*i+1] = friction*contacts[i].Friction, side
			q.atLeast(cone, 0)
		}
	}
	r, err := nlp.LeastSquares(n, q.a, q.b, q.rows, q.lo, q.equality, nil)
	if err != nil {
		panic(fmt.Sprintf("contact: %v", err)) // sizes fit and a body's numbers are finite
	}
	if r.Status != nlp.Converged {
		return State{}, false
	}
	out := State{Contacts: contacts, Forces: statics.Forces{Push: make([]float64, c), Hold: make([]float64, c)}, Moments: make([]float64, len(joints))}
	for i := range c {
		out.Push[i] = math.Max(0, r.X[2*i])
		out.Hold[i] = r.X[2*i+1]
	}
	for i := 1; i < len(joints); i++ {
		out.Moments[i] = eq.Moments[i].At(&out.Forces)
	}
	return out, true
}

// program gathers the rows of a least-squares problem.
type program struct {
	a, b     []float64
	rows, lo []float64
	equality []bool
}

func (q *program) least(row []float64, want float64) {
	q.a, q.b = append(q.a, row...), append(q.b, want)
}

func (q *program) equal(row []float64, want float64) { q.row(row, want, true) }

func (q *program) atLeast(row []float64, least float64) { q.row(row, least, false) }

func (q *program) row(row []float64, lo float64, equality bool) {
	q.rows, q.lo, q.equality = append(q.rows, row...), append(q.lo, lo), append(q.equality, equality)
}
