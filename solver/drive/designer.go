package drive

import (
	"math"
	"sync"

	"armwright/solver/require"
	"armwright/specs"
	"armwright/specs/people"
	"armwright/specs/strength"

	"gonum.org/v1/gonum/spatial/r3"
)

// AngleStep is the spacing of the angle grid over the loaded range. Hand path
// and torque are smooth on the scale of a radian: halving it moves no
// requirement by more than 0.1 of its scale.
const AngleStep = 5 * specs.Degree

// Designer designs and evaluates the resistance of one geometry of a brief after
// another. It may be used by several goroutines at a time.
type Designer struct {
	require.Card
	Asked   *specs.Asked
	Persons []people.Person // on the boundary of whom the station must fit
	Angles  []float64       // flexion, the loaded range
	Sin     []float64       // of the angles
	Cos     []float64
	Shape   []float64 // strength at the angles, peak 1
	curve   strength.Curve
	limbs   [2]limb // of the median woman and man
	supplies
	designs *designs
	own     []float64 // what the parts of the drive weighed at the last design, N·mm at each angle; nil before
	laid    float64   // slope of the pad that the cam is placed for, rad
}

// New takes what does not differ from another one's, if it is one. The errors
// are those of names that stock or curves do not hold.
func New(a *specs.Asked, like *Designer) (Designer, error) {
	s := Designer{Card: require.NewCard(a, &like.Card), Asked: a, designs: like.designs}
	known := like.Asked
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
	s.Follow("cam-bend", s.requiredRadius())
	s.Follow("torque-range", 1)

	if sameCurve && r.Loaded == q.Loaded {
		s.Angles, s.Sin, s.Cos, s.Shape = like.Angles, like.Sin, like.Cos, like.Shape
	} else {
		s.grid(int(math.Ceil((r.Loaded.To-r.Loaded.From)/AngleStep-1e-9)) + 1)
	}
	if a.People == known.People {
		s.Persons, s.limbs = like.Persons, like.limbs
	} else {
		s.Persons, s.limbs = boundary(a.People), medianLimbs(a.People)
	}
	return s, nil
}

func (s *Designer) Reclined() bool { return s.Asked.Kind == "reclined" }
func (s *Designer) Bench() bool    { return s.Asked.Kind == "cam-study" }

// grid divides the loaded range into n angles.
func (s *Designer) grid(n int) {
	r := s.Asked.Resistance.Loaded
	s.Angles, s.Sin, s.Cos, s.Shape = nil, nil, nil, nil
	for i := range n {
		theta := r.From + (r.To-r.From)*float64(i)/float64(n-1)
		sin, cos := math.Sincos(theta)
		s.Angles, s.Sin, s.Cos = append(s.Angles, theta), append(s.Sin, sin), append(s.Cos, cos)
		s.Shape = append(s.Shape, s.curve.At(theta))
	}
}

// designs remembers the drives that were designed, by all that a design depends on:
// explaining a brief begins many searches where others began. What it holds is
// shared and not changed.
type designs struct {
	mu    sync.Mutex
	known map[designKey]remembered
}

// designKey is all of brief and geometry that a drive depends on.
type designKey struct {
	resistance          specs.Resistance
	stock               specs.Stock
	region              string
	match, bend, travel float64 // goal and limits
	wanted              float64 // the strongest person's level
	axis                r3.Vec  // the middle one
	slope, laid         float64 // of the pad, and that which the cam is placed for
	handle              specs.Handle
	own                 string // what the drive's parts weigh
}

// remembered is a drive, what of it the geometry holds, and why it cannot be made.
type remembered struct {
	drive     State
	counter   *specs.Counterweight
	eccentric *specs.Eccentric
	cam       *specs.Cam
	lever     *specs.Lever
	linkage   *specs.Linkage
	err       error
}
