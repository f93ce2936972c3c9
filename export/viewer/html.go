package viewer

import (
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"embed"
	"encoding/base64"
	"encoding/json"
	"html/template"
	"io"
	"regexp"
	"strings"

	"armwright/specs"
)

//go:embed assets
var assets embed.FS

// Scripts are the modules that draw a scene, in an order in which none needs a later
// one.
func Scripts() []string {
	return []string{"matrix.js", "mesh.js", "pose.js", "paint.js", "space.js", "motion.js", "stage.js"}
}

// Style is the style sheet of the view.
const Style = "space.css"

// Asset is one of the view's own files.
func Asset(name string) ([]byte, error) { return assets.ReadFile("assets/" + name) }

func stationPage() *template.Template {
	return template.Must(template.ParseFS(assets, "assets/station.tmpl"))
}

// HTML writes a scene with its meshes as one page that needs nothing else: data,
// style and script are in it, and its content policy admits those alone.
func HTML(w io.Writer, s *Scene, units specs.Units) error {
	modules, err := joined(append(Scripts(), "station.js")...)
	if err != nil {
		return err
	}
	script := Bundle(modules)
	style, err := joined("station.css", Style)
	if err != nil {
		return err
	}
	data, err := packed(struct {
		Scene  *Scene `json:"scene"`
		Inches bool   `json:"inches"`
	}{s, units.Symbol("mm") == "in"})
	if err != nil {
		return err
	}
	return stationPage().Execute(w, struct {
		Name, Notice          string
		ScriptHash, StyleHash string
		Style                 template.CSS
		Script                template.JS
		Data                  template.JS
	}{s.Name, s.Notice, Sum(script), Sum(style), template.CSS(style), template.JS(script), template.JS(`"` + data + `"`)})
}

// Bundle is modules, one after the other, as one: what they take from each other is
// there already, so that no two may name a thing alike.
func Bundle(modules string) string {
	return regexp.MustCompile(`(?m)^(import .*\n|export )`).ReplaceAllString(modules, "")
}

func joined(names ...string) (string, error) {
	var b strings.Builder
	for _, name := range names {
		data, err := Asset(name)
		if err != nil {
			return "", err
		}
		b.Write(data)
	}
	return b.String(), nil
}

// Sum is a text's hash as a content policy names it.
func Sum(s string) string {
	h := sha256.Sum256([]byte(s))
	return "sha256-" + base64.StdEncoding.EncodeToString(h[:])
}

// packed is a value as JSON, gzip and base64.
func packed(v any) (string, error) {
	var b bytes.Buffer
	z, err := gzip.NewWriterLevel(&b, gzip.BestCompression)
	if err == nil {
		err = json.NewEncoder(z).Encode(v)
	}
	if err == nil {
		err = z.Close()
	}
	return base64.StdEncoding.EncodeToString(b.Bytes()), err
}
