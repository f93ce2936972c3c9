package sheet

import (
	"fmt"
	"math"
	"strconv"
	"unicode/utf8"

	"gonum.org/v1/gonum/spatial/r2"
)

// TitleBlockWidth is the width of the title block (ISO 7200), mm.
const TitleBlockWidth = 180.0

// Heights in mm of the title block and of the rows that stand on it: the
// drawing's data (scale, tolerances, projection), the scale bar, the
// notice.
const (
	cellHeight   = 9.0
	blockHeight  = 4 * cellHeight
	dataHeight   = 11.0
	barHeight    = 8.0
	noticeHeight = 11.0
	stackHeight  = blockHeight + dataHeight + barHeight + noticeHeight
	captionSize  = 1.8
)

// Field is a data field of ISO 7200:2004.
type Field struct {
	Name      string
	Value     string
	Limit     int // most characters, 0 free
	Mandatory bool
}

// Fields lists the title block's data fields in the order of the standard.
func (t TitleBlock) Fields() []Field {
	count := func(n int) string {
		if n == 0 {
			return ""
		}
		return strconv.Itoa(n)
	}
	return []Field{
		{"Legal owner", t.Owner, 0, true},
		{"Identification number", t.Number, 16, true},
		{"Revision index", t.Revision, 2, false},
		{"Date of issue", t.Date, 10, true},
		{"Sheet number", count(t.Sheet), 4, true},
		{"Number of sheets", count(t.Sheets), 4, false},
		{"Language code", t.Language, 4, false},
		{"Title", t.Title, 25, true},
		{"Supplementary title", t.Supplementary, 25, false},
		{"Responsible department", t.Department, 10, false},
		{"Technical reference", t.Reference, 20, false},
		{"Approval person", t.Approver, 20, true},
		{"Creator", t.Creator, 20, true},
		{"Document type", t.DocumentType, 30, true},
	}
}

// tooLong gives a problem for each field over the standard's length.
func (t TitleBlock) tooLong() []Problem {
	var out []Problem
	for _, f := range t.Fields() {
		if f.Limit > 0 && utf8.RuneCountInString(f.Value) > f.Limit {
			out = append(out, Problem{Fault: TooLong, Text: f.Name + ": " + f.Value})
		}
	}
	return out
}

// writer draws cells of the title block.
type writer struct {
	x, y  float64 // lower left corner of the block
	prims []Primitive
	tight []Problem // values that do not fit
}

// cell draws a captioned box at (x, y) from the corner of the block.
func (w *writer) cell(x, y, width, height float64, caption string, values ...string) {
	const pad = 1.2
	w.prims = append(w.prims, rectangle(Thin, w.x+x, w.y+y, width, height))
	w.text(x+pad, y+height-pad-captionSize, captionSize, caption, Thin)
	// Lines of one text keep together in the middle of a high cell.
	const pitch = 6.5
	free := height - pad - captionSize
	line := math.Min(pitch, free/float64(max(1, len(values))))
	y0 := y + (free-line*float64(len(values)))/2
	for i, v := range values {
		if v == "" {
			continue
		}
		h := fit(v, ViewText, width-2*pad)
		if TextWidth(v, h) > width-2*pad {
			w.tight = append(w.tight, Problem{TooLong, v, w.x + x, w.y + y})
		}
		base := y0 + line*float64(len(values)-1-i) + (line-h)/2 + 0.3
		w.text(x+pad, base, h, v, Lettering)
	}
}

func (w *writer) text(x, y, height float64, s string, role Role) {
	w.prims = append(w.prims, Label{role, r2.Vec{X: w.x + x, Y: w.y + y}, s, height, 0, Left})
}

// drawTitleBlock draws the title block and what stands on it, and reports values that
// do not fit.
func (s *Sheet) drawTitleBlock(scale string) ([]Primitive, []Problem) {
	fx, fy, fw, _ := s.Size.Space()
	t := s.TitleBlock
	w := &writer{x: fx + fw - TitleBlockWidth, y: fy}
	sheetOf := strconv.Itoa(t.Sheet)
	if t.Sheets > 0 {
		sheetOf = fmt.Sprintf("%d / %d", t.Sheet, t.Sheets)
	}
	w.cell(0, 27, 32, cellHeight, "Responsible dept.", t.Department)
	w.cell(32, 27, 48, cellHeight, "Technical reference", t.Reference)
	w.cell(80, 27, 50, cellHeight, "Created by", t.Creator)
	w.cell(130, 27, 50, cellHeight, "Approved by", t.Approver)
	w.cell(0, 0, 58, 27, "Legal owner", Wrap(t.Owner, ViewText, 55)...)
	w.cell(58, 18, 72, cellHeight, "Document type", t.DocumentType)
	w.cell(58, 0, 72, 18, "Title, supplementary title", t.Title, t.Supplementary)
	w.cell(130, 18, 50, cellHeight, "Identification number", t.Number)
	w.cell(130, 9, 17, cellHeight, "Revision", t.Revision)
	w.cell(147, 9, 33, cellHeight, "Date of issue", t.Date)
	w.cell(130, 0, 17, cellHeight, "Language", t.Language)
	w.cell(147, 0, 33, cellHeight, "Sheet", sheetOf)

	y := blockHeight
	w.cell(0, y, 34, dataHeight, "Scale", scale)
	w.cell(34, y, 50, dataHeight, "General tolerances", s.Tolerance)
	w.cell(84, y, 30, dataHeight, "Dimensions in", s.Units.String())
	w.cell(114, y, 36, dataHeight, "Projection", "")
	w.prims = append(w.prims, s.Projection.symbol(r2.Vec{X: w.x + 138, Y: w.y + y + dataHeight/2})...)
	w.cell(150, y, 30, dataHeight, "Paper size", s.Size.String())

	y += dataHeight
	w.prims = append(w.prims, rectangle(Thin, w.x, w.y+y, TitleBlockWidth, barHeight))
	bar := s.Units.bar()
	w.bar(6, y+2, bar)
	w.text(6+bar.long()+6, y+(barHeight-SmallText)/2, SmallText, bar.told(), Thin)

	y += barHeight
	w.prims = append(w.prims, rectangle(Thin, w.x, w.y+y, TitleBlockWidth, noticeHeight))
	lines := Wrap(Notice, SmallText, TitleBlockWidth-6)
	for i, line := range lines {
		base := y + noticeHeight - (noticeHeight-4*float64(len(lines)))/2 - 4*float64(i+1) + 0.8
		w.text(3, base, SmallText, line, Lettering)
	}
	w.prims = append(w.prims, rectangle(Visible, w.x, w.y, TitleBlockWidth, stackHeight))
	return w.prims, w.tight
}

// scaleBar is the bar that reports whether a print is to scale: a number of
// fields, each so long, mm. Whole is its length in its unit.
type scaleBar struct {
	fields int
	step   float64
	whole  int
	unit   string
}

// bar is 100 mm in centimetres, or four inches in halves.
func (u Units) bar() scaleBar {
	if u == Millimetres {
		return scaleBar{10, 10, 100, "mm"}
	}
	return scaleBar{8, millimetresPerInch / 2, 4, "in"}
}

func (b scaleBar) long() float64 { return float64(b.fields) * b.step }

func (b scaleBar) told() string { return fmt.Sprintf("bar is %d %s at true scale", b.whole, b.unit) }

// bar draws the scale bar, every other field filled.
func (w *writer) bar(x, y float64, b scaleBar) {
	const tall = 2.0
	w.prims = append(w.prims, rectangle(Thin, w.x+x, w.y+y, b.long(), tall))
	for i := 0; i < b.fields; i += 2 {
		x0 := w.x + x + float64(i)*b.step
		box := rectangle(Thin, x0, w.y+y, b.step, tall)
		w.prims = append(w.prims, Fill{Thin, [][]Vertex{box.Path}})
	}
	for half := range 3 {
		l := Label{Thin, r2.Vec{X: w.x + x + b.long()*float64(half)/2, Y: w.y + y + tall + 0.8}, strconv.Itoa(b.whole * half / 2), captionSize, 0, Middle}
		w.prims = append(w.prims, l)
	}
}

// symbol draws the truncated cone of ISO 5456-2 about a centre: in first angle
// the two circles, which are the view from the left of a cone whose small end
// is on the left, stand on its right; in third angle on its left.
func (p Projection) symbol(at r2.Vec) []Primitive {
	const big, small, long, apart = 2.8, 1.4, 6.0, 8.5 // radii, length, distance of the two views
	cone, rings := r2.Vec{X: at.X - apart/2, Y: at.Y}, r2.Vec{X: at.X + apart/2, Y: at.Y}
	if p == ThirdAngle {
		cone, rings = rings, cone
	}
	point := func(x, y float64) r2.Vec { return r2.Add(cone, r2.Vec{X: x, Y: y}) }
	return []Primitive{
		Stroke{Visible, straight(point(-long/2, -small), point(long/2, -big), point(long/2, big), point(-long/2, small)), true},
		Stroke{Visible, circlePath(rings, big), true},
		Stroke{Visible, circlePath(rings, small), true},
		rule(Centre, cone.X-long/2-1, cone.Y, cone.X+long/2+1, cone.Y),
		rule(Centre, rings.X-big-0.8, rings.Y, rings.X+big+0.8, rings.Y),
		rule(Centre, rings.X, rings.Y-big-0.8, rings.X, rings.Y+big+0.8),
	}
}
