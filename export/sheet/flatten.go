package sheet

import (
	"fmt"
	"slices"

	"armwright/export/sheet/boxes"

	"gonum.org/v1/gonum/spatial/r2"
)

// Flatten lays the sheet out and draws it on paper. Views without a scale get
// the largest recommended one at which everything fits; the result depends on
// the sheet alone. The error is an *Error: a coordinate that is not finite, a
// view twice in one position, or content that fits at no scale.
func (s *Sheet) Flatten() (*Drawing, error) {
	if err := s.valid(); err != nil {
		return nil, err
	}
	bodies := s.bodies()
	lay := s.layouts(bodies)
	a, err := s.arrange(lay)
	for _, t := range s.relieved() {
		if err == nil {
			break
		}
		s, lay = &t, t.layouts(bodies)
		a, err = s.arrange(lay)
	}
	if err != nil {
		return nil, err
	}
	s, a = s.smallest(a, lay)
	a = s.grown(a, lay)
	s.spare(a, lay)
	return s.compose(a), nil
}

// arrangement is a solution of the layout.
type arrangement struct {
	views  []laidView
	scales []Scale
	at     []r2.Vec
	tables []placed
	floor  *boxes.Floor // with all of these on it
}

// placed is a table, or the notes, and how far it is shifted.
type placed struct {
	prims []Primitive
	by    r2.Vec
}

// leftOut reports whether there was no room for a view that is drawn in spare room.
func (a *arrangement) leftOut(s *Sheet, i int) bool {
	return s.Views[i].Spare && a.scales[i] == (Scale{})
}

// compose draws the frame, the title block and what has been arranged.
func (s *Sheet) compose(a *arrangement) *Drawing {
	width, height := s.Size.Trimmed()
	t := s.TitleBlock
	d := &Drawing{Width: width, Height: height, Number: t.Sheet, Title: t.Title, Description: s.describe(a), frame: s.Size.frameBox()}
	d.Primitives = s.Size.frame()
	d.framing = len(d.Primitives)
	block, problems := s.drawTitleBlock(s.scaleText(a))
	d.Primitives = append(d.Primitives, block...)
	d.fields = append(problems, t.tooLong()...)
	for _, t := range a.tables {
		for _, p := range t.prims {
			d.Primitives = append(d.Primitives, moved(p, t.by))
		}
	}
	for i, v := range a.views {
		if a.leftOut(s, i) {
			continue
		}
		by := a.at[i]
		d.Views = append(d.Views, PlacedView{s.Views[i].Title, a.scales[i], by})
		for _, p := range v.prims {
			d.Primitives = append(d.Primitives, moved(p, by))
		}
		for _, dim := range v.dims {
			d.Dimensions = append(d.Dimensions, dim.moved(by))
		}
	}
	return d
}

// relieved gives what a sheet that may grow becomes when nothing fits: each
// larger size, then on the last the smallest lettering, then no scales of its
// own.
func (s *Sheet) relieved() []Sheet {
	var out []Sheet
	if len(s.Larger) == 0 {
		return nil
	}
	t := *s
	for _, t.Size = range s.Larger {
		out = append(out, t)
	}
	t.TextHeight = SmallText
	out = append(out, t)
	t.Views = slices.Clone(s.Views)
	for i := range t.Views {
		t.Views[i].Scale = Scale{}
	}
	return append(out, t)
}

func (p PlacedDimension) moved(by r2.Vec) PlacedDimension {
	p.A, p.B, p.Vertex = r2.Add(p.A, by), r2.Add(p.B, by), r2.Add(p.Vertex, by)
	p.Line, p.TextMiddle = r2.Add(p.Line, by), r2.Add(p.TextMiddle, by)
	prims := make([]Primitive, len(p.Primitives))
	for i, q := range p.Primitives {
		prims[i] = moved(q, by)
	}
	p.Primitives = prims
	return p
}

// describe puts the title block in words, for readers that cannot see.
func (s *Sheet) describe(a *arrangement) string {
	t := s.TitleBlock
	text := fmt.Sprintf("Drawing sheet %d", t.Sheet)
	if t.Sheets > 0 {
		text += fmt.Sprintf(" of %d", t.Sheets)
	}
	text += fmt.Sprintf(", size %s, dimensions in %s.", s.Size, s.Units)
	for i, v := range s.Views {
		if v.Title == "" || a.leftOut(s, i) {
			continue
		}
		if i == 0 {
			text += " Views:"
		}
		text += " " + v.Title + ";"
	}
	return text + " " + Notice
}

// scaleText is the scale for the title block: that of the front view, else of
// the first view that has one.
func (s *Sheet) scaleText(a *arrangement) string {
	main := s.mainScale(a.scales)
	if main == (Scale{}) {
		return "none"
	}
	return main.String()
}

func (s *Sheet) mainScale(scales []Scale) Scale {
	main := Scale{}
	for i, v := range s.Views {
		if v.NotToScale || v.Spare {
			continue
		}
		if v.Position == Front {
			return scales[i]
		}
		if main == (Scale{}) {
			main = scales[i]
		}
	}
	return main
}

// lettering is the height of dimensions and notes in views.
func (s *Sheet) lettering() float64 {
	switch {
	case s.TextHeight != 0:
		return s.TextHeight
	case s.Size == A1 || s.Size == InchD:
		return LargeText
	}
	return ViewText
}
