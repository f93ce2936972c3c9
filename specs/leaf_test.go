package specs

import (
	"strconv"
	"strings"
	"testing"
)

// text writes a number with a leaf's unit.
func (l Leaf) text(x float64) string {
	return strings.TrimSpace(strconv.FormatFloat(x, 'f', -1, 64) + " " + l.Unit)
}

// Every leaf can be read and set to what was read, and takes exactly what lies
// within its bounds.
func TestLeavesAreTheBrief(t *testing.T) {
	first, err := ParseBrief("b.yaml", Starter("arm-pad"))
	if err != nil {
		t.Fatal(err)
	}
	paths := map[string]Leaf{}
	for _, l := range Leaves() {
		paths[l.Path] = l
		b := first
		text, err := b.Get(l.Path)
		if err != nil {
			t.Fatal(err)
		}
		if err := b.Set(l.Path, text); err != nil {
			t.Error(err)
		}
		if b != first {
			t.Errorf("%s set to its own text %q is another", l.Path, text)
		}
		if l.Doc == "" {
			t.Errorf("%s has no doc", l.Path)
		}
		if l.Least == l.Most {
			continue
		}
		for _, c := range []struct {
			value float64
			fits  bool
		}{{l.Least, true}, {l.Most, true}, {l.Least - 1, false}, {l.Most + 1, false}} {
			b := first
			if err := b.Set(l.Path, l.text(c.value)); err != nil {
				t.Error(err)
				continue
			}
			outside := false
			if err := b.Validate(); err != nil {
				for _, p := range err.(*Problems).List {
					outside = outside || strings.Contains(p.Message, " is below "+l.text(l.Least)) || strings.Contains(p.Message, " is above "+l.text(l.Most))
				}
			}
			if outside == c.fits {
				t.Errorf("%s = %s: within its bounds is %v", l.Path, l.text(c.value), !outside)
			}
		}
	}
	for path, want := range map[string]Leaf{
		"limits.hand_path":      {Form: Quantity, Kind: Length, Unit: "mm", Least: 1, Most: 100},
		"posture.lean.to":       {Form: Quantity, Kind: Angle, Unit: "deg", Least: 0, Most: 45},
		"resistance.ratio.to":   {Form: Quantity, Least: 0.5, Most: 2.6},
		"people.low":            {Form: Quantity, Kind: Percent, Unit: "%", Least: 0.1, Most: 49},
		"posture.foot_plate":    {Form: Choice},
		"people.sample":         {Form: Whole, Least: 100, Most: 100000},
		"drawing.owner":         {Form: Text},
		"resistance.load.heavy": {Form: Quantity, Kind: Mass, Unit: "kg", Least: 1, Most: 400},
	} {
		got, ok := paths[path]
		if !ok || got.Form != want.Form || got.Kind != want.Kind || got.Unit != want.Unit || got.Least != want.Least || got.Most != want.Most {
			t.Errorf("%s: %+v, want %+v", path, got, want)
		}
	}
}

func TestGetRefusesWhatHoldsNoValue(t *testing.T) {
	for path, want := range map[string]string{
		"resistance.load": "holds keys, not a value", "limits.hand_pth": "unknown key",
	} {
		if _, err := (Brief{}).Get(path); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("Get(%q): %v, want %s", path, err, want)
		}
	}
	whole, err := ParseBrief("b.yaml", Starter("arm-pad"))
	if err != nil {
		t.Fatal(err)
	}
	if text, err := whole.Get("posture.lean"); err != nil || text != "0 deg..20 deg" {
		t.Errorf("a whole range is %q, %v", text, err)
	}
}
