package cam

// Groove is the cross-section of a cable groove.
type Groove struct {
	LeastRadius, GreatestRadius float64 // of the groove's bottom
	Depth                       float64 // from rim to root
}

// NewGroove returns the groove for a cable of diameter d, jacket included:
// radius 0.53 to 0.55 d and depth 1.5 d, the common rope-maker's figures.
func NewGroove(d float64) Groove {
	return Groove{LeastRadius: .53 * d, GreatestRadius: .55 * d, Depth: 1.5 * d}
}
