package sheet

import (
	"cmp"
	"math"
	"slices"

	"armwright/export/sheet/boxes"

	"gonum.org/v1/gonum/spatial/r2"
)

// Rows of balloons, paper mm.
const (
	rowGap       = 4.0  // from what is drawn to the rings
	ringGap      = 2.0  // between rings of a row
	mostSlots    = 48   // tried for a balloon, the nearest
	fewSlots     = 24   // tried at least
	farthestSlot = 90.0 // from its dot of those beyond
)

// balloons draws the item references of the view in rows: beside the outline and beside
// everything that has been drawn, at all four sides. Each takes the free place of a row
// that disturbs least.
func (l *viewLayout) balloons() {
	var list []Balloon
	radius := 1.2 * l.height
	for _, e := range l.view.Entities {
		if b, ok := e.(Balloon); ok {
			list = append(list, b)
			radius = max(radius, TextWidth(b.Item, l.height)/2+1.2)
		}
	}
	if len(list) == 0 {
		return
	}
	var slots []r2.Vec
	for _, box := range [...]r2.Box{l.out.body, l.drawn.extent} {
		if !boxes.IsEmpty(box) {
			slots = append(slots, rows(box, radius)...)
		}
	}
	// From above to below and from left to right, so that lines do not cross.
	slices.SortStableFunc(list, func(a, b Balloon) int {
		return cmp.Or(cmp.Compare(b.At.Y, a.At.Y), cmp.Compare(a.At.X, b.At.X))
	})
	for _, b := range list {
		at := l.paper(b.At)
		near := slices.Clone(slots)
		slices.SortStableFunc(near, func(p, q r2.Vec) int {
			return cmp.Compare(r2.Norm(r2.Sub(p, at)), r2.Norm(r2.Sub(q, at)))
		})
		var options [][]Primitive
		for _, c := range near {
			d := r2.Norm(r2.Sub(c, at))
			if d < radius+1 {
				continue
			}
			if len(options) == mostSlots || d > farthestSlot && len(options) >= fewSlots {
				break
			}
			options = append(options, l.balloon(at, c, radius, b.Item))
		}
		l.add(options[l.drawn.best(options)]...)
	}
}

// rows are the middles of rings in a row on each side of a box.
func rows(box r2.Box, radius float64) []r2.Vec {
	var out []r2.Vec
	pitch := 2*radius + ringGap
	line := func(from, to float64, put func(x float64)) {
		n := max(1, int(math.Floor((to-from+2*radius)/pitch)))
		start := (from+to)/2 - float64(n-1)*pitch/2
		for i := range n {
			put(start + float64(i)*pitch)
		}
	}
	line(box.Min.X, box.Max.X, func(x float64) {
		out = append(out, r2.Vec{X: x, Y: box.Max.Y + rowGap + radius}, r2.Vec{X: x, Y: box.Min.Y - rowGap - radius})
	})
	line(box.Min.Y, box.Max.Y, func(y float64) {
		out = append(out, r2.Vec{X: box.Min.X - rowGap - radius, Y: y}, r2.Vec{X: box.Max.X + rowGap + radius, Y: y})
	})
	return out
}

// balloon draws an item number in a circle at the end of a line from a dot.
func (l *viewLayout) balloon(at, centre r2.Vec, radius float64, item string) []Primitive {
	label := centred(centre, item, l.height, 0)
	label.Role = Thin
	dir := r2.Unit(r2.Sub(centre, at))
	return []Primitive{
		Stroke{Role: Thin, Path: straight(at, along(centre, dir, -radius))},
		Fill{Thin, [][]Vertex{circlePath(at, dotRadius)}},
		Stroke{Thin, circlePath(centre, radius), true},
		label,
	}
}
