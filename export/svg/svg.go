// Package svg renders a drawing as SVG at true size: one user unit is one
// millimetre on paper, stroke widths and dash patterns included.
package svg

import (
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"armwright/export/sheet"
	"armwright/specs/angle"

	svgo "github.com/ajstarks/svgo/float"
	"gonum.org/v1/gonum/spatial/r2"
)

// Renderer writes drawings as SVG; see [sheet.Renderer].
type Renderer struct{}

// Extension is ".svg".
func (Renderer) Extension() string { return ".svg" }

// Render writes the drawing to w: black on a white sheet, arcs as arcs, text
// as text in a sans-serif font set to the width it was laid out with. The same
// drawing gives the same bytes; coordinates are rounded to 1e-4 mm. The error
// is that of w.
func (Renderer) Render(w io.Writer, d *sheet.Drawing) error {
	out := &sink{w: w}
	r := &pen{svgo.New(out), d.Height}
	// x and y of texts are in their transform, so they are written as plain 0.
	r.svg.Decimals = 0
	width, height := number(d.Width), number(d.Height)
	id := fmt.Sprintf("sheet-%d", d.Number)
	r.svg.Startraw(
		`width="`+width+`mm"`, `height="`+height+`mm"`, `viewBox="0 0 `+width+` `+height+`"`,
		`role="img"`, `aria-labelledby="`+id+`-title `+id+`-desc"`)
	title := d.Title
	if title == "" {
		title = "Drawing sheet"
	}
	named(out, "title", id+"-title", title)
	named(out, "desc", id+"-desc", d.Description)
	r.svg.Path("M0 0H"+width+"V"+height+"H0Z", `fill="white"`)
	open := ""
	for p := range d.All() {
		if group := attributes(p); group != open {
			if open != "" {
				r.svg.Gend()
			}
			r.svg.Group(group)
			open = group
		}
		r.primitive(p)
	}
	if open != "" {
		r.svg.Gend()
	}
	r.svg.End()
	return out.err
}

// sink remembers the first error of a writer, which svgo does not report.
type sink struct {
	w   io.Writer
	err error
}

func (s *sink) Write(p []byte) (int, error) {
	if s.err == nil {
		_, s.err = s.w.Write(p)
	}
	return len(p), nil
}

func named(w io.Writer, tag, id, text string) {
	fmt.Fprintf(w, "<%s id=\"%s\">", tag, id)
	escape(w, text)
	fmt.Fprintf(w, "</%s>\n", tag)
}

// escape writes text. The only error is the writer's, which sink keeps.
func escape(w io.Writer, text string) { _ = xml.EscapeText(w, []byte(text)) }

// pen draws on a sheet of a height, as y runs down.
type pen struct {
	svg    *svgo.SVG
	height float64
}

// attributes is what a primitive shares with its neighbours of the same role.
func attributes(p sheet.Primitive) string {
	switch p := p.(type) {
	case sheet.Stroke:
		style := p.Role.Style()
		s := `class="` + strings.ToLower(style.Layer) + `" fill="none" stroke="black" stroke-width="` + number(style.Width) + `" stroke-linejoin="round"`
		if style.Dash == nil {
			return s + ` stroke-linecap="round"`
		}
		lengths := make([]string, len(style.Dash))
		for i, l := range style.Dash {
			lengths[i] = number(l)
		}
		return s + ` stroke-dasharray="` + strings.Join(lengths, " ") + `"`
	case sheet.Fill:
		return `class="` + strings.ToLower(p.Role.String()) + `" fill="black" fill-rule="evenodd"`
	case sheet.Label:
		return `class="` + strings.ToLower(p.Role.String()) + `" fill="black" font-family="Helvetica, Arial, sans-serif"`
	}
	panic("svg: unknown primitive")
}

func (r *pen) primitive(p sheet.Primitive) {
	switch p := p.(type) {
	case sheet.Stroke:
		r.svg.Path(r.path(p.Path, p.Closed))
	case sheet.Fill:
		var b strings.Builder
		for _, loop := range p.Loops {
			b.WriteString(r.path(loop, true))
		}
		r.svg.Path(b.String())
	case sheet.Label:
		r.text(p)
	}
}

func (r *pen) text(l sheet.Label) {
	place := "translate(" + r.point(l.At) + ")"
	if turn := number(-l.Rotation / angle.Degree); turn != "0" {
		place += " rotate(" + turn + ")"
	}
	attr := []string{
		`transform="` + place + `"`,
		`font-size="` + number(sheet.FontSize(l.Height)) + `"`,
		`textLength="` + number(sheet.TextWidth(l.Value, l.Height)) + `"`,
		`lengthAdjust="spacingAndGlyphs"`,
	}
	switch l.H {
	case sheet.Middle:
		attr = append(attr, `text-anchor="middle"`)
	case sheet.Right:
		attr = append(attr, `text-anchor="end"`)
	}
	r.svg.Text(0, 0, l.Value, attr...)
}

// point writes a paper point with y running down.
func (r *pen) point(p r2.Vec) string { return number(p.X) + " " + number(r.height-p.Y) }

// Path writes a path of lines and arcs as the data of an SVG path element, for
// pictures that are not sheets: in the path's own unit, y turned to run down.
func Path(path []sheet.Vertex, closed bool) string { return (&pen{}).path(path, closed) }

// path writes a path of lines and arcs.
func (r *pen) path(path []sheet.Vertex, closed bool) string {
	var b strings.Builder
	to := func(from, v sheet.Vertex) {
		if from.Bulge == 0 {
			b.WriteString("L" + r.point(v.Vec))
			return
		}
		_, radius, _, _ := sheet.ArcOf(from.Vec, v.Vec, from.Bulge)
		large, sweep := "0", "0"
		if math.Abs(from.Bulge) > 1 {
			large = "1"
		}
		// Counter-clockwise on paper is the negative sense where y runs down.
		if from.Bulge < 0 {
			sweep = "1"
		}
		n := number(radius)
		b.WriteString("A" + n + " " + n + " 0 " + large + " " + sweep + " " + r.point(v.Vec))
	}
	for i, v := range path {
		if i == 0 {
			b.WriteString("M" + r.point(v.Vec))
			continue
		}
		to(path[i-1], v)
	}
	if closed && len(path) > 0 {
		if last := path[len(path)-1]; last.Bulge != 0 {
			to(last, path[0])
		}
		b.WriteString("Z")
	}
	return b.String()
}

// number writes v to 1e-4, without trailing zeros.
func number(v float64) string {
	s := strconv.FormatFloat(v, 'f', 4, 64)
	s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	if s == "-0" {
		return "0"
	}
	return s
}
