package seat

import (
	"testing"

	"armwright/solver/build"
	"armwright/solver/drive"
	"armwright/specs"
)

// placerFor makes a brief ready.
func placerFor(t testing.TB, a *specs.Asked) *Placer {
	t.Helper()
	d, err := drive.New(a, &drive.Designer{})
	if err != nil {
		t.Fatal(err)
	}
	s := New(build.Builder{Designer: d}, &Placer{})
	return &s
}
