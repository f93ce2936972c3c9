package require

import (
	"fmt"
	"math"
)

// Row is one requirement of one person or case.
type Row struct {
	Kind     int
	Value    float64
	Margin   float64 // positive when met, inside unit
	Who      int     // person, -1 for none
	Angle    float64
	HasAngle bool
	Case     Phrase
}

// Rows collects the outcome of one evaluation.
type Rows struct {
	Card  *Card
	Quiet bool // no cases: the search reads none
	List  []Row
	last  string    // id that was looked up last
	kind  int       // and its place among the kinds
	bars  []float64 // least margin by kind so far, where only what governs is kept; else nil
	spare Row       // the last that was not
}

// Govern empties the rows and has them keep only what governs: a row that is not
// below all before it of its kind.
func (r *Rows) Govern(c *Card) {
	r.Card, r.Quiet, r.List, r.bars = c, true, r.List[:0], r.bars[:0]
	for range c.Kinds {
		r.bars = append(r.bars, math.Inf(1))
	}
}

// Governing says whether only what governs is kept.
func (r *Rows) Governing() bool { return r.bars != nil }

// Below is the value under which a row of a requirement that asks for at least
// its limit would be kept; +Inf where every row is.
func (r *Rows) Below(id string) float64 {
	if !r.Governing() {
		return math.Inf(1)
	}
	k := r.Card.KindOf(id)
	return r.bars[k] + r.Card.Limits[k]
}

// Add appends a row of the requirement id for a person (or -1).
func (r *Rows) Add(id string, who int, value float64) *Row {
	if r.last != id {
		r.last, r.kind = id, r.Card.KindOf(id)
	}
	k := r.kind
	m := r.Card.Limits[k] - value
	if r.Card.Kinds[k].AtLeast {
		m = -m
	}
	return r.Put(Row{Kind: k, Value: value, Margin: m, Who: who})
}

// Within is add for a requirement with a least value as well: the nearer limit
// counts.
func (r *Rows) Within(id string, who int, value, least float64) {
	k := r.Card.KindOf(id)
	r.Put(Row{Kind: k, Value: value, Margin: min(r.Card.Limits[k]-value, value-least), Who: who})
}

// hopeless is by how many units that matter a value that is no number misses.
const hopeless = 1e6

// Put appends a row, if it is to be kept. Every requirement passes here: one whose
// value or margin is not a finite number is missed.
func (r *Rows) Put(w Row) *Row {
	if !finite(w.Value) || !finite(w.Margin) {
		w.Margin = -hopeless * r.Card.Kinds[w.Kind].Scale
	}
	if r.Governing() {
		if w.Margin >= r.bars[w.Kind] {
			r.spare = w
			return &r.spare
		}
		r.bars[w.Kind] = w.Margin
	}
	r.List = append(r.List, w)
	return &r.List[len(r.List)-1]
}

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }

func (w *Row) At(theta float64) *Row  { w.Angle, w.HasAngle = theta, true; return w }
func (w *Row) Named(note string) *Row { w.Case.Words = note; return w }
func (r *Rows) Named(w *Row, format string, args ...any) {
	if !r.Quiet {
		w.Case = Name(fmt.Sprintf(format, args...))
	}
}

// Span is a stretch of rows.
type Span struct{ From, To int }

// Since returns the stretch from a row to the last one and its smallest scaled
// margin, +Inf of no rows.
func (r *Rows) Since(first int) (Span, float64) {
	m := math.Inf(1)
	for i := first; i < len(r.List); i++ {
		m = min(m, r.Card.Scaled(&r.List[i]))
	}
	return Span{first, len(r.List)}, m
}

// Least is the smallest scaled margin of all.
func (r *Rows) Least() float64 {
	_, m := r.Since(0)
	return m
}

// Take is least, and empties the rows.
func (r *Rows) Take() float64 {
	m := r.Least()
	r.List = r.List[:0]
	return m
}
