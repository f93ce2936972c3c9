package draw

import (
	"fmt"

	"armwright/export/dxf"
	"armwright/export/folder"
)

// AuditError says that a DXF file does not pass the structural audit.
type AuditError struct {
	Path     string
	Findings []dxf.Finding
}

func (e *AuditError) Error() string {
	return fmt.Sprintf("draw: %s does not pass the audit: %s", e.Path, e.Findings[0])
}

// Hint says what to do.
func (e *AuditError) Hint() string {
	return "this is a fault of the program, not of the brief; please report it with the brief"
}

// audited returns a DXF file that passes the structural audit, or an
// *AuditError: strict readers refuse what lenient ones repair, so no file
// leaves unread.
func audited(path string, data []byte) (folder.File, error) {
	if f := dxf.Audit(data); len(f) > 0 {
		return folder.File{}, &AuditError{path, f}
	}
	return folder.File{Path: path, Data: data}, nil
}
