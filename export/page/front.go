package page

import (
	"bytes"
	"embed"
	"html/template"
	"path"
	"slices"

	"armwright/export/plot"
	"armwright/export/sheet"
	"armwright/export/viewer"
)

//go:embed assets
var assets embed.FS

func frontPage() *template.Template {
	return template.Must(template.ParseFS(assets, "assets/front.tmpl"))
}

// front is what the page itself is made of.
type front struct {
	Folder        string // of the assets, as the page names it; empty where all is within it
	Solver, Files string // names of the programs as WebAssembly; empty where a server answers
	Notice        string
	Examples      []string
	Alone         *alone // nil where the assets lie in a folder
}

// write is the page, the same for every brief.
func (f front) write() ([]byte, error) {
	f.Notice, f.Examples = sheet.Notice, Examples()
	var b bytes.Buffer
	err := frontPage().Execute(&b, f)
	return b.Bytes(), err
}

// Front is the page that a server answers. Its assets are under the given folder, such
// as "/assets/".
func Front(folder string) ([]byte, error) { return front{Folder: folder}.write() }

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
