package svg

import (
	"fmt"
	"io"
	"math"
	"strings"

	"armwright/export/sheet"

	"gonum.org/v1/gonum/spatial/r2"
)

// thumbnailGrid is what a thumbnail's points are rounded to, mm on paper: far
// below what can be told apart at its size.
const thumbnailGrid = 1.0

// Thumbnail writes the drawing as a picture to be shown small: outlines as
// straight strokes on a coarse grid, texts as bars, in a few paths. It is a
// fragment for a page, stands on a white sheet and names itself by the drawing's
// title. The error is that
// of w.
func Thumbnail(w io.Writer, d *sheet.Drawing) error {
	t := thumbnail{height: d.Height, seen: map[string]bool{}}
	for p := range d.All() {
		switch p := p.(type) {
		case sheet.Stroke:
			to := &t.fine
			if style := p.Role.Style(); style.Width >= sheet.WideLine {
				to = &t.bold
			}
			t.stroke(to, p.Path, p.Closed)
		case sheet.Fill:
			for _, loop := range p.Loops {
				t.stroke(&t.fine, loop, true)
			}
		case sheet.Label:
			t.bar(p)
		}
	}
	out := &sink{w: w}
	width, height := number(d.Width), number(d.Height)
	fmt.Fprintf(out, `<svg viewBox="0 0 %s %s" role="img" aria-label="`, width, height)
	escape(out, d.Title)
	fmt.Fprintf(out, `"><path d="M0 0H%sV%sH0Z" fill="#fff"/>`, width, height)
	for _, layer := range [...]struct {
		path          *strings.Builder
		colour, width string
	}{{&t.bars, "#bbb", "2"}, {&t.fine, "#777", "0.7"}, {&t.bold, "#000", "1.4"}} {
		fmt.Fprintf(out, `<path fill="none" stroke="%s" stroke-width="%s" d="%s"/>`, layer.colour, layer.width, layer.path)
	}
	fmt.Fprint(out, "</svg>")
	return out.err
}

type thumbnail struct {
	height           float64
	bold, fine, bars strings.Builder
	seen             map[string]bool // strokes drawn, as many fall on one another
}

// stroke adds a path, or nothing where it is smaller than the grid.
func (t *thumbnail) stroke(to *strings.Builder, path []sheet.Vertex, closed bool) {
	points := make([]r2.Vec, 0, len(path)+1)
	for i, v := range path {
		points = append(points, v.Vec)
		next := i + 1
		if next == len(path) {
			if !closed {
				break
			}
			next = 0
		}
		if v.Bulge != 0 {
			points = append(points, chords(v.Vec, path[next].Vec, v.Bulge)...)
		}
	}
	if closed && len(path) > 0 {
		points = append(points, path[0].Vec)
	}
	t.add(to, points)
}

func (t *thumbnail) add(to *strings.Builder, points []r2.Vec) {
	var b strings.Builder
	var last [2]int
	n := 0
	for _, p := range points {
		at := [2]int{int(math.Round(p.X / thumbnailGrid)), int(math.Round((t.height - p.Y) / thumbnailGrid))}
		switch {
		case n == 0:
			fmt.Fprintf(&b, "M%d %d", at[0], at[1])
		case at == last:
			continue
		default:
			fmt.Fprintf(&b, "l%d %d", at[0]-last[0], at[1]-last[1])
		}
		last = at
		n++
	}
	if n < 2 || t.seen[b.String()] {
		return
	}
	t.seen[b.String()] = true
	to.WriteString(b.String())
}

// chords are points on an arc between its ends, a twelfth of a turn apart at most.
func chords(a, b r2.Vec, bulge float64) []r2.Vec {
	centre, radius, start, sweep := sheet.ArcOf(a, b, bulge)
	if radius < 2*thumbnailGrid {
		return nil
	}
	n := int(math.Ceil(math.Abs(sweep) / (math.Pi / 6)))
	var out []r2.Vec
	for i := 1; i < n; i++ {
		sin, cos := math.Sincos(start + sweep*float64(i)/float64(n))
		out = append(out, r2.Add(centre, r2.Vec{X: radius * cos, Y: radius * sin}))
	}
	return out
}

// bar stands for a line of lettering.
func (t *thumbnail) bar(l sheet.Label) {
	width := sheet.TextWidth(l.Value, l.Height)
	from := 0.0
	switch l.H {
	case sheet.Middle:
		from = -width / 2
	case sheet.Right:
		from = -width
	}
	sin, cos := math.Sincos(l.Rotation)
	along := func(x float64) r2.Vec {
		y := l.Height / 2
		return r2.Add(l.At, r2.Vec{X: x*cos - y*sin, Y: x*sin + y*cos})
	}
	t.add(&t.bars, []r2.Vec{along(from), along(from + width)})
}
