package sheet

import "io"

// Renderer writes drawings in one format, a file each. The same drawing gives
// the same bytes.
type Renderer interface {
	// Extension is what the names of its files end in, such as ".svg".
	Extension() string
	// Render writes a drawing at true size. The error is that of w or the
	// format's own.
	Render(w io.Writer, d *Drawing) error
}
