package sheet

import (
	"strconv"

	"gonum.org/v1/gonum/spatial/r2"
)

// Reference fields of ISO 5457:1999: 50 mm long, counted from the centring
// marks, in a band of 5 mm outside the frame.
const (
	fieldLength = 50.0
	fieldBand   = 5.0
	fieldHeight = ViewText // of the letters and numerals
	markInside  = 5.0      // centring mark inside the frame
)

func rectangle(role Role, x, y, w, h float64) Stroke {
	return Stroke{role, straight(r2.Vec{X: x, Y: y}, r2.Vec{X: x + w, Y: y}, r2.Vec{X: x + w, Y: y + h}, r2.Vec{X: x, Y: y + h}), true}
}

func rule(role Role, x0, y0, x1, y1 float64) Stroke {
	return Stroke{Role: role, Path: straight(r2.Vec{X: x0, Y: y0}, r2.Vec{X: x1, Y: y1})}
}

// frameBox is the frame.
func (s Size) frameBox() r2.Box {
	x, y, w, h := s.Space()
	return r2.Box{Min: r2.Vec{X: x, Y: y}, Max: r2.Vec{X: x + w, Y: y + h}}
}

// marks are the places of the centring marks inside the frame.
func (s Size) marks() []r2.Box {
	p, b := s.paper(), s.frameBox()
	cx, cy := p.width/2, p.height/2
	out := []r2.Box{
		{Min: r2.Vec{X: cx, Y: b.Max.Y - markInside}, Max: r2.Vec{X: cx, Y: b.Max.Y}},
		{Min: r2.Vec{X: b.Min.X, Y: cy}, Max: r2.Vec{X: b.Min.X + markInside, Y: cy}},
		{Min: r2.Vec{X: b.Max.X - markInside, Y: cy}, Max: r2.Vec{X: b.Max.X, Y: cy}},
	}
	if p.across != 0 {
		out = append(out, r2.Box{Min: r2.Vec{X: cx, Y: b.Min.Y}, Max: r2.Vec{X: cx, Y: b.Min.Y + markInside}})
	}
	return out
}

// fieldLetters are the letters of the fields from the top down: no I, no O.
const fieldLetters = "ABCDEFGHJKLMNPQRSTUVWXYZ"

// frame draws the frame, the centring marks and the reference fields.
func (s Size) frame() []Primitive {
	p := s.paper()
	x, y, w, h := s.Space()
	out := []Primitive{rectangle(Border, x, y, w, h)}
	cx, cy := p.width/2, p.height/2
	out = append(out,
		rule(Border, cx, y+h-markInside, cx, y+h+fieldBand),
		rule(Border, x-fieldBand, cy, x+markInside, cy),
		rule(Border, x+w-markInside, cy, x+w+fieldBand, cy))
	if p.across == 0 {
		// On a portrait sheet the title block takes the whole lower edge.
		return append(out, rule(Border, cx, y-fieldBand, cx, y))
	}
	out = append(out, rule(Border, cx, y-fieldBand, cx, y+markInside))
	out = append(out, rectangle(Thin, x-fieldBand, y-fieldBand, w+2*fieldBand, h+2*fieldBand))
	letter := func(s string, x, y float64) {
		l := centred(r2.Vec{X: x, Y: y}, s, fieldHeight, 0)
		l.Role = Border
		out = append(out, l)
	}
	xs := divisions(x, x+w, cx, p.across)
	for i := 0; i+1 < len(xs); i++ {
		if i > 0 {
			out = append(out, rule(Thin, xs[i], y-fieldBand, xs[i], y), rule(Thin, xs[i], y+h, xs[i], y+h+fieldBand))
		}
		m := (xs[i] + xs[i+1]) / 2
		letter(strconv.Itoa(i+1), m, y-fieldBand/2)
		letter(strconv.Itoa(i+1), m, y+h+fieldBand/2)
	}
	ys := divisions(y, y+h, cy, p.upward)
	for i := 0; i+1 < len(ys); i++ {
		if i > 0 {
			out = append(out, rule(Thin, x-fieldBand, ys[i], x, ys[i]), rule(Thin, x+w, ys[i], x+w+fieldBand, ys[i]))
		}
		m := (ys[i] + ys[i+1]) / 2
		name := fieldLetters[len(ys)-2-i : len(ys)-1-i]
		letter(name, x-fieldBand/2, m)
		letter(name, x+w+fieldBand/2, m)
	}
	return out
}

// divisions gives the ends of n fields over lo to hi: full fields from the
// centre outwards, the rest to the outermost two.
func divisions(lo, hi, centre float64, n int) []float64 {
	out := []float64{lo}
	for k := 1 - n/2; k < n/2; k++ {
		out = append(out, centre+float64(k)*fieldLength)
	}
	return append(out, hi)
}
