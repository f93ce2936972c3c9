package screen

import (
	"math"

	"armwright/geometry/balance"
	"armwright/geometry/cable"
	"armwright/geometry/station"
	"armwright/geometry/station/values"
	"armwright/solver/drive"
	"armwright/solver/seat"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// burden is the working loads of a station's right side, the left one's mirrored: an
// arm alone loads its own post, bracket and shafts as both do.
type burden struct {
	foot    governed // what the post carries at its foot, the worst
	bracket governed // what the swivel bracket carries, the worst
	hand    struct {
		who                  int
		force, torque, reach float64 // the greatest ones of one hand; distance from the axis
	}
	level  float64 // greatest torque of the heaviest load, one arm
	angles int
	at     [mostAngles]moment
}

// governed is the worst wrench of its kind and whose it is.
type governed struct {
	wrench
	who   int
	worst float64
}

// mostAngles is how many angles of the loaded range are looked at: 180 degrees in the
// steps of the grid. Of a finer grid it takes every second one, and so on.
const mostAngles = 37

// moment is one angle of the loaded range under the heaviest load, in the plane across
// the middle axis position.
type moment struct {
	sin, cos, shape float64
	hand            r2.Vec // direction of the hand's force
	onArm, onSecond [2]planar
	drive           wrench  // of cable or plates on the bracket
	driven          float64 // torque between the second shaft's wheel, or bar, and its load
}

// planar is a force across a shaft, outward by w, N.
type planar struct {
	f r2.Vec
	w float64
}

// loads finds the worst loads over the boundary persons and angles.
func (s *Screen) loads(r *rig, sat []seat.Person, d *drive.State, l *burden) {
	l.level = d.Level
	l.foot.who, l.bracket.who, l.hand.who = -1, -1, -1
	stride := (len(s.Angles) + mostAngles - 1) / mostAngles
	for k := 0; k < len(s.Angles); k += stride {
		m := &l.at[l.angles]
		m.sin, m.cos, m.shape = s.Sin[k], s.Cos[k], s.Shape[k]
		sin, cos := math.Sincos(s.Angles[k] + r.arm)
		m.hand = r2.Vec{X: -sin, Y: cos}
		h := 0.0
		if k < len(d.MomentArm) {
			h = d.MomentArm[k]
		}
		s.driven(r, d, s.Angles[k], h, m)
		l.angles++
	}

	// Places from the pivot.
	foot := r.from(aPost)
	sole := r3.Add(r.from(aSole), r3.Scale(r.planes.Bearings, r.axis))
	support := (r.v.Rest.Near + r.v.Rest.Far) / 2
	weight := r.weight()
	padFoot := r3.Scale(-1, r3.Cross(r3.Sub(r3.Scale(support, r.up), foot), r.normal))
	weightFoot, weightSole := weight.about(foot), weight.about(sole)
	var driveFoot, driveSole [mostAngles]r3.Vec
	for k := range l.angles {
		driveFoot[k], driveSole[k] = l.at[k].drive.about(foot), l.at[k].drive.about(sole)
	}
	sec := &s.Member
	twist := 1 / (2 * (sec.B - sec.T) * (sec.H - sec.T) * sec.T)
	footAt, soleAt := 0, 0
	grip := r.planes.GripMiddle
	for i := range sat {
		p := &sat[i]
		peak := min(p.Person.ElbowStrength(), l.level)
		reach := p.Body.Forearm
		if f := peak / reach; f > l.hand.force {
			l.hand.force, l.hand.who = f, i
		}
		l.hand.torque = max(l.hand.torque, peak)
		l.hand.reach = max(l.hand.reach, reach)

		part := 0.0 // of the heaviest load
		if l.level > 0 {
			part = peak / l.level
		}
		// Of a force F at the hand, R from the axis: the moment about a place d from
		// the hand's plane is F (d × (n cos − v sin) + R a). The pad's force goes with it
		// and is linear in the cosine of flexion.
		axis, down, rise := r.swung(r.v.Axes[p.Axis])
		hand := r3.Scale(grip, axis)
		eq := balance.Seated{UpperArm: p.Body.UpperArm, Support: support, Reach: reach, Load: 2}
		pad0 := eq.PadForce(0) / 2
		pad1 := eq.PadForce(1)/2 - pad0
		d := r3.Sub(hand, foot)
		fc, fs := r3.Add(r3.Cross(d, rise), r3.Scale(pad1, padFoot)), r3.Cross(d, down)
		f1 := r3.Add(r3.Scale(reach, axis), r3.Scale(pad0, padFoot))
		d = r3.Sub(hand, sole)
		bc, bs, b1 := r3.Cross(d, rise), r3.Cross(d, down), r3.Scale(reach, axis)
		for k := range l.angles {
			m := &l.at[k]
			force := peak * m.shape / reach
			c, n := force*m.cos, force*m.sin
			drive := &driveFoot[k]
			x := c*fc.X - n*fs.X + force*f1.X + part*drive.X + weightFoot.X
			y := c*fc.Y - n*fs.Y + force*f1.Y + part*drive.Y + weightFoot.Y
			z := c*fc.Z - n*fs.Z + force*f1.Z + part*drive.Z + weightFoot.Z
			normal := math.Abs(y)/sec.Wx + math.Abs(x)/sec.Wy
			if worst := normal*normal + 3*twist*twist*z*z; worst > l.foot.worst {
				l.foot.worst, l.foot.who, footAt = worst, i, k
			}
			drive = &driveSole[k]
			x = c*bc.X - n*bs.X + force*b1.X + part*drive.X + weightSole.X
			y = c*bc.Y - n*bs.Y + force*b1.Y + part*drive.Y + weightSole.Y
			z = c*bc.Z - n*bs.Z + force*b1.Z + part*drive.Z + weightSole.Z
			if worst := x*x + y*y + z*z; worst > l.bracket.worst {
				l.bracket.worst, l.bracket.who, soleAt = worst, i, k
			}
		}
	}
	if l.foot.who >= 0 {
		l.foot.wrench = s.lifting(r, &sat[l.foot.who], l, footAt, true)
	}
	if l.bracket.who >= 0 {
		l.bracket.wrench = s.lifting(r, &sat[l.bracket.who], l, soleAt, false)
	}
}

// lifting is what a person who lifts puts on the bracket, at one angle, or on bracket
// and pad together: hand, drive and weight.
func (s *Screen) lifting(r *rig, p *seat.Person, l *burden, k int, withPad bool) wrench {
	m := &l.at[k]
	peak := min(p.Person.ElbowStrength(), l.level)
	force := peak * m.shape / p.Body.Forearm
	axis, down, rise := r.swung(r.v.Axes[p.Axis])
	in := func(along, across float64) r3.Vec { return r3.Add(r3.Scale(along, down), r3.Scale(across, rise)) }
	at := r3.Add(r3.Scale(r.planes.GripMiddle, axis), r3.Scale(p.Body.Forearm, in(m.cos, m.sin)))
	w := push(at, r3.Scale(force, in(-m.sin, m.cos))).plus(r.weight())
	if l.level > 0 {
		w = w.plus(m.drive.times(peak / l.level))
	}
	if !withPad {
		return w
	}
	eq := balance.Seated{UpperArm: p.Body.UpperArm, Support: (r.v.Rest.Near + r.v.Rest.Far) / 2, Reach: p.Body.Forearm, Load: 2 * force}
	return w.plus(push(r3.Scale(eq.Support, r.up), r3.Scale(-eq.PadForce(m.cos)/2, r.normal)))
}

// driven fills in what the heaviest load puts on the shafts at an angle where the
// cable has the moment arm h.
func (s *Screen) driven(r *rig, d *drive.State, theta, h float64, m *moment) {
	v, p := r.v, &r.planes
	centre := r.centre()
	plates := func(mass, across float64) planar {
		half := 0.0
		if mass > 0 {
			half = r.platesThick() / 2
		}
		return planar{r2.Scale(mass, r.falling()), across + half}
	}
	switch v.Drive {
	case values.CamDrive:
		contact, line := r.cable(theta)
		pull := planar{r2.Scale(d.HeavyTension, line), p.Cam}
		m.drive = push(r.across(r2.Add(centre, contact), p.Cam), r.across(pull.f, 0))
		if !v.Geared() {
			m.onArm[0] = pull
			return
		}
		// The loaded side of chain or belt runs beside the line of centres.
		chain := r2.Scale(d.HeavyTension*h/(v.Cam.DrivenWheel/2), r2.Unit(centre))
		m.onArm[0] = planar{chain, p.Wheel}
		m.onSecond = [2]planar{{r2.Scale(-1, chain), p.Wheel}, pull}
		m.driven = d.HeavyTension * h
	case values.LeverDrive:
		w := plates(v.Lever.Plates.Mass, p.Plates)
		sin, cos := math.Sincos(theta + v.Lever.Phase)
		m.onArm[0] = w
		m.drive = push(r.across(r2.Vec{X: v.Lever.Radius * cos, Y: v.Lever.Radius * sin}, w.w), r.across(w.f, 0))
	case values.LinkageDrive:
		pose, err := v.Linkage.Train.At(theta)
		if err != nil {
			return
		}
		w := plates(v.Linkage.Plates.Mass, p.Plates)
		// The coupler's force balances the plates about the output shaft.
		along := r2.Unit(r2.Sub(pose.Joint, pose.Pin))
		m.driven = math.Abs(r2.Cross(r2.Sub(pose.Plates, pose.Shaft), w.f))
		f := r2.Scale(-r2.Cross(r2.Sub(pose.Plates, pose.Shaft), w.f)/r2.Cross(r2.Sub(pose.Joint, pose.Shaft), along), along)
		m.onArm[0] = planar{r2.Scale(-1, f), p.Coupler}
		m.onSecond = [2]planar{{f, p.Coupler}, w}
		m.drive = push(r.across(pose.Plates, w.w), r.across(w.f, 0))
	}
}

// platesThick is the thickness of the plates together, mm.
func (r *rig) platesThick() float64 {
	if r.v.Drive == values.LeverDrive {
		return station.PileThickness(&r.v.Lever.Plates)
	}
	return station.PileThickness(&r.v.Linkage.Plates)
}

// cable is where the cable leaves the cam at an angle, from the cam's axis, and its
// direction toward the guide sheave: between the angles at which it is told, in
// proportion. No direction where the guide is not reached.
func (r *rig) cable(theta float64) (contact, line r2.Vec) {
	lines := &r.v.Tower.Cable.Line
	x := (cable.Lines - 1) * (theta - r.v.First) / (r.v.Last - r.v.First)
	i := max(0, min(cable.Lines-2, int(x)))
	x -= float64(i)
	mix := func(a, b r2.Vec) r2.Vec { return r2.Add(r2.Scale(1-x, a), r2.Scale(x, b)) }
	contact = mix(lines[i].Contact, lines[i+1].Contact)
	line = r2.Sub(mix(lines[i].Leave, lines[i+1].Leave), contact)
	if n := r2.Norm(line); n > 0 {
		line = r2.Scale(1/n, line)
	}
	return contact, line
}
