package main

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"armwright/export/page"
)

// The programs for browsers, beside this one. A release ships all: built into each
// program they would make every one of them twice as large, for the few that write a
// page.
const (
	solverName = "armwright-worker"
	filesName  = "armwright-files"
)

// runStatic writes the page with all that it needs into a folder.
func runStatic(s *streams, o *pageOptions) error {
	brief, err := pageBrief(s, o)
	if err != nil {
		return err
	}
	if _, err := page.New(brief, page.Options{}); err != nil { // what a page refuses
		return err
	}
	folder, err := programFolder(o.programs)
	if err != nil {
		return err
	}
	var programs page.Programs
	if programs.Solver, err = readProgram(s, folder, solverName); err != nil {
		return err
	}
	if programs.Files, err = readProgram(s, folder, filesName); err != nil {
		return err
	}
	dir, err := openFolder(s, o.static, o.force)
	if err != nil {
		return err
	}
	defer dir.Discard()
	files, err := page.Static(brief, program(), programs)
	if err != nil {
		return err
	}
	if err := dir.Write(files); err != nil {
		return err
	}
	if err := dir.Commit(); err != nil {
		return err
	}
	if !o.quiet {
		fmt.Fprintf(s.err, "armwright: wrote %s to %s; hand the folder out with any web server, or open alone.html\n", count(len(files)+1, "file"), o.static)
	}
	return nil
}

// programFolder is where the programs for browsers are: as named, or beside this one.
func programFolder(name string) (string, error) {
	if name != "" {
		return name, nil
	}
	own, err := os.Executable()
	return filepath.Dir(own), err
}

// readProgram reads one of them.
func readProgram(s *streams, folder, of string) ([]byte, error) {
	hint := fmt.Sprintf("build it from the same source: GOOS=js GOARCH=wasm go build -trimpath -ldflags='-s -w' -o %s.wasm ./cmd/%s; then name its folder with --programs", of, of)
	name := filepath.Join(folder, of+".wasm")
	data, err := os.ReadFile(name)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, &failure{code: exitFailed, what: "cannot write a static page", why: fmt.Errorf("the program for browsers, %s, is not there", name), hint: hint}
	case err != nil:
		return nil, unreadable(name, hint, err)
	case !bytes.HasPrefix(data, []byte("\x00asm")):
		return nil, &failure{code: exitFailed, what: "cannot write a static page", why: fmt.Errorf("%s is no WebAssembly", name), hint: hint}
	}
	s.reads(name)
	return data, nil
}
