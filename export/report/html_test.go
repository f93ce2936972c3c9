package report

import (
	"bytes"
	"encoding/json"
	"encoding/xml"
	"io"
	"reflect"
	"regexp"
	"strings"
	"testing"
)

func rendered(t *testing.T, r *Report) string {
	t.Helper()
	var b bytes.Buffer
	if err := HTML(&b, r); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// The page needs nothing beside it and runs nothing.
func TestHTMLStandsAlone(t *testing.T) {
	reports := []*Report{infeasible(t)}
	for _, kind := range kinds {
		reports = append(reports, written(t, kind))
	}
	outside := regexp.MustCompile(`(?i)https?:|//[a-z]|src=|<link|<iframe|@import|url\(|\son[a-z]+=`)
	for _, r := range reports {
		page := rendered(t, r)
		visible, _, _ := strings.Cut(page, `<script type="application/json"`)
		if found := outside.FindString(visible); found != "" {
			t.Errorf("%s: the page holds %q", r.Name, found)
		}
		if n := strings.Count(page, "<script"); n != 1 {
			t.Errorf("%s: %d scripts, want the data island alone", r.Name, n)
		}
		for _, gap := range []string{"NaN", "ZgotmplZ", "&lt;nil&gt;", "0xc0", "%!"} {
			if strings.Contains(page, gap) {
				t.Errorf("%s: the page holds %q", r.Name, gap)
			}
		}
		verdict, table := strings.Index(page, VerdictWord(r.Verdict)), strings.Index(page, "<h2>Requirements")
		if verdict < 0 || table < verdict || !strings.Contains(page, r.Notice) {
			t.Errorf("%s: verdict at %d, requirements at %d", r.Name, verdict, table)
		}
		for _, q := range r.Requirements {
			if !strings.Contains(page, "<td>"+q.ID+"<br>") {
				t.Errorf("%s: no row of %s", r.Name, q.ID)
			}
		}
	}
}

// The data island is the report.
func TestHTMLIsland(t *testing.T) {
	want := infeasible(t)
	want.Name = `</script><script>alert(1)</script>&amp;`
	_, rest, ok := strings.Cut(rendered(t, want), `<script type="application/json" id="report">`)
	if !ok {
		t.Fatal("no data island")
	}
	text, after, _ := strings.Cut(rest, "</script>")
	if strings.TrimSpace(after) != "</body>\n</html>" {
		t.Errorf("after the island: %q", after)
	}
	var got Report
	if err := json.Unmarshal([]byte(text), &got); err != nil {
		t.Fatal(err)
	}
	if !reflect.DeepEqual(&got, want) {
		t.Error("the island differs from the report")
	}
}

// Every plot is well-formed XML with as many lines as it should have.
func TestCharts(t *testing.T) {
	r := written(t, "arm-pad")
	for _, c := range []struct {
		name  string
		text  string
		shape string
		count int
	}{
		{"torque", string(torqueChart(r)), "target", 6}, // three lines and their legend
		{"torque", string(torqueChart(r)), "delivered", 6},
		{"strength", string(strengthChart(r)), "band", 2},
		{"path", string(pathChart(r)), "here", len(r.People.Boundary)},
		{"path", string(pathChart(r)), "other", len(r.People.Boundary)},
	} {
		n := 0
		d := xml.NewDecoder(strings.NewReader(c.text))
		for {
			token, err := d.Token()
			if err == io.EOF {
				break
			}
			if err != nil {
				t.Fatalf("%s: %v", c.name, err)
			}
			if e, ok := token.(xml.StartElement); ok {
				for _, a := range e.Attr {
					if a.Name.Local == "class" && strings.Contains(" "+a.Value+" ", " "+c.shape+" ") {
						n++
					}
				}
			}
		}
		if n != c.count {
			t.Errorf("%s: %d of %s, want %d", c.name, n, c.shape, c.count)
		}
	}
	if pathChart(written(t, "cam-study")) != "" {
		t.Error("a cam study has a plot of people")
	}
}

func TestTick(t *testing.T) {
	for span, want := range map[float64]float64{0: 1, 1: 0.1, 1.3: 0.2, 4: 0.5, 7: 1, 45: 5, 80: 10, 120: 20} {
		if got := tick(span); got < want*0.999 || got > want*1.001 {
			t.Errorf("tick(%v) = %v, want %v", span, got, want)
		}
	}
}
