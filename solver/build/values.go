package build

import (
	"math"
	"slices"

	"armwright/geometry/cable"
	"armwright/geometry/contour"
	"armwright/geometry/solid"
	"armwright/geometry/station"
	"armwright/geometry/station/values"
	"armwright/solver/drive"
	"armwright/specs"
	"armwright/specs/stock"

	"gonum.org/v1/gonum/spatial/r2"
)

// Own choices of construction, mm.
const (
	guardThick = 1.5   // sheet of guards
	backWide   = 280.0 // of a back pad, between the arms
	treadAhead = 250.0 // of the foot plate's middle before the seat's front edge
	treadDeep  = 260.0
	toothTip   = 4.0   // of a sprocket beyond its pitch circle (both chains, judgement)
	wheelMore  = 8.0   // of a pulley or sprocket wider than its belt or chain
	keyStep    = 3.175 // to which square inch keys are cut, 1/8 in
	PlateRim   = 225.0 // half the diameter of a 450 mm plate
)

// Values are the numbers that a station of this geometry and resistance is built
// from. Before there is an outline the cam is taken as a disc of about its area.
func (s *Builder) Values(g *specs.Geometry, d *drive.State) values.Station {
	v := s.undriven(g)
	plates := values.Plates{Mass: s.Asked.Resistance.Load.Heavy, Across: 2 * PlateRim}
	switch {
	case g.Cam != nil:
		v.Drive = values.CamDrive
		s.camValues(&v, g, d)
	case g.Lever != nil:
		v.Drive = values.LeverDrive
		v.Lever = values.Lever{Radius: g.Lever.Radius, Phase: g.Lever.Phase, Plates: plates}
	case g.Linkage != nil:
		v.Drive = values.LinkageDrive
		train := drive.Train(g.Linkage)
		out := train.Shaft()
		v.Linkage = values.Linkage{Train: train, Plates: plates}
		v.Second = &values.SecondShaft{X: out.X, Y: out.Y}
	}
	return v
}

// BaseWidth is the width of the base, whose rails run under the posts that carry the
// bearings.
func (s *Builder) BaseWidth(g *specs.Geometry) float64 {
	v := s.undriven(g)
	return 2*v.PostAside() + v.Member.Width
}

// LeastStep is the least height of a foot plate on this base, in whole millimetres, one
// to spare.
func (s *Builder) LeastStep() float64 {
	member, guide := s.section(s.Member), s.section(s.Arm)
	return math.Ceil(station.LeastFootPlate(&member, &guide)) + 1
}

// undriven are the values but for those of the drive.
func (s *Builder) undriven(g *specs.Geometry) values.Station {
	m := drive.NewMachine(g)
	k := &s.Asked.Stock
	h := &g.Handle
	screws := s.Asked.Drawing.Screws()
	v := values.Station{
		Height: g.Pivots.Height, Spacing: g.Pivots.Spacing, Axes: m.Axes,
		First: s.Angles[0], Last: s.Angles[len(s.Angles)-1],
		Rest: m.Rest, Reclined: s.Reclined(),
		Member: s.section(s.Member), Arm: s.section(s.Arm), Slide: s.section(s.Slide),
		Cores: values.Cores{M8: screws.Drill(8), M10: screws.Drill(10)}, Shaft: k.Shaft, Bearing: flangeUnit(s.Bearing),
		Handle: values.Handle{Least: h.Least, Pitch: h.Pitch, Positions: h.Positions, Middle: h.Middle, Length: h.GripLength, Diameter: h.Diameter},
		Ratio:  1, BarThick: k.CamPlate, GuardThick: guardThick,
	}
	if key, ok := stock.KeyFor(k.Shaft); ok {
		v.Key = values.Key{Width: key.Width, Height: key.Height}
		if stock.InchSize(k.Shaft) {
			v.Key.Step = keyStep
		}
	}
	if b := g.Base; b != nil {
		v.Base = values.Base{Rear: b.Rear, Front: b.Front, PadPost: b.PadPost, SeatPost: b.SeatPost, Tower: b.Tower}
	}
	if c := g.Counterweight; c != nil {
		v.Counter = values.Counter{Mass: c.Mass, Radius: c.Radius, Phase: c.Phase}
	}
	if e := g.Eccentric; e != nil {
		v.Eccentric = values.Eccentric{Mass: e.Mass, Radius: e.Radius, Phase: e.Phase}
	}
	if t := g.Seat; t != nil {
		v.Seat = values.Seat{Lowest: t.Lowest, Pitch: t.Pitch, Positions: t.Positions, Front: t.Front, Depth: t.Depth, Width: t.Width, Post: s.section(s.SeatPost)}
		if p := g.FootPlate; p != nil {
			v.FootPlate = values.FootPlate{Lowest: p.Lowest, Pitch: p.Pitch, Positions: p.Positions, X: t.Front + treadAhead, Depth: treadDeep}
		}
	}
	if c := g.ChestPad; c != nil {
		v.Chest = values.Chest{Height: c.Height, Rear: c.Rear, Lean: c.Lean, Pitch: c.Pitch, Positions: c.Positions, Long: c.Length, Wide: c.Width}
	}
	if b := g.Back; b != nil {
		v.Back = values.Back{Angle: b.Angle, Foot: b.Foot, Length: b.Length, Width: backWide}
	}
	return v
}

// camValues adds cam, wheels, cable and stack.
func (s *Builder) camValues(v *values.Station, g *specs.Geometry, d *drive.State) {
	c := g.Cam
	groove := s.Cable.GrooveDepth()
	core := drive.CorePlate(s.Cable.Diameter)
	v.CamWide = core + 2*drive.CheekPlate
	v.Cam = values.Cam{Core: core, Cheek: drive.CheekPlate, Reach: slices.Max(d.MomentArm) + groove}
	if o := &d.Outline; o.Root.Len() > 0 {
		var holes []contour.Path
		for _, h := range o.Holes {
			if h.Name == "bore" && o.Keyed.Len() > 0 {
				holes = append(holes, o.Keyed)
				continue
			}
			holes = append(holes, contour.Circle(h.Centre, h.Diameter/2))
		}
		v.Cam.Root, v.Cam.Blank = solid.NewProfile(o.Root, holes...), solid.NewProfile(o.Blank, holes...)
		v.Cam.Bolts, v.Cam.Circle = d.Plate.Bolts, d.Plate.BoltCircle
		if v.Cam.Bolts > 0 {
			v.Cam.Bolt = d.Hub.BoltThread()
		}
		v.Cam.Reach = farthest(o.Blank)
		v.Cam.Keyed = o.Keyed.Len() > 0
		if h := &d.Hub; h.Kind == "clamp" {
			var screws []contour.Path
			for _, hole := range h.Split.Holes {
				screws = append(screws, contour.Circle(hole.Centre, hole.Diameter/2))
			}
			v.Cam.Split, v.Cam.SplitThick = solid.NewProfile(h.Split.Outline, screws...), h.Plate
			v.Cam.Clamp, v.Cam.Ears = h.Screw.Thread, 2*h.Split.Half
		}
	} else {
		r := math.Sqrt(s.camArea(c.Ratio, d.MomentArm) / math.Pi)
		bore := contour.Circle(r2.Vec{}, v.Shaft/2)
		v.Cam.Root = solid.NewProfile(contour.Circle(r2.Vec{}, r), bore)
		v.Cam.Blank = solid.NewProfile(contour.Circle(r2.Vec{}, r+groove-s.Cable.Diameter/2), bore)
	}
	if c.ArmTeeth > 0 {
		t := s.Transmission
		v.Ratio = c.Ratio
		v.Second = &values.SecondShaft{X: c.CentreX, Y: c.CentreY}
		v.Cam.Face = t.Teethed
		if !t.Even {
			v.Cam.Face = s.TransmissionStrength(c, d).Width
		} else {
			v.Cam.Tip = toothTip
		}
		v.WheelWide = v.Cam.Face + wheelMore
		v.Cam.ArmWheel, v.Cam.DrivenWheel = t.WheelDiameter(c.ArmTeeth), t.WheelDiameter(c.DrivenTeeth)
		v.Cam.Loop, v.Cam.LoopPerMetre = t.Title, t.Mass
	}
	v.Tower.Cable = cable.Values{Diameter: s.Cable.Diameter, PerMetre: s.Cable.Mass, Name: s.Cable.Name, Radius: c.GuideR}
	for i := range v.Tower.Cable.Line {
		theta := v.First + (v.Last-v.First)*float64(i)/(cable.Lines-1)
		at, err := d.Profile.At(theta)
		if err != nil {
			return // a measured guide that the cable does not reach: no tower either
		}
		v.Tower.Cable.Line[i] = cable.Line{Contact: at.Contact, Leave: at.Leave}
	}
	p := s.Plate
	n, _ := p.Stack(s.Asked.Resistance.Load.Heavy)
	v.Tower.Pair, v.Tower.Lift, v.Tower.Plates = s.Pair(), d.TakeUp, n
	v.Tower.PlateLength, v.Tower.PlateWidth, v.Tower.PlateThick = p.Length, p.Width, p.Thickness
	v.Tower.GuideHole, v.Tower.Rod = p.GuideHole, p.GuideRod
	v.Tower.SelectorHole, v.Tower.Selector, v.Tower.PinHole = p.SelectorHole, p.Selector, p.PinHole
	if g.Base != nil {
		v.Tower.Tall = g.Base.TowerTall
	}
}

// farthest is the greatest distance of a path from the origin, mm.
func farthest(p contour.Path) float64 {
	const sagitta = 0.01
	most := 0.0
	for _, q := range p.Points(sagitta) {
		most = max(most, r2.Norm(q))
	}
	return most
}

func (s *Builder) section(t stock.Section) values.Section {
	return values.Section{Name: t.Name, Grade: s.Asked.Stock.Steel, Height: t.H, Width: t.B, Wall: t.Full, Corner: t.Corner()}
}

func flangeUnit(b stock.BearingUnit) values.FlangeUnit {
	f := b.Flange()
	return values.FlangeUnit{
		Name: f.Name, Bore: b.Bore, Long: f.Long, Across: f.Across, Spacing: f.Spacing, Hole: f.Hole, Thread: f.Thread, Foot: f.Foot,
		Centre: f.Centre, Body: f.Body, Ring: f.Ring, Outer: f.Outer, Inner: f.Inner, Mass: f.Mass,
	}
}

// camArea is about the area of a cam, mm², known before there is an outline: a
// closed curve of support h(φ) holds ½∮(h² − h'²)dφ, where h is the moment arm
// while the cable winds on, taken with its guide far away, and its least over the
// rest of the turn.
func (s *Builder) camArea(ratio float64, momentArm []float64) float64 {
	var twice float64
	for i := 1; i < len(momentArm); i++ {
		turn := ratio * (s.Angles[i] - s.Angles[i-1])
		a, b := momentArm[i-1], momentArm[i]
		twice += (a*a+b*b)/2*turn - (b-a)*(b-a)/turn
	}
	rest, least := 2*math.Pi-ratio*(s.Angles[len(s.Angles)-1]-s.Angles[0]), slices.Min(momentArm)
	return (twice + max(0, rest)*(least*least)) / 2
}
