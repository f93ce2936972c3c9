package sheet

import (
	"math"
	"slices"

	"armwright/export/sheet/boxes"

	"gonum.org/v1/gonum/spatial/r2"
)

// Check looks for defects of a drawing: texts that cover each other or lie on an
// outline or on a centring mark, anything outside the frame, values that do not
// fit their field, characters that the font does not have. Marks of the frame
// itself are exempt. The error is a *CheckError that lists the problems.
func (d *Drawing) Check() error {
	if problems := append(slices.Clone(d.fields), d.clashes()...); len(problems) > 0 {
		return &CheckError{d.Title, problems}
	}
	return nil
}

// clashes are the defects that show once everything has its place.
func (d *Drawing) clashes() []Problem {
	const tolerance = 0.01 // mm
	var out []Problem
	var labels []Label
	var blocks []block
	var outlines boxes.Grid[Role]
	n := 0
	for p := range d.All() {
		n++
		box := primitiveBox(p)
		text := ""
		switch p := p.(type) {
		case Label:
			text = p.Value
			labels, blocks = append(labels, p), append(blocks, p.block())
			if !Lettered(p.Value) {
				out = append(out, Problem{Unprintable, p.Value, p.At.X, p.At.Y})
			}
		case Stroke:
			text = p.Role.String()
			if p.Role == Visible || p.Role == Cut || p.Role == Border {
				pts := flatten(p.Path, p.Closed, clearChord)
				for i := 1; i < len(pts); i++ {
					outlines.Add(segment{A: pts[i-1], B: pts[i], Role: p.Role})
				}
			}
		case Fill:
			text = p.Role.String()
		}
		outside := box.Min.X < d.frame.Min.X-tolerance || box.Min.Y < d.frame.Min.Y-tolerance ||
			box.Max.X > d.frame.Max.X+tolerance || box.Max.Y > d.frame.Max.Y+tolerance
		if outside && n > d.framing {
			out = append(out, Problem{Outside, text, box.Min.X, box.Min.Y})
		}
	}
	spaces := make([]r2.Box, len(blocks))
	for i, b := range blocks {
		spaces[i] = b.box()
	}
	for i := range blocks {
		at := labels[i].At
		for k := i + 1; k < len(blocks); k++ {
			if boxes.Meet(spaces[i], spaces[k]) && blocks[i].padded(-tolerance).overlaps(blocks[k].padded(-tolerance)) {
				out = append(out, Problem{Overlap, labels[i].Value + " / " + labels[k].Value, at.X, at.Y})
			}
		}
		inner := blocks[i].padded(-math.Min(0.2, labels[i].Height/10))
		outlines.Near(spaces[i], func(s segment) bool {
			if inner.crosses(s.A, s.B) {
				out = append(out, Problem{Struck, labels[i].Value, at.X, at.Y})
				return false
			}
			return true
		})
	}
	return out
}
