package fit

import (
	"slices"

	"armwright/solver/build"
	"armwright/solver/nlp"
	"armwright/solver/require"
	"armwright/solver/seat"
)

// Problem states the search as a nonlinear program: the requirements' margins
// in units that matter, less the guards, must not be negative. It returns the
// requirement of each row.
func (se *Search) Problem() (nlp.Problem, []int, *nlp.Settings) {
	s := se.Program.coarse()
	vars := s.Variables(se.Geometry)
	n := len(vars)
	p := nlp.Problem{N: n, Lower: make([]float64, n), Upper: make([]float64, n), Scale: make([]float64, n)}
	for j, v := range vars {
		p.Lower[j], p.Upper[j], p.Scale[j] = v.low, v.high, v.scale
	}
	d := se.Drive
	for _, of := range []*[]float64{&d.MomentArm, &d.Unit, &d.Gravity, &d.Own, &d.Linkage.Bars} {
		*of = every(*of, coarseStride)
	}
	turned := &driven{s: s, d: d, any: se.anyCounter}
	out := &require.Rows{Card: &s.Card, Quiet: true}
	known := &model{s: s, d: d}
	served := s.crowd(se.Geometry, d)
	var sat []seat.Person
	var built *build.Station
	judge := func(x []float64) {
		se.Apply(x)
		known.move(x)
		out.List = out.List[:0]
		sat = known.place(se.Geometry, se.Settings, out, sat[:0])
		st := s.Station(se.Geometry, &d, known.Workshop().Maker())
		built = &st
		s.Whole(se.Geometry, d, &st, sat, out, known, nil)
		turned.add(known, se.Geometry, &st, sat, out)
		served.add(known, se.Geometry, out)
	}
	judge(se.Point())
	kinds := make([]int, len(out.List))
	for i, w := range out.List {
		kinds[i] = w.Kind
	}
	p.M = len(kinds)
	p.RowScale = slices.Repeat([]float64{1}, p.M)
	p.Both = func(c, x []float64) float64 {
		judge(x)
		for i, w := range out.List {
			c[i] = (w.Margin-se.Guard[w.Kind])/s.Kinds[w.Kind].Scale - quantisation
		}
		return s.objective(se.Geometry, sat, built)
	}
	return p, kinds, &nlp.Settings{
		MaxIterations: 60, Stationarity: 3e-4, Violation: quantisation / 2, Complementarity: 1e-4, Noise: 1e-13, Improvement: improvement,
		Recorder: recorder{se},
	}
}

// recorder hands the optimiser's iterations on to whoever listens.
type recorder struct{ se *Search }

func (r recorder) Record(it nlp.Iteration) error {
	if f := r.se.Options.Progress; f != nil {
		r.se.Options.talk.Lock()
		f(Progress{Axes: r.se.Axes, Round: r.se.round, Iteration: it.Number, Worst: it.Violation})
		r.se.Options.talk.Unlock()
	}
	if it.Number >= patience && it.Violation > Hopeless {
		return nlp.ErrStop
	}
	return nil
}
