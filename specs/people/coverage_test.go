package people

import (
	"math"
	"testing"

	"armwright/testdata"
)

// How many persons lie within the range from the 5th percentile woman to the
// 95th percentile man in all of 8 and 16 machine dimensions at once: shares of
// the survey's 4082 men and 1986 women (D, counted on the rows; the survey's
// shoulder-elbow length, which correlates 0.96 and 0.95 with the length to the
// elbow axis, stands for that here). Rows are in whole millimetres with limits
// inclusive, which favours them by a point or two over a continuous model
// (anthropometric practice; the same box on normal draws falls 3 points short).
func TestJointCoverage(t *testing.T) {
	testdata.Long(t)
	const within = 0.04
	eight := []string{"acromion_height", "elbow_rest_height", "acromion_to_axis", "axis_to_grip", "biacromial", "buttock_popliteal", "popliteal_height", "hip_breadth"}
	sixteen := append([]string{"mass", "stature", "sitting_height", "bideltoid", "chest_depth", "abdominal_depth", "buttock_knee", "upper_arm_girth"}, eight...)
	pop := surveyed()
	const n = 40000
	people := pop.sample(n, 1)
	for _, c := range []struct {
		name string
		dims []string
		want [2]float64
	}{
		{"8 dimensions", eight, [2]float64{Woman: 0.628, Man: 0.643}},
		{"16 dimensions", sixteen, [2]float64{Woman: 0.552, Man: 0.578}},
	} {
		low, high := make([]float64, len(c.dims)), make([]float64, len(c.dims))
		for i, dim := range c.dims {
			var err error
			if low[i], err = pop.Percentile(dim, Woman, 0.05); err != nil {
				t.Fatal(err)
			}
			if high[i], err = pop.Percentile(dim, Man, 0.95); err != nil {
				t.Fatal(err)
			}
		}
		var inside, all [2]int
		for i := range people {
			p := &people[i]
			all[p.Sex]++
			fits := true
			for k, dim := range c.dims {
				x, _ := p.Dimension(dim)
				fits = fits && low[k] <= x && x <= high[k]
			}
			if fits {
				inside[p.Sex]++
			}
		}
		for _, sex := range sexes {
			got := float64(inside[sex]) / float64(all[sex])
			t.Logf("%s, %s: model %.1f %%, rows %.1f %%", c.name, sex, 100*got, 100*c.want[sex])
			if math.Abs(got-c.want[sex]) > within {
				t.Errorf("%s, %s: model %.1f %%, rows %.1f %%", c.name, sex, 100*got, 100*c.want[sex])
			}
		}
	}
}

// Ranges over both sexes, 5th to 95th percentile (S, the survey's tables): hip
// breadth runs to the women's 456, not the men's 431; the rest from woman to
// man. Tolerances as for the percentiles.
func TestEnvelope(t *testing.T) {
	for dim, want := range map[string][2]float64{
		"hip_breadth": {333, 456}, "popliteal_height": {350, 471}, "elbow_rest_height": {189, 291},
		"biacromial": {335, 447}, "abdominal_depth": {184, 320}, "thigh_clearance": {145, 207},
	} {
		from, to, err := surveyed().Envelope(dim, 0.05, 0.95)
		if err != nil || math.Abs(from-want[0]) > 3 || math.Abs(to-want[1]) > 3 {
			t.Errorf("%s: %.0f to %.0f (%v), want %.0f to %.0f", dim, from, to, err, want[0], want[1])
		}
	}
	if _, _, err := surveyed().Envelope("shoe", 0.05, 0.95); err == nil {
		t.Error("no error for an unknown dimension")
	}
}
