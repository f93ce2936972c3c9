package fit

import (
	"math"

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
	padWidth   = 120.0 // of a reclined station's stop pad, and the least of an arm pad
	padWidest  = 260.0 // of an arm pad
	padStart   = 155.0 // of an arm pad, where the search begins: about what arms ask for
	padShort   = 100.0 // least length of an arm pad, less bears on a third of an upper arm at most: judgement, no source
	seatDepth  = 340.0 // a deeper one cuts into the calves of the short
	seatWidth  = 360.0
	stopLong   = 140.0             // stop pad of the reclined posture
	backLong   = 960.0             // carries the head of a tall man
	postAhead  = 50.0              // of a reclined station's seat post before the seat's middle: the back's strut comes down behind it
	towerInset = 120.0             // tower from the rear end of the base
	mostAngle  = 45 * specs.Degree // of toe and cant, as a frame's file has them
	steepest   = 84 * specs.Degree // of a rest that post or stub can carry
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
	}
	if s.Reclined() {
		v = append(v,
			Variable{"back angle", &g.Back.Angle, p.BackAngle.From, p.BackAngle.To, 5 * specs.Degree},
			Variable{"back foot", &g.Back.Foot, -300, 400, 30},
			Variable{"arm slope", &g.Pad.Slope, min(p.ArmAngle.From, steepest), min(p.ArmAngle.To, steepest), 5 * specs.Degree},
			Variable{"pivot post", &g.Base.PadPost, -500, -60, 30})
	} else {
		v = append(v,
			Variable{"pad offset", &g.Pad.Offset, 30, 90, 5},
			Variable{"pad slope", &g.Pad.Slope, p.PadSlope.From, p.PadSlope.To, 5 * specs.Degree},
			Variable{"pad length", &g.Pad.Far, padNear + padShort, 300, 20},
			Variable{"pad width", &g.Pad.Width, padWidth, padWidest, 10},
			Variable{"seat front", &g.Seat.Front, -500, 300, 30},
			Variable{"pivot post", &g.Base.PadPost, -400, 100, 30})
		if g.Cam != nil || s.Asked.Resistance.Drive == "cam" {
			v = append(v, Variable{"tower", &g.Base.Tower, 200, sp.Length, 50})
		}
	}
	for i := range g.Pivots.Swivels {
		v = append(v, Variable{"swivel", &g.Pivots.Swivels[i], -40 * specs.Degree, 50 * specs.Degree, 2 * specs.Degree})
	}
	return v
}

// derive sets what follows from the variables: the axis positions lie in the pad's
// plane, so that one flat plate with holes holds them all, and the base is as wide as
// the posts that carry the bearings.
func (s *Program) derive(g *specs.Geometry) {
	sn, cs := math.Sincos(g.Pad.Slope)
	up := r3.Vec{X: -cs, Z: sn}
	for i, t := range g.Pivots.Swivels {
		st, ct := math.Sincos(t)
		a := specs.AxisOf(r3.Add(r3.Vec{Y: -ct}, r3.Scale(st, up)))
		g.Pivots.Axes[i] = specs.Axis{Toe: max(-mostAngle, min(mostAngle, a.Toe)), Cant: max(-mostAngle, min(mostAngle, a.Cant))}
	}
	s.ChestFor(g)
	g.Base.Width = s.BaseWidth(g)
	g.Base.SeatPost = g.Seat.Front - g.Seat.Depth/2
	if s.Reclined() {
		g.Seat.Front = g.Back.Foot + g.Seat.Depth
		g.Base.SeatPost = g.Seat.Front - g.Seat.Depth/2 + postAhead
		g.Base.Tower = g.Base.Rear + towerInset // behind the back: the legs are in front
	}
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
		Pad:  &specs.Pad{Offset: arm, Near: padNear, Far: 180, Width: padStart},
		Seat: &specs.Seat{Pitch: p.SeatPitch, Positions: p.SeatPositions, Depth: seatDepth, Width: seatWidth, Lowest: 420},
		Base: &specs.Base{Width: 700},
	}
	g.Seat.Lowest += s.ground()
	s.EveryStep(g)
	g.Pivots.Spacing = math.Max(p.PivotSpacing.From, math.Min(p.PivotSpacing.To, 2*half+60))
	if s.Reclined() {
		g.Back = &specs.Back{Angle: mid(p.BackAngle), Length: backLong}
		g.Pad.Width = padWidth
		g.Pad.Slope = min(steepest, p.ArmAngle.To, max(p.ArmAngle.From, 68*specs.Degree))
		g.Pad.Far = padNear + stopLong
		sn, cs := math.Sincos(g.Back.Angle)
		g.Pivots.Height = g.Seat.Lowest + b.Hip + b.Trunk*cs - b.UpperArm*math.Sin(g.Pad.Slope)
		g.Back.Foot = -b.UpperArm*math.Cos(g.Pad.Slope) + b.Trunk*sn - b.Behind
		g.Base.PadPost, g.Base.Rear, g.Base.Front = -300, -800, 800
	} else {
		g.Pad.Slope = math.Max(p.PadSlope.From, math.Min(p.PadSlope.To, 38*specs.Degree))
		g.Pivots.Height = g.Seat.Lowest + 60 + b.Hip + b.Trunk*math.Cos(10*specs.Degree) - b.UpperArm*math.Sin(g.Pad.Slope)
		g.Seat.Front = -b.UpperArm*math.Cos(g.Pad.Slope) - b.Trunk*math.Sin(10*specs.Degree) + 140
		g.Base.PadPost, g.Base.Rear, g.Base.Front, g.Base.Tower = -150, -600, 900, 750
	}
	// The axis positions share the people's needs out evenly: the axis in the
	// pad's plane, turned by tilt and abduction from the horizontal across it.
	g.Pivots.Swivels, g.Pivots.Axes = s.shareOut(g, n), make([]specs.Axis, n)
	s.confine(g)
	return g
}

// shareOut are the turns of n axis positions, in the pad's plane, that share the boundary
// persons' needs out evenly.
func (s *Program) shareOut(g *specs.Geometry, n int) []float64 {
	lo, hi := math.Inf(1), math.Inf(-1)
	for i := range s.Bodies {
		need := s.need(g, i)
		lo, hi = math.Min(lo, need), math.Max(hi, need)
	}
	turns := make([]float64, n)
	for i := range turns {
		turns[i] = lo + (hi-lo)*(float64(i)+0.5)/float64(n)
	}
	return turns
}

// ground is the height that everybody's feet stand above: the floor, or the lowest
// position of a foot plate, which leaves no room below it for anybody's feet.
func (s *Program) ground() float64 {
	if !s.HasSteps() {
		return 0
	}
	return s.LeastStep()
}

// resume returns a geometry to begin from that stands where a station solved
// earlier does, with the brief's own positions of the seat and inside the
// brief's ranges.
func (s *Program) resume(from *specs.Geometry) *specs.Geometry {
	g := judge.Clone(from)
	p := s.Asked.Posture
	g.Seat.Pitch, g.Seat.Positions = p.SeatPitch, p.SeatPositions
	g.Base.TowerTall = 0 // as tall as it must be
	s.EveryStep(g)
	g.Pivots.Swivels = g.Pivots.Swivels[:0]
	sn, cs := math.Sincos(g.Pad.Slope)
	for _, a := range drive.NewMachine(g).Axes {
		g.Pivots.Swivels = append(g.Pivots.Swivels, math.Atan2(r3.Dot(a, r3.Vec{X: -cs, Z: sn}), -a.Y))
	}
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
