package words

import (
	"fmt"

	"armwright/solver/judge"
)

// Usual is the position that half of some persons take, counted from first, and between
// which eight in ten lie.
func Usual(u judge.Usual, first int) string {
	switch {
	case u.N == 0:
		return "-"
	case u.Low == u.High:
		return fmt.Sprint(u.Middle + first)
	}
	return fmt.Sprintf("%d (%d-%d)", u.Middle+first, u.Low+first, u.High+first)
}
