package page

import (
	"errors"
	"fmt"
	"strings"

	"armwright/export/viewer"
	"armwright/solver/drive"
	"armwright/solver/judge"
	"armwright/solver/seat"
	"armwright/specs"
	"armwright/specs/people"
	"armwright/specs/wording"
)

// Table asks who of a table of measured persons fits the station that a state means.
type Table struct {
	State
	Name string `json:"name"` // of the file, for messages
	Text string `json:"text"` // comma-separated values
	Row  int    `json:"row"`  // whose body is asked for, from 0; nobody's below it
}

// Seated is the answer.
type Seated struct {
	Rows   []Row          `json:"rows"`
	Faults []Problem      `json:"faults"` // of rows that cannot be used
	Filled string         `json:"filled"` // what was not measured, empty where all was
	Person *viewer.Person `json:"person"` // of the row asked for
}

// Row is one person of the table.
type Row struct {
	Label   string   `json:"label"`
	Woman   bool     `json:"woman"`
	Stature float64  `json:"stature"` // mm
	Fits    bool     `json:"fits"`
	Away    []string `json:"away"` // what turns the person away, with its figures
}

// mostPlaced is how many persons of a table are placed, so that an answer stays one of a
// moment; the command judges any number.
const mostPlaced = 500

// Persons places every person of a table on the station at hand, in the positions that
// suit best.
func (p *Page) Persons(t Table) (*Seated, *Trouble) {
	out, err := p.persons(t)
	if err != nil {
		return nil, troubleOf(err)
	}
	return out, nil
}

func (p *Page) persons(t Table) (*Seated, error) {
	res, err := p.judged(t.State)
	if err != nil {
		return nil, err
	}
	f := &res.Frame
	if f.Kind == "cam-study" {
		return nil, &specs.Problems{List: []specs.Problem{{Message: "a cam study has no users", Hint: "open a station of the arm-pad or reclined kind"}}}
	}
	if t.Name == "" {
		t.Name = "the table"
	}
	table, err := people.NewReader(t.Name, strings.NewReader(t.Text), drive.Population(f.People), uint64(f.People.Seed))
	if err != nil {
		return nil, asTrouble(err)
	}
	j, err := p.judge(f.Asked)
	if err != nil {
		return nil, err
	}
	out := &Seated{Rows: []Row{}, Faults: []Problem{}}
	units, m := f.Drawing.Reads(), drive.NewMachine(&f.Geometry)
	crowd := judge.Persons{Source: judge.Source{Table: t.Name}, All: func(yield func(people.Person) bool) {
		for who, faulty := range table.All() {
			var row *people.RowError
			switch {
			case errors.As(faulty, &row):
				out.Faults = append(out.Faults, Problem{Message: wording.Printable(row.Error()), Hint: row.Hint()})
			case faulty != nil:
				err = faulty
			case len(out.Rows) == mostPlaced:
				out.Faults = append(out.Faults, Problem{Message: fmt.Sprintf("%s: only the first %d persons are placed", t.Name, mostPlaced), Hint: "armwright check --people judges any number"})
				return
			case !yield(who):
				return
			}
		}
	}}
	crowd.Each = func(q *seat.Person, short []judge.Shortfall) {
		if len(out.Rows) == t.Row {
			who := viewer.NewPerson(j, m, q, viewer.Shortfalls(short, units))
			out.Person = &who
		}
		out.Rows = append(out.Rows, Row{wording.Printable(q.Person.Label), q.Person.Sex == people.Woman, rounded(q.Person.Stature), q.Fits, viewer.Shortfalls(short, units)})
	}
	if _, uncounted := j.Count(&f.Geometry, crowd); uncounted != nil {
		return nil, uncounted
	}
	if err != nil {
		return nil, asTrouble(err)
	}
	if n := len(table.Filled()); n > 0 {
		out.Filled = fmt.Sprintf("%d of %d sizes were not measured and are filled from the survey, by sex, stature and mass.", n, len(people.Dimensions()))
	}
	return out, nil
}

// asTrouble is an error of a table as what its reader can mend.
func asTrouble(err error) error {
	one := specs.Problem{Message: wording.Printable(err.Error())}
	var hint interface{ Hint() string }
	if errors.As(err, &hint) {
		one.Hint = hint.Hint()
	}
	return &specs.Problems{List: []specs.Problem{one}}
}
