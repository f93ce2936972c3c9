package sheet

import "testing"

// Inches are written without a zero before the point (ASME Y14.5, M), angles and
// millimetres with it.
func TestInchesBeginWithThePoint(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{Inches.Length(12.7, 0), ".50"}, {Inches.Length(12.7, 2), ".500"}, {Inches.Length(25.4, 0), "1.00"}, {Inches.Length(-6.35, 0), "-.25"},
		{Inches.Length(0.01, 0), ".00"}, {InchesDual.Length(12.7, 0), ".50 [12.7]"}, {Inches.Figure(6.35), ".250"}, {Inches.Fine(254), "10.000"},
		{Millimetres.Length(0.5, 0), "0.5"}, {Millimetres.Fine(0.5), "0.50"},
		{Dimension{Kind: Horizontal, B: pt(12.7, 0), Tolerance: Tolerance{Plus: 0.254, Minus: 0.254}}.Text(Inches), ".50 ±.01"},
	} {
		if c.got != c.want {
			t.Errorf("%q, want %q", c.got, c.want)
		}
	}
}
