package elbow

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// Turning is a hand's path, seen from a machine axis, of an arm whose humerus may
// turn about its own length while it lifts. The turn carries the hand along an arc
// about the line from elbow to shoulder, most where the elbow is square and not at
// all where it is straight; at every flexion the arm takes the turn that brings
// the hand nearest to the handle. All in one frame, mm; Axis and Proximal are unit
// vectors.
type Turning struct {
	Path            Path
	Elbow, Proximal r3.Vec  // elbow centre, and from it towards the shoulder
	Pivot, Axis     r3.Vec  // of the machine
	Most            float64 // turn either way, rad, 0 to a quarter circle
}

// Mismatch is the handle setting, free in radius and along the axis, that makes the
// largest distance between hand and handle least while the humerus turns. It is
// reached from the setting of the still arm, whose points, as Seen gives them, are
// handed in: the hands nearest to the handle are taken for given, the handle is set
// to the middle of the smallest circle round them or, while that helps, twice as far
// that way, and so on. Where two hands hold the handle between them it goes along the
// places as far from the one as from the other first: to where they are nearest, by
// Newton's step, but not farther than such steps have helped. No step makes the distance
// larger, and where none makes it smaller the handle lies amid the hands that are
// farthest, which is what the best setting is known by; arcs are flat enough at small
// turns for that to be the only one. It ends when a step brings less than settled. Near
// is memory for as many points, which it returns.
func (t *Turning) Mismatch(still, near []AxisPoint, sin, cos []float64) (Setting, Deviation, []AxisPoint) {
	best, dev := Mismatch(still)
	if t.Most == 0 {
		return best, dev, near
	}
	near = t.Nearest(near[:0], best, sin, cos)
	dev = MismatchAt(near, best)
	reach := 1.0 // mm
	for range mostSteps {
		from, before := best, dev.Max
		try := func(next Setting) bool {
			near = t.Nearest(near[:0], next, sin, cos)
			d := MismatchAt(near, next)
			if !(d.Max < dev.Max) { // nor where a step has no number
				return false
			}
			best, dev = next, d
			return true
		}
		to, _ := Mismatch(near)
		next, ok := t.between(from, to, near, sin, cos, reach)
		if ok && try(next) {
			reach *= 4
		} else {
			reach /= 8
			for far := 1.0; try(Setting{from.Radius + far*(to.Radius-from.Radius), from.Axial + far*(to.Axial-from.Axial)}); far *= 2 {
			}
			near = t.Nearest(near[:0], best, sin, cos)
		}
		if before-dev.Max < settled {
			break
		}
	}
	return best, dev, near
}

const (
	settled   = 1e-6 // mm
	mostSteps = 100  // four to ten are usual
	bendStep  = 1e-2 // mm, over which a distance's slope is seen to change
)

// between is a step from a setting for the two hands that are farthest from the middle
// of the circle round all: along the line of places that are as far from the one as from
// the other, to where that is least but no farther than reach, mm.
func (t *Turning) between(from, middle Setting, near []AxisPoint, sin, cos []float64, reach float64) (Setting, bool) {
	var far [2]int
	var most [2]float64
	for i, p := range near {
		switch d := square(p, AxisPoint{middle.Radius, middle.Axial}); {
		case d > most[0]:
			far[1], most[1], far[0], most[0] = far[0], most[0], i, d
		case d > most[1]:
			far[1], most[1] = i, d
		}
	}
	if !(most[1] > 0) {
		return from, false
	}
	// apart is the distance of each of the two hands from a handle, and its slopes.
	apart := func(s r2.Vec) (slope [2]r2.Vec, d [2]float64) {
		for k, i := range far {
			a := t.arc(sin[i], cos[i])
			p := a.at(a.nearest(Setting{s.X, s.Y}, t.Most))
			v := r2.Sub(s, r2.Vec{X: p.Radial, Y: p.Axial})
			d[k] = r2.Norm(v)
			slope[k] = r2.Scale(1/d[k], v)
		}
		return slope, d
	}
	at := r2.Vec{X: from.Radius, Y: from.Axial}
	u, _ := apart(at)
	across := r2.Sub(u[0], u[1])
	wide := r2.Norm2(across)
	share := -r2.Dot(across, u[1]) / wide // of the first in what holds the handle
	if !(share > 0 && share < 1) {
		return from, false
	}
	along := r2.Scale(1/math.Sqrt(wide), r2.Vec{X: -across.Y, Y: across.X})
	slopeOf := func(u [2]r2.Vec) float64 { return share*r2.Dot(along, u[0]) + (1-share)*r2.Dot(along, u[1]) }
	on, _ := apart(r2.Add(at, r2.Scale(bendStep, along)))
	slope := slopeOf(u)
	length := math.Copysign(reach, -slope)
	if bend := (slopeOf(on) - slope) / bendStep; bend > 0 {
		length = math.Max(-reach, math.Min(reach, -slope/bend))
	}
	at = r2.Add(at, r2.Scale(length, along))
	for range 3 { // back onto the line, which is bent
		u, d := apart(at)
		across := r2.Sub(u[0], u[1])
		at = r2.Add(at, r2.Scale((d[1]-d[0])/r2.Norm2(across), across))
	}
	return Setting{at.X, at.Y}, true
}

// Nearest appends to points where the hand is nearest to a handle set at s, at each
// flexion. What MismatchAt says of them is how far hand and handle part.
func (t *Turning) Nearest(points []AxisPoint, s Setting, sin, cos []float64) []AxisPoint {
	for i := range sin {
		a := t.arc(sin[i], cos[i])
		points = append(points, a.at(a.nearest(s, t.Most)))
	}
	return points
}

// Hold is the setting at a handle's radius, between two places along the axis, that
// makes the largest distance least: the best of a row of places, narrowed down between
// its neighbours by the golden section to held. Where the turn leaves next to nothing
// the distance falls and rises more than once along the axis, and the place may be the
// second best by some hundredths of a millimetre. Near is memory.
func (t *Turning) Hold(near []AxisPoint, radius, low, high float64, sin, cos []float64) (Setting, Deviation, []AxisPoint) {
	var best Setting
	least := Deviation{Max: math.Inf(1)}
	at := func(axial float64) float64 {
		s := Setting{Radius: radius, Axial: axial}
		near = t.Nearest(near[:0], s, sin, cos)
		d := MismatchAt(near, s)
		if d.Max < least.Max {
			best, least = s, d
		}
		return d.Max
	}
	const looks = 4 // more find no better place in all but 2 of 12 000 draws (D)
	step := (high - low) / looks
	for i := range looks + 1 {
		at(low + float64(i)*step)
	}
	low, high = max(low, best.Axial-step), min(high, best.Axial+step)
	const golden = 0.6180339887498949
	inner, outer := high-golden*(high-low), low+golden*(high-low)
	d, e := at(inner), at(outer)
	for high-low > held {
		if d <= e {
			high, outer, e = outer, inner, d
			inner = high - golden*(high-low)
			d = at(inner)
		} else {
			low, inner, d = inner, outer, e
			outer = low + golden*(high-low)
			e = at(outer)
		}
	}
	return best, least, near
}

// held is how near Hold comes to the best place along the axis, mm: what no hand tells
// apart.
const held = 0.02

// arc is where the turn takes the hand at one flexion: its place along the machine
// axis and its distance from the pivot squared are each a constant and a multiple of
// the turn's cosine and sine.
type arc struct {
	axial, reach [3]float64
	straight     bool // the arm, all but
}

// allStraight is the sine of the flexion, 14 degrees, below which an arm counts as all but
// straight: twice of where a second nearest turn was found (D, over 3e5 draws).
const allStraight = 0.25

// arc is the hand's at the flexion with the given sine and cosine.
func (t *Turning) arc(sin, cos float64) arc {
	hand := r3.Sub(t.Path.At(sin, cos), t.Elbow)
	along := r3.Scale(r3.Dot(hand, t.Proximal), t.Proximal)
	out, side := r3.Sub(hand, along), r3.Cross(t.Proximal, hand)
	from := r3.Add(r3.Sub(t.Elbow, t.Pivot), along)
	return arc{
		axial: [3]float64{r3.Dot(t.Axis, from), r3.Dot(t.Axis, out), r3.Dot(t.Axis, side)},
		reach: [3]float64{r3.Dot(from, from) + r3.Dot(out, out), 2 * r3.Dot(from, out), 2 * r3.Dot(from, side)},

		straight: sin < allStraight && cos > 0,
	}
}

// at is the hand's place at a turn.
func (a *arc) at(turn float64) AxisPoint {
	s, c := math.Sincos(turn)
	axial := a.axial[0] + c*a.axial[1] + s*a.axial[2]
	return AxisPoint{Radial: math.Sqrt(math.Max(0, a.reach[0]+c*a.reach[1]+s*a.reach[2]-axial*axial)), Axial: axial}
}

// nearest is the turn, at most so far either way, that brings the hand nearest to a
// handle. Of an arm all but straight there may be two such turns, with a hump between.
func (a *arc) nearest(s Setting, most float64) float64 {
	handle := AxisPoint{s.Radius, s.Axial}
	turn := a.settle(s, most, 0)
	if !a.straight {
		return turn
	}
	near := square(a.at(turn), handle)
	for _, end := range [2]float64{-most, most} {
		if square(a.at(end), handle) < near {
			turn = a.settle(s, most, end)
			near = square(a.at(turn), handle)
		}
	}
	return turn
}

// settle takes Newton's steps on half the squared distance, from a turn on.
func (a *arc) settle(s Setting, most, turn float64) float64 {
	for range 20 {
		sn, cs := math.Sincos(turn)
		axial := a.axial[0] + cs*a.axial[1] + sn*a.axial[2]
		axial1 := cs*a.axial[2] - sn*a.axial[1]
		axial2 := a.axial[0] - axial
		radial := math.Sqrt(a.reach[0] + cs*a.reach[1] + sn*a.reach[2] - axial*axial)
		if !(radial > 0) {
			return turn
		}
		radial1 := ((cs*a.reach[2]-sn*a.reach[1])/2 - axial*axial1) / radial
		radial2 := (-(cs*a.reach[1]+sn*a.reach[2])/2 - axial1*axial1 - axial*axial2 - radial1*radial1) / radial
		slope := (radial-s.Radius)*radial1 + (axial-s.Axial)*axial1
		bend := radial1*radial1 + axial1*axial1 + (radial-s.Radius)*radial2 + (axial-s.Axial)*axial2
		next := turn - slope/bend
		if !(bend > 0) { // nearer either end than here
			next = math.Copysign(most, -slope)
		}
		next = math.Max(-most, math.Min(most, next))
		if math.Abs(next-turn) < 1e-12 {
			return next
		}
		turn = next
	}
	return turn
}
