package console

import (
	"bytes"
	"encoding/json"
	"flag"
	"os"
	"strings"
	"testing"
	"unicode/utf8"

	"armwright/export/report"
	"armwright/export/stationtest"
	"armwright/export/terminal"
	"armwright/testdata"
)

var update = flag.Bool("update", false, "write the golden files anew")

// infeasible is the report of a brief that cannot be met.
func infeasible(t *testing.T) *report.Report {
	t.Helper()
	var r report.Report
	if err := json.Unmarshal(testdata.Infeasible(), &r); err != nil {
		t.Fatal(err)
	}
	return &r
}

func printed(t *testing.T, r *report.Report, o Options) string {
	t.Helper()
	var b bytes.Buffer
	if err := Write(&b, r, o); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func TestGolden(t *testing.T) {
	for name, o := range map[string]Options{"infeasible": {}, "infeasible-full": {Full: true}, "infeasible-60": {Width: 60}} {
		golden := "testdata/" + name + ".txt"
		got := printed(t, infeasible(t), o)
		if *update {
			if err := os.WriteFile(golden, []byte(got), 0o666); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(golden)
		if err != nil {
			t.Fatal(err)
		}
		if got != string(want) {
			t.Errorf("got\n%s\nwant\n%s", got, want)
		}
	}
}

// The short form keeps to its lines and both to the terminal, on any width, with the
// verdict first and the notice last.
func TestFitsTheTerminal(t *testing.T) {
	reports := []*report.Report{infeasible(t)}
	for _, kind := range []string{"arm-pad-station", "reclined-levers", "cam-study"} {
		reports = append(reports, report.New(stationtest.Result(t, kind), "armwright test", nil))
	}
	for _, r := range reports {
		for _, columns := range []int{0, 20, 60, 73, 80, 120, 200, 500} {
			for _, full := range []bool{false, true} {
				got := printed(t, r, Options{Width: columns, Full: full})
				for line := range strings.Lines(got) {
					if n := utf8.RuneCountInString(strings.TrimSuffix(line, "\n")); n > terminal.Width(columns) {
						t.Errorf("%s: %d characters of %d: %s", r.Name, n, columns, line)
					}
					if strings.HasSuffix(line, " \n") {
						t.Errorf("%s: blank at the end of %q", r.Name, line)
					}
				}
				if n := strings.Count(got, "\n"); !full && n > ShortLines {
					t.Errorf("%s: %d lines in %d columns:\n%s", r.Name, n, columns, got)
				}
				first, _, _ := strings.Cut(got, "\n")
				if !strings.HasSuffix(first, ": "+report.VerdictWord(r.Verdict)) {
					t.Errorf("the first line is %q", first)
				}
				level := strings.Join(strings.Fields(got), " ")
				if !strings.HasSuffix(level, r.Notice) {
					t.Errorf("%s: the last words are no notice: %s", r.Name, got)
				}
				if strings.Contains(got, "\x1b") {
					t.Errorf("%s: colour without being asked", r.Name)
				}
				for _, f := range r.Headline.Figures {
					if figure := r.Units.Figure(f.Value, f.Unit); !strings.Contains(level, figure) {
						t.Errorf("%s in %d: no %s of %s", r.Name, columns, figure, f.Requirement)
					}
				}
				for _, p := range r.Beyond() {
					if figure := r.Units.Figure(p.Value, p.Unit); !strings.Contains(level, figure) {
						t.Errorf("%s in %d: nothing of %s %s", r.Name, columns, p.Joint, figure)
					}
				}
			}
		}
	}
}

// Colour adds nothing but colour.
func TestColour(t *testing.T) {
	r := infeasible(t)
	coloured := printed(t, r, Options{Colour: true, Full: true})
	for _, code := range []string{terminal.Bold, terminal.Green, terminal.Red, terminal.Plain} {
		if !strings.Contains(coloured, code) {
			t.Errorf("no %q", code)
		}
		coloured = strings.ReplaceAll(coloured, code, "")
	}
	if coloured != printed(t, r, Options{Full: true}) {
		t.Error("the words differ with colour")
	}
}
