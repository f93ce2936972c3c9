//go:build !js

package viewer_test

import (
	"bytes"
	_ "embed"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"armwright/export/page/pagetest"
	"armwright/export/viewer"
	"armwright/geometry/assembly"
	body "armwright/geometry/solid"
	"armwright/solver/judge"
	"armwright/specs"
	"armwright/testdata"

	"gonum.org/v1/gonum/spatial/r3"
)

// judged is a station of the test data with its scene, nil on a bench.
func judged(t *testing.T, name string) (*judge.Result, *viewer.Scene) {
	t.Helper()
	f, err := specs.ParseFrame(name, testdata.Frame(name))
	if err != nil {
		t.Fatal(err)
	}
	j, err := judge.New(&f.Asked)
	if err != nil {
		t.Fatal(err)
	}
	r, err := j.Frame(f.Name, f.Geometry)
	if err != nil {
		t.Fatal(err)
	}
	s, err := viewer.New(j, r)
	if err != nil {
		t.Fatal(err)
	}
	return r, s
}

// placement is a placement as the scene tells it.
func placement(p viewer.Place) body.Placement {
	v := func(i int) r3.Vec { return r3.Vec{X: p[i], Y: p[i+1], Z: p[i+2]} }
	return body.Placement{X: v(0), Y: v(3), Z: v(6), Origin: v(9)}
}

// places works out where a scene's groups are, from its numbers alone.
func places(s *viewer.Scene, pose map[string]int, theta, lift float64) []body.Placement {
	var out []body.Placement
	for _, g := range s.Groups {
		d := body.World()
		switch m := g.Motion; {
		case m.Turn != nil:
			v := func(a [3]float64) r3.Vec { return r3.Vec{X: a[0], Y: a[1], Z: a[2]} }
			d = body.Turn(v(m.Turn.Point), v(m.Turn.Axis), m.Turn.Ratio*(theta-m.Turn.From))
		case m.Step != nil:
			d = body.Shift(r3.Scale(float64(pose[m.Setting]), r3.Vec{X: m.Step[0], Y: m.Step[1], Z: m.Step[2]}))
		case m.Places != nil:
			d = placement(m.Places[min(pose[m.Setting], len(m.Places)-1)])
		case m.Lift != 0:
			d = body.Shift(r3.Vec{Z: m.Lift * lift})
		case m.Course != nil:
			x := (theta - s.First) / (s.Last - s.First) * float64(len(m.Course)-1)
			i := min(int(x), len(m.Course)-2)
			var p viewer.Place
			for k := range p {
				p[k] = m.Course[i][k] + (x-float64(i))*(m.Course[i+1][k]-m.Course[i][k])
			}
			d = placement(p)
		}
		if g.Parent >= 0 {
			d = out[g.Parent].Then(d)
		}
		out = append(out, d)
	}
	return out
}

// A scene's numbers put every part, and by mirroring every left one, where the
// assembly has it, in poses over all settings and the range.
func TestPartsStandWhereTheAssemblyHasThem(t *testing.T) {
	for _, name := range testdata.Frames() {
		r, s := judged(t, name)
		if s == nil {
			continue
		}
		a := r.Station.Assembly
		count := 0
		for _, p := range s.Parts {
			count++
			if p.Pair {
				count++
			}
		}
		if count != len(a.Parts) {
			t.Fatalf("%s: %d parts shown of %d", name, count, len(a.Parts))
		}
		for n := range 5 {
			share := float64(n) / 4
			theta := s.First + share*(s.Last-s.First)
			set := map[string]int{}
			for _, q := range s.Settings {
				set[q.Name] = int(share * float64(max(0, q.Count-1)))
			}
			lift := r.Resistance.Lift(theta)
			pose := assembly.Pose{Axis: set["axis"], Seat: set["seat"], Handle: set["handle"], Foot: set["foot"], Chest: set["chest"], Flexion: [2]float64{theta, theta}, Lift: [2]float64{lift, lift}}
			want, got := a.At(pose, nil), places(s, set, theta, lift)
			// A part of 300 mm about the pivot: a course mixed between steps of 3 degrees
			// stands 300·(1 - cos 1.5°) = 0.1 mm off; the rest is rounding.
			const near = 0.15
			for _, p := range s.Parts {
				id := p.ID
				if p.Pair {
					id += "-right"
				}
				check := func(id string, mirror float64) {
					i, ok := a.Index(id)
					if !ok {
						t.Fatalf("%s: no part %s", name, id)
					}
					at := got[p.Group].Then(placement(p.At)).Point(r3.Vec{})
					at.Y *= mirror
					if where := a.Place(i, want).Point(r3.Vec{}); r3.Norm(r3.Sub(at, where)) > near {
						t.Errorf("%s at %.0f deg: %s stands at %v, in the scene at %v", name, theta*180/math.Pi, id, where, at)
					}
				}
				check(id, 1)
				if p.Pair {
					check(p.ID+"-left", -1)
				}
			}
		}
	}
}

// A packed mesh holds its body: the box is the body's own, and the volume that its
// triangles close in is the body's but for what chords cut off round faces.
func TestMeshesHoldTheirBodies(t *testing.T) {
	r, s := judged(t, "arm-pad-station")
	if err := s.Bodies(); err != nil {
		t.Fatal(err)
	}
	for _, p := range s.Parts {
		m := s.Meshes[p.Mesh]
		// all are the sums of one coordinate's differences after the other.
		all := func(packed []int) [][3]int {
			out := make([][3]int, len(packed)/3)
			for k := range 3 {
				q := 0
				for i := range out {
					q += packed[k*len(out)+i]
					out[i][k] = q
				}
			}
			return out
		}
		var points []r3.Vec
		for _, q := range all(m.Points) {
			points = append(points, r3.Vec{X: m.Low[0] + m.Step*float64(q[0]), Y: m.Low[1] + m.Step*float64(q[1]), Z: m.Low[2] + m.Step*float64(q[2])})
		}
		corner := all(m.Triangles)
		volume := 0.0
		for _, c := range corner {
			volume += r3.Dot(points[c[0]], r3.Cross(points[c[1]], points[c[2]])) / 6
		}
		id := p.ID
		if p.Pair {
			id += "-right"
		}
		i, _ := r.Station.Assembly.Index(id)
		want := r.Station.Assembly.Parts[i].Solid.Volume()
		// A polygon of 12 chords, the coarsest, is 0.955 of its circle: a pin loses so
		// much, a hole gives as much; thin boards lose by the steps of 0.05 mm.
		if share := volume / want; share < 0.93 || share > 1.05 {
			t.Errorf("%s: triangles close in %.3f of the volume", p.ID, share)
		}
	}
}

// Hand and grip of a seated person are within the hand-path mismatch of each other at
// every flexion, and the cable's lead ends where its path goes on.
func TestWhatBendsMeets(t *testing.T) {
	for _, name := range []string{"arm-pad-station", "reclined-levers"} {
		r, s := judged(t, name)
		if len(s.People) != len(r.People.Boundary) {
			t.Fatalf("%s: %d persons, want %d", name, len(s.People), len(r.People.Boundary))
		}
		for i, p := range s.People {
			set := map[string]int{}
			for k, q := range s.Settings {
				set[q.Name] = p.Settings[k]
			}
			for n := range 9 {
				theta := s.First + float64(n)/8*(s.Last-s.First)
				got := places(s, set, theta, 0)
				at := s.Handle.At
				grip := got[s.Handle.Group].Point(r3.Vec{X: at[0], Y: at[1], Z: at[2]})
				sin, cos := math.Sincos(theta)
				var hand [3]float64
				for k := range hand {
					hand[k] = p.Hand.Still[k] + sin*p.Hand.Sin[k] + cos*p.Hand.Cos[k]
				}
				gap := r3.Norm(r3.Sub(grip, r3.Vec{X: hand[0], Y: hand[1], Z: hand[2]}))
				// Half the grip, 70 mm, along it, and the largest hand path of the brief.
				if limit := 70 + r.Frame.Limits.HandPath; gap > limit {
					t.Errorf("%s, %s at %.0f deg: the hand is %.0f mm from the grip's middle", name, r.People.Boundary[i].Person.Label, theta*180/math.Pi, gap)
				}
			}
		}
		for _, c := range s.Cables {
			for _, over := range c.Lead {
				for _, line := range over {
					last, next := line[len(line)-1], c.Path[0]
					if d := math.Hypot(last[0]-next[0], last[1]-next[1]); d > 0.1 {
						t.Errorf("%s: the cable leaps %.2f mm aside below the guide sheave", name, d)
					}
				}
			}
		}
	}
}

// What falls short is told of a station that is too short, with parts that exist.
func TestShortGapsAreTold(t *testing.T) {
	if _, s := judged(t, "arm-pad-station"); len(s.Short) != 0 {
		t.Errorf("a station that is met has short gaps: %+v", s.Short)
	}
	_, s := judged(t, "base-too-short")
	if len(s.Short) == 0 {
		t.Fatal("none told")
	}
	for _, q := range s.Short {
		if len(q.Parts) == 0 || q.Text == "" {
			t.Errorf("%+v lights nothing", q)
		}
	}
	if _, s := judged(t, "cam-study"); s != nil {
		t.Error("a bench has a scene")
	}
}

// The page of a station is the same bytes each time, small, and asks for nothing else.
func TestStationPage(t *testing.T) {
	var first []byte
	for range 2 {
		r, s := judged(t, "arm-pad-station")
		if err := s.Bodies(); err != nil {
			t.Fatal(err)
		}
		var b bytes.Buffer
		if err := viewer.HTML(&b, s, r.Frame.Drawing.Reads()); err != nil {
			t.Fatal(err)
		}
		if first == nil {
			first = b.Bytes()
		} else if !bytes.Equal(first, b.Bytes()) {
			t.Error("the same station gives another page")
		}
	}
	if most := 200_000; len(first) > most {
		t.Errorf("%d bytes, at most %d", len(first), most)
	}
	if strings.Contains(string(first), "http://") || strings.Contains(string(first), "https://") {
		t.Error("it names another place")
	}
	_, s := judged(t, "arm-pad-station")
	if _, ok, err := s.Body("nothing"); ok || err != nil {
		t.Errorf("a mesh of nothing: %v", err)
	}
	if data, err := json.Marshal(s); err != nil || bytes.Contains(data, []byte("NaN")) {
		t.Errorf("%v", err)
	}
}

// In a browser it is drawn, moves, and keeps nobody out.
func TestStationPageInBrowser(t *testing.T) {
	testdata.Long(t)
	r, s := judged(t, "base-too-short")
	if err := s.Bodies(); err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := viewer.HTML(&b, s, r.Frame.Drawing.Reads()); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "station.html")
	if err := os.WriteFile(path, b.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	pagetest.Sound(t, "file://"+path)
	var seen struct {
		Errors, Changed []string
		Still           float64
	}
	pagetest.Run(t, &seen, stationScript, "file://"+path)
	if len(seen.Errors) > 0 || math.Abs(seen.Still-s.First*180/math.Pi) > 0.01 {
		t.Errorf("errors %q; begins at %g deg", seen.Errors, seen.Still)
	}
	if want := []string{"turn", "move", "nearer", "home", "flexion", "nobody", "handle", "stopped"}; !slices.Equal(seen.Changed, want) {
		t.Errorf("changed by keyboard: %q, want %q", seen.Changed, want)
	}
}

//go:embed testdata/station.cjs
var stationScript string
