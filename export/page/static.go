package page

import (
	"bytes"
	"compress/gzip"
	"encoding/json"

	"armwright/export/folder"
	"armwright/specs"
)

// Programs are those that run in a browser, as WebAssembly.
type Programs struct {
	Solver []byte // built of cmd/armwright-worker: what the page is played with
	Files  []byte // built of cmd/armwright-files: what makes the files of a station
}

// Names of what the page finds beside it, or within it where it stands alone.
const (
	solverFile = "armwright-worker.wasm.gz"
	filesFile  = "armwright-files.wasm.gz"
	briefFile  = "brief.json"
)

// Static is the page as files for any web server: its own, the brief it begins with, and
// the programs, packed: whether a server packs what it sends does not matter then. Beside
// them is alone.html, which holds it all and opens from a disk. Program is the program's
// name with its version.
func Static(brief specs.Brief, program string, programs Programs) ([]folder.File, error) {
	first, err := text(brief)
	if err != nil {
		return nil, err
	}
	start, err := json.Marshal(map[string]string{"text": first, "program": program})
	if err != nil {
		return nil, err
	}
	beside := []folder.File{{Path: briefFile, Data: start}}
	for _, p := range []struct {
		name string
		data []byte
	}{{solverFile, programs.Solver}, {filesFile, programs.Files}} {
		small, err := packed(p.data)
		if err != nil {
			return nil, err
		}
		beside = append(beside, folder.File{Path: p.name, Data: small})
	}
	index, err := front{Folder: "assets/", Solver: solverFile, Files: filesFile}.write()
	if err != nil {
		return nil, err
	}
	whole, err := standAlone(beside)
	if err != nil {
		return nil, err
	}
	licence, err := assets.ReadFile("assets/wasm_exec.LICENSE") // the Go authors'
	if err != nil {
		return nil, err
	}
	files := []folder.File{{Path: "index.html", Data: index}, {Path: "alone.html", Data: whole}, {Path: "assets/wasm_exec.LICENSE", Data: licence}}
	for _, name := range Assets() {
		data, _, _ := Asset(name)
		files = append(files, folder.File{Path: "assets/" + name, Data: data})
	}
	return append(files, beside...), nil
}

func packed(data []byte) ([]byte, error) {
	var small bytes.Buffer
	z, err := gzip.NewWriterLevel(&small, gzip.BestCompression)
	if err == nil {
		_, err = z.Write(data)
	}
	if err == nil {
		err = z.Close()
	}
	return small.Bytes(), err
}
