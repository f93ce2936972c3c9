package specs

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

	"armwright/specs/strength"
	"armwright/specs/wording"
)

// IsCurveFile reports whether the name of a curve is the path of a CSV file.
// Nothing here opens it: the command reads it and puts what ReadCurve makes of
// it into the brief, so that the frame is complete without the file.
func IsCurveFile(name string) bool { return strings.HasSuffix(strings.ToLower(name), ".csv") }

// ParseCurve reads the text of curve_table: pairs of a flexion with its unit
// and a strength in any one unit, separated by commas.
func ParseCurve(text string) ([]strength.Point, error) {
	var points []strength.Point
	for i, pair := range strings.Split(text, ",") {
		angle, value := wording.CutLast(strings.TrimSpace(pair))
		theta, err := ParseQuantity(angle, Angle)
		if err != nil {
			return nil, &strength.TableError{Point: i + 1, Reason: err.Error()}
		}
		v, err := strconv.ParseFloat(value, 64)
		if err != nil {
			return nil, &strength.TableError{Point: i + 1, Reason: fmt.Sprintf("%s is no number", wording.Quote(value))}
		}
		points = append(points, strength.Point{Theta: theta, Strength: v})
	}
	_, err := strength.Table(CurveTable, "", "", points)
	return points, err
}

// angleRounding is how far a written angle may lie off, rad: half of the last
// decimal kept, and room for the conversion.
const angleRounding = 1e-8

// StrengthCurve returns the curve that the torque is to follow. The error is an
// *strength.UnknownCurveError, a *strength.TableError, or a *CurveRangeError
// when a table does not cover the loaded range.
func (r Resistance) StrengthCurve() (strength.Curve, error) {
	if r.CurveTable == "" || r.Curve != CurveTable {
		return strength.ByNameAt(r.Curve, r.Shoulder)
	}
	points, err := ParseCurve(r.CurveTable)
	if err != nil {
		return strength.Curve{}, err
	}
	c, err := strength.Table(CurveTable, "Table of the brief", "the brief's own table, not-a-knot spline through its points", points)
	if err == nil && (c.Valid[0] > r.Loaded.From+angleRounding || c.Valid[1] < r.Loaded.To-angleRounding) {
		err = &CurveRangeError{Valid: Range{c.Valid[0], c.Valid[1]}, Loaded: r.Loaded}
	}
	return c, err
}

// CurveRangeError says that a table of strength does not cover the loaded range.
type CurveRangeError struct{ Valid, Loaded Range }

func (e *CurveRangeError) Error() string {
	told := func(r Range) string { return Angle.format(r.From) + ".." + Angle.format(r.To) }
	return fmt.Sprintf("the strength table covers %s, the loaded range is %s", told(e.Valid), told(e.Loaded))
}

// Hint says what to change.
func (e *CurveRangeError) Hint() string {
	return "add points to the table, or narrow resistance.loaded"
}

// covered is the rule that a brief's own table of strength reaches over the
// loaded range.
func (r Resistance) covered() relation {
	rule := relation{path: "resistance.curve_table", with: []string{"resistance.curve", "resistance.loaded"}, holds: true}
	var short *CurveRangeError
	if _, err := r.StrengthCurve(); r.Curve == CurveTable && errors.As(err, &short) {
		rule.holds, rule.message, rule.hint = false, short.Error(), short.Hint()
	}
	return rule
}

// numeric reports whether a cell starts as a number does, so that it is no heading.
func numeric(cell string) bool {
	return strings.IndexAny(strings.TrimLeft(strings.TrimSpace(cell), "+-.,"), "0123456789") == 0
}

// mostPoints bounds a file of a strength curve. Two degrees must lie between
// points, so a curve of a hundred is a long one.
const mostPoints = 1000

// ReadCurve turns a CSV file into the text of curve_table: two columns, flexion
// in degrees and strength in any one unit, after an optional line of headings.
// Comma, semicolon and tab separate. The name stands for the file in messages.
// Anything wrong is a *Problems with line and column.
func ReadCurve(name string, data []byte) (string, error) {
	const due = "two columns are due: flexion in degrees, strength"
	fail := func(at place, message, hint string) (string, error) {
		return "", asError([]Problem{{name, at.line, at.column, "", message, hint}})
	}
	if bad := screenBytes(data); bad != nil {
		return fail(bad.place, bad.message, "a strength curve is a short text file: "+due)
	}
	r := newRowReader(data)
	var pairs []string
	var places []place
	for row := 1; ; row++ {
		record, bad := r.next()
		if bad != nil {
			return fail(bad.place, bad.message, bad.hint)
		}
		if record == nil {
			break
		}
		at := r.at(0)
		if len(record) < 2 {
			return fail(at, "a row of one column", due)
		}
		theta, e1 := strconv.ParseFloat(strings.TrimSpace(record[0]), 64)
		value, e2 := strconv.ParseFloat(strings.TrimSpace(record[1]), 64)
		switch {
		case row == 1 && e1 != nil && e2 != nil && !numeric(record[0]) && !numeric(record[1]): // headings
			continue
		case e1 != nil || math.IsNaN(theta) || math.IsInf(theta, 0):
			return fail(at, wording.Quote(record[0])+" is not a number of degrees", "write the number alone, with a decimal point")
		case e2 != nil || math.IsNaN(value) || math.IsInf(value, 0):
			return fail(r.at(1), wording.Quote(record[1])+" is not a strength", "write the number alone, with a decimal point")
		case len(pairs) == mostPoints:
			return fail(at, fmt.Sprintf("more than %d points", mostPoints), "two degrees must lie between points")
		}
		pairs = append(pairs, fmt.Sprintf("%s deg %s", strconv.FormatFloat(theta, 'f', -1, 64), strconv.FormatFloat(value, 'g', -1, 64)))
		places = append(places, at)
	}
	if len(pairs) == 0 {
		return fail(place{1, 1}, "the file holds no points", due)
	}
	text := strings.Join(pairs, ", ")
	_, err := ParseCurve(text)
	var bad *strength.TableError
	if errors.As(err, &bad) {
		return fail(places[max(bad.Point, 1)-1], bad.Reason, bad.Hint())
	}
	return text, err
}
