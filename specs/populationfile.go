package specs

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"armwright/specs/people"
	"armwright/specs/wording"

	"github.com/goccy/go-yaml/ast"
)

// ReadPopulation turns a file of means, standard deviations and correlations into the
// text of people.table. The name stands for the file in messages and tells its form.
//
// CSV: columns sex, dimension, unit, mean, sd in any order, and for correlations a
// column headed by each dimension that others are correlated with; empty cells are
// not given. Comma, semicolon and tab separate. YAML: under women and men the
// dimensions, each with mean, sd and, under with, the correlations:
//
//	women:
//	  stature: {mean: 1620 mm, sd: 72 mm}
//	  mass: {mean: 76 kg, sd: 20 kg, with: {stature: 0.29}}
//
// Anything wrong is a *Problems with line and column.
func ReadPopulation(name string, data []byte) (string, error) {
	f := &populationFile{name: name}
	if bad := screenBytes(data); bad != nil {
		f.fail(bad.place, bad.message, "a population is a short text file")
		return "", asError(f.problems)
	}
	if strings.HasSuffix(strings.ToLower(name), ".csv") || !IsPopulationFile(name) {
		f.csv(data)
	} else {
		f.yaml(data)
	}
	if len(f.problems) > 0 {
		return "", asError(f.problems)
	}
	text := FormatPopulation(&f.table)
	var bad *PopulationError
	if _, err := ParsePopulation(text); errors.As(err, &bad) {
		at := place{1, 1}
		if bad.Entry > 0 {
			at = append(f.places[people.Woman], f.places[people.Man]...)[bad.Entry-1]
		}
		f.fail(at, bad.Reason, bad.Advice)
	}
	return text, asError(f.problems)
}

// populationFile is a file of a population being read.
type populationFile struct {
	name     string
	table    people.Table
	places   [2][]place // of each dimension
	problems []Problem
}

func (f *populationFile) fail(at place, message, hint string) {
	f.problems = append(f.problems, Problem{f.name, at.line, at.column, "", message, hint})
}

func (f *populationFile) add(s people.Sex, at place, g people.Given) {
	f.table[s], f.places[s] = append(f.table[s], g), append(f.places[s], at)
}

// quantity reads a mean or a deviation.
func (f *populationFile) quantity(at place, text, dimension string) float64 {
	v, err := ParseQuantity(text, DimensionKind(dimension))
	var bad *QuantityError
	if errors.As(err, &bad) {
		f.fail(at, bad.Message, bad.Hint)
	}
	return v
}

// correlation reads one with another dimension.
func (f *populationFile) correlation(at place, text, with string, g *people.Given) {
	r, err := strconv.ParseFloat(strings.TrimSpace(text), 64)
	if err != nil {
		f.fail(at, fmt.Sprintf("%s is no correlation", wording.Quote(text)), "a number between -1 and 1")
		return
	}
	g.With = append(g.With, people.Correlation{Dimension: with, R: r})
}

const populationColumns = "the first line names the columns: sex, dimension, unit, mean, sd, and a dimension for each column of correlations"

func (f *populationFile) csv(data []byte) {
	r := newRowReader(data)
	var heads []string
	columns := map[string]int{}
	for {
		record, bad := r.next()
		if bad != nil {
			f.fail(bad.place, bad.message, bad.hint)
			return
		}
		if record == nil {
			break
		}
		at := func(i int) place { return r.at(min(i, len(record)-1)) }
		if heads == nil {
			for i, h := range record {
				h = dimensionWord(h)
				if _, twice := columns[h]; twice {
					f.fail(at(i), fmt.Sprintf("two columns %s", wording.Quote(h)), "keep one of the two")
				}
				columns[h], heads = i, append(heads, h)
			}
			for _, need := range []string{"sex", "dimension", "unit", "mean", "sd"} {
				if _, ok := columns[need]; !ok {
					f.fail(place{1, 1}, "no column "+need, populationColumns)
				}
			}
			if len(f.problems) > 0 {
				return
			}
			continue
		}
		if len(record) != len(heads) {
			f.fail(at(0), fmt.Sprintf("%d fields where the first line has %d", len(record), len(heads)), "leave a field empty between two separators")
			continue
		}
		cell := func(name string) (string, place) {
			i := columns[name]
			return strings.TrimSpace(record[i]), at(i)
		}
		word, where := cell("sex")
		sex, ok := people.ParseSex(word)
		if !ok {
			f.fail(where, wording.Quote(word)+" is no sex", "write women or men")
			continue
		}
		name, where := cell("dimension")
		unit, _ := cell("unit")
		g := people.Given{Dimension: dimensionWord(name)}
		for _, of := range []struct {
			head string
			to   *float64
		}{{"mean", &g.Mean}, {"sd", &g.SD}} {
			text, where := cell(of.head)
			*of.to = f.quantity(where, strings.TrimSpace(text+" "+unit), g.Dimension)
		}
		for i, h := range heads {
			switch h {
			case "sex", "dimension", "unit", "mean", "sd":
			default:
				if text := strings.TrimSpace(record[i]); text != "" && h != g.Dimension {
					f.correlation(at(i), text, h, &g)
				}
			}
		}
		f.add(sex, where, g)
	}
	if heads == nil {
		f.fail(place{1, 1}, "the file is empty", populationColumns)
	}
}

// dimensionWord is a name as show people writes it.
func dimensionWord(name string) string {
	return strings.Join(strings.Fields(strings.ReplaceAll(strings.ToLower(name), "_", " ")), "_")
}

func (f *populationFile) yaml(data []byte) {
	root, bad := parseSource(data)
	if bad != nil || root == nil {
		at, what := place{1, 1}, "the file is empty"
		if bad != nil {
			at, what = bad.place, bad.message
		}
		f.fail(at, what, populationKeys)
		return
	}
	f.keys(root, func(name string, at place, value ast.Node) {
		sex, ok := people.ParseSex(name)
		if !ok {
			f.fail(at, wording.Quote(name)+" is no sex", "keys here: women, men")
			return
		}
		f.keys(value, func(name string, at place, value ast.Node) {
			g := people.Given{Dimension: dimensionWord(name)}
			given := map[string]bool{}
			before := len(f.problems)
			f.keys(value, func(name string, at place, value ast.Node) {
				given[name] = true
				switch name {
				case "mean":
					g.Mean = f.quantity(at, f.scalar(value), g.Dimension)
				case "sd":
					g.SD = f.quantity(at, f.scalar(value), g.Dimension)
				case "with":
					f.keys(value, func(name string, at place, value ast.Node) {
						f.correlation(at, f.scalar(value), dimensionWord(name), &g)
					})
				default:
					f.fail(at, "unknown key "+wording.Quote(name), "keys here: mean, sd, with")
				}
			})
			for _, need := range []string{"mean", "sd"} {
				if !given[need] && len(f.problems) == before {
					f.fail(at, fmt.Sprintf("%s has no %s", g.Dimension, need), populationKeys)
				}
			}
			f.add(sex, at, g)
		})
	})
}

const populationKeys = "under women and men a line for each dimension, as stature: {mean: 1620 mm, sd: 72 mm}"

// keys hands on each key of a mapping once, with its place and value.
func (f *populationFile) keys(n ast.Node, each func(name string, at place, value ast.Node)) {
	d := &decoder{at: map[string]place{"": placeOf(n.GetToken())}, file: f.name}
	entries, ok := d.entries(n, "", populationKeys)
	if !ok {
		f.problems = append(f.problems, d.problems...)
		return
	}
	seen := map[string]bool{}
	for _, e := range entries {
		token := e.Key.GetToken()
		if seen[token.Value] {
			f.fail(placeOf(token), wording.Quote(token.Value)+" appears twice", "keep one of the two")
			continue
		}
		seen[token.Value] = true
		each(token.Value, placeOf(token), e.Value)
	}
}

// scalar is the text of a single value, "" of anything else, which is no quantity.
func (f *populationFile) scalar(n ast.Node) string {
	text, _ := scalarText(n)
	return text
}
