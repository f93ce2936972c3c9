package judge

import (
	"math"
	"strings"
	"testing"

	"armwright/geometry/balance"
	"armwright/geometry/solid"
	"armwright/solver/screen"
	"armwright/solver/solvertest"
	"armwright/specs"
)

// Getting on, by moments: where the floor's resultant of each case acts follows from
// those of the others and the heights, without what the station weighs.
func TestEntryCasesByMoments(t *testing.T) {
	f := solvertest.Frame(t, "arm-pad-station")
	f.Posture.FootPlate = "steps"
	f.Geometry.FootPlate = &specs.FootPlate{Lowest: 60, Pitch: 50, Positions: 3}
	r, err := CheckPeople(f, Persons{})
	if err != nil {
		t.Fatal(err)
	}
	find := func(words string) screen.EntryCase {
		for _, c := range r.Balance.Entry {
			if strings.Contains(c.Case.Words, words) {
				return c
			}
		}
		t.Fatalf("no case %q", words)
		return screen.EntryCase{}
	}
	g := f.Geometry
	seat := g.Seat.Lowest + float64(g.Seat.Positions-1)*g.Seat.Pitch
	// A hand reaches as high as what stands still does: the tower.
	top := 0.0
	for i := range r.Station.Assembly.Parts {
		if p := &r.Station.Assembly.Parts[i]; p.Item == "tower-top" {
			_, high := solid.Bounds(p.Solid, p.Place)
			top = max(top, high.Z)
		}
	}
	for _, c := range []struct {
		words  string
		height float64
	}{
		{"front edge", seat}, {"rear edge", seat}, {"side edge", seat}, {"foot plate", 60 + 2*50},
		{"push of %s to the front", top}, {"push of %s to the rear", top}, {"push of %s to the side", top},
	} {
		if e := find(c.words); math.Abs(e.Height-c.height) > 1e-6 {
			t.Errorf("%s: at a height of %g mm, want %g", e.Case.Words, e.Height, c.height)
		}
	}
	// A push P at height h moves the resultant by P h / W the way it goes.
	front, rear, right := find("to the front"), find("to the rear"), find("to the side")
	by := (front.X - rear.X) / 2
	// Pins of the seat's and the foot plate's post are on one side: together less
	// than 1 kg, 60 mm out, of a station of more than 100 kg.
	aside := front.Y
	if by < 1 || math.Abs(right.Y+by-aside) > 1e-6*by || math.Abs(right.X-(front.X+rear.X)/2) > 1e-6*by || math.Abs(rear.Y-aside) > 1e-6*by || math.Abs(aside) > 0.6 {
		t.Errorf("pushed the resultant is at x %g and %g, sideways at %g, %g", front.X, rear.X, right.X, right.Y)
	}
	weight := 200 * top / by // of the empty station, N
	centre := right.X
	// The rated user on the seat's edges, with 20 N outward (EN 1022:2018), 60 mm inside.
	user := find("front edge").Weight
	// Likewise near the foot plate's front edge, where its own tread ends.
	tread := math.Inf(-1)
	for i := range r.Station.Assembly.Parts {
		if p := &r.Station.Assembly.Parts[i]; p.Item == "foot-tread" {
			_, high := solid.Bounds(p.Solid, p.Place)
			tread = max(tread, high.X)
		}
	}
	plate, aboard := find("foot plate"), (weight*centre+user*balance.G*(tread-60))/(weight+user*balance.G)
	over := 20 * plate.Height / (weight + user*balance.G) // the push, if it goes to the front
	if d := plate.X - aboard; plate.Weight != user || math.Abs(d) > 1e-6 && math.Abs(d-over) > 1e-6 {
		t.Errorf("%s: resultant at x %.4f, by moments %.4f or %.4f", plate.Case.Words, plate.X, aboard, aboard+over)
	}
	for _, c := range []struct {
		words string
		x, y  float64
		push  [2]float64
	}{
		{"front edge", g.Seat.Front - 60, 0, [2]float64{20, 0}},
		{"rear edge", g.Seat.Front - g.Seat.Depth + 60, 0, [2]float64{-20, 0}},
		{"side edge", g.Seat.Front - g.Seat.Depth/2, 60 - g.Seat.Width/2, [2]float64{0, -20}},
	} {
		e := find(c.words)
		total := weight + user*balance.G
		x := (weight*centre + user*balance.G*c.x + c.push[0]*seat) / total
		y := (weight*aside + user*balance.G*c.y + c.push[1]*seat) / total
		if math.Abs(e.X-x) > 1e-6 || math.Abs(e.Y-y) > 1e-6 {
			t.Errorf("%s: resultant at (%.4f, %.4f), by moments (%.4f, %.4f)", e.Case.Words, e.X, e.Y, x, y)
		}
	}
}
