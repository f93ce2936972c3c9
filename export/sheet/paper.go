package sheet

import "fmt"

// Size is a sheet size.
type Size int

// ISO 5457 sizes, and the inch sizes of ASME Y14.1. A4 and A are portrait, the
// others landscape.
const (
	A4 Size = iota
	A3
	A2
	A1
	InchA
	InchB
	InchC
	InchD
)

// Borders in mm (ISO 5457:1999, 4.2): the filing margin on the left, and the
// other three.
const (
	FilingMargin = 20.0
	Margin       = 10.0
)

// paper is a row of the table of sizes: trimmed size in mm and the number of
// reference fields along it and up it, 0 where the size has none.
type paper struct {
	name           string
	width, height  float64
	across, upward int
}

func (s Size) paper() paper {
	switch s {
	case A4:
		return paper{"A4", 210, 297, 0, 0}
	case A3:
		return paper{"A3", 420, 297, 8, 6}
	case A2:
		return paper{"A2", 594, 420, 12, 8}
	case A1:
		return paper{"A1", 841, 594, 16, 12}
	case InchA:
		return paper{"A (inch)", 215.9, 279.4, 0, 0}
	case InchB:
		return paper{"B (inch)", 431.8, 279.4, 8, 6}
	case InchC:
		return paper{"C (inch)", 558.8, 431.8, 10, 8}
	case InchD:
		return paper{"D (inch)", 863.6, 558.8, 16, 10}
	}
	panic(fmt.Sprintf("sheet: unknown size %d", int(s)))
}

// String is the name of the size.
func (s Size) String() string { return s.paper().name }

// Trimmed gives width and height of the trimmed sheet, mm.
func (s Size) Trimmed() (width, height float64) {
	p := s.paper()
	return p.width, p.height
}

// Space is the drawing space inside the frame: lower left corner and size, mm.
func (s Size) Space() (x, y, width, height float64) {
	p := s.paper()
	return FilingMargin, Margin, p.width - FilingMargin - Margin, p.height - 2*Margin
}
