package main

import (
	"bytes"
	"encoding/json"
	"testing"

	"armwright/specs"
	"armwright/testdata"
)

// Files that broke the program once: a frame is judged or refused, what is said
// of it is whole, and a brief is read or refused with its place.
func TestHostileFiles(t *testing.T) {
	for _, name := range testdata.Spread(6, testdata.HostileFiles()...) {
		t.Run(name, func(t *testing.T) {
			data := testdata.Hostile(name)
			if !bytes.Contains(data, []byte("frame/1")) {
				if _, err := specs.ParseBrief(name, data); err != nil {
					t.Error(err)
				}
				return
			}
			s, stdout, stderr := testStreams(string(data))
			want := exitInvalid
			if name == "tipping" || name == "unbuildable-a-step-on" { // whole, and not met
				want = exitNotMet
			}
			if code := exitCode(run(s, []string{"check", "-", "--json"})); code != want {
				t.Fatalf("exit %d, want %d: %s", code, want, stderr)
			}
			if want == exitInvalid {
				if stderr.Len() == 0 || stdout.Len() > 0 {
					t.Errorf("refused without a word, or with a report: %q, %q", stderr, stdout)
				}
				return
			}
			var report struct{ Verdict string }
			if err := json.Unmarshal(stdout.Bytes(), &report); err != nil || report.Verdict != "not-met" {
				t.Errorf("verdict %q, %v", report.Verdict, err)
			}
			s, stdout, stderr = testStreams(string(data))
			if code := exitCode(run(s, []string{"tolerance", "-", "--builds", "5", "--json"})); code != exitMet || !json.Valid(stdout.Bytes()) {
				t.Errorf("tolerance: exit %d: %s", code, stderr)
			}
		})
	}
}

// Briefs that contradict themselves are sound as files.
func TestConflictsAreRead(t *testing.T) {
	for _, name := range testdata.Conflicts() {
		if _, err := specs.ParseBrief(name, testdata.Conflict(name)); err != nil {
			t.Error(err)
		}
	}
}
