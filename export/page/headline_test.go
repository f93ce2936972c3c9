package page

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"

	"armwright/export/report"
	"armwright/export/report/console"
	"armwright/solver"
	"armwright/solver/judge"
	"armwright/specs"
	"armwright/testdata"
)

// Whatever tells a figure of a requirement tells the value of its row: the page, the
// report, the terminal and report.json.
func TestEveryHeadlineIsItsRequirement(t *testing.T) {
	for _, name := range testdata.Frames() {
		f, err := specs.ParseFrame(name, testdata.Frame(name))
		if err != nil {
			t.Fatal(err)
		}
		res, err := solver.CheckPeople(f, judge.Persons{})
		if err != nil {
			t.Fatal(err)
		}
		rep := report.New(res, "armwright", nil)
		rows := map[string]report.Requirement{}
		for _, q := range rep.Requirements {
			rows[q.ID] = q
		}
		on := map[string]figure{}
		for _, g := range figures(rep, res) {
			if g.Requirement != "" {
				on[g.Requirement] = g
			}
		}
		if len(on) != len(rep.Headline.Figures) {
			t.Errorf("%s: the page shows %d figures of requirements, the report %d", name, len(on), len(rep.Headline.Figures))
		}
		answer, err := tell(res, rep)
		if err != nil {
			t.Fatal(err)
		}
		var data, html, text bytes.Buffer
		for _, err := range []error{report.JSON(&data, rep), report.HTML(&html, rep), console.Write(&text, rep, console.Options{})} {
			if err != nil {
				t.Fatal(err)
			}
		}
		var written report.Report
		if err := json.Unmarshal(data.Bytes(), &written); err != nil {
			t.Fatal(err)
		}
		if len(written.Headline.Figures) == 0 {
			t.Errorf("%s: no headline", name)
		}
		for _, h := range written.Headline.Figures {
			q := rows[h.Requirement]
			shown := rep.Units.Figure(q.Value, q.Unit)
			if h.Value != q.Value || h.Limit != q.Limit || h.Met != q.Met {
				t.Errorf("%s: report.json has %+v, the requirement %+v", name, h, q)
			}
			if g := on[h.Requirement]; g.Name != h.Name || g.Value == nil || *g.Value != q.Value || g.Text != shown {
				t.Errorf("%s: the page compares %+v, the requirement is %+v", name, g, q)
			}
			if !strings.Contains(answer.Parts.Head, `data-requirement="`+q.ID+`">`+shown+`<`) {
				t.Errorf("%s: the page does not show %s as %s", name, q.ID, shown)
			}
			if !strings.Contains(html.String(), `data-requirement="`+q.ID+`">`+shown+`<`) {
				t.Errorf("%s: report.html does not show %s as %s", name, q.ID, shown)
			}
			found := false
			for line := range strings.Lines(text.String()) {
				found = found || strings.HasPrefix(line, "  "+h.Name+" ") && strings.Contains(line, " "+shown+"  "+h.Sense)
			}
			if !found {
				t.Errorf("%s: the terminal does not show %s as %s:\n%s", name, h.Name, shown, text.String())
			}
		}
	}
}
