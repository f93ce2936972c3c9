package draw_test

import (
	"fmt"

	"armwright/export/draw"
	"armwright/solver"
	"armwright/specs"
	"armwright/testdata"
)

// A frame is checked and drawn; the files are written by the caller.
func ExampleAll() {
	frame, err := specs.ParseFrame("cam-study.yaml", testdata.Frame("cam-study"))
	if err != nil {
		panic(err)
	}
	result, err := solver.Check(frame)
	if err != nil {
		panic(err)
	}
	files, err := draw.All(result, nil, draw.Options{})
	if err != nil {
		panic(err)
	}
	for _, f := range files {
		fmt.Println(f.Path)
	}
	// Output:
	// cut/cam-cheek.dxf
	// cut/cam.dxf
	// drawings/03-cam.dxf
	// drawings/03-cam.pdf
	// drawings/03-cam.svg
	// drawings/07-torque.dxf
	// drawings/07-torque.pdf
	// drawings/07-torque.svg
	// drawings/drawings.pdf
}
