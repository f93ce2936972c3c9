package record

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"errors"
	"io"
	"math"
	"strings"
	"testing"

	"armwright/solver/sweep"
	"armwright/specs"
)

// studyPlaces are a number, a word and a range of a starter brief.
func studyPlaces(t *testing.T) []*specs.Place {
	b, err := specs.ParseBrief("starter", specs.Starter("arm-pad"))
	if err != nil {
		t.Fatal(err)
	}
	v, err := specs.Vary(b, "limits.hand_path", "stock.cable", "posture.lean", "people.women")
	if err != nil {
		t.Fatal(err)
	}
	return v.Places()
}

func studyOutcome() *sweep.Outcome {
	o := &sweep.Outcome{Values: []string{"12.5 mm", "7x19-4", "0 deg..20 deg", "50 %"}, Verdict: sweep.Invalid, Reason: `light, "heavy"`}
	o.Figures = make([]float64, len(sweep.Figures()))
	for i, f := range sweep.Figures() {
		o.Figures[i] = math.NaN()
		switch f.Name {
		case "axis_tilt_deg":
			o.Figures[i] = math.Pi / 60
		case "torque_match_percent":
			o.Figures[i] = 0.0123456
		case "hand_path_mm":
			o.Figures[i] = 14.62661
		}
	}
	return o
}

// Both forms are read by the standard library's readers, and say the same.
func TestRowsAreReadByOthers(t *testing.T) {
	places, o := studyPlaces(t), studyOutcome()
	want := map[string]any{
		"design": 3.0, "of": 7.0, "brief": strings.Repeat("0", 64), "limits.hand_path_mm": 12.5, "stock.cable": "7x19-4", "posture.lean": "0 deg..20 deg",
		"people.women_percent": 50.0, "verdict": "invalid", "axis_tilt_deg": 3.0, "torque_match_percent": 1.2346, "hand_path_mm": 14.6266, "reason": `light, "heavy"`,
	}
	object := map[string]any{}
	line := NewTable(places, true).AppendRow(nil, 2, 7, o)
	if err := json.Unmarshal(line, &object); err != nil {
		t.Fatalf("%v in %s", err, line)
	}
	for k, v := range want {
		if object[k] != v {
			t.Errorf("JSON %s: %v, want %v", k, object[k], v)
		}
	}
	if len(object) != len(want) {
		t.Errorf("JSON holds %v", object)
	}

	table := NewTable(places, false)
	text := table.AppendRow(table.Head(), 2, 7, o)
	rows, err := csv.NewReader(bytes.NewReader(text)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	r, err := NewReader("s.csv", bytes.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	row, err := r.Next()
	if err != nil {
		t.Fatal(err)
	}
	for i, name := range rows[0] {
		if got := row.Text(name); got != rows[1][i] {
			t.Errorf("CSV %s: %q, want %q", name, got, rows[1][i])
		}
		switch v := want[name].(type) {
		case string:
			if rows[1][i] != v {
				t.Errorf("CSV %s: %q, want %q", name, rows[1][i], v)
			}
		case float64:
			if x := row.Number(name); x != v {
				t.Errorf("CSV %s: %v, want %v", name, x, v)
			}
		default:
			if rows[1][i] != "" {
				t.Errorf("CSV %s: %q where nothing is known", name, rows[1][i])
			}
		}
	}
	if row.Design != 3 || row.Of != 7 || len(row.Digest) != 32 || len(row.Varied()) != 4 {
		t.Errorf("row %+v", row)
	}
	if _, err := r.Next(); !errors.Is(err, io.EOF) {
		t.Errorf("after the last: %v", err)
	}
	if r.Offset() != int64(len(text)) {
		t.Errorf("ends at %d of %d", r.Offset(), len(text))
	}
}

// A file cut anywhere reads back the whole lines before the cut, and says where
// they end.
func TestStudyCutAnywhere(t *testing.T) {
	for _, form := range []bool{false, true} {
		table := NewTable(studyPlaces(t), form)
		text := table.Head()
		var ends []int
		for i := range 3 {
			ends = append(ends, len(text))
			text = table.AppendRow(text, i, 3, studyOutcome())
		}
		ends = append(ends, len(text))
		for cut := range len(text) {
			r, err := NewReader("s", bytes.NewReader(text[:cut]))
			if err != nil {
				t.Fatalf("cut at %d: %v", cut, err)
			}
			rows := 0
			for ; ; rows++ {
				if _, err = r.Next(); err != nil {
					break
				}
			}
			want := 0
			for want < 3 && ends[want+1] <= cut {
				want++
			}
			end := int64(ends[want])
			if cut < ends[0] {
				end = 0
			}
			if rows != want || r.Offset() != end || !errors.Is(err, io.EOF) && !errors.Is(err, ErrCut) {
				t.Fatalf("JSON %v cut at %d: %d rows to %d, %v; want %d to %d", form, cut, rows, r.Offset(), err, want, end)
			}
		}
	}
}

func TestReaderRefuses(t *testing.T) {
	head := "design,of,brief,verdict,governs\n"
	for _, c := range []struct{ text, want string }{
		{"a,b,c\n1,2,3\n", "s:1: this is no study"},
		{head + "1,2\n", "s:2: the line is no design of a study"},
		{head + "1,2,00,met\n", "s:2: 4 cells where 5 are due"},
		{head + "x,2,00,met,\n", "s:2: the line is no design of a study"},
		{head + "3,2,00,met,\n", "s:2: the line is no design of a study"},
		{head + "1,2,0g,met,\n", "s:2: the line is no design of a study"},
		{head + "1,2,\"00,met,\n", "s:2: the line is no row of comma-separated values"},
		{"{\"design\":[1]}\n", "s:1: the line is no JSON object of texts and numbers"},
		{"{\"design\":1}\n", "s:1: the line is no design of a study"},
		{strings.Repeat("x", 1<<17), "s:1: the line is too long"},
	} {
		r, err := NewReader("s", strings.NewReader(c.text))
		if err == nil {
			_, err = r.Next()
		}
		var bad *Error
		if !errors.As(err, &bad) || err.Error() != c.want {
			t.Errorf("%.40q: %v, want %s", c.text, err, c.want)
		}
	}
}

// Of a plot every dot lies inside the frame, and nothing is drawn twice.
func TestPlot(t *testing.T) {
	p := NewPlot("x_mm", "y_percent", [2]float64{5, 5}, [2]float64{-1, 3})
	for range 10 {
		p.Add(5, -1, true)
		p.Add(5, 3, false)
	}
	p.Front([][2]float64{{5, 3}})
	svg := string(p.SVG())
	for _, c := range []struct {
		part string
		n    int
	}{{`class="met"`, 1}, {`class="unmet"`, 1}, {`class="best"`, 1}, {">x_mm</text>", 1}, {">y_percent</text>", 1}} {
		if n := strings.Count(svg, c.part); n != c.n {
			t.Errorf("%s is there %d times, want %d", c.part, n, c.n)
		}
	}
	if strings.Contains(svg, "NaN") || strings.Contains(svg, "Inf") {
		t.Error("a place is not finite")
	}
}
