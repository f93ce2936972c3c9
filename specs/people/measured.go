package people

import (
	"bufio"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"iter"
	"math"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
)

// Reader reads measured persons, one a row, from comma-separated values (or
// semicolons or tabs, whichever stands in the header).
//
// A column is named in words with its unit, "stature_mm", "Sitting height
// (cm)", "mass_lb": the names of Dimensions, "sex", "age_y" and "label", in any
// order. Columns of the 2012 survey's own names are understood too, in its
// units, in a file that has its weightkg; the public release, known by its
// Weightlbs, holds tenths of a kilogram there. Sex, stature and mass are
// needed. What a row lacks is filled by the survey's regression on stature and
// body mass index; a carrying angle that was not measured is drawn at random
// from its sex's distribution, by row and seed, because the mean for everybody
// would overrate coverage.
type Reader struct {
	file       string
	population Population
	seed       uint64
	in         *csv.Reader
	columns    []column
	ignored    []string
	given      []bool // by dimension, the carrying angle last
	hasAge     bool
	joints     [2]*joint
	random     *rand.PCG
	filled     int
	rows, bad  int
	mostRows   int
}

// RowError is one place of a table of persons that cannot be used. Line and
// Column count from 1; Column counts fields, 1 also for the whole row.
type RowError struct {
	File         string
	Line, Column int
	What, Advice string
}

func (e *RowError) Error() string {
	return fmt.Sprintf("%s:%d:%d: %s", e.File, e.Line, e.Column, e.What)
}

// Hint says what to do about it.
func (e *RowError) Hint() string { return e.Advice }

// NewReader reads the header. File names the input in messages; the population
// gives age and carrying angles where the file has none, the seed the draw of
// those angles. The error is a *RowError at the header, a *SizeError, or of
// reading.
func NewReader(file string, in io.Reader, p Population, seed uint64) (*Reader, error) {
	return newReader(file, in, p, seed, bounds{largestTable, longestRow, mostRows})
}

func newReader(file string, in io.Reader, p Population, seed uint64, most bounds) (*Reader, error) {
	if err := p.Validate(); err != nil {
		return nil, err
	}
	buffered := bufio.NewReaderSize(&bounded{most: most, in: in, file: file}, 64<<10)
	// The separator is the first of these in the header; a byte order mark,
	// which some spreadsheets write, is skipped.
	start, err := buffered.Peek(32 << 10)
	if len(start) == 0 && err != nil && !errors.Is(err, io.EOF) {
		return nil, err
	}
	if strings.HasPrefix(string(start), "\ufeff") {
		_, _ = buffered.Discard(len("\ufeff"))
	}
	head, _, _ := strings.Cut(string(start), "\n")
	separator := ','
	if i := strings.IndexAny(head, ",;\t"); i >= 0 {
		separator = rune(head[i])
	}
	r := &Reader{file: file, mostRows: most.rows, population: p, seed: seed, in: csv.NewReader(buffered), random: &rand.PCG{}}
	r.in.Comma = separator
	r.in.ReuseRecord = true
	r.in.FieldsPerRecord = -1
	r.in.TrimLeadingSpace = true
	names, err := r.in.Read()
	if err != nil {
		return nil, r.unreadable(err)
	}
	if err := r.header(slices.Clone(names)); err != nil {
		return nil, err
	}
	for _, s := range []Sex{Woman, Man} {
		r.joints[s] = newJoint(s, surveyStature(), surveyBMI(s))
	}
	return r, nil
}

func (r *Reader) unreadable(err error) error {
	var syntax *csv.ParseError
	switch {
	case errors.Is(err, io.EOF):
		return &RowError{r.file, 1, 1, "no header", "the first line names the columns, such as label,sex,stature_mm,mass_kg"}
	case errors.As(err, &syntax):
		return &RowError{r.file, syntax.Line, 1, syntax.Err.Error(), "a field with quotes or separators is written between double quotes"}
	}
	return err
}

// Filled returns the names of the dimensions the file has no column for.
func (r *Reader) Filled() []string {
	var names []string
	for i, name := range Dimensions() {
		if !r.given[i] {
			names = append(names, name)
		}
	}
	return names
}

// Ignored returns the heads of columns that mean nothing here.
func (r *Reader) Ignored() []string { return r.ignored }

// Rows returns how many rows were read so far, how many of them were bad, and
// how many single empty cells were filled.
func (r *Reader) Rows() (rows, bad, cells int) { return r.rows, r.bad, r.filled }

// All yields one person a row. A row that cannot be used yields an error for
// every place in it, a *RowError, and reading goes on with the next; a *SizeError
// or an error of reading itself ends it.
func (r *Reader) All() iter.Seq2[Person, error] {
	return func(yield func(Person, error) bool) {
		values := make([]float64, len(r.given))
		for {
			record, err := r.in.Read()
			if errors.Is(err, io.EOF) {
				return
			}
			if err != nil {
				if !errors.As(err, new(*csv.ParseError)) {
					yield(Person{}, err)
					return
				}
				r.rows, r.bad = r.rows+1, r.bad+1
				if !yield(Person{}, r.unreadable(err)) {
					return
				}
				continue
			}
			line, _ := r.in.FieldPos(0)
			if r.rows == r.mostRows {
				yield(Person{}, &SizeError{r.file, line, fmt.Sprintf("more than %d persons", r.mostRows)})
				return
			}
			r.rows++
			person, problems := r.person(record, line, values)
			if problems == nil {
				if !yield(person, nil) {
					return
				}
				continue
			}
			r.bad++
			for _, p := range problems {
				if !yield(Person{}, p) {
					return
				}
			}
		}
	}
}

// person reads one row. Values is scratch space by dimension.
func (r *Reader) person(record []string, line int, values []float64) (p Person, problems []*RowError) {
	bad := func(column int, what, advice string) {
		problems = append(problems, &RowError{r.file, line, column, what, advice})
	}
	if len(record) != len(r.columns) {
		bad(1, fmt.Sprintf("%d fields where the header has %d", len(record), len(r.columns)), "every row has a field for each column; decimals are written with a point")
		return p, problems
	}
	for i := range values {
		values[i] = math.NaN()
	}
	p.Age, p.Stronger = r.population.Age, r.population.Stronger
	acromion := math.NaN()
	sexed := false
	for i, cell := range record {
		c := r.columns[i]
		cell = strings.TrimSpace(cell)
		switch c.kind {
		case labelColumn:
			p.Label = strings.Clone(cell)
		case sexColumn:
			if p.Sex, sexed = ParseSex(cell); !sexed {
				bad(i+1, fmt.Sprintf("sex %q", cell), "write woman or man, f or m, female or male")
			}
		case ageColumn:
			if cell == "" {
				continue
			}
			x, err := strconv.ParseFloat(cell, 64)
			if err != nil || !(x >= 10 && x <= 110) {
				bad(i+1, fmt.Sprintf("age %q", cell), "write years between 10 and 110")
				continue
			}
			p.Age = x
		case sizeColumn, standingAcromion:
			if cell == "" {
				continue
			}
			x, err := strconv.ParseFloat(cell, 64)
			if err != nil || math.IsNaN(x) {
				bad(i+1, fmt.Sprintf("%s: %q is no number", c.head, cell), "write the number alone, with a decimal point; the unit stands in the header")
				continue
			}
			x *= c.scale
			if c.kind == standingAcromion {
				acromion = x
				continue
			}
			values[c.dim] = x - c.less
		}
	}
	if math.IsNaN(values[acromionIndex]) {
		values[acromionIndex] = values[sittingIndex] - values[statureIndex] + acromion
	}
	for i, c := range r.columns {
		if c.kind != sizeColumn || math.IsNaN(values[c.dim]) {
			continue
		}
		if values[c.dim] < c.low || values[c.dim] > c.high {
			bad(i+1, fmt.Sprintf("%s: %s is outside what people measure", c.head, record[i]), whichUnit(c.dim, values[c.dim]))
		}
	}
	for _, need := range []int{statureIndex, massIndex} {
		if problems == nil && math.IsNaN(values[need]) {
			bad(1, "no "+dimensionName(r.joints[0].dims, need), "stature, mass and sex are needed in every row")
		}
	}
	if problems != nil {
		return p, problems
	}
	r.fill(&p, values, line)
	return p, nil
}

// fill completes a person from what was measured.
func (r *Reader) fill(p *Person, values []float64, line int) {
	j := r.joints[p.Sex]
	a := j.dims[statureIndex].survey[p.Sex].score(values[statureIndex])
	metres := values[statureIndex] / 1000
	index := values[massIndex] / (metres * metres)
	mean, sd := logBMI(p.Sex)
	g := (math.Log(index) - mean) / sd
	for i := range j.dims {
		d := &j.dims[i]
		x := values[i]
		if math.IsNaN(x) {
			if r.given[i] {
				r.filled++
			}
			x = d.survey[p.Sex].value(j.slope[i][0]*a+j.slope[i][1]*g) - d.less
		}
		*d.field(p) = x
	}
	p.CarryingAngle = values[len(j.dims)]
	if math.IsNaN(p.CarryingAngle) {
		if r.given[len(j.dims)] {
			r.filled++
		}
		r.random.Seed(r.seed, uint64(line))
		p.CarryingAngle = r.population.Carrying.of(p.Sex, a, (float64(r.random.Uint64()>>11)+0.5)/(1<<53))
	}
	p.Extrapolated = index > stoutBMI(p.Sex)
	if p.Label == "" {
		p.Label = "row " + strconv.Itoa(line)
	}
}

// ParseSex reads a sex as tables have it: woman, women, female, f or w, and man, men,
// male or m, in any case.
func ParseSex(s string) (Sex, bool) {
	switch strings.ToLower(s) {
	case "woman", "women", "female", "f", "w":
		return Woman, true
	case "man", "men", "male", "m":
		return Man, true
	}
	return Woman, false
}
