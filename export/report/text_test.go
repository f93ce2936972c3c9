package report

import (
	"bytes"
	"encoding/json"
	"os"
	"strings"
	"testing"
	"unicode/utf8"
)

// infeasible is a report made by hand from a real one, with a name that has to
// be escaped.
func infeasible(t *testing.T) *Report {
	t.Helper()
	data, err := os.ReadFile("testdata/infeasible.json")
	if err != nil {
		t.Fatal(err)
	}
	var r Report
	if err := json.Unmarshal(data, &r); err != nil {
		t.Fatal(err)
	}
	return &r
}

func printed(t *testing.T, r *Report, o TextOptions) string {
	t.Helper()
	var b bytes.Buffer
	if err := Text(&b, r, o); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func TestTextGolden(t *testing.T) {
	const golden = "testdata/infeasible.txt"
	got := printed(t, infeasible(t), TextOptions{})
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

func TestTextFitsTheTerminal(t *testing.T) {
	reports := []*Report{infeasible(t)}
	for _, kind := range kinds {
		reports = append(reports, written(t, kind))
	}
	for _, r := range reports {
		got := printed(t, r, TextOptions{})
		for line := range strings.Lines(got) {
			if n := utf8.RuneCountInString(strings.TrimSuffix(line, "\n")); n > textWidth {
				t.Errorf("%s: %d characters: %s", r.Name, n, line)
			}
			if strings.HasSuffix(line, " \n") {
				t.Errorf("%s: blank at the end of %q", r.Name, line)
			}
		}
		first, _, _ := strings.Cut(got, "\n")
		if !strings.HasSuffix(first, ": "+VerdictWord(r.Verdict)) {
			t.Errorf("the first line is %q", first)
		}
		if !strings.Contains(strings.Join(strings.Fields(got), " "), r.Notice) {
			t.Errorf("%s: no notice", r.Name)
		}
		if strings.Contains(got, "\x1b") {
			t.Errorf("%s: colour without being asked", r.Name)
		}
	}
}

// Colour adds nothing but colour.
func TestTextColour(t *testing.T) {
	r := infeasible(t)
	coloured := printed(t, r, TextOptions{Colour: true})
	for _, code := range []string{bold, green, red, plain} {
		if !strings.Contains(coloured, code) {
			t.Errorf("no %q", code)
		}
		coloured = strings.ReplaceAll(coloured, code, "")
	}
	if coloured != printed(t, r, TextOptions{}) {
		t.Error("the words differ with colour")
	}
}
