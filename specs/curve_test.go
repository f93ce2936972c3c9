package specs

import (
	"errors"
	"math"
	"strings"
	"testing"

	"armwright/specs/strength"
)

func TestReadCurve(t *testing.T) {
	want := "15 deg 41.5, 60 deg 52, 90 deg 50, 105 deg 43"
	for name, data := range map[string]string{
		"comma with headings": "angle,strength\n15,41.5\n60,52\n90,50\n105,43\n",
		"semicolon":           "15;41.5\r\n60;52\r\n90;50\r\n105;43\r\n",
		"tab, mark, comment":  "\ufeff15\t41.5\n# a remark\n60\t52\n90\t50\n105\t43",
		"more columns":        "deg, N m, note\n15, 41.5, low\n60, 52, peak\n90, 50,\n105, 43,\n",
	} {
		text, err := ReadCurve("c.csv", []byte(data))
		if err != nil || text != want {
			t.Errorf("%s: %q, %v", name, text, err)
		}
	}
	for _, c := range []struct{ name, data, want string }{
		{"empty", "", "c.csv:1:1: the file holds no points"},
		{"headings alone", "angle,strength\n", "c.csv:1:1: the file holds no points"},
		{"one column", "15\n30\n60\n90\n", "c.csv:1:1: a row of one column"},
		{"malformed first point", "15deg,41 N\n30,2\n60,2\n90,2\n", `c.csv:1:1: "15deg" is not a number of degrees`},
		{"comma for a point", "15.0.0;.41,5\n30;2\n60;2\n90;2\n", `c.csv:1:1: "15.0.0" is not a number of degrees`},
		{"words", "a,b\nc,d\n", `c.csv:2:1: "c" is not a number of degrees`},
		{"strength a word", "15,1\n30, high\n", `c.csv:2:5: "high" is not a strength`},
		{"short", "15,1\n30,2\n60,2\n", "c.csv:1:1: 3 points are too few; a curve needs at least 4"},
		{"quotes", "15,\"1\n30,2\n", `c.csv:2:6: extraneous or missing " in quoted-field`},
		{"infinite", "15,1\nInf,2\n60,2\n90,2\n", `c.csv:2:1: "Inf" is not a number of degrees`},
		{"falling", "15,1\n\n60,2\n# a remark\n30,2\n90,2\n", "c.csv:5:1: its flexion is not at least two degrees above that of the point before"},
		{"zero", "15,1\n30,0\n60,2\n90,2\n", "c.csv:2:1: its strength is not a number above zero"},
		{"too many", strings.Repeat("15,1\n", 1001), "c.csv:1001:1: more than 1000 points"},
		{"binary", "PK\x03\x04", "c.csv:1:3: control character 0x03: not a text file"},
	} {
		_, err := ReadCurve("c.csv", []byte(c.data))
		var problems *Problems
		if !errors.As(err, &problems) || len(problems.List) != 1 || problems.List[0].Hint == "" {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if got, _, _ := strings.Cut(err.Error(), "\n"); got != c.want {
			t.Errorf("%s: %s, want %s", c.name, got, c.want)
		}
	}
}

func FuzzReadCurve(f *testing.F) {
	f.Add([]byte("angle,strength\n15,41.5\n60,52\n90,50\n105,43\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		text, err := ReadCurve("c.csv", data)
		if err != nil {
			checkProblems(t, err)
			return
		}
		if _, err := ParseCurve(text); err != nil {
			t.Errorf("%q is written but not read: %v", text, err)
		}
	})
}

// A brief with its own curve: table and range must agree, and a CSV path stays
// closed to everyone but the command.
func TestStrengthCurveOfABrief(t *testing.T) {
	r := Resistance{Curve: "table", CurveTable: "5 deg 40, 45 deg 50, 90 deg 60, 130 deg 45", Loaded: Range{5 * math.Pi / 180, 130 * math.Pi / 180}}
	c, err := r.StrengthCurve()
	if err != nil {
		t.Fatal(err)
	}
	if v := c.At(45*math.Pi/180) / c.At(5*math.Pi/180); math.Abs(v-1.25) > 1e-12 {
		t.Errorf("ratio %g, want 1.25", v)
	}
	r.Loaded.To += 0.1
	var e *CurveRangeError
	if _, err := r.StrengthCurve(); !errors.As(err, &e) || e.Hint() == "" {
		t.Errorf("too short a table: %v", err)
	}
	var u *strength.UnknownCurveError
	if _, err := (Resistance{Curve: "mine.csv"}).StrengthCurve(); !errors.As(err, &u) {
		t.Errorf("unread file: %v", err)
	}
	for _, text := range []string{"resistance.curve: table", "resistance.curve_table: 5 40, 45 50"} {
		key, value, _ := strings.Cut(text, ": ")
		b, err := ParseBrief("starter", Starter("arm-pad"))
		if err != nil {
			t.Fatal(err)
		}
		if err := b.Set(key, value); err == nil {
			err = b.Validate()
			if err == nil {
				t.Errorf("%s is accepted", text)
			}
		}
	}
	b, err := ParseBrief("starter", []byte(strings.Replace(string(Starter("arm-pad")), `curve: "model-three"`, `curve: "own.csv"`, 1)))
	if err != nil || b.Resistance.Curve != "own.csv" {
		t.Errorf("path of a curve: %q, %v", b.Resistance.Curve, err)
	}
}
