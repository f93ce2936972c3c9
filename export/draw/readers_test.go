//go:build !js

package draw

import (
	"bytes"
	"encoding/json"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"armwright/export/dxf/dxftest"
	"armwright/export/report"
)

// Every DXF file passes our audit and the independent readers: ezdxf finds
// nothing to report or repair, GDAL/OGR and dxf-parser read it.
func TestReadersAccept(t *testing.T) {
	for name, which := range map[string]string{"arm-pad-station": "", "cam-study": "cut/", "reclined-levers": "drawings/01"} {
		for path, data := range files(t, name, Options{}) {
			if strings.HasPrefix(path, which) && strings.HasSuffix(path, ".dxf") {
				t.Run(name+"/"+path, func(t *testing.T) { dxftest.Sound(t, data) })
			}
		}
	}
	for path, data := range files(t, "arm-pad-station", Options{R12: true}) {
		if path == "cut/cam.dxf" || strings.HasSuffix(path, "01-general-arrangement.dxf") {
			t.Run("r12/"+path, func(t *testing.T) { dxftest.Sound(t, data) })
		}
	}
}

// polylines reads the closed polylines of a layer with ezdxf.
func polylines(t *testing.T, layer string, data []byte) [][][3]float64 {
	t.Helper()
	dxftest.Ezdxf(t, data) // skips, or fails, without ezdxf
	path := filepath.Join(t.TempDir(), "cut.dxf")
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	python := os.Getenv("ARMWRIGHT_PYTHON")
	if python == "" {
		python = "/usr/bin/python3"
	}
	out, err := exec.Command(python, filepath.Join("testdata", "ezdxf_polylines.py"), layer, path).Output()
	if err != nil {
		t.Fatal(err)
	}
	var lines [][][3]float64
	if err := json.Unmarshal(out, &lines); err != nil {
		t.Fatal(err)
	}
	return lines
}

// points breaks an outline of vertices and bulges into points close together.
// A bulge is the tangent of a quarter of the arc's angle (DXF reference), so
// the sagitta is bulge times half the chord.
func points(line [][3]float64) [][2]float64 {
	const pieces = 64
	var out [][2]float64
	for i, v := range line {
		w := line[(i+1)%len(line)]
		dx, dy := w[0]-v[0], w[1]-v[1]
		if v[2] == 0 {
			out = append(out, [2]float64{v[0], v[1]})
			continue
		}
		chord := math.Hypot(dx, dy)
		s := v[2] * chord / 2
		radius := (chord*chord/4 + s*s) / (2 * s) // signed
		// The centre is on the left of the chord for a positive bulge.
		cx := v[0] + dx/2 - dy/chord*(radius-s)
		cy := v[1] + dy/2 + dx/chord*(radius-s)
		start, angle := math.Atan2(v[1]-cy, v[0]-cx), 4*math.Atan(v[2])
		for k := range pieces {
			sin, cos := math.Sincos(start + angle*float64(k)/pieces)
			out = append(out, [2]float64{cx + math.Abs(radius)*cos, cy + math.Abs(radius)*sin})
		}
	}
	return out
}

// The cut file read by ezdxf and measured by nothing but support lines: the
// cable's centre line has the outward normal n and the distance h of the
// farthest point of the turned outline along n, plus half a cable, from the
// cam axis; it touches the guide sheave, whose centre lies h less the sheave's
// radius along n on the open side. That gives the direction, and h is the
// moment arm in report.json within 0.2 %.
func TestIndependentMomentArm(t *testing.T) {
	for _, name := range []string{"arm-pad-station", "cam-study"} {
		t.Run(name, func(t *testing.T) {
			r := result(t, name)
			lines := polylines(t, "CUT", files(t, name, Options{})["cut/cam.dxf"])
			if len(lines) != 1 {
				t.Fatalf("%d closed polylines on CUT, want 1", len(lines))
			}
			outline := points(lines[0])

			// From here on only what the report says and what the file holds.
			var written bytes.Buffer
			if err := report.JSON(&written, report.New(r, "test", nil)); err != nil {
				t.Fatal(err)
			}
			var said struct {
				Resistance struct {
					Angles []float64
					Cam    struct {
						Ratio float64
						Guide struct {
							X, Y, Radius float64
							Side         string
						}
						CableDiameter float64   `json:"cable_diameter"`
						MomentArm     []float64 `json:"moment_arm"`
					}
				}
			}
			if err := json.Unmarshal(written.Bytes(), &said); err != nil {
				t.Fatal(err)
			}
			c := said.Resistance.Cam
			if c.Guide.Side != "open" || len(c.MomentArm) < 10 {
				t.Fatalf("the test takes the open side: %+v", c)
			}
			worst := 0.0
			for i, angle := range said.Resistance.Angles {
				theta := angle * math.Pi / 180
				support := func(psi float64) float64 {
					nx, ny := math.Cos(psi-c.Ratio*theta), math.Sin(psi-c.Ratio*theta)
					most := math.Inf(-1)
					for _, p := range outline {
						most = math.Max(most, nx*p[0]+ny*p[1])
					}
					return most + c.CableDiameter/2
				}
				// From the direction of the guide, half a turn on: the guide's
				// centre passes from beyond the line to this side of it.
				lo := math.Atan2(c.Guide.Y, c.Guide.X)
				hi := lo + math.Pi
				for range 60 {
					psi := (lo + hi) / 2
					if support(psi)-c.Guide.Radius < c.Guide.X*math.Cos(psi)+c.Guide.Y*math.Sin(psi) {
						lo = psi
					} else {
						hi = psi
					}
				}
				got, want := support((lo+hi)/2), c.MomentArm[i]
				worst = math.Max(worst, math.Abs(got-want)/want)
			}
			t.Logf("largest difference %.4f %%", 100*worst)
			if worst > 0.002 {
				t.Errorf("the cut outline's moment arm differs by %.3f %%, limit 0.2 %%", 100*worst)
			}
		})
	}
}
