package fit

import (
	"math"

	"armwright/specs"
	"armwright/specs/people"
	"armwright/specs/strength"
)

// angleStep is the spacing of the angle grid over the loaded range. Hand path
// and torque are smooth on the scale of a radian: halving it moves no
// requirement by more than 0.1 of its scale.
const angleStep = 5 * deg

// designer designs and evaluates the resistance of one geometry of a brief after
// another. It may be used by several goroutines at a time.
type designer struct {
	card
	asked   *specs.Asked
	persons []people.Person // on the boundary of whom the station must fit
	angles  []float64       // flexion, the loaded range
	sin     []float64       // of the angles
	cos     []float64
	shape   []float64 // strength at the angles, peak 1
	curve   strength.Curve
	supplies
	designs *designs
}

// newDesigner takes what does not differ from another one's, if it is one. The errors
// are those of names that stock or curves do not hold.
func newDesigner(a *specs.Asked, like *designer) (designer, error) {
	s := designer{card: newCard(a, &like.card), asked: a, designs: like.designs}
	known := like.asked
	if known == nil {
		known, s.designs = &specs.Asked{}, &designs{known: map[designKey]remembered{}}
	}
	var err error
	r, q := &a.Resistance, &known.Resistance
	sameCurve := r.Curve == q.Curve && r.CurveTable == q.CurveTable && r.Shoulder == q.Shoulder
	if sameCurve {
		s.curve = like.curve
	} else if s.curve, err = r.StrengthCurve(); err != nil {
		return s, err
	}
	if a.Stock == known.Stock && a.Region == known.Region {
		s.supplies = like.supplies
	} else if s.supplies, err = newSupplies(a.Region, a.Stock); err != nil {
		return s, err
	}
	s.limits[s.index["cam-bend"]] = s.requiredRadius()

	if sameCurve && r.Loaded == q.Loaded {
		s.angles, s.sin, s.cos, s.shape = like.angles, like.sin, like.cos, like.shape
	} else {
		s.grid(int(math.Ceil((r.Loaded.To-r.Loaded.From)/angleStep-1e-9)) + 1)
	}
	if a.People == known.People {
		s.persons = like.persons
	} else {
		s.persons = boundary(a.People)
	}
	return s, nil
}

// units are those of who reads the result, size is a length in them.
func (s *designer) units() specs.Units     { return s.asked.Drawing.Reads() }
func (s *designer) size(mm float64) string { return s.units().Size(mm, "mm") }

func (s *designer) reclined() bool { return s.asked.Kind == "reclined" }
func (s *designer) bench() bool    { return s.asked.Kind == "cam-study" }

// grid divides the loaded range into n angles.
func (s *designer) grid(n int) {
	r := s.asked.Resistance.Loaded
	s.angles, s.sin, s.cos, s.shape = nil, nil, nil, nil
	for i := range n {
		theta := r.From + (r.To-r.From)*float64(i)/float64(n-1)
		sin, cos := math.Sincos(theta)
		s.angles, s.sin, s.cos = append(s.angles, theta), append(s.sin, sin), append(s.cos, cos)
		s.shape = append(s.shape, s.curve.At(theta))
	}
}
