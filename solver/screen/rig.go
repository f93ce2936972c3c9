package screen

import (
	"math"

	"armwright/geometry/assembly"
	"armwright/geometry/balance"
	body "armwright/geometry/solid"
	"armwright/geometry/station/values"
	"armwright/solver/build"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// place is a part of the right side, or of the middle, that loads pass through.
type place int

const (
	aPost place = iota
	aStub
	anIndexPlate
	aSole
	anInnerCheek
	anOuterCheek
	aHub
	anArmShaft
	aSecondShaft
	anArmTube
	aSlide
	aGrip
	aHandlePin
	aPadBracket
	aPadSaddle
	aChestRiser
	aChestBar
	aChestTab
	aChestSlide
	aChestSleeve
	aBackStrut
	aBackBoard
	aRail
	aRearFoot
	aFrontFoot
	aSleeve
	aSeatPost
	aSeatCross
	aLever
	aLeverCollar
	anInputBar
	anInputCollar
	anInputPin
	aPlates
	aCam
	aStop
	aBuffer
	aStackBuffer
	anUpright
	aTowerCross
	aTowerTop
	aRodBar
	aGuideSheave
	aGuideStem
	aGuideBush
	aGuidePin
	aGuidePost
	aGuideFoot
	aRailStem
	aFootStem
	anOuterStem
	anInnerStem
	aRailAxle
	aFootAxle
	anOuterAxle
	anInnerAxle
	aRailFork
	aRailFoot
	aFootFoot
	places
)

// placeOf names the part of an id; places for one that carries nothing screened.
func placeOf(id string) place {
	switch id {
	case "pivot-post-right":
		return aPost
	case "pivot-stub-right":
		return aStub
	case "index-plate-right":
		return anIndexPlate
	case "swivel-sole-right":
		return aSole
	case "inner-cheek-right":
		return anInnerCheek
	case "outer-cheek-right":
		return anOuterCheek
	case "arm-hub-right":
		return aHub
	case "arm-shaft-right":
		return anArmShaft
	case "countershaft-right", "output-shaft-right":
		return aSecondShaft
	case "arm-tube-right":
		return anArmTube
	case "handle-slide-right":
		return aSlide
	case "grip-bar-right":
		return aGrip
	case "handle-pin-right":
		return aHandlePin
	case "arm-pad-bracket-right":
		return aPadBracket
	case "arm-pad-saddle-right":
		return aPadSaddle
	case "chest-riser":
		return aChestRiser
	case "chest-crossbar":
		return aChestBar
	case "chest-tab-right":
		return aChestTab
	case "chest-slide":
		return aChestSlide
	case "chest-sleeve":
		return aChestSleeve
	case "back-strut":
		return aBackStrut
	case "back-board":
		return aBackBoard
	case "rail-right":
		return aRail
	case "foot-rear-right":
		return aRearFoot
	case "foot-front-right":
		return aFrontFoot
	case "seat-sleeve":
		return aSleeve
	case "seat-post":
		return aSeatPost
	case "cross-seat":
		return aSeatCross
	case "lever-right":
		return aLever
	case "lever-collar-right":
		return aLeverCollar
	case "input-bar-right":
		return anInputBar
	case "input-collar-right":
		return anInputCollar
	case "input-pin-right":
		return anInputPin
	case "plates-right":
		return aPlates
	case "cam-core-right", "cam-cheek-inner-right", "cam-cheek-outer-right", "cam-hub-right":
		return aCam
	case "stop-lower-right":
		return aStop
	case "buffer-lower-right":
		return aBuffer
	case "stack-buffer-right", "stack-buffer-outer-right":
		return aStackBuffer
	case "tower-upright-right":
		return anUpright
	case "cross-tower":
		return aTowerCross
	case "tower-top":
		return aTowerTop
	case "rod-bar":
		return aRodBar
	case "sheave-guide-right":
		return aGuideSheave
	case "guide-stem-right":
		return aGuideStem
	case "guide-bush-right":
		return aGuideBush
	case "guide-pin-right":
		return aGuidePin
	case "guide-post-right":
		return aGuidePost
	case "sheave-rail-foot-right":
		return aRailFoot
	case "sheave-tower-foot-right":
		return aFootFoot
	case "sheave-rail-stem-right":
		return aRailStem
	case "sheave-tower-stem-right":
		return aFootStem
	case "sheave-outer-stem-right":
		return anOuterStem
	case "sheave-inner-stem-right":
		return anInnerStem
	case "sheave-rail-axle-right":
		return aRailAxle
	case "sheave-tower-axle-right":
		return aFootAxle
	case "sheave-outer-axle-right":
		return anOuterAxle
	case "sheave-inner-axle-right":
		return anInnerAxle
	case "sheave-rail-fork-right":
		return aRailFork
	}
	return places
}

// rig is the right side of a station as its parts stand, middle axis position.
// Places are told from the pivot.
type rig struct {
	*build.Station
	v      *values.Station
	planes values.Planes
	index  [places]int // of the assembly's parts, -1 for none
	joints [mostJoints]link
	met    int // of these

	pivot          r3.Vec
	up, normal     r3.Vec  // up the pad, and out of it
	axis, down     r3.Vec  // outward, and along the arm at flexion 0
	forward, above r3.Vec  // of what is drawn across the axis
	arm            float64 // angle of the arm above forward at flexion 0

	// Middles of the bearings' balls along the axis, and what weighs on the arm's
	// shaft inside and outside them: mass and its moment, kg and kg·mm.
	inner, outer    float64
	inside, outside lump
	second          lump // outside, on the second shaft
	swivel          assembly.Weight
	inertia         float64 // of what turns with the arm about its axis, kg·mm²
}

// link is a joint of two places.
type link struct {
	a, b place
	at   int // of the assembly's joints
}

// mostJoints and mostParts are more than a station has that matter here.
const mostJoints, mostParts = 128, 1024

// lump is a mass along the axis.
type lump struct{ mass, moment float64 }

func (l *lump) add(mass, at float64) { l.mass, l.moment = l.mass+mass, l.moment+mass*at }

// find looks for the parts and sums what they weigh. Plates are left to the load, and
// a cam's plates of some 2 kg are left out: they are cut once the station is found.
func (r *rig) find(st *build.Station) {
	v := &st.Values
	r.Station, r.v, r.planes = st, v, v.Planes()
	for i := range r.index {
		r.index[i] = -1
	}
	s, c := math.Sincos(v.Rest.Slope)
	r.pivot = v.Pivot()
	r.up, r.normal = r3.Vec{X: -c, Z: s}, r3.Vec{X: s, Z: c}
	_, r.down, _ = r.swung(v.Axes[len(v.Axes)/2])
	r.axis = r3.Cross(r.down, r.normal)
	r.forward = r3.Unit(r3.Sub(r3.Vec{X: 1}, r3.Scale(r.axis.X, r.axis)))
	r.above = r3.Cross(r.axis, r.forward)
	r.arm = math.Atan2(r3.Dot(r.down, r.above), r3.Dot(r.down, r.forward))

	a := st.Assembly
	// Groups come after their parents.
	var turns [64]turn
	for i := range min(len(a.Groups), len(turns)) {
		g := &a.Groups[i]
		switch g.ID {
		case "swivel-right":
			turns[i] = bySwivel
		case "arm-right":
			turns[i] = byArm
		case "countershaft-right", "output-right":
			turns[i] = bySecond
		default:
			if g.Parent >= 0 {
				turns[i] = turns[g.Parent]
			}
		}
	}
	var known [mostParts]place
	for i := range min(len(a.Parts), mostParts) {
		p := &a.Parts[i]
		known[i] = places
		if p.Side == assembly.Left || p.Is(assembly.Rises) {
			continue
		}
		at := placeOf(p.ID)
		if known[i] = at; at < places {
			r.index[at] = i
		}
		by := turns[p.Group]
		if by == byNone || at == aPlates || at == aCam {
			continue
		}
		from := r3.Sub(p.Centre, r.pivot)
		r.swivel.Add(p.Mass, from)
		w := r3.Dot(from, r.axis)
		switch {
		case by == byArm:
			if w < r.planes.Bearings {
				r.inside.add(p.Mass, w)
			} else {
				r.outside.add(p.Mass, w)
			}
			r.inertia += p.Mass * (r3.Norm2(from) - w*w)
		case by == bySecond && w > r.planes.Bearings:
			r.second.add(p.Mass, w)
		}
	}
	for i := range a.Joints {
		j := &a.Joints[i]
		if p, q := known[j.A], known[j.B]; p < places && q < places && r.met < mostJoints {
			r.joints[r.met] = link{p, q, i}
			r.met++
		}
	}
	half := r.thick(anInnerCheek)/2 + v.Bearing.Centre
	r.inner, r.outer = r.planes.InnerCheek-half, r.planes.OuterCheek+half
}

// turn is what a group turns with.
type turn int8

const (
	byNone turn = iota
	bySwivel
	byArm
	bySecond // the second shaft
)

// swung are an axis position's outward direction, the arm's at flexion 0, and the one
// that it turns towards.
func (r *rig) swung(axis r3.Vec) (a, down, rise r3.Vec) {
	down = r3.Unit(r3.Cross(r.normal, axis))
	return axis, down, r3.Cross(axis, down)
}

// part is that at a place, nil for none.
func (r *rig) part(at place) *assembly.Part {
	if r.index[at] < 0 {
		return nil
	}
	return &r.Assembly.Parts[r.index[at]]
}

// from is where a part's own frame stands.
func (r *rig) from(at place) r3.Vec { return r3.Sub(r.part(at).Place.Origin, r.pivot) }

// size is one of a part's stock sizes, mm; thick that of a plate, long a length.
func (r *rig) size(at place, i int) float64 { return r.part(at).Stock.Size[i] }
func (r *rig) thick(at place) float64       { return r.size(at, 2) }
func (r *rig) long(at place) float64        { return r.part(at).Stock.Length }

// joint is how two parts meet; nil where they do not.
func (r *rig) joint(kind assembly.JointKind, a, b place) *assembly.Joint {
	for _, l := range r.joints[:r.met] {
		if l.a == a && l.b == b || l.a == b && l.b == a {
			if j := &r.Assembly.Joints[l.at]; j.Kind == kind {
				return j
			}
		}
	}
	return nil
}

// weld is a joint's detail; a zero one where there is none.
func (r *rig) weld(a, b place) assembly.Detail {
	if j := r.joint(assembly.Weld, a, b); j != nil {
		return j.Detail
	}
	return assembly.Detail{}
}

// carrier is what carries index plate and pad.
func (r *rig) carrier() place {
	if r.index[aStub] >= 0 {
		return aStub
	}
	return aPost
}

// centre is the middle of a drive's shaft across the axis, x forward and y up.
func (r *rig) centre() r2.Vec {
	if v := r.v.Second; v != nil {
		return r2.Vec{X: v.X, Y: v.Y}
	}
	return r2.Vec{}
}

// across is a place or a direction of the plane across the axis in space, outward by w.
func (r *rig) across(q r2.Vec, w float64) r3.Vec {
	return r3.Add(r3.Add(r3.Scale(q.X, r.forward), r3.Scale(q.Y, r.above)), r3.Scale(w, r.axis))
}

// falling is the direction of weight across the axis, for 1 kg.
func (r *rig) falling() r2.Vec {
	return r2.Scale(-balance.G, r2.Vec{X: r.forward.Z, Y: r.above.Z})
}

// weight of all that swivels but plates.
func (r *rig) weight() wrench {
	return wrench{r3.Vec{Z: -r.swivel.Mass * balance.G}, r3.Cross(r.swivel.Moment, r3.Vec{Z: -balance.G})}
}

// bolts are the holes of the sole for its clamp bolts, rear and front, and its pin:
// down the pad from the swivel line, and outward.
func (r *rig) bolts() (rear, front, pin r2.Vec) {
	holes := r.part(aSole).Solid.(body.Prism).Profile.Holes()
	at := func(i int) r2.Vec {
		p, q := holes[i].Vertices[0], holes[i].Vertices[1] // across it
		return r2.Vec{X: (p.X + q.X) / 2, Y: -(p.Y + q.Y) / 2}
	}
	return at(0), at(1), at(2)
}
