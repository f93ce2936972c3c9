package sheet

// Role is what a line or a text means; it fixes width, pattern and layer.
type Role int

// The roles, with the line type number of ISO 128-2 where it has one.
const (
	Visible      Role = iota // 01.2 visible outlines and edges
	Thin                     // 01.1 continuous narrow: leaders, table rules, projected traces
	Dimensioning             // 01.1 dimension and extension lines, their arrowheads and values
	Hatching                 // 01.1 hatching
	Hidden                   // 02.1 hidden outlines and edges
	Centre                   // 04.1 centre lines, lines of symmetry, pitch circles
	Phantom                  // 05.1 adjacent parts, extreme positions of moving parts
	Cut                      // outline that a cutting machine follows
	Etch                     // mark that a cutting machine only engraves
	Border                   // frame of the sheet and centring marks
	Lettering                // titles, notes and tables
)

// Roles lists every role in the order of the constants.
func Roles() []Role {
	return []Role{Visible, Thin, Dimensioning, Hatching, Hidden, Centre, Phantom, Cut, Etch, Border, Lettering}
}

// Line widths in mm: line group 0.5 of ISO 128 (wide 0.5, narrow 0.25,
// lettering 0.35) and the frame of ISO 5457.
const (
	WideLine      = 0.5
	NarrowLine    = 0.25
	LetteringLine = 0.35
	FrameLine     = 0.7
)

// Style is the appearance of a role.
type Style struct {
	Width    float64   // line width, mm
	Dash     []float64 // lengths of dash, gap, dash, gap ... in mm; nil is continuous
	Layer    string    // layer name, A-Z 0-9 and _ only
	Linetype string    // name of the pattern, A-Z 0-9 and _ only
}

// Style gives the appearance of the role. The pattern lengths are those of
// ISO 128-20 in terms of the line width d: dash 12 d, long dash 24 d, gap 3 d,
// dot 0.5 d.
func (r Role) Style() Style {
	const d = NarrowLine
	dashed := []float64{12 * d, 3 * d}
	chain := []float64{24 * d, 3 * d, 0.5 * d, 3 * d}
	doubleDot := []float64{24 * d, 3 * d, 0.5 * d, 3 * d, 0.5 * d, 3 * d}
	switch r {
	case Visible:
		return Style{WideLine, nil, "VISIBLE", "CONTINUOUS"}
	case Thin:
		return Style{NarrowLine, nil, "THIN", "CONTINUOUS"}
	case Dimensioning:
		return Style{NarrowLine, nil, "DIMENSION", "CONTINUOUS"}
	case Hatching:
		return Style{NarrowLine, nil, "HATCH", "CONTINUOUS"}
	case Hidden:
		return Style{NarrowLine, dashed, "HIDDEN", "DASHED"}
	case Centre:
		return Style{NarrowLine, chain, "CENTRE", "CHAIN"}
	case Phantom:
		return Style{NarrowLine, doubleDot, "PHANTOM", "CHAIN2"}
	case Cut:
		return Style{WideLine, nil, "CUT", "CONTINUOUS"}
	case Etch:
		return Style{NarrowLine, nil, "ETCH", "CONTINUOUS"}
	case Border:
		return Style{FrameLine, nil, "BORDER", "CONTINUOUS"}
	case Lettering:
		return Style{LetteringLine, nil, "TEXT", "CONTINUOUS"}
	}
	panic("sheet: unknown role")
}

// String gives the role's layer name.
func (r Role) String() string { return r.Style().Layer }
