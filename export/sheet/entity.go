package sheet

import "gonum.org/v1/gonum/spatial/r2"

// Entity is something drawn in a view: Line, Arc, Circle, Polyline, Text,
// Hatch, CentreLine, CuttingPlane, CentreMark, Leader, Balloon, Weld or Dimension.
// Coordinates are model millimetres unless a field says paper.
type Entity interface{ entity() }

// Line is a straight line.
type Line struct {
	Role Role
	A, B r2.Vec
}

// Arc is a circular arc drawn counter-clockwise from Start to End.
type Arc struct {
	Role       Role
	Centre     r2.Vec
	Radius     float64
	Start, End float64 // rad
}

// Circle is a full circle.
type Circle struct {
	Role   Role
	Centre r2.Vec
	Radius float64
}

// Vertex is a corner of a path. Bulge is tan(a/4) of the arc to the next
// vertex, a its included angle, counter-clockwise positive; 0 is a straight
// line and 1 a half circle.
type Vertex struct {
	r2.Vec
	Bulge float64
}

// Polyline is a path of lines and arcs. The bulge of the last vertex counts
// only if the path is closed.
type Polyline struct {
	Role     Role
	Vertices []Vertex
	Closed   bool
}

// HAlign is the side of a text that its anchor is on.
type HAlign int

// The horizontal anchors of a text.
const (
	Left HAlign = iota
	Middle
	Right
)

// VAlign is the height in a text that its anchor is at.
type VAlign int

// The vertical anchors of a text: on the baseline, half-way up the capital
// letters, at their top.
const (
	Baseline VAlign = iota
	HalfHeight
	CapTop
)

// Text is one line of lettering.
type Text struct {
	Role     Role
	At       r2.Vec
	Value    string
	Height   float64 // of capital letters, paper mm; 0 takes the sheet's
	Rotation float64 // rad
	H        HAlign
	V        VAlign
}

// Hatch fills the region inside its loops, even-odd: solid, or with narrow
// parallel lines.
type Hatch struct {
	Loops   [][]Vertex
	Without [][]Vertex // what stands before it and stays free of lines: screws in a section
	Solid   bool
	Angle   float64 // of the lines, rad; 0 takes 45 degrees
	Spacing float64 // between the lines, paper mm; 0 takes 3 mm
}

// CentreLine is a centre line that runs 3 paper mm past both points.
type CentreLine struct{ A, B r2.Vec }

// CuttingPlane is the trace of a section's plane: a chain line between two points of the
// outline, which beyond them ends in thick strokes with arrows the way the section is
// looked at and its letter (ISO 128-40). What lies beyond is on paper, so that it keeps
// clear of the outline at every scale.
type CuttingPlane struct {
	A, B   r2.Vec
	Sight  r2.Vec // direction of looking, square to the trace
	Letter string
}

// CentreMark is a cross of centre lines through a circle, running 3 paper mm
// past it.
type CentreMark struct {
	Centre r2.Vec
	Radius float64
}

// Leader points at a feature with a note at its other end. The place of the
// note is chosen so that it covers no other text and as few lines as possible.
// Lines of the note are separated by "\n".
type Leader struct {
	At   r2.Vec // where the arrow points
	Note string
	Dot  bool // end with a dot inside an outline, not with an arrow at an edge
}

// Balloon is an item reference: the item's number in a circle, joined to a dot
// on the part. Its place is chosen like that of a leader.
type Balloon struct {
	At   r2.Vec
	Item string
}

func (Line) entity()         {}
func (Arc) entity()          {}
func (Circle) entity()       {}
func (Polyline) entity()     {}
func (Text) entity()         {}
func (Hatch) entity()        {}
func (CentreLine) entity()   {}
func (CuttingPlane) entity() {}
func (CentreMark) entity()   {}
func (Leader) entity()       {}
func (Balloon) entity()      {}
func (Dimension) entity()    {}
