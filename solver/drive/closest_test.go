package drive

import (
	"bytes"
	"encoding/json"
	"math"
	"os"
	"os/exec"
	"slices"
	"strconv"
	"strings"
	"testing"

	"armwright/geometry/cam"
	"armwright/solver/nlp"
	"armwright/solver/solvertest"
	"armwright/specs"
	"armwright/specs/stock"
	"armwright/specs/strength"
	"armwright/testdata"
)

// problemOf is the problem of the closest cam of a brief on the bench, at a
// ratio of the brief.
func problemOf(t testing.TB, b specs.Brief, belt stock.BeltDrive) *closest {
	t.Helper()
	s := designerFor(t, &b.Asked)
	g := s.BenchRig()
	s.laid = NewMachine(g).Rest.Slope
	c, err := s.camPlace(belt)
	if err != nil {
		t.Fatal(err)
	}
	return s.closestOf(g, c, s.Asked.Resistance.LeastArm, bendRooms()[0], 0)
}

// rms is how far a law misses what is wanted, mm and as a share of the largest
// moment arm wanted.
func (c *closest) rms(law []float64) (mm, share float64) {
	want := c.loads[0].want
	sum, most := 0.0, 0.0
	for i, row := range c.at {
		h := 0.0
		for j, b := range row {
			h += b * law[j]
		}
		sum += sq(h - want[i])
		most = math.Max(most, want[i])
	}
	mm = math.Sqrt(sum / float64(len(want)))
	return mm, mm / most
}

// scipy runs the independent solver, or skips the test where it is absent and
// not required.
func scipy(t *testing.T, c *closest) float64 {
	t.Helper()
	const python = "/usr/bin/python3"
	if err := exec.Command(python, "-c", "import scipy").Run(); err != nil {
		if os.Getenv("ARMWRIGHT_READERS") == "required" {
			t.Fatalf("scipy is required and absent: %v", err)
		}
		t.Skip("scipy is absent: install Debian's python3-scipy")
	}
	in, err := json.Marshal(map[string]any{
		"from": c.from, "to": c.to, "nodes": c.nodes, "angles": c.angles, "want": c.loads[0].want, "grid": c.grid,
		"guide_x": c.guide.X, "guide_y": c.guide.Y, "guide_radius": c.guide.Radius, "side": c.guide.Side, "ratio": c.ratio,
		"radius": c.radius, "least_arm": c.leastArm, "greatest_arm": c.greatestArm,
	})
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(python, "testdata/closest.py")
	cmd.Stdin = bytes.NewReader(in)
	var talk bytes.Buffer
	cmd.Stderr = &talk
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("%v\n%s", err, talk.String())
	}
	best, err := strconv.ParseFloat(strings.TrimSpace(string(out)), 64)
	if err != nil {
		t.Fatal(err)
	}
	return best
}

// The closest feasible cam is what an independent solver finds: its best answer
// from eight starts is no better than 0.1 % of the peak, on the hostile target
// and on the muscle curve at ratios where curvature binds.
func TestClosestAgainstScipy(t *testing.T) {
	peaked := solvertest.Brief(t, "arm-pad-station")
	peaked.Kind = "cam-study"
	for _, c := range testdata.Few(1, []struct {
		name  string
		brief specs.Brief
		belt  stock.BeltDrive
	}{
		{"hostile on the shaft", solvertest.Hostile(t), stock.BeltDrive{Ratio: 1}},
		{"hostile at 1.5", solvertest.Hostile(t), stock.BeltDrive{Ratio: 1.5, ArmTeeth: 36, DrivenTeeth: 24}},
		{"muscle curve on the shaft", peaked, stock.BeltDrive{Ratio: 1}},
		{"muscle curve at 1.25", peaked, stock.BeltDrive{Ratio: 1.25, ArmTeeth: 30, DrivenTeeth: 24}},
	}...) {
		t.Run(c.name, func(t *testing.T) {
			p := problemOf(t, c.brief, c.belt)
			a, err := p.solve()
			if err != nil {
				t.Fatal(err)
			}
			ours, share := p.rms(a.law)
			theirs := scipy(t, p)
			t.Logf("ours %.6f mm (%.3f %% of the peak) after %d convex problems, scipy %.6f mm", ours, 100*share, a.rounds, theirs)
			peak := ours / share
			if math.IsInf(theirs, 0) {
				t.Fatal("scipy found no feasible cam")
			}
			if theirs < ours-0.001*peak {
				t.Errorf("scipy comes %.3f %% of the peak closer", 100*(ours-theirs)/peak)
			}
		})
	}
}

// The answer is optimal by its own multipliers: the residuals of the last convex
// problem, and those of the curved problem, where the radius of curvature is not
// linearised, measured by a check that shares nothing with the search.
func TestClosestIsOptimal(t *testing.T) {
	for _, belt := range []stock.BeltDrive{{Ratio: 1}, {Ratio: 1.5, ArmTeeth: 36, DrivenTeeth: 24}} {
		p := problemOf(t, solvertest.Hostile(t), belt)
		a, err := p.solve()
		if err != nil {
			t.Fatal(err)
		}
		t.Logf("ratio %g: settled to %.1e mm after %d convex problems, KKT %+v", belt.Ratio, a.settled, a.rounds, a.kkt)
		if a.settled > settled || a.kkt.Stationarity > 1e-8 || a.kkt.Violation > 1e-8 || a.kkt.Complementarity > 1e-8 || a.kkt.DualInfeasibility > 1e-8 {
			t.Errorf("ratio %g: settled %g, %+v", belt.Ratio, a.settled, a.kkt)
		}
		curved := p.curved(t)
		check, err := nlp.CheckKKT(curved, a.law, nil)
		if err != nil {
			t.Fatal(err)
		}
		t.Logf("curved problem: %+v", check.KKT)
		if check.Stationarity > 1e-5 || check.Violation > 1e-5 || check.DualInfeasibility > 1e-5 {
			t.Errorf("ratio %g, curved problem: %+v", belt.Ratio, check.KKT)
		}
	}
}

// curved is the problem itself, with the radius of curvature of the profile.
func (c *closest) curved(t *testing.T) nlp.Problem {
	a, want := c.aims()
	n := c.nodes
	return nlp.Problem{
		N: n, M: 3 * len(c.grid), Scale: slices.Repeat([]float64{1}, n), RowScale: slices.Repeat([]float64{1}, 3*len(c.grid)),
		Func: func(x []float64) float64 {
			sum := 0.0
			for i, w := range want {
				for j := range n {
					w -= a[i*n+j] * x[j]
				}
				sum += w * w / 2
			}
			return sum
		},
		Rows: func(rows, x []float64) {
			law, err := cam.NewLaw(c.from, c.to, x)
			if err != nil {
				t.Fatal(err)
			}
			p := cam.Profile{Law: law, Guide: c.guide, Ratio: c.ratio}
			for i, theta := range c.grid {
				s, err := p.At(theta)
				if err != nil {
					t.Fatal(err)
				}
				rows[3*i], rows[3*i+1], rows[3*i+2] = s.Rho-c.radius, s.Arm-c.leastArm, c.greatestArm-s.Arm
			}
		},
	}
}

func BenchmarkClosestCam(b *testing.B) {
	for _, v := range []struct {
		name  string
		brief specs.Brief
	}{{"hostile", solvertest.Hostile(b)}, {"muscle", solvertest.Brief(b, "cam-study")}} {
		b.Run(v.name, func(b *testing.B) {
			p := problemOf(b, v.brief, stock.BeltDrive{Ratio: 1})
			for b.Loop() {
				fresh := *p
				fresh.grid, fresh.value, fresh.slope, fresh.bend, fresh.at = nil, nil, nil, nil, nil
				if _, err := fresh.solve(); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// The design card's case: a cam on the arm's shaft, the rebuilt muscle curve over
// 5-130 degrees, 4 mm 7x19 cable, radii of at least 50 mm, moment arms up to 110 to
// 150 mm, the arm's weight left out. The closest cam misses by 5 to 7 % rms and 14
// to 20 % at worst (DESIGN.md 6, D, by another program). Not the moment arm's
// limits but the curvature keeps it: without the bend radius the match is exact,
// and twice the drive ratio divides what h″ asks for by four.
func TestShaftCamOfTheDesignCard(t *testing.T) {
	curve, err := strength.ByName("model-three")
	if err != nil {
		t.Fatal(err)
	}
	made := func(ratio, radius, greatest float64) (*closest, closestAnswer) {
		p := &closest{
			from: 5 * specs.Degree, to: 130 * specs.Degree, ratio: ratio, guide: cam.Guide{Y: -300, Radius: 48, Side: cam.Open},
			radius: radius, leastArm: 10, greatestArm: greatest,
		}
		var want []float64
		for theta := p.from; theta < p.to+specs.Degree; theta += 5 * specs.Degree {
			p.angles = append(p.angles, theta)
			want = append(want, greatest*curve.At(theta))
		}
		p.loads = []loadCase{{share: 1, want: want}}
		a, err := p.solve()
		if err != nil {
			t.Fatal(err)
		}
		return p, a
	}
	for _, greatest := range []float64{110, 130, 150} {
		p, a := made(1, 50, greatest)
		_, share := p.rms(a.law)
		worst := 0.0
		for i, row := range p.at {
			h := 0.0
			for j, b := range row {
				h += b * a.law[j]
			}
			worst = math.Max(worst, math.Abs(h-p.loads[0].want[i])/greatest)
		}
		_, free := made(1, -1e4, greatest)
		_, exact := p.rms(free.law)
		fast, b := made(2, 50, greatest)
		_, doubled := fast.rms(b.law)
		t.Logf("up to %g mm: rms %.2f %%, worst %.1f %%; without the bend radius %.3f %%; at ratio 2 %.3f %%", greatest, 100*share, 100*worst, 100*exact, 100*doubled)
		if share < 0.05 || share > 0.07 || worst < 0.14 || worst > 0.20 {
			t.Errorf("up to %g mm: rms %.4f, worst %.4f", greatest, share, worst)
		}
		if exact > 1e-3 || doubled > share/4 {
			t.Errorf("up to %g mm: without the bend radius %.5f, at ratio 2 %.5f", greatest, exact, doubled)
		}
		// The radius binds, the limits of the moment arm need not.
		profile, err := p.profile(a.law)
		if err != nil {
			t.Fatal(err)
		}
		tight := 0
		for _, theta := range p.grid {
			s, err := profile.At(theta)
			if err != nil {
				t.Fatal(err)
			}
			if s.Rho < 50.01 {
				tight++
			}
		}
		if tight < 3 {
			t.Errorf("up to %g mm: the bend radius binds at %d of %d places", greatest, tight, len(p.grid))
		}
	}
}
