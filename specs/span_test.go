package specs

import (
	"math"
	"testing"
)

// Spans hold what the tags say, and what they format can be set again.
func TestSpan(t *testing.T) {
	b, err := ParseBrief("b.yaml", []byte(least))
	if err != nil {
		t.Fatal(err)
	}
	deg := math.Pi / 180
	for _, c := range []struct {
		path               string
		value, least, most float64
		moved              float64
		text               string
	}{
		{"limits.hand_path", 15, 1, 100, 17.5, "17.5 mm"},
		{"posture.lean.to", 20 * deg, 0, 45 * deg, 22.5 * deg, "22.5 deg"},
		{"posture.seat_positions", 14, 1, 40, 16, "16"},
		{"limits.torque_match", 0.06, 0.001, 0.6, 0.075, "7.5 %"},
		{"resistance.ratio.to", 2, 0.5, 2.6, 2.25, "2.25"},
	} {
		s, ok := b.Span(c.path)
		if !ok || math.Abs(s.Value-c.value)+math.Abs(s.Least-c.least)+math.Abs(s.Most-c.most) > 1e-12 {
			t.Errorf("%s: %+v, %v", c.path, s, ok)
		}
		if got := s.Format(c.moved); got != c.text {
			t.Errorf("%s: %s, want %s", c.path, got, c.text)
		}
		if err := b.Set(c.path, s.Format(c.moved)); err != nil {
			t.Error(err)
		}
		if s, _ = b.Span(c.path); math.Abs(s.Value-c.moved) > 1e-12 {
			t.Errorf("%s: set to %g, holds %g", c.path, c.moved, s.Value)
		}
	}
	seat, _ := b.Span("posture.seat_positions")
	if seat.Set(17.2); b.Posture.SeatPositions != 17 || !seat.Whole() {
		t.Errorf("%d seat positions, want 17", b.Posture.SeatPositions)
	}
	for _, path := range []string{"kind", "limits", "posture.lean", "limits.hand_pth", "posture.lean.to.x", ""} {
		if _, ok := b.Span(path); ok {
			t.Errorf("%q has a span", path)
		}
	}
}
