package station

import (
	"math"
	"slices"
	"strings"
	"testing"

	"armwright/geometry/assembly"
	"armwright/geometry/assembly/lawtest"
	"armwright/geometry/cable"
	"armwright/geometry/cam"
	"armwright/geometry/solid"
	"armwright/geometry/station/values"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// withCable are the examples with a cable.
func withCable() map[string]values.Station {
	out := map[string]values.Station{}
	for name, v := range examples() {
		if v.HasStack() {
			out[name] = v
		}
	}
	return out
}

// prefixed reports whether an id begins with one of some words.
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
			s := lawtest.NewSpace(a)
			least := math.Inf(1)
			for axis := range planes {
				for k := range c.Line {
					part := float64(k) / (cable.Lines - 1)
					pose := a.Reference
					theta, lift := v.First+(v.Last-v.First)*part, v.Tower.Lift*part
					pose.Axis, pose.Flexion, pose.Lift = axis, [2]float64{theta, theta}, [2]float64{lift, lift}
					s.Move(pose)
					contact := planes[axis].Point(r3.Vec{X: c.Line[k].Contact.X, Y: c.Line[k].Contact.Y})
					_, leave := r.Tangent(axis, contact)
					path := []r3.Vec{contact, leave, r.At(axis)}
					path = beyondGuide(r, path)
					// The last stretch ends higher.
					end := path[len(path)-1]
					if len(r.Sheaves) == 6 { // where it meets the floating sheave
						end = r.Sheaves[5].In
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
							p.ID == "tower-upright-right",                   // bored, see below
							prefixed(p.ID, "guide-stem", "guide-bush", "guide-sleeve", "guide-collar", "sheave-guide-fork"): // bored, see below
							continue
						}
						for n := 1; n < len(path); n++ {
							if r3.Norm(r3.Sub(path[n], path[n-1])) < 1e-9 {
								continue
							}
							for _, piece := range p.Solid.Pieces() {
								d, _, _ := solid.Distance(solid.Balls{{Centre: path[n-1], Radius: c.Diameter / 2}, {Centre: path[n], Radius: c.Diameter / 2}}, solid.World(), piece, s.Place(i))
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
			if r.Fleet > 2*degree { // these are not solved for the 1.5 degrees of a brief
				t.Errorf("fleet angle at the cam %.2f degrees", r.Fleet/degree)
			}
		})
	}
}

// beyondGuide appends the cable's way from below the guide sheave on.
func beyondGuide(r *cable.Route, dst []r3.Vec) []r3.Vec {
	rest := cable.Route{Start: r.Hang, Sheaves: r.Sheaves[1:], End: r.End}
	return rest.Path(dst)
}

// The cable leaves the guide sheave through the middle of its hollow stem, in every
// axis position, with room round it.
func TestCableLeavesThroughTheStem(t *testing.T) {
	for name, v := range withCable() {
		var m Maker
		a, _, err := m.Build(&v)
		if err != nil {
			t.Fatal(err)
		}
		r := m.Route()
		for axis := range v.Axes {
			pose := a.Reference
			pose.Axis = axis
			groups := a.At(pose, nil)
			for _, id := range []string{"guide-stem-right", "guide-bush-right", "guide-sleeve-right", "guide-collar-right"} {
				i, ok := a.Index(id)
				if !ok {
					t.Fatalf("%s: no %s", name, id)
				}
				at := a.Place(i, groups)
				off := math.Hypot(at.Origin.X-r.Hang.X, at.Origin.Y-r.Hang.Y)
				if off > 1e-6 || math.Abs(at.Z.Z) < 1-1e-9 {
					t.Errorf("%s: %s is %.3f off the plumb line", name, id, off)
				}
			}
			i, _ := a.Index("sheave-guide-fork-right")
			bores := a.Parts[i].Solid.(solid.Prism).Bores
			eye := bores[len(bores)-1]
			at := a.Place(i, groups).Point(eye.At)
			if off := math.Hypot(at.X-r.Hang.X, at.Y-r.Hang.Y); off > 1e-6 || eye.Diameter < v.Tower.Cable.Diameter+4 {
				t.Errorf("%s: the fork's eye of %.1f is %.3f off the plumb line", name, eye.Diameter, off)
			}
		}
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
		from, to := m.Route().Sheaves[3].Out, m.Route().Sheaves[4].In
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
	s := lawtest.NewSpace(a)
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

// isSheave leaves out forks, stems, axles and feet.
func isSheave(id string) bool {
	return prefixed(id, "sheave-") && !strings.Contains(id, "-fork") && !strings.Contains(id, "-stem") && !strings.Contains(id, "-axle") && !strings.Contains(id, "-foot-")
}

// lifts are the stack at rest, half up and at the end of the loaded range.
func lifts(a *assembly.Assembly, v *values.Station) []assembly.Pose {
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
			s := lawtest.NewSpace(a)
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
				{"guide sheave and posts", begins("sheave-guide"), begins("pivot-post", "tower-"), up, 10},
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

// The law of a cam is made in its plane, with a guide sheave that lies in it. As built
// that sheave stands plumb, askew to the plane: in the middle axis position the moment
// arm stays the law's. In the others the cam has swivelled away, by some 50 mm in its
// plane, and the guide sheave is set higher or lower after it: as the squares of the leans
// in the plane and the fourth powers of those out of it have it, equal at 0.3 degrees.
func TestMomentArmAsBuilt(t *testing.T) {
	for name, v := range withCable() {
		if v.Second == nil {
			continue
		}
		law, err := cam.NewLaw(v.First, v.Last, []float64{51.05, 60.7, 70.4, 79.4, 89.3, 100.7, 113.2, 121.4, 124.1, 122, 115.9, 106.6, 94.9, 81.4})
		if err != nil {
			t.Fatal(err)
		}
		c := &v.Tower.Cable
		// The guide's centre is beyond the cable from the cam: crossed.
		leave, contact := c.Line[cable.Middle].Leave, c.Line[cable.Middle].Contact
		line := r2.Unit(r2.Sub(leave, contact))
		guide := r2.Add(leave, r2.Scale(c.Radius, r2.Vec{X: -line.Y, Y: line.X}))
		if r2.Dot(r2.Vec{X: -line.Y, Y: line.X}, contact) < 0 {
			guide = r2.Sub(leave, r2.Scale(c.Radius, r2.Vec{X: -line.Y, Y: line.X}))
		}
		p := cam.Profile{Law: law, Ratio: v.Ratio, Guide: cam.Guide{X: guide.X, Y: guide.Y, Radius: c.Radius, Side: cam.Crossed}}
		for k := range c.Line {
			s, err := p.At(v.First + (v.Last-v.First)*float64(k)/(cable.Lines-1))
			if err != nil {
				t.Fatal(err)
			}
			c.Line[k] = cable.Line{Contact: s.Contact, Leave: s.Leave}
		}
		var m Maker
		if _, _, err := m.Build(&v); err != nil {
			t.Fatal(err)
		}
		r, middle := m.Route(), len(v.Axes)/2
		for axis := range v.Axes {
			worst, at := 0.0, 0.0
			for theta := v.First; theta <= v.Last; theta += 5 * degree {
				s, err := p.At(theta)
				if err != nil {
					t.Fatal(err)
				}
				pull, err := r.Pull(&p, axis, theta)
				if err != nil {
					t.Fatal(err)
				}
				if d := math.Abs(pull.Arm-s.Arm) / s.Arm; d > worst {
					worst, at = d, theta
				}
				if want := taut(t, r, &p, axis, theta, pull.Contact); math.Abs(pull.Arm-want) > 2e-4*want {
					t.Errorf("%s, axis %d, %.0f degrees: moment arm %.4f, a taut cable has %.4f", name, axis, theta/degree, pull.Arm, want)
				}
			}
			t.Logf("%s, axis %d: the moment arm is off by %.2f %% at %.0f degrees; %.1f mm of slack", name, axis, 100*worst, at/degree, r.Slack[axis])
			if axis == middle && worst > 0.002 {
				t.Errorf("%s, axis %d: the moment arm is off by %.2f %%", name, axis, 100*worst)
			}
			if axis != middle {
				leansLeast(t, name, r, c.Line[cable.Middle], axis)
			}
		}
		if loose := r.Slack[middle]; loose != 0 {
			t.Errorf("%s: slack of %v in the middle axis position", name, loose)
		}
	}
}

// leansLeast holds the guide sheave's height to the heights beside it: told in the cam's
// plane, the cable from the middle line's contact leans least where it is set.
func leansLeast(t *testing.T, name string, r *cable.Route, laid cable.Line, axis int) {
	t.Helper()
	plane := r.Plane(axis)
	contact := plane.Point(r3.Vec{X: laid.Contact.X, Y: laid.Contact.Y})
	line := r2.Sub(laid.Leave, laid.Contact)
	cost := func(by float64) float64 {
		set := *r
		set.Rise = slices.Clone(r.Rise)
		set.Rise[axis] += by
		_, leave := set.Tangent(axis, contact)
		q := r3.Sub(leave, contact)
		at := r3.Vec{X: r3.Dot(q, plane.X), Y: r3.Dot(q, plane.Y), Z: r3.Dot(q, plane.Z)}
		far := r2.Norm(line)
		in := r2.Cross(r2.Unit(line), r2.Vec{X: at.X, Y: at.Y}) / far
		out, even := at.Z/far, 0.3*degree
		return in*in + out*out*out*out/(even*even)
	}
	for _, by := range []float64{-2, 2} {
		if cost(by) < cost(0) {
			t.Errorf("%s, axis %d: %g mm higher the cable leans less", name, axis, by)
		}
	}
}

// In every axis position the tip of the guide sheave's pull pin is in a groove of the
// stem, through one hole of the tube, with metal between holes and between grooves. Of an
// even number of positions the guide is laid half way between the two in the middle: both
// are as far from it.
func TestGuidePinFindsItsGroove(t *testing.T) {
	for name, v := range withCable() {
		mid := v.Axes[len(v.Axes)/2]
		for n := 1; n <= 8; n++ {
			v.Axes = nil
			for i := range n {
				v.Axes = append(v.Axes, r3.Rotate(mid, 2.5*degree*float64(n/2-i), r3.Vec{X: math.Sin(v.Rest.Slope), Z: math.Cos(v.Rest.Slope)}))
			}
			var m Maker
			a, _, err := m.Build(&v)
			if err != nil {
				t.Fatal(err)
			}
			r := m.Route()
			pin, ok := a.Index("guide-pin-right")
			if ok != (n > 1) {
				t.Fatalf("%s, %d positions: a pin: %v", name, n, ok)
			}
			if !ok {
				continue
			}
			stem, _ := a.Index("guide-stem-right")
			sleeve, _ := a.Index("guide-sleeve-right")
			outline := a.Parts[stem].Solid.(solid.Turned).Outline
			bores := a.Parts[sleeve].Solid.(solid.Prism).Bores
			if err := a.Parts[sleeve].Solid.Validate(); err != nil || len(bores) != n || len(outline) != 4*n+2 {
				t.Fatalf("%s: %d holes and %d corners for %d positions: %v", name, len(bores), len(outline), n, err)
			}
			for i := range n - 1 {
				if web := outline[4*i+5].Y - outline[4*i+4].Y; web < 5 {
					t.Errorf("%s, %d positions: %.1f mm between two grooves", name, n, web)
				}
				if web := math.Abs(bores[i+1].At.Z-bores[i].At.Z) - bores[i].Diameter; web < 5 {
					t.Errorf("%s, %d positions: %.1f mm between two holes", name, n, web)
				}
			}
			for axis := range n {
				pose := a.Reference
				pose.Axis = axis
				groups := a.At(pose, nil)
				tip := a.Place(pin, groups).Origin
				in, hole := a.Place(stem, groups).Inverse().Point(tip), a.Place(sleeve, groups).Inverse().Point(tip)
				groove, drilled := false, false
				for i := range n {
					groove = groove || math.Abs(in.Z-(outline[4*i+2].Y+outline[4*i+3].Y)/2) < 1e-9
					drilled = drilled || math.Abs(hole.Z-bores[i].At.Z) < 1e-9
				}
				if radius := math.Hypot(in.X, in.Y); !groove || !drilled || math.Abs(radius-outline[2].X) > 1e-9 {
					t.Errorf("%s, %d positions: in position %d the pin's tip is at %.2f of the stem and %.2f of the tube, %.2f from their line", name, n, axis, in.Z, hole.Z, radius)
				}
			}
			if n%2 == 0 {
				low, high := r.Swing[n/2-1], r.Swing[n/2]
				if high != 0 || math.Abs(low) < 0.5*degree {
					t.Errorf("%s, %d positions: the guide swivels %.2f and %.2f degrees", name, n, low/degree, high/degree)
				}
				laid := m.b.laidPlane()
				for _, i := range []int{n/2 - 1, n / 2} {
					if got := math.Acos(r3.Dot(laid.Z, r.Plane(i).Z)); math.Abs(got-1.25*degree) > 1e-6 {
						t.Errorf("%s, %d positions: position %d is %.3f degrees from where the guide was laid", name, n, i, got/degree)
					}
				}
			}
		}
	}
}

// taut is the moment arm of a cable from the guide sheave that touches the pitch curve
// where, of all its points, none lies beyond: found by trying them, every hundredth of a
// degree of flexion. About tells where the sheave has swivelled to.
func taut(t *testing.T, r *cable.Route, p *cam.Profile, axis int, theta float64, about r2.Vec) float64 {
	plane := r.Plane(axis)
	_, leave := r.Tangent(axis, plane.Point(r3.Vec{X: about.X, Y: about.Y}))
	q := plane.Inverse().Point(leave)
	to := r2.Vec{X: q.X, Y: q.Y}
	from, end := p.Law.Range()
	best := r2.Vec{}
	for f := from - cam.Overrun; f <= end+cam.Overrun; f += 0.01 * degree {
		s, err := p.At(f)
		if err != nil {
			t.Fatal(err)
		}
		at := r2.Rotate(s.Point, p.Ratio*theta, r2.Vec{})
		if best == (r2.Vec{}) || r2.Cross(r2.Sub(best, to), r2.Sub(at, to)) < 0 {
			best = at
		}
	}
	line := r2.Unit(r2.Sub(to, best))
	across := math.Hypot(r2.Norm(r2.Sub(to, best)), q.Z)
	return math.Abs(r2.Cross(best, line)) * r2.Norm(r2.Sub(to, best)) / across
}
