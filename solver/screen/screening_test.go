package screen

import (
	"testing"

	"armwright/solver/build"
	"armwright/solver/drive"
	"armwright/solver/seat"
	"armwright/specs"
)

// screeningFor makes a brief ready.
func screeningFor(t testing.TB, a *specs.Asked) *Screen {
	t.Helper()
	d, err := drive.New(a, &drive.Designer{})
	if err != nil {
		t.Fatal(err)
	}
	return &Screen{seat.New(build.Builder{Designer: d}, &seat.Placer{})}
}
