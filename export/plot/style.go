package plot

import _ "embed"

// Style is the style sheet of charts on a page. It takes its colours from the
// custom properties --ink, --rule, --bad, --one, --two, --three and --band.
//
//go:embed style.css
var Style string
