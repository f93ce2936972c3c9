package plot

import (
	"fmt"
	"html/template"
	"strings"
)

// Drawing is an SVG being written, in user units with y running down.
type Drawing struct {
	strings.Builder
	joined bool // a path's next point needs a line to it
}

// Text writes a line of text; anchor is "start", "middle" or "end".
func (d *Drawing) Text(x, y float64, anchor, s string) {
	fmt.Fprintf(d, `<text x="%.1f" y="%.1f" text-anchor="%s">%s</text>`, x, y, anchor, template.HTMLEscapeString(s))
}

// Line draws a straight line.
func (d *Drawing) Line(class string, x0, y0, x1, y1 float64) {
	fmt.Fprintf(d, `<path class="%s" d="M%.1f %.1fL%.1f %.1f"/>`, class, x0, y0, x1, y1)
}

// Rect draws a rectangle from its upper left corner.
func (d *Drawing) Rect(class string, x, y, w, h float64) {
	fmt.Fprintf(d, `<rect class="%s" x="%.1f" y="%.1f" width="%.1f" height="%.1f"/>`, class, x, y, w, h)
}

// Dot draws a circle; a title is told by what points at it.
func (d *Drawing) Dot(class string, x, y, radius float64, title string) {
	fmt.Fprintf(d, `<circle class="%s" cx="%.1f" cy="%.1f" r="%g"`, class, x, y, radius)
	if title == "" {
		d.WriteString("/>")
		return
	}
	fmt.Fprintf(d, `><title>%s</title></circle>`, template.HTMLEscapeString(title))
}

// Open begins a path whose points follow, Close ends it.
func (d *Drawing) Open(s string) {
	d.joined = false
	d.WriteString(s)
}

// Point adds a point to the path.
func (d *Drawing) Point(x, y float64) {
	if d.joined {
		d.WriteByte('L')
	}
	d.joined = true
	fmt.Fprintf(d, "%.1f %.1f", x, y)
}

// Close ends a path.
func (d *Drawing) Close(s string) { d.WriteString(s) }

// SVG is the whole picture, with the name that those who do not see it hear.
func (d *Drawing) SVG(width, height float64, name string) template.HTML {
	return template.HTML(fmt.Sprintf(`<svg class="plot" viewBox="0 0 %g %.0f" role="img" aria-label="%s">%s</svg>`,
		width, height, template.HTMLEscapeString(name), d.String()))
}

// Legend sets its entries one after another, on as many rows as it takes.
type Legend struct {
	*Drawing
	X, Y float64 // where the next row begins and lies
	at   float64 // how far the row is filled
}

// Entry adds a name, unless it is empty, beside what sample draws.
func (l *Legend) Entry(name string, sample func(x, y float64)) {
	if name == "" {
		return
	}
	width := 28 + letter*float64(len([]rune(name))) + 12
	if l.at == 0 {
		l.at, l.Y = l.X, l.Y+legendRow-8
	} else if l.at+width-12 > Width {
		l.at, l.Y = l.X, l.Y+legendRow
	}
	sample(l.at, l.Y)
	l.Text(l.at+28, l.Y+4, "start", name)
	l.at += width
}

// FileMark is how a picture as a file begins, by which it is known to be one of ours.
const FileMark = `<svg xmlns="http://www.w3.org/2000/svg" data-program="armwright"`

// File is the picture as a file of its own, on white paper, with a style for
// its classes beside those of text, grid and frame.
func (d *Drawing) File(width, height float64, name, style string) []byte {
	return fmt.Appendf(nil, FileMark+` viewBox="0 0 %g %g" width="%g" height="%g" role="img">
<title>%s</title>
<style>text{font:13px sans-serif;fill:#222}.grid{stroke:#ddd;fill:none}.frame{stroke:#444;fill:none}%s</style>
<rect width="%g" height="%g" fill="#fff"/>
%s
</svg>
`, width, height, width, height, template.HTMLEscapeString(name), style, width, height, d.String())
}
