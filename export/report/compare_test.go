package report

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"

	"armwright/export/sheet"
	"armwright/export/terminal"
)

// A station against itself is alike in everything; against the short frame it
// stands better and takes more floor.
func TestCompare(t *testing.T) {
	a, b := written(t, "arm-pad-station"), written(t, "base-too-short")
	for _, g := range Compare(a, a).Groups {
		for _, r := range g.Lines {
			if r.Better != 0 || r.Values[0] == nil != (r.Values[1] == nil) || r.Values[0] != nil && *r.Values[0] != *r.Values[1] {
				t.Errorf("a station against itself: %+v", r)
			}
		}
	}
	c := Compare(a, b)
	at := map[string]CompareRow{}
	for _, g := range c.Groups {
		for _, r := range g.Lines {
			at[r.What] = r
		}
	}
	if r := at["tilt-occupied"]; r.Better != 1 || *r.Values[0] <= *r.Values[1] {
		t.Errorf("tilt: %+v", r)
	}
	if r := at["base length"]; r.Better != 2 || *r.Values[0] <= *r.Values[1] {
		t.Errorf("length: %+v", r)
	}
	// What only one has is there, with nothing beside it.
	d := Compare(a, written(t, "reclined-levers"))
	for _, g := range d.Groups {
		for _, r := range g.Lines {
			if r.What == "arm-slope" && (r.Values[0] != nil || r.Values[1] == nil || r.Better != 0) {
				t.Errorf("arm-slope: %+v", r)
			}
		}
	}
	var text, data bytes.Buffer
	if err := CompareText(&text, c, TextOptions{}); err != nil {
		t.Fatal(err)
	}
	if err := CompareJSON(&data, c); err != nil {
		t.Fatal(err)
	}
	var back Comparison
	if err := json.Unmarshal(data.Bytes(), &back); err != nil || back.Schema != ComparisonSchema {
		t.Errorf("%v %q", err, back.Schema)
	}
	for line := range strings.SplitSeq(text.String(), "\n") {
		if len([]rune(line)) > terminal.Usual {
			t.Errorf("%d characters: %s", len([]rune(line)), line)
		}
	}
	if !strings.Contains(strings.Join(strings.Fields(text.String()), " "), sheet.Notice) {
		t.Error("no notice")
	}
}
