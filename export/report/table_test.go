package report

import (
	"bytes"
	"encoding/csv"
	"io"
	"math"
	"strconv"
	"strings"
	"testing"

	"armwright/export/partlist"
	"armwright/export/stationtest"
	"armwright/solver"
	"armwright/specs"
	"armwright/specs/people"
)

// rows reads a table back: its header and its records.
func rows(t *testing.T, kind string, write func(io.Writer, *solver.Result) error) (header []string, records [][]string) {
	t.Helper()
	var b bytes.Buffer
	if err := write(&b, stationtest.Result(t, kind)); err != nil {
		t.Fatal(err)
	}
	all, err := csv.NewReader(&b).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	return all[0], all[1:]
}

func number(t *testing.T, s string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return x
}

// The cam's table against relations that hold for any convex curve by its
// support function (D): the contact lies at the distance h along the normal,
// h = x cos phi + y sin phi; the arc between neighbours is rho dphi; and the
// cable wound up is the moment arm integrated over the cam's turn.
func TestCamTable(t *testing.T) {
	for _, kind := range []string{"arm-pad-station", "cam-study"} {
		_, records := rows(t, kind, CamTable)
		report := written(t, kind)
		if len(records) < 100 {
			t.Fatalf("%s: %d rows", kind, len(records))
		}
		var wound float64
		var before []float64
		for _, record := range records {
			v := make([]float64, len(record))
			for i, s := range record {
				v[i] = number(t, s)
			}
			flexion, arm, turn, psi, phi, rho, x, y, takeUp := v[0], v[1], v[2], v[3], v[4], v[5], v[6], v[7], v[8]
			near(t, kind+": turn", turn, *report.Resistance.Cam.Ratio*flexion, 1e-3)
			near(t, kind+": phi", phi, psi-turn, 2e-4)
			near(t, kind+": support", x*math.Cos(phi*specs.Degree)+y*math.Sin(phi*specs.Degree), arm, 1e-3)
			if before != nil {
				arc := (rho + before[5]) / 2 * math.Abs(phi-before[4]) * specs.Degree
				near(t, kind+": arc", math.Hypot(x-before[6], y-before[7]), arc, 0.05) // rho bends at the nodes of the law
				wound += (arm + before[1]) / 2 * (turn - before[2]) * specs.Degree
			}
			near(t, kind+": take-up", takeUp, wound, 0.02)
			before = v
		}
		near(t, kind+": take-up at the end", before[8], *report.Resistance.Cam.TakeUp, 1e-3)
	}
	if header, records := rows(t, "reclined-levers", CamTable); len(header) != 9 || len(records) != 0 {
		t.Errorf("levers: %d rows of a cam", len(records))
	}
}

func TestTorqueTable(t *testing.T) {
	for _, kind := range kinds {
		header, records := rows(t, kind, TorqueTable)
		d := written(t, kind).Resistance
		if len(records) != len(d.Angles) {
			t.Fatalf("%s: %d rows, %d angles", kind, len(records), len(d.Angles))
		}
		for i, record := range records {
			for j, want := range []float64{d.Angles[i], d.Strength[i], d.BandLow[i], d.BandHigh[i], d.Gravity[i],
				d.Loads[0].Target[i], d.Loads[0].Delivered[i], d.Loads[1].Target[i], d.Loads[1].Delivered[i], d.Loads[2].Target[i], d.Loads[2].Delivered[i]} {
				near(t, kind+": "+header[j], number(t, record[j]), want, 0)
			}
		}
	}
}

func TestPeopleTable(t *testing.T) {
	header, records := rows(t, "arm-pad-station", PeopleTable)
	list := stationtest.Result(t, "arm-pad-station").People.Boundary
	if len(records) != len(list) {
		t.Fatalf("%d rows of %d persons", len(records), len(list))
	}
	for _, name := range people.Dimensions() {
		if !strings.Contains(strings.Join(header, " "), name+"_") {
			t.Errorf("no column of %s", name)
		}
	}
	for i, record := range records {
		at := map[string]string{}
		for j, key := range header {
			at[key] = record[j]
		}
		p := list[i]
		if at["label"] != p.Person.Label || at["turned_by"] != strings.Join(p.TurnedBy, " ") || at["fits"] != strconv.FormatBool(p.Fits) {
			t.Errorf("row %d is %v", i, record)
		}
		near(t, "stature", number(t, at["stature_mm"]), p.Person.Stature, 1e-4)
		near(t, "carrying angle", number(t, at["carrying_angle_deg"]), p.Person.CarryingAngle*180/math.Pi, 1e-4)
		near(t, "hand path", number(t, at["hand_path_mm"]), p.HandPath, 1e-4)
		near(t, "seat position", number(t, at["seat_position"]), float64(p.Seat+1), 0)
	}
	if _, records := rows(t, "cam-study", PeopleTable); len(records) != 0 {
		t.Errorf("a cam study has %d persons", len(records))
	}
}

func TestPartsTable(t *testing.T) {
	for _, kind := range kinds {
		_, records := rows(t, kind, PartsTable)
		parts := partlist.Of(stationtest.Result(t, kind))
		if len(records) != len(parts) {
			t.Fatalf("%s: %d rows of %d parts", kind, len(records), len(parts))
		}
		for i, p := range parts {
			if records[i][1] != p.Title || records[i][2] != strconv.Itoa(p.Count) || (records[i][4] == "") != (p.Length == 0) {
				t.Errorf("%s: row %v of part %+v", kind, records[i], p)
			}
		}
	}
}
