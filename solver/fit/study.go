// Package fit turns a brief into the geometry of a station, and judges the
// geometry of an existing one. Solve searches; Check only evaluates. Both end
// in the same Result, worked out from the same frame by the same code, so
// that a solved frame checked again gives the same numbers.
package fit

import (
	"math"
	"sync"

	"armwright/geometry/station"
	"armwright/specs"
	"armwright/specs/people"
	"armwright/specs/strength"
)

// angleStep is the spacing of the angle grid over the loaded range. Hand path
// and torque are smooth on the scale of a radian: halving it moves no
// requirement by more than 0.1 of its scale.
const angleStep = 5 * deg

// humeralTurn is how far the humerus may turn about its own length to meet
// the machine axis. Judgement; no published comfort limit at hand.
const humeralTurn = 10 * deg

// study is everything about a brief that does not depend on the geometry.
type study struct {
	card
	asked   *specs.Asked
	persons []people.Person
	bodies  []station.Body
	angles  []float64 // flexion, the loaded range
	sin     []float64 // of the angles
	cos     []float64
	shape   []float64 // strength at the angles, peak 1
	curve   strength.Curve
	supplies
	heavy   int        // index of the heaviest person
	desks   *sync.Pool // of *desk
	designs *designs
}

// desk is memory for judging one geometry after another.
type desk struct {
	rows, tried rows
	sitter      sitter
	sat         []Person
	afresh      afresh
}

func newStudy(a *specs.Asked) (*study, error) {
	return newStudyLike(a, &study{asked: &specs.Asked{},
		desks: &sync.Pool{New: func() any { return new(desk) }}, designs: &designs{known: map[designKey]remembered{}}})
}

// units are those of who reads the result, size is a length in them.
func (s *study) units() specs.Units     { return s.asked.Drawing.Reads() }
func (s *study) size(mm float64) string { return s.units().Size(mm, "mm") }

// newStudyLike is newStudy with what does not differ taken from another study.
func newStudyLike(a *specs.Asked, like *study) (*study, error) {
	s := &study{card: newCard(a, &like.card), asked: a, desks: like.desks, designs: like.designs}
	var err error
	r, q := &a.Resistance, &like.asked.Resistance
	sameCurve := r.Curve == q.Curve && r.CurveTable == q.CurveTable && r.Shoulder == q.Shoulder
	if sameCurve {
		s.curve = like.curve
	} else if s.curve, err = r.StrengthCurve(); err != nil {
		return nil, err
	}
	if a.Stock == like.asked.Stock && a.Region == like.asked.Region {
		s.supplies = like.supplies
	} else if s.supplies, err = newSupplies(a.Region, a.Stock); err != nil {
		return nil, err
	}
	s.limits[s.index["cam-bend"]] = s.requiredRadius()

	if sameCurve && r.Loaded == q.Loaded {
		s.angles, s.sin, s.cos, s.shape = like.angles, like.sin, like.cos, like.shape
	} else {
		s.grid(int(math.Ceil((r.Loaded.To-r.Loaded.From)/angleStep-1e-9)) + 1)
	}

	if a.People == like.asked.People && a.Posture.GripRotation == like.asked.Posture.GripRotation {
		s.persons, s.bodies, s.heavy = like.persons, like.bodies, like.heavy
		return s, nil
	}
	s.persons = boundary(a.People)
	for i, p := range s.persons {
		b := Body(p, a.People, a.Posture.GripRotation)
		s.bodies = append(s.bodies, b)
		if p.Mass > s.persons[s.heavy].Mass {
			s.heavy = i
		}
	}
	return s, nil
}

// grid divides the loaded range into n angles.
func (s *study) grid(n int) {
	r := s.asked.Resistance.Loaded
	s.angles, s.sin, s.cos, s.shape = nil, nil, nil, nil
	for i := range n {
		theta := r.From + (r.To-r.From)*float64(i)/float64(n-1)
		sin, cos := math.Sincos(theta)
		s.angles, s.sin, s.cos = append(s.angles, theta), append(s.sin, sin), append(s.cos, cos)
		s.shape = append(s.shape, s.curve.At(theta))
	}
}

// coarseStride is the stride through the angle grid at which the search looks;
// what happens between is seen when a round is finished on the whole grid, and
// paid for with a guard.
const coarseStride = 3

// coarse is the study on every coarseStride-th angle and the last one.
func (s *study) coarse() *study {
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

func (s *study) reclined() bool { return s.asked.Kind == "reclined" }
func (s *study) bench() bool    { return s.asked.Kind == "cam-study" }
