package strength

import "testing"

// Worked values of the regression, coefficients S: C12, C13 (isometric) and C14
// (isokinetic) of the check list, N·m.
func TestPeak(t *testing.T) {
	for _, c := range []struct {
		check         string
		effort        Effort
		woman         bool
		age, tall, kg float64
		want          float64
	}{
		{"C12 man", Isometric, false, 30, 1800, 80, 52.7},
		{"C12 woman", Isometric, true, 30, 1650, 65, 29.55},
		{"C13 man", Isometric, false, 60, 1750, 80, 47.7},
		{"C13 woman", Isometric, true, 60, 1650, 65, 25.65},
		{"C14 man", Isokinetic, false, 30, 1800, 80, 55.0},
		{"C14 woman", Isokinetic, true, 30, 1650, 65, 30.3},
	} {
		near(t, c.check, Peak(c.effort, c.woman, c.age, c.tall, c.kg)/1000, c.want, 0.01)
	}
	if Peak(Isometric, false, 10, 1800, 80) != Peak(Isometric, false, 15, 1800, 80) {
		t.Error("age is not held to the regression's range")
	}
}
