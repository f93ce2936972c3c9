package stock

import (
	"errors"
	"math"
	"testing"
)

// Two equal pulleys need 2C + z p exactly. The textbook formula of chain and
// belt drives, L/p = 2C/p + (z1+z2)/2 + ((z2-z1)/2π)² p/C (any machine-elements
// text, M), is the first term of a series in the difference of the wheels, so it
// agrees to second order.
func TestLoopLength(t *testing.T) {
	for _, name := range []string{"belt", "chain"} {
		tr, err := TransmissionOf(name)
		if err != nil {
			t.Fatal(err)
		}
		near(t, name+" equal wheels", tr.LoopLength(24, 24, 200), 2*200+24*tr.Pitch, 1e-9)
		z1, z2, c := 36.0, 24.0, 250.0
		d := (z1 - z2) / (2 * math.Pi)
		textbook := tr.Pitch * (2*c/tr.Pitch + (z1+z2)/2 + d*d*tr.Pitch/c)
		near(t, name+" textbook", tr.LoopLength(36, 24, c), textbook, 2e-4*textbook)
	}
	// ANSI/ISO worked figure, D: a sprocket of 20 teeth at 12.7 mm is 81.18 mm.
	chain, _ := TransmissionOf("chain")
	near(t, "sprocket of 20 teeth", chain.WheelDiameter(20), 81.18, 0.005)
}

func TestCloseIsWhole(t *testing.T) {
	for _, name := range []string{"belt", "chain"} {
		tr, _ := TransmissionOf(name)
		for _, d := range tr.Ratios(1, 2.2) {
			wanted := math.Max(150, (tr.WheelDiameter(d.ArmTeeth)+tr.WheelDiameter(d.DrivenTeeth))/2+10)
			n, c, err := tr.Close(d.ArmTeeth, d.DrivenTeeth, wanted)
			if err != nil {
				t.Fatal(err)
			}
			if tr.Even && n%2 != 0 {
				t.Errorf("%s %d:%d has %d links", name, d.ArmTeeth, d.DrivenTeeth, n)
			}
			near(t, "length", tr.LoopLength(d.ArmTeeth, d.DrivenTeeth, c), float64(n)*tr.Pitch, 1e-6)
			if math.Abs(c-wanted) > 1.5*tr.Pitch {
				t.Errorf("%s %d:%d at %.1f mm, wanted %.1f", name, d.ArmTeeth, d.DrivenTeeth, c, wanted)
			}
		}
	}
	var e *CentreError
	if _, _, err := belt().Close(56, 32, 100); !errors.As(err, &e) {
		t.Errorf("wheels in one another: %v", err)
	}
}
