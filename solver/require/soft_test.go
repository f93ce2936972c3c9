package require

import "testing"

// Every soft limit is one of the table's, told once, with a slack and a reason, and
// nothing that is kept for safety is soft.
func TestSoftLimits(t *testing.T) {
	kinds := map[string]Kind{}
	for _, k := range Kinds() {
		kinds[k.ID] = k
	}
	seen := map[string]bool{}
	for _, s := range Softs() {
		k, ok := kinds[s.ID]
		if !ok || k.Kept || k.Drive || seen[s.ID] || !(s.Slack > 0) || s.Why == "" {
			t.Errorf("%+v", s)
		}
		seen[s.ID] = true
	}
}
