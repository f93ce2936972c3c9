package screen

import (
	"math"
	"slices"

	"armwright/geometry/assembly"
	"armwright/geometry/balance"
	"armwright/geometry/cable"
	body "armwright/geometry/solid"
	"armwright/specs"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// leanAngle is how far the floor may lean under the raised stack: that of the
// stability tests (ASTM F2571).
const leanAngle = 10 * specs.Degree

// hoist screens what the cable pulls at between cam and stack: sheaves with what they
// stand on, and the tower.
func (s *Screen) hoist(r *rig, tension float64, out *screening) {
	v := r.v
	if !v.HasStack() || r.index[aGuideSheave] < 0 {
		return
	}
	yield := s.Steel.Yield
	pull := dynamicFactor * tension
	factor := func(stress float64) float64 { return loadFactor * stress / yield }

	// The floating sheave hangs on both arms' cables, the others turn one by a quarter.
	most := math.Sqrt2 * pull
	if !v.Tower.Pair {
		most = 2 * pull
	}
	if j := r.joint(assembly.Fit, aRailAxle, aRailFork); j != nil {
		axle := r.part(aRailAxle)
		span := 2 * r3.Norm(r3.Sub(j.At, axle.Place.Origin))
		out.value[sheaveAxles] = factor(beam{strong: most * span / 4}.round(axle.Stock.Size[0], 0))
	}

	// A stem carries one end of the cable along it, the other square to it at the axle.
	for _, stem := range [...]struct{ stem, axle, on place }{
		{aRailStem, aRailAxle, aRailFoot}, {aFootStem, aFootAxle, aFootFoot},
		{anOuterStem, anOuterAxle, aTowerTop}, {anInnerStem, anInnerAxle, aTowerTop},
	} {
		p := r.part(stem.stem)
		if p == nil || r.index[stem.axle] < 0 {
			continue
		}
		lever := r3.Norm(r3.Sub(r.from(stem.axle), r.from(stem.stem))) + p.Stock.Length
		b := beam{strong: pull * lever, axial: pull, across: pull}
		out.value[sheaveStems] = max(out.value[sheaveStems], factor(b.round(p.Stock.Size[0], 0)))
		if weld := r.weld(stem.stem, stem.on); weld.Run > 0 {
			out.size[stemWelds] = weld.Throat
			out.value[stemWelds] = max(out.value[stemWelds], s.welded(loadFactor*b.circle(weld.Run), weld.Throat))
		}
	}
	s.guide(r, pull, out)

	// Each side of the tower's top hangs on two sheaves, one outside the upright and
	// one inside, that pull toward each other.
	if r.index[anUpright] < 0 || r.index[anOuterAxle] < 0 || r.index[anInnerAxle] < 0 {
		return
	}
	upright := r.from(anUpright)
	outer, inner := upright.Y-r.from(anOuterAxle).Y, r.from(anInnerAxle).Y-upright.Y
	under := r.from(aTowerTop).Z - r.from(anOuterAxle).Z
	top := beam{strong: pull * (max(math.Abs(outer), math.Abs(inner-outer)) + under), axial: pull}
	out.value[towerTop] = factor(top.tube(&s.Member))

	// The stack leans on the guide rods, these on the rod bar and the base.
	aside := s.Asked.Resistance.Load.Heavy * balance.G * math.Sin(leanAngle)
	if v.Tower.Pair {
		aside *= 2
	}
	bar := r.from(aRodBar).Z - upright.Z
	out.value[towerUpright] = factor(beam{strong: aside / 2 * bar, axial: 2 * pull}.tube(&s.Member))
	deep, span := rodBarDeep(r), 2*math.Abs(r.part(anUpright).Place.Origin.Y)-v.Member.Width
	out.value[rodBarBent] = factor(flat(aside*span/4, r.thick(aRodBar), deep))
}

// rodBarDeep is how much of the rod bar is left behind its notches, mm.
func rodBarDeep(r *rig) float64 {
	p := r.part(aRodBar)
	outline := p.Solid.(body.Prism).Profile.Outer().Vertices
	low, notch := math.Inf(1), math.Inf(1)
	for _, v := range outline {
		low = min(low, v.X)
	}
	for _, v := range outline {
		if v.X > low+1 {
			notch = min(notch, v.X)
		}
	}
	return notch - low
}

// guide screens what carries the guide sheave, which the cable pulls toward the cam and
// down, where it is set the highest. The stem is bent the most at the bush's face, and is
// the thinnest in a groove, which may be there.
func (s *Screen) guide(r *rig, pull float64, out *screening) {
	v := r.v
	sheave, bush, post := r.from(aGuideSheave), r.from(aGuideBush), r.from(aGuidePost)
	sheave.Z += slices.Max(r.Route.Rise)
	across, bore := r.size(aGuideStem, 0), r.size(aGuideStem, 1)
	if r.index[aGuidePin] >= 0 {
		across = cable.HangerRoot
	}
	yield := s.Steel.Yield
	for k := range v.Tower.Cable.Line {
		line := &v.Tower.Cable.Line[k]
		u := r2.Sub(line.Contact, line.Leave)
		n := r2.Norm(u)
		if n == 0 {
			return
		}
		load := push(sheave, r3.Scale(pull/n, r.across(u, 0))).plus(push(r3.Vec{X: bush.X, Y: bush.Y}, r3.Vec{Z: -pull}))
		b := load.section(bush, rise, along)
		out.value[guideStemBent] = max(out.value[guideStemBent], loadFactor*b.round(across, bore)/yield)
		b = load.section(post, rise, along)
		out.value[guidePostFoot] = max(out.value[guidePostFoot], loadFactor*b.tube(&s.Member)/yield)
		weld := r.weld(aGuidePost, aRailFoot)
		out.size[guidePostWeld] = weld.Throat
		out.value[guidePostWeld] = max(out.value[guidePostWeld], s.welded(loadFactor*b.ring(s.Member.H, s.Member.B), weld.Throat))
	}
}
