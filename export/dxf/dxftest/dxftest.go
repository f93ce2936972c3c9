//go:build !js

// Package dxftest reads DXF files with independent readers, for tests: ezdxf,
// GDAL/OGR and dxf-parser, and prints them with LibreCAD. A test that asks for a reader which is not
// installed is skipped, or fails if ARMWRIGHT_READERS=required is set.
package dxftest

import (
	"encoding/json"
	"math"
	"os"
	"os/exec"
	"testing"

	"armwright/export/dxf"
	"armwright/export/readertest"
)

// Audit is what ezdxf found.
type Audit struct {
	Errors     []string       // defects it cannot repair
	Fixes      []string       // defects it repaired on loading
	Version    string         // $ACADVER
	Units      int            // $INSUNITS, 0 if absent
	Layers     []string       // sorted
	Entities   map[string]int // of model space, by type
	Texts      []string
	Dimensions []AuditDimension
}

// AuditDimension is a dimension as ezdxf sees it.
type AuditDimension struct {
	Type        int // group 70 without flags
	Text        string
	Measurement *float64 // nil in release 12
	StyleFactor float64  `json:"style_factor"`
	Block       string
	Picture     int // primitives in its block
}

// The readers that are interpreted stay until the tests have ended.
var ezdxf, parser readertest.Lasting

// Ezdxf reads the file strictly with ezdxf and audits it.
func Ezdxf(t testing.TB, data []byte) Audit {
	t.Helper()
	var a Audit
	ezdxf.Read(t, data, "drawing.dxf", &a, func() *exec.Cmd {
		return exec.Command(readertest.Python(t, "ezdxf", "python3-ezdxf"), readertest.Script(t, "ezdxf_audit.py"))
	})
	return a
}

// Feature is one geometry as OGR sees it.
type Feature struct {
	Layer, SubClasses, Text string
	Type                    string // Point, LineString, Polygon ...
	Line                    [][]float64
}

// Length returns the length of the feature's line, 0 for anything else. OGR
// breaks arcs into chords of 4 degrees: compare within 1e-3.
func (f Feature) Length() float64 {
	var sum float64
	for i := 1; i < len(f.Line); i++ {
		sum += math.Hypot(f.Line[i][0]-f.Line[i-1][0], f.Line[i][1]-f.Line[i-1][1])
	}
	return sum
}

// OGR reads the file with GDAL/OGR and returns its features, those of blocks
// and dimension pictures included.
func OGR(t testing.TB, data []byte) []Feature {
	t.Helper()
	if _, err := exec.LookPath("ogr2ogr"); err != nil {
		readertest.Absent(t, "GDAL/OGR", "install the package gdal-bin")
	}
	var collection struct {
		Features []struct {
			Properties struct{ Layer, SubClasses, Text string }
			Geometry   struct {
				Type        string
				Coordinates json.RawMessage
			}
		}
	}
	readertest.Run(t, data, "drawing.dxf", &collection, nil, "ogr2ogr", "-f", "GeoJSON", "/vsistdout/")
	var out []Feature
	for _, f := range collection.Features {
		p := f.Properties
		g := Feature{p.Layer, p.SubClasses, p.Text, f.Geometry.Type, nil}
		if g.Type == "LineString" {
			if err := json.Unmarshal(f.Geometry.Coordinates, &g.Line); err != nil {
				t.Fatalf("coordinates from ogr2ogr: %v", err)
			}
		}
		out = append(out, g)
	}
	return out
}

// Parsed is what dxf-parser found.
type Parsed struct {
	Entities  map[string]int
	Polylines []int // vertices of each
	Layers    []string
	Units     int
}

// Parser reads the file with dxf-parser.
func Parser(t testing.TB, data []byte) Parsed {
	t.Helper()
	var p Parsed
	parser.Read(t, data, "drawing.dxf", &p, func() *exec.Cmd {
		env := readertest.Node(t, "dxf-parser", "1.1.2")
		cmd := exec.Command("node", readertest.Script(t, "dxf_parser.js"))
		cmd.Env = append(os.Environ(), env...)
		return cmd
	})
	return p
}

// Sound checks a file with our own audit and with every reader: no findings,
// no errors, no fixes, and all readers see the same model space. It returns what
// ezdxf saw.
func Sound(t *testing.T, data []byte) (seenBy Audit) {
	t.Helper()
	for _, f := range dxf.Audit(data) {
		t.Errorf("audit: %v", f)
	}
	var seen map[string]int
	t.Run("ezdxf", func(t *testing.T) {
		a := Ezdxf(t, data)
		if len(a.Errors)+len(a.Fixes) != 0 {
			t.Errorf("errors %q, fixes %q, want none", a.Errors, a.Fixes)
		}
		seen, seenBy = a.Entities, a
	})
	t.Run("ogr", func(t *testing.T) {
		if n := len(OGR(t, data)); n == 0 {
			t.Error("no features")
		}
	})
	t.Run("dxf-parser", func(t *testing.T) {
		p := Parser(t, data)
		for kind, n := range seen {
			if p.Entities[kind] != n {
				t.Errorf("%d %s, ezdxf sees %d", p.Entities[kind], kind, n)
			}
		}
	})
	return seenBy
}
