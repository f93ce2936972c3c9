package page

import (
	"archive/zip"
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"strconv"
	"sync"

	"armwright/export/folder"
	"armwright/solver"
)

// Desk makes the files of stations, one station at a time: a hundred at once would take
// the memory of a hundred and all come too late. It keeps what was asked for last.
type Desk struct {
	files func(*solver.Result) ([]folder.File, error)
	taken chan struct{} // held while all files of a station are made

	mu      sync.Mutex
	bundles shelf[map[string][]byte]
}

// NewDesk returns a desk at which files makes everything that design would write.
func NewDesk(files func(*solver.Result) ([]folder.File, error)) *Desk {
	return &Desk{files: files, taken: make(chan struct{}, 1), bundles: newShelf[map[string][]byte](mostBundles)}
}

// Make makes the files of a station. begin is called when its turn has come; nil is
// nothing.
func (d *Desk) Make(ctx context.Context, r *solver.Result, begin func()) (*Bundle, error) {
	if !d.sits(ctx) {
		return nil, ctx.Err()
	}
	defer func() { <-d.taken }()
	if begin != nil {
		begin()
	}
	files, err := d.files(r)
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
	d.mu.Lock()
	d.bundles.put(out.Number, by)
	d.mu.Unlock()
	return out, nil
}

// sits waits for the desk. It is false when the request has ended meanwhile; otherwise
// the desk is to be left.
func (d *Desk) sits(ctx context.Context) bool {
	select {
	case d.taken <- struct{}{}:
	case <-ctx.Done():
		return false
	}
	if ctx.Err() != nil { // both at once
		<-d.taken
		return false
	}
	return true
}

// File is one file that was made before; kept is false when none of its bundle are
// kept any more, and data nil when the bundle has no such file.
func (d *Desk) File(number, path string) (data []byte, kept bool) {
	d.mu.Lock()
	defer d.mu.Unlock()
	by, kept := d.bundles.get(number)
	return by[path], kept
}
