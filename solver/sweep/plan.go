// Package sweep plans and runs studies: many briefs or frames that differ in a
// few values, each judged or solved, in an order and with results that do not
// depend on how the work is spread.
package sweep

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"armwright/specs"
)

// Method is how the designs of a study are spread over the axes.
type Method string

const (
	Grid  Method = "grid"            // every level of every axis with every other, the last axis fastest
	Latin Method = "latin-hypercube" // random, every axis cut into as many strata as there are designs (McKay, Beckman and Conover 1979)
	Sobol Method = "sobol"           // the digital sequence of Sobol' (1967)
)

// Methods lists the methods.
func Methods() []Method { return []Method{Grid, Latin, Sobol} }

// Axis is one value that a study varies: over levels, or over a range.
type Axis struct {
	Place    *specs.Place
	Levels   []string // as they stand in a file; nil for a range
	From, To float64  // inside units, a range
}

// Plan is a study laid out. Designs are numbered from 0; each is computed from
// its number alone, so nothing is kept of the others.
type Plan struct {
	Method Method
	Axes   []Axis
	size   int
	seed   uint64
}

// MostDesigns bounds a study: more is a slip of the hand.
const MostDesigns = 100_000_000

// Error is a study that cannot be laid out, with what to do about it.
type Error struct {
	What string // the axis, or the study itself
	Why  string
	hint string
}

func (e *Error) Error() string { return e.What + ": " + e.Why }

// Hint says what to change.
func (e *Error) Hint() string { return e.hint }

// ParseAxis reads what a value takes on: levels "10 mm, 20 mm, 30 mm", or,
// for a number, a range "10 mm..30 mm", of which a grid needs the number of
// levels, "10 mm..30 mm:5". The error is an *Error, or a *specs.Problems for a
// value that could not stand at the place.
func ParseAxis(p *specs.Place, text string) (Axis, error) {
	a := Axis{Place: p}
	fail := func(hint, why string, args ...any) (Axis, error) {
		return Axis{}, &Error{What: p.Path(), Why: fmt.Sprintf(why, args...), hint: hint}
	}
	if from, to, ok := strings.Cut(text, ".."); ok && p.Numeric() {
		to, steps, counted := strings.Cut(to, ":")
		var err error
		if a.From, err = p.Number(from); err != nil {
			return Axis{}, err
		}
		if a.To, err = p.Number(to); err != nil {
			return Axis{}, err
		}
		if a.From >= a.To {
			return fail("write "+strings.TrimSpace(to)+".."+strings.TrimSpace(from), "the range is empty or runs backwards")
		}
		if !counted {
			return a, nil
		}
		n, err := strconv.Atoi(strings.TrimSpace(steps))
		if err != nil || n < 2 || n > MostDesigns {
			return fail("at least 2, as "+strings.TrimSpace(from)+".."+strings.TrimSpace(to)+":5", "%q is no number of levels", steps)
		}
		return a.divided(n), nil
	}
	for _, level := range strings.Split(text, ",") {
		level = strings.TrimSpace(level)
		if err := p.Check(level); err != nil {
			return Axis{}, err
		}
		if p.Numeric() { // as the file would hold it
			x, err := p.Number(level)
			if err != nil {
				return Axis{}, err
			}
			level = p.Format(x)
		}
		for _, other := range a.Levels {
			if other == level {
				return fail("each level once", "%s appears twice", level)
			}
		}
		a.Levels = append(a.Levels, level)
	}
	return a, nil
}

// divided is a range as n levels at equal steps, a count's levels rounded and
// each once.
func (a Axis) divided(n int) Axis {
	var last string
	for i := range n {
		text := a.Place.Format(a.From + (a.To-a.From)*float64(i)/float64(n-1))
		if text != last {
			a.Levels = append(a.Levels, text)
		}
		last = text
	}
	return a
}

// at is the axis' value at a share of its length, 0 <= u < 1.
func (a *Axis) at(u float64) string {
	switch {
	case a.Levels != nil:
		return a.Levels[int(u*float64(len(a.Levels)))]
	case a.Place.Whole():
		return a.Place.Format(math.Floor(a.From + u*(a.To-a.From+1)))
	}
	return a.Place.Format(a.From + u*(a.To-a.From))
}

// NewPlan lays a study out. Points is the number of designs of a random method
// and must be 0 for a grid, whose axes all need levels, except that a count's
// range stands for every whole number in it. Seed says which of the random
// hypercubes is meant; grid and Sobol' sequence do not use it. The error is an
// *Error.
func NewPlan(m Method, axes []Axis, points int, seed uint64) (*Plan, error) {
	p := &Plan{Method: m, Axes: axes, size: points, seed: seed}
	fail := func(what, hint, why string, args ...any) (*Plan, error) {
		return nil, &Error{What: what, Why: fmt.Sprintf(why, args...), hint: hint}
	}
	switch {
	case len(axes) == 0:
		return fail("study", "name a value, as limits.hand_path=10 mm..20 mm", "no value varies")
	case m == Sobol && len(axes) > SobolAxes:
		return fail("study", "vary fewer, or use "+string(Latin), "%d axes; the direction numbers here serve %d", len(axes), SobolAxes)
	case m != Grid && (points < 1 || points > MostDesigns):
		return fail("study", fmt.Sprintf("1 to %d", MostDesigns), "%d designs", points)
	case m == Grid && points != 0:
		return fail("study", "leave the number out, or use another method", "a grid has as many designs as its levels make")
	}
	if m != Grid {
		return p, nil
	}
	p.size = 1
	p.Axes = append([]Axis(nil), axes...)
	for i := range p.Axes {
		a := &p.Axes[i]
		if a.Levels == nil {
			span := a.To - a.From
			if !a.Place.Whole() || span >= MostDesigns {
				return fail(a.Place.Path(), fmt.Sprintf("write %s..%s:5", a.Place.Format(a.From), a.Place.Format(a.To)), "a grid needs the number of levels of a range")
			}
			*a = a.divided(int(span) + 1)
		}
		if p.size > MostDesigns/len(a.Levels) {
			return fail("study", "give fewer levels, or use another method", "more than %d designs", MostDesigns)
		}
		p.size *= len(a.Levels)
	}
	return p, nil
}

// Len is the number of designs.
func (p *Plan) Len() int { return p.size }

// Design appends the texts of the axes' values in design i, 0 <= i < Len.
func (p *Plan) Design(to []string, i int) []string {
	switch p.Method {
	case Grid:
		first := len(to)
		for range p.Axes {
			to = append(to, "")
		}
		for k := len(p.Axes) - 1; k >= 0; k-- {
			levels := p.Axes[k].Levels
			to[first+k] = levels[i%len(levels)]
			i /= len(levels)
		}
	case Latin:
		for k := range p.Axes {
			to = append(to, p.Axes[k].at(latin(i, p.size, k, p.seed)))
		}
	case Sobol:
		for k := range p.Axes {
			to = append(to, p.Axes[k].at(sobol(uint32(i), k)))
		}
	}
	return to
}
