package require_test

import (
	"testing"

	"armwright/solver/require"
	"armwright/solver/solvertest"
	"armwright/specs"
)

// Every line of the table is whole: a brief holds the limit where it says, and giving
// way is told with the keys that do it.
func TestTableIsWhole(t *testing.T) {
	b := solvertest.Brief(t, "arm-pad-station")
	seen := map[string]bool{}
	for _, k := range require.Kinds() {
		if seen[k.ID] || k.ID == "" || k.Asks == "" || k.Remedy == "" || k.Levers() == "" || k.Source == "" || !(k.Scale > 0) {
			t.Errorf("%+v", k)
		}
		seen[k.ID] = true
		if _, ok := b.Span(k.Limit); k.Limit != "" && !ok {
			t.Errorf("%s: no number at %q in a brief", k.ID, k.Limit)
		}
		if at, ok := specs.LimitIndex(k.ID); ok && b.Limits.At(at) != k.Asked(&b.Asked) {
			t.Errorf("%s: %g at %s, %g among the limits", k.ID, k.Asked(&b.Asked), k.Limit, b.Limits.At(at))
		}
	}
}
