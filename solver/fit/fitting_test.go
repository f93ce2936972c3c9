package fit

import (
	"math"
	"strings"
	"testing"

	"armwright/geometry/balance"
	"armwright/geometry/station"
	"armwright/specs"

	"gonum.org/v1/gonum/spatial/r3"
)

// Each arm's own stack stands under its cable's end: the same masses on each of two
// stacks as half a shared one give the same torque, each stack rises by its arm's
// whole take-up, and the station weighs both.
func TestPairOfStacks(t *testing.T) {
	shared := padFrame(t)
	paired := padFrame(t)
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
	// Balance: one arm alone lifts its own stack all the way, both lift two; with the
	// pivots' mirror symmetry the moments about the floor are those of the shared one.
	stand := func(res *Result) *stance {
		s, err := newProgram(&res.Frame.Asked)
		if err != nil {
			t.Fatal(err)
		}
		d, err := s.drive(&res.Frame.Geometry)
		if err != nil {
			t.Fatal(err)
		}
		return s.stance(&scene{layout: res.Layout, built: res.Structure, drive: d})
	}
	a, b := stand(one), stand(two)
	last := len(b.lift[rightAlone]) - 1
	if up := b.lift[rightAlone][last]; math.Abs(up-two.Resistance.TakeUp) > 1e-9 || math.Abs(a.lift[rightAlone][last]-up/2) > 1e-9 {
		t.Errorf("one arm lifts %.1f mm, take-up %.1f, shared %.1f", up, two.Resistance.TakeUp, a.lift[rightAlone][last])
	}
	// What is lifted is the same: half the mass on each of two, or all on one.
	rise := func(s *stance, way int) float64 { return s.moment[2][way][last].Z - s.moment[2][way][0].Z }
	if math.Abs(rise(a, bothArms)-rise(b, bothArms)) > 1e-6*rise(a, bothArms) {
		t.Errorf("both arms raise %.0f kg·mm, of a shared stack %.0f", rise(b, bothArms), rise(a, bothArms))
	}
	stacks, mass := 0, 0.0
	for _, u := range two.Structure.Lumps {
		if strings.HasPrefix(u.ID, "stack-") {
			stacks++
			mass += u.Mass
			if end := two.Resistance.Route.End; u.ID == "stack-right" && (math.Abs(end.X-u.Centre.X) > 1e-6 || math.Abs(end.Y-u.Centre.Y) > 1e-6) {
				t.Errorf("the cable ends at (%.1f, %.1f), the stack stands at (%.1f, %.1f)", end.X, end.Y, u.Centre.X, u.Centre.Y)
			}
		}
	}
	if stacks != 2 || math.Abs(mass-one.Layout.StackMass) > 1e-9 {
		t.Errorf("%d stacks of %.1f kg together", stacks, mass)
	}
	// The route: tangents, no floating sheave, the planes hold the lines.
	v := two.Resistance.Route
	if len(v.Sheaves) != routeSheaves || v.Cables() != 2 {
		t.Fatalf("%d sheaves, %d cables", len(v.Sheaves), v.Cables())
	}
	for i, q := range v.Sheaves {
		if q.Fleet > 1e-6 {
			t.Errorf("%s: fleet angle %.3f deg", q.Name, q.Fleet/deg)
		}
		if i > 0 {
			line := r3.Sub(q.In, v.Sheaves[i-1].Out)
			if off := r3.Dot(line, r3.Sub(q.In, q.Centre)); math.Abs(off) > 1e-6*r3.Norm(line)*q.Radius {
				t.Errorf("the line to %s is no tangent", q.Name)
			}
		}
	}
	top := v.Sheaves[routeSheaves-1]
	if raised := v.End.Z + two.Resistance.TakeUp; raised > top.Centre.Z {
		t.Errorf("the raised stack reaches %.0f mm, the top sheave's axis is at %.0f", raised, top.Centre.Z)
	}
	// The cable rises between stack and upright.
	if y := -v.Sheaves[2].Out.Y; y < two.Layout.StackAside+two.Layout.StackLong/2 || y > two.Layout.TowerHalf()-two.Layout.Side/2 {
		t.Errorf("the rising cable stands %.0f mm from the middle", y)
	}
	// A base that holds one stack is too narrow for two.
	s, err := newProgram(&two.Frame.Asked)
	if err != nil {
		t.Fatal(err)
	}
	g := Clone(&two.Frame.Geometry)
	g.Base.Width = 700
	if rows := s.sanity(g, nil); rows[len(rows)-1] > -100 {
		t.Errorf("two stacks on a base of 700 mm: %.0f", rows[len(rows)-1])
	}
}

// What the drive weighs is in the balance and in the parts list: the structure's
// lumps and the list agree, and a steel shaft's mass is what a hand calculation
// gives.
func TestDriveHasMass(t *testing.T) {
	r, err := Check(padFrame(t))
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
	listed := 0.0
	s := mustStudy(t, &r.Frame.Asked)
	area := s.camArea(r.Frame.Geometry.Cam.Ratio, r.Resistance.MomentArm)
	for _, p := range r.Parts {
		if p.Title == "Cam" {
			// What the balance counts is within a fifth of the plates as cut.
			counted := s.camMass(area, area)
			if math.Abs(counted-p.Mass) > p.Mass/5 {
				t.Errorf("cam of %.2f kg counted as %.2f", p.Mass, counted)
			}
			listed += float64(p.Count) * counted
			continue
		}
		for _, u := range r.Layout.Drive {
			if p.Title == u.Title && math.Abs(p.Mass-u.Mass) < 1e-9 {
				listed += float64(p.Count) * p.Mass
				break
			}
		}
		if p.Title == "Countershaft" {
			// 25 mm round: 3.853 kg/m (steel tables).
			if want := 3.853 * p.Length / 1000; math.Abs(p.Mass-want) > 0.002*want {
				t.Errorf("countershaft %.3f kg, want %.3f", p.Mass, want)
			}
		}
	}
	if math.Abs(listed-lumps) > 1e-9 {
		t.Errorf("%.3f kg listed, %.3f in the structure", listed, lumps)
	}
}

// The cable to cut is the way to the stack, what lies on the cam behind the
// contact, and the ends; that what lies there grows as flexion takes up cable is
// the take-up less what the free span gives.
func TestCableLength(t *testing.T) {
	r, err := Check(padFrame(t))
	if err != nil {
		t.Fatal(err)
	}
	d := &r.Resistance
	from, to := d.Angles[0], d.Angles[len(d.Angles)-1]
	first, err := d.Profile.At(from)
	if err != nil {
		t.Fatal(err)
	}
	last, err := d.Profile.At(to)
	if err != nil {
		t.Fatal(err)
	}
	start, end := onCam(d.Outline, first.Phi), onCam(d.Outline, last.Phi)
	guide := d.Profile.Guide
	// Take-up = arc + change of span + s r change of psi (docs/cam.md).
	psi := last.Psi - first.Psi
	if got := end - start + last.Span - first.Span + float64(guide.Side)*guide.Radius*psi; math.Abs(got-d.TakeUp) > 0.02 {
		t.Errorf("arc and span give a take-up of %.3f mm, the law %.3f", got, d.TakeUp)
	}
	if want := 2 * (d.Route.Length + start + cableEnd); math.Abs(d.Route.Cut-want) > 1e-9 || start <= 0 {
		t.Errorf("cut %.1f mm, want %.1f", d.Route.Cut, want)
	}
}

// An eccentric weight is in the balance, sweeps as a round plate in its own plane,
// and clears guide sheave and countershaft there.
func TestEccentricIsWeighedAndSwept(t *testing.T) {
	f := padFrame(t)
	f.Geometry.Counterweight = nil
	plain, err := Check(f)
	if err != nil {
		t.Fatal(err)
	}
	f.Geometry.Eccentric = &specs.Eccentric{Mass: 6, Radius: 200, Phase: -60 * deg}
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
	p, q := place(0), place(90*deg)
	if math.Abs(p.X-q.Z) > 1e-9 || math.Abs(p.Z+q.X) > 1e-9 || math.Abs(math.Hypot(p.X, p.Z)-200) > 1e-9 {
		t.Errorf("from %v to %v", p, q)
	}
	seen := 0
	for _, h := range r.Hazards.Pairs {
		if h.Moving != eccentricName {
			continue
		}
		seen++
		if guarded(h.Moving, h.Fixed) && h.Gap < guardClear {
			t.Errorf("%s comes within %.1f mm of the %s", h.Moving, h.Gap, h.Fixed)
		}
	}
	if seen < 10 {
		t.Errorf("%d pairs of the eccentric weight", seen)
	}
	// A plate of 6 kg, 30 mm thick, is 180 mm across: 7.85e-6 x 30 x π/4 d².
	for _, m := range mustStudy(t, &f.Asked).movers(&f.Geometry, r.Layout) {
		if m.name == eccentricName && math.Abs(2*m.across-math.Sqrt(6/(7.85e-6*station.CounterThick*math.Pi/4))) > 1e-6 {
			t.Errorf("it sweeps %.1f mm across", 2*m.across)
		}
	}
}

func mustStudy(t *testing.T, a *specs.Asked) *program {
	t.Helper()
	s, err := newProgram(a)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// Belt and chain are told with the pull that statics gives: twice the cable's
// torque on the wheel's pitch diameter, at half the heaviest stack's weight.
func TestDrivePull(t *testing.T) {
	r, err := Check(padFrame(t))
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
	weak, slim, wide := *v, *v, *v
	weak.Factor = weak.Wanted / 2
	slim.Width, wide.Width = wheelRoom, wheelRoom+1
	if len(driveStrengthNotes(v, specs.Metric)) != 0 || len(driveStrengthNotes(&weak, specs.Metric)) != 1 || len(driveStrengthNotes(&slim, specs.Metric)) != 0 || len(driveStrengthNotes(&wide, specs.Metric)) != 1 {
		t.Error("what is told of the drive's strength does not follow factor and width")
	}
}
