package assembly

import "gonum.org/v1/gonum/spatial/r3"

// JointKind is how two parts meet.
type JointKind int8

// The kinds of joints.
const (
	Weld    JointKind = iota
	Bolts             // bolts or screws through one part into, or through, the other
	Fit               // round in a bore: shaft in bearing, axle in fork, plug in tube
	Slide             // telescoping or sliding, set in steps
	Swivel            // turning on a plate, set in steps
	Rest              // one lies on, hangs on or buffers the other
	Rope              // a cable lies on it or ends at it
	Passage           // one passes through a hole of the other without touching it: holds nothing
)

// String is the kind's name in model/assembly.json.
func (k JointKind) String() string {
	return [...]string{"weld", "bolts", "fit", "slide", "swivel", "rest", "rope", "passage"}[k]
}

// Holds reports whether the joint keeps one part on the other.
func (k JointKind) Holds() bool { return k != Passage }

// Through reports whether one of the parts is inside a hole, a bore or a hollow of
// the other, so that the filled bodies may share space.
func (k JointKind) Through() bool { return k == Fit || k == Slide || k == Passage }

// Detail is how a joint is made; what does not apply is zero. Lengths mm.
type Detail struct {
	Throat, Run float64 // of a fillet weld: throat a, and length of all runs together

	Thread  float64 // nominal diameter of bolts or screws; of a fit or slide, of the screw or pull pin that holds it
	Count   int
	Length  float64    // of bolts, under the head
	Pattern [2]float64 // distances between bolt centres across the joint, 0 for one

	Diameter float64 // of the round in a fit, of the pin of a slide or a swivel
	Class    string  // of the fit: "H7/h6"
	Key      Key     // that carries its torque

	Pitch  float64   // between the detents of a slide
	Steps  int       // how many there are
	Angles []float64 // of a swivel's index holes from the middle one, rad

	// Depth is how deep the filled bodies may reach into each other, mm, beyond
	// the tolerance; without bound for a Through kind.
	Depth float64
}

// Key is a parallel key, mm: of DIN 6885-1, form A, or square of ASME B17.1.
type Key struct{ Width, Height, Length float64 }

// Joint is where part A meets part B, both indices of Parts.
type Joint struct {
	Kind   JointKind
	A, B   int
	At     r3.Vec // a place within or on both parts (filled), machine frame, reference pose
	Detail Detail
}
