package page

import (
	"bytes"
	"embed"
	"html/template"
	"path"
	"slices"
	"sync"

	"armwright/export/plot"
	"armwright/export/sheet"
	"armwright/export/viewer"
)

//go:embed assets
var assets embed.FS

var frontPage = sync.OnceValue(func() *template.Template {
	return template.Must(template.ParseFS(assets, "assets/front.tmpl"))
})

// Front is the page itself, the same for every brief. Its assets are under the given
// folder, "/assets/" or one beside the page. Solver is where the page finds the program
// as WebAssembly, or empty where a server answers it.
func Front(folder, solver string) ([]byte, error) {
	var b bytes.Buffer
	err := frontPage().Execute(&b, struct {
		Folder, Solver, Notice string
		Examples               []string
	}{folder, solver, sheet.Notice, Examples()})
	return b.Bytes(), err
}

// Asset is one of the page's own files, with its type; not ok for any other name.
func Asset(name string) (data []byte, kind string, ok bool) {
	kind = map[string]string{".css": "text/css; charset=utf-8", ".js": "text/javascript; charset=utf-8"}[path.Ext(name)]
	if kind == "" {
		return nil, "", false
	}
	var err error
	switch {
	case name == "plot.css": // as on the report
		data = []byte(plot.Style)
	case name == viewer.Style || slices.Contains(viewer.Scripts(), name):
		data, err = viewer.Asset(name)
	default:
		data, err = assets.ReadFile("assets/" + name)
	}
	return data, kind, err == nil
}

// Assets are the names of all of them.
func Assets() []string {
	out := append([]string{"plot.css", viewer.Style}, viewer.Scripts()...)
	list, err := assets.ReadDir("assets")
	if err != nil {
		panic("page: " + err.Error()) // they are embedded
	}
	for _, e := range list {
		if _, _, ok := Asset(e.Name()); ok {
			out = append(out, e.Name())
		}
	}
	slices.Sort(out)
	return out
}
