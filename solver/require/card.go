package require

import (
	"math"

	"armwright/specs"
)

// Card is every requirement with the limit that a brief sets.
type Card struct {
	Kinds   []Kind
	index   map[string]int
	Limits  []float64 // by kind
	limitAt []int     // by kind, see limitIndices
	room    []float64 // by kind: what the search is to have in hand; nil for none
}

// NewCard reads the limits of a brief; that of a cam's bend follows from its cable.
func NewCard(a *specs.Asked, like *Card) Card {
	c := Card{Kinds: like.Kinds, index: like.index, limitAt: like.limitAt}
	if c.Kinds == nil {
		c.Kinds = Kinds()
		c.index, c.limitAt = index(c.Kinds), limitIndices(c.Kinds)
	}
	c.Limits = make([]float64, len(c.Kinds))
	for i := range c.Kinds {
		c.Limits[i] = c.Limit(a, i)
	}
	return c
}

// LimitOf is the limit of the requirement of an id.
func (c *Card) LimitOf(id string) float64 { return c.Limits[c.KindOf(id)] }

// Follow gives the requirement of an id a limit that follows from something else than
// a brief's own.
func (c *Card) Follow(id string, limit float64) { c.Limits[c.KindOf(id)] = limit }

// KindOf is the place among Kinds of the requirement of an id. It panics where there is
// none.
func (c *Card) KindOf(id string) int {
	k, ok := c.index[id]
	if !ok {
		panic("require: no requirement " + id)
	}
	return k
}

// Scaled is the margin of a row in units that matter.
func (c *Card) Scaled(r *Row) float64 { return r.Margin / c.Kinds[r.Kind].Scale }

// Leave has the search leave room, by requirement, inside units.
func (c *Card) Leave(room map[string]float64) {
	c.room = make([]float64, len(c.Kinds))
	for k := range c.Kinds {
		c.room[k] = math.Max(0, room[c.Kinds[k].ID])
	}
}

// LeaveMore has it leave more of one kind of requirement, inside units.
func (c *Card) LeaveMore(k int, more float64) {
	room := make([]float64, len(c.Kinds))
	copy(room, c.room)
	room[k] += more
	c.room = room
}

// RoomOf is what the search is to have in hand of a kind of requirement.
func (c *Card) RoomOf(k int) float64 {
	if c.room == nil {
		return 0
	}
	return c.room[k]
}

// index gives the places of the kinds by id.
func index(kinds []Kind) map[string]int {
	m := map[string]int{}
	for i := range kinds {
		m[kinds[i].ID] = i
	}
	return m
}

// limitIndices are the places of the kinds' limits in specs.Limits, -1 of those
// that are limited elsewhere in a brief.
func limitIndices(kinds []Kind) []int {
	list := make([]int, len(kinds))
	for i := range kinds {
		at, ok := specs.LimitIndex(kinds[i].ID)
		if !ok {
			at = -1
		}
		list[i] = at
	}
	return list
}

// Limit returns the limit of the k-th requirement as asked, 0 where it follows from
// something else.
func (c *Card) Limit(a *specs.Asked, k int) float64 {
	if at := c.limitAt[k]; at >= 0 {
		return a.Limits.At(at)
	}
	return c.Kinds[k].Asked(a)
}
