//go:build !js

// Package solidtest reads files of bodies with independent readers, for tests:
// OpenCASCADE, in gmsh and in its own test program, and the glTF validator.
package solidtest

import (
	"os/exec"
	"strings"
	"testing"

	"armwright/export/readertest"
)

// Read is what OpenCASCADE found in a STEP file.
type Read struct {
	Solids   []Solid
	Others   int // faces, curves and points that bound no solid
	Overlaps []Overlap
}

// Solid is one solid as OpenCASCADE sees it, in its place, mm.
type Solid struct {
	Label    string // product names joined by /
	Volume   float64
	Centroid [3]float64
	Inertia  [9]float64 // about the centroid, per unit density
	Box      [6]float64 // low corner, high corner; half turns in 256 chords
	Faces    int
	Closed   bool
}

// ID returns the id of the part: what the label ends with twice, once for the
// product and once for its place in the whole.
func (s Solid) ID() string {
	for i := range len(s.Label) {
		if id := s.Label[i:]; strings.HasSuffix(s.Label[:i], "/"+id+"/") {
			return id
		}
	}
	return ""
}

// Overlap is two solids, by their place in Solids, that share a volume.
type Overlap struct {
	Solids [2]int
	Volume float64
}

// OpenCASCADE reads STEP files with gmsh. Looking for overlaps takes time.
func OpenCASCADE(t testing.TB, overlaps bool, files ...[]byte) []Read {
	t.Helper()
	python := readertest.Python(t, "gmsh", "python3-gmsh")
	args := []string{readertest.Script(t, "gmsh_step.py")}
	if overlaps {
		args = append(args, "--overlaps")
	}
	var r []Read
	readertest.RunAll(t, files, "station.step", &r, nil, python, args...)
	return r
}

// Validity is what OpenCASCADE's own check of bodies found in a STEP file.
type Validity struct {
	Solids    int
	Valid     bool
	Tolerance float64 // mm; more than 1e-7 where the reader had to bridge something
	Said      string
}

// Check has OpenCASCADE's test program check the bodies of STEP files.
func Check(t testing.TB, files ...[]byte) []Validity {
	t.Helper()
	if _, err := exec.LookPath("occt-draw"); err != nil {
		readertest.Absent(t, "occt-draw", "install the package occt-draw")
	}
	var v []Validity
	readertest.RunAll(t, files, "station.step", &v, nil, "/usr/bin/python3", readertest.Script(t, "occt_check.py"))
	return v
}

// Checked is what the glTF validator found.
type Checked struct {
	Issues    int // errors, warnings, notes and hints
	Messages  []string
	Triangles int
	Materials int
	Nodes     []string // names of those with a mesh
}

// GLTF checks a binary glTF file.
func GLTF(t testing.TB, data []byte) Checked {
	t.Helper()
	env := readertest.Node(t, "gltf-validator", "2.0.0-dev.3.10")
	var c Checked
	readertest.Run(t, data, "station.glb", &c, env, "node", readertest.Script(t, "gltf_check.js"))
	return c
}
