// Package people describes the users of a station by their body dimensions:
// one Person, the Population they come from, boundary persons for a solver and
// random persons for coverage.
//
// Dimensions rest on the public 2012 anthropometric survey of 6068 persons
// (Gordon et al. 2014), mass where asked on the heavier civilian body mass
// index of a 2009-2012 health survey. The joint distribution is a Gaussian
// copula: every dimension keeps its own skewed distribution, and the normal
// scores are correlated. See docs/people.md for its limits.
package people

import (
	"fmt"
	"math"
	"strings"
)

// Sex selects the statistics a person is drawn from.
type Sex int

// The two sexes of the survey, in the order of every [2] array here.
const (
	Woman Sex = iota
	Man
)

// String returns "woman" or "man".
func (s Sex) String() string {
	if s == Man {
		return "man"
	}
	return "woman"
}

// Person is one user: lengths in mm, unclothed and barefoot; mass in kg.
// Heights other than Stature are sitting: those named Acromion- and Elbow-
// above the seat, Popliteal- and Knee- above the sole.
type Person struct {
	Label string
	Sex   Sex
	Age   float64 // years
	// Stronger is how much stronger the elbow is than the mean of those of the same
	// sex, age and size, share: 0 of the mean itself.
	Stronger float64

	Stature          float64
	Mass             float64 // kg
	SittingHeight    float64
	AcromionHeight   float64 // acromion above the seat
	ElbowRestHeight  float64 // underside of the bent elbow above the seat
	AcromionToAxis   float64 // acromion to elbow axis
	AxisToGrip       float64 // elbow axis to the centre of the grip
	Biacromial       float64 // between the acromions
	Bideltoid        float64 // across the deltoids
	ForearmBreadth   float64 // across both forearms, elbows at the sides
	ChestDepth       float64
	ChestBreadth     float64
	AbdominalDepth   float64 // sitting
	ButtockDepth     float64 // standing
	ButtockKnee      float64 // back of the buttock to the front of the knee
	ButtockPopliteal float64 // back of the buttock to the back of the knee
	PoplitealHeight  float64
	KneeHeight       float64
	HipBreadth       float64 // sitting
	ThighClearance   float64 // seat to the top of the thigh
	UpperArmGirth    float64 // biceps flexed
	ForearmGirth     float64 // flexed
	HandBreadth      float64 // across the metacarpals
	HandLength       float64
	FootLength       float64

	CarryingAngle float64 // rad, elbow straight and palm forward, valgus positive

	// Extrapolated tells that the body mass index lies above the 99th
	// percentile of the 2012 survey, so that depths, breadths and girths are
	// not covered by measured persons.
	Extrapolated bool
}

// BMI returns the body mass index, kg/m².
func (p Person) BMI() float64 {
	metres := p.Stature / 1000
	return p.Mass / (metres * metres)
}

// Dimension returns the dimension with the given name of Dimensions: mm, kg
// for "mass", rad for "carrying_angle". An unknown name is a
// *DimensionError.
func (p Person) Dimension(name string) (float64, error) {
	if name == carryingName {
		return p.CarryingAngle, nil
	}
	i, err := indexOf(name)
	if err != nil {
		return 0, err
	}
	return *dimensions()[i].field(&p), nil
}

// Values appends every dimension to dst, in the order of Dimensions.
func (p *Person) Values(dst []float64) []float64 {
	return append(dst,
		p.Stature, p.Mass, p.SittingHeight, p.AcromionHeight, p.ElbowRestHeight, p.AcromionToAxis, p.AxisToGrip,
		p.Biacromial, p.Bideltoid, p.ForearmBreadth, p.ChestDepth, p.ChestBreadth, p.AbdominalDepth, p.ButtockDepth,
		p.ButtockKnee, p.ButtockPopliteal, p.PoplitealHeight, p.KneeHeight, p.HipBreadth, p.ThighClearance,
		p.UpperArmGirth, p.ForearmGirth, p.HandBreadth, p.HandLength, p.FootLength, p.CarryingAngle)
}

// carryingName names the one dimension that is not in the survey.
const carryingName = "carrying_angle"

// Dimensions returns the names of all dimensions of a Person, the carrying
// angle last.
func Dimensions() []string {
	var names []string
	for _, d := range dimensions() {
		names = append(names, d.name)
	}
	return append(names, carryingName)
}

// indexOf returns the place of a surveyed dimension in dimensions().
func indexOf(name string) (int, error) {
	for i, d := range dimensions() {
		if d.name == name {
			return i, nil
		}
	}
	return 0, &DimensionError{Name: name}
}

// DimensionError reports a dimension that is not known.
type DimensionError struct{ Name string }

func (e *DimensionError) Error() string {
	return fmt.Sprintf("no body dimension %q; known are %s", e.Name, strings.Join(Dimensions(), ", "))
}

// ShareError reports a percentile outside the open interval 0..1.
type ShareError struct{ Share float64 }

func (e *ShareError) Error() string {
	return fmt.Sprintf("percentile %g is not between 0 and 1; the 5th percentile is 0.05", e.Share)
}

// checkShare reports whether q is a share a quantile exists for.
func checkShare(q float64) error {
	if math.IsNaN(q) || q <= 0 || q >= 1 {
		return &ShareError{Share: q}
	}
	return nil
}
