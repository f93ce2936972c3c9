package build

import (
	"testing"

	"armwright/solver/drive"
	"armwright/specs"
)

// builderFor makes a brief ready.
func builderFor(t testing.TB, a *specs.Asked) *Builder {
	t.Helper()
	d, err := drive.New(a, &drive.Designer{})
	if err != nil {
		t.Fatal(err)
	}
	return &Builder{d}
}
