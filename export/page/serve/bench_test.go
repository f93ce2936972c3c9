//go:build unix

package serve_test

import (
	_ "embed"
	"fmt"
	"slices"
	"syscall"
	"testing"
	"time"

	"armwright/export/page/pagetest"
	"armwright/solver/solvertest"
)

//go:embed testdata/pace.cjs
var pace string

// The page in a browser, the arm-pad station: from the middle load moved to the painted
// picture, and pictures a second of the station at work, drawn without a graphics card.
// Both want idle processors.
func BenchmarkInBrowser(b *testing.B) {
	s := begin(b, solvertest.Brief(b, "arm-pad-station"))
	for b.Loop() {
		var seen struct{ P95, Median, Frames float64 }
		pagetest.Run(b, &seen, pace, "http://"+s.at+"/")
		b.ReportMetric(seen.P95, "p95-ms")
		b.ReportMetric(seen.Median, "median-ms")
		b.ReportMetric(seen.Frames, "frames/s")
	}
}

// A control dragged through its range: the time from request to answer, at the
// server, of the station of an arm pad and of a cam alone.
func BenchmarkEvaluate(b *testing.B) {
	for _, c := range []struct{ name, path, text string }{
		{"arm-pad-station", "resistance.load.middle", "%.1f kg"},
		{"arm-pad-station", "posture.pivot_height.from", "%.1f mm"},
		{"reclined-levers", "limits.hand_path", "%.1f mm"},
		{"cam-study", "resistance.load.middle", "%.1f kg"},
	} {
		b.Run(c.name+"/"+c.path, func(b *testing.B) {
			s := begin(b, solvertest.Brief(b, c.name))
			first := s.solve("", nil)
			from := map[string]float64{"resistance.load.middle": 15, "limits.hand_path": 15, "posture.pivot_height.from": 600}[c.path]
			var took, worked []time.Duration
			i := 0
			for b.Loop() {
				changes := map[string]string{c.path: fmt.Sprintf(c.text, from+float64(i%200)/10)}
				i++
				start, before := time.Now(), worktime()
				status, _, _ := s.do("POST", "/evaluate", state(first.Station, changes), nil)
				took, worked = append(took, time.Since(start)), append(worked, worktime()-before)
				if status != 200 {
					b.Fatalf("status %d at %v", status, changes)
				}
			}
			b.ReportMetric(nearly(took), "p95-ms")
			b.ReportMetric(nearly(worked), "p95-cpu-ms")
			b.ReportMetric(float64(slices.Min(worked).Microseconds())/1000, "least-cpu-ms")
		})
	}
}

// A control of the arm-pad station let go: the time from request to the last
// line of the answer, the station solved from the one before.
func BenchmarkSolve(b *testing.B) {
	s := begin(b, solvertest.Brief(b, "arm-pad-station"))
	first := s.solve("", nil)
	var took []time.Duration
	i := 0
	for b.Loop() {
		changes := map[string]string{"limits.hand_path": fmt.Sprintf("%.2f mm", 15+float64(i%200)/100)}
		i++
		start := time.Now()
		s.solve(first.Station, changes)
		took = append(took, time.Since(start))
	}
	b.ReportMetric(nearly(took), "p95-ms")
}

// nearly is the 95th percentile of times, ms.
func nearly(all []time.Duration) float64 {
	sorted := slices.Sorted(slices.Values(all))
	return float64(sorted[len(sorted)*95/100].Microseconds()) / 1000
}

// worktime is the processor time of all threads so far, which other work on
// the machine does not change.
func worktime() time.Duration {
	var u syscall.Rusage
	if syscall.Getrusage(syscall.RUSAGE_SELF, &u) != nil {
		return 0
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}
