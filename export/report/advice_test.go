package report

import (
	"slices"
	"strings"
	"testing"

	"armwright/solver/judge"
	"armwright/solver/require"
	"armwright/specs"
)

func TestAdvice(t *testing.T) {
	limits := map[string]float64{
		"hand-path": 12, "crush-gap": 25, "lean": 20 * specs.Degree, "torque-match": 0.06, "cable-factor": 6,
		"footprint-length": 2000, "seat-range": 0, "cam-bend": 36, "member-deflection": 0.0067,
	}
	for _, c := range []struct {
		id             string
		excess, repair float64
		want           string
	}{
		{"hand-path", 1.03, 1.03, "lower the hand-path demand: allow 13.1 mm instead of 12 mm (limits.hand_path)"},
		{"crush-gap", 4.8, 4.8, "guard the place, or accept a smaller gap: accept 20.2 mm instead of 25 mm (limits.crush_gap)"},
		{"lean", 2 * specs.Degree, 2 * specs.Degree, "let the trunk lean more: allow 22 deg instead of 20 deg (posture.lean)"},
		{"torque-match", 0.012, 0.012, "7.2 % instead of 6 %"},
		{"cable-factor", 1.44, 1.44, "accept 4.5 instead of 6"},
		{"footprint-length", 130, 130, "make more room front to back: give it 2130 mm instead of 2000 mm (space.length)"},
		{"seat-range", 7.31, 2.96, "3 mm are missing"},
		{"cam-bend", 4, 4, "a cable that bears 32 mm instead of 36 mm (stock.cable or stock.bend_rule)"},
		{"member-deflection", 0.0011, 0.0011, "allow 0.78 % instead of 0.67 %"},
		{"hand-path", 1, 0, "leave its limit alone: it holds once the others give way"},
		{"hand-path", 0, 0, "leave its limit alone: it holds, but only just, and pulls against the others"},
	} {
		all := require.Kinds()
		i := slices.IndexFunc(all, func(k require.Kind) bool { return k.ID == c.id })
		limit, listed := limits[c.id]
		if i < 0 || !listed {
			t.Errorf("there is no requirement %q with a limit here", c.id)
			continue
		}
		got := advice(judge.Requirement{Kind: all[i], Limit: limit}, c.excess, c.repair, true, specs.Metric)
		if !strings.Contains(got, c.want) {
			t.Errorf("%s by %v: %q, want %q", c.id, c.repair, got, c.want)
		}
	}
}

// Where no search met a changed brief nothing is said to hold once others give way.
func TestAdviceWithoutRepair(t *testing.T) {
	q := judge.Requirement{Kind: require.Kinds()[0], Limit: 15}
	for excess, want := range map[float64]string{1: "no change was found that mends it", 0: "it holds, but only just"} {
		if got := advice(q, excess, 0, false, specs.Metric); got != want {
			t.Errorf("missed by %g: %q, want %q", excess, got, want)
		}
	}
}

// Every requirement has advice of its own.
func TestAdviceForEveryKind(t *testing.T) {
	for _, k := range require.Kinds() {
		got := advice(judge.Requirement{Kind: k, Limit: 1}, 0.5, 0.5, true, specs.Metric)
		if k.Remedy == "" || k.Levers() == "" || !strings.HasPrefix(got, k.Remedy) {
			t.Errorf("%s: %q", k.ID, got)
		}
	}
}
