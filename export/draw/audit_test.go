package draw

import (
	"bytes"
	"errors"
	"testing"

	"armwright/export/dxf"
)

// A file with a defect does not leave: its first finding is told with the path.
func TestUnsoundFilesDoNotLeave(t *testing.T) {
	sound := files(t, "cam-study", Options{})["cut/cam.dxf"]
	if _, err := audited("cut/cam.dxf", sound); err != nil {
		t.Fatal(err)
	}
	broken := bytes.Replace(sound, []byte("EOF"), []byte("END"), 1)
	_, err := audited("cut/cam.dxf", broken)
	var e *AuditError
	if !errors.As(err, &e) || e.Path != "cut/cam.dxf" {
		t.Fatalf("err = %v", err)
	}
	for _, f := range e.Findings {
		if f.Code == dxf.NoEOF {
			return
		}
	}
	t.Errorf("no finding for the missing EOF: %v", e.Findings)
}
