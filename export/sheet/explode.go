package sheet

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"armwright/specs/angle"
)

// Proportions of dimensions in paper mm (ISO 129-1).
const (
	ArrowLength   = 10 * NarrowLine // closed, filled, 15 degrees
	ExtensionGap  = 1.0             // between feature and extension line
	ExtensionPast = 8 * NarrowLine  // extension line past the dimension line
)

// The rest, which only the layout uses (DIN 406 for the distances of dimension
// lines).
const (
	firstOffset = 10.0            // first dimension line from the outline
	leastPitch  = 8.0             // between parallel dimension lines
	tailLength  = 2 * ArrowLength // line behind an arrow that points inward
	textGap     = 1.0             // between a line and the baseline above it
	dotRadius   = 0.5             // of the dot that ends a leader inside an outline
	sideGap     = 0.6             // free at either end of a text between extension lines
)

const arrowHalfAngle = 7.5 * angle.Degree

// arrow is a filled arrowhead with its tip at the point, pointing along dir.
func arrow(tip, dir r2.Vec) Fill {
	half := ArrowLength * math.Tan(arrowHalfAngle)
	base := along(tip, dir, -ArrowLength)
	return Fill{Dimensioning, [][]Vertex{straight(tip, along(base, left(dir), half), along(base, left(dir), -half))}}
}

// dimLine is a narrow line of a dimension.
func dimLine(points ...r2.Vec) Stroke { return Stroke{Role: Dimensioning, Path: straight(points...)} }

// readable turns an angle so that text along it reads from the bottom or from
// the right of the sheet: into (-π/2, π/2].
func readable(angle float64) float64 {
	a := math.Remainder(angle, math.Pi)
	if a <= -math.Pi/2+1e-9 {
		a += math.Pi
	}
	return a
}

// middleOf is the centre of the capitals of a label that has its anchor in the
// middle.
func middleOf(l Label) r2.Vec { return along(l.At, left(polar(l.Rotation)), l.Height/2) }

// centred is a label whose capitals are centred on a point.
func centred(at r2.Vec, text string, height, rotation float64) Label {
	l := Label{Dimensioning, at, text, height, rotation, Middle}
	l.At = along(at, left(polar(rotation)), -height/2)
	return l
}

// exploded is a dimension drawn on paper: lines that have no choice, and
// alternatives for the rest, best first. Every alternative holds one label of
// the value.
type exploded struct {
	placed  PlacedDimension
	fixed   []Primitive
	choice  [][]Primitive
	between bool // the value has room between the extension lines
}

// fits reports whether the value of a linear dimension stands between its
// extension lines.
func fits(length, textWidth float64) bool { return textWidth+2*sideGap <= length }

// linear draws a dimension between paper points a and b whose dimension line
// runs along the unit vector dir through the point at.
func linear(a, b, dir, at r2.Vec, text string, height float64) exploded {
	fa := along(at, dir, r2.Dot(r2.Sub(a, at), dir))
	fb := along(at, dir, r2.Dot(r2.Sub(b, at), dir))
	rotation := readable(math.Atan2(dir.Y, dir.X))
	read := polar(rotation)
	// From here on a, fa is the end where the text starts.
	if r2.Dot(r2.Sub(fb, fa), read) < 0 {
		a, b, fa, fb = b, a, fb, fa
	}
	length, width := r2.Dot(r2.Sub(fb, fa), read), TextWidth(text, height)
	e := exploded{placed: PlacedDimension{Line: fb, Direction: rotation}, between: fits(length, width)}
	for _, ext := range [...][2]r2.Vec{{a, fa}, {b, fb}} {
		d := r2.Sub(ext[1], ext[0])
		if n := r2.Norm(d); n > ExtensionGap {
			d = r2.Scale(1/n, d)
			e.fixed = append(e.fixed, dimLine(along(ext[0], d, ExtensionGap), along(ext[1], d, ExtensionPast)))
		}
	}
	if length >= 2*ArrowLength+1 {
		e.fixed = append(e.fixed, dimLine(fa, fb), arrow(fa, r2.Scale(-1, read)), arrow(fb, read))
	} else {
		e.fixed = append(e.fixed, dimLine(along(fa, read, -tailLength), along(fb, read, tailLength)),
			arrow(fa, read), arrow(fb, r2.Scale(-1, read)))
	}
	label := func(t float64) Label {
		p := along(along(fa, read, t), left(read), textGap+depth(text, height))
		return Label{Dimensioning, p, text, height, rotation, Middle}
	}
	if e.between {
		slack := (length - width) / 2
		for _, f := range [...]float64{0, 0.3, -0.3, 0.6, -0.6, 0.9, -0.9} {
			e.choice = append(e.choice, []Primitive{label(length/2 + f*(slack-sideGap))})
		}
	}
	// Beside the extension lines, and further out where another value is.
	for _, f := range [...]float64{0, 0.5, 1, 1.5, 2, 3, 4, 6, 8} {
		clear := ArrowLength + 1 + f*(width+2)
		e.choice = append(e.choice,
			[]Primitive{label(length + clear + width/2), dimLine(fb, along(fb, read, clear+width))},
			[]Primitive{label(-clear - width/2), dimLine(fa, along(fa, read, -clear-width))})
	}
	return e
}

// angular draws the dimension of the angle at v, from the direction of a over
// sweep, with its arc at the given radius. Where covers finds no line for the
// arc to end on, the leg gets an extension line.
func angular(v, a, b r2.Vec, sweep, radius float64, text string, height float64, covers func(r2.Vec) bool) []exploded {
	da := r2.Sub(a, v)
	start := math.Atan2(da.Y, da.X)
	var fixed []Primitive
	for _, leg := range [...]struct {
		end   r2.Vec
		angle float64
	}{{a, start}, {b, start + sweep}} {
		n, u := r2.Norm(r2.Sub(leg.end, v)), polar(leg.angle)
		if n > radius && !covers(along(v, u, radius)) {
			n = 0 // nothing is drawn there: from the vertex
		}
		if n+ExtensionGap < radius {
			fixed = append(fixed, dimLine(along(v, u, n+ExtensionGap), along(v, u, radius+ExtensionPast)))
		}
	}
	// An arrowhead on an arc is turned so that its base is on the arc as well.
	turn := ArrowLength / (2 * radius)
	head := func(angle, sense float64) Fill {
		return arrow(along(v, polar(angle), radius), r2.Scale(sense, left(polar(angle-sense*turn))))
	}
	end := start + sweep
	inside := radius*sweep >= 2*ArrowLength+1
	if inside {
		fixed = append(fixed, Stroke{Dimensioning, sweptPath(v, radius, start, sweep), false},
			head(start, -1), head(end, 1))
	} else {
		tail := tailLength / radius
		fixed = append(fixed, Stroke{Dimensioning, sweptPath(v, radius, start-tail, sweep+2*tail), false},
			head(start, 1), head(end, -1))
	}
	w := TextWidth(text, height)
	beyond := (tailLength + w/2) / radius
	var out []exploded
	for _, angle := range [...]float64{
		start + sweep/2, start + sweep*0.35, start + sweep*0.65, start + sweep*0.2, start + sweep*0.8,
		end + beyond, start - beyond, end + 1.6*beyond, start - 1.6*beyond, end + 2.4*beyond, start - 2.4*beyond,
	} {
		u := polar(angle)
		reach := math.Abs(u.X)*w/2 + math.Abs(u.Y)*height/2
		mid := along(v, u, radius+textGap+reach)
		prims := append(append([]Primitive{}, fixed...), centred(mid, text, height, 0))
		// A value beside the angle is joined to it by its arc.
		if angle > end {
			prims = append(prims, Stroke{Role: Dimensioning, Path: sweptPath(v, radius, end, angle-end)})
		} else if angle < start {
			prims = append(prims, Stroke{Role: Dimensioning, Path: sweptPath(v, radius, start, angle-start)})
		}
		out = append(out, exploded{
			placed: PlacedDimension{Line: along(v, polar(start+sweep/2), radius)}, choice: [][]Primitive{prims},
		})
	}
	return out
}

// shelf draws an arrow on a leader from the tip along dir, then a horizontal
// shelf that carries lines of text.
func shelf(role Role, tip, dir r2.Vec, length float64, lines []string, height float64, dot bool) []Primitive {
	width := 0.0
	for _, s := range lines {
		width = math.Max(width, TextWidth(s, height))
	}
	elbow := along(tip, dir, length)
	sense := 1.0
	if dir.X < 0 {
		sense = -1
	}
	end := r2.Add(elbow, r2.Vec{X: sense * (width + 1)})
	out := []Primitive{Stroke{Role: role, Path: straight(tip, elbow, end)}}
	if dot {
		out = append(out, Fill{role, [][]Vertex{circlePath(tip, dotRadius)}})
	} else {
		head := arrow(tip, r2.Scale(-1, dir))
		head.Role = role
		out = append(out, head)
	}
	middle := r2.Add(elbow, r2.Vec{X: sense * (width + 1) / 2})
	for i, s := range lines {
		up := textGap + float64(len(lines)-1-i)*1.6*height
		out = append(out, Label{role, r2.Add(middle, r2.Vec{Y: up}), s, height, 0, Middle})
	}
	return out
}

// leaderAngles are the directions in which leaders run: none along the lines
// that most outlines are made of.
func leaderAngles() []float64 {
	var out []float64
	for _, deg := range [...]float64{45, 135, 315, 225, 60, 120, 300, 240, 30, 150, 330, 210, 75, 105, 285, 255} {
		out = append(out, deg*angle.Degree)
	}
	return out
}

// leaderLengths are the lengths tried for leaders, paper mm.
func leaderLengths() []float64 { return []float64{8, 12, 16, 22, 28, 36, 46, 60, 75, 95} }

// spread moves positions, sorted ascending, apart to at least pitch, by as
// little as possible in the sense of least squares (pool-adjacent-violators on
// the positions less i·pitch).
func spread(sorted []float64, pitch float64) []float64 {
	type pool struct {
		sum float64
		n   int
	}
	var pools []pool
	for i, x := range sorted {
		pools = append(pools, pool{x - float64(i)*pitch, 1})
		for k := len(pools) - 1; k > 0 && pools[k].sum*float64(pools[k-1].n) < pools[k-1].sum*float64(pools[k].n); k-- {
			pools[k-1].sum += pools[k].sum
			pools[k-1].n += pools[k].n
			pools = pools[:k]
		}
	}
	out := make([]float64, 0, len(sorted))
	for _, p := range pools {
		for range p.n {
			out = append(out, p.sum/float64(p.n)+float64(len(out))*pitch)
		}
	}
	return out
}
