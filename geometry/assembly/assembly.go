// Package assembly holds a machine as parts, the joints between them, and the
// rigid groups that move. A pose places every part. Balance, gaps, screening,
// drawings, parts list and pictures read one assembly, so that a number that two
// of them show is one number.
//
// Machine frame: right-handed, +x the way the user faces, +y to the user's left,
// +z up, origin on the floor; mm, rad, kg. The left side is the mirror image of
// the right in the x-z plane.
package assembly

import (
	"armwright/geometry/solid"

	"gonum.org/v1/gonum/spatial/r3"
)

// Side tells to which side of the machine something belongs.
type Side int8

// The sides.
const (
	Middle Side = iota
	Right
	Left
)

// String is the word that ids end in; empty for the middle.
func (s Side) String() string { return [...]string{"", "right", "left"}[s] }

// Form is what a part is made from.
type Form int8

// The forms of stock.
const (
	Tube  Form = iota // hollow section, sawn
	Plate             // flat plate or bar, cut by laser
	Sheet             // thin plate, cut and folded
	Round             // round bar or round tube, turned or sawn
	Board             // wooden board
	Foam              // upholstery
	Bought
)

// String is the form's name in model/assembly.json.
func (f Form) String() string {
	return [...]string{"tube", "plate", "sheet", "round", "board", "foam", "bought"}[f]
}

// Stock is what a part is cut from or ordered as.
type Stock struct {
	Form   Form
	Name   string     // as lists of stock tell it: "60x60x3", "UCFL205", "M12x100"; may be empty for plates and rounds
	Grade  string     // of the steel, or the material
	Size   [3]float64 // mm. Tube: height, width, wall. Plate, sheet, board, foam: length, width, thickness. Round: diameter, bore. Bought: as fits
	Length float64    // long-point length, mm; 0 where it has none
}

// Traits say how a part behaves; they are independent of its name.
type Traits uint16

// The traits of parts.
const (
	Turns    Traits = 1 << iota // with an arm or its drive
	Swivels                     // with the axis position only
	Rises                       // with the stack
	Adjusts                     // set by hand: seat, handle, foot plate
	Soft                        // upholstery, rubber
	Guarded                     // behind a guard, out of reach
	Guard                       // is one
	Fastener                    // pin, axle, key: listed with the hardware
	Buffer                      // takes an end of a motion: comes near to what moves by intent
	Ground                      // stands on the floor
	Load                        // weight that the user chooses: stack plates, plates on a sleeve
	Stated                      // a frame states its weight: arm, counterweight, eccentric weight
)

// Part is one thing that is made or bought.
type Part struct {
	ID    string // unique; of a pair the side is its end: "pivot-post-right"
	Item  string // equal parts are one item of the parts list: "pivot-post"
	Title string // as the parts list tells it, without its side: "Pivot post"
	Side  Side
	Stock Stock
	Solid solid.Solid
	Place solid.Placement // of the solid's frame in the machine frame, in the reference pose
	Group int

	// Density, kg/mm³, of a made part, whose Mass the builder works out from the
	// volume; 0 for a bought part, whose Mass is told.
	Density float64
	Mass    float64 // kg

	Traits Traits
	Centre r3.Vec // of mass, machine frame, reference pose; the builder sets it
}

// Is reports whether the part has all of the traits.
func (p *Part) Is(t Traits) bool { return p.Traits&t == t }

// Flexible is what has no solid: a cable, a chain, a belt.
type Flexible struct {
	ID, Item, Title string
	Side            Side
	Stock           Stock
	Path            []r3.Vec // centreline in the reference pose
	Closed          bool
	Mass            float64 // kg
	Centre          r3.Vec  // of mass; the builder sets it
}

// Assembly is a machine. Once built it does not change.
type Assembly struct {
	Parts     []Part
	Joints    []Joint
	Groups    []Group // parents before their children
	Flexible  []Flexible
	Reference Pose // the pose in which the parts' places are told
}

// Index returns the place in Parts of the part with an id.
func (a *Assembly) Index(id string) (int, bool) {
	for i := range a.Parts {
		if a.Parts[i].ID == id {
			return i, true
		}
	}
	return 0, false
}
