package specs

import (
	"math"
	"regexp"
	"strings"
	"testing"
)

// One word makes the stock inch, the sheets inch in third angle; what is
// written out still wins.
func TestRegion(t *testing.T) {
	parse := func(text string) Brief {
		t.Helper()
		b, err := ParseBrief("b.yaml", []byte(text))
		if err != nil {
			t.Fatal(err)
		}
		return b
	}
	const inch = 25.4
	us := parse(least + "region: us\n")
	for _, c := range []struct {
		what      string
		got, want any
	}{
		{"member", us.Stock.Member, "2.5x2.5x0.125in"},
		{"steel", us.Stock.Steel, "A500-B"},
		{"cable", us.Stock.Cable, "7x19-5/32in"},
		{"bearing", us.Stock.Bearing, "UC205-16"},
		{"shaft", us.Stock.Shaft, inch},
		{"cam plate", us.Stock.CamPlate, inch / 2},
		{"sheave", us.Resistance.SheaveRadius, 1.875 * inch},
		{"seat pitch", us.Posture.SeatPitch, 0.75 * inch},
		{"handle pitch", us.Posture.HandlePitch, 0.375 * inch},
		{"foot pitch", us.Posture.FootPitch, 2 * inch},
		{"units", us.Drawing.Units, "in"},
		{"projection", us.Drawing.Projection, "third"},
	} {
		if c.got != c.want {
			t.Errorf("%s is %v, want %v", c.what, c.got, c.want)
		}
	}
	iso := parse(least)
	if explicit := parse(least + "region: iso\n"); explicit != iso {
		t.Error("iso is not the default")
	}
	if iso.Stock.Member != "60x60x3" || iso.Drawing.Units != "mm" || iso.Drawing.Projection != "first" {
		t.Errorf("iso: %+v %+v", iso.Stock, iso.Drawing)
	}
	own := parse(least + "region: us\nstock: {member: 60x60x3, shaft: 25 mm}\ndrawing: {units: mm}\n")
	if own.Stock.Member != "60x60x3" || own.Stock.Shaft != 25 || own.Drawing.Units != "mm" {
		t.Errorf("what is written out does not win: %+v %+v", own.Stock, own.Drawing)
	}
	if own.Stock.Cable != "7x19-5/32in" || own.Drawing.Projection != "third" {
		t.Errorf("what is not follows no more: %+v %+v", own.Stock, own.Drawing)
	}
	if _, err := ParseBrief("b.yaml", []byte(least+"region: moon\n")); err == nil || !strings.Contains(err.Error(), "region: \"moon\" is not a known value") {
		t.Errorf("moon: %v", err)
	}
}

func TestStarterInRegion(t *testing.T) {
	for _, kind := range []string{"arm-pad", "reclined", "cam-study"} {
		b, err := ParseBrief("b.yaml", StarterIn(kind, "us"))
		if err != nil {
			t.Fatal(err)
		}
		if b.Region != "us" || b.Drawing.Projection != "third" || b.Stock.Member != "2.5x2.5x0.125in" {
			t.Errorf("%s: %s %+v", kind, b.Region, b.Drawing)
		}
		golden(t, kind+"-us.yaml", StarterIn(kind, "us"))
	}
	if StarterIn("arm-pad", "moon") != nil {
		t.Error("a starter of an unknown region")
	}
}

// The values of the starter for a shop in inches are those of the region but for
// rounding, and none of them is left in metric units.
func TestStarterIsRuled(t *testing.T) {
	ruled, err := ParseBrief("b.yaml", StarterIn("arm-pad", "us"))
	if err != nil {
		t.Fatal(err)
	}
	own, err := ParseBrief("b.yaml", []byte(least+"region: us\n"))
	if err != nil {
		t.Fatal(err)
	}
	for _, l := range Leaves() {
		near, ok := map[Kind]float64{Length: 25.4 / 8, Mass: 1.2, Force: 11.2}[l.Kind]
		if !ok || strings.HasPrefix(l.Path, "resistance.load.") {
			continue
		}
		text, _ := ruled.Get(l.Path)
		other, _ := own.Get(l.Path)
		a, _ := ParseQuantity(text, l.Kind)
		b, err := ParseQuantity(other, l.Kind)
		if err != nil || math.Abs(a-b) > near {
			t.Errorf("%s: %s instead of %s (%v)", l.Path, text, other, err)
		}
	}
	metric := regexp.MustCompile(`[0-9] ?(mm|kg|N)\b`)
	for _, line := range strings.Split(string(StarterIn("arm-pad", "us")), "\n") {
		if !strings.HasPrefix(strings.TrimSpace(line), "#") && metric.MatchString(line) {
			t.Errorf("metric: %s", line)
		}
	}
}

func TestFraction(t *testing.T) {
	for x, want := range map[float64]string{0: "0", 0.0625: "1/16", 0.75: "3/4", 1.875: "1 7/8", -2: "-2", -0.5: "-1/2", 47.25: "47 1/4", 330: "330"} {
		if got := fraction(x); got != want {
			t.Errorf("%v is %q, want %q", x, got, want)
		}
	}
}
