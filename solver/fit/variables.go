package fit

import (
	"math"

	"armwright/solver/build"
	"armwright/solver/drive"
	"armwright/solver/judge"
	"armwright/specs"

	"gonum.org/v1/gonum/spatial/r3"
)

// Variable is one continuous design variable: where it lives and how far it
// may go. Scale is the change that counts as one.
type Variable struct {
	Name      string
	at        *float64
	low, high float64
	scale     float64
}

// Own choices of sizes that are not solved, mm and kg.
const (
	padNear    = 40.0  // the elbow itself hangs free of the pad
	padWidth   = 120.0 // a 95th percentile upper arm is 133 across
	seatDepth  = 400.0
	seatWidth  = 360.0
	stopLong   = 140.0 // stop pad of the reclined posture
	backLong   = 960.0 // carries the head of a tall man
	towerInset = 100.0 // tower axis behind the front feet
	postSpace  = 150.0 // between seat post and pivot post
)

// Variables lists the continuous design variables of a geometry. The pointers
// are into g.
func (s *Program) Variables(g *specs.Geometry) []Variable {
	p := s.Asked.Posture
	sp := s.Asked.Space
	v := []Variable{
		{"pivot height", &g.Pivots.Height, p.PivotHeight.From, p.PivotHeight.To, 50},
		{"pivot spacing", &g.Pivots.Spacing, p.PivotSpacing.From, p.PivotSpacing.To, 20},
		{"seat lowest", &g.Seat.Lowest, 200, 900, 30},
		{"base rear", &g.Base.Rear, -sp.Length, -150, 100},
		{"base front", &g.Base.Front, 150, sp.Length, 100},
		{"base width", &g.Base.Width, 400, sp.Width, 50},
	}
	if s.Reclined() {
		v = append(v,
			Variable{"back angle", &g.Back.Angle, p.BackAngle.From, p.BackAngle.To, 5 * specs.Degree},
			Variable{"back foot", &g.Back.Foot, -300, 400, 30},
			Variable{"pivot post", &g.Base.PadPost, -450, s.postAhead(), 30})
	} else {
		v = append(v,
			Variable{"pad offset", &g.Pad.Offset, 30, 90, 5},
			Variable{"pad slope", &g.Pad.Slope, p.PadSlope.From, p.PadSlope.To, 5 * specs.Degree},
			Variable{"pad length", &g.Pad.Far, padNear + 80, 300, 20},
			Variable{"seat front", &g.Seat.Front, -500, 300, 30},
			Variable{"pivot post", &g.Base.PadPost, -100, 400, 30})
	}
	for i := range g.Pivots.Axes {
		a := &g.Pivots.Axes[i]
		v = append(v,
			Variable{"toe", &a.Toe, -30 * specs.Degree, 40 * specs.Degree, 2 * specs.Degree},
			Variable{"cant", &a.Cant, -30 * specs.Degree, 40 * specs.Degree, 2 * specs.Degree})
	}
	return v
}

// postAhead is the foremost place of a reclined station's pivot posts: behind
// the hanging arms, and behind the plates of a lever.
func (s *Program) postAhead() float64 {
	switch s.Asked.Resistance.Drive {
	case "lever":
		return -build.PlateRim - s.Member.H
	case "linkage": // the output shaft's bearings stand before the post
		return -drive.BarGround - drive.BearingHalf - s.Member.H/2
	}
	return -100
}

// derive sets what follows from the variables.
func (s *Program) derive(g *specs.Geometry) {
	if s.Reclined() {
		g.Seat.Front = g.Back.Foot + seatDepth
		g.Base.Tower = g.Base.Front
	} else {
		g.Base.Tower = g.Base.Front - towerInset
	}
	g.Base.SeatPost = g.Seat.Front - g.Seat.Depth/2
}

// sanity appends what the parts themselves ask, in mm, positive when met:
// posts stand inside the base and not in each other's place.
func (s *Program) sanity(g *specs.Geometry, c []float64) []float64 {
	side := s.Member.H
	c = append(c,
		g.Base.SeatPost-g.Base.Rear-side,
		g.Base.Front-g.Base.PadPost-2*side)
	if s.Reclined() {
		c = append(c, g.Base.PadPost-g.Base.Rear-side)
		return append(c, g.Base.Width/2-s.Layout(g).BearingPlane()-g.Pivots.Spacing/2-side/2)
	}
	return append(c,
		g.Base.PadPost-g.Base.SeatPost-postSpace,
		g.Base.Width-2*s.Layout(g).TowerHalf()-2*side)
}

// sanityRows is the length of what sanity appends.
func (s *Program) sanityRows() int {
	return 4
}

// begin returns a first geometry: the middle person at the middle of every
// range. n is the number of axis positions.
func (s *Program) begin(n int) *specs.Geometry {
	mid := func(r specs.Range) float64 { return (r.From + r.To) / 2 }
	p := s.Asked.Posture
	b := s.Bodies[0]
	var arm, half float64
	for i := range s.Bodies {
		arm += s.Bodies[i].ArmHalf / float64(len(s.Bodies))
		half += s.Bodies[i].ShoulderHalf / float64(len(s.Bodies))
	}
	g := &specs.Geometry{
		Pad:  &specs.Pad{Offset: arm, Near: padNear, Far: 180, Width: padWidth},
		Seat: &specs.Seat{Pitch: p.SeatPitch, Positions: p.SeatPositions, Depth: seatDepth, Width: seatWidth, Lowest: 420},
		Base: &specs.Base{Width: 700},
	}
	s.EveryStep(g)
	g.Pivots.Spacing = math.Max(p.PivotSpacing.From, math.Min(p.PivotSpacing.To, 2*half+60))
	if s.Reclined() {
		g.Back = &specs.Back{Angle: mid(p.BackAngle), Length: backLong}
		g.Pad.Slope = mid(p.ArmAngle)
		g.Pad.Far = padNear + stopLong
		sn, cs := math.Sincos(g.Back.Angle)
		g.Pivots.Height = g.Seat.Lowest + b.Hip + b.Trunk*cs - b.UpperArm*math.Sin(g.Pad.Slope)
		g.Back.Foot = -b.UpperArm*math.Cos(g.Pad.Slope) + b.Trunk*sn - b.Behind
		g.Base.PadPost, g.Base.Rear, g.Base.Front = -300, -700, 800
	} else {
		g.Pad.Slope = math.Max(p.PadSlope.From, math.Min(p.PadSlope.To, 38*specs.Degree))
		g.Pivots.Height = g.Seat.Lowest + 60 + b.Hip + b.Trunk*math.Cos(10*specs.Degree) - b.UpperArm*math.Sin(g.Pad.Slope)
		g.Seat.Front = -b.UpperArm*math.Cos(g.Pad.Slope) - b.Trunk*math.Sin(10*specs.Degree) + 200
		g.Base.PadPost, g.Base.Rear, g.Base.Front = 60, -600, 800
	}
	s.derive(g)
	// The axis positions share the people's needs out evenly: the axis in the
	// pad's plane, turned by tilt and abduction from the horizontal across it.
	lo, hi := math.Inf(1), math.Inf(-1)
	for i := range s.Bodies {
		need := s.need(g, i)
		lo, hi = math.Min(lo, need), math.Max(hi, need)
	}
	up := r3.Vec{X: -math.Cos(g.Pad.Slope), Z: math.Sin(g.Pad.Slope)}
	for i := range n {
		t := lo + (hi-lo)*(float64(i)+0.5)/float64(n)
		st, ct := math.Sincos(t)
		g.Pivots.Axes = append(g.Pivots.Axes, specs.AxisOf(r3.Add(r3.Vec{Y: -ct}, r3.Scale(st, up))))
	}
	s.confine(g)
	return g
}

// resume returns a geometry to begin from that stands where a station solved
// earlier does, with the brief's own positions of the seat and inside the
// brief's ranges.
func (s *Program) resume(from *specs.Geometry) *specs.Geometry {
	g := judge.Clone(from)
	p := s.Asked.Posture
	g.Seat.Pitch, g.Seat.Positions = p.SeatPitch, p.SeatPositions
	s.EveryStep(g)
	s.confine(g)
	return g
}

// confine brings every variable into its range.
func (s *Program) confine(g *specs.Geometry) {
	for _, v := range s.Variables(g) {
		*v.at = math.Max(v.low, math.Min(v.high, *v.at))
	}
	s.derive(g)
}

// need is the angle, in the pad's plane, of a person's elbow axis to the
// horizontal across the pad: tilt of the hinge plus abduction.
func (s *Program) need(g *specs.Geometry, i int) float64 {
	b := s.Bodies[i]
	return b.Hinge.Tilt + math.Asin(math.Max(-1, math.Min(1, (g.Pivots.Spacing/2-b.ShoulderHalf)/b.UpperArm)))
}
