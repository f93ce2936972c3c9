package solid

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"
)

func TestBalls(t *testing.T) {
	var corners Balls
	for i := range 8 {
		corners = append(corners, Ball{r3.Vec{X: 100 * float64(i&1), Y: 60 * float64(i>>1&1), Z: 40 * float64(i>>2)}, 10})
	}
	tests := []struct {
		name  string
		balls Balls
		faces int
	}{
		{"one", Balls{{r3.Vec{X: 3}, 20}}, 4},
		{"one in another", Balls{{r3.Vec{X: 3}, 20}, {r3.Vec{X: 5}, 10}}, 4},
		{"limb", Balls{{r3.Vec{}, 80}, {r3.Vec{X: 300, Y: 40}, 60}}, 6},
		{"limb with a joint inside", Balls{{r3.Vec{}, 80}, {r3.Vec{X: 300, Y: 40}, 60}, {r3.Vec{X: 150, Y: 20}, 65}}, 6},
		{"flat", Balls{{r3.Vec{}, 20}, {r3.Vec{X: 100}, 20}, {r3.Vec{Y: 80}, 20}}, 2 + 6 + 6},
		{"foot", Balls{{r3.Vec{}, 35}, {r3.Vec{X: 180, Y: 20, Z: -12}, 20}, {r3.Vec{X: 170, Y: -30, Z: -14}, 18}}, 2 + 6 + 6},
		{"thigh on a seat", Balls{{r3.Vec{X: -276, Z: 562.5}, 87}, {r3.Vec{X: -90, Z: 556.5}, 81}, {r3.Vec{X: 136, Z: 539.5}, 64}}, 4 + 6},
		{"spindle", Balls{{r3.Vec{}, 50}, {r3.Vec{X: 100}, 10}, {r3.Vec{X: -100, Y: 3}, 10}}, 4 + 6},
		{"box", corners, 6 + 12 + 8},
		{"trunk", Balls{{r3.Vec{Y: 120}, 60}, {r3.Vec{Y: -120}, 60}, {r3.Vec{Y: 100, Z: 300}, 70}, {r3.Vec{Y: -100, Z: 300}, 70}}, 2 + 8 + 8},
		{"pyramid", Balls{{r3.Vec{}, 10}, {r3.Vec{X: 100}, 20}, {r3.Vec{Y: 90}, 15}, {r3.Vec{X: 30, Y: 30, Z: 80}, 30}}, 4 + 6 + 4},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			s, err := tt.balls.Shell()
			if err != nil {
				t.Fatal(err)
			}
			checkShell(t, s, 0, 1e-5)
			if len(s.Faces) != tt.faces {
				t.Errorf("%d faces, want %d", len(s.Faces), tt.faces)
			}
			checkTouches(t, tt.balls, s)
		})
	}
	if _, err := (Balls{{r3.Vec{}, 50}, {r3.Vec{X: 55}, 10}, {r3.Vec{Y: 55}, 10}, {r3.Vec{Z: 55}, 10}}).Shell(); err == nil {
		t.Error("a ball with three rings is no error")
	}
	if _, err := (Balls{}).Shell(); err == nil {
		t.Error("no balls are no error")
	}
}

// checkTouches holds edges to the hull's surface: each point is the farthest
// along the outward normals of both faces that meet there.
func checkTouches(t failer, balls Balls, s *Shell) {
	for _, f := range s.Faces {
		for _, loop := range f.Loops {
			for _, u := range loop {
				for _, x := range [...]float64{.2, .7} {
					q := along(s, u.Edge, x)
					n := f.Surface.Outward(q)
					if over := r3.Dot(n, r3.Sub(balls.Support(n), q)); math.Abs(over) > 2e-4 {
						t.Errorf("a point of edge %d is %v below the hull", u.Edge, over)
					}
				}
			}
		}
	}
}

func TestBallsAnywhere(t *testing.T) {
	made, tried := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		tried++
		balls := make(Balls, rapid.IntRange(2, 5).Draw(t, "balls"))
		for i := range balls {
			f := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
			balls[i] = Ball{r3.Vec{X: f("x", -300, 300), Y: f("y", -300, 300), Z: f("z", -300, 300)}, f("r", 10, 60)}
		}
		s, err := balls.Shell()
		if err != nil {
			return // told, not wrong
		}
		made++
		checkShell(t, s, 0, 1e-5)
		checkTouches(t, balls, s)
	})
	if 2*made < tried {
		t.Errorf("only %d of %d hulls could be made", made, tried)
	}
}
