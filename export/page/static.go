package page

import (
	"bytes"
	"compress/gzip"
	"encoding/json"

	"armwright/export/draw"
	"armwright/specs"
)

// Static is the page as files for any web server: its own, the brief it begins with, and
// the program as WebAssembly, built of cmd/armwright-worker, packed: whether a server
// packs what it sends does not matter then. Program is its name with its version.
func Static(brief specs.Brief, program string, solver []byte) ([]draw.File, error) {
	const packed = "armwright.wasm.gz"
	front, err := Front("assets/", packed)
	if err != nil {
		return nil, err
	}
	files := []draw.File{{Path: "index.html", Data: front}}
	for _, name := range Assets() {
		data, _, _ := Asset(name)
		files = append(files, draw.File{Path: "assets/" + name, Data: data})
	}
	licence, err := assets.ReadFile("assets/wasm_exec.LICENSE") // the Go authors'
	if err != nil {
		return nil, err
	}
	first, err := text(brief)
	if err != nil {
		return nil, err
	}
	start, err := json.Marshal(map[string]string{"text": first, "program": program})
	if err != nil {
		return nil, err
	}
	var small bytes.Buffer
	z, err := gzip.NewWriterLevel(&small, gzip.BestCompression)
	if err == nil {
		_, err = z.Write(solver)
	}
	if err == nil {
		err = z.Close()
	}
	return append(files, draw.File{Path: "assets/wasm_exec.LICENSE", Data: licence},
		draw.File{Path: "brief.json", Data: start}, draw.File{Path: packed, Data: small.Bytes()}), err
}
