package erection_test

import (
	"slices"
	"strconv"
	"strings"
	"testing"

	"armwright/export/draw/erection"
	"armwright/export/draw/weldment"
	"armwright/export/hidden"
	"armwright/export/partlist"
	"armwright/export/sheet"
	"armwright/export/stationtest"
	"armwright/geometry/assembly"
	"armwright/specs/stock"
	"armwright/testdata"
)

func station(t *testing.T, name string) (*assembly.Assembly, []partlist.Line) {
	t.Helper()
	r := stationtest.Result(t, name)
	return r.Station.Assembly, partlist.Of(r)
}

var frames = []string{"arm-pad-station", "reclined-levers", "reclined-linkage", "arm-pad-station, foot plate", "arm-pad-station, split hub", "arm-pad-station, own cables"}

// Every part, all that is flexible and every fastener is in one step; what is put on is
// held by a joint to what stands before it; parts that are welded together come together.
func TestPlan(t *testing.T) {
	for _, name := range frames {
		t.Run(name, func(t *testing.T) {
			a, _ := station(t, name)
			steps := erection.Plan(a)
			at := make([]int, len(a.Parts)) // place in the order of all units, from 1
			n, flexible := 0, 0
			var joints []int
			for k, s := range steps {
				if s.Title == "What is left" {
					t.Errorf("left over: %d units, first %s", len(s.Units), a.Parts[s.Units[0].Parts[0]].ID)
				}
				if len(s.Checks) == 0 {
					t.Errorf("nothing is checked in step %q", s.Title)
				}
				flexible += len(s.Flexible)
				joints = append(joints, s.Joints...)
				for i, u := range s.Units {
					n++
					if u.On >= 0 {
						j := &a.Joints[u.On]
						on := j.A
						if slices.Contains(u.Parts, on) {
							on = j.B
						}
						if !slices.Contains(u.Parts, j.A) && !slices.Contains(u.Parts, j.B) || at[on] == 0 {
							t.Errorf("%s goes on by a joint with %s, which does not stand", a.Parts[u.Parts[0]].ID, a.Parts[on].ID)
						}
					} else if k+i > 0 {
						t.Errorf("%s hangs in the air", a.Parts[u.Parts[0]].ID)
					}
					for _, p := range u.Parts {
						if at[p] != 0 {
							t.Errorf("%s is put on twice", a.Parts[p].ID)
						}
						at[p] = n
					}
				}
			}
			for p, k := range at {
				if k == 0 {
					t.Errorf("%s is in no step", a.Parts[p].ID)
				}
			}
			for i := range a.Joints {
				if j := &a.Joints[i]; j.Kind == assembly.Weld && at[j.A] != at[j.B] {
					t.Errorf("%s and %s are welded, and come apart", a.Parts[j.A].ID, a.Parts[j.B].ID)
				}
			}
			if flexible != len(a.Flexible) {
				t.Errorf("%d of %d cables and loops", flexible, len(a.Flexible))
			}
			got, want := partlist.Fasteners(a, joints, stock.MetricCoarse), partlist.Fasteners(a, partlist.Every(a), stock.MetricCoarse)
			if !slices.EqualFunc(got, want, func(p, q partlist.Fastener) bool { return p.Ordered() == q.Ordered() && p.Count == q.Count }) {
				t.Errorf("fasteners of the steps %+v, of the list %+v", got, want)
			}
			if len(steps) < 6 {
				t.Errorf("only %d steps", len(steps))
			}
		})
	}
}

// The sheets list what the plan puts on, each weldment by the sheet that it is made by,
// and can be read.
func TestSheets(t *testing.T) {
	for _, name := range testdata.Few(1, frames...) {
		t.Run(name, func(t *testing.T) {
			a, list := station(t, name)
			item := make([]string, len(a.Parts))
			for _, l := range list {
				for _, p := range l.Parts {
					item[p] = strconv.Itoa(l.Item)
				}
			}
			d := erection.Drawer{
				Assembly: a, List: list, Item: item,
				Body: func(p int) hidden.Body {
					return hidden.Body{Shape: hidden.NewShape(a.Parts[p].Solid, 0.5), Place: a.Parts[p].Place, Role: sheet.Visible, Bare: true}
				},
				Torque: func(x float64) string { return strconv.FormatFloat(x/1000, 'f', 0, 64) + " N m" },
				Blank: func(title, kind string) sheet.Sheet {
					return sheet.Sheet{Size: sheet.A3, Larger: []sheet.Size{sheet.A2, sheet.A1}, TextHeight: sheet.ViewText, TitleBlock: sheet.TitleBlock{Title: title, DocumentType: kind}}
				},
			}
			pieces, lone := 0, 0
			for _, s := range d.Sheets() {
				got, err := s.Flatten()
				if err == nil {
					err = got.Check()
				}
				if err != nil {
					t.Errorf("%s: %v", s.Slug, err)
				}
				for _, row := range s.Tables[0].Rows {
					n, err := strconv.Atoi(row[1])
					if err != nil {
						t.Fatal(err)
					}
					if strings.HasPrefix(row[0], "items") {
						t.Errorf("%s: %q is no weldment", s.Slug, row)
					}
					if strings.HasPrefix(row[0], "sheet") {
						pieces += n
					} else {
						lone += n
					}
				}
			}
			// By hand from the list: all that is no part of a weldment.
			want, welded := len(a.Parts)+len(a.Flexible), 0
			for _, w := range weldment.Find(a) {
				inFrame := slices.ContainsFunc(weldment.Find(a), func(o weldment.Weldment) bool {
					return o.Number != w.Number && len(o.Parts()) > len(w.Parts()) && slices.Contains(o.Parts(), w.Parts()[0])
				})
				if !inFrame {
					welded++
					want -= len(w.Parts())
				}
			}
			if pieces != welded || lone != want {
				t.Errorf("%d weldments and %d parts, want %d and %d", pieces, lone, welded, want)
			}
		})
	}
}
