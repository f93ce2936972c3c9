package terminal

import (
	"bytes"
	"strings"
	"testing"
)

// A line of help that is too wide is broken so that it can still be copied or read.
func TestFold(t *testing.T) {
	for line, want := range map[string]string{
		"  short": "  short",
		`  armwright sweep brief.yaml --vary "space.length=1.6 m..2.2 m:7" --design 3 > third.yaml`: "  armwright sweep brief.yaml \\\n" +
			`      --vary "space.length=1.6 m..2.2 m:7" --design 3 \` + "\n      > third.yaml",
		"  tolerance    Study what building to shop tolerances does to a station": "  tolerance    Study what building to shop tolerances does\n" +
			"               to a station",
		"  one two three four five six seven eight nine ten eleven twelve": "  one two three four five six seven eight nine ten eleven\n  twelve",
	} {
		if got := strings.Join(Fold(line, 60), "\n"); got != want {
			t.Errorf("%s:\n%s\nwant\n%s", line, got, want)
		}
	}
}

// What is written to a gate that is shut goes nowhere.
func TestGate(t *testing.T) {
	var b bytes.Buffer
	g := &Gate{To: &b}
	for _, s := range []string{"one", "two"} {
		if n, err := g.Write([]byte(s)); n != len(s) || err != nil {
			t.Errorf("%d %v", n, err)
		}
		g.Shut()
	}
	if b.String() != "one" {
		t.Errorf("%q", b.String())
	}
}
