package sheet

import (
	"math"

	"armwright/specs/stock"

	"gonum.org/v1/gonum/spatial/r2"
)

// Weld is the symbol of a fillet weld on a leader, its place chosen like that of a
// leader: on sheets in millimetres that of ISO 2553:2013, system A, with the throat; in
// inches that of AWS A2.4 with the leg, to the next sixteenth above. Arrow side and
// other side are alike where Both is set.
type Weld struct {
	At     r2.Vec
	Throat float64 // a, mm
	Length float64 // of one run, mm; 0 where it goes all round or along the whole seam
	Around bool    // all round: a circle at the bend
	Both   bool    // a run on either side
	Tail   string  // at the end of the reference line: the row of a table; may be empty
}

func (Weld) entity() {}

// Size is what stands before the symbol in given units.
func (w *Weld) Size(u Units) string {
	if u == Millimetres {
		return "a" + Millimetres.Length(w.Throat, 1)
	}
	return stock.Fraction(int(math.Ceil(16*w.Throat*math.Sqrt2/25.4-0.05)), 16)
}

// run is what stands behind the symbol.
func (w *Weld) run(u Units) string {
	switch {
	case w.Length == 0:
		return ""
	case u == Millimetres:
		return Millimetres.Length(w.Length, 0)
	}
	return u.Length(w.Length, 1)
}

// Proportions of the symbol, paper mm or shares of the lettering's height.
const (
	weldSide   = 1.1 // of the triangle, of the height
	weldRing   = 1.2 // radius of the all-round circle, mm
	weldDashed = 1.2 // of the identification line below the reference line, mm
	weldPad    = 1.0 // between the parts of the symbol, mm
)

// weld draws the symbol with its arrow at the tip and its leader along dir.
func (l *viewLayout) weld(w *Weld, dir r2.Vec, length float64) []Primitive {
	h := l.height
	tip := l.paper(w.At)
	elbow := along(tip, dir, length)
	size, run := w.Size(l.units), w.run(l.units)
	side := weldSide * h
	wide := weldRing + weldPad + TextWidth(size, h) + weldPad + side + weldPad
	if run != "" {
		wide += TextWidth(run, h) + weldPad
	}
	sense := 1.0
	if dir.X < 0 {
		sense = -1
	}
	end := r2.Add(elbow, r2.Vec{X: sense * wide})
	head := arrow(tip, r2.Scale(-1, dir))
	head.Role = Thin
	out := []Primitive{Stroke{Role: Thin, Path: straight(tip, elbow, end)}, head}
	if w.Around {
		out = append(out, Stroke{Thin, circlePath(elbow, weldRing), true})
	}
	x := math.Min(elbow.X, end.X) + weldPad
	if sense > 0 {
		x += weldRing
	}
	// The arrow's side is on the continuous line: above it here in system A, below it in
	// A2.4, which has no second line.
	sides := []float64{1}
	switch {
	case w.Both:
		sides = []float64{1, -1}
	case l.units != Millimetres:
		sides = []float64{-1}
	default:
		out = append(out, Stroke{Role: Hidden, Path: straight(r2.Vec{X: x, Y: elbow.Y - weldDashed}, r2.Vec{X: x + wide - 2*weldPad - weldRing, Y: elbow.Y - weldDashed})})
	}
	text := func(s string, at float64, up float64) {
		if s == "" {
			return
		}
		y := elbow.Y + textGap/2 + depth(s, h)
		if up < 0 {
			y = elbow.Y - textGap/2 - h
		}
		out = append(out, Label{Thin, r2.Vec{X: at, Y: y}, s, h, 0, Left})
	}
	foot := x + TextWidth(size, h) + weldPad
	for _, up := range sides {
		text(size, x, up)
		out = append(out, Stroke{Role: Thin, Path: straight(r2.Vec{X: foot, Y: elbow.Y}, r2.Vec{X: foot, Y: elbow.Y + up*side}, r2.Vec{X: foot + side, Y: elbow.Y})})
		text(run, foot+side+weldPad, up)
	}
	if w.Tail == "" {
		return out
	}
	const fork = 2.0
	t := r2.Vec{X: sense * fork, Y: fork}
	out = append(out, Stroke{Role: Thin, Path: straight(r2.Add(end, t), end, r2.Add(end, r2.Vec{X: t.X, Y: -t.Y}))})
	at := r2.Vec{X: end.X + sense*(fork+weldPad/2), Y: end.Y - h/2}
	align := Left
	if sense < 0 {
		align = Right
	}
	return append(out, Label{Thin, at, w.Tail, h, 0, align})
}
