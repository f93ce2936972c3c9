package page

import (
	"encoding/base64"
	"fmt"
	"html/template"
	"slices"
	"strings"

	"armwright/export/folder"
	"armwright/export/viewer"
)

// alone is what stands within a page that has no folder beside it: browsers let no page
// read files beside it from a disk. Its content policy admits nothing else.
type alone struct {
	Style                 template.CSS
	Script                template.JS
	StyleHash, ScriptHash string
	Within                template.HTML // data blocks by the names of the files they stand for
}

// standAlone is the page with its assets and what would lie beside it.
func standAlone(beside []folder.File) ([]byte, error) {
	var style, modules, within strings.Builder
	for _, name := range Assets() {
		if data, _, _ := Asset(name); strings.HasSuffix(name, ".css") {
			style.Write(data)
		}
	}
	for _, name := range slices.Concat(viewer.Scripts(), []string{"dom.js", "cam.js", "chart.js", "controls.js", "crowd.js", "designs.js", "past.js", "persons.js", "link.js", "page.js"}) {
		data, _, ok := Asset(name)
		if !ok {
			return nil, fmt.Errorf("page: no asset %s", name)
		}
		modules.Write(data)
	}
	starter, _, _ := Asset("wasm_exec.js")
	worker, _, _ := Asset("worker.js")
	for _, f := range append(beside, folder.File{Path: "worker.js", Data: slices.Concat(starter, worker)}) {
		fmt.Fprintf(&within, "<script type=\"text/plain\" id=\"%s\">%s</script>\n", f.Path, base64.StdEncoding.EncodeToString(f.Data))
	}
	script := viewer.Bundle(modules.String())
	return front{Solver: solverFile, Files: filesFile, Alone: &alone{
		Style: template.CSS(style.String()), Script: template.JS(script),
		StyleHash: viewer.Sum(style.String()), ScriptHash: viewer.Sum(script),
		Within: template.HTML(within.String()),
	}}.write()
}
