//go:build !js

package dxf

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
)

// crowd is a drawing of n entities of the kinds that sheets are made of.
func crowd(n int) *Document {
	d := New()
	for i := range n {
		x, y := float64(i%1000), float64(i/1000)
		s, c := math.Sincos(float64(i))
		switch i % 5 {
		case 0, 1:
			d.Add(Line{A: Point{x, y}, B: Point{x + c, y + s}})
		case 2:
			d.Add(Circle{Centre: Point{x, y}, Radius: 1.5 + c})
		case 3:
			d.Add(Arc{Centre: Point{x, y}, Radius: 1.5 + s, Start: 0, End: 1 + c/2})
		case 4:
			d.Add(Polyline{Closed: true, Vertices: []Vertex{{Point{x, y}, c / 3}, {Point{x + 1, y}, 0}, {Point{x + 1, y + 1}, s / 3}, {Point{x, y + 1}, 0}}})
		}
	}
	return d
}

const crowded = 100_000

// Our writer, on 100 000 entities and fewer, into memory that is kept: the writer
// is measured, not how memory grows.
func BenchmarkWrite(b *testing.B) {
	for _, n := range []int{1000, 10_000, crowded} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			d := crowd(n)
			var out bytes.Buffer
			b.ReportAllocs()
			for b.Loop() {
				out.Reset()
				if err := Write(&out, d, AC1015); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(n)*float64(b.N)/b.Elapsed().Seconds(), "entities/s")
		})
	}
}

// ezdxf, on the same entities.
func BenchmarkWriteEzdxf(b *testing.B) {
	python := os.Getenv("ARMWRIGHT_PYTHON")
	if python == "" {
		python = "/usr/bin/python3"
	}
	var file bytes.Buffer
	if err := Write(&file, crowd(crowded), AC1015); err != nil {
		b.Fatal(err)
	}
	path := filepath.Join(b.TempDir(), "crowd.dxf")
	if err := os.WriteFile(path, file.Bytes(), 0o600); err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		out, err := exec.Command(python, filepath.Join("testdata", "ezdxf_write.py"), path).Output()
		if err != nil {
			b.Skipf("ezdxf: %v", err)
		}
		var n int
		var seconds float64
		if _, err := fmt.Sscan(string(out), &n, &seconds); err != nil || n != crowded {
			b.Fatalf("%q: %v", out, err)
		}
		b.ReportMetric(crowded/seconds, "entities/s")
	}
}
