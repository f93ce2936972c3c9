package screen

import (
	"math"
	"sync"

	"armwright/geometry/assembly"
	"armwright/geometry/balance"
	"armwright/geometry/contour"
	"armwright/geometry/solid"
	"armwright/geometry/station/values"
	"armwright/solver/drive"
	"armwright/solver/require"
	"armwright/solver/seat"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// Balance is how the station stands and how its users sit. Its cases of
// tipping are Result.Stability.
type Balance struct {
	Anchored   bool
	AnchorPull float64  // of one of two anchors along an edge when the station leans by the limit of its tilt, N
	Envelope   []r2.Vec // hull of the centres of mass of all cases, counter-clockwise, on the floor
	Entry      []EntryCase
}

// Loads of getting on.
const (
	// leastUser is the least simulated user, kg (ASTM F2571-15 7.1, S).
	leastUser = 100.0
	// edgeInset is how far inside an edge of the seat the weight acts, and
	// edgePush the outward push with it (EN 1022:2018, S; there with 600 N, here
	// with the whole user).
	edgeInset = 60.0
	edgePush  = 20.0
	// handReach is how high above the floor somebody who stands beside the station
	// pushes it at most, mm: the shoulder of a tall man (judgement).
	handReach = 1600.0
	// stepHigh is how high above the floor people step without thinking, mm: two
	// stairs of the usual rise (judgement).
	stepHigh = 350.0
)

// top is how high the fixed parts reach, mm: tower, post or back pad.
func (sc *Scene) top() float64 {
	v := &sc.Station.Values
	top := v.Height
	if v.HasStack() {
		top = max(top, sc.Station.Tower.Tall)
	}
	if v.HasBack() {
		top = max(top, v.Seat.Lowest+v.Back.Length*math.Cos(v.Back.Angle))
	}
	return top
}

// ledge is the place farthest out on the right side on which somebody may step: on the
// fixed parts that stay below stepHigh, or on a foot.
func (sc *Scene) ledge() r3.Vec {
	out := r3.Vec{X: (sc.stand.Rear + sc.stand.Front) / 2, Y: -sc.stand.Half}
	a := sc.Station.Assembly
	if a == nil {
		return out
	}
	for i := range a.Parts {
		p := &a.Parts[i]
		if p.Side != assembly.Right || p.Group != 0 || p.Centre.Z > stepHigh || p.Traits&(assembly.Turns|assembly.Fastener) != 0 {
			continue
		}
		low, high := solid.Bounds(p.Solid, p.Place)
		if low.Y < out.Y && high.Z < stepHigh {
			out = r3.Vec{X: (low.X + high.X) / 2, Y: low.Y, Z: high.Z}
		}
	}
	return out
}

// plates is where the right arm's plates hang with the arm at the first loaded angle.
func (sc *Scene) plates() r3.Vec {
	if a := sc.Station.Assembly; a != nil {
		for i := range a.Parts {
			if p := &a.Parts[i]; p.Side == assembly.Right && p.Is(assembly.Load|assembly.Turns) {
				return p.Centre
			}
		}
	}
	return r3.Vec{Y: -sc.stand.Half}
}

// The sides a station may tip over; right and left count as one.
const (
	overFront = iota
	overRear
	overSide
)

var sideNames = [3]string{"front", "rear", "side"}

// edgeSide gives the side of each edge of feet.
var edgeSide = [4]int{overSide, overFront, overSide, overRear}

// ratedUser is the mass the station is balanced with beside the boundary
// persons': the heaviest of the rated user, the heaviest person and 100 kg.
func (s *Screen) ratedUser() float64 {
	return max(leastUser, s.Persons[s.Heavy].Mass, s.Asked.Stock.MaxUser)
}

// stability adds the rows of tipping: for the empty station, each boundary
// person and the rated user, over each side the least tilt of all loads, ways
// of use and angles. An anchored station has no such rows.
func (s *Screen) stability(sc *Scene, out *require.Rows, known Memory, watch Watcher) {
	g, sat := sc.Geometry, sc.seated
	if g.Base == nil {
		return
	}
	// While the optimiser works, often nobody asks for it.
	stand := sync.OnceValue(func() *stance { return s.stance(sc) })
	t := tipping{s: s, base: sc.stand, stand: stand, anchored: s.Asked.Space.Anchor == "yes", watch: watch}
	if watch != nil {
		t.lean = math.Tan(s.LimitOf("tilt-occupied"))
	}
	if !known.Recall(ofEmpty, -1, out) {
		first := len(out.List)
		t.judge(out, "tilt-empty", -1, require.Name("empty, "), "", 0, nil)
		known.Keep(ofEmpty, -1, out.List[first:])
	}
	m := drive.NewMachine(g)
	if out.Governing() {
		for i, ways := range stand().moment {
			for w := range ways {
				t.extents[i][w] = extentOf(ways[w])
			}
		}
	}
	for i := range sat {
		p := &sat[i]
		if below := out.Below("tilt-occupied"); i != s.Heavy && below < math.Pi/2 {
			user := s.swayed(p, m)
			if t.least(p.Person.Mass, &user) > math.Tan(below)+seat.Tie {
				continue // it cannot govern
			}
		}
		if known.Recall(OfTilt, i, out) {
			continue
		}
		first := len(out.List)
		user, anew := known.Carried(i)
		if anew {
			s.carry(p, m, user)
		}
		t.judge(out, "tilt-occupied", i, require.Phrase{}, p.Person.Label, p.Person.Mass, user)
		if i == s.Heavy {
			kg := s.ratedUser()
			title := require.Phrase{Words: "rated user of %s, ", Figures: []require.Figure{{Value: kg, Unit: "kg"}}}
			t.judge(out, "tilt-occupied", i, title, p.Person.Label, kg, user)
		}
		known.Keep(OfTilt, i, out.List[first:])
	}
	if !known.Recall(ofEntry, -1, out) {
		first := len(out.List)
		s.entry(sc, stand(), out, watch, t.anchored)
		known.Keep(ofEntry, -1, out.List[first:])
	}
	if watch != nil {
		watch.Stands(t.anchored, contour.Hull(t.spots), t.pull)
	}
}

// entry adds the cases of getting on: the rated user's whole weight at the
// seat's front, rear and side edge, on one arm pad and on a foot plate, each
// with a small outward push, and the stated push against the empty station.
func (s *Screen) entry(sc *Scene, stand *stance, out *require.Rows, watch Watcher, anchored bool) {
	g, l, sat := sc.Geometry, &sc.Station.Values, sc.seated
	mass := stand.mass[noLoad]
	c := r3.Scale(1/mass, stand.moment[noLoad][bothArms][0])
	kg := s.ratedUser()
	t := &l.Seat
	seat := g.Seat.Top(g.Seat.Positions - 1)
	add := func(title require.Phrase, weight float64, at r3.Vec, push float64, dirs ...r3.Vec) {
		best := EntryCase{Case: title, Weight: weight, Push: push, Height: at.Z, Tilt: math.Inf(1)}
		for _, dir := range dirs {
			loads := []balance.Load{{At: at, Force: r3.Scale(push, dir)}}
			if weight > 0 {
				loads = append(loads, balance.Weight(weight, at))
			}
			for i, e := range balance.Overturn(sc.stand.Feet(), mass, c, loads...) {
				if e.Tilt < best.Tilt {
					best.Tilt, best.Inside, best.Edge = e.Tilt, e.Inside, sideNames[edgeSide[i]]
					best.X, best.Y = resultant(mass, c, loads)
				}
			}
		}
		if !anchored {
			w := out.Add("tilt-entry", -1, best.Tilt)
			if !out.Quiet {
				w.Case = title.Then(require.Name(", over the " + best.Edge))
			}
		}
		if watch != nil {
			watch.Entry(best)
		}
	}
	front, rear, right := r3.Vec{X: 1}, r3.Vec{X: -1}, r3.Vec{Y: -1}
	rated := []require.Figure{{Value: kg, Unit: "kg"}}
	user := func(where string) require.Phrase { return require.Phrase{Words: "user of %s " + where, Figures: rated} }
	rearEdge := t.Front - t.Depth
	add(user("on the seat's front edge"), kg, r3.Vec{X: t.Front - edgeInset, Z: seat}, edgePush, front)
	add(user("on the seat's rear edge"), kg, r3.Vec{X: rearEdge + edgeInset, Z: seat}, edgePush, rear)
	add(user("on the seat's side edge"), kg, r3.Vec{X: t.Front - t.Depth/2, Y: edgeInset - t.Width/2, Z: seat}, edgePush, right)
	pad := l.Rest.FarEdge()
	add(user("leaning on one arm pad"), kg, r3.Add(l.Pivot(), pad), edgePush, front, rear, right)
	if s.HasSteps() {
		// Below the foremost foot, or, of a plate, near its front edge.
		var feet r3.Vec
		for i := range sat {
			body := sat[i].Body
			feet.X = max(feet.X, sat[i].Pose.Hip.X+body.Knee-body.ThighDepth/2)
			feet.Y = min(feet.Y, -body.ThighHalf)
		}
		if plate := g.FootPlate; plate != nil {
			feet.X = l.FootPlate.X + l.FootPlate.Depth/2 - edgeInset
			feet.Z = plate.Height(plate.Positions - 1)
		}
		add(user("standing on the foot plate"), kg, feet, edgePush, front, right)
	}
	beside := sc.ledge()
	add(user("stepping on the frame beside the feet"), kg, beside, edgePush, front, rear, right)
	if l.Drive == values.LeverDrive || l.Drive == values.LinkageDrive {
		heavy := s.Asked.Resistance.Load.Heavy
		add(require.Phrase{Words: "plates of %s on the right arm alone", Figures: []require.Figure{{Value: heavy, Unit: "kg"}}}, heavy, sc.plates(), 0, front, rear, right)
	}
	push := s.Asked.Space.Push
	pushed := []require.Figure{{Value: push, Unit: "N"}}
	at := r3.Vec{Z: max(l.Height, min(handReach, sc.top()))}
	for j, dir := range []r3.Vec{front, rear, right} {
		add(require.Phrase{Words: "push of %s to the " + sideNames[j], Figures: pushed}, 0, at, push, dir)
	}
}

// resultant is where the floor's resultant acts.
func resultant(mass float64, c r3.Vec, loads []balance.Load) (x, y float64) {
	// Two edges along the axes through the origin read the place off.
	axes := []r2.Vec{{}, {X: 1}, {X: 1, Y: 1}, {Y: 1}}
	e := balance.Overturn(axes, mass, c, loads...)
	return e[3].Inside, e[0].Inside
}
