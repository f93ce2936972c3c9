package nlp

import "fmt"

// Status says how a minimisation ended.
type Status int

const (
	NotStarted     Status = iota
	Converged             // a local minimum: every exit test holds, by an independent check too
	Stalled               // the rows hold, no further progress is made, exit tests fail: no minimum is claimed
	Infeasible            // the violation is at a local minimum above its tolerance
	Unbounded             // the objective fell without end
	IterationLimit        // Settings.MaxIterations used up
	StepTooSmall          // rows are missed, and no step helps although their violation is at no minimum
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
	Stalled:        {"stalled-feasible", true, "the rows hold, but the search came to a halt short of a minimum that it can show", "check derivatives and scales, look for kinks in the model, or start from this point again"},
	Infeasible:     {"infeasible", false, "the rows cannot all be met near this point: their violation is at a local minimum", "diagnose which rows conflict, relax one, or try other starts"},
	Unbounded:      {"unbounded", false, "the objective falls without end", "give finite bounds, or check the sign of the objective"},
	IterationLimit: {"iteration-limit", false, "the iteration limit was reached", "raise the limit, or start from this point again"},
	StepTooSmall:   {"step-too-small", false, "rows are missed, and no step mends them although their violation is at no minimum", "check derivatives, look for kinks in the model, review scales"},
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

// Usable reports whether X meets the rows: only with Converged is it, as far as
// measured, a local minimum too.
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
