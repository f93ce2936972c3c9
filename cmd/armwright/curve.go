package main

import (
	"errors"
	"path/filepath"

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
	invalid := func(err error) error {
		var h interface{ Hint() string }
		f := &failure{code: exitInvalid, what: label, why: err}
		if errors.As(err, &h) {
			f.hint = h.Hint()
		}
		return f
	}
	text, err := specs.ReadCurve(data)
	if err != nil {
		return invalid(err)
	}
	r.Curve, r.CurveTable = specs.CurveTable, text
	if err := b.Validate(); err != nil {
		return invalid(err)
	}
	if _, err := r.StrengthCurve(); err != nil {
		return invalid(err)
	}
	return nil
}
