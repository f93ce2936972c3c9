package strength

import (
	"errors"
	"math"
	"testing"

	"armwright/specs/angle"

	"pgregory.net/rapid"
)

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s = %.5g, want %.5g ± %.2g", what, got, want, tolerance)
	}
}

// Force-length relations of Thelen 2003 (formulas S), worked values.
func TestForceLength(t *testing.T) {
	for _, c := range []struct{ l, narrow, wide float64 }{
		{.5, .5738, .6065}, {.75, .8703, .8825}, {1, 1, 1}, {1.25, .8703, .8825}, {1.5, .5738, .6065},
	} {
		near(t, "active, width 0.45", active(c.l, 0.45), c.narrow, 1e-4)
		near(t, "active, width 0.5", active(c.l, activeWidth), c.wide, 1e-4)
	}
	for l, want := range map[float64]float64{0.9: 0, 1.2: .0521, 1.4: .2499, 1.6: 1} {
		near(t, "passive", passive(l), want, 1e-4)
	}
	for e, want := range map[float64]float64{-0.01: 0, .01: .0597, .02: .3257, .033: 1} {
		near(t, "tendon", tendon(e), want, 1e-4)
	}
}

// The same muscles in an independent notebook (S) at 90 degrees: moment arms
// 49/49/23 mm, forces 575/363/896 N, torques 28.1/17.7/20.4 N·m.
func TestMusclesAtRightAngle(t *testing.T) {
	m := flexors(0)
	total := 0.0
	for i, want := range []struct{ arm, force, torque float64 }{{49, 575, 28.1}, {49, 363, 17.7}, {23, 896, 20.4}} {
		theta := 90 * angle.Degree
		near(t, "moment arm, mm", m[i].arm(theta), want.arm, 0.02*want.arm)
		near(t, "force, N", m[i].isometric(m[i].length(theta)), want.force, 0.02*want.force)
		near(t, "torque, N·m", m[i].torque(theta)/1000, want.torque, 0.02*want.torque)
		total += m[i].torque(theta) / 1000
	}
	near(t, "joint torque, N·m", total, 66.2, 0.02*66.2)
}

// Moment arms of an earlier rebuild of the same geometry (D), cm at 0, 30, 60,
// 90 and 120 degrees.
func TestMomentArms(t *testing.T) {
	m := flexors(0)
	for i, want := range map[int][5]float64{
		0: {0.94, 2.65, 4.05, 4.88, 4.56},
		2: {1.50, 1.30, 1.67, 2.27, 2.35},
		3: {0.32, 3.18, 5.79, 7.86, 8.97},
	} {
		for k, w := range want {
			near(t, "moment arm, cm", m[i].arm(float64(k)*30*angle.Degree)/10, w, 0.015)
		}
	}
}

// Polynomial arms (coefficients S) at 90 degrees and their peaks (D).
func TestPublishedArms(t *testing.T) {
	biceps, brachialis, brachioradialis := publishedArms()
	near(t, "biceps at 90", biceps.at(math.Pi/2), 47.1, .1)
	near(t, "brachialis at 90", brachialis.at(math.Pi/2), 27.8, .1)
	near(t, "brachioradialis at 90", brachioradialis.at(math.Pi/2), 54.4, .1)
	for _, c := range []struct {
		arm            polynomial
		angle, greater float64
	}{{biceps, 102.9, 48.6}, {brachialis, 110.6, 30.1}} {
		best := 0.0
		for a := 0.0; a < 150; a += 0.05 {
			if c.arm.at(a*angle.Degree) > c.arm.at(best*angle.Degree) {
				best = a
			}
		}
		near(t, "angle of the greatest arm", best, c.angle, .2)
		near(t, "greatest arm", c.arm.at(best*angle.Degree), c.greater, .1)
	}
	const h = 1e-5
	near(t, "shortening's rate", (biceps.shortening(1+h)-biceps.shortening(1-h))/(2*h), biceps.at(1), 1e-6)
}

// Rows of an earlier rebuild (D), shares of the peak every 10 degrees.
func TestModelCurves(t *testing.T) {
	for name, row := range map[string][]float64{
		"model-three": {.37, .45, .53, .61, .69, .78, .88, .96, 1.00, 1.00, .96, .88, .77, .63},
		"model-four":  {.30, .40, .49, .58, .67, .77, .88, .95, 1.00, 1.00, .96, .88, .76, .63},
		"model-arms":  {.46, .45, .46, .50, .57, .67, .78, .88, .96, 1.00, .99, .93, .83, .71, .58},
	} {
		c, err := ByName(name)
		if err != nil {
			t.Fatal(err)
		}
		for k, want := range row {
			near(t, name, c.At(float64(10*k)*angle.Degree), want, 0.011)
		}
	}
	muscles := flexors(0)
	rounding := 0.0
	for name, want := range map[string]struct{ angle, torque float64 }{
		"model-three": {85, 66.7}, "model-four": {86, 84}, "model-arms": {93, 84.5},
	} {
		c, err := ByName(name)
		if err != nil {
			t.Fatal(err)
		}
		near(t, name+" peak, degrees", c.Peak/angle.Degree, want.angle, 3)
		raw := sum(muscles[:3])
		switch name {
		case "model-four":
			raw = sum(muscles[:])
		case "model-arms":
			raw = func(theta float64) float64 { return armsTorque(muscles, theta) }
		}
		near(t, name+" peak, N·m", raw(c.Peak)/1000, want.torque, 0.03*want.torque)
		for a := 0.0; a <= 140; a += 0.5 {
			rounding = math.Max(rounding, math.Abs(c.At(a*angle.Degree)-raw(a*angle.Degree)/raw(c.Peak)))
		}
	}
	// What the spline rounds off, as its doc says.
	near(t, "departure of the splines", rounding, 0.008, 0.0005)
}

// Tsunoda et al. 1993 (S): men peak at 60 degrees with 0.80 of it at 105; women
// at 90, with no difference between 60 and 105.
func TestMeasuredCurves(t *testing.T) {
	men, err := ByName("men-measured")
	if err != nil {
		t.Fatal(err)
	}
	near(t, "men's peak", men.Peak/angle.Degree, 60, 0.1)
	near(t, "men at 105", men.At(105*angle.Degree), 0.80, 1e-6)
	women, err := ByName("women-measured")
	if err != nil {
		t.Fatal(err)
	}
	near(t, "women's peak", women.Peak/angle.Degree, 90, 0.1)
	near(t, "women at 105 against 60", women.At(105*angle.Degree)-women.At(60*angle.Degree), 0, 0.005)
	// Their standard error at the peak is 2.4 of 35.4 N·m: no difference
	// means none beyond that.
	near(t, "women at 60", women.At(60*angle.Degree), 1, 2.4/35.4)
}

// Occupational regression (M): torque by its factor of sex, N·m.
func TestRegression(t *testing.T) {
	const men, women = 0.1913, 0.1005
	near(t, "men, 90 and 0", regression(90, 0)*men, 77.7, .1)
	near(t, "women, 90 and 0", regression(90, 0)*women, 40.8, .1)
	near(t, "men, 90 and 90", regression(90, 90)*men, 69.1, .1)
	near(t, "women, 90 and 90", regression(90, 90)*women, 36.3, .1)
	c, err := ByName("regression")
	if err != nil {
		t.Fatal(err)
	}
	for included, want := range map[float64]float64{60: .980, 90: 1, 120: .982, 150: .927, 180: .834} {
		near(t, "share of the peak", c.At((180-included)*angle.Degree), want, .001)
	}
}

func TestEveryCurve(t *testing.T) {
	for _, name := range Names() {
		c, err := ByName(name)
		if err != nil {
			t.Fatal(err)
		}
		if c.Title == "" || c.Source == "" || c.Mark == "" {
			t.Errorf("%s lacks title, source or mark", name)
		}
		greatest := 0.0
		for a := c.Valid[0]; a <= c.Valid[1]; a += 0.01 * angle.Degree {
			greatest = math.Max(greatest, c.At(a))
		}
		near(t, name+" peak", greatest, 1, 1e-6)
		near(t, name+" at its peak", c.At(c.Peak), 1, 1e-9)
		rapid.Check(t, func(t *rapid.T) {
			theta := rapid.Float64Range(-1, 4).Draw(t, "theta")
			if v := c.At(theta); !(v > 0 && v < 1.1) {
				t.Fatalf("%s at %g = %g", name, theta, v)
			}
			// Continuous second derivative: third derivatives stay below
			// 100 rad⁻³, so that a larger change over 1e-3 rad is a step.
			if theta > -0.1 && theta < 2.5 {
				second := func(x float64) float64 {
					const h = 1e-3
					return (c.At(x-h) - 2*c.At(x) + c.At(x+h)) / (h * h)
				}
				if step := second(theta+1e-3) - second(theta); math.Abs(step) > 0.1 {
					t.Fatalf("%s: second derivative steps by %g at %g", name, step, theta)
				}
			}
		})
	}
}

func TestBand(t *testing.T) {
	for a := 0.0; a <= 140; a++ {
		low, high := Band(a * angle.Degree)
		if !(0 < low && low <= high && high <= 1+1e-9) {
			t.Errorf("band at %g: %g..%g", a, low, high)
		}
	}
	// Measured and model curves differ by a fifth and more beside the peaks.
	if low, high := Band(30 * angle.Degree); high-low < 0.2 {
		t.Errorf("band at 30 degrees is only %.2f wide", high-low)
	}
}

func TestUnknownCurve(t *testing.T) {
	_, err := ByName("best")
	var unknown *UnknownCurveError
	if !errors.As(err, &unknown) || unknown.Name != "best" {
		t.Errorf("got %v", err)
	}
}
