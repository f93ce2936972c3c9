package serve

import (
	"encoding/json"
	"errors"
	"io"
	"mime"
	"net/http"
	"path"
	"strconv"
	"time"

	"armwright/export/page"
)

// Handler answers the requests of a page served on the given port.
func Handler(p *page.Page, port int) http.Handler {
	h := handler{p}
	m := http.NewServeMux()
	m.HandleFunc("GET /{$}", front)
	m.HandleFunc("GET /assets/{name}", asset)
	m.HandleFunc("POST /open", h.open)
	m.HandleFunc("POST /controls", h.controls)
	m.HandleFunc("POST /evaluate", h.evaluate)
	m.HandleFunc("POST /solve", h.solve)
	m.HandleFunc("POST /meshes", h.meshes)
	m.HandleFunc("POST /persons", h.persons)
	m.HandleFunc("POST /curve", h.curve)
	m.HandleFunc("POST /brief", h.brief)
	m.HandleFunc("POST /views", h.views)
	m.HandleFunc("POST /files", h.makeFiles)
	m.HandleFunc("GET /files/{number}/{path...}", h.file)
	return guard(m, port)
}

type handler struct{ *page.Page }

func front(w http.ResponseWriter, _ *http.Request) {
	data, err := page.Front("/assets/")
	if err != nil {
		http.Error(w, err.Error(), http.StatusInternalServerError)
		return
	}
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	_, _ = w.Write(data)
}

func asset(w http.ResponseWriter, r *http.Request) {
	data, kind, ok := page.Asset(r.PathValue("name"))
	if !ok {
		http.NotFound(w, r)
		return
	}
	w.Header().Set("Content-Type", kind)
	_, _ = w.Write(data)
}

// read reads a request's body. After a refusal, which it writes, it is false.
func read(w http.ResponseWriter, r *http.Request, into any) bool {
	d := json.NewDecoder(r.Body)
	d.DisallowUnknownFields()
	err := d.Decode(into)
	if err == nil {
		if _, more := d.Token(); more != io.EOF {
			err = errors.New("more than one value")
		}
	}
	var large *http.MaxBytesError
	switch {
	case errors.As(err, &large):
		http.Error(w, "the request is too large", http.StatusRequestEntityTooLarge)
		return false
	case err != nil:
		http.Error(w, "the request is not the state of a page", http.StatusBadRequest)
		return false
	}
	// The body is here: from now on the connection is only watched for its end.
	_ = http.NewResponseController(w).SetReadDeadline(time.Time{})
	return true
}

// reply writes a value as JSON, or what is wrong. A value that cannot be used is part
// of playing with a brief, so telling so is a good answer; else we are at fault. The
// only error left is the connection's.
func reply(w http.ResponseWriter, v any, t *page.Trouble) {
	status := http.StatusOK
	if t != nil {
		v = page.Step{Trouble: t}
		if t.Fault {
			status = http.StatusInternalServerError
		}
	}
	w.Header().Set("Content-Type", "application/json; charset=utf-8")
	w.WriteHeader(status)
	_ = json.NewEncoder(w).Encode(v)
}

func (h handler) open(w http.ResponseWriter, r *http.Request) {
	var a page.Ask
	if read(w, r, &a) {
		out, t := h.Open(a)
		reply(w, out, t)
	}
}

func (h handler) controls(w http.ResponseWriter, r *http.Request) {
	var s page.State
	if read(w, r, &s) {
		out, t := h.Controls(s)
		reply(w, out, t)
	}
}

func (h handler) evaluate(w http.ResponseWriter, r *http.Request) {
	var s page.State
	if read(w, r, &s) {
		out := h.Evaluate(s)
		reply(w, out, out.Trouble)
	}
}

// solve tells the search's steps, a line of JSON each. When the page lets go of the
// request the search ends.
func (h handler) solve(w http.ResponseWriter, r *http.Request) {
	var s page.State
	if !read(w, r, &s) {
		return
	}
	control := http.NewResponseController(w)
	_ = control.SetWriteDeadline(time.Now().Add(searchTime + answerTime))
	w.Header().Set("Content-Type", "application/x-ndjson; charset=utf-8")
	lines := json.NewEncoder(w)
	h.Solve(r.Context(), s, func(step page.Step) {
		_ = lines.Encode(step)
		_ = control.Flush()
	})
}

func (h handler) meshes(w http.ResponseWriter, r *http.Request) {
	var keys []string
	if !read(w, r, &keys) {
		return
	}
	out, err := h.Meshes(keys)
	if err != nil {
		http.Error(w, err.Error(), http.StatusInternalServerError)
		return
	}
	reply(w, out, nil)
}

func (h handler) persons(w http.ResponseWriter, r *http.Request) {
	var table page.Table
	if read(w, r, &table) {
		out, t := h.Persons(table)
		reply(w, out, t)
	}
}

func (h handler) curve(w http.ResponseWriter, r *http.Request) {
	var f struct {
		Name string `json:"name"`
		Text string `json:"text"`
	}
	if read(w, r, &f) {
		table, t := h.Curve(f.Name, f.Text)
		reply(w, map[string]string{"table": table}, t)
	}
}

func (h handler) brief(w http.ResponseWriter, r *http.Request) {
	var s page.State
	if !read(w, r, &s) {
		return
	}
	data, t := h.Brief(s)
	if t != nil {
		reply(w, nil, t)
		return
	}
	send(w, "brief.yaml", data)
}

func (h handler) views(w http.ResponseWriter, r *http.Request) {
	var s page.State
	if read(w, r, &s) {
		list, t := h.Views(s)
		reply(w, map[string][]page.Picture{"views": list}, t)
	}
}

func (h handler) makeFiles(w http.ResponseWriter, r *http.Request) {
	var s page.State
	if !read(w, r, &s) {
		return
	}
	out, t := h.MakeFiles(r.Context(), s, func() {
		// Who waited long has the usual time from here.
		_ = http.NewResponseController(w).SetWriteDeadline(time.Now().Add(answerTime))
	})
	if out != nil || t != nil {
		reply(w, out, t)
	}
}

// file answers with one file that was made before.
func (h handler) file(w http.ResponseWriter, r *http.Request) {
	data, kept := h.File(r.PathValue("number"), r.PathValue("path"))
	switch {
	case !kept:
		http.Error(w, "these files are no longer kept; make them again", http.StatusGone)
	case data == nil:
		http.NotFound(w, r)
	default:
		send(w, path.Base(r.PathValue("path")), data)
	}
}

// send answers with a file to be saved, never shown: what it holds must not
// run as part of the page.
func send(w http.ResponseWriter, name string, data []byte) {
	kind := "application/octet-stream"
	switch path.Ext(name) {
	case ".yaml":
		kind = "application/yaml"
	case ".pdf":
		kind = "application/pdf"
	case ".zip":
		kind = "application/zip"
	}
	h := w.Header()
	h.Set("Content-Type", kind)
	h.Set("Content-Disposition", mime.FormatMediaType("attachment", map[string]string{"filename": name}))
	h.Set("Content-Length", strconv.Itoa(len(data)))
	_, _ = w.Write(data)
}
