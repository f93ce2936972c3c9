package station

import (
	"testing"

	"armwright/geometry/solid"
)

// A pad long enough for two rows of screws clear of the tube under it has four, a
// shorter one two; whatever the length, the plate has its holes inside and apart.
func TestPadPlateScrews(t *testing.T) {
	seen := map[int]bool{}
	for far := 100.0; far <= 220; far += 2.5 {
		v := examples()["arm pad"]
		v.Rest.Far = far
		a, _, err := Build(v)
		if err != nil {
			t.Fatal(err)
		}
		i, ok := a.Index("arm-pad-plate-right")
		if !ok {
			t.Fatal("no plate")
		}
		body := a.Parts[i].Solid.(solid.Prism)
		if err := body.Validate(); err != nil {
			t.Errorf("pad to %v: %v", far, err)
		}
		holes := len(body.Profile.Holes())
		if holes != 2 && holes != 4 {
			t.Errorf("pad to %v: %d screws", far, holes)
		}
		seen[holes] = true
	}
	if !seen[2] || !seen[4] {
		t.Errorf("screws %v, want pads of two and of four", seen)
	}
}
