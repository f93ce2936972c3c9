package fit

import (
	"fmt"
	"math"
)

// row is one requirement of one person or case.
type row struct {
	kind     int
	value    float64
	margin   float64 // positive when met, inside unit
	who      int     // person, -1 for none
	angle    float64
	hasAngle bool
	note     string
}

// rows collects the outcome of one evaluation.
type rows struct {
	card  *card
	quiet bool // no notes: the search reads none
	list  []row
	bars  []float64 // least margin by kind so far, where only what governs is kept; else nil
	spare row       // the last that was not
}

// govern empties the rows and has them keep only what governs: a row that is not
// below all before it of its kind.
func (r *rows) govern(c *card) {
	r.card, r.quiet, r.list, r.bars = c, true, r.list[:0], r.bars[:0]
	for range c.kinds {
		r.bars = append(r.bars, math.Inf(1))
	}
}

// governing says whether only what governs is kept.
func (r *rows) governing() bool { return r.bars != nil }

// below is the value under which a row of a requirement that asks for at least
// its limit would be kept; +Inf where every row is.
func (r *rows) below(id string) float64 {
	if !r.governing() {
		return math.Inf(1)
	}
	k := r.card.index[id]
	return r.bars[k] + r.card.limits[k]
}

// add appends a row of the requirement id for a person (or -1).
func (r *rows) add(id string, who int, value float64) *row {
	k := r.card.index[id]
	m := r.card.limits[k] - value
	if r.card.kinds[k].AtLeast {
		m = -m
	}
	return r.put(row{kind: k, value: value, margin: m, who: who})
}

// within is add for a requirement with a least value as well: the nearer limit
// counts.
func (r *rows) within(id string, who int, value, least float64) {
	k := r.card.index[id]
	r.put(row{kind: k, value: value, margin: min(r.card.limits[k]-value, value-least), who: who})
}

// put appends a row, if it is to be kept.
func (r *rows) put(w row) *row {
	if r.governing() {
		if w.margin >= r.bars[w.kind] {
			r.spare = w
			return &r.spare
		}
		r.bars[w.kind] = w.margin
	}
	r.list = append(r.list, w)
	return &r.list[len(r.list)-1]
}

func (w *row) at(theta float64) *row  { w.angle, w.hasAngle = theta, true; return w }
func (w *row) named(note string) *row { w.note = note; return w }
func (r *rows) named(w *row, format string, args ...any) {
	if !r.quiet {
		w.note = fmt.Sprintf(format, args...)
	}
}

// span is a stretch of rows.
type span struct{ from, to int }

// since returns the stretch from a row to the last one and its smallest scaled
// margin, +Inf of no rows.
func (r *rows) since(first int) (span, float64) {
	m := math.Inf(1)
	for i := first; i < len(r.list); i++ {
		m = min(m, r.card.scaled(&r.list[i]))
	}
	return span{first, len(r.list)}, m
}

// least is the smallest scaled margin of all.
func (r *rows) least() float64 {
	_, m := r.since(0)
	return m
}

// take is least, and empties the rows.
func (r *rows) take() float64 {
	m := r.least()
	r.list = r.list[:0]
	return m
}
