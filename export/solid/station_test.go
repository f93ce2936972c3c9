package solid_test

import (
	"bytes"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"armwright/export/partlist"
	"armwright/export/solid"
	"armwright/export/solid/solidtest"
	"armwright/geometry/assembly"
	body "armwright/geometry/solid"
	"armwright/solver"
	"armwright/solver/drive"
	"armwright/solver/judge"
	"armwright/specs"
	"armwright/testdata"

	"gonum.org/v1/gonum/spatial/r2"
)

// examples are the stations of the briefs in specs/examples; the fourth brief is a
// bench, which has none.
var examples = []string{"arm-pad-station", "reclined-levers", "reclined-linkage"}

func station(t testing.TB, name string) *solver.Result {
	t.Helper()
	frame, err := specs.ParseFrame(name, testdata.Frame(name))
	if err != nil {
		t.Fatal(err)
	}
	r, err := solver.Check(frame)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func model(r *solver.Result, pose assembly.Pose) solid.Model {
	return solid.Model{Name: r.Frame.Name, Number: r.Frame.Drawing.Number, Notice: "Preliminary geometry.", Parts: solid.Parts(r.Station.Assembly, pose)}
}

// cabled is the model with its cables.
func cabled(t testing.TB, r *solver.Result, pose assembly.Pose) solid.Model {
	t.Helper()
	m := model(r, pose)
	ropes, err := solid.Cables(&r.Station, &r.Resistance, pose)
	if err != nil {
		t.Fatal(err)
	}
	m.Parts = append(m.Parts, ropes...)
	return m
}

func step(t testing.TB, m solid.Model) []byte {
	t.Helper()
	var out bytes.Buffer
	if err := solid.Write(&out, m); err != nil {
		t.Fatal(err)
	}
	if err := solid.Audit(out.Bytes()); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// sides of a box: least x, y and z, greatest x, y and z.
type box [6]float64

func (b *box) join(c box) {
	for i := range 3 {
		b[i], b[i+3] = min(b[i], c[i]), max(b[i+3], c[i+3])
	}
}

func nothing() box {
	far := math.Inf(1)
	return box{far, far, far, -far, -far, -far}
}

func boxOf(m solid.Model) box {
	out := nothing()
	for _, p := range m.Parts {
		s, ok := p.Solid.(body.Solid)
		if !ok {
			continue // a cable, which stays within
		}
		low, high := body.Bounds(s, p.At)
		out.join(box{low.X, low.Y, low.Z, high.X, high.Y, high.Z})
	}
	return out
}

// extremes are poses in which the station reaches highest, farthest to the side, to the
// rear and to the front, each with another seat, handle and foot plate.
func extremes(r *solver.Result) []assembly.Pose {
	var out [4]assembly.Pose
	reach := [4]float64{math.Inf(-1), math.Inf(-1), math.Inf(-1), math.Inf(-1)}
	v := &r.Station.Values
	other := func(k, positions int) int { return max(0, positions-1) * k / 3 }
	for axis := range v.Axes {
		for _, theta := range r.Resistance.Angles {
			pose := r.Station.Assembly.Reference
			up := r.Resistance.Lift(theta)
			pose.Axis, pose.Flexion, pose.Lift = axis, [2]float64{theta, theta}, [2]float64{up, up}
			b := boxOf(model(r, pose))
			for k, x := range [4]float64{b[5], b[4], -b[0], b[3]} {
				if x > reach[k]+1e-6 {
					reach[k] = x
					pose.Seat, pose.Handle, pose.Foot = other(k, v.Seat.Positions), other(3-k, v.Handle.Positions), other(k, v.FootPlate.Positions)
					pose.Chest = other(k, v.Chest.Positions)
					out[k] = pose
				}
			}
		}
	}
	return out[:]
}

// Another kernel reads every example in the poses in which it reaches farthest, and
// finds sound bodies, each named as its part and as heavy as the parts list says; none in
// another's place; and all of them together as large as the requirements say.
func TestStationsInACAD(t *testing.T) {
	testdata.Long(t)
	for _, name := range examples {
		t.Run(name, func(t *testing.T) {
			r := station(t, name)
			poses := extremes(r)
			var files [][]byte
			var models []solid.Model
			for _, pose := range poses {
				m := cabled(t, r, pose)
				models, files = append(models, m), append(files, step(t, m))
			}
			for i, v := range solidtest.Check(t, files...) {
				// Where faces meet the kernel bridges less than the accuracy that the file states.
				if !v.Valid || v.Solids != len(models[i].Parts) || v.Tolerance > 1e-5 {
					t.Errorf("pose %d: %+v, want %d valid solids", i, v, len(models[i].Parts))
				}
			}
			whole := nothing()
			for i, read := range solidtest.OpenCASCADE(t, true, files...) {
				whole.join(sound(t, r, models[i], read))
			}
			sizes(t, r, whole)
		})
	}
}

// throughBush, mm³, is a little more than the tip of the guide sheave's pull pin, 6 mm
// thick, takes of its bush's wall of 3 mm, through which it is drilled when they are put
// together: the bush has no holes before.
const throughBush = 90

// sound holds what was read to the model and the parts list, and returns the box round it.
func sound(t *testing.T, r *solver.Result, m solid.Model, read solidtest.Read) box {
	t.Helper()
	a := r.Station.Assembly
	if len(read.Solids) != len(m.Parts) || read.Others != 0 {
		t.Fatalf("%d solids and %d other things, want %d and none", len(read.Solids), read.Others, len(m.Parts))
	}
	listed := map[string]float64{}
	for _, line := range partlist.Of(r) {
		for _, i := range line.Parts {
			listed[a.Parts[i].ID] = line.Mass
		}
	}
	out := nothing()
	for i, s := range read.Solids {
		id := m.Parts[i].ID
		if s.ID() != id {
			t.Errorf("solid %d is named %q, want %q", i, s.Label, id)
		}
		if !s.Closed {
			t.Errorf("%s is open", id)
		}
		if i >= len(a.Parts) {
			continue // a cable
		}
		p := &a.Parts[i]
		if mass := p.Density * s.Volume; p.Density > 0 && math.Abs(mass-listed[p.ID]) > 1e-3*listed[p.ID] {
			t.Errorf("%s weighs %.6g kg, listed are %.6g", p.ID, mass, listed[p.ID])
		}
		out.join(s.Box)
	}
	for _, o := range read.Overlaps {
		on, in := m.Parts[o.Solids[0]].ID, m.Parts[o.Solids[1]].ID
		loop := strings.HasPrefix(on, "wheel-") && strings.HasPrefix(in, "loop-") // it lies on teeth, which are left out
		tip := strings.HasPrefix(on, "guide-bush-") && strings.HasPrefix(in, "guide-pin-") && o.Volume < throughBush
		if o.Volume > 5 && !loop && !tip { // mm³
			t.Errorf("%s and %s share %.4g mm³", on, in, o.Volume)
		}
	}
	if want := boxOf(m); !near(out, want, 0.01) {
		t.Errorf("the box is %v, want %v", out, want)
	}
	return out
}

func near(a, b box, slack float64) bool {
	return !slices.ContainsFunc([]int{0, 1, 2, 3, 4, 5}, func(i int) bool { return !(math.Abs(a[i]-b[i]) <= slack) })
}

// sizes holds the box round all poses to length, width and height as they are judged:
// as large where the poses that reach farthest are among them, else no larger.
func sizes(t *testing.T, r *solver.Result, whole box) {
	t.Helper()
	if math.Abs(whole[2]) > 1e-6 {
		t.Errorf("the station stands at %v, not on the floor", whole[2])
	}
	for id, is := range map[string]float64{"footprint-length": whole[3] - whole[0], "footprint-width": whole[4] - whole[1], "height": whole[5]} {
		q, ok := r.Requirement(id)
		// Half circles in 256 chords sag 0.005 mm on the largest radii there are.
		if !ok || is > q.Value+0.001 || is < q.Value-0.01 {
			t.Errorf("%s of the solids is %.4f, judged is %.4f", id, is, q.Value)
		}
	}
}

// Cables are as long as their way, and what is gone of one as the arms bend the cam has
// wound up. That is reckoned in the plane of the cam, out of which the cable leads a little.
func TestCables(t *testing.T) {
	r := station(t, "arm-pad-station")
	pose := r.Station.Middle()
	free := func(theta float64) (right, left, loop float64) {
		up := r.Resistance.Lift(theta)
		pose.Flexion, pose.Lift = [2]float64{theta, theta}, [2]float64{up, up}
		m := cabled(t, r, pose)
		var lengths []float64
		for _, p := range m.Parts[len(r.Station.Assembly.Parts):] {
			lengths = append(lengths, p.Solid.(body.Rope).Length())
		}
		return lengths[0], lengths[1], lengths[2]
	}
	angles := r.Resistance.Angles
	first, last := angles[0], angles[len(angles)-1]
	right, left, loop := free(first)
	const out = 0.3 // mm, by the angle to the plane of the cam
	if want := r.Station.Route.Length; math.Abs(right-want) > out || math.Abs(left-right) > 1e-9 {
		t.Errorf("cables of %.4f and %.4f mm, want %.4f", right, left, want)
	}
	for _, f := range r.Station.Assembly.Flexible {
		if want := f.Stock.Length; f.Closed && math.Abs(loop-want) > 1e-6 {
			t.Errorf("a loop of %.4f mm, want %.4f", loop, want)
		}
	}
	wound := 0.0
	const steps = 2000
	step := (last - first) / steps
	for i := range steps { // of the arc on the cam, by the middle of each step
		theta := first + (float64(i)+.5)*step
		a, err := r.Resistance.Profile.At(theta - step/2)
		if err != nil {
			t.Fatal(err)
		}
		b, err := r.Resistance.Profile.At(theta + step/2)
		if err != nil {
			t.Fatal(err)
		}
		rho, err := r.Resistance.Profile.Radius(theta)
		if err != nil {
			t.Fatal(err)
		}
		// The contact's place on the cam itself, which has turned.
		turned := func(q r2.Vec, theta float64) r2.Vec { return r2.Rotate(q, -r.Resistance.Profile.Ratio*theta, r2.Vec{}) }
		chord := r2.Norm(r2.Sub(turned(b.Contact, theta+step/2), turned(a.Contact, theta-step/2)))
		wound += 2 * rho * math.Asin(chord/(2*rho))
	}
	up, _, _ := free(last)
	if math.Abs(right-up-wound) > out {
		t.Errorf("the cable is %.4f mm shorter, the cam has wound up %.4f", right-up, wound)
	}
	// Without wheels a loop has no way.
	bare := r.Station
	parts := *bare.Assembly
	parts.Parts = parts.Parts[:1]
	bare.Assembly = &parts
	if _, err := solid.Cables(&bare, &r.Resistance, pose); err == nil {
		t.Error("a loop without wheels has a way")
	}
}

// The validator of the format's makers has nothing to say of the meshes of all stations,
// empty and with a person in them.
func TestStationsAsMeshes(t *testing.T) {
	for _, name := range testdata.Few(1, examples...) {
		r := station(t, name)
		m := cabled(t, r, r.Station.Middle())
		seated := m
		seated.Parts = append(slices.Clone(m.Parts), sitter(t, r)...)
		for _, m := range []solid.Model{m, seated} {
			var out bytes.Buffer
			if err := solid.WriteMesh(&out, m); err != nil {
				t.Fatal(err)
			}
			got := solidtest.GLTF(t, out.Bytes())
			if got.Issues != 0 {
				t.Errorf("%s: %d issues: %q", name, got.Issues, got.Messages)
			}
			for i, p := range m.Parts {
				if i >= len(got.Nodes) || got.Nodes[i] != p.ID {
					t.Fatalf("%s: node %d is not %s", name, i, p.ID)
				}
			}
		}
	}
}

// sitter are the bodies of the first boundary person.
func sitter(t testing.TB, r *solver.Result) []solid.Part {
	t.Helper()
	j, err := judge.New(&r.Frame.Asked)
	if err != nil {
		t.Fatal(err)
	}
	sizes, pose, _ := j.Figure(drive.NewMachine(&r.Frame.Geometry), &r.People.Boundary[0])
	parts, err := solid.Person(&sizes, &pose, r.Resistance.Angles[0])
	if err != nil {
		t.Fatal(err)
	}
	return parts
}

// Every station with a person in it is small enough to send, and sound.
func TestSeatedStation(t *testing.T) {
	testdata.Long(t)
	for _, name := range examples {
		r := station(t, name)
		m := model(r, r.Station.Middle())
		if n := len(step(t, m)); n > 3_000_000 {
			t.Errorf("%s: %d bytes, want 3 MB at most", name, n)
		}
		m.Parts = sitter(t, r)
		v := solidtest.Check(t, step(t, m))[0]
		// Faces that go over into each other smoothly meet less sharply than those of parts.
		if !v.Valid || v.Solids != len(m.Parts) || v.Tolerance > 1e-4 {
			t.Errorf("%s: %+v", name, v)
		}
		var ids []string
		for _, p := range m.Parts {
			ids = append(ids, strings.TrimPrefix(p.ID, "person/"))
		}
		want := "[head neck chest belly pelvis thigh-right thigh-left shank-right shank-left foot-right foot-left upper-arm-right upper-arm-left forearm-right hand-right forearm-left hand-left]"
		if fmt.Sprint(ids) != want {
			t.Errorf("%s: bodies %v, want %v", name, ids, want)
		}
	}
}

func BenchmarkWriteStation(b *testing.B) {
	r := station(b, "arm-pad-station")
	m := model(r, r.Station.Middle())
	for b.Loop() {
		if err := solid.Write(&bytes.Buffer{}, m); err != nil {
			b.Fatal(err)
		}
	}
}
