package build

import (
	"fmt"
	"math"
	"slices"

	"armwright/geometry/cam"
	"armwright/geometry/station"
	"armwright/solver/drive"
	"armwright/specs"
	"armwright/specs/stock"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// fitting is a part of the right arm's cam drive that stands still in space: it
// weighs on the balance, may be in an arm's way, and is in the parts list.
type fitting struct {
	station.Lump         // Title is that of the parts list
	length       float64 // mm, 0 when it has none
	mitre        string
	stock        func() string // what it is made of, for the parts list
}

// SheaveWide is the width of the cable's sheaves, mm (own choice).
const SheaveWide = 16.0

// Own choices for what carries the drive, mm and kg.
const (
	sheaveDensity   = 2.7e-6 // kg/mm³: aluminium
	sheaveBracket   = 0.8    // fork, pin and plain bearing of one sheave
	wheelMore       = 8.0    // of a pulley or sprocket wider than its belt, full disc of steel
	chainWide       = 8.0    // teeth of a sprocket for 08B (ISO 606, M)
	bearingUnitMass = 0.9    // of one pillow block of the countershaft
)

// fittings lists them, given the sheaves of the cable's way, which only a station
// with a tower has.
func (s *Builder) fittings(g *specs.Geometry, l station.Layout, d *drive.State, sheaves []cam.Sheave) []fitting {
	c := g.Cam
	if c == nil {
		return nil
	}
	out := make([]fitting, 0, 16)
	weight := func(id, title string, centre r3.Vec, length, mass float64, mitre string, stuff func() string) {
		out = append(out, fitting{Lump: station.Lump{ID: id, Title: title, Centre: centre, Mass: mass}, length: length, mitre: mitre, stock: stuff})
	}
	m := drive.NewMachine(g)
	frame := newCamFrame(m, l, c, m.Geometry.Pivots.MeanAxis())

	area := s.camArea(c.Ratio, d.MomentArm)
	weight("cam", "Cam", frame.origin, 0, s.camMass(area, area), "cut files", func() string {
		return fmt.Sprintf("core and two cheeks, %s and %s %s", s.Units().Whole(drive.CorePlate(s.Cable.Diameter), "mm"), s.Size(drive.CheekPlate), s.Asked.Stock.Steel)
	})
	if c.ArmTeeth > 0 {
		t := s.Transmission
		pivot := r3.Add(m.Pivot, r3.Scale(l.CamPlane(), frame.axis))
		strength := s.TransmissionStrength(c, d)
		title, wide := "Pulley", strength.Width+wheelMore
		if t.Even {
			title, wide = "Sprocket", chainWide+wheelMore
		}
		wheel := func(id string, at r3.Vec, teeth int) {
			weight(id, title, at, 0, stock.SteelDensity*math.Pi/4*sq(t.WheelDiameter(teeth))*wide, "", func() string {
				return fmt.Sprintf("%d teeth, %s", teeth, t.Title)
			})
		}
		wheel("wheel-arm", pivot, c.ArmTeeth)
		wheel("wheel-cam", frame.origin, c.DrivenTeeth)
		middle := r3.Scale(0.5, r3.Add(pivot, frame.origin))
		loop := float64(c.Pitches) * t.Pitch
		weight("loop", "Drive "+t.Name, middle, loop, loop/1000*t.Mass, "endless", func() string {
			if strength.Width > 0 {
				return fmt.Sprintf("%d pitches, %s, %s wide", c.Pitches, t.Title, s.Size(strength.Width))
			}
			return fmt.Sprintf("%d pitches, %s", c.Pitches, t.Title)
		})
		shaft := l.CamPlane() - l.BearingPlane() + s.Asked.Stock.CamPlate + 2*s.Asked.Stock.Shaft
		weight("countershaft", "Countershaft", frame.origin, shaft, stock.RoundBar(s.Asked.Stock.Shaft, shaft), "", func() string {
			return "round bar " + s.Size(s.Asked.Stock.Shaft)
		})
		for range 2 {
			weight("countershaft-bearing", "Countershaft bearing", frame.origin, 0, bearingUnitMass, "", func() string { return s.Asked.Stock.Bearing })
		}
		reach := math.Hypot(c.CentreX, c.CentreY)
		weight("countershaft-stand", "Countershaft stand", middle, reach, reach/1000*s.Arm.Mass, "to the pivot's swivel bar", s.armTube)
	}
	sheave := func(radius float64, and string) func() string {
		return func() string { return "radius to cable centre " + s.Size(radius) + and }
	}
	if sheaves == nil {
		weight("sheave-1", "Guide sheave", frame.point(r2.Vec{X: c.GuideX, Y: c.GuideY}), 0, 0, "", sheave(c.GuideR, ""))
		return out
	}
	names := [routeSheaves][2]string{{"sheave-1", "Guide sheave"}, {"sheave-2", "Redirect sheave"}, {"sheave-3", "Redirect sheave"}, {"sheave-4", "Top sheave"}}
	for i, v := range sheaves[:routeSheaves] {
		rim := v.Radius + s.Cable.GrooveDepth()
		out = append(out, fitting{
			Lump: station.Lump{ID: names[i][0], Title: names[i][1], Centre: v.Centre, Axis: v.Axis,
				Size: r3.Vec{X: 2 * rim, Y: 2 * rim, Z: SheaveWide}, Mass: s.sheaveMass(v.Radius)},
			stock: sheave(v.Radius, ", with bracket"),
		})
	}
	return out
}

// camArea is about the area of a cam, mm², known before there is an outline: a
// closed curve of support h(φ) holds ½∮(h² − h'²)dφ, where h is the moment arm
// while the cable winds on, taken with its guide far away, and its least over the
// rest of the turn.
func (s *Builder) camArea(ratio float64, momentArm []float64) float64 {
	var twice float64
	for i := 1; i < len(momentArm); i++ {
		turn := ratio * (s.Angles[i] - s.Angles[i-1])
		twice += (sq(momentArm[i-1])+sq(momentArm[i]))/2*turn - sq(momentArm[i]-momentArm[i-1])/turn
	}
	rest := 2*math.Pi - ratio*(s.Angles[len(s.Angles)-1]-s.Angles[0])
	return (twice + max(0, rest)*sq(slices.Min(momentArm))) / 2
}

// camMass is the mass of core and two cheeks from the areas of both. The balance
// goes by camArea, the parts list by the plates as cut.
func (s *Builder) camMass(core, cheek float64) float64 {
	return stock.SteelDensity * (core*drive.CorePlate(s.Cable.Diameter) + 2*cheek*drive.CheekPlate)
}

// sheaveMass is that of a sheave with its bracket.
func (s *Builder) sheaveMass(radius float64) float64 {
	return sheaveDensity*math.Pi*sq(radius+s.Cable.GrooveDepth())*SheaveWide + sheaveBracket
}

// armTube is the stock of arms and what carries the drive.
func (s *Builder) armTube() string { return fmt.Sprintf("tube %s %s", s.Arm.Name, s.Asked.Stock.Steel) }

// sheaveStand is the tube that carries the guide sheave and the redirect sheave
// close by: from the end of the crossbar, or of a reclined station from the pivot
// post.
func sheaveStand(l station.Layout, sheaves []cam.Sheave) []station.Member {
	if sheaves == nil {
		return nil
	}
	to := r3.Scale(0.5, r3.Add(sheaves[0].Centre, sheaves[1].Centre))
	from := r3.Vec{X: l.PadPost, Y: -l.PivotSpacing/2 - l.Side/2, Z: l.CrossbarHeight()}
	if l.HasBack {
		from = r3.Vec{X: l.PadPost, Y: -l.PivotSpacing/2 - l.BearingPlane(), Z: to.Z}
	}
	return []station.Member{{ID: "sheave-stand", Title: "Sheave stand", A: from, B: to, Deep: l.ArmTube, Wide: l.ArmTube, PerMetre: l.ArmPerMetre}}
}

// Furnish is the layout with the drive's fittings.
func (s *Builder) Furnish(g *specs.Geometry, d *drive.State) station.Layout {
	l := s.Layout(g)
	sheaves, _ := s.sheaves(g, l, d)
	l.Stands = sheaveStand(l, sheaves)
	list := s.fittings(g, l, d, sheaves)
	l.Drive = make([]station.Lump, len(list))
	for i := range list {
		l.Drive[i] = list[i].Lump
	}
	return l
}

func sq(x float64) float64 { return x * x }
