package elbow

import (
	"fmt"
	"math"
)

// GripRule names how grip rotation changes the apparent carrying angle.
type GripRule string

// The rules a brief may choose from.
const (
	// GripNone leaves the carrying angle as measured with the palm forward.
	GripNone GripRule = "none"
	// GripLinear takes gripLoss off in proportion to the rotation from full
	// supination, where the carrying angle is measured, to full pronation.
	GripLinear GripRule = "linear"
)

// gripLoss is what the apparent carrying angle loses from full supination to
// full pronation: 14.0 to 7.9 degrees on the radius axis of a public rigid-body
// arm model with the ulna held still.
const gripLoss = 6 * math.Pi / 180

// RuleError reports a grip rule that does not exist.
type RuleError struct {
	Rule GripRule
}

func (e *RuleError) Error() string {
	return fmt.Sprintf("elbow: grip rule %q is unknown; use %q or %q", string(e.Rule), GripNone, GripLinear)
}

// Carrying returns the apparent carrying angle of an arm whose carrying angle
// is alpha with the palm forward, when the forearm is rotated to grip: pi/2 in
// full supination, 0 neutral, -pi/2 in full pronation. Beyond these the value
// at the end holds.
func (r GripRule) Carrying(alpha, grip float64) (float64, error) {
	switch r {
	case GripNone:
		return alpha, nil
	case GripLinear:
		const full = math.Pi / 2
		g := math.Max(-full, math.Min(full, grip))
		return alpha - gripLoss*(full-g)/(2*full), nil
	}
	return 0, &RuleError{Rule: r}
}
