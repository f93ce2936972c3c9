package fit

import (
	"math"
	"testing"

	"armwright/solver/solvertest"
)

// A difference that works out again only what the moved variable touches gives
// every row that may bind the value that working out everything gives.
func TestDifferencesFollowWhatMoves(t *testing.T) {
	for _, name := range []string{"arm-pad-station", "reclined-levers"} {
		t.Run(name, func(t *testing.T) {
			b := solvertest.Brief(t, name).Quantised()
			s, err := NewProgram(&b.Asked)
			if err != nil {
				t.Fatal(err)
			}
			se := &Search{Program: s, Options: &Options{}, Axes: 2, Geometry: s.begin(2), Guard: make([]float64, len(s.Kinds))}
			if se.Settings, err = se.prepare(); err != nil {
				t.Fatal(err)
			}
			p, _, _ := se.Problem()
			x := se.Point()
			base, near, whole := make([]float64, p.M), make([]float64, p.M), make([]float64, p.M)
			p.Both(base, x)
			idleRows := 0
			for j := range x {
				moved := append([]float64(nil), x...)
				if moved[j] += 1e-3 * p.Scale[j]; moved[j] > p.Upper[j] {
					moved[j] = x[j] - 1e-3*p.Scale[j]
				}
				f := p.Both(near, moved)
				fresh, _, _ := se.Problem() // knows no base: everything is worked out
				if g := fresh.Both(whole, moved); g != f {
					t.Errorf("variable %d: objective %g, worked out whole %g", j, f, g)
				}
				for i := range near {
					if base[i] < idle-1 && near[i] != whole[i] {
						t.Errorf("variable %d, row %d: %g, worked out whole %g", j, i, near[i], whole[i])
					}
					if near[i] != whole[i] {
						idleRows++
						if math.Abs(near[i]-whole[i]) > 0.1 {
							t.Errorf("variable %d, idle row %d moves by %g", j, i, whole[i]-near[i])
						}
					}
				}
				p.Both(base, x) // the base is the same as before
			}
			if idleRows == 0 {
				t.Error("nothing was left out: the test sees no difference")
			}
		})
	}
}
