package specs

import (
	"errors"
	"fmt"
	"io/fs"
	"reflect"
	"strings"
	"testing"
)

// least is the shortest brief there is.
const least = `armwright: brief/1
name: Station
kind: arm-pad
resistance:
  load: {light: 10 kg, middle: 40 kg, heavy: 80 kg}
`

func TestParseBriefDefaults(t *testing.T) {
	b, err := ParseBrief("b.yaml", []byte(least))
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name      string
		got, want any
	}{
		{"name", b.Name, "Station"},
		{"kind", b.Kind, "arm-pad"},
		{"loads", b.Resistance.Load, Loads{10, 40, 80}},
		{"shoe", b.People.Shoe, 25.0},
		{"sample", b.People.Sample, 1000},
		{"low", b.People.Low, 0.05},
		{"pivot height", b.Posture.PivotHeight, Range{500, 1200}},
		{"ratio", b.Resistance.Ratio, Range{1, 2}},
		{"deflection", b.Limits.MemberDeflection, 0.0067},
		{"curve", b.Resistance.Curve, "model-three"},
		{"owner", b.Drawing.Owner, ""},
	} {
		if !reflect.DeepEqual(c.got, c.want) {
			t.Errorf("%s: %v, want %v", c.name, c.got, c.want)
		}
	}
}

// Units and notations that mean the same give the same brief.
func TestParseBriefNotations(t *testing.T) {
	a, err := ParseBrief("a.yaml", []byte(least+`
people: {shoe: 1 in, low: 5 %}
posture:
  lean: 0 deg..20 deg
  pivot_height: {from: 0.5 m, to: "120 cm"}
stock:
`))
	if err != nil {
		t.Fatal(err)
	}
	b, err := ParseBrief("b.yaml", []byte("\ufeff"+strings.ReplaceAll(least, "\n", "\r\n")+`---
`))
	if err != nil {
		t.Fatal(err)
	}
	b.People.Shoe = 25.4
	if a != b {
		t.Errorf("got %+v\nwant %+v", a, b)
	}
}

func TestParseBriefFaults(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"empty", "", `b.yaml:1:1: the file is empty
  hint: start from a starter brief or an example`},
		{"comment only", "# nothing yet\n", `b.yaml:1:1: the file is empty
  hint: start from a starter brief or an example`},
		{"a list", "- name: x\n", `b.yaml:1:1: a list where keys and values are due
  hint: start from a starter brief or an example`},
		{"a word", "station", `b.yaml:1:1: a single value where keys and values are due
  hint: start from a starter brief or an example`},
		{"binary", "PK\x03\x04\x00\x00", `b.yaml:1:3: control character 0x03: not a text file
  hint: a brief is a short text file`},
		{"not UTF-8", "name: Br\xfccke\n", `b.yaml:1:9: byte 0xFC is not UTF-8 text
  hint: save the file as UTF-8`},
		{"too large", strings.Repeat("#", largestFile+1), `b.yaml:1:1: the file has 262145 bytes; the most is 262144
  hint: a brief is a short text file`},
		{"two documents", least + "---\nname: another\n", `b.yaml:6:1: a second document starts here
  hint: one file holds one brief or frame`},
		{"alias bomb", "a: &a [x, x]\nb: &b [*a, *a]\nc: [*b, *b]\n", `b.yaml:1:4: an anchor or alias (& or *) cannot be used here
  hint: write every value in full, as key: value`},
		{"merge key", "<<: {name: x}\n", `b.yaml:1:1: a merge key (<<) cannot be used here
  hint: write every value in full, as key: value`},
		{"tag", "name: !!binary aGk=\n", `b.yaml:1:7: a tag (!) cannot be used here
  hint: write every value in full, as key: value`},
		{"deep brackets", "name: " + strings.Repeat("[", 8000), `b.yaml:1:15: nested too deep
  hint: a brief nests three deep`},
		{"deep dashes", strings.Repeat("- ", 4000), `b.yaml:1:61: nested too deep
  hint: a brief nests three deep`},
		{"endless list", "a:\n" + strings.Repeat("- \n", 80000), `b.yaml:20000:1: more than 20000 words and signs
  hint: a brief is a short text file`},
		{"broken YAML", "name: [x\nkind: arm-pad\n", `b.yaml:2:1: not valid YAML: ',' or ']' must be specified
  hint: indent with spaces; put texts with : or # in quotes`},
		{"tab", "people:\n\tshoe: 25 mm\n", `b.yaml:2:1: not valid YAML: found character '	' that cannot start any token
  hint: indent with spaces; put texts with : or # in quotes`},
		{"a frame", "armwright: frame/1\nname: x\ngeometry: {}\n", `b.yaml:1:12: armwright: this file is "frame/1" where brief/1 is due
  hint: write armwright: brief/1`},
		{"missing keys", "armwright: brief/1\nkind: cam-study\n", `b.yaml:1:1: missing key name
  hint: what the station is called on its drawings, at most 25 characters
b.yaml:1:1: missing key resistance
  hint: it needs load.light, load.middle, load.heavy`},
		{"missing key below", strings.Replace(least, ", heavy: 80 kg", "", 1), `b.yaml:5:3: missing key resistance.load.heavy
  hint: heaviest load: 1 kg to 400 kg`},
		{"unknown key", least + "space:\n  widht: 1100 mm\n", `b.yaml:7:3: unknown key "widht" in space
  hint: did you mean width?`},
		{"unknown key like none", least + "space:\n  colour: red\n", `b.yaml:7:3: unknown key "colour" in space
  hint: keys here: length, width, height, anchored, push`},
		{"misspelt required key", strings.Replace(least, "kind:", "kidn:", 1), `b.yaml:3:1: unknown key "kidn"
  hint: did you mean kind?`},
		{"duplicate key", least + "space:\n  width: 1 m\n  width: 2 m\n", `b.yaml:8:3: space.width: appears twice, first on line 7
  hint: keep one of the two`},
		{"section as value", least + "space: 3 m\n", `b.yaml:6:1: space: a single value where keys and values are due
  hint: keys here: length, width, height, anchored, push`},
		{"list as value", least + "space:\n  width: [1 m]\n", `b.yaml:7:3: space.width: a list where a single value is due
  hint: side to side: 1500 mm`},
		{"no value", least + "space:\n  width:\n", `b.yaml:7:3: space.width: nothing where a single value is due
  hint: side to side: 1500 mm`},
		{"bare number", least + "people:\n  shoe: 25\n", `b.yaml:7:9: people.shoe: 25 has no unit
  hint: write 25 mm or 25 in`},
		{"wrong unit", least + "people: {shoe: 25 kg}\n", `b.yaml:6:16: people.shoe: "25 kg" is a mass where a length is due
  hint: units of length: mm, cm, m, in, ft`},
		{"not finite", least + "people: {shoe: .inf}\n", `b.yaml:6:16: people.shoe: .inf is not a finite number
  hint: height of a shoe under the foot: 25 mm`},
		{"too large a value", least + "people: {shoe: 4 in}\n", `b.yaml:6:16: people.shoe: 101.6 mm is above 60 mm
  hint: 0 mm to 60 mm are allowed`},
		{"just too large", least + "people: {shoe: 60.0001 mm}\n", `b.yaml:6:16: people.shoe: 60.0001 mm is above 60 mm
  hint: 0 mm to 60 mm are allowed`},
		{"fraction of a count", least + "people: {sample: 1e3}\n", `b.yaml:6:18: people.sample: "1e3" is not a whole number
  hint: random persons drawn to estimate coverage: 1000`},
		{"choice", least + "drawing: {projection: thrid}\n", `b.yaml:6:23: drawing.projection: "thrid" is not a known value
  hint: did you mean third? allowed: first, third`},
		{"name of a curve", strings.Replace(least, "resistance:", "resistance:\n  curve: model-thre", 1), `b.yaml:5:10: resistance.curve: "model-thre" is not a known value
  hint: did you mean model-three? allowed: ` + listed(KnownNames().Curves)},
		{"name of a tube", least + "stock: {member: 60x60x30}\n", `b.yaml:6:17: stock.member: "60x60x30" is not a known value
  hint: did you mean 60x60x3? allowed: ` + strings.Join(KnownNames().Members[:10], ", ") + fmt.Sprintf(" and %d more", len(KnownNames().Members)-10)},
		{"range swapped", least + "posture: {lean: 20 deg..0 deg}\n", `b.yaml:6:17: posture.lean: the range 20 deg..0 deg runs backwards
  hint: write 0 deg..20 deg`},
		{"no range", least + "posture: {lean: 20 deg}\n", `b.yaml:6:17: posture.lean: "20 deg" is not a range
  hint: write 0 deg..20 deg`},
		{"range without a unit", least + "posture: {lean: 0..20 deg}\n", `b.yaml:6:17: posture.lean: 0 has no unit
  hint: write 0 deg or 0 rad`},
		{"end of a range", least + "posture:\n  lean: {from: 0 deg, to: 50 deg}\n", `b.yaml:7:27: posture.lean.to: 50 deg is above 45 deg
  hint: 0 deg to 45 deg are allowed`},
		{"half a range", least + "posture:\n  lean: {from: 0 deg}\n", `b.yaml:7:3: missing key posture.lean.to
  hint: 0 deg to 45 deg`},
		{"loads out of order", strings.Replace(least, "10 kg", "50 kg", 1), `b.yaml:5:17: resistance.load.light: the light load 50 kg is not below the middle load 40 kg
  hint: light < middle < heavy`},
		{"arms out of order", strings.Replace(least, "resistance:", "resistance:\n  least_arm: 120 mm\n  greatest_arm: 110 mm", 1),
			`b.yaml:5:14: resistance.least_arm: 120 mm is not below greatest_arm, 110 mm
  hint: least_arm < greatest_arm`},
		{"nothing loaded", strings.Replace(least, "resistance:", "resistance:\n  loaded: 5 deg..5 deg", 1), `b.yaml:5:11: resistance.loaded: the range is empty
  hint: for example 5 deg..130 deg`},
		{"lever in a cam study", strings.Replace(strings.Replace(least, "resistance:", "resistance:\n  drive: lever", 1), "arm-pad", "cam-study", 1),
			`b.yaml:5:10: resistance.drive: a cam-study has no lever
  hint: write drive: cam or linkage, or another kind`},
		{"counterweight behind a linkage", strings.Replace(least, "resistance:", "resistance:\n  counterweight: curve\n  drive: linkage", 1),
			`b.yaml:5:18: resistance.counterweight: the bars of a linkage leave no room for a counterweight
  hint: write counterweight: none; the linkage matches the arm's weight with the rest`},
		{"long name", strings.Replace(least, "Station", "A station of very many words", 1), `b.yaml:2:7: name: "A station of very many words" has 28 characters
  hint: at most 25 characters`},
		{"no name", strings.Replace(least, "Station", `""`, 1), `b.yaml:2:7: name: the text is empty
  hint: what the station is called on its drawings, at most 25 characters`},
		{"line break in a text", strings.Replace(least, "Station", `"a\nb"`, 1), `b.yaml:2:7: name: "a�b" holds a character that does not print, U+000A
  hint: write the text on one line`},
		{"date", least + "drawing: {date: 2025-02-29}\n", `b.yaml:6:17: drawing.date: "2025-02-29" is not a calendar date
  hint: write it as YYYY-MM-DD`},
		{"column in characters", least + `drawing: {owner: "Größe", date: x}` + "\n", `b.yaml:6:33: drawing.date: "x" is not a calendar date
  hint: write it as YYYY-MM-DD`},
	} {
		t.Run(c.name, func(t *testing.T) {
			b, err := ParseBrief("b.yaml", []byte(c.text))
			if err == nil {
				t.Fatal("no error")
			}
			if err.Error() != c.want {
				t.Errorf("got\n%s\nwant\n%s", err, c.want)
			}
			if b != (Brief{}) {
				t.Error("a brief came back with the error")
			}
		})
	}
}

// All faults of a file are told at once, in the order of their places, and
// none that only follows from another.
func TestParseBriefAllFaults(t *testing.T) {
	_, err := ParseBrief("b.yaml", []byte(`armwright: brief/1
name: Station
kind: arm-pat
people:
  shoe: 25
  wmoen: 50 %
resistance:
  load: {light: 10, middle: 5 kg, heavy: 80 kg}
  least_arm: 500 mm
space: [2 m]
`))
	var problems *Problems
	if !errors.As(err, &problems) {
		t.Fatalf("error is %T", err)
	}
	var got []string
	for _, p := range problems.List {
		got = append(got, p.Path)
	}
	want := []string{"kind", "people.shoe", "people.wmoen", "resistance.load.light", "resistance.least_arm", "space"}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("problems at %v, want %v", got, want)
	}
	p := problems.List[1]
	if p.File != "b.yaml" || p.Line != 5 || p.Column != 9 {
		t.Errorf("shoe at %s:%d:%d, want b.yaml:5:9", p.File, p.Line, p.Column)
	}
}

func TestLocate(t *testing.T) {
	for path, want := range map[string]string{
		"resistance.load.light":   "b.yaml:5:17: m\n  hint: h",
		"resistance.greatest_arm": "b.yaml:4:1: m\n  hint: h",
		"geometry.base":           "b.yaml:1:1: m\n  hint: h",
		"":                        "b.yaml:1:1: m\n  hint: h",
	} {
		if got := Locate("b.yaml", []byte(least), Problem{Path: path, Message: "m", Hint: "h"}).Error(); got != want {
			t.Errorf("%s: %s, want %s", path, got, want)
		}
	}
}

func TestProblemsAreCapped(t *testing.T) {
	text, faults := least+"limits:\n", 3
	for _, f := range fieldsOf(reflect.TypeFor[Limits]()) {
		text += "  " + f.key + ": x\n"
		faults++
	}
	text += "  extra: x\n  further: x\n  more: x\n"
	_, err := ParseBrief("b.yaml", []byte(text))
	if err == nil {
		t.Fatal("no error")
	}
	lines := strings.Split(err.Error(), "\n")
	if got, want := lines[len(lines)-1], fmt.Sprintf("and %d more", faults-mostPrinted); got != want {
		t.Errorf("last line %q, want %q", got, want)
	}
	if got := strings.Count(err.Error(), "b.yaml:"); got != mostPrinted {
		t.Errorf("%d problems printed, want %d", got, mostPrinted)
	}
}

func TestParseFrameFaults(t *testing.T) {
	text := string(frameText(t))
	axes := 1 + strings.Count(text[:strings.Index(text, "axes:  #")], "\n") // line
	for _, c := range []struct{ name, old, new, want string }{
		{"no geometry", text[strings.Index(text, "\ngeometry:"):], "\n", `f.yaml:1:1: missing key geometry
  hint: it needs pivots.height, pivots.spacing, pivots.axes, handle.least, handle.pitch, handle.positions, handle.middle, handle.grip_length, handle.diameter, handle.arm_mass and 1 more`},
		{"no axes", "  axes:  # the axis positions, in order of rising toe\n      - {toe: 12 deg, cant: 3 deg}\n      - {toe: 17 deg, cant: 4.5 deg}\n", "  axes: []\n",
			fmt.Sprintf("f.yaml:%d:5: geometry.pivots.axes: 0 items; 1 to 8 are allowed\n  hint: the axis positions, in order of rising toe", axes)},
	} {
		t.Run(c.name, func(t *testing.T) {
			if !strings.Contains(text, c.old) {
				t.Fatalf("the frame holds no %q:\n%s", c.old, text)
			}
			_, err := ParseFrame("f.yaml", []byte(strings.Replace(text, c.old, c.new, 1)))
			if err == nil || err.Error() != c.want {
				t.Errorf("got\n%v\nwant\n%s", err, c.want)
			}
		})
	}
}

func TestExamplesParse(t *testing.T) {
	names, err := fs.Glob(Examples, "examples/*.yaml")
	if err != nil || len(names) != 4 {
		t.Fatalf("examples: %v, %v", names, err)
	}
	for _, name := range names {
		data, err := Examples.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := ParseBrief(name, data); err != nil {
			t.Error(err)
		}
	}
}

// Whatever the bytes, a brief is read or told off with a place, and what is
// read can be written and read again.
func FuzzParseBrief(f *testing.F) {
	fuzzSeeds(f)
	f.Fuzz(func(t *testing.T, data []byte) {
		b, err := ParseBrief("b.yaml", data)
		if err != nil {
			checkProblems(t, err)
			return
		}
		var again strings.Builder
		if err := WriteBrief(&again, b); err != nil {
			t.Fatal(err)
		}
		back, err := ParseBrief("again.yaml", []byte(again.String()))
		if err != nil {
			t.Fatal(err)
		}
		if back != b.Quantised() {
			t.Fatalf("came back as %+v", back)
		}
	})
}

func FuzzParseFrame(f *testing.F) {
	fuzzSeeds(f)
	f.Add(frameText(f))
	f.Fuzz(func(t *testing.T, data []byte) {
		frame, err := ParseFrame("f.yaml", data)
		if err != nil {
			checkProblems(t, err)
			return
		}
		var again strings.Builder
		if err := WriteFrame(&again, frame); err != nil {
			t.Fatal(err)
		}
		back, err := ParseFrame("again.yaml", []byte(again.String()))
		if err != nil {
			t.Fatal(err)
		}
		if !reflect.DeepEqual(back, frame.Quantised()) {
			t.Fatalf("came back as %+v", back)
		}
	})
}

func fuzzSeeds(f *testing.F) {
	f.Add([]byte(least))
	for _, kind := range []string{"arm-pad", "reclined", "cam-study"} {
		f.Add(Starter(kind))
	}
	for _, s := range []string{"", "\ufeff", "a: &a [*a]", "? {a: b}\n: c", "'", "\"\\u0000\"", "%YAML 1.2\n---\n", "{", "a: |\n b", "- - - -", "armwright: frame/1", "\tx: 1", "a:\r\n- b\r\n"} {
		f.Add([]byte(s))
	}
	names, _ := fs.Glob(Examples, "examples/*.yaml")
	for _, name := range names {
		data, _ := Examples.ReadFile(name)
		f.Add(data)
	}
}

func checkProblems(t *testing.T, err error) {
	t.Helper()
	var problems *Problems
	if !errors.As(err, &problems) || len(problems.List) == 0 {
		t.Fatalf("error is %#v", err)
	}
	for _, p := range problems.List {
		if p.Line < 1 || p.Column < 1 || p.Message == "" {
			t.Fatalf("problem without place or message: %+v", p)
		}
	}
	if err.Error() == "" {
		t.Fatal("empty message")
	}
}

func TestFormatOf(t *testing.T) {
	for text, want := range map[string]string{
		string(Starter("reclined")): BriefFormat,
		string(frameText(t)):        FrameFormat,
		"name: x\n":                 "",
		"":                          "",
		"armwright: [brief/1]\n":    "",
		"{{{":                       "",
	} {
		if got := FormatOf([]byte(text)); got != want {
			t.Errorf("%.20q: %q, want %q", text, got, want)
		}
	}
}
