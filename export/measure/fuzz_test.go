package measure

import (
	"errors"
	"io/fs"
	"testing"
	"testing/fstest"
)

// FuzzFolder demands that whatever report and drawing a folder holds, measuring
// it ends, with an outcome or with an error that names a file.
func FuzzFolder(f *testing.F) {
	whole := output(f, study, true)
	f.Add(whole[reportPath].Data, whole[corePath].Data)
	for _, report := range []string{"", "{", `{"schema":"armwright/report/1"}`, `{"schema":"armwright/report/1","files":[{"path":"cut/cam.dxf"},{"path":"../up.dxf"}]}`} {
		f.Add([]byte(report), []byte("  0\nEOF\n"))
	}
	f.Fuzz(func(t *testing.T, report, drawing []byte) {
		folder := onePath{fstest.MapFS{reportPath: {Data: report}, corePath: {Data: drawing}}}
		out, err := Folder(folder)
		var bad *FileError
		switch {
		case err == nil:
			for _, d := range out.Differences {
				if d.String() == "" {
					t.Fatal("a difference says nothing")
				}
			}
		case !errors.As(err, &bad) || bad.Path == "" || bad.Hint() == "":
			t.Fatalf("error without a file or a hint: %#v", err)
		}
	})
}

// onePath is a folder in which every drawing is the core's cut file.
type onePath struct{ fstest.MapFS }

func (o onePath) Open(name string) (fs.File, error) {
	if name != reportPath {
		name = corePath
	}
	return o.MapFS.Open(name)
}
