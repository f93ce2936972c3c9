package draw

import (
	"strconv"
	"strings"
	"unicode/utf8"

	"armwright/export/draw/platework"
	"armwright/export/sheet"
	"armwright/solver/tolerance"
	"armwright/specs"
	"armwright/specs/stock"

	"gonum.org/v1/gonum/spatial/r2"
)

// named is a sheet with the name its files bear.
type named struct {
	number int // fixed by what the sheet shows, so that gaps may occur
	slug   string
	sheet  sheet.Sheet
}

// drafter draws the sheets of one station.
type drafter struct {
	*machine
	cam   *platework.Cam // nil without one
	units sheet.Units
	holds []tolerance.Holding // nil on a bench

	ballooned map[string]bool // items that have a balloon on a sheet
	drawnOn   map[int]string  // number of the sheet on which an item is drawn to be made
}

// paper is a sheet size by rank, in the system of the sheet's units.
type paper int

const (
	small paper = iota // A3, B
	medium
	large
)

// sheet returns an empty sheet with its title block, of the given size, of the
// smallest on which it loses nothing, or of the next on which it fits at all.
func (d *drafter) sheet(p paper, title, kind string) sheet.Sheet {
	a := d.r.Frame.Drawing
	sizes := [...]sheet.Size{sheet.A3, sheet.A2, sheet.A1}
	if d.units != sheet.Millimetres {
		sizes = [...]sheet.Size{sheet.InchB, sheet.InchC, sheet.InchD}
	}
	s := sheet.Sheet{
		Size: sizes[p], Smaller: sizes[:p], Larger: sizes[p+1:],
		Units: d.units, TextHeight: sheet.ViewText,
		TitleBlock: sheet.TitleBlock{
			Owner: a.Owner, Number: a.Number, Revision: a.Revision, Date: a.Date, Language: "en", Title: title, Supplementary: shortened(d.r.Frame.Name, titleLength),
			Creator: a.Creator, Approver: a.Approver, DocumentType: kind,
		},
		Tolerance: "ISO 2768-" + a.Tolerance,
	}
	if a.Projection == "third" {
		s.Projection = sheet.ThirdAngle
	}
	return s
}

// titleLength is the most characters of a title (ISO 7200).
const titleLength = 25

// shortened drops whole words from the end of a text until it has at most n
// characters.
func shortened(s string, n int) string {
	for utf8.RuneCountInString(s) > n {
		at := strings.LastIndexByte(s, ' ')
		if at < 0 {
			return string([]rune(s)[:n])
		}
		s = strings.TrimRight(s[:at], " ")
	}
	return s
}

// length writes a length for a table or a note, without its unit.
func (d *drafter) length(mm float64) string { return d.units.Figure(mm) }

// stature writes a body height, without its unit; a thousandth of an inch would
// say too much of it.
func (d *drafter) stature(mm float64) string {
	if d.units != sheet.Millimetres {
		return sheet.Unsigned(strconv.FormatFloat(d.reads().In(mm, "mm"), 'f', 1, 64))
	}
	return d.length(mm)
}

// fine writes a length to the hundredth of a millimetre or the thousandth of
// an inch, all decimals shown.
func (d *drafter) fine(mm float64) string { return d.units.Fine(mm) }

// measure is a length with its unit.
func (d *drafter) measure(mm float64) string { return d.length(mm) + " " + d.unit() }

// reads are the units of who reads the sheets.
func (d *drafter) reads() specs.Units { return d.r.Frame.Drawing.Reads() }

// told is a value in a metric unit as the reader of the sheets has it.
func (d *drafter) told(x float64, unit string) string { return d.reads().Figure(x, unit) }

// screws are those of the shop that reads the sheets.
func (d *drafter) screws() stock.Screws { return d.r.Frame.Drawing.Screws() }

func (d *drafter) unit() string { return d.units.Symbol() }

// at is a point of a view.
func at(x, y float64) r2.Vec { return r2.Vec{X: x, Y: y} }
