package screen

import (
	"math"

	"armwright/geometry/assembly"
	"armwright/geometry/balance"
	"armwright/geometry/cable"
	body "armwright/geometry/solid"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// leanAngle is how far the floor may lean under the raised stack: that of the
// stability tests (ASTM F2571).
const leanAngle = 10 * math.Pi / 180

// hoist screens what the cable pulls at between cam and stack: sheaves with what they
// stand on, and the tower.
func (s *Screen) hoist(r *rig, tension float64, out *screening) {
	v := r.v
	if !v.HasStack() || r.Route == nil || r.index[aGuideSheave] < 0 {
		return
	}
	yield := s.Steel.Yield
	pull := dynamicFactor * tension
	factor := func(stress float64) float64 { return loadFactor * stress / yield }

	// The floating sheave hangs on both arms' cables.
	sheaves := r.Route.Sheaves
	most := 0.0
	for i := range sheaves {
		load := r3.Norm(onSheave(&sheaves[i], pull).f)
		if sheaves[i].Floating {
			load = 2 * pull
		}
		most = max(most, load)
	}
	if j := r.joint(assembly.Fit, anOuterAxle, anOuterFork); j != nil {
		axle := r.part(anOuterAxle)
		span := 2 * r3.Norm(r3.Sub(j.At, axle.Place.Origin))
		out.value[sheaveAxles] = factor(beam{strong: most * span / 4}.round(axle.Stock.Size[0], 0))
	}

	// Each stem or post bends where it stands on what carries it.
	next := 0
	for i, c := range [...]carriedSheave{{aRailStem, aRailFoot}, {aFootStem, aFootFoot}, {anOuterStem, aTowerTop}, {anInnerStem, aTowerTop}} {
		if i == 1 && r.Route.AtTower {
			continue
		}
		next++
		load := onSheave(&sheaves[next], pull)
		load.m = r3.Sub(load.m, r3.Cross(r.pivot, load.f)) // told from the pivot
		if c.stem == aRailStem && r.index[aSheavePost] >= 0 {
			b := load.section(r.from(aSheavePost), rise, along)
			out.value[sheaveStems] = max(out.value[sheaveStems], factor(b.tube(&s.Member)))
			if weld := r.weld(aSheavePost, c.on); weld.Run > 0 {
				out.value[stemWelds] = max(out.value[stemWelds], s.welded(loadFactor*b.ring(s.Member.H, s.Member.B), weld.Throat))
			}
			continue
		}
		p := r.part(c.stem)
		j := r.joint(assembly.Weld, c.stem, c.on)
		if p == nil || j == nil {
			continue
		}
		b := load.section(r3.Sub(j.At, r.pivot), rise, along)
		out.value[sheaveStems] = max(out.value[sheaveStems], factor(b.round(p.Stock.Size[0], 0)))
		out.size[stemWelds] = j.Detail.Throat
		out.value[stemWelds] = max(out.value[stemWelds], s.welded(loadFactor*b.circle(j.Detail.Run), j.Detail.Throat))
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

// carriedSheave is the stem of a sheave and what it stands or hangs on.
type carriedSheave struct{ stem, on place }

// onSheave is the force of a cable that pulls at both its ends on a sheave, and its
// moment about the machine's origin.
func onSheave(s *cable.Sheave, pull float64) wrench {
	return push(s.Centre, r3.Scale(pull, r3.Sub(s.Run(s.Out), s.Run(s.In))))
}

// guide screens what carries the guide sheave, which the cable pulls toward the cam and
// along the swivel line, at the three angles at which its line is told.
func (s *Screen) guide(r *rig, pull float64, out *screening) {
	if r.index[aGuidePin] < 0 || r.index[aGuideHanger] < 0 {
		return
	}
	yield := s.Steel.Yield
	at, inner := r.from(aGuideSheave), r.from(aGuideHanger)
	thick, sole := r.thick(aGuideHanger), r.thick(aSole)
	weld, edge := r.weld(aGuidePin, aGuideHanger), r.joint(assembly.Weld, aGuideHanger, aSole)
	if edge == nil {
		return
	}
	wide := edge.Detail.Run / 2
	root := r3.Add(at, r3.Scale(r3.Dot(inner, r.axis)+thick-r3.Dot(at, r.axis), r.axis))
	tab := r3.Sub(edge.At, r.pivot)
	top := r3.Add(tab, r3.Scale(thick/2, r.axis))                                   // of the hanger, in the middle of its plate
	cheek := r3.Add(tab, r3.Scale(r.planes.OuterCheek-r3.Dot(tab, r.axis), r.axis)) // where the sole is held
	d := r.part(aGuidePin).Stock.Size[0]
	out.size[guidePinBent], out.size[guidePinWeld], out.size[hangerWeld] = d, weld.Throat, edge.Detail.Throat
	out.size[hangerBent], out.size[soleTabBent] = thick, sole
	for k := range r.v.Tower.Cable.Line {
		line := &r.v.Tower.Cable.Line[k]
		u := r2.Sub(line.Leave, line.Contact)
		n := r2.Norm(u)
		if n == 0 {
			return
		}
		load := push(at, r3.Scale(-pull, r3.Add(r.normal, r3.Scale(1/n, r.across(u, 0)))))
		take := func(i strain, value float64) { out.value[i] = max(out.value[i], value) }
		b := load.section(root, r.axis, r.normal)
		take(guidePinBent, loadFactor*b.round(d, 0)/yield)
		take(guidePinWeld, s.welded(loadFactor*b.circle(weld.Run), weld.Throat))
		take(hangerBent, loadFactor*load.section(top, r.normal, r.down).plate(wide, thick)/yield)
		b = load.section(tab, r.axis, r.down)
		take(hangerWeld, s.welded(loadFactor*b.ring(wide, sole), edge.Detail.Throat))
		take(soleTabBent, loadFactor*load.section(cheek, r.axis, r.down).plate(wide, sole)/yield)
	}
}
