package fit

import (
	"fmt"
	"math"
	"sync"

	"armwright/geometry/balance"
	"armwright/geometry/contour"
	"armwright/geometry/station"
	"armwright/specs"
	"armwright/specs/people"

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
	Seated     []SeatedCurve
}

// EntryCase is somebody getting on, or pushing.
type EntryCase struct {
	Case   string
	Weight float64 // of the person on the station, kg; 0 for a push alone
	Push   float64 // level, outward, N
	Height float64 // of the push, mm
	X, Y   float64 // where the floor's resultant acts, mm
	Inside float64 // of the nearest tipping edge, mm
	Edge   string
	Tilt   float64 // left until it tips, rad
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
)

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
func (s *study) ratedUser() float64 {
	return max(leastUser, s.persons[s.heavy].Mass, s.asked.Stock.MaxUser)
}

// The ways of using the arms.
const (
	bothArms = iota
	rightAlone
	waysOfUse
)

var wayNames = [waysOfUse]string{"both arms", "right arm alone"}

var loadNames = [3]string{"light load", "middle load", "heavy load"}

// stance is mass (kg) and moment of mass (kg·mm) of the empty station by load,
// way of use and angle, and how far the load is up.
type stance struct {
	mass   [3]float64
	moment [3][waysOfUse][]r3.Vec
	lift   [waysOfUse][]float64 // mm, of the stack
	loads  [3]float64
}

// stance works out the empty station at all loads, ways of use and angles. A
// shared stack goes up by the cable's take-up with both arms and half of it with
// one, since the arms' cables are the two ends of one cable under a floating
// sheave; of a pair each goes up by its own arm's take-up.
func (s *study) stance(l station.Layout, st station.Structure, d drive) *stance {
	load := s.asked.Resistance.Load
	out := &stance{loads: [3]float64{load.Light, load.Middle, load.Heavy}}
	n := len(s.angles)
	var still float64
	var rest r3.Vec
	add := func(m float64, c r3.Vec) { still, rest = still+m, r3.Add(rest, r3.Scale(m, c)) }
	for _, m := range st.Members {
		add(m.Mass(), r3.Scale(0.5, r3.Add(m.A, m.B)))
	}
	for _, u := range st.Lumps {
		if !swings(u.ID) {
			add(u.Mass, u.Centre)
		}
	}
	up := s.lifts(d)
	out.lift[bothArms] = up
	out.lift[rightAlone] = make([]float64, n)
	for k := range up {
		out.lift[rightAlone][k] = up[k] * s.stackShare()
	}
	for i := range out.moment {
		for w := range out.moment[i] {
			out.moment[i][w] = make([]r3.Vec, n)
		}
	}
	arm, atRest, platesAtRest := l.Swinging(0)
	for i, kg := range out.loads {
		plates := 0.0
		if l.PlatesEachArm > 0 {
			plates = kg
		}
		out.mass[i] = still + 2*(arm+plates)
		other := r3.Add(atRest, r3.Scale(plates, platesAtRest))
		for k, theta := range s.angles {
			_, moved, place := l.Swinging(theta - s.angles[0])
			right := r3.Add(moved, r3.Scale(plates, place))
			both := r3.Add(rest, r3.Add(right, station.Mirror(right)))
			one := r3.Add(rest, r3.Add(right, station.Mirror(other)))
			if l.StackMass > 0 {
				both.Z += 2 * s.stackShare() * kg * out.lift[bothArms][k]
				one.Z += kg * out.lift[rightAlone][k]
			}
			out.moment[i][bothArms][k], out.moment[i][rightAlone][k] = both, one
		}
	}
	return out
}

// swings tells the lumps that turn with an arm.
func swings(id string) bool {
	for _, what := range []string{"arm-", "counter-", "plates-", "eccentric-", "input-bar-", "coupler-", "output-bar-", "plate-lever-", "sleeve-"} {
		if len(id) > len(what) && id[:len(what)] == what {
			return true
		}
	}
	return false
}

// lifts is how far both arms have lifted the stack at each angle: the cable's
// take-up, by the trapezium rule on the moment arms, made to end where the
// cam's own take-up ends.
func (s *study) lifts(d drive) []float64 {
	up := make([]float64, len(s.angles))
	if len(d.MomentArm) != len(s.angles) {
		return up
	}
	for k := 1; k < len(up); k++ {
		up[k] = up[k-1] + (d.MomentArm[k-1]+d.MomentArm[k])/2*(s.angles[k]-s.angles[k-1])
	}
	if last := up[len(up)-1]; last > 0 {
		for k := range up {
			up[k] *= d.TakeUp / last
		}
	}
	return up
}

// carried is the centre of mass of a person by way of use and angle: only the
// forearms move.
func (s *study) carried(p *Person, m machine) [waysOfUse][]r3.Vec {
	var out [waysOfUse][]r3.Vec
	s.carry(p, m, &out)
	return out
}

// carry is carried into slices that may be used again.
func (s *study) carry(p *Person, m machine, out *[waysOfUse][]r3.Vec) {
	arm, _ := p.Pose.Turned(m.axes[p.Axis], humeralTurn)
	path := p.Body.Hinge.Path(p.Body.Forearm)
	first := massCentre(p.Person, p.Body, p.Pose, arm, s.angles[0])
	share := p.forearmShare()
	for w := range out {
		if len(out[w]) != len(s.angles) {
			out[w] = make([]r3.Vec, len(s.angles))
		}
	}
	start := path.At(s.sin[0], s.cos[0])
	for k := range s.angles {
		move := r3.Scale(share, arm.To(r3.Sub(path.At(s.sin[k], s.cos[k]), start)))
		out[rightAlone][k] = r3.Add(first, move)
		move.Y = 0
		out[bothArms][k] = r3.Add(first, r3.Scale(2, move))
	}
}

// forearmShare is what of one hand's move the person's centre of mass makes.
func (p *Person) forearmShare() float64 {
	kg, place := p.Person.ForearmHand()
	return kg / p.Person.Mass * place / p.Body.Forearm
}

// stability adds the rows of tipping: for the empty station, each boundary
// person and the rated user, over each side the least tilt of all loads, ways
// of use and angles. An anchored station has no such rows. When out is kept
// for the report, b is not nil and receives every case.
func (s *study) stability(g *specs.Geometry, l station.Layout, st station.Structure, sat []Person, d drive, out *rows, known *model, cases *[]StabilityCase, b *Balance) {
	if g.Base == nil {
		return
	}
	// While the optimiser works, often nobody asks for it.
	stand := sync.OnceValue(func() *stance { return s.stance(l, st, d) })
	t := tipping{s: s, base: g.Base, stand: stand, anchored: s.asked.Space.Anchor == "yes", cases: cases, b: b}
	if b != nil {
		t.lean = math.Tan(s.limits[s.index["tilt-occupied"]])
	}
	known.part(ofEmpty, out, func() { t.judge(out, "tilt-empty", -1, "empty, ", "", 0, nil) })
	m := newMachine(g)
	var own [waysOfUse][]r3.Vec
	if out.bars != nil {
		for i, ways := range stand().moment {
			for w := range ways {
				t.extents[i][w] = extentOf(ways[w])
			}
		}
	}
	for i := range sat {
		p := &sat[i]
		if below := out.below("tilt-occupied"); i != s.heavy && below < math.Pi/2 {
			user := s.swayed(p, m)
			if t.least(p.Person.Mass, &user) > math.Tan(below)+tie {
				continue // it cannot govern
			}
		}
		known.tilt(i, out, func() {
			user := known.carried(s, i, p, m, &own)
			t.judge(out, "tilt-occupied", i, "", p.Person.Label, p.Person.Mass, user)
			if i == s.heavy {
				kg := s.ratedUser()
				title := ""
				if !out.quiet {
					title = "rated user of " + s.units().Size(kg, "kg") + ", "
				}
				t.judge(out, "tilt-occupied", i, title, p.Person.Label, kg, user)
			}
		})
	}
	known.part(ofEntry, out, func() { s.entry(g, l, sat, stand(), out, b, t.anchored) })
	if b != nil {
		b.Anchored, b.Envelope, b.AnchorPull = t.anchored, contour.Hull(t.spots), t.pull
	}
}

// tipping judges one user after another on one station.
type tipping struct {
	s        *study
	base     *specs.Base
	stand    func() *stance
	anchored bool
	cases    *[]StabilityCase     // nil unless asked for
	b        *Balance             // nil unless asked for
	extents  [3][waysOfUse]extent // of stand's moments, where only what governs is wanted
	spots    []r2.Vec             // hull of the centres of mass on the floor, for b
	lean     float64              // tangent of the tilt that anchors must hold, for b
	pull     float64              // greatest on an anchor, for b
}

// poise is where the centre of mass of a case stands to one side: how far
// inside the feet over how high.
type poise struct {
	ratio         float64
	load, way, at int
}

// judge adds the rows of one user, nil for nobody.
//
// Mass and moment of mass grow in proportion to the load, so the ratio of
// inside to height is a quotient of two linear functions of it and has its
// least at the lightest or the heaviest: the middle load is looked at only where
// every case is told.
func (t *tipping) judge(out *rows, id string, who int, title, person string, kg float64, user *[waysOfUse][]r3.Vec) {
	s, base, stand, half := t.s, t.base, t.stand(), t.base.Width/2
	var least [3]poise
	for i := range least {
		least[i].ratio = math.Inf(1)
	}
	told := t.cases != nil || t.b != nil
	for i := range stand.loads {
		if i == 1 && !told {
			continue
		}
		mass := stand.mass[i] + kg
		for w := range waysOfUse {
			here, side := poise{ratio: math.Inf(1)}, 0
			for k, c := range stand.moment[i][w] {
				if user != nil {
					u := &user[w][k]
					c.X, c.Y, c.Z = c.X+kg*u.X, c.Y+kg*u.Y, c.Z+kg*u.Z
				}
				up := 1 / c.Z
				insides := [3]float64{base.Front*mass - c.X, c.X - base.Rear*mass, half*mass - math.Abs(c.Y)}
				for j, inside := range insides {
					ratio := inside * up
					if ratio < least[j].ratio {
						least[j] = poise{ratio, i, w, k}
					}
					if ratio < here.ratio {
						here, side = poise{ratio, i, w, k}, j
					}
				}
				if t.b != nil {
					c = r3.Scale(1/mass, c)
					t.spots = append(t.spots, r2.Vec{X: c.X, Y: c.Y}, r2.Vec{X: c.X, Y: -c.Y})
					// The greatest pull on one anchor, two to an edge, of a station
					// leaning by the limit of its tilt.
					long := base.Front - base.Rear
					for j, reach := range [3]float64{long, long, base.Width} {
						e := balance.Edge{Inside: insides[j] / mass}
						t.pull = max(t.pull, e.AnchorPull(mass, c.Z, t.lean, reach)/2)
					}
				}
			}
			if t.cases != nil {
				c := stand.moment[i][w][here.at]
				if user != nil {
					c = r3.Add(c, r3.Scale(kg, user[w][here.at]))
				}
				c = r3.Scale(1/mass, c)
				e := balance.LeastTilt(balance.Edges(feet(base), mass, c))
				*t.cases = append(*t.cases, StabilityCase{
					Case: fmt.Sprintf("%s%s, %s", title, wayNames[w], loadNames[i]), Person: person, Mass: mass,
					X: c.X, Y: c.Y, Z: c.Z, Tilt: e.Tilt, Edge: sideNames[side], Energy: e.Energy,
					Angle: s.angles[here.at], Lift: stand.lift[w][here.at],
				})
			}
		}
	}
	if t.b != nil { // of one user's places no more than the hull is of use
		t.spots = append(t.spots[:0], contour.Hull(t.spots)...)
	}
	if t.anchored {
		return
	}
	for j, v := range least {
		w := out.add(id, who, math.Atan(v.ratio)).at(s.angles[v.at])
		if !out.quiet {
			out.named(w, "%s%s, %s, over the %s", title, wayNames[v.way], loadNames[v.load], sideNames[j])
		}
	}
}

// entry adds the cases of getting on: the rated user's whole weight at the
// seat's front, rear and side edge, on one arm pad and on a foot plate, each
// with a small outward push, and the stated push against the empty station.
func (s *study) entry(g *specs.Geometry, l station.Layout, sat []Person, stand *stance, out *rows, b *Balance, anchored bool) {
	mass := stand.mass[0]
	c := r3.Scale(1/mass, stand.moment[0][bothArms][0])
	kg := s.ratedUser()
	seat := l.SeatTop + float64(g.Seat.Positions-1)*g.Seat.Pitch
	add := func(title string, weight float64, at r3.Vec, push float64, dirs ...r3.Vec) {
		best := EntryCase{Case: title, Weight: weight, Push: push, Height: at.Z, Tilt: math.Inf(1)}
		for _, dir := range dirs {
			loads := []balance.Load{{At: at, Force: r3.Scale(push, dir)}}
			if weight > 0 {
				loads = append(loads, balance.Weight(weight, at))
			}
			for i, e := range balance.Overturn(feet(g.Base), mass, c, loads...) {
				if e.Tilt < best.Tilt {
					best.Tilt, best.Inside, best.Edge = e.Tilt, e.Inside, sideNames[edgeSide[i]]
					best.X, best.Y = resultant(mass, c, loads)
				}
			}
		}
		if !anchored {
			out.named(out.add("tilt-entry", -1, best.Tilt), "%s, over the %s", title, best.Edge)
		}
		if b != nil {
			b.Entry = append(b.Entry, best)
		}
	}
	front, rear, right := r3.Vec{X: 1}, r3.Vec{X: -1}, r3.Vec{Y: -1}
	units := s.units()
	user := "user of " + units.Size(kg, "kg") + " "
	rearEdge := l.SeatFront - l.SeatDepth
	add(user+"on the seat's front edge", kg, r3.Vec{X: l.SeatFront - edgeInset, Z: seat}, edgePush, front)
	add(user+"on the seat's rear edge", kg, r3.Vec{X: rearEdge + edgeInset, Z: seat}, edgePush, rear)
	add(user+"on the seat's side edge", kg, r3.Vec{X: l.SeatFront - l.SeatDepth/2, Y: edgeInset - l.SeatWidth/2, Z: seat}, edgePush, right)
	pad := l.Rest.FarEdge()
	add(user+"leaning on one arm pad", kg, r3.Add(l.RightPivot(), pad), edgePush, front, rear, right)
	if s.hasSteps() {
		// The plate is where the feet are; who is farthest forward stands there.
		var feet r3.Vec
		for i := range sat {
			body := sat[i].Body
			feet.X = max(feet.X, sat[i].Pose.Hip.X+body.Knee-body.ThighDepth/2)
			feet.Y = min(feet.Y, -body.ThighHalf)
		}
		if plate := g.FootPlate; plate != nil {
			feet.Z = plate.Lowest + float64(plate.Positions-1)*plate.Pitch
		}
		add(user+"standing on the foot plate", kg, feet, edgePush, front, right)
	}
	push := s.asked.Space.Push
	at := r3.Vec{Z: l.PivotHeight}
	for j, dir := range []r3.Vec{front, rear, right} {
		add("push of "+units.Size(push, "N")+" to the "+sideNames[j], 0, at, push, dir)
	}
}

// resultant is where the floor's resultant acts.
func resultant(mass float64, c r3.Vec, loads []balance.Load) (x, y float64) {
	// Two edges along the axes through the origin read the place off.
	axes := []r2.Vec{{}, {X: 1}, {X: 1, Y: 1}, {Y: 1}}
	e := balance.Overturn(axes, mass, c, loads...)
	return e[3].Inside, e[0].Inside
}

// SeatedCurve is what pads, seat and back carry while a person lifts the
// heaviest load that strength allows, by angle. Forces N, places mm.
type SeatedCurve struct {
	Person   string
	Why      string // this person
	Weight   float64
	Load     []float64 // on both hands together
	Pad      []float64 // both pads, normal to them
	Back     []float64 // normal to the back pad; nil without one
	Seat     []float64
	Share    []float64 // of body weight on the seat
	SeatX    []float64 // where the seat's reaction acts, machine frame
	Friction []float64 // the seat must hold, forward on the person positive
}

// backHold is how far up the trunk the back pad's force acts, share of hip to
// shoulder: the middle of the thorax. Judgement.
const backHold = 0.6

// seatedCurves works out the curves of the person with the least seat load, the
// heaviest and the strongest.
func (s *study) seatedCurves(g *specs.Geometry, l station.Layout, sat []Person, level float64) []SeatedCurve {
	if len(sat) == 0 {
		return nil
	}
	light, strong := 0, 0
	for i := range sat {
		if sat[i].SeatLoad < sat[light].SeatLoad {
			light = i
		}
		if sat[i].Person.ElbowStrength() > sat[strong].Person.ElbowStrength() {
			strong = i
		}
	}
	var out []SeatedCurve
	taken := map[int]bool{}
	for _, v := range []struct {
		who int
		why string
	}{{light, "least seat load"}, {s.heavy, "heaviest"}, {strong, "strongest"}} {
		if !taken[v.who] {
			taken[v.who] = true
			c := s.seatedCurve(g, l, &sat[v.who], level)
			c.Why = v.why
			out = append(out, c)
		}
	}
	return out
}

func (s *study) seatedCurve(g *specs.Geometry, l station.Layout, p *Person, level float64) SeatedCurve {
	b := p.Body
	c := SeatedCurve{Person: p.Person.Label, Weight: p.Person.Mass * balance.G}
	peak := min(p.Person.ElbowStrength(), level)
	eq := balance.Seated{
		Weight: c.Weight, Slope: p.Pose.ArmSlope, UpperArm: b.UpperArm,
		Support: (l.Rest.Near + l.Rest.Far) / 2, Reach: b.Forearm, SeatTop: l.PivotHeight - p.SeatTop,
	}
	centre := s.carried(p, newMachine(g))[bothArms]
	for k, theta := range s.angles {
		eq.Load = 2 * peak * s.shape[k] / b.Forearm
		eq.CentreX = centre[k].X
		r := eq.At(theta)
		if g.Back != nil {
			r = leaningBack(eq, p.Person, b, p.Pose, newMachine(g), centre[k].X).At(theta)
			c.Back = append(c.Back, r.Back)
		}
		c.Load = append(c.Load, eq.Load)
		c.Pad = append(c.Pad, r.Pad)
		c.Seat = append(c.Seat, r.Seat)
		c.Share = append(c.Share, r.Share(c.Weight))
		c.SeatX = append(c.SeatX, r.SeatX)
		c.Friction = append(c.Friction, r.Friction)
	}
	return c
}

// upperBody returns the share of body mass above the hip and where it acts
// fore and aft, from the whole person's centre less the legs, thighs level and
// shanks upright (de Leva 1996).
func upperBody(p people.Person, pose station.Pose, centre float64) (share, x float64) {
	seg := people.Segments(p.Sex)
	thigh := seg.Thigh.Length * p.Stature
	legs := 2 * (seg.Thigh.Mass + seg.Shank.Mass + seg.Foot.Mass)
	moment := 2 * (seg.Thigh.Mass*(pose.Hip.X+seg.Thigh.Centre*thigh) +
		seg.Shank.Mass*(pose.Hip.X+thigh) +
		seg.Foot.Mass*(pose.Hip.X+thigh+(seg.Foot.Centre-0.25)*p.FootLength))
	share = 1 - legs
	return share, (centre - moment) / share
}

// headAlong is how far the head's centre of mass lies from the hip joint along
// the trunk: the vertex stands the seated height above the seat.
func headAlong(p people.Person, b station.Body) float64 {
	head := people.Segments(p.Sex).Head
	return p.SittingHeight - b.Hip - head.Centre*head.Length*p.Stature
}
