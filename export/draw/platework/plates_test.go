package platework

import (
	"errors"
	"testing"

	"armwright/export/dxf"
)

// An open line is nothing that can be cut.
func TestCutError(t *testing.T) {
	d := dxf.New()
	d.Add(dxf.Line{Attr: dxf.Attr{Layer: dxf.CutLayer}, B: dxf.Point{X: 10}})
	var bad *CutError
	if err := cuttable("cut/x.dxf", d, 5); !errors.As(err, &bad) || len(bad.Faults) == 0 {
		t.Errorf("an open line was not refused: %v", err)
	}
}
