package specs

import (
	"reflect"
	"slices"
	"strings"
)

// Set changes one value of a brief by its path, "limits.hand_path" or
// "posture.lean.to", reading the text as it would stand in the file. It is how
// a study varies a brief. A path or text that cannot be used is a *Problems
// and leaves the brief as it was; whether the brief still holds together is
// for Validate to say.
func (b *Brief) Set(path, text string) error {
	v, fields := reflect.ValueOf(b).Elem(), fieldsOf(reflect.TypeFor[Brief]())
	fail := func(f *fault) error {
		return asError([]Problem{{Path: path, Message: f.message, Hint: f.hint}})
	}
	keys := strings.Split(path, ".")
	for i, key := range keys {
		around := strings.Join(keys[:i], ".")
		known := keysOf(fields)
		j := slices.Index(known, key)
		if j < 0 {
			f, _ := unknownKey(key, around, known)
			return fail(f)
		}
		f := fields[j]
		v = v.FieldByIndex(f.index)
		section, isSection := f.section()
		last := i == len(keys)-1
		switch {
		case isSection && last:
			return fail(&fault{path + ": holds keys, not a value", "keys here: " + strings.Join(keysOf(fieldsOf(section)), ", ")})
		case isSection:
			fields = fieldsOf(section)
		case f.isRange() && !last:
			fields = f.ends()
		case !last:
			return fail(&fault{join(around, key) + ": holds a value, not keys", ""})
		default:
			set := reflect.New(f.typ).Elem()
			if err := f.read(strings.TrimSpace(text), set); err != nil {
				return fail(explain(err, f, path))
			}
			v.Set(set)
		}
	}
	return nil
}
