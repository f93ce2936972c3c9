package report

import (
	"bytes"
	"encoding/json"
	"flag"
	"math"
	"strings"
	"testing"

	"armwright/export/stationtest"
	"armwright/geometry/solid"
	"armwright/solver/judge"
	"armwright/solver/require"
	"armwright/specs"
	"armwright/testdata"
)

var update = flag.Bool("update", false, "rewrite the golden files")

// kinds of station the tests run over, each with a frame.
var kinds = []string{"arm-pad-station", "reclined-levers", "cam-study"}

// written is the report as a reader of report.json finds it.
func written(t testing.TB, kind string) *Report {
	t.Helper()
	var b bytes.Buffer
	files := []File{{Path: "frame.yaml", SHA256: strings.Repeat("0", 64), Bytes: 1}}
	if err := JSON(&b, New(stationtest.Result(t, kind), "armwright test", files)); err != nil {
		t.Fatal(err)
	}
	var r Report
	if err := json.Unmarshal(b.Bytes(), &r); err != nil {
		t.Fatal(err)
	}
	return &r
}

// infeasible is the report of a brief that cannot be met.
func infeasible(t *testing.T) *Report {
	t.Helper()
	var r Report
	if err := json.Unmarshal(testdata.Infeasible(), &r); err != nil {
		t.Fatal(err)
	}
	return &r
}

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %v, want %v within %v", what, got, want, tol)
	}
}

// The identity of DESIGN.md 10. Half a unit of the last decimal in torque and
// gravity, and in moment arm and tension at their largest, add up to 1.3e-4.
func TestTorqueIdentity(t *testing.T) {
	for _, kind := range []string{"arm-pad-station", "cam-study"} {
		d := written(t, kind).Resistance
		if len(d.Angles) < 10 || len(d.Cam.MomentArm) != len(d.Angles) || len(d.Gravity) != len(d.Angles) {
			t.Fatalf("%s: %d angles, %d moment arms, %d moments of the arm", kind, len(d.Angles), len(d.Cam.MomentArm), len(d.Gravity))
		}
		for i, delivered := range d.Delivered {
			near(t, kind+": delivered", delivered, *d.Cam.Ratio**d.Cam.CableTension*d.Cam.MomentArm[i]/1000+d.Gravity[i], 2e-4)
		}
	}
}

// A cable that lifts half of the stack carries half its weight, that of a bench all of
// it; 9.80665 m/s² is the standard gravity of the 3rd CGPM, 1901 (S).
func TestTension(t *testing.T) {
	for kind, cables := range map[string]float64{"arm-pad-station": 2, "cam-study": 1} {
		d := written(t, kind).Resistance
		near(t, kind+": tension", *d.Cam.CableTension, d.LoadMass*9.80665/cables, 1e-3)
	}
}

// Target, rms and largest difference by their definitions, from the lists.
func TestTorqueMatch(t *testing.T) {
	for _, kind := range kinds {
		d := written(t, kind).Resistance
		if len(d.Loads) != 3 || d.Loads[1].Mass != d.LoadMass {
			t.Fatalf("%s: loads %+v", kind, d.Loads)
		}
		for _, l := range d.Loads {
			var ds, ss, sum, most float64
			for i, s := range d.Strength {
				ds += l.Delivered[i] * s
				ss += s * s
			}
			level := ds / ss
			for i, s := range d.Strength {
				near(t, kind+": target", l.Target[i], level*s, 1e-3)
				e := (l.Delivered[i] - level*s) / level
				sum += e * e
				most = math.Max(most, math.Abs(e))
			}
			near(t, kind+": rms", l.RMS, math.Sqrt(sum/float64(len(d.Strength))), 1e-4)
			near(t, kind+": largest", l.MaxError, most, 1e-4)
		}
	}
}

// Axes are unit vectors, (-tan toe, -1, tan cant) normalised on the right, and
// mirror images on the left.
func TestPivots(t *testing.T) {
	for _, kind := range kinds {
		p := written(t, kind).Pivots
		if len(p.Right.Axes) == 0 || len(p.Left.Axes) != len(p.Right.Axes) {
			t.Fatalf("%s: %d and %d axes", kind, len(p.Left.Axes), len(p.Right.Axes))
		}
		if p.Right.Y >= 0 || p.Left.Y != -p.Right.Y || p.Left.Z != p.Right.Z || p.Left.X != p.Right.X {
			t.Errorf("%s: pivots at %+v and %+v", kind, p.Left, p.Right)
		}
		check := func(l, r Axis) {
			v := r.Vector
			near(t, kind+": length", math.Hypot(v[0], math.Hypot(v[1], v[2])), 1, 2e-6)
			toe, cant := math.Tan(r.Toe*specs.Degree), math.Tan(r.Cant*specs.Degree)
			n := math.Sqrt(1 + toe*toe + cant*cant)
			near(t, kind+": x", v[0], -toe/n, 5e-6)
			near(t, kind+": y", v[1], -1/n, 5e-6)
			near(t, kind+": z", v[2], cant/n, 5e-6)
			if l.Toe != r.Toe || l.Cant != r.Cant || l.Vector != [3]float64{v[0], -v[1], v[2]} {
				t.Errorf("%s: left %+v is not the mirror image of right %+v", kind, l, r)
			}
		}
		check(p.Left.Axis, p.Right.Axis)
		for i := range p.Right.Axes {
			check(p.Left.Axes[i], p.Right.Axes[i])
		}
	}
}

func TestRequirements(t *testing.T) {
	for _, kind := range kinds {
		r := written(t, kind)
		all := true
		for _, q := range r.Requirements {
			all = all && q.Met
			margin := q.Limit - q.Value
			if q.Sense == "at least" {
				margin = -margin
			}
			near(t, kind+": margin of "+q.ID, q.Margin, margin, 2e-4)
			if q.Met != (q.Margin > -1e-3*q.Scale) {
				t.Errorf("%s: %s: met %v with margin %v %s", kind, q.ID, q.Met, q.Margin, q.Unit)
			}
		}
		if all != (r.Verdict == "met") || len(r.Requirements) == 0 {
			t.Errorf("%s: verdict %s of %d requirements", kind, r.Verdict, len(r.Requirements))
		}
	}
}

// A slope of 64 degrees between 60 and 110 is governed by the nearer limit.
func TestGoverningLimit(t *testing.T) {
	q := judge.Requirement{Kind: require.Kind{Scale: 1}, Value: 64, Limit: 110, Margin: 4}
	if sense, limit := governing(q); sense != "at least" || limit != 60 {
		t.Errorf("%s %v, want at least 60", sense, limit)
	}
	q.Value, q.Margin = 108, 2
	if sense, limit := governing(q); sense != "at most" || limit != 110 {
		t.Errorf("%s %v, want at most 110", sense, limit)
	}
}

// What applies to a kind is there, what does not is null or empty.
func TestKinds(t *testing.T) {
	pad, reclined, study := written(t, "arm-pad-station"), written(t, "reclined-levers"), written(t, "cam-study")
	if study.Pad.Slope != nil || study.Seat.Pitch != nil || study.Footprint.Length != nil || study.Stability.LeastTilt != nil ||
		study.People.Coverage != nil || study.Elbow.WorstHandPath != nil || study.Search != nil {
		t.Error("a cam study has what only a station has")
	}
	if reclined.Resistance.Cam.Ratio != nil || reclined.Resistance.Lever.Radius == nil || reclined.Back.Angle == nil {
		t.Error("the reclined levers are not told as levers with a back pad")
	}
	if pad.Resistance.Cam.Ratio == nil || pad.Resistance.Lever.Radius != nil || pad.Back.Angle != nil {
		t.Error("the arm-pad cam is not told as a cam without a back pad")
	}
	for _, r := range []*Report{pad, reclined} {
		feet := r.Footprint.Feet
		near(t, r.Kind+": length", feet[1][0]-feet[0][0], *r.Footprint.Length, 2e-4)
		a := stationtest.Result(t, map[string]string{"arm-pad": "arm-pad-station", "reclined": "reclined-levers"}[r.Kind]).Station.Assembly
		low, high := 0.0, 0.0
		for i := range a.Parts {
			if p := &a.Parts[i]; p.Item == "rail" {
				l, h := solid.Bounds(p.Solid, p.Place)
				low, high = min(low, l.Y), max(high, h.Y)
			}
		}
		near(t, r.Kind+": width", high-low, *r.Footprint.Width, 2e-4)
		least := math.Inf(1)
		for _, c := range r.Stability.Cases {
			least = math.Min(least, c.Tilt)
		}
		near(t, r.Kind+": least tilt", *r.Stability.LeastTilt, least, 1e-4)
		for i, h := range r.Seat.Positions {
			near(t, r.Kind+": seat", h, r.Seat.Positions[0]+float64(i)**r.Seat.Pitch, 2e-4)
		}
		worst := 0.0
		for _, p := range r.People.Boundary {
			worst = math.Max(worst, p.HandPath)
			if p.SeatPosition < 1 || p.SeatPosition > len(r.Seat.Positions) || p.SeatHeight != r.Seat.Positions[p.SeatPosition-1] {
				t.Errorf("%s: %s sits at %v in position %d of %v", r.Kind, p.Label, p.SeatHeight, p.SeatPosition, r.Seat.Positions)
			}
			if p.HandleRadius != r.Handle.Positions[p.HandlePlace-1] {
				t.Errorf("%s: %s holds %v in position %d of %v", r.Kind, p.Label, p.HandleRadius, p.HandlePlace, r.Handle.Positions)
			}
		}
		near(t, r.Kind+": worst hand path", *r.Elbow.WorstHandPath, worst, 0)
	}
	// The upper edge by the slope alone: far along the pad, offset across it.
	slope := *pad.Pad.Slope * specs.Degree
	near(t, "edge height", *pad.Pad.EdgeHeight,
		pad.Pivots.Right.Z+*pad.Pad.Far*math.Sin(slope)-*pad.Pad.Offset*math.Cos(slope), 1e-3)
}

// The same report gives the same bytes, and reading loses nothing.
func TestJSONIsStable(t *testing.T) {
	for _, kind := range kinds {
		var first, second bytes.Buffer
		if err := JSON(&first, New(stationtest.Result(t, kind), "p", nil)); err != nil {
			t.Fatal(err)
		}
		var r Report
		if err := json.Unmarshal(first.Bytes(), &r); err != nil {
			t.Fatal(err)
		}
		if err := JSON(&second, &r); err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(first.Bytes(), second.Bytes()) {
			t.Errorf("%s: reading and writing again changes the report", kind)
		}
		for _, bad := range []string{"-0,", "-0\n", "NaN", "Inf"} {
			if bytes.Contains(first.Bytes(), []byte(bad)) {
				t.Errorf("%s: the report holds %q", kind, bad)
			}
		}
	}
}

func TestNotFiniteIsRefused(t *testing.T) {
	var b bytes.Buffer
	r := New(stationtest.Result(t, "cam-study"), "p", nil)
	r.Resistance.RMS = math.NaN()
	if err := JSON(&b, r); err == nil || b.Len() != 0 {
		t.Errorf("error %v, %d bytes written", err, b.Len())
	}
}

func TestRound(t *testing.T) {
	for _, c := range []struct {
		in       float64
		decimals int
		want     float64
	}{
		{1.00005, 4, 1.0001}, {-1.00005, 4, -1.0001}, {-1e-9, 4, 0}, {12.34564999, 4, 12.3456}, {1e12 + 0.25, 4, 1e12 + 0.25},
	} {
		got := round(c.in, c.decimals)
		if got != c.want || (got == 0 && math.Signbit(got)) {
			t.Errorf("round(%v, %d) = %v, want %v", c.in, c.decimals, got, c.want)
		}
	}
}
