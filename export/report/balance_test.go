package report

import (
	"math"
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"armwright/export/stationtest"
	"armwright/specs"

	"gonum.org/v1/gonum/spatial/r3"
)

// A frame made too short tips in the report at the angles of the hand
// calculation in docs/balance.md: the sum is done here from the document's own
// table, whose groups are held against the station's parts, and the angles it
// prints are compared as well.
func TestShortFrameTipsAsReckonedByHand(t *testing.T) {
	doc, err := os.ReadFile("../../docs/balance.md")
	if err != nil {
		t.Fatal(err)
	}
	a := stationtest.Result(t, "base-too-short").Station.Assembly
	groups := regexp.MustCompile("`([^`]+)`")
	var m, x, z float64
	rows, parts := 0, 0
	for line := range strings.SplitSeq(string(doc), "\n") {
		cells := strings.Split(line, "|")
		if len(cells) != 8 {
			continue
		}
		var v [4]float64
		ok := true
		for i := range v {
			f, err := strconv.ParseFloat(strings.TrimSpace(cells[i+2]), 64)
			ok = ok && err == nil
			v[i] = f
		}
		if !ok {
			continue
		}
		rows++
		m += v[0] * v[1]
		x += v[0] * v[1] * v[2]
		z += v[0] * v[1] * v[3]

		var kg, mx, mz float64
		for _, name := range groups.FindAllStringSubmatch(cells[6], -1) {
			for i := range a.Parts {
				if p := &a.Parts[i]; a.Groups[p.Group].ID == name[1] {
					parts += int(v[0])
					kg += p.Mass
					mx += p.Mass * p.Centre.X
					mz += p.Mass * p.Centre.Z
				}
			}
		}
		if strings.TrimSpace(cells[1]) == "cable" {
			// Its runs are measured by hand to a few millimetres, of 0.4 in 186 kg.
			c := &a.Flexible[0]
			kg, mx, mz = c.Mass, c.Mass*c.Centre.X, c.Mass*c.Centre.Z
			near(t, "cable, x", v[2], mx/kg, 10)
			near(t, "cable, z", v[3], mz/kg, 10)
		} else {
			near(t, cells[1]+"x", v[2], mx/kg, 0.05)
			near(t, cells[1]+"z", v[3], mz/kg, 0.05)
		}
		near(t, cells[1]+"mass", v[1], kg, 1e-4)
	}
	if rows != 7 || parts != len(a.Parts) {
		t.Fatalf("%d rows in the table with %d parts, want 7 with all %d", rows, parts, len(a.Parts))
	}
	x, z = x/m, z/m
	const g = 9.80665
	user := (m*x - 150*280 - 20/g*520) / (m + 150)
	userZ := (m*z + 150*520) / (m + 150)
	entry := math.Atan((user-24)/userZ) / specs.Degree

	// The arm's centre at 5 degrees, turned by 125 about its axis.
	tan, ahead := math.Tan(12*specs.Degree), math.Tan(10.112*specs.Degree)
	axis := r3.Unit(r3.Vec{X: -tan, Y: -1, Z: ahead})
	pivot, down := r3.Vec{Y: -215, Z: 820}, r3.Vec{X: 16.1, Y: -428.3, Z: 807}
	up := r3.Add(pivot, r3.Rotate(r3.Sub(down, pivot), 125*specs.Degree, axis))
	upX := x + 2*5.6326*(up.X-down.X)/m
	upZ := z + (2*5.6326*(up.Z-down.Z)+81.8500*318.87)/m
	empty := math.Atan((upX-24)/upZ) / specs.Degree

	printed := regexp.MustCompile(`atan\(.*\) = (−?[0-9.]+)°`).FindAllStringSubmatch(string(doc), -1)
	if len(printed) != 2 {
		t.Fatalf("%d angles printed, want 2", len(printed))
	}
	for i, want := range []float64{entry, empty} {
		got, _ := strconv.ParseFloat(strings.Replace(printed[i][1], "−", "-", 1), 64)
		near(t, "angle in the document", got, want, 0.0051)
	}

	r := written(t, "base-too-short")
	found := 0
	for _, c := range r.Stability.Entry {
		if strings.Contains(c.Case, "rear edge") {
			found++
			// The table's places are rounded to 0.05 mm: 0.01 degrees.
			near(t, "getting on", c.Tilt, entry, 0.01)
			if c.Edge != "rear" {
				t.Errorf("tips over the %s", c.Edge)
			}
		}
	}
	for _, c := range r.Stability.Cases {
		if c.Case == "empty, both arms, heavy load" {
			found++
			near(t, "empty", c.Tilt, empty, 0.01)
			near(t, "mass", c.Mass, m, 0.01)
			if c.Edge != "rear" {
				t.Errorf("tips over the %s", c.Edge)
			}
		}
	}
	if found != 2 {
		t.Errorf("%d of the two cases are in the report", found)
	}
	for _, q := range r.Requirements {
		if q.ID == "tilt-occupied" && q.Met {
			t.Error("the short frame holds the tilt asked for")
		}
	}
}

// The seated curves tell of forces that push, on the seat that there is.
func TestSeatedCurves(t *testing.T) {
	r := written(t, "arm-pad-station")
	if len(r.Seated) < 2 || len(r.Seated[0].Seat) != len(r.Resistance.Angles) {
		t.Fatalf("%d curves", len(r.Seated))
	}
	for _, c := range r.Seated {
		for k := range c.Seat {
			near(t, "share", c.Share[k], c.Seat[k]/c.Weight, 1e-5)
			if x := c.SeatX[k]; min(c.Seat[k], c.Pad[k], c.Feet[k], c.Chest[k]) < 0 || x > *r.Seat.Front || x < *r.Seat.Front-*r.Seat.Depth {
				t.Errorf("%s: seat %g N at %g, pads %g, chest %g, feet %g", c.Person, c.Seat[k], x, c.Pad[k], c.Chest[k], c.Feet[k])
			}
		}
		if len(c.Back) != 0 {
			t.Error("an arm-pad station has no back pad")
		}
	}
	for _, c := range written(t, "reclined-levers").Seated {
		if len(c.Back) != len(c.Seat) {
			t.Error("a reclined station has a back pad")
		}
	}
}

// The envelope holds the centre of mass of every case, and the feet's
// rectangle stands round it when no case tips.
func TestEnvelope(t *testing.T) {
	for _, kind := range []string{"arm-pad-station", "reclined-levers"} {
		s := written(t, kind).Stability
		for _, c := range s.Cases {
			for i, a := range s.Envelope {
				b := s.Envelope[(i+1)%len(s.Envelope)]
				if cross := (b[0]-a[0])*(c.Centre[1]-a[1]) - (b[1]-a[1])*(c.Centre[0]-a[0]); cross < -1e-2 {
					t.Fatalf("%s: %s: centre %v outside the envelope", kind, c.Case, c.Centre)
				}
			}
		}
	}
}
