package page

import (
	"archive/zip"
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"strconv"
)

// Brief is the changed brief as a file.
func (p *Page) Brief(s State) ([]byte, *Trouble) {
	b, err := p.asked(s)
	var out string
	if err == nil {
		out, err = text(b)
	}
	if err != nil {
		t := troubleOf(err)
		return nil, &t
	}
	return []byte(out), nil
}

// Bundle is the files of a station that can be fetched one by one.
type Bundle struct {
	Number string   `json:"number"`
	Files  []Listed `json:"files"`
}

// Listed is one of them.
type Listed struct {
	Path  string `json:"path"`
	Bytes int    `json:"bytes"`
}

// everything is the name of all files in one.
const everything = "station.zip"

// MakeFiles makes everything that design would write for the station at hand, and
// lists it. begin is called when its turn has come; nil is nothing. Where the context
// has ended meanwhile there is neither.
func (p *Page) MakeFiles(ctx context.Context, s State, begin func()) (*Bundle, *Trouble) {
	out, err := p.makeFiles(ctx, s, begin)
	switch {
	case ctx.Err() != nil:
		return nil, nil
	case err != nil:
		t := troubleOf(err)
		return nil, &t
	}
	return out, nil
}

func (p *Page) makeFiles(ctx context.Context, s State, begin func()) (*Bundle, error) {
	res, err := p.judged(s)
	if err != nil {
		return nil, err
	}
	if !p.sits(ctx) {
		return nil, ctx.Err()
	}
	defer func() { <-p.desk }()
	if begin != nil {
		begin()
	}
	files, err := p.options.Files(res)
	if err != nil {
		return nil, err
	}
	out := &Bundle{}
	by := map[string][]byte{}
	var packed bytes.Buffer
	z := zip.NewWriter(&packed)
	h := sha256.New()
	for _, f := range files {
		by[f.Path] = f.Data
		out.Files = append(out.Files, Listed{f.Path, len(f.Data)})
		h.Write([]byte(f.Path + "\n" + strconv.Itoa(len(f.Data)) + "\n"))
		h.Write(f.Data)
		part, err := z.Create(f.Path)
		if err == nil {
			_, err = part.Write(f.Data)
		}
		if err != nil {
			return nil, err
		}
	}
	if err := z.Close(); err != nil {
		return nil, err
	}
	by[everything] = packed.Bytes()
	out.Files = append(out.Files, Listed{everything, packed.Len()})
	out.Number = hex.EncodeToString(h.Sum(nil)[:8])
	p.mu.Lock()
	p.bundles.put(out.Number, by)
	p.mu.Unlock()
	return out, nil
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

// File is one file that was made before; kept is false when none of its bundle are
// kept any more, and data nil when the bundle has no such file.
func (p *Page) File(number, path string) (data []byte, kept bool) {
	p.mu.Lock()
	defer p.mu.Unlock()
	by, kept := p.bundles.get(number)
	return by[path], kept
}
