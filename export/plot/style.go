package plot

import (
	_ "embed"
	"strings"
)

//go:embed style.css
var style string

// Style is the style sheet of charts on a page. It takes --ink, --rule and --bad from
// the page and brings the colours of lines with it, for light and for dark.
var Style = strings.NewReplacer("LIGHT", Light().properties(), "DARK", Dark().properties()).Replace(style)

// Palette are the colours of the three lines of a chart, and of its bands.
type Palette struct{ One, Two, Three, Band string }

// Light is the palette for white paper. Readers without red or green cones tell its
// lines apart: a test holds them to a distance under a published simulation.
func Light() Palette { return Palette{"#2272c3", "#b86200", "#3d0f52", "#2272c333"} }

// Dark is the palette for a dark screen.
func Dark() Palette { return Palette{"#3f8fe0", "#e0a030", "#f2e4fa", "#3f8fe033"} }

func (p Palette) properties() string {
	return "--one: " + p.One + "; --two: " + p.Two + "; --three: " + p.Three + "; --band: " + p.Band + ";"
}
