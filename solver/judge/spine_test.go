package judge

import (
	"math"
	"strings"
	"testing"

	"armwright/geometry/balance"
	"armwright/solver/drive"
	"armwright/solver/seat"
	"armwright/solver/solvertest"

	"gonum.org/v1/gonum/spatial/r2"
)

// The compression of the lowest disc by vectors: hand, pads and the weight above the
// hip push on the trunk; what they turn about the hip the back's muscles hold at 50 mm
// (M), and along the trunk everything presses. Pads by the moment of the upper arm about
// the shoulder: N (U - a) = F (U cos θ + R).
func TestSpineByVectors(t *testing.T) {
	f := solvertest.Frame(t, "arm-pad-station")
	s, err := New(&f.Asked)
	if err != nil {
		t.Fatal(err)
	}
	r, err := s.Check(f, Persons{})
	if err != nil {
		t.Fatal(err)
	}
	var told float64
	for _, p := range r.Protection {
		if strings.HasPrefix(p.What, "compression of the lowest disc") {
			told = p.Value
		}
	}
	heavy, strength := r.Resistance.Heavy, r.Resistance.Strength
	level := heavy.Target[3] / strength[3]
	m := drive.NewMachine(&f.Geometry)
	want := 0.0
	for i := range r.People.Boundary {
		p := &r.People.Boundary[i]
		b := p.Body
		arm, _ := p.Pose.Turned(m.Axes[p.Axis], seat.HumeralTurn)
		hip := r2.Vec{X: p.Pose.Hip.X, Y: p.Pose.Hip.Z - f.Geometry.Pivots.Height}
		along := r2.Vec{X: -math.Cos(p.Pose.ArmSlope), Y: math.Sin(p.Pose.ArmSlope)} // elbow to shoulder
		across := r2.Vec{X: along.Y, Y: -along.X}                                    // of the pad, up and forward
		a := (r.Rest.Near + r.Rest.Far) / 2
		for k, theta := range r.Resistance.Angles {
			force := 2 * math.Min(p.Person.ElbowStrength(), level) * strength[k] / b.Forearm
			pads := force * (b.UpperArm*math.Cos(theta) + b.Forearm) / (b.UpperArm - a)
			forearm := r2.Rotate(r2.Scale(-1, along), theta, r2.Vec{}) // flexion turns it up from the upper arm's line
			hand := r2.Vec{X: forearm.Y, Y: -forearm.X}                // against flexion
			share, x := seat.UpperBody(p.Person, p.Pose, seat.MassCentre(p.Person, b, p.Pose, arm, theta).X)
			weight := share * p.Person.Mass * balance.G
			turn := r2.Cross(r2.Sub(r2.Scale(b.Forearm, forearm), hip), r2.Scale(force, hand)) +
				r2.Cross(r2.Sub(r2.Scale(a, along), hip), r2.Scale(pads, across)) +
				r2.Cross(r2.Sub(r2.Vec{X: x}, r2.Vec{X: hip.X}), r2.Vec{Y: -weight})
			all := r2.Add(r2.Add(r2.Scale(force, hand), r2.Scale(pads, across)), r2.Vec{Y: -weight})
			trunk := r2.Vec{X: math.Sin(p.Pose.Lean), Y: math.Cos(p.Pose.Lean)} // from hip to shoulder
			want = math.Max(want, math.Max(0, -r2.Dot(all, trunk))+math.Abs(turn)/50)
		}
	}
	if math.Abs(told-want) > 1e-6*want || want < 500 {
		t.Errorf("%.1f N, by vectors %.1f", told, want)
	}
}
