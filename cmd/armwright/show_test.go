package main

import (
	"strings"
	"testing"

	"armwright/solver/require"
	"armwright/specs"
)

// A requirement's limit is shown in the unit of its line of the table, with a key that a
// brief has.
func TestLimitsAreShownInTheirUnit(t *testing.T) {
	brief, err := specs.ParseBrief("starter", specs.Starter("arm-pad"))
	if err != nil {
		t.Fatal(err)
	}
	for _, k := range require.Kinds() {
		limit, key := defaultLimit(&brief, &k)
		unit := map[require.Unit]string{require.Length: " mm", require.Angle: " deg", require.Share: " %"}[k.Unit]
		if k.Limit != "" && (!strings.HasSuffix(limit, unit) || unit == "" && strings.Contains(limit, " ")) || key == "" {
			t.Errorf("%s: limit %q by %q, want one in%s", k.ID, limit, key, unit)
		}
	}
}
