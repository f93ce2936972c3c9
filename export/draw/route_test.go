package draw

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"armwright/export/sheet"
	"armwright/export/stationtest"
	"armwright/solver"
	"armwright/specs"
	"armwright/testdata"

	"gonum.org/v1/gonum/spatial/r3"
)

// altered is an example's frame checked again with a change.
func altered(t *testing.T, name string, change func(*specs.Frame)) *solver.Result {
	t.Helper()
	f := stationtest.Result(t, name).Frame
	change(&f)
	r, err := solver.Check(f)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// The drawn centre line of the cable is as long as the route, but for the chords
// of its arcs, begins on the cam and ends under the top sheave, for a shared stack
// and for a pair.
func TestCableIsDrawnWhereItRuns(t *testing.T) {
	testdata.Long(t)
	for _, stack := range []string{"shared", "pair"} {
		r := altered(t, "arm-pad-station", func(f *specs.Frame) { f.Resistance.Stack = stack })
		route := r.Resistance.Route
		var path []r3.Vec
		for _, f := range r.Station.Assembly.Flexible {
			if f.ID == "cable-right" {
				path = f.Path
			}
		}
		length := 0.0
		for i := range path[1:] {
			length += r3.Norm(r3.Sub(path[i+1], path[i]))
		}
		// A chord of 15 degrees is 0.3 % shorter than its arc.
		if length > route.Length+1e-6 || length < 0.997*route.Length {
			t.Errorf("%s: drawn %.2f mm, %.2f mm long", stack, length, route.Length)
		}
		last := path[len(path)-1]
		if stack == "pair" && last != route.End || stack == "shared" && math.Abs(last.Y) > 1e-6 {
			t.Errorf("%s: the cable ends at %v", stack, last)
		}
		set, err := sheets(r, holds(t, r))
		if err != nil {
			t.Fatal(err)
		}
		for _, n := range set {
			s := n.sheet
			if s.TitleBlock.Title != "Resistance" {
				continue
			}
			if len(s.Views) < 5 {
				t.Errorf("%s: %d views", stack, len(s.Views))
			}
			table := s.Tables[len(s.Tables)-1]
			if len(table.Rows) != len(route.Sheaves) {
				t.Fatalf("%s: %d sheaves in the table of %d", stack, len(table.Rows), len(route.Sheaves))
			}
			for i, row := range table.Rows {
				if z, err := strconv.ParseFloat(row[5], 64); err != nil || math.Abs(z-route.Sheaves[i].Centre.Z) > 0.051 {
					t.Errorf("%s: sheave %d at height %s, stands at %.2f", stack, i+1, row[5], route.Sheaves[i].Centre.Z)
				}
			}
		}
		pictures, err := Pictures(r)
		if err != nil || len(pictures) != 4 {
			t.Fatalf("%d pictures, %v", len(pictures), err)
		}
	}
}

// A foot plate is drawn at each of its heights, and is in the table.
func TestFootPlateIsDrawn(t *testing.T) {
	r := altered(t, "arm-pad-station", func(f *specs.Frame) {
		f.Posture.FootPlate = "steps"
		f.Geometry.FootPlate = &specs.FootPlate{Lowest: 180, Pitch: 50, Positions: 3}
	})
	d := &drafter{machine: newMachine(r), units: sheet.Millimetres, ballooned: map[string]bool{}}
	s := d.padSheet()
	heights := map[float64]bool{}
	for _, e := range s.Views[2].Entities {
		if q, ok := e.(sheet.Dimension); ok && q.Kind == sheet.OrdinateY {
			heights[math.Round(1e6*q.B.Y)/1e6] = true
		}
	}
	for _, z := range []float64{180, 230, 280} {
		if !heights[z] {
			t.Errorf("no ordinate at %g mm", z)
		}
	}
	if len(s.Views) < 6 || !strings.HasPrefix(s.Views[3].Title, "Foot plate") { // and what the sheet has room for
		t.Fatalf("%d views", len(s.Views))
	}
	rows := 0
	for _, row := range s.Tables[0].Rows {
		if strings.HasPrefix(row[0], "Foot plate height") {
			rows++
		}
	}
	if rows != 3 {
		t.Errorf("%d heights in the table", rows)
	}
}
