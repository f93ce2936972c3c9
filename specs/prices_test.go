package specs

import (
	"errors"
	"slices"
	"strings"
	"testing"
)

func TestParsePrices(t *testing.T) {
	got, err := ParsePrices("tube 60x60x3 42.50; ISO 4017  M8 x 25 0.12\ncable 3;\n")
	want := []Price{{"tube 60x60x3", 42.5}, {"ISO 4017 M8 x 25", 0.12}, {"cable", 3}}
	if err != nil || !slices.Equal(got, want) {
		t.Errorf("%v, %v", got, err)
	}
	for text, reason := range map[string]string{
		"tube 60x60x3 dear": "price 1: \"dear\" is no price",
		"a 1; b -2":         "price 2: \"-2\" is not zero or more",
		"a NaN":             "not zero or more",
		"a +Inf":            "not zero or more",
		"7":                 "no name",
		"a 1; A 2":          "has a price already",
	} {
		_, err := ParsePrices(text)
		var e *PriceError
		if !errors.As(err, &e) || e.Hint() == "" || !strings.Contains(err.Error(), reason) {
			t.Errorf("%q: %v", text, err)
		}
	}
	if got, err := ParsePrices(" ; "); err != nil || len(got) != 0 {
		t.Errorf("nothing: %v, %v", got, err)
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
