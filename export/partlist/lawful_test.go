package partlist

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"strconv"
	"testing"

	"armwright/geometry/assembly/lawtest"
	"armwright/solver"
	"armwright/solver/fit"
	"armwright/solver/judge"
	"armwright/solver/solvertest"
	"armwright/specs"
	"armwright/testdata"
)

// briefsSwitch is the environment variable with the number of random briefs.
const briefsSwitch = "ARMWRIGHT_BRIEFS"

// Stations solved for random briefs of every kind that has one keep the laws of an
// assembly in every position and through the motion; list, balance and solids agree on
// the mass. A station that misses a limit is built all the same: where frame-clear holds,
// so must the laws. ARMWRIGHT_BRIEFS says how many; the long test is 12.
func TestStationsOfRandomBriefsAreLawful(t *testing.T) {
	testdata.Long(t)
	n, step := 12, 10*specs.Degree
	if text := os.Getenv(briefsSwitch); text != "" {
		var err error
		if n, err = strconv.Atoi(text); err != nil {
			t.Fatalf("%s=%s is no number of briefs", briefsSwitch, text)
		}
	}
	met, built := 0, 0
	t.Run("briefs", func(t *testing.T) {
		for i := range n {
			t.Run(fmt.Sprint(i), func(t *testing.T) {
				b := randomBrief(t, uint64(i))
				r, err := solver.Solve(context.Background(), b, &fit.Options{Starts: 1, Terse: true})
				if err != nil {
					t.Fatal(err)
				}
				if r.Verdict == judge.Met {
					met++
				}
				a, v := r.Station.Assembly, &r.Station.Values
				clear := r.Station.Fault == nil
				for _, q := range r.Requirements {
					if !q.Met {
						t.Logf("%s: %.4g of %.4g", q.ID, q.Value, q.Limit)
						clear = clear && q.ID != "frame-clear"
					}
				}
				if !clear || a == nil {
					return
				}
				built++
				list := Of(r)
				if got, want := mass(list), a.Mass(); math.Abs(got-want) > 1e-3*want {
					t.Errorf("the list weighs %.4f kg, the balance %.4f", got, want)
				}
				poses := lawtest.Poses(a, lawtest.Settings{Axis: len(v.Axes), Handle: v.Handle.Positions, Seat: v.Seat.Positions, Foot: v.FootPlate.Positions,
					Chest: v.Chest.Positions, First: v.First, Last: v.Last, Lift: v.Tower.Lift}, step)
				for _, fault := range lawtest.Faults(a, poses) {
					t.Error(fault)
				}
			})
		}
	})
	t.Logf("%d of %d briefs met, %d built", met, n, built)
	if 2*built < n {
		t.Errorf("only %d of %d briefs gave a station that can be built", built, n)
	}
}

// randomBrief is an example with other people, stock, loads and wishes, and more room.
func randomBrief(t *testing.T, seed uint64) specs.Brief {
	t.Helper()
	rnd := rand.New(rand.NewPCG(17, seed))
	name := [...]string{"arm-pad-station", "reclined-levers", "reclined-linkage"}[seed%3]
	b := solvertest.Brief(t, name)
	between := func(from, to, step float64) float64 {
		return from + step*float64(rnd.IntN(1+int(math.Round((to-from)/step))))
	}
	pick := func(from ...string) string { return from[rnd.IntN(len(from))] }
	p := &b.People
	p.Low, p.High, p.Sample = between(0.15, 0.35, 0.05), between(0.65, 0.85, 0.05), 100
	p.Boundary, p.Women = pick("percentiles", "percentiles", "ellipsoid"), between(0, 1, 0.25)
	w := &b.Posture
	w.AxisPositions, w.Lean.To = 1+rnd.IntN(6), 30*specs.Degree
	w.HandlePitch, w.SeatPitch = between(8, 20, 2), between(15, 40, 5)
	w.GripRotation = between(0, 60, 20) * specs.Degree
	w.FootPlate = pick("none", "none", "steps")
	q := &b.Resistance
	if name == "reclined-levers" && rnd.IntN(2) == 0 {
		q.Drive = "cam"
	}
	if q.Drive == "cam" {
		q.Stack, q.Load = pick("shared", "pair"), specs.Loads{Light: 10, Middle: between(25, 40, 5), Heavy: between(50, 80, 10)}
		if q.Stack == "pair" {
			q.Load = specs.Loads{Light: 5, Middle: 20, Heavy: between(30, 40, 5)}
		}
		b.Stock.Cable, b.Stock.Transmission = pick("7x19-3", "7x19-4", "7x19-5"), pick("chain", "chain", "belt")
		b.Stock.BendRule, b.Stock.Hub = "least", pick("bolted", "keyway")
	}
	q.Loaded = specs.Range{From: between(5, 20, 5) * specs.Degree, To: between(110, 130, 5) * specs.Degree}
	b.Stock.Member = pick("60x60x3", "60x60x4", "70x70x3", "80x80x4")
	b.Stock.CamPlate = between(10, 15, 1)
	b.Stock.MaxUser = between(130, 150, 10)
	b.Space.Length, b.Space.Width, b.Space.Height = 2800, 2000, 2400
	l := &b.Limits
	l.HandPath, l.AxisOffset, l.TorqueMatch, l.TorqueSwing = 40, 40, 0.1, 0.15
	l.FleetAngle, l.Contact, l.BearingStatic = 2.5*specs.Degree, 0.8, 1.5
	if err := b.Validate(); err != nil {
		t.Fatalf("%s, brief %d: %v", name, seed, err)
	}
	return b
}
