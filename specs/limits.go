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
	if strings.Contains(id, "_") {
		return 0, "", false
	}
	key := strings.ReplaceAll(id, "-", "_")
	t := reflect.TypeFor[Limits]()
	for i := range t.NumField() {
		if tag := t.Field(i).Tag; tag.Get("key") == key {
			return reflect.ValueOf(l).Field(i).Float(), tag.Get("unit"), true
		}
	}
	return 0, "", false
}
