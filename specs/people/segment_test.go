package people

import (
	"math"
	"testing"

	"armwright/specs/angle"
)

// de Leva 1996 (S): fractions add up to the whole body, limbs taken twice.
func TestSegmentsAddUp(t *testing.T) {
	for s, want := range map[Sex]float64{Man: 1.0000, Woman: 0.9999} {
		b := Segments(s)
		limbs := b.UpperArm.Mass + b.Forearm.Mass + b.Hand.Mass + b.Thigh.Mass + b.Shank.Mass + b.Foot.Mass
		if got := b.Head.Mass + b.Trunk.Mass + 2*limbs; math.Abs(got-want) > 1e-4 {
			t.Errorf("%s: segments add up to %.4f, want %.4f", s, got, want)
		}
	}
}

// Gravity moment of the horizontal forearm about the elbow (D, from de Leva's
// table), g = 9.80665 m/s².
func TestForearmHand(t *testing.T) {
	for _, c := range []struct {
		person                    Person
		mass, centre, moment, tol float64
	}{
		{Person{Sex: Man, Mass: 73, Stature: 1741}, 1.628, 181.5, 2.898, .005},
		{Person{Sex: Woman, Mass: 61.9, Stature: 1735}, 1.201, 178.8, 2.106, .005},
		{Person{Sex: Man, Mass: 85.5, Stature: 1756}, 1.907, 183.1, 3.424, .01},
	} {
		mass, centre := c.person.ForearmHand()
		if math.Abs(mass-c.mass) > 1e-3 || math.Abs(centre-c.centre) > 0.5 {
			t.Errorf("%+v: %.3f kg at %.1f mm, want %.3f at %.1f", c.person.Sex, mass, centre, c.mass, c.centre)
		}
		if moment := mass * 9.80665 * centre / 1000; math.Abs(moment-c.moment) > c.tol {
			t.Errorf("%s: moment %.3f N·m, want %.3f", c.person.Sex, moment, c.moment)
		}
	}
}

// An independent regression on mass and stature (Zatsiorsky 2002, S; standard
// error 0.101 kg of the forearm and 0.063 kg of the hand) agrees.
func TestForearmHandAgainstRegression(t *testing.T) {
	for _, c := range []struct {
		person        Person
		forearm, hand [3]float64
		wantF, wantH  float64
	}{
		{Person{Sex: Man, Mass: 73, Stature: 1741}, [3]float64{.3185, .01445, -.00114}, [3]float64{-.1165, .0036, .00175}, 1.175, .451},
		{Person{Sex: Woman, Mass: 61.9, Stature: 1735}, [3]float64{.295, .009, .0003}, [3]float64{-.116, .0017, .002}, .904, .336},
	} {
		regress := func(b [3]float64) float64 { return b[0] + b[1]*c.person.Mass + b[2]*c.person.Stature/10 }
		forearm, hand := regress(c.forearm), regress(c.hand)
		if math.Abs(forearm-c.wantF) > 1e-3 || math.Abs(hand-c.wantH) > 1e-3 {
			t.Errorf("%s: regression gives %.3f and %.3f kg", c.person.Sex, forearm, hand)
		}
		mass, _ := c.person.ForearmHand()
		if math.Abs(mass-forearm-hand) > 0.101 {
			t.Errorf("%s: %.3f kg, regression %.3f", c.person.Sex, mass, forearm+hand)
		}
	}
}

// Seated centre of mass from mid-hip, trunk and shanks upright, thighs
// horizontal (D, by de Leva's table): checks every segment's three numbers at
// once. Men (98.4, 169.6) with arms hanging, (119.3, 189.7) with upper arm 45°
// forward and elbow at 90°; women (85.2, 169.9) and (103.4, 187.2); mm.
func TestSeatedCentre(t *testing.T) {
	for _, c := range []struct {
		sex           Sex
		stature       float64
		arm, elbow    float64 // degrees
		wantX, wantUp float64
	}{
		{Man, 1741, 0, 0, 98.4, 169.6}, {Man, 1741, 45, 90, 119.3, 189.7},
		{Woman, 1735, 0, 0, 85.2, 169.9}, {Woman, 1735, 45, 90, 103.4, 187.2},
	} {
		b := Segments(c.sex)
		var total, x, z float64
		add := func(share, atX, atZ float64) { total += share; x += share * atX; z += share * atZ }
		length := func(s Segment) float64 { return s.Length * c.stature }

		neck, shoulder := length(b.TrunkToNeck), length(b.Trunk)
		add(b.Trunk.Mass, 0, shoulder*(1-b.Trunk.Centre))
		add(b.Head.Mass, 0, neck+length(b.Head)*(1-b.Head.Centre))
		sa, ca := math.Sincos(c.arm * angle.Degree)
		sf, cf := math.Sincos((c.arm + c.elbow) * angle.Degree)
		upper, lower := length(b.UpperArm), length(b.Forearm)
		along := func(d float64) (float64, float64) { return upper*sa + d*sf, shoulder - upper*ca - d*cf }
		add(2*b.UpperArm.Mass, upper*b.UpperArm.Centre*sa, shoulder-upper*b.UpperArm.Centre*ca)
		fx, fz := along(lower * b.Forearm.Centre)
		add(2*b.Forearm.Mass, fx, fz)
		hx, hz := along(lower + length(b.Hand)*b.Hand.Centre)
		add(2*b.Hand.Mass, hx, hz)
		knee, ankle := length(b.Thigh), -length(b.Shank)
		add(2*b.Thigh.Mass, knee*b.Thigh.Centre, 0)
		add(2*b.Shank.Mass, knee, ankle*b.Shank.Centre)
		add(2*b.Foot.Mass, knee+length(b.Foot)*(b.Foot.Centre-0.25), ankle-30)

		if math.Abs(x/total-c.wantX) > 0.5 || math.Abs(z/total-c.wantUp) > 0.5 {
			t.Errorf("%s arm %g elbow %g: (%.1f, %.1f), want (%.1f, %.1f)",
				c.sex, c.arm, c.elbow, x/total, z/total, c.wantX, c.wantUp)
		}
	}
}

// Harbo, Brincks & Andersen 2012, coefficients (S), worked values (D), N·m.
func TestElbowStrength(t *testing.T) {
	for _, c := range []struct {
		person Person
		want   float64
	}{
		{Person{Sex: Man, Age: 30, Stature: 1800, Mass: 80}, 52.7},
		{Person{Sex: Woman, Age: 30, Stature: 1650, Mass: 65}, 29.55},
		{Person{Sex: Man, Age: 60, Stature: 1750, Mass: 80}, 47.7},
		{Person{Sex: Woman, Age: 60, Stature: 1650, Mass: 65}, 25.65},
	} {
		if got := c.person.ElbowStrength() / 1000; math.Abs(got-c.want) > 0.01 {
			t.Errorf("%s of %g years: %.2f N·m, want %.2f", c.person.Sex, c.person.Age, got, c.want)
		}
	}
	// Plausible peaks (Tsunoda 1993 and Harbo 2012, S): women 25-45, men 45-95.
	if s := civilian().Median(Man).ElbowStrength() / 1000; s < 45 || s > 95 {
		t.Errorf("median man %.1f N·m", s)
	}
	if s := civilian().Median(Woman).ElbowStrength() / 1000; s < 25 || s > 45 {
		t.Errorf("median woman %.1f N·m", s)
	}
}
