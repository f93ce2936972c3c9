package sheet

import (
	"math"

	"armwright/export/sheet/boxes"

	"gonum.org/v1/gonum/spatial/r2"
)

// Picture draws the geometry of one view by itself, for a screen: without frame
// and title block, on paper just large enough, at the scale at which it fills
// wide x tall paper mm in one of the two. Dimensions, leaders and balloons are
// left out. Number, title and description become those of the drawing. The
// error is an *Error: nothing to draw, or a coordinate that is not finite.
func (v View) Picture(number int, title, description string, wide, tall float64) (*Drawing, error) {
	s := Sheet{TitleBlock: TitleBlock{Title: title}, Views: []View{v}}
	s.Views[0].Position = Free
	if err := s.valid(); err != nil {
		return nil, err
	}
	l := &viewLayout{view: v, factor: 1, height: pictureLettering, alone: true}
	l.out.body = boxes.Empty()
	l.geometry()
	if boxes.IsEmpty(l.out.body) {
		return nil, s.fail("nothing to draw", "give the view entities")
	}
	size := r2.Sub(l.out.body.Max, l.out.body.Min)
	const parts = 10000 // of one, to which a scale is exact
	factor := math.Min(wide/math.Max(size.X, 1), tall/math.Max(size.Y, 1))
	scale := Scale{Drawing: max(1, int(factor*parts)), Real: parts}
	l = &viewLayout{view: v, factor: scale.Factor(), height: pictureLettering, alone: true}
	l.out.body = boxes.Empty()
	l.geometry()
	box := l.out.body
	by := r2.Vec{X: pictureEdge - box.Min.X, Y: pictureEdge - box.Min.Y}
	d := &Drawing{
		Width: box.Max.X - box.Min.X + 2*pictureEdge, Height: box.Max.Y - box.Min.Y + 2*pictureEdge,
		Number: number, Title: title, Description: description,
		Views: []PlacedView{{title, scale, by}}, Primitives: make([]Primitive, len(l.out.prims)),
	}
	d.frame = r2.Box{Max: r2.Vec{X: d.Width, Y: d.Height}}
	for i, p := range l.out.prims {
		d.Primitives[i] = moved(p, by)
	}
	return d, nil
}

// Of a picture: height of its lettering and width of the empty edge, paper mm.
const (
	pictureLettering = ViewText
	pictureEdge      = 3.0
)
