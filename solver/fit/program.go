package fit

import (
	"armwright/solver/nlp"
	"armwright/specs"
)

// quantisation keeps the solved requirements clear of their limits by a little,
// so that rounding the frame to its file's digits cannot turn a verdict; in
// units that matter.
const quantisation = 0.002

// program is a brief as a nonlinear program.
type program struct{ Judge }

// newProgram makes a brief ready. The errors are those of NewJudge.
func newProgram(a *specs.Asked) (*program, error) {
	j, err := NewJudge(a)
	if err != nil {
		return nil, err
	}
	return &program{*j}, nil
}

// like makes another brief ready, sharing what is the same in both.
func (s *program) like(a *specs.Asked) (*program, error) {
	j, err := s.For(a)
	if err != nil {
		return nil, err
	}
	return &program{*j}, nil
}

// coarseStride is the stride through the angle grid at which the search looks;
// what happens between is seen when a round is finished on the whole grid, and
// paid for with a guard.
const coarseStride = 3

// coarse is the study on every coarseStride-th angle and the last one.
func (s *program) coarse() *program {
	c := *s
	c.angles, c.shape = every(s.angles, coarseStride), every(s.shape, coarseStride)
	c.sin, c.cos = every(s.sin, coarseStride), every(s.cos, coarseStride)
	return &c
}

// every takes each stride-th element of a and the last.
func every(a []float64, stride int) []float64 {
	var out []float64
	for i := 0; i < len(a); i += stride {
		out = append(out, a[i])
	}
	if n := len(a); n > 0 && (n-1)%stride != 0 {
		out = append(out, a[n-1])
	}
	return out
}

// problem states the search as a nonlinear program: the requirements' margins
// in units that matter, less the guards, must not be negative. It returns the
// requirement of each row; rows past those are sanity's.
func (se *search) problem() (nlp.Problem, []int, *nlp.Settings) {
	s := se.s.coarse()
	vars := s.variables(se.g)
	n := len(vars)
	p := nlp.Problem{N: n, Lower: make([]float64, n), Upper: make([]float64, n), Scale: make([]float64, n)}
	for j, v := range vars {
		p.Lower[j], p.Upper[j], p.Scale[j] = v.low, v.high, v.scale
	}
	d := se.d
	d.MomentArm = every(d.MomentArm, coarseStride)
	out := &rows{card: &s.card, quiet: true}
	known := &model{s: s, d: d}
	var sat []Person
	judge := func(x []float64) {
		se.apply(x)
		known.move(x)
		out.list = out.list[:0]
		sat = known.place(se.g, se.set, out, sat[:0])
		s.whole(se.g, d, sat, out, known, nil)
	}
	judge(se.point())
	kinds := make([]int, len(out.list))
	for i, w := range out.list {
		kinds[i] = w.kind
	}
	p.M = len(kinds) + s.sanityRows()
	p.RowScale = ones(p.M)
	p.Both = func(c, x []float64) float64 {
		judge(x)
		for i, w := range out.list {
			c[i] = (w.margin-se.guard[w.kind])/s.kinds[w.kind].Scale - quantisation
		}
		parts := s.sanity(se.g, c[len(kinds):len(kinds)])
		for i := range parts {
			parts[i] /= 5 // mm to units that matter
		}
		return s.objective(se.g, sat)
	}
	return p, kinds, &nlp.Settings{
		MaxIterations: 60, Stationarity: 3e-4, Violation: quantisation / 2, Complementarity: 1e-4, Noise: 1e-13, Improvement: improvement,
		Recorder: recorder{se},
	}
}

// recorder hands the optimiser's iterations on to whoever listens.
type recorder struct{ se *search }

func (r recorder) Record(it nlp.Iteration) error {
	if f := r.se.opt.Progress; f != nil {
		r.se.opt.talk.Lock()
		f(Progress{Axes: r.se.axes, Round: r.se.round, Iteration: it.Number, Worst: it.Violation})
		r.se.opt.talk.Unlock()
	}
	if it.Number >= patience && it.Violation > hopeless {
		return nlp.ErrStop
	}
	return nil
}

// objective is what the station should have least of, once it meets its
// requirements: floor, then misalignment, then feet off the floor and short
// pads. Each term is 1 for an amount a user would call noticeable.
func (s *program) objective(g *specs.Geometry, sat []Person) float64 {
	b := g.Base
	f := (b.Front - b.Rear + b.Width) / floorUnit
	n := float64(len(sat))
	for i := range sat {
		p := &sat[i]
		f += (sq(p.Tilt/(5*deg)) + sq(p.Turn/(10*deg)) + sq(p.Offset/10) + sq(p.HandPath/15)) / n
		f += sq((s.sole(p.Person, p.SeatTop)-40)/80) / n
	}
	if !s.reclined() {
		f += (300 - g.Pad.Far) / 100
	}
	return f
}

func sq(x float64) float64 { return x * x }
