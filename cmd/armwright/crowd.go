package main

import (
	"bufio"
	"cmp"
	"compress/gzip"
	"context"
	"errors"
	"fmt"
	"io"
	"iter"
	"os"
	"slices"
	"strings"

	"armwright/cmd/armwright/storage"
	"armwright/export/report"
	"armwright/solver"
	"armwright/solver/drive"
	"armwright/solver/judge"
	"armwright/solver/seat"
	"armwright/specs"
	"armwright/specs/people"
	"armwright/specs/people/where"
	"armwright/specs/wording"

	"github.com/spf13/cobra"
)

// crowdOptions say on whom coverage is counted.
type crowdOptions struct {
	people     string // file of measured persons, or - for stdin
	keepGoing  bool   // past rows that cannot be used
	population string // instead of the frame's
	sample     int    // instead of the frame's, 0 is the frame's
	list       string // file to write with one row a person
	where      string // only persons for whom this holds
	kind       *where.Condition
}

const tableHint = "a table starts with a line such as label,sex,stature_mm,mass_kg"

// mostSampled keeps a slip of the hand from running for hours.
const mostSampled = 10_000_000

func (o *crowdOptions) flags(cmd *cobra.Command) {
	f := cmd.Flags()
	f.StringVar(&o.people, "people", "", "count coverage on the measured persons of this table, - for stdin")
	f.BoolVar(&o.keepGoing, "keep-going", false, "judge the other persons where rows of --people cannot be used")
	f.StringVar(&o.population, "population", "", "draw the random persons from this population: "+sentence(populations(), "or")+", or a CSV or YAML file")
	f.IntVar(&o.sample, "sample", 0, "number of random persons, up to ten million")
	f.StringVar(&o.where, "where", "", "tell in one line how many of these fit, such as \"women under 1.60 m\"")
	f.StringVar(&o.list, "list", "", "also write one row a person into this file: sizes, settings, what turns away")
	_ = cmd.MarkFlagFilename("people", "csv", "gz")
	_ = cmd.MarkFlagFilename("list", "csv")
	_ = cmd.RegisterFlagCompletionFunc("population", cobra.FixedCompletions(populations(), cobra.ShellCompDirectiveNoFileComp))
}

func (o *crowdOptions) check(frame string) error {
	switch {
	case o.people != "" && (o.population != "" || o.sample != 0):
		return usage("measured persons are neither drawn nor of a population", "check: --people with --population or --sample")
	case o.people == "-" && frame == "-":
		return usage("give one of them as a file", "check: both the frame and the persons from stdin")
	case o.keepGoing && o.people == "":
		return usage("add --people FILE", "check: --keep-going without --people")
	case o.population != "" && !specs.IsPopulationFile(o.population) && !slices.Contains(populations(), o.population):
		return usage("populations are "+sentence(populations(), "and")+", or a CSV or YAML file", "check: no population %q", o.population)
	case o.sample < 0 || o.sample > mostSampled:
		return usage("from 1 to 10000000", "check: --sample %d", o.sample)
	}
	if o.where == "" {
		return nil
	}
	var err error
	var bad *where.SyntaxError
	if o.kind, err = where.Parse(o.where); errors.As(err, &bad) {
		return usage(bad.Hint(), "check: --where %q: %s", o.where, bad)
	}
	return err
}

// judgeFrame checks a frame on the persons that the options ask for.
func judgeFrame(ctx context.Context, s *streams, o *checkOptions, label string, frame specs.Frame) (result *solver.Result, err error) {
	table, err := withCrowd(ctx, s, o, label, frame, func(crowd judge.Persons) (err error) {
		result, err = solver.CheckPeople(frame, crowd)
		return err
	})
	if err == nil && table != nil {
		result.Notes = append(result.Notes, table.notes()...)
	}
	return result, err
}

// withCrowd hands the persons that the options ask for to whoever judges them, and
// writes their list. The table is nil where nobody was measured.
func withCrowd(ctx context.Context, s *streams, o *checkOptions, label string, frame specs.Frame, judged func(judge.Persons) error) (table *measuredTable, err error) {
	if frame.Kind == "cam-study" && o.crowdOptions != (crowdOptions{}) {
		return nil, usage("check a station of the arm-pad or reclined kind", "%s: a cam study has no users", label)
	}
	who := frame.People // the requirements stay those of the frame's own people
	if o.population != "" {
		who.Population = o.population
	}
	if specs.IsPopulationFile(o.population) {
		who.Population = specs.PopulationTable
		if _, who.Table, err = readPopulation(s, o.population); err != nil {
			return nil, err
		}
	}
	if o.sample > 0 {
		who.Sample = o.sample
	}
	crowd := judge.Random(who)
	if o.people != "" {
		if table, err = openMeasured(s, &o.crowdOptions, who); err != nil {
			return nil, err
		}
		defer table.close()
		crowd = judge.Persons{Source: judge.Source{Table: wording.Printable(table.label)}, All: table.all}
	}
	if kind := o.kind; kind != nil && table == nil {
		crowd = judge.Among(who, kind.Holds)
	} else if kind != nil {
		crowd.All = only(crowd.All, kind)
	}
	if o.list != "" {
		var list *storage.Document
		if list, err = openDocument(s, o.list, report.PersonTableHead(), o.force); err != nil {
			return nil, err
		}
		defer list.Discard() // what went wrong leaves no half table
		buffered := bufio.NewWriter(list)
		rows := report.NewPersonTable(buffered, &frame)
		var failed error
		crowd.Each = func(p *seat.Person, away []judge.Shortfall) {
			if failed == nil {
				failed = rows.Add(p)
			}
		}
		defer func() {
			if err != nil {
				return
			}
			err = cmp.Or(failed, rows.Close(), buffered.Flush())
			if err == nil {
				err = list.Commit()
			}
		}()
	}
	p := newProgress(s, o.quiet)
	defer p.clear()
	crowd.All = counted(ctx, crowd.All, func(n int) {
		if p.on {
			p.part(done(n, who.Sample, table), "judged %s", count(n, "person"))
		}
	})
	if err = judged(crowd); err != nil {
		return nil, unsolved(label, err)
	}
	if ctx.Err() != nil {
		return nil, ctx.Err()
	}
	if table != nil {
		err = table.finish()
	}
	return table, err
}

// counted passes persons on until the context ends, and tells how many those before
// were.
func counted(ctx context.Context, all iter.Seq[people.Person], tell func(int)) iter.Seq[people.Person] {
	return func(yield func(people.Person) bool) {
		n := 0
		for p := range all {
			if tell(n); ctx.Err() != nil || !yield(p) {
				return
			}
			n++
		}
	}
}

// done is the share of the persons that were judged, 0 where nobody knows.
func done(n, sample int, table *measuredTable) float64 {
	if table != nil {
		return table.read()
	}
	return float64(n) / float64(sample)
}

// measuredTable is a table of measured persons being read.
type measuredTable struct {
	label     string
	reader    *people.Reader
	file      *os.File // nil for stdin
	keepGoing bool
	talk      io.Writer
	err       error // of reading
}

func openMeasured(s *streams, o *crowdOptions, who specs.People) (*measuredTable, error) {
	t := &measuredTable{label: o.people, keepGoing: o.keepGoing, talk: s.err}
	in := s.in
	if o.people == "-" {
		t.label = "stdin"
	} else {
		file, err := os.Open(o.people)
		if err != nil {
			return nil, &failure{code: exitFailed, what: "cannot read " + o.people, why: storage.Reason(err), hint: tableHint}
		}
		t.file, in = file, file
	}
	if strings.HasSuffix(o.people, ".gz") {
		unzipped, err := gzip.NewReader(in)
		if err != nil {
			t.close()
			return nil, &failure{code: exitInvalid, what: o.people, why: err, hint: "a name ending in .gz is a compressed file"}
		}
		in = unzipped
	}
	var err error
	if t.reader, err = people.NewReader(t.label, in, drive.Population(who), uint64(who.Seed)); err != nil {
		t.close()
		return nil, invalidTable(t.label, err)
	}
	return t, nil
}

// invalidTable says what an error of a table of persons means.
func invalidTable(label string, err error) error {
	var row *people.RowError
	var size *people.SizeError
	switch {
	case errors.As(err, &size):
		return &specs.Problems{List: []specs.Problem{{File: size.File, Line: size.Line, Column: 1, Message: size.What, Hint: size.Hint()}}}
	case errors.As(err, &row):
		return &specs.Problems{List: []specs.Problem{{File: row.File, Line: row.Line, Column: row.Column, Message: row.What, Hint: row.Advice}}}
	}
	return &failure{code: exitFailed, what: "cannot read " + label, why: storage.Reason(err), hint: tableHint}
}

// mostTold is how many faults of a table are spelt out; a reader mends those and
// runs again.
const mostTold = 200

// all yields the persons and tells rows that cannot be used at once.
func (t *measuredTable) all(yield func(people.Person) bool) {
	told := 0
	for p, err := range t.reader.All() {
		var row *people.RowError
		switch {
		case errors.As(err, &row) && told < mostTold:
			fmt.Fprintf(t.talk, "%s\n  hint: %s\n", wording.Printable(row.Error()), row.Hint())
			if told++; told == mostTold {
				fmt.Fprintln(t.talk, "further faults are only counted")
			}
		case row != nil:
		case err != nil:
			t.err = err
		case !yield(p):
			return
		}
	}
}

// finish is the error of a table that could not be used whole.
func (t *measuredTable) finish() error {
	rows, bad, _ := t.reader.Rows()
	switch {
	case t.err != nil && !errors.Is(t.err, io.EOF):
		return invalidTable(t.label, t.err)
	case rows == bad:
		return &specs.Problems{List: []specs.Problem{{File: t.label, Line: 1, Column: 1, Message: "no person in " + count(rows, "row"),
			Hint: "a row after the headings is a person, such as Ann,woman,1652,62"}}}
	case bad > 0 && !t.keepGoing:
		return &failure{code: exitInvalid, what: fmt.Sprintf("%s: %s of %d cannot be used", t.label, count(bad, "row"), rows),
			hint: "mend them, or judge the others with --keep-going"}
	}
	return nil
}

// notes say what was not as measured.
func (t *measuredTable) notes() []string {
	var notes []string
	rows, bad, cells := t.reader.Rows()
	if bad > 0 {
		notes = append(notes, fmt.Sprintf("%s of %d in %s cannot be used and are not counted", count(bad, "row"), rows, wording.Printable(t.label)))
	}
	var fitted []string
	drawn := false
	for _, name := range t.reader.Filled() {
		if name == "carrying_angle" {
			drawn = true
			continue
		}
		fitted = append(fitted, strings.ReplaceAll(name, "_", " "))
	}
	if len(fitted) > 0 {
		notes = append(notes, "filled by regression on stature and mass: "+sentence(fitted, "and"))
	}
	if drawn {
		notes = append(notes, "carrying angles were not measured; they are drawn at random from those of each person's sex")
	}
	if cells > 0 {
		notes = append(notes, count(cells, "empty cell")+" filled in the same way")
	}
	if unknown := t.reader.Ignored(); len(unknown) > 0 {
		notes = append(notes, "columns not used: "+wording.Printable(strings.Join(unknown, ", ")))
	}
	return notes
}

// read is the share of the table that has been read, 0 where nobody knows.
func (t *measuredTable) read() float64 {
	if t.file == nil {
		return 0
	}
	at, err := t.file.Seek(0, io.SeekCurrent)
	if err != nil { // a pipe
		return 0
	}
	info, err := t.file.Stat()
	if err != nil {
		return 0
	}
	return float64(at) / float64(info.Size())
}

func (t *measuredTable) close() {
	if t.file != nil {
		_ = t.file.Close()
	}
}

// only passes on the persons of a kind.
func only(all iter.Seq[people.Person], kind *where.Condition) iter.Seq[people.Person] {
	return func(yield func(people.Person) bool) {
		for p := range all {
			if kind.Holds(&p) && !yield(p) {
				return
			}
		}
	}
}
