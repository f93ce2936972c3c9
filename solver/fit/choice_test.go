package fit

import (
	"context"
	"math"
	"reflect"
	"slices"
	"testing"

	"armwright/solver/judge"
	"armwright/solver/solvertest"
	"armwright/specs"
	"armwright/specs/stock"
	"armwright/testdata"
)

// leftToTool is a cam study that leaves cable and sheave to the tool.
func leftToTool(t *testing.T) specs.Brief {
	t.Helper()
	b := solvertest.Brief(t, "cam-study")
	b.Resistance.Load = specs.Loads{Light: 12.5, Middle: 50, Heavy: 100}
	b.Limits.CableFactor = 8
	b.Choose = specs.Choose{Cable: "7x19-5, 7x19-3, 7x19-4", SheaveRadius: "60 mm, 40 mm, 30 mm"}
	if err := b.Validate(); err != nil {
		t.Fatal(err)
	}
	return b
}

// The combination taken is the one that solving all of them, without bounds and
// without passing any over, takes: the first in the order of cost that is met.
func TestChoiceAgreesWithEnumeration(t *testing.T) {
	b := leftToTool(t)
	r, err := Solve(context.Background(), b, nil)
	if err != nil {
		t.Fatal(err)
	}
	list := combinations(b, b.Options())
	if len(list) != 9 || len(r.Choices) != 9 {
		t.Fatalf("%d combinations, %d told", len(list), len(r.Choices))
	}
	winner := -1
	for i := range list {
		one, err := Solve(context.Background(), list[i].brief, &Options{Terse: true})
		if err != nil {
			t.Fatal(err)
		}
		if one.Verdict == judge.Met && winner < 0 {
			winner = i
		}
		if told := r.Choices[i].Fate; one.Verdict == judge.Met && (told == Excluded || told == Missed || told == Passed) {
			t.Errorf("%v is met, but was %s: %+v", list[i].Values, told, r.Choices[i].Why)
		}
	}
	if winner < 0 || r.Verdict != judge.Met || r.Choices[winner].Fate != Chosen {
		t.Fatalf("enumeration takes %d; told %s: %+v", winner, r.Verdict, r.Choices)
	}
	for _, v := range r.Choices[winner].Values {
		was := specs.Brief{Asked: r.Frame.Asked}
		if got, err := was.Get(v.Path); err != nil || got != v.Value {
			t.Errorf("the frame has %s %s, chosen %s", v.Path, got, v.Value)
		}
	}
}

// A cable of 3 mm breaks at 7.8 kN (AS 3569). The one that lifts 100 kg
// pulls 100 g = 980.665 N, so that the factor is at most 7.95, and less for the
// bending over the sheave and the friction of the sheaves: below the 8 asked. And
// no wire rope of 4 mm may be bent over a tread of less than 18 diameters, so over 38 mm
// to its centre.
func TestChoiceExcludesByHandbook(t *testing.T) {
	b := leftToTool(t)
	list := combinations(b, b.Options())
	if err := exclude(list); err != nil {
		t.Fatal(err)
	}
	var order []string
	for _, k := range list {
		cable, sheave := k.Values[0].Value, k.Values[1].Value
		order = append(order, cable)
		thin, sharp := cable == "7x19-3", sheave == "30 mm" && cable != "7x19-3" || sheave == "40 mm" && cable == "7x19-5"
		if (k.Fate == Excluded) != (thin || sharp) {
			t.Errorf("%s over %s: %q %+v", cable, sheave, k.Fate, k.Why)
		}
		if thin && sheave == "60 mm" {
			r := b.Resistance
			factor := 7800 * stock.BendStrength((120-3)/3.0) * math.Pow(r.Efficiency, float64(r.Sheaves)) / 980.665
			if p := k.Why.Bound; p == nil || p.Needed != 8 || math.Abs(p.Allowed-factor) > 1e-9*factor {
				t.Errorf("%s: 8 against %.4f, told %+v", cable, factor, p)
			}
		}
	}
	if !slices.IsSorted(order) {
		t.Errorf("order %v", order)
	}
}

// The lightest tube whose members hold is taken, and the lighter ones are out for
// what their members do on a solved station.
func TestChoiceOfTube(t *testing.T) {
	testdata.Long(t)
	b := solvertest.Brief(t, "arm-pad-station")
	b.Choose.Member = "80x80x4, 40x40x3, 50x50x3, 60x60x3"
	r, err := Solve(context.Background(), b, &Options{Starts: 1})
	if err != nil {
		t.Fatal(err)
	}
	if r.Verdict != judge.Met {
		t.Fatalf("verdict %s: %+v", r.Verdict, r.Choices)
	}
	met := false
	for _, c := range r.Choices {
		switch c.Fate {
		case Chosen:
			met = true
			if c.Mass <= 0 || c.Length <= 0 || c.Worst < 0 {
				t.Errorf("chosen %+v", c)
			}
		case Missed, Passed:
			if met || unexplained(c.Why) {
				t.Errorf("%v is %s: %+v", c.Values, c.Fate, c.Why)
			}
		case Dearer:
			if !met {
				t.Errorf("%v is dearer than one not taken", c.Values)
			}
		}
	}
}

// A brief that no tube mends is not solved with every tube there is: once several in a
// row come no nearer, a few of the others tell.
func TestChoiceGivesUpWhereNothingHelps(t *testing.T) {
	testdata.Long(t)
	b, err := specs.ParseBrief("slow-choice", testdata.Hostile("slow-choice"))
	if err != nil {
		t.Fatal(err)
	}
	r, err := Solve(context.Background(), b, &Options{Terse: true})
	if err != nil {
		t.Fatal(err)
	}
	solved, last := 0, Fate("")
	for i := range r.Choices {
		if r.Choices[i].Solved() {
			solved++
		}
		if r.Choices[i].Fate == Passed && unexplained(r.Choices[i].Why) {
			t.Errorf("%v is passed over without a reason", r.Choices[i].Values)
		}
		last = r.Choices[i].Fate
	}
	if len(r.Choices) < 30 || solved > 15 || last == Passed {
		t.Errorf("%d of %d combinations solved, the dearest %s", solved, len(r.Choices), last)
	}
}

// What is stuck goes on where one of the few that are looked at comes nearer.
func TestStuck(t *testing.T) {
	for _, c := range []struct {
		misses []float64
		want   bool
	}{
		{[]float64{9, 9, 9, 9}, false}, // too few to tell
		{[]float64{9, 9, 9, 9, 9}, true},
		{[]float64{9, 8.9, 8.8, 8.7, 8.6}, true},
		{[]float64{9, 8.9, 8.8, 8.7, 8.5}, false},
		{[]float64{9, 9, 9, 9, 9, 5}, false},
		{[]float64{5, 9, 9, 9, 9, 9}, true},
		{[]float64{math.Inf(1), math.Inf(1), math.Inf(1), math.Inf(1), math.Inf(1)}, true},
		{[]float64{math.Inf(1), math.Inf(1), math.Inf(1), math.Inf(1), 20}, false},
	} {
		if got := (&chooser{misses: c.misses}).stuck(); got != c.want {
			t.Errorf("%v: %v", c.misses, got)
		}
	}
	for _, n := range []int{2, 3, 7, 37, 1000} {
		found := 0
		for i := range n {
			if (&chooser{list: make([]candidate, n)}).probe(i) {
				found++
			}
		}
		if found != min(n, probes) || !(&chooser{list: make([]candidate, n)}).probe(n-1) {
			t.Errorf("%d of %d are looked at", found, n)
		}
	}
}

// unexplained says that nothing tells why a combination was not taken.
func unexplained(w Why) bool { return reflect.DeepEqual(w, Why{}) }
