package specs

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"armwright/specs/strength"
)

// CurveTable is the name of the curve that a brief brings along itself.
const CurveTable = "table"

// IsCurveFile tells whether the name of a curve is the path of a CSV file.
// Nothing here opens it: the command reads it and puts what ReadCurve makes of
// it into the brief, so that the frame is complete without the file.
func IsCurveFile(name string) bool { return strings.HasSuffix(strings.ToLower(name), ".csv") }

// ParseCurve reads the text of curve_table: pairs of a flexion with its unit
// and a strength in any one unit, separated by commas.
func ParseCurve(text string) ([]strength.Point, error) {
	var points []strength.Point
	for i, pair := range strings.Split(text, ",") {
		angle, value := cutLast(strings.TrimSpace(pair))
		theta, err := ParseQuantity(angle, Angle)
		if err != nil {
			return nil, &strength.TableError{Point: i + 1, Reason: err.Error()}
		}
		v, err := strconv.ParseFloat(value, 64)
		if err != nil {
			return nil, &strength.TableError{Point: i + 1, Reason: fmt.Sprintf("%s is no number", quote(value))}
		}
		points = append(points, strength.Point{Theta: theta, Strength: v})
	}
	_, err := strength.Table(CurveTable, "", "", points)
	return points, err
}

// cutLast splits a pair before its last word.
func cutLast(pair string) (before, last string) {
	i := strings.LastIndexAny(pair, " \t")
	if i < 0 {
		return "", pair
	}
	return strings.TrimSpace(pair[:i]), pair[i+1:]
}

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
	if err == nil && (c.Valid[0] > r.Loaded.From+1e-9 || c.Valid[1] < r.Loaded.To-1e-9) {
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

// ReadCurve turns a CSV file into the text of curve_table: two columns, flexion
// in degrees and strength in any one unit, after an optional line of headings.
// Comma, semicolon and tab separate. The error is a *strength.TableError.
func ReadCurve(data []byte) (string, error) {
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	r := csv.NewReader(bytes.NewReader(data))
	line, _, _ := bytes.Cut(data, []byte("\n"))
	for _, sep := range []rune{';', '\t'} {
		if bytes.ContainsRune(line, sep) {
			r.Comma = sep
		}
	}
	r.Comment, r.TrimLeadingSpace, r.FieldsPerRecord = '#', true, -1
	var pairs []string
	for row := 1; ; row++ {
		record, err := r.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return "", &strength.TableError{Point: row, Reason: err.Error()}
		}
		if len(record) < 2 {
			return "", &strength.TableError{Point: row, Reason: "two columns are due: flexion in degrees, strength"}
		}
		theta, e1 := strconv.ParseFloat(strings.TrimSpace(record[0]), 64)
		value, e2 := strconv.ParseFloat(strings.TrimSpace(record[1]), 64)
		switch {
		case row == 1 && e1 != nil && e2 != nil: // headings
			continue
		case e1 != nil || e2 != nil || math.IsNaN(theta) || math.IsInf(theta, 0):
			return "", &strength.TableError{Point: row, Reason: fmt.Sprintf("%s and %s are not two numbers", quote(record[0]), quote(record[1]))}
		}
		pairs = append(pairs, fmt.Sprintf("%s deg %s", strconv.FormatFloat(theta, 'f', -1, 64), strconv.FormatFloat(value, 'g', -1, 64)))
	}
	text := strings.Join(pairs, ", ")
	_, err := ParseCurve(text)
	return text, err
}
