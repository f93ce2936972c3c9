package strength

// Effort is how a peak torque was measured.
type Effort int

// The two efforts of the regression.
const (
	Isometric  Effort = iota // against a fixed arm; the test angle is not at hand
	Isokinetic               // at constant speed; the speed is not at hand
)

// Peak returns the peak elbow-flexion torque of one arm, N·mm, by the regression
// of Harbo, Brincks & Andersen 2012, Eur J Appl Physiol 112:267, on age, years,
// stature, mm, and mass, kg (178 adults, 15 to 83 years; age is held to that
// range; coefficients S). It explains about a quarter to a third of the
// variance: it gives the mean of those alike, about whom Spread says how far they lie.
func Peak(e Effort, woman bool, age, stature, mass float64) float64 {
	age = min(max(age, 15), 83)
	// Constant, per year, per metre, per kilogram, N·m.
	c := [2][2][4]float64{
		{{-23.8, -0.13, 22, 0.51}, {6.9, -0.13, 9, 0.18}},
		{{-37.2, -0.18, 36, 0.41}, {-16.5, -0.12, 27, 0.09}},
	}[e][index(woman)]
	const metre, newtonMetre = 1000, 1000
	return newtonMetre * (c[0] + c[1]*age + c[2]*stature/metre + c[3]*mass)
}

func index(woman bool) int {
	if woman {
		return 1
	}
	return 0
}
