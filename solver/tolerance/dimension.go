// Package tolerance studies what becomes of a designed station when it is built
// to shop tolerances: how far the requirements spread over many builds, how
// many builds still meet the brief, which dimension matters most, and how
// closely it has to be held.
package tolerance

import (
	"fmt"
	"math"

	"armwright/specs"
	"armwright/specs/stock"
)

// Classes are the general tolerances a shop works to.
type Classes struct {
	Machined string // f, m, c or v of ISO 2768-1; cut, drilled and turned parts
	Welded   string // A, B, C or D of ISO 13920
}

// Dimension is one error a build may have: a dimension that comes out
// differently, a play, a mass.
type Dimension struct {
	Name      string
	Size      float64 // nominal, mm; 0 for none
	Tolerance float64 // ±, mm, rad or kg
	Unit      Unit
	By        string // what gives the tolerance, with its mark
	Feature   string // row of the sheets' tolerance table it belongs to; "" for none
	Arm       bool   // each arm has its own
	Even      bool   // anything within the tolerance is as likely; otherwise normal, three deviations to the tolerance

	at  func(*specs.Geometry) []*float64 // what it moves; nil for an error of the cam
	cam camError
}

// Unit is what a dimension's tolerance is measured in.
type Unit int

const (
	Millimetre Unit = iota
	Radian
	Kilogram
)

// Own values, where no class speaks.
const (
	// padGive is how far the upholstery of two pads differs under load, mm
	// (judgement).
	padGive = 3.0
	// bearingPlay is the radial play of an insert bearing of 25 mm bore, group C3
	// (ISO 5753, M), mm, over bearingSpan, the distance of an arm's two bearings
	// (own choice), mm.
	bearingPlay = 0.028
	bearingSpan = 100.0
	// phaseTurn is the turn left in the cam's fastening on its shaft: a hole place
	// of 0.1 mm at 20 mm from the axis.
	phaseTurn = 0.1 / 20
	// camCut is how far a cut plate's edge is off, mm (own choice; the sheets ask
	// for it).
	camCut = 0.1
	// plateMass and tubeMass are the shares by which masses of cast or sawn plates
	// (judgement) and of tubes (EN 10219-2, M) are off.
	plateMass, tubeMass = 0.03, 0.06
)

// Dimensions lists the errors of a geometry's builds under the classes. The
// error is a *stock.ToleranceError.
func Dimensions(g *specs.Geometry, c Classes) ([]Dimension, error) {
	var list []Dimension
	var failed error
	keep := func(v float64, err error) float64 {
		if err != nil && failed == nil {
			failed = err
		}
		return v
	}
	add := func(d Dimension) { list = append(list, d) }
	one := func(at func(*specs.Geometry) *float64) func(*specs.Geometry) []*float64 {
		return func(g *specs.Geometry) []*float64 { return []*float64{at(g)} }
	}
	welded := func(name, feature string, size float64, at func(*specs.Geometry) *float64) {
		size = math.Max(math.Abs(size), 30) // no place of a weldment is truer than a short length
		add(Dimension{Name: name, Feature: feature, Size: size, Tolerance: keep(stock.WeldedTolerance(c.Welded, size)), By: "ISO 13920-" + c.Welded + " (M)", at: one(at)})
	}
	machined := func(name, feature string, size float64, arm bool, at func(*specs.Geometry) *float64) {
		add(Dimension{Name: name, Feature: feature, Size: size, Tolerance: keep(stock.LinearTolerance(c.Machined, size)), By: "ISO 2768-" + c.Machined, Arm: arm, at: one(at)})
	}
	toes := func(pick func(*specs.Axis) *float64) func(*specs.Geometry) []*float64 {
		return func(g *specs.Geometry) (list []*float64) {
			for i := range g.Pivots.Axes {
				list = append(list, pick(&g.Pivots.Axes[i]))
			}
			return list
		}
	}
	toe, cant := toes(func(a *specs.Axis) *float64 { return &a.Toe }), toes(func(a *specs.Axis) *float64 { return &a.Cant })
	const bracket = 150 // shorter leg of a pivot bracket, mm

	if g.Base != nil {
		welded("pivot height", "pivots", g.Pivots.Height, func(g *specs.Geometry) *float64 { return &g.Pivots.Height })
		welded("pivot spacing", "pivots", g.Pivots.Spacing, func(g *specs.Geometry) *float64 { return &g.Pivots.Spacing })
		angle := keep(stock.WeldedAngle(c.Welded, bracket))
		by := "ISO 13920-" + c.Welded + " (M)"
		add(Dimension{Name: "toe of an axis", Feature: "axes", Tolerance: angle, Unit: Radian, By: by, Arm: true, at: toe})
		add(Dimension{Name: "cant of an axis", Feature: "axes", Tolerance: angle, Unit: Radian, By: by, Arm: true, at: cant})
		play := Dimension{Tolerance: bearingPlay / bearingSpan, Unit: Radian, By: "play of the insert, ISO 5753 C3 (M)", Arm: true, Even: true}
		play.Name, play.at = "bearing play, toe", toe
		add(play)
		play.Name, play.at = "bearing play, cant", cant
		add(play)
		welded("front feet", "base", g.Base.Front, func(g *specs.Geometry) *float64 { return &g.Base.Front })
		welded("rear feet", "base", g.Base.Rear, func(g *specs.Geometry) *float64 { return &g.Base.Rear })
		welded("width of the feet", "base", g.Base.Width, func(g *specs.Geometry) *float64 { return &g.Base.Width })
		welded("pad post", "base", g.Base.PadPost, func(g *specs.Geometry) *float64 { return &g.Base.PadPost })
		welded("tower", "base", g.Base.Tower, func(g *specs.Geometry) *float64 { return &g.Base.Tower })
	}
	if g.Seat != nil {
		welded("seat height", "seat", g.Seat.Lowest, func(g *specs.Geometry) *float64 { return &g.Seat.Lowest })
		welded("seat fore and aft", "seat", g.Seat.Front, func(g *specs.Geometry) *float64 { return &g.Seat.Front })
	}
	if g.Back != nil {
		add(Dimension{Name: "back pad's angle", Feature: "back", Tolerance: keep(stock.WeldedAngle(c.Welded, g.Back.Length)), Unit: Radian, By: "ISO 13920-" + c.Welded + " (M)",
			at: one(func(g *specs.Geometry) *float64 { return &g.Back.Angle })})
		welded("back pad's foot", "back", g.Back.Foot, func(g *specs.Geometry) *float64 { return &g.Back.Foot })
	}
	if g.Pad != nil {
		add(Dimension{Name: "slope of a pad", Feature: "pads", Tolerance: keep(stock.WeldedAngle(c.Welded, g.Pad.Far)), Unit: Radian, By: "ISO 13920-" + c.Welded + " (M)", Arm: true,
			at: one(func(g *specs.Geometry) *float64 { return &g.Pad.Slope })})
		add(Dimension{Name: "offset of a pad", Feature: "pads", Size: g.Pad.Offset, Tolerance: padGive, By: "upholstery, judgement", Arm: true,
			at: one(func(g *specs.Geometry) *float64 { return &g.Pad.Offset })})
	}
	if g.Base != nil {
		machined("handle from the axis", "handle", g.Handle.Least, true, func(g *specs.Geometry) *float64 { return &g.Handle.Least })
		machined("handle along the axis", "handle", math.Max(math.Abs(g.Handle.Middle), 30), true, func(g *specs.Geometry) *float64 { return &g.Handle.Middle })
	}
	mass := func(name, by string, share float64, at func(*specs.Geometry) *float64) {
		if nominal := *at(g); nominal > 0 {
			add(Dimension{Name: name, Tolerance: share * nominal, Unit: Kilogram, By: by, Arm: true, at: one(at)})
		}
	}
	mass("mass of an arm", "EN 10219-2 (M)", tubeMass, func(g *specs.Geometry) *float64 { return &g.Handle.ArmMass })
	if g.Counterweight != nil {
		mass("mass of a counterweight", "judgement", plateMass, func(g *specs.Geometry) *float64 { return &g.Counterweight.Mass })
	}
	if g.Eccentric != nil {
		mass("mass of an eccentric weight", "judgement", plateMass, func(g *specs.Geometry) *float64 { return &g.Eccentric.Mass })
		add(Dimension{Name: "phase of an eccentric weight", Tolerance: phaseTurn, Unit: Radian, By: "hole places, derived", Arm: true,
			at: one(func(g *specs.Geometry) *float64 { return &g.Eccentric.Phase })})
	}
	switch {
	case g.Cam != nil:
		list = append(list, camDimensions(g.Cam, c, keep)...)
	case g.Lever != nil:
		machined("plates from the axis", "lever", g.Lever.Radius, true, func(g *specs.Geometry) *float64 { return &g.Lever.Radius })
		add(Dimension{Name: "phase of a lever", Feature: "lever", Tolerance: keep(stock.WeldedAngle(c.Welded, g.Lever.Radius)), Unit: Radian, By: "ISO 13920-" + c.Welded + " (M)", Arm: true,
			at: one(func(g *specs.Geometry) *float64 { return &g.Lever.Phase })})
	case g.Linkage != nil:
		for _, b := range []struct {
			name string
			at   func(*specs.Geometry) *float64
		}{
			{"input bar", func(g *specs.Geometry) *float64 { return &g.Linkage.Input }},
			{"coupler", func(g *specs.Geometry) *float64 { return &g.Linkage.Coupler }},
			{"output bar", func(g *specs.Geometry) *float64 { return &g.Linkage.Output }},
			{"distance of the linkage's axes", func(g *specs.Geometry) *float64 { return &g.Linkage.Ground }},
			{"plates from the output axis", func(g *specs.Geometry) *float64 { return &g.Linkage.Radius }},
		} {
			machined(b.name, "linkage", *b.at(g), true, b.at)
		}
	}
	if failed != nil {
		return nil, fmt.Errorf("tolerance: %w", failed)
	}
	return list, nil
}
