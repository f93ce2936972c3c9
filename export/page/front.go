package page

import (
	"bytes"
	"crypto/sha256"
	"embed"
	"encoding/hex"
	"html/template"
	"net/http"
	"path"
	"sync"

	"armwright/export/plot"
	"armwright/export/sheet"
)

//go:embed assets
var assets embed.FS

var frontPage = sync.OnceValue(func() *template.Template {
	return template.Must(template.ParseFS(assets, "assets/front.tmpl"))
})

// front answers with the page itself.
func (p *Page) front(w http.ResponseWriter, _ *http.Request) {
	groups, err := controls(p.brief)
	if err != nil {
		fail(w, err)
		return
	}
	mark, err := p.mark()
	if err != nil {
		fail(w, err)
		return
	}
	var b bytes.Buffer
	err = frontPage().Execute(&b, struct {
		Name, Kind, Notice, Mark string
		Bench                    bool
		Groups                   []group
	}{p.brief.Name, p.brief.Kind, sheet.Notice, mark, p.brief.Kind == "cam-study", groups})
	if err != nil {
		fail(w, err)
		return
	}
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	_, _ = w.Write(b.Bytes())
}

// mark tells the brief as opened from others: an address holds it beside the
// changes, which mean something for this brief only.
func (p *Page) mark() (string, error) {
	own, err := text(p.brief)
	h := sha256.Sum256([]byte(own))
	return hex.EncodeToString(h[:4]), err
}

// asset answers with one of the page's own files.
func asset(w http.ResponseWriter, r *http.Request) {
	name := r.PathValue("name")
	kind := map[string]string{".css": "text/css; charset=utf-8", ".js": "text/javascript; charset=utf-8"}[path.Ext(name)]
	data, err := assets.ReadFile("assets/" + name)
	if name == "plot.css" { // as on the report
		data, err = []byte(plot.Style), nil
	}
	if kind == "" || err != nil {
		http.NotFound(w, r)
		return
	}
	w.Header().Set("Content-Type", kind)
	_, _ = w.Write(data)
}
