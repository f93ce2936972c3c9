package page

import (
	"archive/zip"
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"mime"
	"net/http"
	"path"
	"reflect"
	"strconv"
	"time"

	"armwright/specs"
)

// text is a brief as its file.
func text(b specs.Brief) (string, error) {
	var out bytes.Buffer
	err := specs.WriteBrief(&out, b)
	return out.String(), err
}

// same reports whether two quantised frames are one.
func same(a, b specs.Frame) bool { return reflect.DeepEqual(a, b) }

// saveBrief answers with the changed brief as a file.
func (p *Page) saveBrief(w http.ResponseWriter, r *http.Request) {
	_, b, ok := p.read(w, r)
	if !ok {
		return
	}
	out, err := text(b)
	if err != nil {
		fail(w, err)
		return
	}
	send(w, "brief.yaml", []byte(out))
}

// bundle is the files of a station that can be fetched one by one.
type bundle struct {
	Number string   `json:"number"`
	Files  []listed `json:"files"`
}

type listed struct {
	Path  string `json:"path"`
	Bytes int    `json:"bytes"`
}

// everything is the name of all files in one.
const everything = "station.zip"

// makeFiles makes everything that design would write for the station at hand,
// and lists it.
func (p *Page) makeFiles(w http.ResponseWriter, r *http.Request) {
	_, res, ok := p.judged(w, r)
	if !ok || !p.sits(r.Context()) {
		return
	}
	defer func() { <-p.desk }()
	// Who waited long has the usual time from here.
	_ = http.NewResponseController(w).SetWriteDeadline(time.Now().Add(answerTime))
	files, err := p.options.Files(res)
	if err != nil {
		fail(w, err)
		return
	}
	out := bundle{}
	by := map[string][]byte{}
	var packed bytes.Buffer
	z := zip.NewWriter(&packed)
	h := sha256.New()
	for _, f := range files {
		by[f.Path] = f.Data
		out.Files = append(out.Files, listed{f.Path, len(f.Data)})
		h.Write([]byte(f.Path + "\n" + strconv.Itoa(len(f.Data)) + "\n"))
		h.Write(f.Data)
		part, err := z.Create(f.Path)
		if err == nil {
			_, err = part.Write(f.Data)
		}
		if err != nil {
			fail(w, err)
			return
		}
	}
	if err := z.Close(); err != nil {
		fail(w, err)
		return
	}
	by[everything] = packed.Bytes()
	out.Files = append(out.Files, listed{everything, packed.Len()})
	out.Number = hex.EncodeToString(h.Sum(nil)[:8])
	p.mu.Lock()
	p.bundles.put(out.Number, by)
	p.mu.Unlock()
	reply(w, http.StatusOK, out)
}

// sits waits for the desk, at which one station at a time is drawn: a hundred at
// once would take the memory of a hundred and all come too late. It is false when
// the request has ended meanwhile; otherwise the desk is to be left.
func (p *Page) sits(ctx context.Context) bool {
	select {
	case p.desk <- struct{}{}:
	case <-ctx.Done():
		return false
	}
	if ctx.Err() != nil { // both at once
		<-p.desk
		return false
	}
	return true
}

// file answers with one file that was made before.
func (p *Page) file(w http.ResponseWriter, r *http.Request) {
	p.mu.Lock()
	by, ok := p.bundles.get(r.PathValue("number"))
	p.mu.Unlock()
	data, found := by[r.PathValue("path")]
	switch {
	case !ok:
		http.Error(w, "these files are no longer kept; make them again", http.StatusGone)
	case !found:
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
