package station

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"armwright/geometry/assembly"
	"armwright/geometry/assembly/lawtest"
	"armwright/geometry/linkage"
	"armwright/geometry/solid"
	"armwright/geometry/station/values"
	"armwright/testdata"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// randomTrain draws bars that close over the loaded range, keep 40 degrees of
// transmission and a ratio of 0.3, as the solver asks for, wherever their output
// shaft stands beyond the sole.
func randomTrain(r *rand.Rand, v *values.Station) (linkage.Train, bool) {
	between := func(low, high float64) float64 { return low + (high-low)*r.Float64() }
	g := between(160, 260)
	t := linkage.Train{
		Bars:       linkage.FourBar{Ground: g, Input: g * between(.25, 2), Coupler: g * between(.25, 2), Output: g * between(.25, 2), Crossed: r.IntN(2) == 1},
		Direction:  between(20*degree, 120*degree),
		InputPhase: between(-math.Pi, math.Pi), Radius: between(150, 450), Phase: between(-math.Pi, math.Pi),
	}
	for theta := v.First - 5*degree; theta <= v.Last+5*degree; theta += 2.5 * degree {
		p, err := t.At(theta)
		if err != nil || p.Transmission < 40*degree || math.Abs(p.Ratio) < .3 {
			return t, false
		}
	}
	return t, true
}

// linked are values with a linkage that can be built, by rejection, and ones that
// fail a need of the bars.
func linked(t *testing.T, n int) (good, bad []values.Station) {
	t.Helper()
	r := rand.New(rand.NewPCG(17, 3))
	base := examples()["linkage"]
	for range 400000 {
		v := base
		train, ok := randomTrain(r, &v)
		if !ok {
			continue
		}
		v.Linkage.Train = train
		shaft := train.Shaft()
		v.Second = &values.SecondShaft{X: shaft.X, Y: shaft.Y}
		_, needs, err := Build(v)
		if err != nil {
			t.Fatal(err)
		}
		kind := &good
		for _, need := range needs {
			if need.Slack >= 0 {
				continue
			}
			switch {
			case need.ID == "input-bar-output-shaft" || need.ID == "coupler-output-shaft":
				if kind == &good && need.Slack < -values.LayerClear {
					kind = &bad
				} else if kind == &good {
					kind = nil
				}
			default:
				kind = nil
			}
			if kind == nil {
				break
			}
		}
		if kind != nil && len(*kind) < n {
			*kind = append(*kind, v)
		}
		if len(good) == n && len(bad) == n {
			return good, bad
		}
	}
	t.Fatalf("only %d and %d linkages of %d", len(good), len(bad), n)
	return nil, nil
}

// driveParts tells the parts that a drive adds, and what swivels beside it.
func driveParts(p *assembly.Part) bool {
	return p.Is(assembly.Turns) || p.Is(assembly.Swivels)
}

// met are the pairs of parts that move against each other and share space somewhere
// in the motion.
func met(t *testing.T, v *values.Station, step float64) map[string]float64 {
	t.Helper()
	a, _, err := Build(*v)
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]float64{}
	s := lawtest.NewSpace(a)
	see := func(moving bool) {
		for _, o := range s.Overlaps(.05, moving) {
			p, q := &a.Parts[o.A], &a.Parts[o.B]
			if driveParts(p) && driveParts(q) && p.Side == assembly.Right && q.Side == assembly.Right {
				key := p.ID + " in " + q.ID
				out[key] = max(out[key], o.Depth)
			}
		}
	}
	see(false)
	pose := a.Reference
	for theta := v.First; theta <= v.Last; theta += step {
		pose.Flexion = [2]float64{theta, theta}
		s.Move(pose)
		see(true)
	}
	return out
}

// Input and output bar once lay in one plane, and cut each other and the shafts in
// six of ten linkages; the plate lever ran through the bearings.
func TestBarsShaftsPinsAndPlatesNeverMeet(t *testing.T) {
	testdata.Long(t)
	good, bad := linked(t, 12)
	for i := range good {
		for pair, depth := range met(t, &good[i], 2*degree) {
			t.Errorf("%+v: %s by %.1f", good[i].Linkage.Train, pair, depth)
		}
	}
	// Where a need of the bars fails by more than its own clearance, they do meet.
	for i := range bad {
		pairs := met(t, &bad[i], degree/2)
		seen := false
		for pair := range pairs {
			seen = seen || strings.Contains(pair, "output-shaft") && (strings.Contains(pair, "input-bar") || strings.Contains(pair, "coupler"))
		}
		if !seen {
			t.Errorf("%+v: told to meet the output shaft, meets %v", bad[i].Linkage.Train, pairs)
		}
	}
}

// Bars that move against each other have layers along the axis of their own, so that
// no length of theirs can make them meet.
func TestBarsLieInLayers(t *testing.T) {
	v := examples()["linkage"]
	p := v.Planes()
	half := v.BarThick / 2
	pinReach := p.Coupler + half + pinProud
	for _, c := range []struct {
		what      string
		low, high float64
	}{
		{"collar of the input bar past the bearing's ring", p.RingOut, p.Input - half - values.CollarLong},
		{"input bar under the coupler", p.Input + half, p.Coupler - half},
		{"coupler under the output bar", p.Coupler + half, p.Output - half},
		{"end of the input bar's pin under the output bar", pinReach, p.Output - half},
		{"end of the output bar's pin over the input bar", p.Input + half, p.Coupler - half - pinProud},
		{"a finger between output bar and plate lever", p.Output + half + 25, p.PlateLever - half},
		{"plate lever under the plates", p.PlateLever + half, p.Plates},
		{"end of the arm's shaft under the coupler", p.ShaftEnd, p.Coupler - half},
	} {
		if c.high-c.low < 0 {
			t.Errorf("%s: %.1f", c.what, c.high-c.low)
		}
	}
}

// Both ends of the coupler stay on their pins, and the plates where the train has
// them, whatever the axis position.
func TestLinkageMovesAsItsTrain(t *testing.T) {
	v := examples()["linkage"]
	a, _, err := Build(v)
	if err != nil {
		t.Fatal(err)
	}
	index := func(id string) int {
		i, ok := a.Index(id)
		if !ok {
			t.Fatalf("no part %s", id)
		}
		return i
	}
	eye := func(groups []solid.Placement, id string, along float64) r3.Vec {
		return a.Place(index(id), groups).Point(r3.Vec{X: along})
	}
	bars := NewLinkageBars(&v)
	across := func(d, axis r3.Vec) float64 { return r3.Norm(r3.Sub(d, r3.Scale(r3.Dot(d, axis), axis))) }
	for axis := range v.Axes {
		for _, theta := range []float64{v.First, 40 * degree, 90 * degree, v.Last} {
			pose := a.Reference
			pose.Axis, pose.Flexion = axis, [2]float64{theta, theta}
			groups := a.At(pose, nil)
			outward := v.Axes[axis]
			for _, c := range []struct {
				what string
				p, q r3.Vec
			}{
				{"input pin", eye(groups, "input-bar-right", bars.Input.Length), eye(groups, "coupler-right", 0)},
				{"output pin", eye(groups, "output-bar-right", bars.Output.Length), eye(groups, "coupler-right", bars.Coupler.Length)},
				{"sleeve", eye(groups, "plate-lever-right", bars.Lever.Length), eye(groups, "plate-sleeve-right", 0)},
				{"output shaft", eye(groups, "output-shaft-right", 0), eye(groups, "output-bar-right", 0)},
			} {
				if d := across(r3.Sub(c.p, c.q), outward); d > 1e-6 {
					t.Errorf("axis %d, flexion %.0f: %s %.3g off", axis, theta/degree, c.what, d)
				}
			}
			left, right := a.Place(index("plates-left"), groups).Origin, a.Place(index("plates-right"), groups).Origin
			if r3.Norm(r3.Sub(left, mirrorY(right))) > 1e-9 {
				t.Errorf("axis %d: plates at %v and %v", axis, left, right)
			}
		}
	}
	// By the train itself: in the plane across the middle axis, forward and up.
	pose := a.Reference
	pose.Flexion = [2]float64{70 * degree, 70 * degree}
	want, err := v.Linkage.Train.At(70 * degree)
	if err != nil {
		t.Fatal(err)
	}
	pivot := r3.Vec{Y: -v.Spacing / 2, Z: v.Height}
	outward := v.Axes[len(v.Axes)/2]
	forward := r3.Unit(r3.Sub(r3.Vec{X: 1}, r3.Scale(outward.X, outward)))
	at := r3.Sub(a.Place(index("plates-right"), a.At(pose, nil)).Origin, pivot)
	got := r2.Vec{X: r3.Dot(at, forward), Y: r3.Dot(at, r3.Cross(outward, forward))}
	if r2.Norm(r2.Sub(got, want.Plates)) > 1e-6 {
		t.Errorf("plates at %v, train has %v", got, want.Plates)
	}
}

func mirrorY(v r3.Vec) r3.Vec { return r3.Vec{X: v.X, Y: -v.Y, Z: v.Z} }

// moment is the mass times place, across the middle axis, of right parts whose ids
// begin so: forward and up, kg·mm.
func moment(a *assembly.Assembly, v *values.Station, prefix string, flexion float64) r2.Vec {
	pose := a.Reference
	pose.Flexion = [2]float64{flexion, flexion}
	groups := a.At(pose, nil)
	outward := v.Axes[len(v.Axes)/2]
	forward := r3.Unit(r3.Sub(r3.Vec{X: 1}, r3.Scale(outward.X, outward)))
	var sum r2.Vec
	for i := range a.Parts {
		p := &a.Parts[i]
		if p.Side != assembly.Right || !strings.HasPrefix(p.ID, prefix) {
			continue
		}
		d := r3.Sub(groups[p.Group].Point(p.Centre), r3.Vec{Y: -v.Spacing / 2, Z: v.Height})
		sum = r2.Add(sum, r2.Scale(p.Mass, r2.Vec{X: r3.Dot(d, forward), Y: r3.Dot(d, r3.Cross(outward, forward))}))
	}
	return sum
}

func TestEccentricWeightHasItsMoment(t *testing.T) {
	v := examples()["bench"]
	v.Eccentric = values.Eccentric{Mass: 4, Radius: 140, Phase: -70 * degree}
	a, needs, err := Build(v)
	if err != nil {
		t.Fatal(err)
	}
	for _, n := range needs {
		if n.Slack < 0 {
			t.Errorf("need %s: %.1f", n.ID, n.Slack)
		}
	}
	for _, theta := range []float64{v.First, 60 * degree, v.Last} {
		s, c := math.Sincos(theta + v.Eccentric.Phase)
		want := r2.Scale(4*140, r2.Vec{X: c, Y: s})
		if got := moment(a, &v, "eccentric", theta); r2.Norm(r2.Sub(got, want)) > 1e-6*560 {
			t.Errorf("at %.0f degrees: %v kg mm, want %v", theta/degree, got, want)
		}
	}
	for pair, depth := range met(t, &v, 5*degree) {
		t.Errorf("%s by %.1f", pair, depth)
	}
}

func TestPlatesHangWhereTheLeverHasThem(t *testing.T) {
	v := examples()["levers"]
	a, _, err := Build(v)
	if err != nil {
		t.Fatal(err)
	}
	for _, theta := range []float64{v.First, 60 * degree, v.Last} {
		s, c := math.Sincos(theta + v.Lever.Phase)
		want := r2.Scale(v.Lever.Plates.Mass*v.Lever.Radius, r2.Vec{X: c, Y: s})
		if got := moment(a, &v, "plates", theta); r2.Norm(r2.Sub(got, want)) > 1e-6*r2.Norm(want) {
			t.Errorf("at %.0f degrees: %v kg mm, want %v", theta/degree, got, want)
		}
	}
	// The lever ran through its bearing and the swivel bar at every angle.
	for pair, depth := range met(t, &v, 2*degree) {
		t.Errorf("%s by %.1f", pair, depth)
	}
}
