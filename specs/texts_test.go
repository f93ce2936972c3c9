package specs

import (
	"slices"
	"strings"
	"testing"

	"armwright/specs/aims"
)

// What a brief that says nothing asks for is the default of the key, and a wrong term is
// told at its place.
func TestAimsOfABrief(t *testing.T) {
	text := "armwright: brief/1\nname: Small\nkind: arm-pad\nresistance: {load: {light: 5 kg, middle: 10 kg, heavy: 15 kg}}\n"
	b, err := ParseBrief("b.yaml", []byte(text))
	if err != nil || b.Minimise != aims.Default || len(b.Aims()) != 4 {
		t.Errorf("%q, %v", b.Minimise, err)
	}
	if b, err = ParseBrief("b.yaml", []byte(text+"minimise: 3 mass\n")); err != nil || !slices.Equal(b.Aims(), []aims.Aim{{Term: "mass", Weight: 3}}) {
		t.Errorf("%v, %v", b.Aims(), err)
	}
	_, err = ParseBrief("b.yaml", []byte(text+"minimise: lenght\n"))
	if err == nil || !strings.Contains(err.Error(), "b.yaml:5:") || !strings.Contains(err.Error(), "did you mean length?") {
		t.Errorf("%v", err)
	}
}

// A brief's price list is read with the brief, and refused at its place.
func TestPricesOfABrief(t *testing.T) {
	text := "armwright: brief/1\nname: Priced\nkind: cam-study\ndrawing:\n  prices: %s\nresistance: {load: {light: 5 kg, middle: 10 kg, heavy: 15 kg}}\n"
	b, err := ParseBrief("b.yaml", []byte(strings.Replace(text, "%s", "plate 5 80", 1)))
	if err != nil || b.Drawing.Prices != "plate 5 80" {
		t.Errorf("%q, %v", b.Drawing.Prices, err)
	}
	_, err = ParseBrief("b.yaml", []byte(strings.Replace(text, "%s", "plate five", 1)))
	if err == nil || !strings.Contains(err.Error(), "b.yaml:5:") || !strings.Contains(err.Error(), "no price") {
		t.Errorf("%v", err)
	}
}
