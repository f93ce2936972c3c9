package main

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"armwright/export/draw"
)

// manifestName is the list of all files with their SHA-256, in the form that
// sha256sum -c reads. It is written last: a folder without it is not complete.
const manifestName = "MANIFEST.sha256"

func digest(data []byte) string {
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:])
}

func manifest(files []draw.File) draw.File {
	var b bytes.Buffer
	sorted := slices.SortedFunc(slices.Values(files), func(a, b draw.File) int { return strings.Compare(a.Path, b.Path) })
	for _, f := range sorted {
		fmt.Fprintf(&b, "%s  %s\n", digest(f.Data), f.Path)
	}
	return draw.File{Path: manifestName, Data: b.Bytes()}
}

// readManifest returns the digests by path, nil if there is no manifest.
func readManifest(dir string) map[string]string {
	data, err := os.ReadFile(filepath.Join(dir, manifestName))
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

// contents is what a folder holds, seen from an output that is to replace it.
type contents int

const (
	empty   contents = iota
	ours             // an earlier output as it was written, or part of it
	changed          // an earlier output with files changed or added
	foreign          // something else
)

// inspect says what a folder holds, and names the first file that was changed
// or added.
func inspect(dir string) (state contents, name string, err error) {
	entries, err := os.ReadDir(dir)
	if err != nil || len(entries) == 0 {
		return empty, "", err
	}
	sums := readManifest(dir)
	if sums == nil {
		return foreign, "", nil
	}
	err = filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		rel, err := filepath.Rel(dir, path)
		if err != nil {
			return err
		}
		rel = filepath.ToSlash(rel)
		if rel == manifestName {
			return nil
		}
		sum, listed := sums[rel]
		if listed && d.Type().IsRegular() {
			data, err := os.ReadFile(path)
			if err != nil {
				return err
			}
			if digest(data) == sum {
				return nil
			}
		}
		state, name = changed, rel
		return fs.SkipAll
	})
	if state == empty {
		state = ours
	}
	return state, name, err
}
