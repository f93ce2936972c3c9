package specs

import (
	"reflect"
	"strings"
)

// LimitIndex returns the place among Limits, for At, of the limit of the requirement with
// the given id, "axis-offset": to look it up once where it is read often. The id is the
// key of the limit with hyphens for underscores; ok is false for an id without a limit
// here, such as those that Space and Posture limit.
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
