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
// flexion, so that its match, which is no straight line, is worked out exactly
// from it.
type Model struct {
	Dimensions []Dimension
	Kinds      []require.Kind

	rows    []judge.HeldRow
	margin  []float64   // of the rows, nominal
	slope   [][]float64 // by row, then dimension
	shape   []float64   // strength at the angles
	loads   [3]float64  // kg
	unit    []float64   // delivered per kg, nominal, at the angles
	own     []float64   // moments of the arm's own weights
	unitBy  [][]float64 // change of unit, by dimension, then angle
	ownBy   [][]float64
	fixed   []judge.Requirement // that no dimension moves here
	limits  []float64           // by kind; NaN for one that the geometry does not have
	nominal []float64           // margin by kind, NaN likewise
	torque  int                 // index of torque-match in Kinds
	pickUp  pickUp
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
	if m.unit, m.own, err = h.Torque(g); err != nil {
		return nil, err
	}
	m.limits, m.nominal = make([]float64, len(m.Kinds)), make([]float64, len(m.Kinds))
	moved := make([]bool, len(m.Kinds))
	for _, w := range m.rows {
		moved[w.Kind] = true
	}
	at := 0
	for k := range m.Kinds {
		m.limits[k], m.nominal[k] = math.NaN(), math.NaN()
		if m.Kinds[k].ID == "torque-match" {
			m.torque, moved[k] = k, true
		}
		if at < len(list) && list[at].ID == m.Kinds[k].ID {
			m.limits[k], m.nominal[k] = list[at].Limit, list[at].Margin
			if !moved[k] {
				m.fixed = append(m.fixed, list[at])
			}
			at++
		}
	}
	m.pickUp = newPickUp(f, r, m.unit)
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
		unitBy, ownBy := make([]float64, len(m.unit)), make([]float64, len(m.unit))
		m.unitBy, m.ownBy = append(m.unitBy, unitBy), append(m.ownBy, ownBy)
		if dim.at == nil {
			r := h.Resistance()
			for i, theta := range r.Angles {
				s, err := r.Profile.At(theta)
				if err != nil {
					return err
				}
				// Per kg the torque is the moment arm times one factor.
				unitBy[i] = m.unit[i] / r.MomentArm[i] * armChange(dim.cam, r.Profile, s)
			}
			continue
		}
		delta := step * dim.Tolerance
		var unit, own [2][]float64
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
			if unit[side], own[side], err = h.Torque(g); err != nil {
				return err
			}
			for _, p := range dim.at(g) {
				*p -= sign * delta
			}
		}
		for i := range m.slope {
			m.slope[i][d] = (high[i] - low[i]) / (2 * delta)
		}
		for i := range m.unit {
			unitBy[i], ownBy[i] = (unit[1][i]-unit[0][i])/(2*delta), (own[1][i]-own[0][i])/(2*delta)
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
		unit:  make([]float64, len(m.unit)), own: make([]float64, len(m.unit)),
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
	worst := 0.0
	for _, arm := range s.arms {
		worst = math.Max(worst, m.match(s, arm))
	}
	s.least[m.torque] = m.limits[m.torque] - worst
}

func dot(a, b []float64) float64 {
	var sum float64
	for i, v := range a {
		sum += v * b[i]
	}
	return sum
}

// match is the worst rms difference of an arm's torque from the curve over the
// three loads, share of the peak: what fit's torque-match is.
func (m *Model) match(s *scratch, arm []float64) float64 {
	copy(s.unit, m.unit)
	copy(s.own, m.own)
	for d, e := range arm {
		if e == 0 {
			continue
		}
		for i, v := range m.unitBy[d] {
			s.unit[i] += v * e
		}
		for i, v := range m.ownBy[d] {
			s.own[i] += v * e
		}
	}
	worst := 0.0
	for _, load := range m.loads {
		var ds, ss float64
		for i, u := range s.unit {
			ds += (load*u + s.own[i]) * m.shape[i]
			ss += m.shape[i] * m.shape[i]
		}
		c := ds / ss
		var sum float64
		for i, u := range s.unit {
			e := (load*u+s.own[i])/c - m.shape[i]
			sum += e * e
		}
		worst = math.Max(worst, math.Sqrt(sum/float64(len(s.unit))))
	}
	return worst
}
