package partlist

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"armwright/export/stationtest"
	"armwright/geometry/assembly"
	"armwright/specs"
)

// The list weighs what the assembly does, names every part once, and counts left and
// right together.
func TestListHoldsTheAssembly(t *testing.T) {
	for _, name := range []string{"arm-pad-station", "reclined-levers", "reclined-linkage"} {
		r := stationtest.Result(t, name)
		a := r.Station.Assembly
		list := Of(r)
		if got, want := mass(list), a.Mass(); math.Abs(got-want) > 1e-9*want {
			t.Errorf("%s: the list weighs %.6f kg, the assembly %.6f", name, got, want)
		}
		seen := make([]int, len(a.Parts))
		for i, l := range list {
			if l.Item != i+1 || l.Title == "" || l.Stock == "" || l.Count < 1 {
				t.Errorf("%s: line %+v", name, l)
			}
			for _, word := range strings.Fields(strings.ToLower(l.Title)) {
				if word == "right" || word == "left" {
					t.Errorf("%s: a side in %q", name, l.Title)
				}
			}
			right, left := 0, 0
			for _, p := range l.Parts {
				seen[p]++
				switch a.Parts[p].Side {
				case assembly.Right:
					right++
				case assembly.Left:
					left++
				}
			}
			if right != left {
				t.Errorf("%s: %s has %d on the right, %d on the left", name, l.Title, right, left)
			}
		}
		for i, n := range seen {
			if n != 1 {
				t.Errorf("%s: %s is listed %d times", name, a.Parts[i].ID, n)
			}
		}
	}
}

// Two flange units to a shaft, two bolts to a unit, and the key of the arm's hub
// (counted on the drawing of the bracket).
func TestHardwareOfTheBracket(t *testing.T) {
	r := stationtest.Result(t, "reclined-levers")
	thread := r.Station.Values.Bearing.Thread
	bolts, keys := 0, 0
	for _, l := range Of(r) {
		switch {
		case l.ID == "screw" && strings.HasPrefix(l.Stock, "ASME B18.2.1 9/16-12 UNC x 1 3/4 grade 8"):
			bolts += l.Count // cheek 10, foot of the unit and 16 beyond: 1 3/4 in is the next length
		case l.ID == "nut" && strings.HasPrefix(l.Stock, "ISO 4032 M8 8"): // on a buffer's own stud
		case l.Fastener != nil && strings.Contains(l.Stock, "ISO"):
			t.Errorf("on inch sheets: %d %s", l.Count, l.Stock)
		case l.ID == "key":
			keys += l.Count
		}
	}
	if thread != 14 {
		t.Fatalf("units for M%g", thread)
	}
	if bolts != 8 || keys != 4 { // hub and lever collar of each arm
		t.Errorf("%d bolts 9/16-12 in the place of M14 and %d keys, want 8 and 4", bolts, keys)
	}
}

// A post cut by the slope of the pad says so; what stands square says that.
func TestEnds(t *testing.T) {
	r := stationtest.Result(t, "arm-pad-station")
	slope := r.Frame.Geometry.Pad.Slope / specs.Degree
	for _, l := range Of(r) {
		switch l.ID {
		case "pivot-post":
			var got float64
			if _, err := fmt.Sscan(l.Ends, &got); err != nil || math.Abs(got-slope) > 0.051 {
				t.Errorf("post: %q for a slope of %.2f deg", l.Ends, slope)
			}
		case "rail", "tower-upright":
			if l.Ends != "square both ends" {
				t.Errorf("%s: %q", l.Title, l.Ends)
			}
		}
	}
}

// A bench lists the plates that are cut.
func TestBench(t *testing.T) {
	want := map[string]string{"cam-study": "Cam core, Cam cheek", "linkage-study": "Input bar, Coupler, Output bar, Plate lever"}
	for name, titles := range want {
		var got []string
		for _, l := range Of(stationtest.Result(t, name)) {
			if l.Mass > 0 {
				got = append(got, l.Title)
			}
		}
		if strings.Join(got, ", ") != titles {
			t.Errorf("%s: %q", name, got)
		}
	}
}

// mass is that of all lines, kg.
func mass(list []Line) float64 {
	sum := 0.0
	for i := range list {
		sum += list[i].Mass * float64(list[i].Count)
	}
	return sum
}
