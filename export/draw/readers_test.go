//go:build !js

package draw

import (
	"bytes"
	"encoding/json"
	"maps"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"armwright/export/dxf"
	"armwright/export/dxf/dxftest"
	"armwright/export/readertest"
	"armwright/export/report"
	"armwright/export/sheet"
	"armwright/export/stationtest"
	"armwright/testdata"
)

// Every DXF file of every example in both versions passes our audit and the
// independent readers: ezdxf finds nothing to report or repair, GDAL/OGR and
// dxf-parser read it, all see the same entities, and ezdxf the dimensions with
// their texts and the layers of the sheet model. Without
// ARMWRIGHT_READERS=required, a file of each kind.
func TestReadersAccept(t *testing.T) {
	all := os.Getenv(readertest.Requirement) == "required"
	some := map[string]bool{"arm-pad-station/drawings/01-general-arrangement.dxf": true, "cam-study/cut/cam.dxf": true,
		"cam-study/drawings/03-cam.dxf": true, "reclined-levers/drawings/02-pivots.dxf": true}
	for _, name := range testdata.Few(2, stations()...) {
		if !all && !slices.ContainsFunc(slices.Collect(maps.Keys(some)), func(path string) bool { return strings.HasPrefix(path, name+"/") }) {
			continue
		}
		for _, r12 := range []bool{false, true} {
			if !all && r12 != (name == "cam-study") {
				continue // one of the two that a kind is written in
			}
			set := files(t, name, Options{R12: r12, Nest: all})
			for _, path := range slices.Sorted(maps.Keys(set)) {
				if !strings.HasSuffix(path, ".dxf") || !all && !some[name+"/"+path] {
					continue
				}
				title := name + "/" + path
				if r12 {
					title = "r12/" + title
				}
				t.Run(title, func(t *testing.T) {
					t.Parallel()
					agrees(t, path, document(t, set[path]), dxftest.Sound(t, set[path]))
				})
			}
		}
	}
}

// agrees compares dimensions and layers as written with those that ezdxf sees.
func agrees(t *testing.T, path string, d *dxf.Document, a dxftest.Audit) {
	t.Helper()
	if a.Version == "" {
		return // without ezdxf
	}
	signs := strings.NewReplacer("%%d", "°", "%%c", "⌀", "%%p", "±") // ezdxf leaves them as they stand in the file
	var want, got []string
	for _, e := range d.Entities {
		if v, ok := e.(dxf.Dimension); ok {
			want = append(want, v.Text)
		}
	}
	for _, v := range a.Dimensions {
		got = append(got, signs.Replace(v.Text))
		if v.Picture == 0 {
			t.Errorf("dimension %q has an empty block", v.Text)
		}
	}
	slices.Sort(want)
	slices.Sort(got)
	if !slices.Equal(got, want) {
		t.Errorf("dimensions %q, want %q", got, want)
	}
	layers := []string{"0"}
	if strings.HasPrefix(path, "cut/") {
		layers = append(layers, dxf.CutLayer, dxf.EtchLayer)
		if len(want) > 0 {
			t.Errorf("%d dimensions in a cut file", len(want))
		}
	} else {
		for _, r := range sheet.Roles() {
			layers = append(layers, r.Style().Layer)
		}
	}
	// Readers add layers of their own, such as Defpoints.
	for _, l := range layers {
		if !slices.Contains(a.Layers, l) {
			t.Errorf("no layer %s in %q", l, a.Layers)
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
			r := stationtest.Result(t, name)
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
