package judge

import (
	"math"
	"testing"

	"armwright/solver/solvertest"
)

// Wilson's interval for 10 of 100: 0.0552 to 0.1744 (Agresti and Coull 1998,
// formula; from memory).
func TestWilson(t *testing.T) {
	p, lo, hi := wilson(10, 100)
	if p != 0.1 || math.Abs(lo-0.0552) > 1e-4 || math.Abs(hi-0.1744) > 1e-4 {
		t.Errorf("%g %g %g", p, lo, hi)
	}
}

func BenchmarkCheck(b *testing.B) {
	f := solvertest.Frame(b, "arm-pad-station")
	for b.Loop() {
		if _, err := Check(f); err != nil {
			b.Fatal(err)
		}
	}
}
