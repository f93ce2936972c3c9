package page

import (
	"math"

	"armwright/specs"
)

// State is what a question holds.
type State struct {
	Brief   string            `json:"brief"`   // number of the brief opened; empty for the page's own
	Station string            `json:"station"` // number of the station whose geometry is meant
	Changes map[string]string `json:"changes"` // value of the brief by its path
	Shown   string            `json:"shown"`   // mark of the scene the page shows already
}

// asked is the brief that a state means, valid. The error is a *specs.Problems, or
// errGone.
func (p *Page) asked(s State) (specs.Brief, error) {
	b, ok := p.brief(s.Brief)
	if !ok {
		return b, errGone
	}
	bad := change(&b, s.Changes)
	if len(bad.List) > 0 {
		return b, bad
	}
	b = b.Quantised()
	if err := b.Validate(); err != nil {
		return b, err
	}
	return b, refuse(b)
}

// present is a station's geometry under a changed brief: moved into the ranges
// that the brief now gives, as far as one number does it.
func present(g specs.Geometry, b *specs.Brief) specs.Geometry {
	into := func(x float64, r specs.Range) float64 { return math.Min(math.Max(x, r.From), r.To) }
	g.Pivots.Height = into(g.Pivots.Height, b.Posture.PivotHeight)
	g.Pivots.Spacing = into(g.Pivots.Spacing, b.Posture.PivotSpacing)
	if g.Pad != nil && b.Kind == "arm-pad" {
		pad := *g.Pad
		pad.Slope = into(pad.Slope, b.Posture.PadSlope)
		g.Pad = &pad
	}
	if g.Seat != nil {
		seat := *g.Seat
		seat.Pitch, seat.Positions = b.Posture.SeatPitch, min(seat.Positions, b.Posture.SeatPositions)
		g.Seat = &seat
	}
	if g.Back != nil {
		back := *g.Back
		back.Angle = into(back.Angle, b.Posture.BackAngle)
		g.Back = &back
	}
	if g.Lever != nil {
		lever := *g.Lever
		lever.Radius = into(lever.Radius, b.Resistance.LeverRadius)
		g.Lever = &lever
	}
	return g
}
