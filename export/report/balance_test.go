package report

import (
	"bytes"
	"math"
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"armwright/export/draw"
	"armwright/export/sheet"
)

// A frame made too short tips in the report at the angles of the hand
// calculation in docs/balance.md: the sum is done here from the document's own
// table, and the angles it prints are compared as well.
func TestShortFrameTipsAsReckonedByHand(t *testing.T) {
	doc, err := os.ReadFile("../../docs/balance.md")
	if err != nil {
		t.Fatal(err)
	}
	var m, x, z float64
	rows := 0
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
	}
	if rows != 24 {
		t.Fatalf("%d rows in the table, want 24", rows)
	}
	x, z = x/m, z/m
	const g = 9.80665
	user := (m*x - 150*280 - 20/g*520) / (m + 150)
	userZ := (m*z + 150*520) / (m + 150)
	rear := math.Atan((user+20)/userZ) / degree
	upX := x - 5.4*140.9/m
	upZ := z + (5.4*(992-721.3)+80*318.87)/m
	front := math.Atan((480-upX)/upZ) / degree

	printed := regexp.MustCompile(`atan\(.*\) = ([0-9.]+)°`).FindAllStringSubmatch(string(doc), -1)
	if len(printed) != 2 {
		t.Fatalf("%d angles printed, want 2", len(printed))
	}
	for i, want := range []float64{rear, front} {
		got, _ := strconv.ParseFloat(printed[i][1], 64)
		near(t, "angle in the document", got, want, 0.0051)
	}

	r := written(t, "base-too-short")
	found := 0
	for _, c := range r.Stability.Entry {
		if strings.Contains(c.Case, "rear edge") {
			found++
			// The table's places are rounded to 0.05 mm: 0.01 degrees.
			near(t, "getting on", c.Tilt, rear, 0.01)
			if c.Edge != "rear" {
				t.Errorf("tips over the %s", c.Edge)
			}
		}
	}
	for _, c := range r.Stability.Cases {
		if c.Case == "empty, both arms, heavy load" {
			found++
			near(t, "empty", c.Tilt, front, 0.01)
			near(t, "mass", c.Mass, m, 0.01)
			if c.Edge != "front" {
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

// claim matches words that claim conformity.
var claim = regexp.MustCompile(`(?i)\b(conforms?|conforming|complies|compliant|complying|certified|certifies|approved (to|for|under)|in accordance with|meets? (the )?(requirements of )?(EN|ISO|ASTM|DIN))\b`)

// No report claims conformity, and every one carries the notice.
func TestNoReportClaimsConformity(t *testing.T) {
	for _, kind := range append(kinds, "base-too-short") {
		r := New(result(t, kind), "armwright test", nil)
		outputs := map[string]func(*bytes.Buffer) error{
			"html": func(b *bytes.Buffer) error { return HTML(b, r) },
			"json": func(b *bytes.Buffer) error { return JSON(b, r) },
			"text": func(b *bytes.Buffer) error { return Text(b, r, TextOptions{}) },
		}
		for name, write := range outputs {
			var b bytes.Buffer
			if err := write(&b); err != nil {
				t.Fatal(err)
			}
			// Text and HTML may break lines anywhere.
			words := strings.Join(strings.Fields(b.String()), " ")
			if !strings.Contains(words, sheet.Notice) {
				t.Errorf("%s %s: no notice", kind, name)
			}
			if said := claim.FindString(words); said != "" {
				t.Errorf("%s %s claims: %q", kind, name, said)
			}
		}
	}
}

// Nor does any sheet.
func TestNoSheetClaimsConformity(t *testing.T) {
	for _, kind := range kinds {
		files, err := draw.All(result(t, kind), nil, draw.Options{})
		if err != nil {
			t.Fatal(err)
		}
		seen := 0
		for _, f := range files {
			if said := claim.Find(f.Data); said != nil && !strings.HasSuffix(f.Path, ".pdf") { // its text is compressed
				t.Errorf("%s %s claims: %q", kind, f.Path, said)
			}
			if strings.HasSuffix(f.Path, ".svg") {
				seen++
				if !bytes.Contains(f.Data, []byte(sheet.Notice)) {
					t.Errorf("%s %s: no notice", kind, f.Path)
				}
			}
		}
		if seen == 0 {
			t.Errorf("%s: no sheets", kind)
		}
	}
}

// The seated curves bear out the requirement: the least share of the person
// with the least seat load is its value.
func TestSeatedCurves(t *testing.T) {
	r := written(t, "arm-pad-station")
	if len(r.Seated) < 2 || len(r.Seated[0].Seat) != len(r.Resistance.Angles) {
		t.Fatalf("%d curves", len(r.Seated))
	}
	i := indexOf(r.Requirements, "seat-load")
	near(t, "least seat load, %", 100*r.Seated[0].Share[lowest(r.Seated[0].Share)], r.Requirements[i].Value, 1e-3)
	for _, c := range r.Seated {
		for k := range c.Seat {
			near(t, "share", c.Share[k], c.Seat[k]/c.Weight, 1e-5)
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
