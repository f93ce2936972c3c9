package contour

import (
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
)

func TestMeets(t *testing.T) {
	square := Polygon(r2.Vec{}, r2.Vec{X: 10}, r2.Vec{X: 10, Y: 10}, r2.Vec{Y: 10})
	tests := []struct {
		name string
		q    Path
		want bool
	}{
		{"inside", Circle(r2.Vec{X: 5, Y: 5}, 4.9), false},
		{"touching from inside", Circle(r2.Vec{X: 5, Y: 5}, 5), true},
		{"across", Circle(r2.Vec{X: 10, Y: 5}, 3), true},
		{"outside", Circle(r2.Vec{X: 15, Y: 5}, 4.9), false},
		{"around", Circle(r2.Vec{X: 5, Y: 5}, 7.1), false},
		{"through the corners", Circle(r2.Vec{X: 5, Y: 5}, 7), true},
		{"corner on a side", Polygon(r2.Vec{X: 10, Y: 5}, r2.Vec{X: 15, Y: 4}, r2.Vec{X: 15, Y: 6}), true},
		{"itself", square, true},
	}
	for _, tt := range tests {
		if got := square.Meets(tt.q); got != tt.want {
			t.Errorf("%s: %v", tt.name, got)
		}
		if got := tt.q.Meets(square); got != tt.want {
			t.Errorf("%s, the other way round: %v", tt.name, got)
		}
	}
}
