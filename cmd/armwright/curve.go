package main

import (
	"errors"
	"path/filepath"
	"strings"

	"armwright/specs"
)

// withCurve reads the CSV file that a brief names as its strength curve, from
// beside the brief, and puts the points into the brief, so that the frame made
// of it needs no file.
func withCurve(s *streams, brief string, b *specs.Brief) error {
	r := &b.Resistance
	if !specs.IsCurveFile(r.Curve) {
		return nil
	}
	path := r.Curve
	if brief != "-" && !filepath.IsAbs(path) {
		path = filepath.Join(filepath.Dir(brief), path)
	}
	label, data, err := readInput(s, path, "resistance.curve names a strength curve, or a CSV file beside the brief: flexion in degrees, strength")
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
