package sheet

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// Proportions of tables and notes, mm.
const (
	tableText  = SmallText
	headText   = ViewText
	rowHeight  = 5.0
	cellPad    = 1.5
	partGap    = 3.0 // between the parts of a broken table
	notesWidth = 90.0
)

// Columns makes the columns of a table: a header that starts with < is aligned left, with
// > right, otherwise in the middle.
func Columns(headers ...string) []Column {
	out := make([]Column, len(headers))
	for i, h := range headers {
		out[i] = Column{Header: h, Align: Middle}
		switch h[0] {
		case '<':
			out[i] = Column{Header: h[1:], Align: Left}
		case '>':
			out[i] = Column{Header: h[1:], Align: Right}
		}
	}
	return out
}

// draw rules and letters the table in parts side by side, its lower left corner at the
// origin.
func (t Table) draw(parts int) []Primitive {
	widths := make([]float64, len(t.Columns))
	for i, c := range t.Columns {
		widths[i] = TextWidth(c.Header, tableText)
		for _, row := range t.Rows {
			if i < len(row) {
				widths[i] = math.Max(widths[i], TextWidth(row[i], tableText))
			}
		}
		widths[i] += 2 * cellPad
	}
	total := 0.0
	for _, w := range widths {
		total += w
	}
	each := (len(t.Rows) + parts - 1) / parts
	tall := float64(each+1) * rowHeight
	var out []Primitive
	put := func(s string, x, y, w float64, align HAlign) {
		if s == "" {
			return
		}
		at := r2.Vec{X: x + cellPad, Y: y + (rowHeight-tableText)/2}
		switch align {
		case Middle:
			at.X = x + w/2
		case Right:
			at.X = x + w - cellPad
		}
		out = append(out, Label{Lettering, at, s, tableText, 0, align})
	}
	for part := range parts {
		rows := t.Rows[min(part*each, len(t.Rows)):min((part+1)*each, len(t.Rows))]
		x0 := float64(part) * (total + partGap)
		bottom := tall - float64(len(rows)+1)*rowHeight
		x := x0
		for i, c := range t.Columns {
			put(c.Header, x, tall-rowHeight, widths[i], Middle)
			for k, row := range rows {
				if i < len(row) {
					put(row[i], x, tall-float64(k+2)*rowHeight, widths[i], c.Align)
				}
			}
			if i > 0 {
				out = append(out, rule(Thin, x, bottom, x, tall))
			}
			x += widths[i]
		}
		for k := 1; k < len(rows); k++ {
			y := tall - float64(k+1)*rowHeight
			out = append(out, rule(Thin, x0, y, x0+total, y))
		}
		out = append(out, rule(Visible, x0, tall-rowHeight, x0+total, tall-rowHeight),
			rectangle(Visible, x0, bottom, total, tall-bottom))
	}
	if t.Title != "" {
		out = append(out, Label{Lettering, r2.Vec{Y: tall + 1.5}, t.Title, headText, 0, Left})
	}
	return out
}

// drawNotes draws numbered notes, their lower left corner near the origin.
func drawNotes(notes []string) []Primitive {
	const indent, pitch = 7.0, 4.5
	var out []Primitive
	y := 0.0
	put := func(x float64, s string) {
		out = append(out, Label{Lettering, r2.Vec{X: x, Y: y}, s, tableText, 0, Left})
	}
	for i, note := range notes {
		put(0, fmt.Sprintf("%d", i+1))
		for _, line := range Wrap(note, tableText, notesWidth-indent) {
			put(indent, line)
			y -= pitch
		}
		y -= 0.3 * pitch
	}
	return append(out, Label{Lettering, r2.Vec{Y: pitch + 1}, "Notes", headText, 0, Left})
}
