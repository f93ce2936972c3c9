package judge

import (
	"math"
	"strings"
	"testing"

	"armwright/geometry/assembly"
	"armwright/geometry/balance"
	"armwright/geometry/solid"
	"armwright/solver/solvertest"
	"armwright/specs"

	"gonum.org/v1/gonum/spatial/r3"
)

// Each arm's own stack stands under its cable's end: the same masses on each of two
// stacks as half a shared one give the same torque, each stack rises by its arm's
// whole take-up, and the station weighs both.
func TestPairOfStacks(t *testing.T) {
	shared := solvertest.Frame(t, "arm-pad-station")
	paired := solvertest.Frame(t, "arm-pad-station")
	r := &paired.Resistance
	r.Stack = "pair"
	r.Load = specs.Loads{Light: r.Load.Light / 2, Middle: r.Load.Middle / 2, Heavy: r.Load.Heavy / 2}
	one, err := Check(shared)
	if err != nil {
		t.Fatal(err)
	}
	two, err := Check(paired)
	if err != nil {
		t.Fatal(err)
	}
	for i, v := range two.Resistance.Heavy.Delivered {
		// Beside what each stack's own selector weighs, in place of a floating sheave.
		v -= two.Resistance.Gravity[i]
		if w := one.Resistance.Heavy.Delivered[i] - one.Resistance.Gravity[i]; math.Abs(v-w) > 1e-9*w {
			t.Fatalf("torque %g, on a shared stack %g", v, w)
		}
	}
	// Work on both stacks against the torque's, and against the shared stack's.
	e := two.Resistance.Energy
	if math.Abs(e.Stack-one.Resistance.Energy.Stack) > 1e-9*e.Stack || e.Difference > 1e-3 {
		t.Errorf("work %g, shared %g, off the torque's by %g", e.Stack, one.Resistance.Energy.Stack, e.Difference)
	}
	// The plates of each stack are as heavy as the load, but for the top one, which has no
	// hole for the pin; the cable ends over their middle.
	var stacks [2]struct {
		mass float64
		head r3.Vec
	}
	var upright, inner r3.Vec // outer corner of the right upright, and the sheave over the stack
	for i := range two.Station.Assembly.Parts {
		p := &two.Station.Assembly.Parts[i]
		switch side := p.Side - assembly.Right; {
		case p.Is(assembly.Load | assembly.Rises):
			stacks[side].mass += p.Mass
			if p.Item == "stack-head" {
				stacks[side].head = p.Centre
			}
		case p.ID == "tower-upright-right":
			upright, _ = solid.Bounds(p.Solid, p.Place)
		case p.ID == "sheave-inner-right":
			inner = p.Centre
		}
	}
	for _, v := range stacks {
		if math.Abs(v.mass-r.Load.Heavy) > 5e-3*v.mass {
			t.Errorf("a stack of %.2f kg for %g", v.mass, r.Load.Heavy)
		}
	}
	head := stacks[0].head
	if end := two.Resistance.Route.End; math.Abs(end.X-head.X) > 1e-6 || math.Abs(end.Y-head.Y) > 1e-6 || end.Z < head.Z || head.Y >= 0 || math.Abs(stacks[1].head.Y+head.Y) > 1e-6 {
		t.Errorf("the cable ends at %v, the top plates lie at %v and %v", end, head, stacks[1].head)
	}
	// The route: tangents, no floating sheave, the planes hold the lines.
	v := two.Resistance.Route
	if len(v.Sheaves) != 5 || v.Cables() != 2 {
		t.Fatalf("%d sheaves, %d cables", len(v.Sheaves), v.Cables())
	}
	for i, q := range v.Sheaves {
		if q.Fleet > 1e-6 {
			t.Errorf("%s: fleet angle %.3f deg", q.Name, q.Fleet/specs.Degree)
		}
		if i > 0 {
			line := r3.Sub(q.In, v.Sheaves[i-1].Out)
			if off := r3.Dot(line, r3.Sub(q.In, q.Centre)); math.Abs(off) > 1e-6*r3.Norm(line)*q.Radius {
				t.Errorf("the line to %s is no tangent", q.Name)
			}
		}
	}
	// A cable lies on each cam as far as on the shared stack's: of two cables each has an
	// end of 150 mm at cam and stack, the one of the shared stack is twice as long with
	// an end at each cam.
	const end = 150.0
	way := one.Resistance.Route
	if a, b := v.Cut-v.Length-2*end, way.Cut/2-way.Length-end; math.Abs(a-b) > 1e-6 || a < 50 {
		t.Errorf("%.3f mm lie on a cam of the pair, %.3f on one of the shared stack", a, b)
	}
	top := v.Sheaves[4]
	if raised := v.End.Z + two.Resistance.TakeUp; raised > top.Centre.Z || r3.Norm(r3.Sub(top.Centre, inner)) > 1e-6 {
		t.Errorf("the raised stack reaches %.0f mm, the top sheave's axis is at %v and %v", raised, top.Centre, inner)
	}
	// The cable rises outside the tower's upright.
	if y := v.Sheaves[2].Out.Y; y > upright.Y-5 || y != v.Sheaves[3].In.Y {
		t.Errorf("the rising cable stands %.0f mm from the middle, the upright's outside at %.0f", -y, -upright.Y)
	}
}

// What the drive weighs is in the balance: the countershaft is a round bar of the
// pivot's 25 mm, both sprockets are discs of steel, and all cases of the empty station
// weigh what its parts do.
func TestDriveHasMass(t *testing.T) {
	r, err := Check(solvertest.Frame(t, "arm-pad-station"))
	if err != nil {
		t.Fatal(err)
	}
	a := r.Station.Assembly
	mass := 0.0
	for i := range a.Parts {
		p := &a.Parts[i]
		mass += p.Mass
		low, high := solid.Bounds(p.Solid, solid.World())
		switch size := r3.Sub(high, low); p.Item {
		case "countershaft": // its keyways of 8 by 4 take off no more than 7 % of the section
			bar := 7.85e-6 * math.Pi / 4 * 25 * 25 * max(size.X, size.Y, size.Z)
			if p.Mass > bar+1e-9 || p.Mass < 0.93*bar {
				t.Errorf("%s weighs %.3f kg, a round bar %.3f", p.ID, p.Mass, bar)
			}
		case "wheel-arm", "wheel-driven":
			if disc := 7.85e-6 * math.Pi / 4 * size.X * size.Y * size.Z; p.Mass <= 0.2*disc || p.Mass >= disc {
				t.Errorf("%s weighs %.3f kg, the disc round it %.3f", p.ID, p.Mass, disc)
			}
		}
	}
	for i := range a.Flexible {
		mass += a.Flexible[i].Mass
	}
	seen := 0
	for _, c := range r.Stability {
		if strings.HasPrefix(c.Case.Words, "empty, ") {
			seen++
			if math.Abs(c.Mass-mass) > 1e-9 {
				t.Errorf("%s: %.3f kg, its parts %.3f", c.Case.Words, c.Mass, mass)
			}
		}
	}
	if seen == 0 {
		t.Error("no case of the empty station")
	}
}

// An eccentric weight is in the station, turns with the arm, and is looked at against
// whatever stands still.
func TestEccentricIsWeighedAndSwept(t *testing.T) {
	f := solvertest.Frame(t, "arm-pad-station")
	f.Geometry.Counterweight = nil
	plain, err := Check(f)
	if err != nil {
		t.Fatal(err)
	}
	f.Geometry.Eccentric = &specs.Eccentric{Mass: 6, Radius: 200, Phase: -60 * specs.Degree}
	r, err := Check(f)
	if err != nil {
		t.Fatal(err)
	}
	// Block and bar together have the moment of 6 kg at 200 mm about the axis; the
	// collar that holds the bar is round the shaft, and each side has its own.
	a := r.Station.Assembly
	axis := f.Geometry.Pivots.Axes[len(f.Geometry.Pivots.Axes)/2].Vector()
	pivot := r3.Vec{Y: -f.Geometry.Pivots.Spacing / 2, Z: f.Geometry.Pivots.Height}
	added := 0.0
	moment := func(theta float64) r3.Vec {
		pose := a.Reference
		pose.Flexion[0] = theta
		places := a.At(pose, nil)
		var sum r3.Vec
		added = 0
		for i := range a.Parts {
			p := &a.Parts[i]
			if !strings.HasPrefix(p.Item, "eccentric-") {
				continue
			}
			added += p.Mass
			if p.Side == assembly.Right {
				out := r3.Sub(a.Place(i, places).Point(p.Solid.Centroid()), pivot)
				sum = r3.Add(sum, r3.Scale(p.Mass, r3.Sub(out, r3.Scale(r3.Dot(out, axis), axis))))
			}
		}
		return sum
	}
	first := a.Reference.Flexion[0]
	p, q := moment(first), moment(first+90*specs.Degree)
	if math.Abs(r3.Norm(p)-1200) > 1 || r3.Norm(r3.Sub(r3.Cross(axis, p), q)) > 1e-3 {
		t.Errorf("moments of mass %v and, a quarter turn on, %v kg·mm", p, q)
	}
	// A bar's middle is nearer to the axis than 200 mm, so that both sides weigh more
	// than twice 6 kg.
	if more := a.Mass() - plain.Station.Assembly.Mass(); added < 12 || more < added {
		t.Errorf("%.3f kg of weights make the station %.3f kg heavier", added, more)
	}
	seen := 0
	for _, h := range r.Hazards.Pairs {
		if h.Moving == "eccentric weight" {
			seen++
		}
	}
	if seen < 10 {
		t.Errorf("%d pairs of the eccentric weight", seen)
	}
}

// Belt and chain are told with the pull that statics gives: twice the cable's
// torque on the wheel's pitch diameter, at half the weight of the heaviest stack with its selector
// and floating sheave.
func TestDrivePull(t *testing.T) {
	r, err := Check(solvertest.Frame(t, "arm-pad-station"))
	if err != nil {
		t.Fatal(err)
	}
	v := r.Resistance.Transmission
	if v == nil {
		t.Fatal("no chain")
	}
	most := 0.0
	for _, h := range r.Resistance.MomentArm {
		most = math.Max(most, h)
	}
	// 08B has a pitch of 12.7 mm; a sprocket's pitch diameter is p / sin(180 deg / z) (ISO 606).
	wheel := 12.7 / math.Sin(math.Pi/float64(r.Frame.Geometry.Cam.DrivenTeeth))
	want := (r.Frame.Resistance.Load.Heavy + r.Resistance.Dead) * balance.G / 2 * most / (wheel / 2)
	if math.Abs(v.Pull-want) > 1e-6*want {
		t.Errorf("pull %.1f N, want %.1f", v.Pull, want)
	}
	t.Logf("pull %.0f N, %g mm wide, factor %.2f by its %s", v.Pull, v.Width, v.Factor, v.Basis)
}
