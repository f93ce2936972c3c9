package aims

import (
	"errors"
	"slices"
	"strings"
	"testing"
)

func TestParse(t *testing.T) {
	got, err := Parse("2 length,  mass, 0.5 area")
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
		_, err := Parse(text)
		var e *Error
		if !errors.As(err, &e) || !strings.Contains(err.Error(), reason) || !strings.Contains(e.Hint(), "2 length, mass") {
			t.Errorf("%q: %v", text, err)
		}
	}
}
