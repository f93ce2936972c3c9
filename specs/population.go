package specs

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"armwright/specs/people"
	"armwright/specs/wording"
)

// PopulationTable is the population of a brief's own table, people.table.
const PopulationTable = "table"

// IsPopulationFile reports whether the name of a population is the path of a file.
// Nothing here opens it: the command reads it and puts what ReadPopulation makes of it
// into the brief, so that the frame is complete without the file.
func IsPopulationFile(name string) bool {
	name = strings.ToLower(name)
	return strings.HasSuffix(name, ".csv") || strings.HasSuffix(name, ".yaml") || strings.HasSuffix(name, ".yml")
}

// PopulationError tells what of the text of a population cannot be used.
type PopulationError struct {
	Entry  int // from 1, 0 for what is missing
	Reason string
	Advice string
}

func (e *PopulationError) Error() string {
	if e.Entry == 0 {
		return e.Reason
	}
	return fmt.Sprintf("entry %d: %s", e.Entry, e.Reason)
}

// Hint says what to write instead.
func (e *PopulationError) Hint() string { return e.Advice }

const populationForm = "write women stature 1620 mm 72 mm; women mass 76 kg 20 kg, stature 0.29; men stature 1758 mm 76 mm; ...: mean, standard deviation, correlations"

// ParsePopulation reads the text of people.table: for each sex and dimension of
// show people mean and standard deviation with their units, then its correlations with
// others after commas; semicolons between dimensions. The error is a *PopulationError.
func ParsePopulation(text string) (*people.Table, error) {
	t := &people.Table{}
	var entries [2][]int // number of each dimension's entry
	for i, entry := range strings.Split(text, ";") {
		if strings.TrimSpace(entry) == "" {
			continue
		}
		s, g, err := parseGiven(entry)
		if err != nil {
			err.Entry = i + 1
			return nil, err
		}
		t[s], entries[s] = append(t[s], g), append(entries[s], i+1)
	}
	var bad *people.TableError
	switch err := t.Validate(); {
	case errors.As(err, &bad) && bad.At >= 0:
		return nil, &PopulationError{entries[bad.Sex][bad.At], bad.What, bad.Advice}
	case err != nil:
		return nil, &PopulationError{0, err.Error(), populationForm}
	}
	return t, nil
}

func parseGiven(entry string) (people.Sex, people.Given, *PopulationError) {
	fail := func(hint, format string, args ...any) (people.Sex, people.Given, *PopulationError) {
		return 0, people.Given{}, &PopulationError{0, fmt.Sprintf(format, args...), hint}
	}
	head, rest, more := strings.Cut(entry, ",")
	words := strings.Fields(head)
	if len(words) != 6 {
		return fail(populationForm, "%s is not a sex, a dimension, a mean and a standard deviation with their units", wording.Quote(strings.TrimSpace(head)))
	}
	sex, ok := people.ParseSex(words[0])
	if !ok {
		return fail("write women or men", "%s is no sex", wording.Quote(words[0]))
	}
	g := people.Given{Dimension: words[1]}
	kind := DimensionKind(g.Dimension)
	for _, of := range []struct {
		text string
		to   *float64
	}{{words[2] + " " + words[3], &g.Mean}, {words[4] + " " + words[5], &g.SD}} {
		v, err := ParseQuantity(of.text, kind)
		if err != nil {
			return fail(populationForm, "%s", err)
		}
		*of.to = v
	}
	for _, pair := range strings.Split(rest, ",") {
		if !more {
			break
		}
		words := strings.Fields(pair)
		if len(words) != 2 {
			return fail(populationForm, "%s is not a dimension and its correlation", wording.Quote(strings.TrimSpace(pair)))
		}
		r, err := strconv.ParseFloat(words[1], 64)
		if err != nil {
			return fail(populationForm, "%s is no correlation", wording.Quote(words[1]))
		}
		g.With = append(g.With, people.Correlation{Dimension: words[0], R: r})
	}
	return sex, g, nil
}

// FormatPopulation writes a table as ParsePopulation reads it.
func FormatPopulation(t *people.Table) string {
	var entries []string
	for s, name := range [2]string{people.Woman: "women", people.Man: "men"} {
		for _, g := range t[s] {
			kind := DimensionKind(g.Dimension)
			entry := fmt.Sprintf("%s %s %s %s", name, g.Dimension, kind.format(g.Mean), kind.format(g.SD))
			for _, c := range g.With {
				entry += fmt.Sprintf(", %s %s", c.Dimension, strconv.FormatFloat(c.R, 'f', -1, 64))
			}
			entries = append(entries, entry)
		}
	}
	return strings.Join(entries, "; ")
}

// DimensionKind is in what a dimension of people.Dimensions is measured.
func DimensionKind(name string) Kind {
	switch name {
	case "mass":
		return Mass
	case "carrying_angle":
		return Angle
	}
	return Length
}
