package prices

import (
	"errors"
	"slices"
	"strings"
	"testing"
)

func TestParse(t *testing.T) {
	got, err := Parse("tube 60x60x3 42.50; ISO 4017  M8 x 25 0.12\ncable 3;\n")
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
		_, err := Parse(text)
		var e *Error
		if !errors.As(err, &e) || e.Hint() == "" || !strings.Contains(err.Error(), reason) {
			t.Errorf("%q: %v", text, err)
		}
	}
	if got, err := Parse(" ; "); err != nil || len(got) != 0 {
		t.Errorf("nothing: %v, %v", got, err)
	}
}
