package screen

import (
	"math"

	"armwright/geometry/assembly"

	"gonum.org/v1/gonum/spatial/r3"
)

// slide is the diameter of the pin that holds a slide, mm.
func (r *rig) slide(a, b place) float64 {
	if j := r.joint(assembly.Slide, a, b); j != nil {
		return j.Detail.Diameter
	}
	return 0
}

// swivel screens how the bracket is held on its post: cheeks, sole, clamp bolts, index
// plate.
func (s *Screen) swivel(r *rig, l *burden, out *screening) {
	v, p, yield := r.v, &r.planes, s.Steel.Yield
	load := l.bracket.wrench
	cheek := r.thick(anInnerCheek)
	foot := v.Bearing.Long / 2 // of the cheeks, half their length

	// On the sole's face, at the middle of the bearings.
	face := r3.Add(r.from(aSole), r3.Scale(p.Bearings, r.axis))
	mo := load.about(face)
	over, about := math.Abs(r3.Dot(mo, r.down)), math.Abs(r3.Dot(mo, r.axis)) // over the edges outside, and before and behind
	lift := max(0, r3.Dot(load.f, r.normal))
	slide := math.Hypot(r3.Dot(load.f, r.down), r3.Dot(load.f, r.axis))
	apart := p.OuterCheek - p.InnerCheek
	edge := (apart + cheek) / 2

	// The plate presses on an edge of the cheeks' foot. Over the edges outside both bolts
	// hold it, each with what the sole bears in bending there; before or behind, one does.
	rear, front, pin := r.bolts()
	swivel := r.joint(assembly.Swivel, aSole, anIndexPlate)
	if swivel == nil {
		return
	}
	places := [2]float64{rear.X, front.X}
	bears, beyond, pull := 0.0, 0.0, 0.0
	for _, x := range places {
		bears += 1 / max(1, math.Abs(x)-foot)
		held := about / (math.Abs(x) + foot)
		beyond = max(beyond, held*(math.Abs(x)-foot))
		pull = max(pull, held)
	}
	pull += over/edge/2 + lift/2
	beyond += (over/edge + lift) / bears
	turn := math.Abs(r3.Dot(load.m, r.normal)) // about the swivel line
	out.size[clampBolts], out.size[indexPinShear] = swivel.Detail.Thread, swivel.Detail.Diameter
	out.value[clampBolts] = bolt(swivel.Detail.Thread, loadFactor*pull, loadFactor*slide/2)
	out.value[indexPinShear] = sheared(loadFactor*turn/math.Hypot(pin.X, pin.Y), swivel.Detail.Diameter, 1, r.thick(anIndexPlate), yield)
	wide := apart + cheek // of both plates, what stands past the cheeks left out
	out.value[soleBent] = loadFactor * flat(beyond, wide, r.thick(aSole)) / yield

	// The index plate reaches out from the post to the bolts. Where the cheeks do not
	// stand over the post, it is twisted between them together with the sole.
	if j := r.joint(assembly.Weld, anIndexPlate, r.carrier()); j != nil {
		top := r3.Sub(j.At, r.pivot)
		sin, cos := math.Sincos(v.Rest.Slope)
		half := v.Member.Height / 2 / cos
		if v.Reclined {
			half = v.Member.Height / 2 / sin
		}
		at := -r3.Dot(top, r.up) // of the post, down the pad
		bent, twisted := 0.0, 0.0
		for _, x := range places {
			bent = max(bent, about/(math.Abs(x)+foot)*(math.Abs(x-at)-half))
		}
		if math.Abs(at) > half {
			twisted = over
		}
		thick := r.thick(anIndexPlate)
		shear := twisted / (2 * wide * thick * thick / 3)
		bending := flat(bent, wide, thick)
		out.value[indexBent] = loadFactor * math.Sqrt(bending*bending+3*shear*shear) / yield
		b := load.section(top, r.normal, r.up)
		out.size[indexWeld] = j.Detail.Throat
		out.value[indexWeld] = s.welded(loadFactor*b.ring(2*half, v.Member.Width), j.Detail.Throat)
	}

	// Each cheek carries a half; over the edges the two pull and press.
	weld := r.weld(anInnerCheek, aSole)
	out.size[cheekWeld] = weld.Throat
	if weld.Run > 0 {
		normal := (over/apart+lift/2)/weld.Run + about/2*6/(weld.Run*weld.Run)
		out.value[cheekWeld] = s.welded(loadFactor*math.Hypot(normal, slide/2/weld.Run), weld.Throat)
	}
}
