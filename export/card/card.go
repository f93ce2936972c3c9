// Package card lays out the card that goes on a station: which settings to begin with,
// by height and arm length.
package card

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"armwright/export/sheet"
	tell "armwright/export/words"
	"armwright/solver/judge"
	"armwright/specs"
	"armwright/specs/people"

	"gonum.org/v1/gonum/spatial/r2"
)

// Sizes of the card at 1:1, mm. Capitals are at least a two-hundredth of the distance
// that they are read from (rule of thumb for signs, M): 3.5 mm at an arm's length of
// 700 mm. Only the notice, which nobody reads while setting a seat, is smaller.
const (
	least      = 148.0 // width
	margin     = 8.0
	figures    = 4.5 // capitals of what is told
	words      = 3.6 // of heads and hints
	title      = 7.0
	small      = 2.2
	row        = 8.0
	headHeight = 14.0
	gutter     = 10.0 // between the tables
	cellGap    = 4.0  // between the columns
	lineGap    = 1.6  // baseline to baseline, in heights of capitals
)

// table is one of the two tables of the card.
type table struct {
	heads [][2]string // in two lines
	rows  [][]string
}

// Of is the card of a station and the persons who were seated in it, nil where too few
// fit for anything to be told. In mm, origin at the lower left. Guide is the hole, from the
// top, of the guide sheaves' pins in each axis position; nil where they have none.
func Of(f *specs.Frame, c *judge.Crowd, guide []int) *sheet.Drawing {
	byHeight, byArm := heights(f, c), arms(f, c)
	if len(byHeight.rows) == 0 || len(byArm.rows) == 0 {
		return nil
	}
	hints := []string{"Begin with the first figure; most people find theirs within the brackets."}
	if places := "Seat 1 is the lowest, handle 1 the nearest to the elbow"; severalAxes(f) {
		hints = append(hints, places+", axis 1 the straightest.", "Right axis: the hand stays where it is on the handle all the way.")
		hints = append(hints, guided(guide)...)
	} else {
		hints = append(hints, places+".")
	}
	width := 2*margin + byHeight.width() + gutter + byArm.width()
	for _, line := range hints {
		width = math.Max(width, 2*margin+sheet.TextWidth(line, words))
	}
	width = math.Ceil(math.Max(width, least))
	notice := sheet.Wrap(sheet.Notice, small, width-2*margin)
	rows := max(len(byHeight.rows), len(byArm.rows))
	foot := float64(len(hints))*lineGap*words + 3 + float64(len(notice))*lineGap*small
	height := margin + title + 4 + headHeight + row*float64(rows) + 5 + foot + margin

	d := &sheet.Drawing{Width: width, Height: height, Title: "Settings", Description: "Settings to begin with, by height and arm length, for the station " + f.Name}
	p := &printer{d}
	p.frame()
	y := height - margin - title
	p.text(margin, y, sheet.Left, title, fitted(f.Name+": settings", title, width-2*margin))
	y -= 4
	right := width - margin - byArm.width()
	p.table(byHeight, margin, y)
	p.table(byArm, right, y)
	y = margin + foot
	for _, line := range hints {
		y -= lineGap * words
		p.text(margin, y, sheet.Left, words, line)
	}
	y -= 3
	for _, line := range notice {
		y -= lineGap * small
		p.text(margin, y, sheet.Left, small, line)
	}
	return d
}

// guided tells where the guide sheaves' pins go with each axis position.
func guided(holes []int) []string {
	if len(holes) < 2 {
		return nil
	}
	var pairs []string
	for i, hole := range holes {
		pairs = append(pairs, fmt.Sprintf("%d in %d", i+1, hole))
	}
	return []string{
		"Guide sheave, both sides, stack at rest: its pin goes with the axis.",
		"Axis and hole from the top: " + strings.Join(pairs, ", ") + ".",
	}
}

// heights is the table by stature.
func heights(f *specs.Frame, c *judge.Crowd) table {
	t := table{heads: [][2]string{{"Your height", centimetres(f)}, {"Seat", ""}}}
	plate, axes := f.Geometry.FootPlate != nil, severalAxes(f)
	if plate {
		t.heads = append(t.heads, [2]string{"Foot", "plate"})
	}
	if axes {
		t.heads = append(t.heads, [2]string{"Axis,", "women"}, [2]string{"Axis,", "men"})
	}
	for i := range c.Bands {
		b := &c.Bands[i]
		if b.Seat.N < judge.FewestTold {
			continue
		}
		cells := []string{between(f, b.From, b.To), usual(b.Seat, 1)}
		if plate {
			cells = append(cells, usual(b.Foot, 0))
		}
		if axes {
			cells = append(cells, usual(b.Axis[people.Woman], 1), usual(b.Axis[people.Man], 1))
		}
		t.rows = append(t.rows, cells)
	}
	return t
}

// arms is the table by arm length; neighbours that are told the same share a line.
func arms(f *specs.Frame, c *judge.Crowd) table {
	t := table{heads: [][2]string{{"Elbow to fist", centimetres(f)}, {"Handle", ""}}}
	var from, to float64
	for _, a := range c.Arms {
		if a.Handle.N < judge.FewestTold {
			continue
		}
		told := usual(a.Handle, 1)
		if last := len(t.rows) - 1; last >= 0 && t.rows[last][1] == told && to == a.From {
			to = a.To
			t.rows[last][0] = between(f, from, to)
			continue
		}
		from, to = a.From, a.To
		t.rows = append(t.rows, []string{between(f, from, to), told})
	}
	return t
}

// severalAxes reports whether the station has an axis position to choose.
func severalAxes(f *specs.Frame) bool { return len(f.Geometry.Pivots.Axes) > 1 }

// edges are the left edges of the columns and the right one of the last, from 0.
func (t *table) edges() []float64 {
	list := []float64{0}
	for i, h := range t.heads {
		w := math.Max(sheet.TextWidth(h[0], words), sheet.TextWidth(h[1], words))
		for _, cells := range t.rows {
			w = math.Max(w, sheet.TextWidth(cells[i], figures))
		}
		list = append(list, list[i]+w+cellGap)
	}
	return list
}

func (t *table) width() float64 { return slices.Max(t.edges()) }

// usual is the position half of some persons take, and between which eight in ten lie.
func usual(u judge.Usual, first int) string {
	if u.N < judge.FewestTold {
		return "–"
	}
	return strings.ReplaceAll(tell.Usual(u, first), "-", "–")
}

func centimetres(f *specs.Frame) string {
	if f.Drawing.Reads() == specs.InchPound {
		return "in"
	}
	return "cm"
}

// between is a range of lengths as people know their own: centimetres or inches.
func between(f *specs.Frame, from, to float64) string {
	if u := f.Drawing.Reads(); u == specs.InchPound {
		return fmt.Sprintf("%.1f–%.1f", u.In(from, "mm"), u.In(to, "mm"))
	}
	return fmt.Sprintf("%.0f–%.0f", from/10, to/10)
}

// fitted shortens a text to a width.
func fitted(text string, height, width float64) string {
	r := []rune(text)
	for len(r) > 0 && sheet.TextWidth(string(r), height) > width {
		r = r[:len(r)-1]
	}
	return string(r)
}

// printer puts lines and letters on the card.
type printer struct{ *sheet.Drawing }

func (p *printer) text(x, y float64, h sheet.HAlign, height float64, s string) {
	p.Primitives = append(p.Primitives, sheet.Label{Role: sheet.Lettering, At: r2.Vec{X: x, Y: y}, Value: s, Height: height, H: h})
}

func (p *printer) line(role sheet.Role, ax, ay, bx, by float64) {
	p.Primitives = append(p.Primitives, sheet.Stroke{Role: role, Path: []sheet.Vertex{{Vec: r2.Vec{X: ax, Y: ay}}, {Vec: r2.Vec{X: bx, Y: by}}}})
}

// frame is the line along which the card is cut.
func (p *printer) frame() {
	var path []sheet.Vertex
	for _, c := range [][2]float64{{0.5, 0.5}, {p.Width - 0.5, 0.5}, {p.Width - 0.5, p.Height - 0.5}, {0.5, p.Height - 0.5}} {
		path = append(path, sheet.Vertex{Vec: r2.Vec{X: c[0], Y: c[1]}})
	}
	p.Primitives = append(p.Primitives, sheet.Stroke{Role: sheet.Border, Path: path, Closed: true})
}

// table rules and letters a table, its top left corner at x, y.
func (p *printer) table(t table, x, y float64) {
	edges := t.edges()
	for i := range edges {
		edges[i] += x
	}
	middle := func(i int) float64 { return (edges[i] + edges[i+1]) / 2 }
	for i, h := range t.heads {
		lines := slices.DeleteFunc([]string{h[0], h[1]}, func(s string) bool { return s == "" })
		for k, s := range lines {
			up := float64(len(lines)-1-k) * lineGap * words
			p.text(middle(i), y-headHeight+3+up, sheet.Middle, words, s)
		}
	}
	y -= headHeight
	p.line(sheet.Visible, x, y, edges[len(edges)-1], y)
	for _, cells := range t.rows {
		for i, s := range cells {
			p.text(middle(i), y-row/2-figures/2, sheet.Middle, figures, s)
		}
		y -= row
		p.line(sheet.Thin, x, y, edges[len(edges)-1], y)
	}
}
