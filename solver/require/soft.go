package require

import "armwright/specs"

// Soft is how far past a limit a person shrugs instead of turning away, and why.
type Soft struct {
	ID    string
	Slack float64 // inside unit; judgement
	Why   string
}

// Softs are the limits of comfort that do not hurt a little past them; all other limits
// of a person are hard. Slacks are judgement: no published study tells when people
// leave a seat.
func Softs() []Soft {
	return []Soft{
		{"hand-path", 5, "the palm rolls on the grip by as much"},
		{"axis-offset", 3, "the forearm's flesh gives by as much before the joint is pushed"},
		{"axis-tilt", 1 * specs.Degree, "an elbow's own axis wanders by more within one lift"},
		{"abduction", 3 * specs.Degree, "shoulders ease outward by as much unnoticed"},
		{"lean", 3 * specs.Degree, "the trunk bends by as much without a strain"},
		{"arm-slope", 3 * specs.Degree, "the upper arm hangs a little otherwise"},
		{"hip-on-seat", 10, "the thighs still bear on the seat"},
		{"belly-gap", 10, "breathing moves the belly by as much"},
		{"foot-gap", 20, "the heel lifts"},
		{"handle-reach", 3, "the fist is wider than that on the grip"},
	}
}
