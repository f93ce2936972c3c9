package fit

import (
	"math"

	"armwright/specs"
)

// card is every requirement with the limit that a brief sets.
type card struct {
	kinds   []Kind
	index   map[string]int
	limits  []float64 // by kind
	limitAt []int     // by kind, see limitIndices
	room    []float64 // by kind: what the search is to have in hand; nil for none
}

// newCard reads the limits of a brief; that of a cam's bend follows from its cable.
func newCard(a *specs.Asked, like *card) card {
	c := card{kinds: like.kinds, index: like.index, limitAt: like.limitAt}
	if c.kinds == nil {
		c.kinds = Kinds()
		c.index, c.limitAt = kindIndex(), limitIndices(c.kinds)
	}
	c.limits = make([]float64, len(c.kinds))
	for i := range c.kinds {
		if c.kinds[i].ID != "cam-bend" {
			c.limits[i] = c.limit(a, i)
		}
	}
	return c
}

// limitOf is the limit of the requirement of an id.
func (c *card) limitOf(id string) float64 { return c.limits[c.index[id]] }

// scaled is the margin of a row in units that matter.
func (c *card) scaled(r *row) float64 { return r.margin / c.kinds[r.kind].Scale }

// leave has the search leave room, by requirement, inside unitc.
func (c *card) leave(room map[string]float64) {
	c.room = make([]float64, len(c.kinds))
	for k := range c.kinds {
		c.room[k] = math.Max(0, room[c.kinds[k].ID])
	}
}

// roomOf is what the search is to have in hand of a kind of requirement.
func (c *card) roomOf(k int) float64 {
	if c.room == nil {
		return 0
	}
	return c.room[k]
}

// kindIndex looks a kind up by id; an unknown id is a programmer's mistake.
func kindIndex() map[string]int {
	m := map[string]int{}
	for i, k := range Kinds() {
		m[k.ID] = i
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

// limit returns the limit of the k-th requirement as asked.
func (c *card) limit(a *specs.Asked, k int) float64 {
	if at := c.limitAt[k]; at >= 0 {
		return a.Limits.At(at)
	}
	switch id := c.kinds[k].ID; id {
	case "lean":
		return a.Posture.Lean.To
	case "arm-slope":
		return a.Posture.ArmAngle.To
	case "seat-range":
		return 0
	case "footprint-length":
		return a.Space.Length
	case "footprint-width":
		return a.Space.Width
	case "height":
		return a.Space.Height
	default:
		panic("fit: no limit for " + id)
	}
}
