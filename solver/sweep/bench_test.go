package sweep

import (
	"context"
	"fmt"
	"testing"

	"armwright/solver/fit"
	"armwright/solver/judge"
	"armwright/specs"
	"armwright/testdata"
)

// evaluators are workers on the frame of a solved station.
func evaluators(b *testing.B, n int, paths ...string) []Worker {
	f, err := specs.ParseFrame("arm-pad-station", testdata.Frame("arm-pad-station"))
	if err != nil {
		b.Fatal(err)
	}
	j, err := judge.New(&f.Asked)
	if err != nil {
		b.Fatal(err)
	}
	var list []Worker
	for range n {
		e, err := NewEvaluator(f, j, paths)
		if err != nil {
			b.Fatal(err)
		}
		list = append(list, e)
	}
	return list
}

// A solved station searched again for varied limits, one after another.
func BenchmarkSolve(b *testing.B) {
	text, err := specs.Examples.ReadFile("examples/arm-pad-station.yaml")
	if err != nil {
		b.Fatal(err)
	}
	brief, err := specs.ParseBrief("arm-pad", text)
	if err != nil {
		b.Fatal(err)
	}
	first, err := fit.Solve(context.Background(), brief, nil)
	if err != nil {
		b.Fatal(err)
	}
	w, err := NewSolver(brief, &first.Frame.Geometry, []string{"limits.hand_path"})
	if err != nil {
		b.Fatal(err)
	}
	i := 0
	for b.Loop() {
		if _, err := w.Judge(context.Background(), []string{fmt.Sprintf("%.2f mm", 15+float64(i%200)/100)}); err != nil {
			b.Fatal(err)
		}
		i++
	}
	b.ReportMetric(float64(b.N)/b.Elapsed().Seconds(), "designs/s")
}

// One worker, so the time is of one core; ns/op over the designs is what one
// takes, and B/op what a whole study allocates, none of it kept.
func BenchmarkEvaluate(b *testing.B) {
	for _, n := range []int{100, 1000, 10_000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			workers := evaluators(b, 1, "limits.hand_path", "posture.lean.to")
			plan, err := NewPlan(Sobol, []Axis{axis(b, "limits.hand_path", "8 mm..20 mm"), axis(b, "posture.lean.to", "10 deg..30 deg")}, n, 1)
			if err != nil {
				b.Fatal(err)
			}
			b.ReportAllocs()
			for b.Loop() {
				err := Run(context.Background(), plan, Shard{}.Designs(n, 0), workers, func(int, *Outcome) error { return nil })
				if err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(n*b.N)/b.Elapsed().Seconds(), "designs/s")
		})
	}
}
