package station

import (
	"math"
	"slices"
	"strings"
	"testing"

	"armwright/geometry/assembly"
	"armwright/geometry/solid"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// withCable are the examples with a cable.
func withCable() map[string]Values {
	out := map[string]Values{}
	for name, v := range examples() {
		if v.HasStack() {
			out[name] = v
		}
	}
	return out
}

// prefixed tells whether an id begins with one of some words.
func prefixed(id string, words ...string) bool {
	for _, w := range words {
		if strings.HasPrefix(id, w) {
			return true
		}
	}
	return false
}

// The cable touches nothing but cam and sheaves, wherever axis, arm and stack are. Its
// way is laid anew here, from the contact on the cam in each position.
func TestCableRunsFree(t *testing.T) {
	const clear = 2.0 // mm; least of all is what a fork's bridge leaves
	for name, v := range withCable() {
		t.Run(name, func(t *testing.T) {
			var m Maker
			a, _, err := m.Build(&v)
			if err != nil {
				t.Fatal(err)
			}
			r, c := m.Route(), &v.Tower.Cable
			planes := m.b.camPlanes()
			s := assembly.NewSpace(a)
			flexions := [3]float64{v.First, (v.First + v.Last) / 2, v.Last}
			least := math.Inf(1)
			for axis := range planes {
				for k, theta := range flexions {
					pose := a.Reference
					lift := v.Tower.Lift * float64(k) / 2
					pose.Axis, pose.Flexion, pose.Lift = axis, [2]float64{theta, theta}, [2]float64{lift, lift}
					s.Move(pose)
					path := r.Onward(r.Lead(axis, c.Line[k].Contact))
					// The last stretch ends higher.
					end := path[len(path)-1]
					if last := &r.Sheaves[len(r.Sheaves)-1]; last.Floating { // where it meets the floating sheave
						end = last.In
						for path[len(path)-1].Z < end.Z-1e-6 || path[len(path)-1].Y > end.Y+1e-6 {
							path = path[:len(path)-1]
						}
					}
					path[len(path)-1] = r3.Vec{X: end.X, Y: end.Y, Z: end.Z + lift}
					for i := range a.Parts {
						p := &a.Parts[i]
						switch {
						case p.Side == assembly.Left,
							p.ID == "stack-eye-right",                       // it ends there
							prefixed(p.ID, "cam-"),                          // it begins there
							prefixed(p.ID, "sheave-") && p.Item == "sheave", // it lies on it
							p.ID == "tower-upright-right":                   // bored, see below
							continue
						}
						for n := 1; n < len(path); n++ {
							if r3.Norm(r3.Sub(path[n], path[n-1])) < 1e-9 {
								continue
							}
							for _, piece := range p.Solid.Pieces() {
								d, _, _ := solid.Distance(solid.Capsule{A: path[n-1], B: path[n], Radius: c.Diameter / 2}, solid.World(), piece, s.Place(i))
								least = min(least, d)
								if d < clear {
									t.Fatalf("axis %d, flexion %.0f degrees: the cable passes %s by %.2f", axis, theta/degree, p.ID, d)
								}
							}
						}
					}
				}
			}
			t.Logf("least %.1f mm; fleet %.2f degrees; least wrap %.0f degrees; %.0f mm long", least, r.Fleet/degree, r.Wrap/degree, r.Length)
			if r.Fleet > 1.5*degree {
				t.Errorf("fleet angle at the cam %.2f degrees", r.Fleet/degree)
			}
		})
	}
}

// On its way inward the cable passes the uprights through the middle of a hole.
func TestCablePassesTheUprights(t *testing.T) {
	for name, v := range withCable() {
		var m Maker
		a, _, err := m.Build(&v)
		if err != nil {
			t.Fatal(err)
		}
		i, _ := a.Index("tower-upright-right")
		p := &a.Parts[i]
		hole := p.Solid.(solid.Prism).Bores[0]
		at, along := p.Place.Point(hole.At), p.Place.Vector(hole.Dir)
		n := len(m.Route().Sheaves) - 2 // the inner one over the tower
		if v.Tower.Pair {
			n++
		}
		from, to := m.Route().Sheaves[n-1].Out, m.Route().Sheaves[n].In
		if off := math.Hypot(at.X-from.X, at.Z-from.Z); off > 1e-6 || math.Abs(math.Abs(along.Y)-1) > 1e-9 || r3.Norm(r3.Cross(r3.Sub(to, from), along)) > 1e-6 {
			t.Errorf("%s: the hole is %.3f off the cable", name, off)
		}
		if hole.Diameter < v.Tower.Cable.Diameter+8 {
			t.Errorf("%s: a hole of %.1f", name, hole.Diameter)
		}
	}
}

// gapBetween is the least gap between parts of two kinds at some poses.
func gapBetween(t *testing.T, a *assembly.Assembly, poses []assembly.Pose, one, other func(id string) bool) float64 {
	t.Helper()
	s := assembly.NewSpace(a)
	least, found := math.Inf(1), false
	for _, pose := range poses {
		s.Move(pose)
		for i := range a.Parts {
			for j := range a.Parts {
				if i != j && one(a.Parts[i].ID) && other(a.Parts[j].ID) {
					least, found = min(least, s.Distance(i, j).Distance), true
				}
			}
		}
	}
	if !found {
		t.Fatal("no such parts")
	}
	return least
}

func begins(words ...string) func(string) bool {
	return func(id string) bool { return prefixed(id, words...) }
}

// isSheave leaves out forks, stems, axles, posts and feet.
func isSheave(id string) bool {
	return prefixed(id, "sheave-") && !strings.Contains(id, "-fork") && !strings.Contains(id, "-stem") && !strings.Contains(id, "-axle") && !strings.Contains(id, "-foot-") && !strings.Contains(id, "-post")
}

// lifts are the stack at rest, half up and at the end of the loaded range.
func lifts(a *assembly.Assembly, v *Values) []assembly.Pose {
	var out []assembly.Pose
	for _, share := range []float64{0, 0.5, 1} {
		p := a.Reference
		p.Lift = [2]float64{share * v.Tower.Lift, share * v.Tower.Lift}
		out = append(out, p)
	}
	return out
}

// Each was so in a machine that could not be put together.
func TestTowerFaultsOfOld(t *testing.T) {
	for name, v := range withCable() {
		t.Run(name, func(t *testing.T) {
			var m Maker
			a, _, err := m.Build(&v)
			if err != nil {
				t.Fatal(err)
			}
			tower, up := m.Tower(), lifts(a, &v)

			// The stack finishes its stroke with 20 mm left, in the axis position that has
			// lifted it most before.
			s := assembly.NewSpace(a)
			set := -slices.Min(m.Route().Slack)
			for i := range up {
				up[i].Lift[0] += set
				up[i].Lift[1] += set
			}
			top := up[len(up)-1:]
			s.Move(top[0])
			head, ok := a.Index("stack-head")
			if v.Tower.Pair {
				head, ok = a.Index("stack-head-right")
			}
			bar, _ := a.Index("rod-bar")
			if !ok {
				t.Fatal("no top plate")
			}
			_, high := solid.Bounds(a.Parts[head].Solid, s.Place(head))
			low, _ := solid.Bounds(a.Parts[bar].Solid, s.Place(bar))
			if got := low.Z - high.Z; math.Abs(got-20) > 1e-6 {
				t.Errorf("the raised stack stands %.1f under the rod bar, want 20", got)
			}
			if got := high.Z - (tower.StackTop + v.Tower.Lift + set); math.Abs(got) > 1e-6 {
				t.Errorf("the stack's top is %.1f off", got)
			}
			for _, c := range []struct {
				what       string
				one, other func(string) bool
				poses      []assembly.Pose
				least      float64
			}{
				{"guide rods and sheaves", begins("guide-rod"), isSheave, up, 5},
				{"uprights and sheaves with their forks", begins("tower-upright"), begins("sheave-"), up, 2},
				{"inner sheaves and what the stack carries", begins("sheave-inner"), begins("sheave-floating", "stack-", "selector-"), up, 5},
				{"outer sheaves and the rest of the tower", begins("sheave-outer-right"), begins("tower-upright", "tower-cap", "rod-bar", "guide-rod"), up, 2},
				{"guide sheave and posts", begins("sheave-guide", "guide-"), begins("pivot-post", "tower-"), up, 10},
				{"stack and uprights", begins("stack-plate", "stack-head"), begins("tower-upright"), up, 10},
			} {
				if got := gapBetween(t, a, c.poses, c.one, c.other); got < c.least {
					t.Errorf("%s: %.1f mm, want %.0f", c.what, got, c.least)
				}
			}
			// No two sheaves in each other.
			for i := range a.Parts {
				for j := range i {
					if p, q := a.Parts[i].ID, a.Parts[j].ID; isSheave(p) && isSheave(q) {
						if g := gapBetween(t, a, up, func(id string) bool { return id == p }, func(id string) bool { return id == q }); g < 5 {
							t.Errorf("%s and %s: %.1f mm", p, q, g)
						}
					}
				}
			}
		})
	}
}

// In every axis position the moment arm of the cable, measured on the parts as they
// stand, is that of the cam's law within 0.5 %, and the cable's way is as long as in any
// other within 2.2 mm, some 1 mm to either side: the guide sheave stands beside the cam on the bracket, and the cable
// leaves it along the line about which the bracket turns.
func TestMomentArmInEveryAxisPosition(t *testing.T) {
	for name, v := range withCable() {
		t.Run(name, func(t *testing.T) {
			var m Maker
			a, _, err := m.Build(&v)
			if err != nil {
				t.Fatal(err)
			}
			r, c := m.Route(), &v.Tower.Cable
			part := func(id string) int {
				i, ok := a.Index(id)
				if !ok {
					t.Fatalf("no %s", id)
				}
				return i
			}
			wheel, core := part("sheave-guide-right"), part("cam-core-right")
			next := part("sheave-rail-right")
			length := func(axis int) float64 {
				pose := a.Reference
				pose.Axis = axis
				groups := a.At(pose, nil)
				sheave, seat, far := a.Place(wheel, groups), a.Place(core, groups), a.Place(next, groups)
				// The first loaded angle's contact, turned with the cam as it stands.
				flat := seat.Then(solid.Turn(r3.Vec{}, r3.Vec{Z: 1}, -v.Ratio*v.First))
				for k, line := range c.Line {
					// The tangent from the contact to the circle of the sheave as it stands.
					contact := flat.Point(r3.Vec{X: line.Contact.X, Y: line.Contact.Y})
					q := sheave.Inverse().Point(contact)
					if math.Abs(q.Z) > 1e-6 {
						t.Fatalf("axis %d: the sheave is %.3f off the cam's plane", axis, q.Z)
					}
					away, angle := math.Hypot(q.X, q.Y), math.Atan2(q.Y, q.X)
					best := math.Inf(1)
					for _, way := range []float64{-1, 1} {
						sn, cs := math.Sincos(angle + way*math.Acos(c.Radius/away))
						touch := sheave.Point(r3.Vec{X: c.Radius * cs, Y: c.Radius * sn})
						u := r3.Unit(r3.Sub(touch, contact))
						arm := math.Abs(r3.Dot(r3.Cross(r3.Sub(contact, seat.Origin), u), seat.Z))
						best = min(best, math.Abs(arm/r2.Norm(line.Contact)-1))
					}
					if best > 0.005 {
						t.Errorf("axis %d, line %d: the moment arm is off by %.2f %%", axis, k, 100*best)
					}
				}
				// The belt's length on two circles that lie in one plane but for some tenths
				// of a degree: what the middles are apart, and the turns.
				d := r3.Sub(far.Origin, sheave.Origin)
				span := math.Sqrt(r3.Norm2(d)) // both turn the cable the same way, or opposite ways
				u := r3.Unit(r3.Sub(flat.Point(r3.Vec{X: c.Line[0].Leave.X, Y: c.Line[0].Leave.Y}), flat.Point(r3.Vec{X: c.Line[0].Contact.X, Y: c.Line[0].Contact.Y})))
				same := r3.Dot(r.Sheaves[0].Axis, r.Sheaves[1].Axis) > 0
				out := r.Sheaves[1].Run(r.Sheaves[1].Out)
				free := span
				if !same {
					free = math.Sqrt(span*span - 4*c.Radius*c.Radius)
				}
				// The direction of the free cable: that of the middles turned by the angle of
				// a crossed belt.
				turn := 0.0
				if !same {
					turn = math.Asin(2 * c.Radius / span)
				}
				e := r3.Rotate(r3.Unit(d), turn, r.Sheaves[0].Axis)
				return free + c.Radius*(math.Acos(r3.Dot(u, e))+math.Acos(r3.Dot(e, out)))
			}
			middle := length(len(v.Axes) / 2)
			longest, shortest := middle, middle
			for axis := range v.Axes {
				slack := middle - length(axis)
				longest, shortest = max(longest, middle-slack), min(shortest, middle-slack)
				if math.Abs(slack-r.Slack[axis]) > 0.2 { // the sheaves' planes are half a degree askew
					t.Errorf("axis %d: %.2f mm of slack, told %.2f", axis, slack, r.Slack[axis])
				}
			}
			if longest-shortest > 2.2 {
				t.Errorf("the cable's way is %.2f mm longer in one axis position than in another", longest-shortest)
			}
			t.Logf("slack %.2f mm, fleet %.2f deg, wrap %.0f deg, span %.0f mm", r.Slack, r.Fleet/degree, r.Wrap/degree, r.Span)
		})
	}
}
