package sheet

// Notice is printed on every sheet.
const Notice = "Preliminary geometry. Structural sign-off rests with a licensed engineer; local codes and standards govern."

// Units is the unit in which dimension values are written.
type Units int

// The units of dimension values.
const (
	Millimetres Units = iota
	Inches
	InchesDual // inches with millimetres in square brackets
)

// Projection is the arrangement of the views (ISO 5456-2).
type Projection int

// First angle: the view from the left stands on the right, the one from above
// below. Third angle: left on the left, above on top.
const (
	FirstAngle Projection = iota
	ThirdAngle
)

// Position is the relation of a view to the front view of its sheet.
type Position int

// The positions. Views with a position other than Free share one scale and
// are aligned with the front view: from above and below along x, from left
// and right along y. A free view stands where there is room.
const (
	Free Position = iota
	Front
	FromAbove
	FromBelow
	FromLeft
	FromRight
)

// View is model geometry put on paper at one scale.
type View struct {
	Title      string
	Position   Position
	Scale      Scale // zero: the largest recommended scale that fits
	NotToScale bool  // a chart or a scheme: no scale is written and one model mm is one paper mm
	Spare      bool  // free, to look at only: drawn in what room the rest leaves, no larger than the rest, or left out
	Pictorial  bool  // free, and nothing is measured in it: an intermediate scale serves where the next recommended one does not fit
	Entities   []Entity
}

// TitleBlock holds the data fields of ISO 7200:2004. Owner, Number, Date,
// Sheet, Title, Approver, Creator and DocumentType are mandatory there.
type TitleBlock struct {
	Owner         string // legal owner
	Number        string // identification number, at most 16 characters
	Revision      string // at most 2
	Date          string // date of issue, at most 10
	Sheet         int    // number of this sheet, from 1
	Sheets        int    // number of sheets, 0 leaves it out
	Language      string // ISO 639 code, at most 4
	Title         string // at most 25
	Supplementary string // supplementary title, at most 25
	Department    string // responsible department, at most 10
	Reference     string // technical reference, at most 20
	Approver      string // at most 20
	Creator       string // at most 20
	DocumentType  string // at most 30
}

// Column is a column of a table.
type Column struct {
	Header string
	Align  HAlign
}

// Table is a ruled table. One that is too tall for its place is broken into
// parts that stand side by side.
type Table struct {
	Title   string
	Columns []Column
	Rows    [][]string
}

// Sheet is one sheet of a drawing set. The paper size, the general tolerances
// and the scale are printed above the title block with the projection symbol,
// the notice and a bar of 100 mm to check a print by.
type Sheet struct {
	Size       Size
	Smaller    []Size // sizes to take instead, the smallest first, if everything fits there at the same scales
	Larger     []Size // sizes to grow to, the smallest first, if nothing fits; on the last then smaller lettering and scale
	TitleBlock TitleBlock
	Projection Projection
	Units      Units
	Tolerance  string  // general tolerances, such as "ISO 2768-m"
	TextHeight float64 // of dimensions and notes in views, mm; 0 takes 3.5, and 5 on A1
	Dense      bool    // free views stand close, from the upper left corner on: those that have nothing to do with each other
	Views      []View
	Tables     []Table
	Notes      []string
}
