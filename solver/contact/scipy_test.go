package contact

import (
	"bytes"
	"encoding/json"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"testing"

	"armwright/geometry/statics"
	"armwright/solver/build"
	"armwright/solver/drive"
	"armwright/solver/require"
	"armwright/solver/seat"
	"armwright/solver/solvertest"

	"gonum.org/v1/gonum/spatial/r2"
)

// answer is what the script says of a body: whether a state exists, and which.
type answer struct {
	Exists     bool
	Push, Hold []float64
}

// scipy asks the independent solver about bodies.
func scipy(t *testing.T, bodies []map[string]any) []answer {
	t.Helper()
	const python = "/usr/bin/python3"
	if err := exec.Command(python, "-c", "import scipy").Run(); err != nil {
		if os.Getenv("ARMWRIGHT_READERS") == "required" {
			t.Fatalf("scipy is required and absent: %v", err)
		}
		t.Skip("scipy is absent: install Debian's python3-scipy")
	}
	in, err := json.Marshal(bodies)
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(python, "testdata/contacts.py")
	cmd.Stdin = bytes.NewReader(in)
	var talk bytes.Buffer
	cmd.Stderr = &talk
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("%v\n%s", err, talk.String())
	}
	var list []answer
	if err := json.Unmarshal(out, &list); err != nil {
		t.Fatal(err)
	}
	return list
}

func point(v r2.Vec) [2]float64 { return [2]float64{v.X, v.Y} }

// told is a body as the script reads it.
func told(b *statics.Body, joints []Joint) map[string]any {
	var segments, contacts []any
	for i, s := range b.Segments {
		var forces []any
		for _, f := range s.Forces {
			forces = append(forces, map[string]any{"at": point(f.At), "force": point(f.Force)})
		}
		limit := func(x float64) any {
			if math.IsInf(x, 0) {
				return nil
			}
			return x
		}
		segments = append(segments, map[string]any{"parent": s.Parent, "joint": point(s.Joint), "forces": forces,
			"least": limit(joints[i].Least), "most": limit(joints[i].Most), "arm": joints[i].Arm})
	}
	for _, p := range b.Patches {
		for k := range p.Points {
			at := r2.Add(p.From, r2.Scale((float64(k)+0.5)/float64(p.Points), r2.Sub(p.To, p.From)))
			contacts = append(contacts, map[string]any{"segment": p.Segment, "at": point(at), "normal": point(p.Normal),
				"points": p.Points, "friction": Friction * p.Friction})
		}
	}
	return map[string]any{"segments": segments, "contacts": contacts}
}

// TestAgainstScipy draws persons and loads, on stations of either posture with and
// without something before the chest, and holds contact forces to those of non-negative
// least squares over the edges of the friction cones, each segment balanced by itself.
// Whether a state exists is asked of a linear program.
func TestAgainstScipy(t *testing.T) {
	random := rand.New(rand.NewPCG(18, 2))
	var bodies []map[string]any
	var states []State
	var exist []bool
	var contacts [][]statics.Contact
	for _, name := range []string{"arm-pad-station", "reclined-levers"} {
		f := solvertest.Frame(t, name)
		d, err := drive.New(&f.Asked, &drive.Designer{})
		if err != nil {
			t.Fatal(err)
		}
		s := seat.New(build.Builder{Designer: d}, &seat.Placer{})
		m := drive.NewMachine(&f.Geometry)
		var p seat.Sitter
		rows := require.Rows{Card: &s.Card, Quiet: true}
		for who := range drive.Population(f.People).Draw(100, 7) {
			s.Receive(&p, -1, who, seat.Body(who, f.People, f.Posture.GripRotation))
			p.Level = math.Inf(1)
			set := seat.Setting{Seat: s.NearestSeat(m, &p), Axis: len(m.Axes) / 2, Handle: -1}
			at := s.Place(m, &p, set, &rows)
			var chest *face
			if !s.Reclined() && random.Float64() < 0.75 {
				chest = &face{middle: r2.Vec{X: at.Pose.Shoulder.X + 40 - 30*random.Float64(), Y: f.Geometry.Pivots.Height + 20}, lean: 0.2 * random.Float64(), half: 60}
			}
			sitting := sit(&s, m, &at, chest)
			theta := s.Angles[random.IntN(len(s.Angles))]
			load := 2 * who.ElbowStrength() / at.Body.Forearm * 1.1 * random.Float64()
			st, b, ok := sitting.Hold(load, theta)
			bodies, states, exist = append(bodies, told(&b, sitting.joints())), append(states, st), append(exist, ok)
			contacts = append(contacts, b.Contacts())
		}
	}
	none := 0
	for i, a := range scipy(t, bodies) {
		if a.Exists != exist[i] {
			t.Errorf("%d: a state is %v, a linear program says %v", i, exist[i], a.Exists)
			continue
		}
		if !a.Exists {
			none++
			continue
		}
		for k, c := range contacts[i] {
			if push, hold := states[i].Push[k], states[i].Hold[k]; push < -1e-3 || math.Abs(hold) > Friction*c.Friction*push+1e-3 {
				t.Errorf("%d, contact %d pulls or holds too much: %.4f and %.4f N", i, k, push, hold)
			}
		}
		for k := range a.Push {
			if dp, dh := states[i].Push[k]-a.Push[k], states[i].Hold[k]-a.Hold[k]; math.Abs(dp) > 0.5 || math.Abs(dh) > 0.5 {
				t.Errorf("%d, contact %d: %.2f and %.2f N, scipy %.2f and %.2f", i, k, states[i].Push[k], states[i].Hold[k], a.Push[k], a.Hold[k])
			}
		}
	}
	if len(bodies) != 200 {
		t.Errorf("%d bodies, want 200", len(bodies))
	}
	t.Logf("%d bodies, %d of them cannot be held", len(bodies), none)
	if none == 0 || none > len(bodies)/2 {
		t.Errorf("%d of %d cannot be held: some are wanted, and not most", none, len(bodies))
	}
}
