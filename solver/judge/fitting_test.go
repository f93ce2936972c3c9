package judge

import (
	"math"
	"slices"
	"strings"
	"testing"

	"armwright/geometry/assembly"
	"armwright/geometry/balance"
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
		if w := one.Resistance.Heavy.Delivered[i]; math.Abs(v-w) > 1e-9*w {
			t.Fatalf("torque %g, on a shared stack %g", v, w)
		}
	}
	// Work on both stacks against the torque's, and against the shared stack's.
	e := two.Resistance.Energy
	if math.Abs(e.Stack-one.Resistance.Energy.Stack) > 1e-9*e.Stack || e.Difference > 1e-3 {
		t.Errorf("work %g, shared %g, off the torque's by %g", e.Stack, one.Resistance.Energy.Stack, e.Difference)
	}
	stacks, mass := 0, 0.0
	for _, u := range two.Structure.Lumps {
		if strings.HasPrefix(u.ID, "stack-") {
			stacks++
			mass += u.Mass
		}
	}
	if stacks != 2 || math.Abs(mass-one.Layout.StackMass) > 1e-9 {
		t.Errorf("%d stacks of %.1f kg together", stacks, mass)
	}
	// The route: tangents, no floating sheave, the planes hold the lines.
	v := two.Resistance.Route
	parts := two.Station.Assembly.Parts
	head := slices.IndexFunc(parts, func(p assembly.Part) bool { return p.ID == "stack-head-right" })
	if at := parts[head].Centre; math.Abs(v.End.X-at.X) > 1 || math.Abs(v.End.Y-at.Y) > 1 {
		t.Errorf("the cable ends at (%.1f, %.1f), the stack stands at (%.1f, %.1f)", v.End.X, v.End.Y, at.X, at.Y)
	}
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
	if raised := v.End.Z + two.Resistance.TakeUp; raised > top.Centre.Z {
		t.Errorf("the raised stack reaches %.0f mm, the top sheave's axis is at %.0f", raised, top.Centre.Z)
	}
}

// What the drive weighs is in the balance, to the gram of the structure's
// lumps.
func TestDriveHasMass(t *testing.T) {
	r, err := Check(solvertest.Frame(t, "arm-pad-station"))
	if err != nil {
		t.Fatal(err)
	}
	lumps := 0.0
	for _, u := range r.Layout.Drive {
		if !(u.Mass > 0) {
			t.Errorf("%s weighs %g kg", u.Title, u.Mass)
		}
		lumps += 2 * u.Mass
	}
	whole, _ := r.Structure.Centre()
	bare := r.Layout
	bare.Drive = nil
	without, _ := bare.Build().Centre()
	if math.Abs(whole-without-lumps) > 1e-9 {
		t.Errorf("the structure gains %.3f kg, the drive weighs %.3f", whole-without, lumps)
	}
}

// underGuard is what parts under one guard keep apart, mm: no finger gets there.
const underGuard = 5.0

// An eccentric weight is in the balance, sweeps as a round plate in its own plane,
// and clears guide sheave and countershaft there.
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
	a, _ := plain.Structure.Centre()
	b, _ := r.Structure.Centre()
	if math.Abs(b-a-12) > 1e-9 {
		t.Errorf("two weights of 6 kg add %.3f kg", b-a)
	}
	// Moved from the first to the last angle, its place turns by as much.
	place := func(theta float64) r3.Vec {
		for _, u := range r.Layout.Moved(r.Structure, theta, 0).Lumps {
			if u.ID == "eccentric-right" {
				return r3.Sub(u.Centre, r.Layout.RightPivot())
			}
		}
		t.Fatal("no eccentric weight")
		return r3.Vec{}
	}
	p, q := place(0), place(90*specs.Degree)
	if math.Abs(p.X-q.Z) > 1e-9 || math.Abs(p.Z+q.X) > 1e-9 || math.Abs(math.Hypot(p.X, p.Z)-200) > 1e-9 {
		t.Errorf("from %v to %v", p, q)
	}
	seen := 0
	for _, h := range r.Hazards.Pairs {
		if h.Moving != "eccentric weight" {
			continue
		}
		seen++
		if h.Required == underGuard && h.Gap < underGuard {
			t.Errorf("%s comes within %.1f mm of the %s", h.Moving, h.Gap, h.Fixed)
		}
	}
	if seen < 10 {
		t.Errorf("%d pairs of the eccentric weight", seen)
	}
}

// Belt and chain are told with the pull that statics gives: twice the cable's
// torque on the wheel's pitch diameter, at half the heaviest stack's weight.
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
	want := r.Frame.Resistance.Load.Heavy * balance.G / 2 * most / (wheel / 2)
	if math.Abs(v.Pull-want) > 1e-6*want {
		t.Errorf("pull %.1f N, want %.1f", v.Pull, want)
	}
	t.Logf("pull %.0f N, %g mm wide, factor %.2f by its %s", v.Pull, v.Width, v.Factor, v.Basis)
}
