package specs

import (
	"reflect"
	"strings"
)

// Of returns the limit of the requirement with the given id, "axis-offset",
// in inside units, and the kind of its unit ("length", "angle", "percent", or
// empty for a plain number). The id of a requirement is the key of its limit
// with hyphens for underscores; ok is false for an id without a limit here,
// such as those that Space and Posture limit.
func (l Limits) Of(id string) (value float64, unit string, ok bool) {
	i, ok := LimitIndex(id)
	if !ok {
		return 0, "", false
	}
	return l.At(i), reflect.TypeFor[Limits]().Field(i).Tag.Get("unit"), true
}

// LimitIndex returns the place of a requirement's limit among Limits, for At: to
// look it up once where it is read often.
func LimitIndex(id string) (index int, ok bool) {
	if strings.Contains(id, "_") {
		return 0, false
	}
	key := strings.ReplaceAll(id, "-", "_")
	t := reflect.TypeFor[Limits]()
	for i := range t.NumField() {
		if t.Field(i).Tag.Get("key") == key {
			return i, true
		}
	}
	return 0, false
}

// At returns the limit at an index of LimitIndex.
func (l *Limits) At(index int) float64 { return reflect.ValueOf(l).Elem().Field(index).Float() }
