package station

import "fmt"

// ValueError tells a value from which no station can be built.
type ValueError struct {
	Value string // "handle.positions"
	Hint  string
}

func (e *ValueError) Error() string { return fmt.Sprintf("station: %s: %s", e.Value, e.Hint) }
