package nlp

import "fmt"

// Status says how a minimisation ended.
type Status int

const (
	NotStarted     Status = iota
	Converged             // every exit test holds
	Acceptable            // no further progress possible, exit tests missed by little
	Infeasible            // the violation is at a local minimum above its tolerance
	Unbounded             // the objective fell without end
	IterationLimit        // Settings.MaxIterations used up
	StepTooSmall          // no acceptable step although the exit tests fail
	NotFinite             // the model gave no finite values at the start or around a point
	Cancelled             // the context ended
	UserStop              // the recorder asked to stop
)

// statuses is the one table behind the methods of Status.
var statuses = [...]struct {
	name    string
	usable  bool
	message string
	hint    string
}{
	NotStarted:     {"not-started", false, "nothing was solved", ""},
	Converged:      {"converged", true, "stationarity, violation and complementarity are within tolerance", ""},
	Acceptable:     {"acceptable", true, "no further progress is possible at the accuracy of the model", "check derivatives and scales if more accuracy is needed"},
	Infeasible:     {"infeasible", false, "the rows cannot all be met near this point: their violation is at a local minimum", "diagnose which rows conflict, relax one, or try other starts"},
	Unbounded:      {"unbounded", false, "the objective falls without end", "give finite bounds, or check the sign of the objective"},
	IterationLimit: {"iteration-limit", false, "the iteration limit was reached", "raise the limit, or start from this point again"},
	StepTooSmall:   {"step-too-small", false, "no step reduces objective and violation, yet the exit tests fail", "check derivatives, look for kinks in the model, review scales"},
	NotFinite:      {"not-finite", false, "the model gave values that are not finite", "start elsewhere, or tighten the bounds to where the model is defined"},
	Cancelled:      {"cancelled", false, "stopped from outside", ""},
	UserStop:       {"user-stop", false, "stopped by the recorder", ""},
}

func (s Status) valid() bool { return s >= 0 && int(s) < len(statuses) }

// String returns a short stable name.
func (s Status) String() string {
	if !s.valid() {
		return fmt.Sprintf("status(%d)", int(s))
	}
	return statuses[s].name
}

// Usable reports whether X meets the rows and is, as far as measured, a local
// minimum.
func (s Status) Usable() bool { return s.valid() && statuses[s].usable }

// Message returns one sentence on what happened.
func (s Status) Message() string {
	if !s.valid() {
		return ""
	}
	return statuses[s].message
}

// Hint returns what to try next, or nothing.
func (s Status) Hint() string {
	if !s.valid() {
		return ""
	}
	return statuses[s].hint
}
