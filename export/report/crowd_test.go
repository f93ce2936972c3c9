package report

import (
	"bytes"
	"strings"
	"testing"

	"armwright/export/stationtest"
	"armwright/export/words"
	"armwright/specs/people"
)

// What the report says of a crowd is what was counted, from 1 and in shares.
func TestCrowd(t *testing.T) {
	for _, kind := range []string{"arm-pad-station", "reclined-levers"} {
		p, c := written(t, kind).People, stationtest.Result(t, kind).People.Crowd
		if p.Source != words.Source(c.Source) || p.Sample != c.All.N || p.Women.Persons+p.Men.Persons != p.Sample || p.Women.Fit != c.Sexes[people.Woman].Fits {
			t.Errorf("%s: %+v of %+v", kind, p, c)
		}
		n := 0
		for i, b := range p.Settings {
			n += b.Persons
			if (b.Seat == nil) != (b.Fit == 0) {
				t.Errorf("%s: band %v has seats %v", kind, b.From, b.Seat)
			}
			if b.Seat != nil && (b.Seat.Usual != c.Bands[i].Seat.Middle+1 || b.Seat.Low < 1 || b.Seat.High > len(written(t, kind).Seat.Positions)) {
				t.Errorf("%s: band %v: %+v of %+v", kind, b.From, b.Seat, c.Bands[i].Seat)
			}
		}
		if n != p.Sample {
			t.Errorf("%s: bands hold %d of %d", kind, n, p.Sample)
		}
		// The cells hold the same persons, each once.
		var held Covered
		for _, q := range p.Explorer {
			held.Persons += q.Persons
			held.Fit += q.Fit
			away := q.Fit
			for _, m := range q.Away {
				away += m.Count
			}
			if away != q.Persons {
				t.Errorf("%s: of the %d %s at %g mm and %g deg %d are told", kind, q.Persons, q.Sex, q.Stature, q.Carrying, away)
			}
		}
		if held.Persons != p.Sample || held.Fit != p.Women.Fit+p.Men.Fit || *p.Shrug < *p.Coverage {
			t.Errorf("%s: cells hold %d of %d, of whom %d fit, %g with a shrug", kind, held.Persons, p.Sample, held.Fit, *p.Shrug)
		}
		near(t, kind+": worst hand path", p.HandPath.Worst, c.HandPath.Worst, 1e-4)
		if len(p.OneAxis) != len(written(t, kind).Pivots.Right.Axes) {
			t.Errorf("%s: %d axis positions told", kind, len(p.OneAxis))
		}
	}
	if p := written(t, "cam-study").People; p.Women != nil || p.HandPath != nil || len(p.Settings) != 0 {
		t.Errorf("a cam study has people: %+v", p)
	}
}

// The settings chart in words: a range only where there is one.
func TestUsual(t *testing.T) {
	for want, u := range map[string]*Usual{"-": nil, "3": {3, 3, 3}, "4 (2-7)": {2, 4, 7}} {
		if got := u.String(); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
	var b bytes.Buffer
	if err := HTML(&b, written(t, "arm-pad-station")); err != nil {
		t.Fatal(err)
	}
	if page := b.String(); !strings.Contains(page, "Settings chart") || strings.Contains(page, "nil&gt;") || strings.Contains(page, "no value") {
		t.Error("the page's settings chart")
	}
}

// A label from somebody's table cannot become a formula in a spreadsheet.
func TestLabelIsNoFormula(t *testing.T) {
	r := stationtest.Result(t, "arm-pad-station")
	p := r.People.Boundary[0]
	p.Person.Label = "=1+1"
	var b bytes.Buffer
	table := NewPersonTable(&b, &r.Frame)
	if err := table.Add(&p); err != nil {
		t.Fatal(err)
	}
	if err := table.Close(); err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(b.String(), "\n'=1+1,woman,") {
		t.Error(b.String())
	}
}
