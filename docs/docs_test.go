// Package docs_test holds the documentation against the program: tables and
// pictures that were made are as they would be made now, and what a page
// computes by hand is what the program computes.
package docs_test

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"armwright/export/report"
	"armwright/solver"
	"armwright/specs"
)

var update = flag.Bool("update", false, "write made tables and pictures anew")

// page reads a page of the documentation.
func page(t *testing.T, name string) string {
	t.Helper()
	b, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

// made holds the part of a page between <!-- made: part --> and <!-- end -->
// against what it should be.
func made(t *testing.T, name, part, want string) {
	t.Helper()
	text := page(t, name)
	start, end := "<!-- made: "+part+" -->\n", "<!-- end -->"
	before, rest, ok := strings.Cut(text, start)
	got, after, ended := strings.Cut(rest, end)
	if !ok || !ended {
		t.Fatalf("%s: no part %q", name, part)
	}
	if got == want {
		return
	}
	if !*update {
		t.Errorf("%s: %s is out of date, run go test ./docs -update; it should be\n%s", name, part, want)
		return
	}
	if err := os.WriteFile(name, []byte(before+start+want+end+after), 0o666); err != nil {
		t.Fatal(err)
	}
}

// kept holds a file against what it should be.
func kept(t *testing.T, name string, want []byte) {
	t.Helper()
	got, err := os.ReadFile(name)
	if err == nil && bytes.Equal(got, want) {
		return
	}
	if !*update {
		t.Errorf("%s is out of date, run go test ./docs -update", name)
		return
	}
	if err := os.MkdirAll(filepath.Dir(name), 0o777); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(name, want, 0o666); err != nil {
		t.Fatal(err)
	}
}

// tables are the tables of a page: lines of cells, the rule left out.
func tables(text string) (all [][][]string) {
	inside := false
	for _, l := range strings.Split(text, "\n") {
		if !strings.HasPrefix(l, "|") {
			inside = false
			continue
		}
		if !inside {
			inside = true
			all = append(all, nil)
		}
		if strings.HasPrefix(l, "|---") {
			continue
		}
		cells := strings.Split(strings.Trim(l, "|"), "|")
		for i := range cells {
			cells[i] = strings.TrimSpace(cells[i])
		}
		all[len(all)-1] = append(all[len(all)-1], cells)
	}
	return all
}

// headed is the table whose first line begins with the given cells, without
// that line.
func headed(t *testing.T, text string, head ...string) [][]string {
	t.Helper()
	for _, rows := range tables(text) {
		if strings.Join(rows[0][:min(len(head), len(rows[0]))], "|") == strings.Join(head, "|") {
			return rows[1:]
		}
	}
	t.Fatalf("no table headed %v", head)
	return nil
}

// judged reads a frame of the documentation and judges it, on few random persons.
func judged(t *testing.T, name string) *solver.Result {
	t.Helper()
	return judgedOn(t, name, 50)
}

// judgedOn judges on a number of random persons.
func judgedOn(t *testing.T, name string, sample int) *solver.Result {
	t.Helper()
	f, err := specs.ParseFrame(name, []byte(page(t, name)))
	if err != nil {
		t.Fatal(err)
	}
	f.People.Sample = sample
	r, err := solver.Check(f)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// told is the report of a judged frame.
func told(t *testing.T, name string) (*solver.Result, *report.Report) {
	t.Helper()
	r := judged(t, name)
	return r, report.New(r, "armwright", nil)
}
