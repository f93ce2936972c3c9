package tolerance

import (
	"math"

	"armwright/solver/drive"
	"armwright/solver/judge"
)

// torque is that of an arm in one axis position, and how it answers to the dimensions.
type torque struct {
	judge.HeldTorque
	unitBy, ownBy [][]float64 // change of Unit and Own, by dimension, then angle
}

// differ sets the slopes of one dimension from the torques at either end of a step.
// Where there is none at an end, the station as designed stands for it: none at both
// leaves no slope.
func (t *torque) differ(d int, low, high *judge.HeldTorque, step float64) {
	unitBy, ownBy := make([]float64, len(t.Unit)), make([]float64, len(t.Unit))
	t.unitBy[d], t.ownBy[d] = unitBy, ownBy
	if t.Fault != nil {
		return
	}
	for _, end := range []**judge.HeldTorque{&low, &high} {
		if (*end).Fault != nil {
			*end, step = &t.HeldTorque, step/2
		}
	}
	for i := range unitBy {
		unitBy[i], ownBy[i] = (high.Unit[i]-low.Unit[i])/step, (high.Own[i]-low.Own[i])/step
	}
}

// camSlopes sets the slopes of a dimension that is an error of the cam, by its formula. Per kg the torque
// is the moment arm times one factor. An error of the cam or its guide changes the moment
// arm in every axis position as in the middle one, but for the cosine of the swing
// between them.
func (m *Model) camSlopes(r *drive.Resistance, d int, e camError) error {
	by := make([]float64, len(m.shape))
	for i, theta := range r.Angles {
		s, err := r.Profile.At(theta)
		if err != nil {
			return err
		}
		by[i] = m.torques[0].Unit[i] / r.MomentArm[i] * armChange(e, r.Profile, s)
	}
	for p := range m.torques {
		m.torques[p].unitBy[d], m.torques[p].ownBy[d] = by, make([]float64, len(by))
	}
	return nil
}

// judged is the margin of a requirement, an index in Kinds.
type judged struct {
	kind   int
	margin float64
}

// torque works out the margins of what is asked of an arm's torque: +Inf where the
// geometry does not have the requirement.
func (m *Model) torque(s *scratch, arm []float64) [3]judged {
	middle, level := m.torques[0].fits(m, s, arm)
	var match, swing, span float64
	for i := range m.loads {
		match = math.Max(match, middle[i])
	}
	for p := range m.torques[1:] {
		t := &m.torques[1+p]
		if t.Fault != nil {
			swing = 1 // misses by all of the peak, as where it is judged
			continue
		}
		at, _ := t.fits(m, s, arm)
		for i := range m.loads {
			swing = math.Max(swing, at[i]-middle[i])
		}
	}
	if m.asked[0] > 0 {
		span = level[0] / m.asked[0]
	}
	span = math.Max(span, m.asked[1]/level[len(level)-1])
	out := [3]judged{{m.match, m.limits[m.match] - match}, {m.swing, m.limits[m.swing] - swing}, {m.span, m.limits[m.span] - span}}
	for i := range out {
		if math.IsNaN(m.limits[out[i].kind]) {
			out[i].margin = math.Inf(1)
		}
	}
	return out
}

// fits are, at each of the three loads, the rms difference of an arm's torque from the
// curve, share of the peak, and the peak of the curve that fits it best, N·mm.
func (t *torque) fits(m *Model, s *scratch, arm []float64) (rms, peak [3]float64) {
	copy(s.unit, t.Unit)
	copy(s.own, t.Own)
	for d, e := range arm {
		if e == 0 {
			continue
		}
		for i, v := range t.unitBy[d] {
			s.unit[i] += v * e
		}
		for i, v := range t.ownBy[d] {
			s.own[i] += v * e
		}
	}
	for j, load := range m.loads {
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
		rms[j], peak[j] = math.Sqrt(sum/float64(len(s.unit))), c
	}
	return rms, peak
}
