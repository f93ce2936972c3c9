package report

import (
	"bytes"
	"encoding/json"
	"io"
)

// JSON writes the report as JSON. The bytes depend on the report alone. A
// value that is not finite is an error and nothing is written.
func JSON(w io.Writer, r *Report) error { return Encode(w, r) }

// Encode writes a file for programs: JSON, indented, with a newline at the end.
func Encode(w io.Writer, v any) error {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	if err := e.Encode(v); err != nil {
		return err
	}
	_, err := b.WriteTo(w)
	return err
}
