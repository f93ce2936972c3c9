package judge

import (
	"fmt"
	"math"
	"reflect"
)

// NotFiniteError says that a geometry gives a value that is not a finite number: it
// is no station, though each of its values may be allowed by itself.
type NotFiniteError struct {
	What  string // requirement, or place in the result
	Value float64
}

func (e *NotFiniteError) Error() string {
	return fmt.Sprintf("the geometry gives no finite number for %s, but %g", e.What, e.Value)
}

// Hint says what to change.
func (e *NotFiniteError) Hint() string {
	return "some of its values are far from any station's: begin with those at the ends of their ranges"
}

// finite returns a *NotFiniteError for the first requirement, or else the first
// number of the result, that is not finite. Nothing of a result reaches a report, a
// sheet or a comparison but through here.
func finite(r *Result) error {
	if err := finiteRows(r.Requirements); err != nil {
		return err
	}
	return walk(reflect.ValueOf(r).Elem(), "")
}

func finiteRows(list []Requirement) error {
	for _, q := range list {
		if x := q.Value + q.Margin + q.Limit; math.IsNaN(x) || math.IsInf(x, 0) {
			return &NotFiniteError{q.ID, q.Value}
		}
	}
	return nil
}

// walk looks at every exported number below a value.
func walk(v reflect.Value, path string) error {
	switch v.Kind() {
	case reflect.Float64:
		if x := v.Float(); math.IsNaN(x) || math.IsInf(x, 0) {
			return &NotFiniteError{path, x}
		}
	case reflect.Pointer, reflect.Interface:
		if !v.IsNil() {
			return walk(v.Elem(), path)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			f := v.Type().Field(i)
			if !f.IsExported() {
				continue
			}
			if err := walk(v.Field(i), path+"."+f.Name); err != nil {
				return err
			}
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			if err := walk(v.Index(i), path); err != nil {
				return err
			}
		}
	}
	return nil
}
