package screen

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// c45Yield of shafts of C45, N/mm², normalised, 16 to 100 mm (EN 10083-2, M).
const c45Yield = 305.0

func (s *Screen) shaftYield(grade string) float64 {
	if grade == "C45" {
		return c45Yield
	}
	return s.Steel.Yield
}

// carried are the bending moments of a shaft in its two bearings, N·mm, and what these
// carry, N.
type carried struct {
	inside, outside float64
	inner, outer    r2.Vec
}

// carry is the statics of a shaft with forces outside its bearings and inside them.
func (r *rig) carry(inside, outside []planar) carried {
	var in, out, sum r2.Vec
	for _, p := range inside {
		in, sum = r2.Add(in, r2.Scale(r.inner-p.w, p.f)), r2.Add(sum, p.f)
	}
	for _, p := range outside {
		out, sum = r2.Add(out, r2.Scale(p.w-r.outer, p.f)), r2.Add(sum, p.f)
	}
	// Moments about the outer bearing give what the inner one carries.
	long := r.outer - r.inner
	var about r2.Vec
	for _, p := range inside {
		about = r2.Add(about, r2.Scale(r.outer-p.w, p.f))
	}
	inner := r2.Scale(1/long, r2.Sub(about, out))
	return carried{r2.Norm(in), r2.Norm(out), inner, r2.Sub(sum, inner)}
}

// weighing is a lump's weight across the axis.
func (r *rig) weighing(l lump) planar {
	if l.mass == 0 {
		return planar{}
	}
	return planar{r2.Scale(l.mass, r.falling()), l.moment / l.mass}
}

// shafts screens the pivot's shaft and the second one, with their bearings and what
// holds these, over the loaded range: the hand of who pulls the most, the heaviest load.
func (s *Screen) shafts(r *rig, l *burden, out *screening) {
	v := r.v
	var inside, outside, second, innerLoad, outerLoad, secondLoad, cheek float64
	shaft := v.Shaft
	for k := range l.angles {
		m := &l.at[k]
		hand := [2]planar{{r2.Scale(l.hand.force*m.shape, m.hand), r.planes.GripMiddle}, r.weighing(r.inside)}
		drive := [3]planar{m.onArm[0], m.onArm[1], r.weighing(r.outside)}
		c := r.carry(hand[:], drive[:])
		inside = max(inside, beam{strong: c.inside, twist: l.hand.torque * m.shape}.round(shaft, 0))
		outside = max(outside, dynamicFactor*beam{strong: c.outside, twist: l.level * m.shape}.round(shaft, 0))
		innerLoad, outerLoad = max(innerLoad, r2.Norm(c.inner)), max(outerLoad, r2.Norm(c.outer))
		var other carried
		if v.Second != nil {
			load := [3]planar{m.onSecond[0], m.onSecond[1], r.weighing(r.second)}
			other = r.carry(nil, load[:])
			second = max(second, dynamicFactor*beam{strong: other.outside, twist: m.driven}.round(shaft, 0))
			secondLoad = max(secondLoad, r2.Norm(other.inner), r2.Norm(other.outer))
		}
		cheek = max(cheek, r.cheek(c.inner, other.inner), r.cheek(c.outer, other.outer))
	}
	yield := s.shaftYield(r.part(anArmShaft).Stock.Grade)
	out.value[shaftInner], out.value[shaftOuter] = loadFactor*inside/yield, loadFactor*outside/yield
	out.value[armBearing], out.value[driveBearing] = s.Bearing.StaticFactor(innerLoad), s.Bearing.StaticFactor(outerLoad)
	most := max(innerLoad, outerLoad)
	if v.Second != nil {
		if p := r.part(aSecondShaft); p != nil {
			out.value[secondShaft] = loadFactor * second / s.shaftYield(p.Stock.Grade)
		}
		out.value[secondBearing] = s.Bearing.StaticFactor(secondLoad)
		most = max(most, secondLoad)
	}
	out.value[cheekBent] = loadFactor * dynamicFactor * cheek / s.Steel.Yield

	// Two bolts to a housing: shear, and the pull of what the balls stand beside them.
	out.size[bearingBolts] = v.Bearing.Thread
	out.value[bearingBolts] = bolt(v.Bearing.Thread, loadFactor*dynamicFactor*most*v.Bearing.Centre/v.Bearing.Across, loadFactor*dynamicFactor*most/2)
}

// cheek is the stress at a cheek's foot, N/mm², under what its bearings carry, that of
// the pivot and that of the second shaft: along the plate, in its plane, and across,
// since the balls stand beside it. A pull along the grip bends both cheeks. The rib
// between them is left out.
func (r *rig) cheek(pivot, second r2.Vec) float64 {
	thick, long := r.thick(anOuterCheek), r.v.Bearing.Long
	beside := thick/2 + r.v.Bearing.Centre
	high := -r3.Dot(r.from(aSole), r.normal) - r.thick(aSole)
	up := r2.Vec{X: r3.Dot(r.normal, r.forward), Y: r3.Dot(r.normal, r.above)}
	foot := r2.Scale(-high, up)
	load := r2.Dot(r2.Add(pivot, second), up)
	within := r2.Cross(r2.Sub(r2.Vec{}, foot), pivot) + r2.Cross(r2.Sub(r.centre(), foot), second)
	across := math.Abs(load)*beside + gripPull/2*high
	return math.Abs(load)/(long*thick) + math.Abs(within)/(thick*long*long/6) + flat(across, long, thick)
}

// bars screens what a lever or a linkage adds: welds of bars on hubs, and pins.
func (s *Screen) bars(r *rig, l *burden, out *screening) {
	weld, torque := r.weld(aLever, aLeverCollar), l.level
	if r.index[anInputBar] >= 0 {
		weld = r.weld(anInputBar, anInputCollar)
		var force float64
		for k := range l.angles {
			torque = max(torque, l.at[k].driven)
			force = max(force, r2.Norm(l.at[k].onSecond[0].f))
		}
		if p := r.part(anInputPin); p != nil {
			lever := r.planes.Coupler - r.planes.Input - r.v.BarThick/2
			bent := beam{strong: dynamicFactor * force * lever}
			out.value[couplerPins] = loadFactor * bent.round(p.Stock.Size[0], 0) / s.Steel.Yield
		}
	}
	if weld.Run > 0 {
		out.size[barWelds] = weld.Throat
		out.value[barWelds] = s.welded(loadFactor*beam{twist: dynamicFactor * torque}.circle(weld.Run), weld.Throat)
	}
}
