package tolerance

import (
	"math"

	"armwright/solver/judge"
	"armwright/solver/require"
	"armwright/specs"
)

// Model is a geometry with how every requirement answers to every dimension, to
// first order: each row of each person and case by itself, so that which of
// them governs may change from build to build; and the torque as a vector over
// flexion in every axis position that is used, so that its match, its swing and its
// range, which are no straight lines, are worked out exactly from it.
//
// Two requirements are left out of what spreads. Contact is not among the margins: who
// holds the load is the least of many states, which a build of a few millimetres off
// does not choose anew. Coverage counts who of a panel fits, each with settings of their
// own choice, and has steps where a margin has a slope: it stays as designed.
type Model struct {
	Dimensions []Dimension
	Kinds      []require.Kind

	rows    []judge.HeldRow
	margin  []float64           // of the rows, nominal
	slope   [][]float64         // by row, then dimension
	shape   []float64           // strength at the angles
	loads   [3]float64          // kg
	torques []torque            // in the middle axis position, then in each other that is used
	asked   [2]float64          // levels of torque asked for, N·mm, 0 for none
	fixed   []judge.Requirement // that no dimension moves here
	limits  []float64           // by kind; NaN for one that the geometry does not have
	nominal []float64           // margin by kind, NaN likewise
	pickUp  pickUp

	match, swing, span int // indices of the requirements of torque in Kinds
}

// step is the change of a dimension, as a share of its tolerance, over which
// central differences are taken: one standard deviation, so that a row that
// bends, as the lean of one who sits nearly upright, goes through what most
// builds see.
const step = 1.0 / threeSigma

// NewModel works out the model of a geometry. The judge must be of what was
// asked of it. The errors are those of the judge and a *stock.ToleranceError.
func NewModel(j *judge.Judge, f *specs.Frame, c Classes) (*Model, error) {
	g := judge.Clone(&f.Geometry)
	dims, err := Dimensions(g, c)
	if err != nil {
		return nil, err
	}
	list, err := j.Margins(g)
	if err != nil {
		return nil, err
	}
	h, err := j.Hold(g)
	if err != nil {
		return nil, err
	}
	m := &Model{Dimensions: dims, Kinds: require.Kinds()}
	r := h.Resistance()
	m.shape = r.Strength
	m.loads = [3]float64{r.Light.Load, r.Middle.Load, r.Heavy.Load}
	m.rows = h.Rows(g)
	m.margin = h.Margins(nil, g)
	torques, err := h.Torques(g)
	if err != nil {
		return nil, err
	}
	for _, t := range torques {
		m.torques = append(m.torques, torque{t, make([][]float64, len(m.Dimensions)), make([][]float64, len(m.Dimensions))})
	}
	m.asked = [2]float64{f.Asked.Resistance.Torque.From, f.Asked.Resistance.Torque.To}
	m.limits, m.nominal = make([]float64, len(m.Kinds)), make([]float64, len(m.Kinds))
	moved := make([]bool, len(m.Kinds))
	for _, w := range m.rows {
		moved[w.Kind] = true
	}
	m.match, m.swing, m.span = j.KindOf("torque-match"), j.KindOf("torque-swing"), j.KindOf("torque-range")
	moved[m.match], moved[m.swing], moved[m.span] = true, true, true
	at := 0
	for k := range m.Kinds {
		m.limits[k], m.nominal[k] = math.NaN(), math.NaN()
		if at < len(list) && list[at].ID == m.Kinds[k].ID {
			m.limits[k], m.nominal[k] = list[at].Limit, list[at].Margin
			if !moved[k] {
				m.fixed = append(m.fixed, list[at])
			}
			at++
		}
	}
	m.pickUp = newPickUp(f, r, m.torques[0].Unit)
	return m, m.differentiate(h, g)
}

// differentiate fills in the slopes, by central differences, and of the cam
// from its own formula.
func (m *Model) differentiate(h *judge.Held, g *specs.Geometry) error {
	m.slope = make([][]float64, len(m.margin))
	for i := range m.slope {
		m.slope[i] = make([]float64, len(m.Dimensions))
	}
	var low, high []float64
	for d := range m.Dimensions {
		dim := &m.Dimensions[d]
		if dim.at == nil {
			if err := m.camSlopes(h.Resistance(), d, dim.cam); err != nil {
				return err
			}
			continue
		}
		delta := step * dim.Tolerance
		var torques [2][]judge.HeldTorque
		var err error
		for side, sign := range [2]float64{-1, 1} {
			for _, p := range dim.at(g) {
				*p += sign * delta
			}
			if side == 0 {
				low = h.Margins(low[:0], g)
			} else {
				high = h.Margins(high[:0], g)
			}
			if torques[side], err = h.Torques(g); err != nil {
				return err
			}
			for _, p := range dim.at(g) {
				*p -= sign * delta
			}
		}
		// The station as designed stands for an end of the step that cannot be built.
		from, to, span := low, high, 2*delta
		if torques[0][0].Fault != nil {
			from, span = m.margin, span/2
		}
		if torques[1][0].Fault != nil {
			to, span = m.margin, span/2
		}
		for i := range m.slope {
			m.slope[i][d] = (to[i] - from[i]) / span
		}
		for p := range m.torques {
			m.torques[p].differ(d, &torques[0][p], &torques[1][p], 2*delta)
		}
	}
	return nil
}

// scratch is what working out one build needs.
type scratch struct {
	rows  []int        // that may govern
	arms  [2][]float64 // errors of the right and the left arm, by dimension
	mean  []float64
	least []float64 // margin by kind
	unit  []float64
	own   []float64
}

func (m *Model) scratch(rows []int) *scratch {
	n := len(m.Dimensions)
	return &scratch{
		rows: rows,
		arms: [2][]float64{make([]float64, n), make([]float64, n)}, mean: make([]float64, n),
		least: make([]float64, len(m.Kinds)),
		unit:  make([]float64, len(m.shape)), own: make([]float64, len(m.shape)),
	}
}

// active lists the rows that govern in some build within the tolerances: those
// that can come as low as the lowest that some row of their kind is sure to be.
func (m *Model) active(tolerances []float64) []int {
	swing := make([]float64, len(m.rows))
	sure := make([]float64, len(m.Kinds))
	for k := range sure {
		sure[k] = math.Inf(1)
	}
	for i, w := range m.rows {
		for d, t := range tolerances {
			swing[i] += math.Abs(m.slope[i][d]) * t
		}
		sure[w.Kind] = math.Min(sure[w.Kind], m.margin[i]+swing[i])
	}
	var list []int
	for i, w := range m.rows {
		if m.margin[i]-swing[i] <= sure[w.Kind] {
			list = append(list, i)
		}
	}
	return list
}

// build works out the margins of a build from the errors of its two arms, which
// agree in what both share. A person's rows go by the worse arm, the station's
// by the mean of both.
func (m *Model) build(s *scratch) {
	for k := range s.least {
		s.least[k] = math.Inf(1)
	}
	for _, q := range m.fixed {
		for k := range m.Kinds {
			if m.Kinds[k].ID == q.ID {
				s.least[k] = q.Margin
			}
		}
	}
	right, left := s.arms[0], s.arms[1]
	for d := range s.mean {
		s.mean[d] = (right[d] + left[d]) / 2
	}
	for _, i := range s.rows {
		w, v := &m.rows[i], m.margin[i]
		if w.Arm {
			v += math.Min(dot(m.slope[i], right), dot(m.slope[i], left))
		} else {
			v += dot(m.slope[i], s.mean)
		}
		s.least[w.Kind] = math.Min(s.least[w.Kind], v)
	}
	for _, arm := range s.arms {
		for _, v := range m.torque(s, arm) {
			s.least[v.kind] = math.Min(s.least[v.kind], v.margin)
		}
	}
}

func dot(a, b []float64) float64 {
	var sum float64
	for i, v := range a {
		sum += v * b[i]
	}
	return sum
}
