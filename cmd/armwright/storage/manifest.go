package storage

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"armwright/export/folder"
)

// ManifestName is the list of all files with their SHA-256, in the form that
// sha256sum -c reads. It is written last: a folder without it is not complete.
const ManifestName = "MANIFEST.sha256"

// Digest is the SHA-256 of a file, as a manifest writes it.
func Digest(data []byte) string {
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:])
}

// Manifest is the manifest of files, itself a file.
func Manifest(files []folder.File) folder.File {
	var b bytes.Buffer
	sorted := slices.SortedFunc(slices.Values(files), func(a, b folder.File) int { return strings.Compare(a.Path, b.Path) })
	for _, f := range sorted {
		fmt.Fprintf(&b, "%s  %s\n", Digest(f.Data), f.Path)
	}
	return folder.File{Path: ManifestName, Data: b.Bytes()}
}

// readManifest returns the digests by path, nil if there is no manifest.
func readManifest(dir string) map[string]string {
	data, err := os.ReadFile(filepath.Join(dir, ManifestName))
	if err != nil {
		return nil
	}
	sums := map[string]string{}
	for l := range strings.Lines(string(data)) {
		sum, path, ok := strings.Cut(strings.TrimSuffix(l, "\n"), "  ")
		if !ok || len(sum) != hex.EncodedLen(sha256.Size) {
			return nil
		}
		sums[path] = sum
	}
	return sums
}

// Contents is what a folder holds, seen from an output that is to replace it.
type Contents int

// What a folder may hold.
const (
	Empty   Contents = iota
	Ours             // an earlier output as it was written, or part of it
	Changed          // an earlier output with files or folders changed or added
	Foreign          // something else
)

// View is what a folder holds at one time.
type View struct {
	State Contents
	Name  string // the first file or folder that was changed or added
	mark  string // digest of every name, kind and content, to see whether it is still the same
}

// proofs are the files of which an output of ours holds one at least, with how its
// schema begins: that of a station, and that of its parts each a file.
var proofs = [...]struct{ name, schema string }{{"report.json", "armwright/report/"}, {"assembly.json", "armwright/assembly/"}}

// written reports whether a folder with a manifest is an output of ours: anybody may
// keep digests in a file of that name, but one that lists a report or an assembly of
// ours, and holds it, is.
func written(dir string, sums map[string]string) bool {
	for _, p := range proofs {
		if _, listed := sums[p.name]; !listed {
			continue
		}
		data, err := os.ReadFile(filepath.Join(dir, p.name))
		if err != nil {
			continue
		}
		var r struct {
			Schema string `json:"schema"`
		}
		if json.Unmarshal(data, &r) == nil && strings.HasPrefix(r.Schema, p.schema) {
			return true
		}
	}
	return false
}

// Inspect says what a folder holds.
func Inspect(dir string) (View, error) {
	entries, err := os.ReadDir(dir)
	if err != nil || len(entries) == 0 {
		return View{}, err
	}
	sums := readManifest(dir)
	if !written(dir, sums) {
		return View{State: Foreign}, nil
	}
	v := View{State: Ours}
	all := sha256.New()
	err = filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		rel, err := filepath.Rel(dir, path)
		if err != nil {
			return err
		}
		rel = filepath.ToSlash(rel)
		fmt.Fprintf(all, "%q %v\n", rel, d.Type())
		known := false
		switch {
		case d.IsDir():
			known = rel == "." || holds(sums, rel)
		case d.Type().IsRegular():
			data, err := os.ReadFile(path)
			if err != nil {
				return err
			}
			sum := Digest(data)
			known = rel == ManifestName || sums[rel] == sum
			fmt.Fprintln(all, sum)
		}
		if !known && v.State == Ours {
			v.State, v.Name = Changed, rel
		}
		return nil
	})
	v.mark = hex.EncodeToString(all.Sum(nil))
	return v, err
}

// holds reports whether a folder is one that the listed files lie in.
func holds(sums map[string]string, folder string) bool {
	for path := range sums {
		if strings.HasPrefix(path, folder+"/") {
			return true
		}
	}
	return false
}
