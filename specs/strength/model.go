package strength

import "armwright/specs/angle"

// modelCurves returns the curves computed from muscle parameters at a shoulder
// flexion, rad.
func modelCurves(shoulder float64) []Curve {
	const elastic = "paths, forces and lengths of the public 26-muscle arm model (Holzbaur, Murray & Delp 2005), " +
		"force-length relations of Thelen 2003, elastic tendon, full activation, shoulder at 0 unless stated; computed here"
	muscles := flexors(shoulder)
	return []Curve{
		{
			Name: "model-three", Title: "Muscle model: biceps and brachialis",
			Source: elastic, Mark: "D",
			Valid: [2]float64{0, 130 * angle.Degree},
			shape: tabulated(sum(muscles[:3])),
		},
		{
			Name: "model-four", Title: "Muscle model: biceps, brachialis and brachioradialis",
			Source: elastic + "; brachioradialis force from memory, its path straight", Mark: "D, M",
			Valid: [2]float64{0, 130 * angle.Degree},
			shape: tabulated(sum(muscles[:])),
		},
		{
			Name: "model-arms", Title: "Muscle model: published moment arms",
			Source: "moment-arm polynomials of Pigeon, Yahia & Feldman 1996, rigid tendon, active force only, " +
				"fibre lengths of the arm model at 90 degrees; computed here", Mark: "D",
			Valid: [2]float64{0, 140 * angle.Degree},
			shape: tabulated(func(theta float64) float64 { return armsTorque(muscles, theta) }),
		},
	}
}

// sum returns the joint torque of muscles, N·mm.
func sum(muscles []flexor) func(theta float64) float64 {
	return func(theta float64) float64 {
		total := 0.0
		for _, m := range muscles {
			total += m.torque(theta)
		}
		return total
	}
}

// polynomial is a moment arm, mm, by powers of flexion, rad.
type polynomial [6]float64

// at returns the moment arm at flexion theta.
func (p polynomial) at(theta float64) float64 {
	sum := 0.0
	for k := len(p) - 1; k >= 0; k-- {
		sum = sum*theta + p[k]
	}
	return sum
}

// shortening returns how much a muscle shortens from flexion zero to theta:
// the integral of its moment arm.
func (p polynomial) shortening(theta float64) float64 {
	sum := 0.0
	for k := len(p) - 1; k >= 0; k-- {
		sum = sum*theta + p[k]/float64(k+1)
	}
	return sum * theta
}

// publishedArms returns the moment arms of biceps, brachialis and
// brachioradialis after Pigeon, Yahia & Feldman 1996, there in cm. The zero of
// their argument is not stated; full extension is the only one that puts the
// peaks where other studies have them.
func publishedArms() (biceps, brachialis, brachioradialis polynomial) {
	return polynomial{19.63, -14.4, 30.31, 8.87, -14.18, 2.85},
		polynomial{15.54, 0.813, -16.89, 35.23, -18.11, 2.76},
		polynomial{20.15, -4.58, 30.58, -10.81, 1.59, -0.187}
}

// armsTorque returns the torque, N·mm, of the four flexors with the published
// moment arms. Fibre lengths follow from the arms, starting from the arm
// model's at 90 degrees with the tendon at its slack length.
func armsTorque(muscles [4]flexor, theta float64) float64 {
	biceps, brachialis, brachioradialis := publishedArms()
	total := 0.0
	for i, arm := range [4]polynomial{biceps, biceps, brachialis, brachioradialis} {
		m := muscles[i]
		const anchor = 90 * angle.Degree
		fibre := m.length(anchor) - m.slack - (arm.shortening(theta) - arm.shortening(anchor))
		total += m.rigid(fibre) * arm.at(theta)
	}
	return total
}
