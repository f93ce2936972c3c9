package station

import (
	"math"
	"testing"

	"armwright/geometry/assembly"
	"armwright/geometry/solid"

	"gonum.org/v1/gonum/spatial/r3"
)

// heights are those of the bores of a tube that stands upright, in a pose.
func heights(t *testing.T, a *assembly.Assembly, id string, pose assembly.Pose) []float64 {
	t.Helper()
	i, ok := a.Index(id)
	if !ok {
		t.Fatalf("no %s", id)
	}
	at := a.Place(i, a.At(pose, nil))
	var out []float64
	for _, b := range a.Parts[i].Solid.(solid.Prism).Bores {
		out = append(out, at.Point(b.At).Z)
	}
	return out
}

// extent is the upright box of a part in a pose.
func extent(t *testing.T, a *assembly.Assembly, id string, pose assembly.Pose) (low, high r3.Vec) {
	t.Helper()
	i, ok := a.Index(id)
	if !ok {
		t.Fatalf("no %s", id)
	}
	return solid.Bounds(a.Parts[i].Solid, a.Place(i, a.At(pose, nil)))
}

// pinned reports whether two tubes have holes at one height.
func pinned(one, other []float64) bool {
	for _, a := range one {
		for _, b := range other {
			if math.Abs(a-b) < 0.01 {
				return true
			}
		}
	}
	return false
}

func TestSeatStandsAtEveryHeight(t *testing.T) {
	for name, v := range examples() {
		if v.Seat.Positions == 0 {
			continue
		}
		a, _, err := Build(v)
		if err != nil {
			t.Fatal(err)
		}
		for k := range v.Seat.Positions {
			pose := a.Reference
			pose.Seat = k
			_, top := extent(t, a, "seat-foam", pose)
			if want := v.Seat.Lowest + float64(k)*v.Seat.Pitch; math.Abs(top.Z-want) > 1e-6 {
				t.Errorf("%s: seat %d at %.1f, want %.1f", name, k, top.Z, want)
			}
			if math.Abs(top.X-v.Seat.Front) > 1e-6 {
				t.Errorf("%s: front edge at %.1f", name, top.X)
			}
			if !pinned(heights(t, a, "seat-sleeve", pose), heights(t, a, "seat-post", pose)) {
				t.Errorf("%s: no holes meet at seat %d", name, k)
			}
			foot, _ := extent(t, a, "seat-post", pose)
			_, mouth := extent(t, a, "seat-sleeve", pose)
			if mouth.Z-foot.Z < 80 {
				t.Errorf("%s: only %.1f of the post is in its sleeve at seat %d", name, mouth.Z-foot.Z, k)
			}
		}
		// Nothing but its own parts is near the seat, at any height.
		var poses []assembly.Pose
		for k := range v.Seat.Positions {
			pose := a.Reference
			pose.Seat = k
			poses = append(poses, pose)
		}
		if got := gapBetween(t, a, poses, begins("seat-board", "seat-foam", "seat-carriage"), begins("pivot-", "guide-", "tower-", "stack-", "back-strut", "rail-", "cross-")); got < 10 {
			t.Errorf("%s: the seat passes the frame by %.1f", name, got)
		}
	}
}

func TestLowSeatIsTold(t *testing.T) {
	v := examples()["arm pad"]
	for _, low := range []float64{120, 200, 300} {
		v.Seat.Lowest = low
		_, needs, err := Build(v)
		if err != nil {
			t.Fatal(err)
		}
		slack := math.NaN()
		for _, n := range needs {
			if n.ID == "seat-overlap" {
				slack = n.Slack
			}
		}
		// What the sleeve has, less travel, foot and 80 mm of overlap.
		want := low - 60 - 8 - 6 - 88 - 5 - 100 - 80
		if math.Abs(slack-want) > 1e-9 {
			t.Errorf("lowest seat %.0f: slack %.1f, want %.1f", low, slack, want)
		}
	}
}

func TestBackPadLeansOnItsStrut(t *testing.T) {
	for _, name := range []string{"levers", "linkage"} {
		v := examples()[name]
		a, _, err := Build(v)
		if err != nil {
			t.Fatal(err)
		}
		i, _ := a.Index("back-foam")
		p := &a.Parts[i]
		s, c := math.Sincos(v.Back.Angle)
		if d := r3.Sub(p.Place.Z, r3.Vec{X: c, Z: s}); r3.Norm(d) > 1e-9 {
			t.Errorf("%s: the pad faces %v", name, p.Place.Z)
		}
		// Its face meets the lowest seat at Foot.
		if off := r3.Dot(r3.Sub(p.Place.Origin, r3.Vec{X: v.Back.Foot, Z: v.Seat.Lowest}), p.Place.Z); math.Abs(off) > 1e-9 {
			t.Errorf("%s: the face is %.2f off", name, off)
		}
		_, top := extent(t, a, "back-foam", a.Reference)
		if want := v.Seat.Lowest + v.Back.Length*c; math.Abs(top.Z-want) > 1e-6 {
			t.Errorf("%s: its upper edge is at %.1f, want %.1f", name, top.Z, want)
		}
	}
}

func TestFootPlateStandsAtEveryHeight(t *testing.T) {
	v := examples()["tower behind"]
	a, _, err := Build(v)
	if err != nil {
		t.Fatal(err)
	}
	var poses []assembly.Pose
	for k := range v.FootPlate.Positions {
		pose := a.Reference
		pose.Foot = k
		poses = append(poses, pose)
		_, top := extent(t, a, "foot-tread", pose)
		if want := v.FootPlate.Lowest + float64(k)*v.FootPlate.Pitch; math.Abs(top.Z-want) > 1e-6 {
			t.Errorf("height %d at %.1f, want %.1f", k, top.Z, want)
		}
		if !pinned(heights(t, a, "foot-guide-right", pose), heights(t, a, "foot-sleeve-right", pose)) {
			t.Errorf("no holes meet at height %d", k)
		}
		_, end := extent(t, a, "foot-guide-right", pose)
		if _, mouth := extent(t, a, "foot-sleeve-right", pose); mouth.Z > end.Z {
			t.Errorf("the sleeve leaves its guide at height %d", k)
		}
	}
	if got := gapBetween(t, a, poses, begins("foot-tread", "foot-bearer", "foot-sleeve"), begins("rail", "cross-", "pivot-post", "tower-", "stack-", "guide-rod")); got < 4 {
		t.Errorf("the foot plate passes the frame by %.1f", got)
	}

	// The old machine's lowest height, inside the base tubes, is told.
	v.FootPlate.Lowest = 40
	_, needs, err := Build(v)
	if err != nil {
		t.Fatal(err)
	}
	for _, n := range needs {
		if n.ID == "foot-plate-over-base" && n.Slack < 0 {
			return
		}
	}
	t.Error("a foot plate inside the base is not told")
}
