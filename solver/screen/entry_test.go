package screen

import (
	"math"
	"strings"
	"testing"

	"armwright/geometry/balance"
	"armwright/geometry/solid"
	"armwright/solver/require"
	"armwright/solver/seat"

	"gonum.org/v1/gonum/spatial/r2"
)

// entries takes down the cases of getting on.
type entries []EntryCase

func (e *entries) Tipping(StabilityCase)          {}
func (e *entries) Entry(c EntryCase)              { *e = append(*e, c) }
func (e *entries) Stands(bool, []r2.Vec, float64) {}

// Getting on, by moments about the floor: the weights of the empty station and of the
// rated user on an edge of the seat, and a push there that goes outward.
func TestEntryByMoments(t *testing.T) {
	eachStation(t, func(t *testing.T, s *Screen, sc *Scene) {
		stand := s.stance(sc)
		mass := stand.mass[noLoad]
		own := stand.moment[noLoad][bothArms][0]
		var got entries
		s.entry(sc, stand, &require.Rows{Card: &s.Card}, &got, false)
		v, push := &sc.Station.Values, s.Asked.Space.Push
		seat, kg, top := &v.Seat, s.ratedUser(), sc.Geometry.Seat.Top(sc.Geometry.Seat.Positions-1)
		reach := 0.0 // of a hand: the highest part that stands still
		for i := range sc.Station.Assembly.Parts {
			if p := &sc.Station.Assembly.Parts[i]; p.Group == 0 {
				_, high := solid.Bounds(p.Solid, p.Place)
				reach = max(reach, high.Z)
			}
		}
		for _, c := range []struct {
			words        string
			kg, x, y, z  float64 // the user, and where
			pushX, pushY float64
		}{
			{"seat's front edge", kg, seat.Front - edgeInset, 0, top, edgePush, 0},
			{"seat's rear edge", kg, seat.Front - seat.Depth + edgeInset, 0, top, -edgePush, 0},
			{"seat's side edge", kg, seat.Front - seat.Depth/2, edgeInset - seat.Width/2, top, 0, -edgePush},
			{"to the front", 0, 0, 0, reach, push, 0},
			{"to the rear", 0, 0, 0, reach, -push, 0},
			{"to the side", 0, 0, 0, reach, 0, -push},
		} {
			found := false
			for _, e := range got {
				if !strings.HasSuffix(e.Case.Words, c.words) {
					continue
				}
				found = true
				x := (own.X + c.kg*c.x + c.pushX*c.z/balance.G) / (mass + c.kg)
				y := (own.Y + c.kg*c.y + c.pushY*c.z/balance.G) / (mass + c.kg)
				near(t, c.words+", x", e.X, x, 1e-6)
				near(t, c.words+", y", e.Y, y, 1e-6)
				near(t, c.words+", height", e.Height, c.z, 1e-9)
				inside := min(x-sc.stand.Rear, sc.stand.Front-x, sc.stand.Half-math.Abs(y))
				near(t, c.words+", inside the nearest edge", e.Inside, inside, 1e-6)
			}
			if !found {
				t.Errorf("no case %q", c.words)
			}
		}
	})
}

// Every protection tells the worst of the persons, who it is, and whether that is within
// its limit.
func TestProtectionTellsTheWorst(t *testing.T) {
	eachStation(t, func(t *testing.T, s *Screen, sc *Scene) {
		list := s.Protection(sc.Geometry, sc.seated)
		of := map[string]func(i int) float64{
			"axis beside the machine's":         func(i int) float64 { return sc.seated[i].Offset },
			"axis tilted against the machine's": func(i int) float64 { return sc.seated[i].Tilt },
			"hand path off the handle's":        func(i int) float64 { return sc.seated[i].HandPath },
			"upper arm spread sideways":         func(i int) float64 { return math.Abs(sc.seated[i].Pose.Abduction) },
			"trunk from vertical":               func(i int) float64 { return math.Abs(sc.seated[i].Pose.Lean) },
		}
		if s.Reclined() {
			// What is left of the pad beyond the head's centre: its length less what lies below
			// the hip along it, and the head's height above the hip.
			of["back pad beyond the head's centre"] = func(i int) float64 {
				p := &sc.seated[i]
				below := (p.SeatTop - sc.Geometry.Seat.Lowest + p.Body.Hip) / math.Cos(sc.Geometry.Back.Angle)
				return sc.Geometry.Back.Length - below - seat.HeadAlong(p.Person, p.Body)
			}
		} else {
			of["neck bent back to look ahead"] = func(i int) float64 { return sc.seated[i].Pose.Lean }
		}
		told := map[string]bool{}
		for _, p := range list {
			told[p.What] = true
			if p.Met != (p.AtLeast && p.Value >= p.Limit-1e-9 || !p.AtLeast && p.Value <= p.Limit+1e-9) {
				t.Errorf("%s: %v against %v is met %v", p.What, p.Value, p.Limit, p.Met)
			}
			value := of[p.What]
			if value == nil {
				continue
			}
			worst, who := value(0), sc.seated[0].Person.Label
			for i := range sc.seated {
				if v := value(i); v != worst && (v > worst) != p.AtLeast {
					worst, who = v, sc.seated[i].Person.Label
				}
			}
			if p.Value != worst || p.Person != who {
				t.Errorf("%s: %v of %s, want %v of %s", p.What, p.Value, p.Person, worst, who)
			}
		}
		for what := range of {
			if !told[what] {
				t.Errorf("%s is not told", what)
			}
		}
	})
}
