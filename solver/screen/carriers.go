package screen

import (
	"math"

	"armwright/geometry/balance"
	"armwright/specs/stock"

	"gonum.org/v1/gonum/spatial/r3"
)

var (
	along = r3.Vec{X: 1}
	rise  = r3.Vec{Z: 1}
)

// tubes is the greatest share of the yield strength that they take of a section.
func (f *frameLoads) tubes(sec *stock.Section, yield float64) float64 {
	most := 0.0
	for _, b := range [...]*beam{&f.post, &f.leaned, &f.rail, &f.stub, &f.sleeve} {
		most = max(most, loadFactor*b.tube(sec)/yield)
	}
	return most
}

// welds is the greatest share of strength in the welds of such tubes on each other,
// their throat the wall, or in the wall that they stand on.
func (f *frameLoads) welds(sec *stock.Section, steel *stock.Steel) float64 {
	most := 0.0
	for _, b := range [...]*beam{&f.post, &f.leaned, &f.stub, &f.sleeve} {
		most = max(most, loadFactor*b.ring(sec.H, sec.B)/sec.T/steel.WeldStrength(), loadFactor*b.joint(sec, sec, steel.Yield))
	}
	return most
}

// sway is how far an end moves under a force there that bends the root as much: a share
// of the free length.
func (b beam) sway(sec *stock.Section, long float64) float64 {
	return long / 3 / stock.YoungsModulus * math.Hypot(b.strong/sec.Ix, b.weak/sec.Iy)
}

// leaning is the heaviest user's weight on the middle of one pad's face.
func (s *Screen) leaning(r *rig) wrench {
	rest := &r.v.Rest
	at := r3.Sub(r3.Scale((rest.Near+rest.Far)/2, r.up), r3.Scale(rest.Offset, r.normal))
	return push(at, r3.Scale(-s.ratedUser()*balance.G, rise))
}

// carriers screens posts, stubs and rails.
func (s *Screen) carriers(r *rig, l *burden, out *screening) {
	f, sec, yield := &out.beams, &s.Member, s.Steel.Yield
	foot := r.from(aPost)
	load := l.foot.wrench
	leaned := s.leaning(r).plus(r.weight())
	f.post, f.leaned = load.section(foot, rise, along), leaned.section(foot, rise, along)
	f.high = r.long(aPost)
	out.value[postFoot] = loadFactor * f.post.tube(sec) / yield
	out.value[postLeaned] = loadFactor * f.leaned.tube(sec) / yield
	out.value[postSway] = f.post.sway(sec, f.high)

	weld := r.weld(aPost, aRail)
	out.size[postWeld], out.size[postWall] = weld.Throat, r.thick(aRail)
	out.value[postWeld] = s.welded(loadFactor*max(f.post.ring(sec.H, sec.B), f.leaned.ring(sec.H, sec.B)), weld.Throat)
	out.value[postWall] = loadFactor * max(f.post.joint(sec, sec, yield), f.leaned.joint(sec, sec, yield))

	// The rail is a beam between its feet, or stands out past one; what twists it goes
	// to the cross members.
	a, b := foot.X-r.from(aRearFoot).X, r.from(aFrontFoot).X-foot.X
	f.rail = beam{strong: f.post.strong - f.post.axial*min(a, b), weak: f.post.twist, twist: f.post.weak}
	if long := a + b; a > 0 && b > 0 {
		f.rail.strong = f.post.strong*max(a, b)/long + f.post.axial*a*b/long
		f.rail.weak *= max(a, b) / long
	}
	out.value[railBent] = loadFactor * f.rail.tube(sec) / yield

	if r.index[aStub] >= 0 {
		f.stub = load.section(r.from(aStub), along, rise)
		weld := r.weld(aStub, aPost)
		out.value[stubRoot], out.size[stubWeld] = loadFactor*f.stub.tube(sec)/yield, weld.Throat
		out.value[stubWeld] = s.welded(loadFactor*f.stub.ring(sec.H, sec.B), weld.Throat)
	}
}

// welded is the share that a force per length takes of a fillet weld's strength.
func (s *Screen) welded(flow, throat float64) float64 {
	if throat <= 0 {
		return unbuilt
	}
	return flow / throat / s.Steel.WeldStrength()
}

// padAndSeat screens what carries arm pad and seat under the heaviest user.
func (s *Screen) padAndSeat(r *rig, out *screening) {
	yield, user := s.Steel.Yield, s.ratedUser()*balance.G
	at, leaned := r.from(aPadBracket), s.leaning(r)
	b := leaned.section(at, r3.Vec{Y: 1}, r.normal)
	arm, wall := &s.Arm, &s.Member
	on := r.carrier()
	if r.index[aPadSaddle] >= 0 {
		on = aPadSaddle
	}
	weld := r.weld(aPadBracket, on)
	flow := loadFactor * b.ring(arm.H, arm.B)
	out.value[padTube] = loadFactor * b.tube(arm) / yield
	out.value[padSway] = b.sway(arm, math.Abs(at.Y))
	out.size[padWeld] = weld.Throat
	out.value[padWeld] = s.welded(flow, weld.Throat)
	if on == aPadSaddle {
		s.saddle(r, leaned, b, out)
	} else {
		out.size[padWall], out.size[padFace] = r.thick(on), r.thick(on)
		out.value[padWall] = flow / wall.T * math.Sqrt(3) / yield
		out.value[padFace] = loadFactor * b.joint(arm, wall, yield)
	}

	if r.index[aSleeve] < 0 {
		return
	}
	aside := beam{weak: user * seatAside, axial: user}
	out.beams.sleeve = aside
	out.size[sleeveFoot], out.size[seatPostBent] = seatAside, seatAside
	out.value[sleeveFoot] = loadFactor * aside.tube(wall) / yield
	out.value[seatPostBent] = loadFactor * aside.tube(&s.SeatPost) / yield
	pin := r.slide(aSeatPost, aSleeve)
	out.size[seatPinShear] = pin
	out.value[seatPinShear] = sheared(loadFactor*user, pin, 2, 2*min(s.SeatPost.T, wall.T), yield)
}

// saddle screens the saddle plate under the pad's bracket, which bears b: a chord's face
// of its own thickness between the walls of the post, on which it stands like a branch as
// wide as they are apart.
func (s *Screen) saddle(r *rig, leaned wrench, b beam, out *screening) {
	yield, arm, wall := s.Steel.Yield, &s.Arm, &s.Member
	face := *wall
	face.B, face.T = wall.H, r.thick(aPadSaddle)
	out.size[saddleFace], out.size[saddleWall] = face.T, r.thick(aPost)
	out.value[saddleFace] = loadFactor * b.joint(arm, &face, yield)
	weld := r.weld(aPadSaddle, aPost)
	branch, chord := *wall, *wall
	branch.B, branch.H, chord.B = wall.H, weld.Run/2-wall.H, wall.H
	b = leaned.section(r3.Add(r.from(aPadBracket), r3.Vec{Y: -face.T}), r3.Vec{Y: 1}, rise)
	flow := loadFactor * b.ring(branch.H, branch.B)
	out.size[saddleWeld] = weld.Throat
	out.value[saddleWeld] = s.welded(flow, weld.Throat)
	out.value[saddleWall] = max(flow/wall.T*math.Sqrt(3)/yield, loadFactor*b.joint(&branch, &chord, yield))
}
