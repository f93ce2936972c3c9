package report

import (
	"bytes"
	"encoding/json"
	"encoding/xml"
	"io"
	"reflect"
	"regexp"
	"slices"
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
		verdict, table := strings.Index(page, VerdictWord(r.Verdict)), strings.Index(page, "<h3>Requirements")
		if verdict < 0 || table < verdict || !strings.Contains(page, r.Notice) {
			t.Errorf("%s: verdict at %d, requirements at %d", r.Name, verdict, table)
		}
		for _, q := range r.Requirements {
			if !strings.Contains(page, `<b class="id">`+q.ID+"</b>") {
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

// count counts the elements of a class in a picture, which must be well-formed.
func count(t *testing.T, picture, class string) (n int) {
	t.Helper()
	d := xml.NewDecoder(strings.NewReader(picture))
	for {
		token, err := d.Token()
		if err == io.EOF {
			return n
		}
		if err != nil {
			t.Fatal(err)
		}
		if e, ok := token.(xml.StartElement); ok {
			for _, a := range e.Attr {
				if a.Name.Local == "class" && slices.Contains(strings.Fields(a.Value), class) {
					n++
				}
			}
		}
	}
}

// Every kind of station has its plots, and each holds what it should.
func TestPlots(t *testing.T) {
	seated := []string{"torque", "hardness", "loads", "footprint", "seated-1", "seated-2", "seat-place",
		"coverage", "explorer", "seat-setting", "handle-setting", "axis-setting", "paths", "persons"}
	for kind, want := range map[string][]string{
		"arm-pad-station": seated, "reclined-levers": seated, "cam-study": {"torque", "hardness", "loads"},
	} {
		r := written(t, kind)
		var got []string
		for _, p := range Plots(r) {
			got = append(got, p.ID)
			count(t, string(p.SVG), "")
			for _, gap := range []string{"NaN", "Inf", "%!"} {
				if strings.Contains(string(p.SVG), gap) {
					t.Errorf("%s: %s holds %s", kind, p.ID, gap)
				}
			}
			if !strings.Contains(rendered(t, r), `id="plot-`+p.ID+`"`) {
				t.Errorf("%s: the page has no %s", kind, p.ID)
			}
		}
		if !slices.Equal(got, want) {
			t.Errorf("%s: plots %v, want %v", kind, got, want)
		}
	}
	r := written(t, "arm-pad-station")
	for _, c := range []struct {
		id, class string
		count     int
	}{
		{"torque", "band", 2},   // band of curves, and its legend
		{"torque", "dashed", 2}, // wanted
		{"torque", "one", 2},    // coming down
		{"torque", "three", 2},  // going up
		{"loads", "dashed", 4},  // wanted at three loads, and what dashes mean
		{"hardness", "dot", 5},  // at rest, up, down, at the cadence, legend
		{"paths", "path", 6},    // three persons, here and on the common axis
		{"persons", "here", len(r.People.Boundary)},
		{"persons", "other", len(r.People.Boundary) + 1},
		{"footprint", "here", len(r.Stability.Entry)},
		{"explorer", "cell", fieldsOf(r)},
		{"axis-setting", "band", 0}, // nothing between whole positions
	} {
		list := plotsOf(r, c.id)
		if len(list) != 1 {
			t.Fatalf("%d plots %s", len(list), c.id)
		}
		if n := count(t, string(list[0].SVG), c.class); n != c.count {
			t.Errorf("%s: %d of %s, want %d", c.id, n, c.class, c.count)
		}
	}
}

// fieldsOf is how many fields of the explorer rest on enough persons.
func fieldsOf(r *Report) (n int) {
	for _, c := range r.People.Explorer {
		if c.Persons >= fewest {
			n++
		}
	}
	return n
}
