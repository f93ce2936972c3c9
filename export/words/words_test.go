package words

import (
	"errors"
	"strings"
	"testing"

	"armwright/solver"
	"armwright/solver/drive"
	"armwright/solver/explain"
	"armwright/solver/fit"
	"armwright/solver/judge"
	"armwright/solver/require"
	"armwright/solver/solvertest"
	"armwright/solver/tolerance"
	"armwright/specs"
	"armwright/specs/stock"
)

// Figures of a phrase are in the units of the reader: an inch is 25.4 mm, a pound
// 0.45359237 kg.
func TestPhrase(t *testing.T) {
	gap := require.Phrase{Words: "grip to post, %s for a hand of %s", Figures: []require.Figure{{Value: 88.9, Unit: "mm", Measured: true}, {Value: 100, Unit: "mm"}}}
	user := require.Phrase{Words: "user of %s ", Figures: []require.Figure{{Value: 150, Unit: "kg"}}}.Then(require.Name("on one arm pad"))
	bolt := require.Phrase{Words: "bolts, M%s", Figures: []require.Figure{{Value: 12}}}.Then(require.Name(", ")).Then(require.Phrase{Words: "throat of %s", Figures: []require.Figure{{Value: 4, Unit: "mm"}}})
	for _, c := range []struct {
		p            require.Phrase
		metric, inch string
	}{
		{require.Name("left arm"), "left arm", "left arm"},
		{gap, "grip to post, 88.9 mm for a hand of 100 mm", "grip to post, 3.50 in for a hand of 3.937 in"},
		{user, "user of 150 kg on one arm pad", "user of 331 lb on one arm pad"},
		{bolt, "bolts, M12, throat of 4 mm", "bolts, M12, throat of 0.157 in"},
	} {
		if m, i := Phrase(c.p, specs.Metric), Phrase(c.p, specs.InchPound); m != c.metric || i != c.inch {
			t.Errorf("%q, %q, want %q, %q", m, i, c.metric, c.inch)
		}
	}
}

// What follows a phrase leaves its figures alone, however many follow.
func TestThenKeepsFigures(t *testing.T) {
	list := make([]require.Figure, 1, 8)
	list[0] = require.Figure{Value: 1, Unit: "mm"}
	p := require.Phrase{Words: "%s", Figures: list}
	q := p.Then(require.Phrase{Words: " %s", Figures: []require.Figure{{Value: 2, Unit: "mm"}}})
	r := p.Then(require.Phrase{Words: " %s", Figures: []require.Figure{{Value: 3, Unit: "mm"}}})
	if Phrase(q, specs.Metric) != "1 mm 2 mm" || Phrase(r, specs.Metric) != "1 mm 3 mm" {
		t.Errorf("%q, %q", Phrase(q, specs.Metric), Phrase(r, specs.Metric))
	}
}

// Every cause and every bound has words of its own.
func TestNothingIsWithoutWords(t *testing.T) {
	seen := map[string]bool{}
	take := func(words string) {
		if words == "" || seen[words] {
			t.Errorf("%q", words)
		}
		seen[words] = true
	}
	for h := drive.Smoothness; h <= drive.GreatestArm; h++ {
		take(Cause(drive.Cause{Holds: h, Size: 36}, specs.Metric))
	}
	for b := fit.RotationOfHandle; b <= fit.AxesApart; b++ {
		take(Bound(b))
	}
	if got := Cause(drive.Cause{Holds: drive.BendRadius, Size: 50.8, At: 0.75 * specs.Degree, Beyond: true}, specs.InchPound); got != "the cable's bend radius of 2 in (reached at 1 deg)" {
		t.Errorf("%q", got)
	}
}

// Each reason not to take a combination is told in its own way.
func TestWhy(t *testing.T) {
	tilt := []fit.Miss{{ID: "tilt-empty", Value: 4 * specs.Degree, Limit: 10 * specs.Degree, Unit: require.Angle}}
	for _, c := range []struct {
		fate fit.Fate
		why  fit.Why
		want string
	}{
		{fit.Chosen, fit.Why{}, ""},
		{fit.Dearer, fit.Why{}, "one that costs less meets everything"},
		{fit.Passed, fit.Why{Stopped: true}, "the search was stopped before"},
		{fit.Passed, fit.Why{Before: 4}, "what the 4 before it miss hangs on nothing that is left to the tool"},
		{fit.Excluded, fit.Why{Bound: &fit.Proof{Needed: 8, Allowed: 7.2, Unit: require.Number, Bound: fit.CableFactor}},
			"the cable's factor at the heaviest load is no more than what is allowed here: 8.00 against 7.20"},
		{fit.Missed, fit.Why{Missed: append(tilt, fit.Miss{ID: "height", Value: 2000, Limit: 1900})}, "tilt-empty 4.0 deg against 10.0 deg, height 2000.0 mm against 1900.0 mm"},
		{fit.Missed, fit.Why{Unmade: errors.New("no cam")}, "no cam"},
		{fit.Passed, fit.Why{OnLast: true, Missed: tilt}, "on the last station solved: tilt-empty 4.0 deg against 10.0 deg"},
		{fit.Passed, fit.Why{Shared: []fit.Picked{{Path: "stock.cable", Value: "7x19-3"}, {Path: "stock.member", Value: "60x60x3"}}, Missed: tilt},
			"as with the same 7x19-3 and 60x60x3: tilt-empty 4.0 deg against 10.0 deg"},
	} {
		if got := Why(&fit.Choice{Fate: c.fate, Why: c.why}, specs.Metric); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}

// Belt and chain that are too weak, or too wide for where they run, are told.
func TestDriveStrengthIsTold(t *testing.T) {
	v := stock.DriveStrength{Factor: 2, Wanted: 1, Width: drive.WheelRoom - 1}
	weak, slim, wide := v, v, v
	weak.Factor = weak.Wanted / 2
	slim.Width, wide.Width = drive.WheelRoom, drive.WheelRoom+1
	for want, list := range [][]*stock.DriveStrength{{nil, &v, &slim}, {&weak, &wide}} {
		for _, v := range list {
			if got := transmission(v, specs.Metric); len(got) != want {
				t.Errorf("%+v: %q", v, got)
			}
		}
	}
}

// What a station is short of, and what of its brief is idle, is told once.
func TestNotes(t *testing.T) {
	f := solvertest.Frame(t, "arm-pad-station")
	sound, err := solver.CheckPeople(f, judge.Persons{})
	if err != nil {
		t.Fatal(err)
	}
	bare := len(Notes(sound))
	for words, r := range map[string]func(*solver.Result){
		"curve_table is not used":          func(r *solver.Result) { r.Frame.Resistance.CurveTable = "0 deg 40, 45 deg 50, 90 deg 60, 140 deg 45" },
		"at least 1235 N of pull":          func(r *solver.Result) { r.Balance.Anchored, r.Balance.AnchorPull = true, 1234.5 },
		"the route drawn has 5":            func(r *solver.Result) { r.Frame.Resistance.Sheaves = 3 },
		"the split hub holds 1 N m":        func(r *solver.Result) { r.Resistance.Hub = drive.Hub{Kind: "clamp", Holding: 1000, Torque: 1000} },
		"presses on the cam's plates with": func(r *solver.Result) { r.Resistance.Hub = drive.Hub{Kind: "keyway", Pressure: 200, Yield: 235} },
		"locally infeasible from 3 of 3":   func(r *solver.Result) { r.Starts = 3 },
		"proved infeasible: between the":   func(r *solver.Result) { r.Starts, r.Proofs = 3, []fit.Proof{{Bound: fit.SeatTravel}} },
		"looked into with 80 searches":     func(r *solver.Result) { r.Spent = 80 },
		"stopped before the conflict":      func(r *solver.Result) { r.Findings = explain.Findings{Stopped: true} },
		"a row could not be used":          func(r *solver.Result) { r.Notes = []string{"a row could not be used"} },
		"by 12.0 % of the peak at most, at 0 deg (less than wanted), and by over 0.5 % in 1 stretch of the range. what keeps the cam from the curve: the sm": func(r *solver.Result) { r.Resistance.Departures = []drive.Departure{{To: 1, By: -0.12}} },
	} {
		now := *sound
		r(&now)
		list := strings.Join(Notes(&now), "\n")
		if !strings.Contains(strings.ToLower(list), strings.ToLower(words)) {
			t.Errorf("%q is not told: %s", words, list)
		}
		if strings.Contains(strings.ToLower(strings.Join(Notes(sound), "\n")), strings.ToLower(words)) {
			t.Errorf("%q is told of what is sound", words)
		}
	}
	if bare > 1 {
		t.Errorf("a sound station has %d notes: %q", bare, Notes(sound))
	}
}

// The workshop is told to cover a stack, and the bars of a linkage.
func TestWorkshop(t *testing.T) {
	for name, want := range map[string]string{"arm-pad-station": "cover the stack on all sides", "reclined-linkage": "cover input bar, coupler", "reclined-levers": "", "cam-study": ""} {
		f := solvertest.Frame(t, name)
		r, err := solver.CheckPeople(f, judge.Persons{})
		if err != nil {
			t.Fatal(err)
		}
		list := strings.Join(Workshop(r), "\n")
		if (want == "") != !strings.Contains(list, "cover ") || !strings.Contains(list, want) || (list == "") != (f.Geometry.Base == nil) {
			t.Errorf("%s: %q", name, list)
		}
	}
}

// Room for builds names the requirements that there is none for.
func TestRoom(t *testing.T) {
	r := &tolerance.Room{Classes: tolerance.Classes{Machined: "m", Welded: "B"}}
	if got := Room(r); got != "" {
		t.Errorf("without builds: %q", got)
	}
	r.Builds = &tolerance.Result{Builds: 2000, Met: 0.97, Near: 0.999}
	if got := Room(r); !strings.Contains(got, "of 2000 drawn 97 % meet everything, 99 % miss no limit") || !strings.HasSuffix(got, "Each limit is met by 95 % at least.") {
		t.Errorf("%q", got)
	}
	r.Short = []tolerance.Spread{{Met: 0.9}}
	r.Short[0].ID = "hand-path"
	if got := Room(r); !strings.HasSuffix(got, "There is no room for 95 % to meet each limit: hand-path by 90 %.") {
		t.Errorf("%q", got)
	}
}

// Persons come from a table or a population, or there are none.
func TestSource(t *testing.T) {
	for want, s := range map[string]judge.Source{
		"": {}, "measured persons of crew.csv": {Table: "crew.csv"},
		"random persons, survey body sizes, 50 % women": {Population: "survey", Women: 0.5},
	} {
		if got := Source(s); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
