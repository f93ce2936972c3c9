package specs

import (
	"math"
	"reflect"
)

// Span is a numeric value of a brief with the closed range the format allows,
// in inside units.
type Span struct {
	*Place
	Value, Least, Most float64
}

// Span returns the numeric value at a path, "limits.hand_path" or
// "posture.lean.to", with its range; ok is false where there is no number or
// no range.
func (b *Brief) Span(path string) (s Span, ok bool) {
	p, err := find(reflect.ValueOf(b).Elem(), path)
	if err != nil || !p.Numeric() || p.field.min == "" {
		return s, false
	}
	s = Span{Place: p, Least: p.field.bound(p.field.min), Most: p.field.bound(p.field.max)}
	if p.Whole() {
		s.Value = float64(p.at.Int())
	} else {
		s.Value = p.at.Float()
	}
	return s, true
}

// Usual is the value that stands where a brief gives none, false where it must.
func (s Span) Usual() (x float64, ok bool) {
	text := s.field.defaultIn("")
	if text == "" {
		return 0, false
	}
	return s.field.bound(text), true
}

// Set puts a number where the value stands in the brief the span was taken of,
// rounded to a whole one for a count. Whether the brief still holds together is
// for Validate to say.
func (s Span) Set(x float64) {
	if s.Whole() {
		s.at.SetInt(int64(math.Round(x)))
		return
	}
	s.at.SetFloat(x)
}
