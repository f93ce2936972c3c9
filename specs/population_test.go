package specs

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"armwright/specs/people"
)

const ownText = "women stature 1580 mm 60 mm; women mass 62 kg 12 kg, stature 0.35; men stature 1700 mm 65 mm; men mass 72 kg 13 kg; men hip_breadth 360 mm 28 mm, mass 0.7, stature 0.2"

const ownCSV = `# a made-up workforce
sex,dimension,unit,mean,sd,stature,mass
women,stature,cm,158,6,,
women,mass,kg,62,12,0.35,1
men,stature,cm,170,6.5,1,
men,mass,kg,72,13,,
men,Hip breadth,mm,360,28,0.2,0.7
`

const ownYAML = `# the same
women:
  stature: {mean: 158 cm, sd: 6 cm}
  mass: {mean: 62 kg, sd: 12 kg, with: {stature: 0.35}}
men:
  stature: {mean: 170 cm, sd: 6.5 cm}
  mass: {mean: 72 kg, sd: 13 kg}
  hip_breadth:
    mean: 360 mm
    sd: 28 mm
    with: {mass: 0.7, stature: 0.2}
`

// Text, CSV and YAML say the same of a population, and a table is written as it was
// read.
func TestPopulationForms(t *testing.T) {
	want, err := ParsePopulation(ownText)
	if err != nil {
		t.Fatal(err)
	}
	if got := FormatPopulation(want); got != ownText {
		t.Errorf("written as %s", got)
	}
	if g := want[people.Man][2]; g.Dimension != "hip_breadth" || g.Mean != 360 || g.SD != 28 || len(g.With) != 2 || g.With[0] != (people.Correlation{Dimension: "mass", R: 0.7}) {
		t.Errorf("%+v", g)
	}
	for name, data := range map[string]string{"own.csv": ownCSV, "own.yaml": ownYAML, "tabs.CSV": strings.ReplaceAll(ownCSV, ",", "\t")} {
		text, err := ReadPopulation(name, []byte(data))
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		got, err := ParsePopulation(text)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		for s := range got {
			for i, g := range got[s] {
				w := want[s][i]
				if g.Dimension != w.Dimension || g.Mean != w.Mean || g.SD != w.SD || len(g.With) != len(w.With) {
					t.Errorf("%s: %+v, want %+v", name, g, w)
				}
			}
		}
	}
}

// Every fault of a file is told with line, column and hint.
func TestPopulationFaults(t *testing.T) {
	csv := func(old, new string) [2]string { return [2]string{"own.csv", strings.Replace(ownCSV, old, new, 1)} }
	yaml := func(old, new string) [2]string { return [2]string{"own.yaml", strings.Replace(ownYAML, old, new, 1)} }
	for _, c := range []struct {
		file [2]string
		want string
	}{
		{[2]string{"own.csv", ""}, "own.csv:1:1: the file is empty"},
		{[2]string{"own.yaml", ""}, "own.yaml:1:1: the file is empty"},
		{csv("unit,", "units,"), "own.csv:1:1: no column unit"},
		{csv("women,stature", "girls,stature"), `own.csv:3:1: "girls" is no sex`},
		{csv("cm,158", "kg,158"), `own.csv:3:18: "158 kg" is a mass where a length is due`},
		{csv("158,6,,", "158,6,"), "own.csv:3:1: 6 fields where the first line has 7"},
		{csv("0.35", "much"), `own.csv:4:21: "much" is no correlation`},
		{csv("Hip breadth", "Hip bread"), `own.csv:7:5: man: no dimension "hip_bread"`},
		{csv("0.2,0.7", "-0.9,0.9"), "own.csv:7:5: hip_breadth of a man: its correlations contradict"},
		{csv("men,mass,kg,72,13,,\n", ""), "own.csv:1:1: mass of a man is missing"},
		{csv("women,mass,kg,62,12,0.35,1\n", ""), "own.csv:1:1: mass of a woman is missing"},
		{yaml("158 cm", "158"), "own.yaml:3:13: 158 has no unit"},
		{yaml("sd: 6 cm", "sigma: 6 cm"), "own.yaml:3:27: unknown key \"sigma\""},
		{yaml("women:", "ladies:"), `own.yaml:2:1: "ladies" is no sex`},
		{yaml("    mean: 360 mm\n", ""), "own.yaml:8:3: hip_breadth has no mean"},
		{yaml("0.35", "[1]"), `own.yaml:4:41: "" is no correlation`},
		{yaml("mass: 0.7", "mass: 1.2"), "own.yaml:8:3: hip_breadth: a correlation of 1.2 with mass"},
		{yaml("  mass: {mean: 72 kg, sd: 13 kg}", "  mass: 72 kg"), "own.yaml:7:9: a single value where keys and values are due"},
	} {
		_, err := ReadPopulation(c.file[0], []byte(c.file[1]))
		var p *Problems
		if !errors.As(err, &p) {
			t.Errorf("%s: %v", c.want, err)
			continue
		}
		if got := p.List[0].String(); !strings.HasPrefix(got, c.want) || p.List[0].Hint == "" {
			t.Errorf("%s\nwant %s", got, c.want)
		}
	}
}

// Whatever a file holds, it gives a table that reads again, or places with hints.
func FuzzReadPopulation(f *testing.F) {
	f.Add(false, ownCSV)
	f.Add(true, ownYAML)
	f.Add(true, "women: {stature: {mean: 1, with: {a: }}}")
	f.Add(false, "sex;dimension;unit;mean;sd\nm;mass;kg;1e30;1")
	f.Fuzz(func(t *testing.T, yaml bool, data string) {
		name := "own.csv"
		if yaml {
			name = "own.yaml"
		}
		text, err := ReadPopulation(name, []byte(data))
		var p *Problems
		switch {
		case errors.As(err, &p):
			for _, q := range p.List {
				if q.Line < 1 || q.Column < 1 {
					t.Fatalf("%+v", q)
				}
			}
		case err != nil:
			t.Fatal(err)
		default:
			if _, err := ParsePopulation(text); err != nil {
				t.Fatalf("%q: %v", text, err)
			}
		}
	})
}

func ExampleParsePopulation() {
	t, err := ParsePopulation("women stature 63.8 in 2.8 in; women mass 167 lb 45 lb; men stature 69.2 in 3 in; men mass 195 lb 44 lb, stature 0.4")
	if err != nil {
		fmt.Println(err)
		return
	}
	g := t[people.Man][1]
	fmt.Printf("%s %.1f ± %.1f kg, with %s %g\n", g.Dimension, g.Mean, g.SD, g.With[0].Dimension, g.With[0].R)
	// Output: mass 88.5 ± 20.0 kg, with stature 0.4
}
