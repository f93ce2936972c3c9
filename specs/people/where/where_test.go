package where

import (
	"errors"
	"fmt"
	"slices"
	"testing"

	"armwright/specs/people"
)

func ann() people.Person {
	return people.Person{Sex: people.Woman, Stature: 1580, Mass: 80, Age: 34, HipBreadth: 420, CarryingAngle: 0.3}
}

func bob() people.Person {
	return people.Person{Sex: people.Man, Stature: 1600, Mass: 64, Age: 66, HipBreadth: 350, CarryingAngle: 0.2}
}

// Ann is a woman of 1580 mm (5 ft 2.2 in), 80 kg (176.4 lb), body mass index 32.0;
// Bob a man of 1600 mm, 64 kg, body mass index 25.0: by hand.
func TestConditionsHold(t *testing.T) {
	for _, c := range []struct {
		text     string
		ann, bob bool
	}{
		{"women", true, false},
		{"men", false, true},
		{"people", true, true},
		{"women under 1.60 m", true, false},
		{"Women Under 1.60m", true, false},
		{"people under 1.60 m", true, false}, // Bob has 1.60 m to the millimetre
		{"people between 1.60 m and 1.70 m", false, true},
		{"people between 1.50 and 1.60 m", true, true},
		{"people over 1.59 m", false, true},
		{"people under 5 ft 3 in", true, true},
		{"people under 5 ft 2 1/2 in", true, false},
		{"over 70 kg", true, false},
		{"people below 150 lb", false, true},
		{"people with BMI over 30", true, false},
		{"people with a body mass index between 20 and 30", false, true},
		{"people over 30 kg/m²", true, false},
		{"people over 60 years old", false, true},
		{"people under 40 y", true, false},
		{"people between 30 and 40 years old", true, false},
		{"people aged between 60 and 70 y", false, true},
		{"people with hip breadth over 400 mm", true, false},
		{"people whose carrying angle is under 12 deg", false, true}, // 0.2 rad is 11.5 degrees
		{"women under 1.60 m and over 90 kg", false, false},
		{"women under 1.60 m, over 70 kg", true, false},
		{"women under 1.60 m with BMI over 30", true, false},
		{"women over 1.70 m or men under 1.65 m", false, true},
		{"women over 1.70 m or under 1.60 m", true, false},
		{"people who are over 60 y", false, true},
		{"stature under 1600 mm and mass over 70 kg", true, false},
	} {
		got, err := Parse(c.text)
		if err != nil {
			t.Errorf("%s: %v", c.text, err)
			continue
		}
		a, b := ann(), bob()
		if got.Holds(&a) != c.ann || got.Holds(&b) != c.bob {
			t.Errorf("%s: Ann %v, Bob %v, want %v, %v", c.text, got.Holds(&a), got.Holds(&b), c.ann, c.bob)
		}
	}
}

// What is not understood is told with its place, and what to write.
func TestConditionsThatAreNotUnderstood(t *testing.T) {
	for _, c := range []struct {
		text   string
		column int
		what   string
	}{
		{"", 1, "no condition"},
		{"short women", 1, `"short" where a measure, under, over or between is due`},
		{"women shorter than 1.60 m", 7, `"shorter" where a measure, under, over or between is due`},
		{"women under", 12, "the end where a number with its unit is due"},
		{"women under 1.60", 13, `"1.60" is no stature, mass or age`},
		{"women under 1.60 m and", 23, "a bound is due here"},
		{"women under 1.60 parsecs", 13, `"1.60 parsecs" is no stature, mass or age`},
		{"women with mass under 1.60 m", 23, `"1.60 m" is a length where a mass is due`},
		{"women between 1.70 m and 1.60 m", 15, "between 1.70 m and 1.60 m is nobody"},
		{"women between 1.70 m", 21, `the end where "and" is due`},
		{"women or", 9, "a bound is due here"},
		{"people with BMI over 30 kg", 22, `"30 kg" carries a unit where a plain number is due`},
		{"women under 1,60 m", 13, `"1,60 m" has a comma`},
		{"women under 1.60 m of the north", 23, `"the" where a measure, under, over or between is due`},
	} {
		_, err := Parse(c.text)
		var syntax *SyntaxError
		if !errors.As(err, &syntax) {
			t.Errorf("%s: %v", c.text, err)
			continue
		}
		if syntax.Column != c.column || syntax.What != c.what || syntax.Advice == "" {
			t.Errorf("%s: %d %s (%s), want %d %s", c.text, syntax.Column, syntax.What, syntax.Advice, c.column, c.what)
		}
	}
}

// Whatever is typed is understood or refused with a place in it and a hint, and what
// a condition is printed as means the same again.
func FuzzParse(f *testing.F) {
	for _, s := range []string{"women under 1.60 m", "people between 1.50 and 1.60 m or over 100 kg", "men with BMI over 30 and over 5 ft 3 in",
		"over 1/0 m", "between and", "stature of", "ÄÖ under 3 kg", "people 1 y old", "with with with", "over 1e400 kg or"} {
		f.Add(s)
	}
	crowd := slices.Collect(people.Population{Source: "civilian", Carrying: people.DefaultCarrying(), Age: 40, Women: 0.5}.Draw(50, 1))
	f.Fuzz(func(t *testing.T, text string) {
		c, err := Parse(text)
		if err != nil {
			var syntax *SyntaxError
			if !errors.As(err, &syntax) || syntax.Advice == "" || syntax.Column < 1 || syntax.Column > len([]rune(syntax.Text))+1 {
				t.Fatalf("%q: %#v", text, err)
			}
			return
		}
		again, err := Parse(c.String())
		if err != nil {
			t.Fatalf("%q is printed as %q: %v", text, c, err)
		}
		for i := range crowd {
			if c.Holds(&crowd[i]) != again.Holds(&crowd[i]) {
				t.Fatalf("%q and %q differ", text, again)
			}
		}
	})
}

func ExampleParse() {
	c, err := Parse("women under 1.60 m and over 70 kg")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(c, c.Holds(&people.Person{Sex: people.Woman, Stature: 1580, Mass: 80}))
	// Output: women under 1.60 m and over 70 kg true
}
