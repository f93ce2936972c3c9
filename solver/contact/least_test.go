package contact

import (
	"math"
	"testing"

	"armwright/geometry/statics"

	"gonum.org/v1/gonum/spatial/r2"
)

// block is a rigid block on foam 300 long, with a load of 600 N down, x off its middle,
// and some level push 100 above the foam.
func block(x, push, friction float64, points int) statics.Body {
	return statics.Body{
		Segments: []statics.Segment{{Parent: -1, Forces: []statics.Force{
			{At: r2.Vec{X: x}, Force: r2.Vec{Y: -600}},
			{At: r2.Vec{Y: 100}, Force: r2.Vec{X: push}},
		}}},
		Patches: []statics.Patch{{From: r2.Vec{X: -150}, To: r2.Vec{X: 150}, Normal: r2.Vec{Y: 1}, Points: points, Friction: friction}},
	}
}

// least is the state under the body's own load, false where none exists.
func least(b *statics.Body, joints []Joint, friction float64) (State, bool) {
	p := newProgram(b, joints, friction)
	if !p.solve(&p.eq) {
		return State{}, false
	}
	return p.state(&p.eq), true
}

// On linear foam pressure goes linearly from end to end: N/n (1 + 12 e s/b²) with e the
// load off the middle, b the length and s the place (Navier, with the points' own sum of
// squares b²(1-1/n²)/12), as long as it pushes everywhere.
func TestPressureIsLinear(t *testing.T) {
	const n, e = 30, 40.0
	b := block(e, 0, 0.4, n)
	st, ok := least(&b, make([]Joint, 1), 1)
	if !ok {
		t.Fatal("no state")
	}
	spread := 300.0 * 300 * (1 - 1.0/(n*n)) / 12
	for i, c := range st.Contacts {
		if want := 600.0 / n * (1 + e*c.At.X/spread); math.Abs(st.Push[i]-want) > 1e-6 || math.Abs(st.Hold[i]) > 1e-6 {
			t.Errorf("%.4f N at %.0f, want %.4f", st.Push[i], c.At.X, want)
		}
	}
}

// A block slides where the push beats friction, 240 N of 600, and tips where the load
// leaves the outermost points, 145.
func TestNoStateWhereItSlidesOrTips(t *testing.T) {
	for _, c := range []struct {
		x, push float64
		want    bool
	}{
		{0, 239, true}, {0, 241, false}, {0, -239, true}, {0, -241, false},
		{144, 0, true}, {146, 0, false}, {-144, 0, true}, {-146, 0, false},
		{100, 200, true},  // 200 N 100 up bring the load 33 forward
		{115, 200, false}, // and there beyond the last point
	} {
		b := block(c.x, c.push, 0.4, 30)
		if _, ok := least(&b, make([]Joint, 1), 1); ok != c.want {
			t.Errorf("load at %g, push %g: a state is %v", c.x, c.push, ok)
		}
	}
}
