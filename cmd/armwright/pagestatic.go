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

// solverName is what the program as WebAssembly is called beside this one. A release
// ships both: built into each program it would make every one of them half as large
// again, for the few that write a page.
const solverName = "armwright.wasm"

// runStatic writes the page with all that it needs into a folder.
func runStatic(s *streams, o *pageOptions) error {
	brief, err := pageBrief(s, o)
	if err != nil {
		return err
	}
	if _, err := page.New(brief, page.Options{}); err != nil { // what a page refuses
		return err
	}
	solver, err := readSolver(s, o.solver)
	if err != nil {
		return err
	}
	dir, err := openFolder(s, o.static, o.force)
	if err != nil {
		return err
	}
	defer dir.Discard()
	files, err := page.Static(brief, program(), solver)
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
		fmt.Fprintf(s.err, "armwright: wrote %s to %s; hand the folder out with any web server\n", count(len(files)+1, "file"), o.static)
	}
	return nil
}

// readSolver reads the program as WebAssembly.
func readSolver(s *streams, name string) ([]byte, error) {
	const build = "build it from the same source: GOOS=js GOARCH=wasm go build -trimpath -ldflags='-s -w' -o " + solverName + " ./cmd/armwright-worker; then name it with --solver"
	if name == "" {
		own, err := os.Executable()
		if err != nil {
			return nil, err
		}
		name = filepath.Join(filepath.Dir(own), solverName)
	}
	data, err := os.ReadFile(name)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, &failure{code: exitFailed, what: "cannot write a static page", why: fmt.Errorf("the program for browsers, %s, is not there", name), hint: build}
	case err != nil:
		return nil, unreadable(name, build, err)
	case !bytes.HasPrefix(data, []byte("\x00asm")):
		return nil, &failure{code: exitFailed, what: "cannot write a static page", why: fmt.Errorf("%s is no WebAssembly", name), hint: build}
	}
	s.reads(name)
	return data, nil
}
