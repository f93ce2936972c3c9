package specs

import (
	"errors"
	"slices"
	"strings"
	"testing"
)

func TestParseAims(t *testing.T) {
	got, err := ParseAims("2 length,  mass, 0.5 area")
	want := []Aim{{"length", 2}, {"mass", 1}, {"area", 0.5}}
	if err != nil || !slices.Equal(got, want) {
		t.Errorf("%v, %v", got, err)
	}
	for text, reason := range map[string]string{
		"lenght":        "\"lenght\" is no term",
		"":              "is no term",
		"length,":       "is no term",
		"0 mass":        "no weight",
		"-1 mass":       "no weight",
		"NaN mass":      "no weight",
		"101 mass":      "no weight",
		"mass, 2 mass":  "stands there twice",
		"2 much length": "is no term",
	} {
		_, err := ParseAims(text)
		var e *AimError
		if !errors.As(err, &e) || !strings.Contains(err.Error(), reason) || !strings.Contains(e.Hint(), "2 length, mass") {
			t.Errorf("%q: %v", text, err)
		}
	}
}

// What a brief that says nothing asks for is the default of the key, and a wrong term is
// told at its place.
func TestAimsOfABrief(t *testing.T) {
	text := "armwright: brief/1\nname: Small\nkind: arm-pad\nresistance: {load: {light: 5 kg, middle: 10 kg, heavy: 15 kg}}\n"
	b, err := ParseBrief("b.yaml", []byte(text))
	if err != nil || b.Minimise != DefaultAims || len(b.Aims()) != 4 {
		t.Errorf("%q, %v", b.Minimise, err)
	}
	if b, err = ParseBrief("b.yaml", []byte(text+"minimise: 3 mass\n")); err != nil || !slices.Equal(b.Aims(), []Aim{{"mass", 3}}) {
		t.Errorf("%v, %v", b.Aims(), err)
	}
	_, err = ParseBrief("b.yaml", []byte(text+"minimise: lenght\n"))
	if err == nil || !strings.Contains(err.Error(), "b.yaml:5:") || !strings.Contains(err.Error(), "did you mean length?") {
		t.Errorf("%v", err)
	}
}
