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
}

// column is what one column of the file holds.
type column struct {
	kind  columnKind
	dim   int     // of dimensions(), or len(dimensions()) for the carrying angle
	scale float64 // inside unit per unit of the file
	less  float64 // inside value below the measured one
	low   float64 // plausible inside values
	high  float64
	head  string
}

type columnKind int

const (
	unused columnKind = iota
	labelColumn
	sexColumn
	ageColumn
	sizeColumn
	standingAcromion // sitting acromion height follows from it
)

// RowError is one place of a table of persons that cannot be used. Line and
// Column count from 1; Column counts fields, 0 means the whole row.
type RowError struct {
	File         string
	Line, Column int
	What, Advice string
}

func (e *RowError) Error() string {
	at := fmt.Sprintf("%s:%d", e.File, e.Line)
	if e.Column > 0 {
		at = fmt.Sprintf("%s:%d", at, e.Column)
	}
	return at + ": " + e.What
}

// Hint says what to do about it.
func (e *RowError) Hint() string { return e.Advice }

// NewReader reads the header. File names the input in messages; the population
// gives age and carrying angles where the file has none, the seed the draw of
// those angles. The error is a *RowError at the header, or of reading.
func NewReader(file string, in io.Reader, p Population, seed uint64) (*Reader, error) {
	if err := p.Validate(); err != nil {
		return nil, err
	}
	buffered := bufio.NewReaderSize(in, 64<<10)
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
	r := &Reader{file: file, population: p, seed: seed, in: csv.NewReader(buffered), random: &rand.PCG{}}
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
		r.joints[s] = newJoint(s, surveyBMI(s))
	}
	return r, nil
}

func (r *Reader) unreadable(err error) error {
	var syntax *csv.ParseError
	switch {
	case errors.Is(err, io.EOF):
		return &RowError{r.file, 1, 0, "no header", "the first line names the columns, such as label,sex,stature_mm,mass_kg"}
	case errors.As(err, &syntax):
		return &RowError{r.file, syntax.Line, 0, syntax.Err.Error(), "a field with quotes or separators is written between double quotes"}
	}
	return err
}

// header finds out what each column holds.
func (r *Reader) header(names []string) error {
	dims := dimensions()
	r.given = make([]bool, len(dims)+1)
	fail := func(i int, what, advice string) error {
		return &RowError{r.file, 1, i + 1, what, advice}
	}
	survey, release := false, false
	for _, n := range names {
		switch strings.ToLower(strings.TrimSpace(n)) {
		case "weightkg":
			survey = true
		case "weightlbs":
			release = true
		}
	}
	seen := map[columnKind]bool{}
	for i, head := range names {
		c, unit, known := understand(head, survey)
		c.head = strings.TrimSpace(head)
		if !known {
			r.ignored = append(r.ignored, c.head)
			r.columns = append(r.columns, column{})
			continue
		}
		switch c.kind {
		case sizeColumn:
			if unit == "" && !survey {
				return fail(i, c.head+": no unit", fmt.Sprintf("write the unit in the header, such as %s_%s", dimensionName(dims, c.dim), usualUnit(dims, c.dim)))
			}
			if r.given[c.dim] {
				return fail(i, dimensionName(dims, c.dim)+" is given twice", "keep one of the two columns")
			}
			r.given[c.dim] = true
			c.low, c.high = plausible(c.dim)
			if survey && unit == "" {
				c.scale = 1
				if dims[c.dim].name == "mass" && release {
					c.scale = 0.1
				}
				break
			}
			scale, ok := units(dimensionName(dims, c.dim))[unit]
			if !ok {
				return fail(i, fmt.Sprintf("%s: %s is no unit of this", c.head, unit), "lengths are in mm, cm, m or in, masses in kg or lb, angles in deg")
			}
			c.scale = scale
		default:
			if seen[c.kind] {
				return fail(i, c.head+": there is another column for this", "keep one of the two columns")
			}
			seen[c.kind] = true
		}
		r.columns = append(r.columns, c)
	}
	r.hasAge = seen[ageColumn]
	if seen[standingAcromion] && r.given[sittingIndex] {
		r.given[acromionIndex] = true
	}
	for _, need := range []struct {
		ok         bool
		name, form string
	}{
		{seen[sexColumn], "sex", "sex"},
		{r.given[statureIndex], "stature", "stature_mm"},
		{r.given[massIndex], "mass", "mass_kg"},
	} {
		if !need.ok {
			return &RowError{r.file, 1, 0, "no column for " + need.name, "add a column " + need.form}
		}
	}
	return nil
}

// Positions of two more dimensions: sitting acromion height is the sitting
// height less stature plus the standing one, as in the survey.
const (
	sittingIndex  = 2
	acromionIndex = 3
)

func dimensionName(dims []dimension, i int) string {
	if i == len(dims) {
		return carryingName
	}
	return dims[i].name
}

func usualUnit(dims []dimension, i int) string {
	switch dimensionName(dims, i) {
	case "mass":
		return "kg"
	case carryingName:
		return "deg"
	}
	return "mm"
}

// units are the inside unit's size in each unit of a dimension.
func units(dim string) map[string]float64 {
	switch dim {
	case "mass":
		return map[string]float64{"kg": 1, "lb": 0.45359237, "lbs": 0.45359237}
	case carryingName:
		return map[string]float64{"deg": degree, "degrees": degree, "rad": 1}
	}
	return map[string]float64{"mm": 1, "cm": 10, "m": 1000, "in": 25.4, "inch": 25.4, "inches": 25.4}
}

// understand tells what a column's head means, and its unit in words.
func understand(head string, survey bool) (c column, unit string, known bool) {
	dims := dimensions()
	words := strings.FieldsFunc(strings.ToLower(head), func(r rune) bool { return strings.ContainsRune(" _-()[],/.", r) })
	if len(words) == 0 {
		return c, "", false
	}
	name := strings.Join(words, "_")
	switch name {
	case "label", "name", "person":
		return column{kind: labelColumn}, "", true
	case "sex", "gender":
		return column{kind: sexColumn}, "", true
	case "age", "age_y", "age_years", "age_yr":
		return column{kind: ageColumn}, "y", true
	}
	if survey {
		if name == "acromialheight" {
			return column{kind: standingAcromion, scale: 1}, "", true
		}
		for i, d := range dims {
			if name == strings.ReplaceAll(d.measure, "-", "_") {
				return column{kind: sizeColumn, dim: i, less: d.less}, "", true
			}
		}
	}
	last := words[len(words)-1]
	for i := range len(dims) + 1 {
		dim := dimensionName(dims, i)
		_, isUnit := units(dim)[last]
		short := strings.Join(words[:len(words)-1], "_")
		switch {
		case called(dim, name):
			return column{kind: sizeColumn, dim: i}, "", true
		case isUnit && called(dim, short), !isUnit && called(dim, short) && knownUnit(last):
			return column{kind: sizeColumn, dim: i}, last, true
		}
	}
	return c, "", false
}

// called says whether a name in words means the dimension.
func called(dim, name string) bool {
	if dim == name {
		return true
	}
	switch dim {
	case "stature":
		return name == "height" || name == "body_height"
	case "mass":
		return name == "weight" || name == "body_mass" || name == "body_weight"
	}
	return false
}

func knownUnit(word string) bool {
	for _, dim := range []string{"stature", "mass", carryingName} {
		if _, ok := units(dim)[word]; ok {
			return true
		}
	}
	return false
}

// Given returns the names of the dimensions the file has a column for.
func (r *Reader) Given() []string { return r.having(true) }

// Filled returns the names of the dimensions it has none for.
func (r *Reader) Filled() []string { return r.having(false) }

func (r *Reader) having(given bool) []string {
	var names []string
	for i, name := range Dimensions() {
		if r.given[i] == given {
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
// every place in it, a *RowError, and reading goes on with the next; an error
// of reading itself ends it.
func (r *Reader) All() iter.Seq2[Person, error] {
	return func(yield func(Person, error) bool) {
		values := make([]float64, len(r.given))
		for {
			record, err := r.in.Read()
			if errors.Is(err, io.EOF) {
				return
			}
			if err != nil {
				var syntax *csv.ParseError
				row := errors.As(err, &syntax)
				r.rows, r.bad = r.rows+1, r.bad+1
				if !yield(Person{}, r.unreadable(err)) || !row {
					return
				}
				continue
			}
			line, _ := r.in.FieldPos(0)
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
		bad(0, fmt.Sprintf("%d fields where the header has %d", len(record), len(r.columns)), "every row has a field for each column; decimals are written with a point")
		return p, problems
	}
	for i := range values {
		values[i] = math.NaN()
	}
	p.Age = r.population.Age
	acromion := math.NaN()
	sexed := false
	for i, cell := range record {
		c := r.columns[i]
		cell = strings.TrimSpace(cell)
		switch c.kind {
		case labelColumn:
			p.Label = strings.Clone(cell)
		case sexColumn:
			if p.Sex, sexed = readSex(cell); !sexed {
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
			bad(0, "no "+dimensionName(r.joints[0].dims, need), "stature, mass and sex are needed in every row")
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

func readSex(s string) (Sex, bool) {
	switch strings.ToLower(s) {
	case "woman", "women", "female", "f", "w":
		return Woman, true
	case "man", "men", "male", "m":
		return Man, true
	}
	return Woman, false
}

// plausible is the range beyond which a value is a slip: ten standard
// deviations of the survey about either sex's mean, masses 20 to 400 kg,
// carrying angles -10 to 40 degrees.
func plausible(dim int) (low, high float64) {
	dims := dimensions()
	switch dim {
	case massIndex:
		return 20, 400
	case len(dims):
		return -10 * degree, 40 * degree
	}
	d := dims[dim]
	const reach = 10
	w, m := d.survey[Woman], d.survey[Man]
	low = math.Min(w.mean-reach*w.sd, m.mean-reach*m.sd)
	high = math.Max(w.mean+reach*w.sd, m.mean+reach*m.sd)
	return math.Max(low, 0.2*w.mean) - d.less, high - d.less
}

// whichUnit guesses why a value is out of range.
func whichUnit(dim int, x float64) string {
	low, high := plausible(dim)
	name := dimensionName(dimensions(), dim)
	for _, unit := range []string{"cm", "m", "in", "lb"} {
		scale, ok := units(name)[unit]
		if ok && x*scale >= low && x*scale <= high {
			return "is it in " + unit + "? Say so in the header"
		}
	}
	if name == "mass" && x/10 >= low && x/10 <= high {
		return "is it in tenths of a kilogram? Divide by ten"
	}
	return "check the measurement and its unit"
}
