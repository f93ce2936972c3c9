package specs

import (
	"fmt"
	"reflect"
	"slices"
	"strconv"
	"strings"
)

// Place is one value of a brief or a frame: a scalar, or one end of a range.
type Place struct {
	path  string
	field field
	at    reflect.Value // in the file it was found in
	piece piece
}

// piece is what a file writes in one go: a scalar, a range with both its ends,
// an item of a list with all its keys.
type piece struct {
	path  string
	field field
	at    reflect.Value
}

// Path is the value's path from the top, "limits.hand_path",
// "posture.lean.to", "geometry.pivots.axes[0].toe".
func (p *Place) Path() string { return p.path }

// Kind is the kind of a numeric value.
func (p *Place) Kind() Kind { return p.field.kind }

// Numeric says whether the value is one number.
func (p *Place) Numeric() bool { return p.Whole() || p.at.Kind() == reflect.Float64 }

// Whole says whether the value is a count.
func (p *Place) Whole() bool { return p.at.Kind() == reflect.Int }

// Format is a number as it stands in a file, with its unit, rounded to a whole
// one for a count. The value must be numeric.
func (p *Place) Format(x float64) string {
	if p.Whole() {
		return strconv.FormatFloat(x, 'f', 0, 64)
	}
	return p.field.kind.format(x)
}

// Check says whether a text could stand at the place: unit, range, words and
// names, as the reader would. The error is a *Problems.
func (p *Place) Check(text string) error {
	_, err := p.parse(text)
	return err
}

// Number is the number, in inside units, of a text that passes Check. The value
// must be numeric.
func (p *Place) Number(text string) (float64, error) {
	v, err := p.parse(text)
	switch {
	case err != nil:
		return 0, err
	case p.Whole():
		return float64(v.Int()), nil
	}
	return v.Float(), nil
}

// parse reads and checks a text without setting anything.
func (p *Place) parse(text string) (reflect.Value, error) {
	v := reflect.New(p.at.Type()).Elem()
	if err := p.field.read(strings.TrimSpace(text), v); err != nil {
		return v, asError([]Problem{explain(err, p.field, p.path).at(p.path)})
	}
	var list []Problem
	c := &checker{names: KnownNames(), report: func(path string, f *fault) { list = append(list, f.at(path)) }}
	c.value(p.field, v, p.path)
	return v, asError(list)
}

// find returns the value at a path below a tagged struct, which must be
// addressable for the value to be set. The error is a *Problems.
func find(v reflect.Value, path string) (*Place, error) {
	fields := fieldsOf(v.Type())
	fail := func(message, hint string) (*Place, error) {
		return nil, asError([]Problem{(&fault{message, hint}).at(path)})
	}
	keys := strings.Split(path, ".")
	around := ""
	var item *piece // of a list, on the way
	place := func(f field, at reflect.Value, p piece) (*Place, error) {
		if item != nil {
			p = *item
		}
		return &Place{path: path, field: f, at: at, piece: p}, nil
	}
	for i, key := range keys {
		key, index, isItem := strings.Cut(key, "[")
		known := keysOf(fields)
		j := slices.Index(known, key)
		if j < 0 {
			f, _ := unknownKey(key, around, known)
			return fail(f.message, f.hint)
		}
		f := fields[j]
		v = v.FieldByIndex(f.index)
		around = join(around, key)
		if isItem != f.isList() {
			if isItem {
				return fail(around+": holds no list", "leave out the brackets")
			}
			return fail(around+": holds a list", "name an item, "+child(around, 0)+" the first")
		}
		if isItem {
			n, err := strconv.Atoi(strings.TrimSuffix(index, "]"))
			if err != nil || !strings.HasSuffix(index, "]") || n < 0 || n >= v.Len() {
				return fail(fmt.Sprintf("%s: no item [%s", around, index), fmt.Sprintf("items are [0] to [%d]", v.Len()-1))
			}
			v, f, around = v.Index(n), f.item(), child(around, n)
			item = &piece{around, f, v}
		}
		section, isSection := f.section()
		last := i == len(keys)-1
		if v.Kind() == reflect.Pointer {
			if v.IsNil() {
				return fail(around+": there is none here", "")
			}
			v = v.Elem()
		}
		switch {
		case isSection && last:
			return fail(path+": holds keys, not a value", "keys here: "+strings.Join(keysOf(fieldsOf(section)), ", "))
		case isSection:
			fields = fieldsOf(section)
		case last:
			return place(f, v, piece{path, f, v})
		case f.isRange() && i == len(keys)-2:
			ends := f.ends()
			j := slices.Index(keysOf(ends), keys[i+1])
			if j < 0 {
				e, _ := unknownKey(keys[i+1], around, keysOf(ends))
				return fail(e.message, e.hint)
			}
			return place(ends[j], v.FieldByIndex(ends[j].index), piece{around, f, v})
		default:
			return fail(around+": holds a value, not keys", "")
		}
	}
	panic("specs: a path without keys")
}
