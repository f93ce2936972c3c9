package assembly_test

import (
	"math"
	"testing"

	"armwright/geometry/assembly"
	"armwright/geometry/assembly/lawtest"
	"armwright/geometry/solid"

	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"
)

const steel = 7.85e-6

// mirror is a place on the other side of the middle plane.
func mirror(v r3.Vec) r3.Vec { return r3.Vec{X: v.X, Y: -v.Y, Z: v.Z} }

// crane is a post on the floor with a turning arm on either side, and on each arm
// a block that slides along it.
func crane(t *testing.T) (*assembly.Assembly, assembly.Both, assembly.Both) {
	t.Helper()
	var b assembly.Builder
	frame := b.Group("frame", -1, nil)
	arms := b.GroupPair("arm", assembly.One(frame), &assembly.Turn{Point: r3.Vec{Y: -50, Z: 500}, Axis: r3.Vec{Y: -1}, Ratio: 1})
	blocks := b.GroupPair("block", arms, &assembly.Steps{Setting: assembly.Handle, Step: r3.Vec{X: 20}})
	post := b.Add(assembly.Part{ID: "post", Group: frame, Solid: solid.Straight(solid.Rect(60, 100, 0), 600), Place: solid.World(), Density: steel, Traits: assembly.Ground})
	arm := b.Pair(assembly.Part{ID: "arm", Group: arms[0], Solid: solid.Straight(solid.Rect(20, 20, 0), 300),
		Place: solid.Along(r3.Vec{Y: -60, Z: 500}, r3.Vec{X: 300, Y: -60, Z: 500}, r3.Vec{Z: 1}), Density: steel, Traits: assembly.Turns})
	block := b.Pair(assembly.Part{ID: "block", Group: blocks[0], Solid: solid.Straight(solid.Rect(30, 30, 0), 40),
		Place: solid.Along(r3.Vec{X: 100, Y: -85, Z: 500}, r3.Vec{X: 140, Y: -85, Z: 500}, r3.Vec{Z: 1}), Mass: 2})
	b.JoinPair(assembly.Fit, arm, assembly.One(post), r3.Vec{Y: -50, Z: 500}, assembly.Detail{})
	b.JoinPair(assembly.Slide, block, arm, r3.Vec{X: 120, Y: -70, Z: 500}, assembly.Detail{Pitch: 20, Steps: 5})
	return &b.Assembly, arm, block
}

func TestPosePlacesEveryPart(t *testing.T) {
	a, arm, block := crane(t)
	pose := assembly.Pose{Handle: 2, Flexion: [2]float64{math.Pi / 2, 0}}
	groups := a.At(pose, nil)
	// The right arm has turned up, so that its block, 40 mm farther out, is above
	// the pivot; the left one points forward yet.
	for part, want := range map[int]r3.Vec{
		arm[0]: {Y: -60, Z: 500}, arm[1]: {Y: 60, Z: 500},
		block[0]: {Y: -85, Z: 640}, block[1]: {X: 140, Y: 85, Z: 500},
	} {
		if got := a.Place(part, groups).Origin; r3.Norm(r3.Sub(got, want)) > 1e-9 {
			t.Errorf("%s at %v, want %v", a.Parts[part].ID, got, want)
		}
	}
}

// The left side is the mirror image of the right one in every pose in which both
// arms stand alike.
func TestLeftMirrorsRight(t *testing.T) {
	a, arm, block := crane(t)
	rapid.Check(t, func(t *rapid.T) {
		theta := rapid.Float64Range(-3, 3).Draw(t, "flexion")
		groups := a.At(assembly.Pose{Handle: rapid.IntRange(0, 4).Draw(t, "handle"), Flexion: [2]float64{theta, theta}}, nil)
		for _, pair := range [2]assembly.Both{arm, block} {
			q := r3.Vec{X: rapid.Float64Range(-50, 50).Draw(t, "x"), Y: rapid.Float64Range(-50, 50).Draw(t, "y"), Z: rapid.Float64Range(0, 300).Draw(t, "z")}
			right := a.Place(pair[0], groups).Point(q)
			left := a.Place(pair[1], groups).Point(mirror(q))
			if r3.Norm(r3.Sub(mirror(right), left)) > 1e-9 {
				t.Fatalf("%v and %v are no mirror images", right, left)
			}
		}
	})
}

func TestCentreOfMassFollowsThePose(t *testing.T) {
	a, _, _ := crane(t)
	post, arm := 60*100*600*steel, 20*20*300*steel
	if want := post + 2*arm + 4; math.Abs(a.Mass()-want) > 1e-9 {
		t.Errorf("mass %v, want %v", a.Mass(), want)
	}
	// By hand: post at 300, one arm upright with its middle at 650 and its block's
	// at 620, the other level at 500.
	got := a.Centre(assembly.Pose{Flexion: [2]float64{math.Pi / 2, 0}})
	want := r3.Scale(1/a.Mass(), r3.Vec{
		X: arm*150 + 2*120,
		Z: post*300 + arm*(650+500) + 2*(620+500),
	})
	if r3.Norm(r3.Sub(got, want)) > 1e-9 {
		t.Errorf("centre %v, want %v", got, want)
	}
}

func TestLaws(t *testing.T) {
	a, arm, block := crane(t)
	s := lawtest.NewSpace(a)
	if f := a.Floating(); f != nil {
		t.Errorf("floating: %v", f)
	}
	if o := s.Overlaps(0.01, false); o != nil {
		t.Errorf("overlaps: %v", o)
	}
	if l := s.Loose(0.5); l != nil {
		t.Errorf("loose: %v", l)
	}

	broken := *a
	broken.Joints = append([]assembly.Joint(nil), a.Joints...)
	broken.Joints[0].Kind = assembly.Passage
	broken.Joints[2].At = r3.Vec{X: 120, Y: -75, Z: 500}
	if f := broken.Floating(); len(f) != 2 || f[0] != arm[0] || f[1] != block[0] {
		t.Errorf("a passage holds nothing, yet only %v float", f)
	}
	if l := lawtest.NewSpace(&broken).Loose(0.5); len(l) != 1 || l[0].Part != arm[0] || math.Abs(l[0].Distance-5) > 1e-6 {
		t.Errorf("a joint 5 mm off the arm: %v", l)
	}

	broken.Parts = append([]assembly.Part(nil), a.Parts...)
	broken.Parts[block[0]].Place.Origin = r3.Vec{X: -10, Y: -55, Z: 500}
	o := lawtest.NewSpace(&broken).Overlaps(0.01, false)
	if len(o) != 1 || o[0].B != block[0] || math.Abs(o[0].Depth-10) > 1e-6 {
		t.Errorf("a block 10 mm deep in the post: %v", o)
	}
	// The blocks are 70 mm before and 20 mm beside the post.
	gaps := s.Gaps(80, func(p, q *assembly.Part) bool { return p.Is(assembly.Ground) != q.Is(assembly.Ground) })
	if len(gaps) != 2 || math.Abs(gaps[0].Distance-math.Hypot(70, 20)) > 1e-6 {
		t.Errorf("gaps to the blocks: %v", gaps)
	}
}

// A cable's centre is that of its runs by their length, and a loop's last run leads back:
// two sides of 30 and 40 mm, and the third side of 50.
func TestFlexibleCentre(t *testing.T) {
	path := []r3.Vec{{}, {X: 30}, {X: 30, Y: 40}}
	for _, c := range []struct {
		closed bool
		want   r3.Vec
	}{
		{false, r3.Vec{X: (30*15 + 40*30) / 70., Y: 40 * 20 / 70.}},
		{true, r3.Vec{X: (30*15 + 40*30 + 50*15) / 120., Y: (40*20 + 50*20) / 120.}},
	} {
		var b assembly.Builder
		i := b.FlexPair(assembly.Flexible{ID: "cable", Path: path, Closed: c.closed, Mass: 2})
		right, left := &b.Flexible[i[0]], &b.Flexible[i[1]]
		if r3.Norm(r3.Sub(right.Centre, c.want)) > 1e-9 || r3.Norm(r3.Sub(left.Centre, r3.Vec{X: c.want.X, Y: -c.want.Y})) > 1e-9 {
			t.Errorf("closed %v: centres %v and %v, want %v and its mirror image", c.closed, right.Centre, left.Centre, c.want)
		}
		if right.ID != "cable-right" || left.ID != "cable-left" || left.Path[2].Y != -40 || right.Item != "cable" {
			t.Errorf("%+v, %+v", right, left)
		}
	}
}

// What is flexible counts with the first group, whatever the pose.
func TestFlexibleCountsWithTheFrame(t *testing.T) {
	var b assembly.Builder
	frame := b.Group("frame", -1, nil)
	arm := b.Group("arm", frame, &assembly.Turn{Axis: r3.Vec{Z: 1}, Ratio: 1})
	b.Add(assembly.Part{ID: "arm", Group: arm, Solid: solid.Straight(solid.Rect(10, 10, 0), 10), Place: solid.Shift(r3.Vec{X: 100}), Mass: 3})
	b.Flex(assembly.Flexible{ID: "cable", Path: []r3.Vec{{}, {Y: 40}}, Mass: 2})
	w := b.ByGroup(nil)
	if w[frame].Mass != 2 || w[arm].Mass != 3 {
		t.Errorf("the frame weighs %v, the arm %v; want 2 and 3", w[frame].Mass, w[arm].Mass)
	}
	if want := (r3.Vec{X: -60, Y: 8, Z: 3}); r3.Norm(r3.Sub(b.Centre(assembly.Pose{Flexion: [2]float64{math.Pi, math.Pi}}), want)) > 1e-9 {
		t.Errorf("centre %v, want %v", b.Centre(assembly.Pose{Flexion: [2]float64{math.Pi, math.Pi}}), want)
	}
}
