package main

import (
	"errors"
	"path/filepath"
	"strings"

	"armwright/specs"
)

// withFiles reads the files that a brief names, from beside the brief, and puts what
// they say into the brief, so that the frame made of it needs no file.
func withFiles(s *streams, brief string, b *specs.Brief) error {
	beside := func(path string) string {
		if brief == "-" || filepath.IsAbs(path) {
			return path
		}
		return filepath.Join(filepath.Dir(brief), path)
	}
	if w := &b.People; specs.IsPopulationFile(w.Population) {
		_, text, err := readPopulation(s, beside(w.Population))
		if err != nil {
			return err
		}
		w.Population, w.Table = specs.PopulationTable, text
	}
	r := &b.Resistance
	if !specs.IsCurveFile(r.Curve) {
		return nil
	}
	label, data, err := readInput(s, beside(r.Curve), "resistance.curve names a strength curve, or a CSV file beside the brief: flexion in degrees, strength")
	if err != nil {
		return err
	}
	text, err := specs.ReadCurve(label, data)
	if err != nil {
		return err
	}
	r.Curve, r.CurveTable = specs.CurveTable, text
	if err := b.Validate(); err != nil { // of the table, as the brief was valid
		var p *specs.Problems
		if errors.As(err, &p) {
			for i := range p.List {
				q := &p.List[i]
				q.File, q.Line, q.Column = label, 1, 1
				q.Message = strings.TrimPrefix(q.Message, q.Path+": ") // which the brief does not hold
			}
		}
		return err
	}
	return nil
}

// readPopulation reads a file of means, deviations and correlations as people.table.
func readPopulation(s *streams, path string) (label, text string, err error) {
	label, data, err := readInput(s, path, "a population is a name of show people, or a CSV or YAML file of means, standard deviations and correlations")
	if err != nil {
		return label, "", err
	}
	text, err = specs.ReadPopulation(label, data)
	return label, text, err
}
