package sweep

import "slices"

// Front is the set of designs that no other design betters: better in one
// figure and no worse in the rest. Of equal ones the first is kept.
type Front[T any] struct {
	more   []bool
	points []Point[T]
}

// Point is a design on a front.
type Point[T any] struct {
	Figures []float64
	Design  T
}

// NewFront returns the empty front over figures of which more, or else less,
// is better.
func NewFront[T any](more ...bool) *Front[T] { return &Front[T]{more: more} }

// Add takes a design in unless another is at least as good in every figure, and
// drops those that it betters. It reports whether the design was taken in.
// Figures must not be NaN; they are copied.
func (f *Front[T]) Add(figures []float64, design T) bool {
	for i := range f.points {
		if f.covers(f.points[i].Figures, figures) {
			return false
		}
	}
	f.points = slices.DeleteFunc(f.points, func(p Point[T]) bool { return f.covers(figures, p.Figures) })
	f.points = append(f.points, Point[T]{slices.Clone(figures), design})
	return true
}

// covers says whether a is at least as good as b in every figure.
func (f *Front[T]) covers(a, b []float64) bool {
	for i, more := range f.more {
		if a[i] != b[i] && a[i] > b[i] != more {
			return false
		}
	}
	return true
}

// Points are the front's designs in the order in which they were added.
func (f *Front[T]) Points() []Point[T] { return f.points }
