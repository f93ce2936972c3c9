package sheet

import (
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
)

// A view of 700 mm by 500 does not fit on A3 at 1:2; where nothing is measured in it, it is
// drawn at 1:3 and not at 1:5.
func TestPictorialScale(t *testing.T) {
	for _, c := range []struct {
		pictorial bool
		want      Scale
	}{{false, Scale{1, 5}}, {true, Scale{1, 3}}} {
		s := Sheet{Size: A3, Views: []View{{Pictorial: c.pictorial, Entities: []Entity{
			Polyline{Role: Visible, Closed: true, Vertices: straight(r2.Vec{}, r2.Vec{X: 700}, r2.Vec{X: 700, Y: 500}, r2.Vec{Y: 500})},
		}}}}
		d, err := s.Flatten()
		if err != nil {
			t.Fatal(err)
		}
		if got := d.Views[0].Scale; got != c.want {
			t.Errorf("pictorial %v: %s, want %s", c.pictorial, got, c.want)
		}
	}
}
