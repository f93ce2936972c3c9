package measure_test

import (
	"bytes"
	"fmt"
	"testing/fstest"

	"armwright/export/draw"
	"armwright/export/measure"
	"armwright/export/report"
	"armwright/solver"
	"armwright/specs"
	"armwright/testdata"
)

// What was drawn is read back and held against the report beside it.
func ExampleFolder() {
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
	folder := fstest.MapFS{}
	var listed []report.File
	for _, f := range files {
		folder[f.Path] = &fstest.MapFile{Data: f.Data}
		listed = append(listed, report.File{Path: f.Path, Bytes: len(f.Data)})
	}
	var b bytes.Buffer
	if err := report.JSON(&b, report.New(result, "armwright", listed)); err != nil {
		panic(err)
	}
	folder["report.json"] = &fstest.MapFile{Data: b.Bytes()}

	out, err := measure.Folder(folder)
	if err != nil {
		panic(err)
	}
	fmt.Println(len(out.Files), "files agree:", out.Compared > 100 && len(out.Differences) == 0)
	// Output:
	// 4 files agree: true
}
