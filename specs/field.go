package specs

import (
	"fmt"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"

	"armwright/specs/wording"
)

// field is what the tags of one struct field say; see Brief for the tags.
type field struct {
	key         string
	index       []int // place in the struct, through embedded ones
	typ         reflect.Type
	kind        Kind
	choice      []string
	def         string
	hasDef      bool
	us          string // default of the region us; empty for the same
	min, max    string
	least, most int // characters or items; most 0 is no bound
	names       string
	form        string
	optional    bool
	doc         string
}

var rangeType = reflect.TypeFor[Range]()

// fieldsOf are the tagged fields of a struct type in order, with those of
// embedded structs in their place; the caller's to change.
func fieldsOf(t reflect.Type) []field {
	if fs, ok := tagged()[t]; ok {
		return slices.Clone(fs)
	}
	return parseFields(t)
}

// tagged holds the fields of every struct in briefs and frames, read once, when
// first asked for.
var tagged = sync.OnceValue(func() map[reflect.Type][]field {
	all := map[reflect.Type][]field{}
	var add func(t reflect.Type)
	add = func(t reflect.Type) {
		for t.Kind() == reflect.Pointer || t.Kind() == reflect.Slice {
			t = t.Elem()
		}
		if _, ok := all[t]; ok || t.Kind() != reflect.Struct {
			return
		}
		all[t] = parseFields(t)
		for _, f := range all[t] {
			add(f.typ)
		}
	}
	add(reflect.TypeFor[Brief]())
	add(reflect.TypeFor[Frame]())
	return all
})

// parseFields reads the tags of a struct type. A malformed tag panics.
func parseFields(t reflect.Type) []field {
	var fs []field
	for _, sf := range reflect.VisibleFields(t) {
		key, ok := sf.Tag.Lookup("key")
		if !ok {
			continue
		}
		f := field{
			key: key, index: sf.Index, typ: sf.Type,
			kind: Kind(sf.Tag.Get("unit")),
			min:  sf.Tag.Get("min"), max: sf.Tag.Get("max"),
			names: sf.Tag.Get("names"), form: sf.Tag.Get("form"),
			optional: sf.Tag.Get("optional") == "yes",
			doc:      sf.Tag.Get("doc"),
		}
		f.def, f.hasDef = sf.Tag.Lookup("default")
		f.us = sf.Tag.Get("us")
		if words := sf.Tag.Get("choice"); words != "" {
			f.choice = strings.Split(words, "|")
		}
		if count := sf.Tag.Get("count"); count != "" {
			if _, err := fmt.Sscanf(count, "%d..%d", &f.least, &f.most); err != nil {
				panic("specs: count of " + sf.Name + ": " + err.Error())
			}
		}
		fs = append(fs, f)
	}
	return fs
}

// defaultIn is the text of the default in a region.
func (f field) defaultIn(region string) string {
	if region == regionUS && f.us != "" {
		return f.us
	}
	return f.def
}

func (f field) isRange() bool { return f.typ == rangeType }
func (f field) isList() bool  { return f.typ.Kind() == reflect.Slice }

// section returns the struct type of a field that holds further keys.
func (f field) section() (reflect.Type, bool) {
	t := f.typ
	if t.Kind() == reflect.Pointer {
		t = t.Elem()
	}
	return t, t.Kind() == reflect.Struct && t != rangeType
}

// item is the field of a list's items.
func (f field) item() field {
	f.typ, f.least, f.most = f.typ.Elem(), 0, 0
	return f
}

// ends are the fields of a range, with the tags of the range itself.
func (f field) ends() []field {
	ends := fieldsOf(rangeType)
	for i := range ends {
		ends[i].kind, ends[i].min, ends[i].max = f.kind, f.min, f.max
	}
	return ends
}

// keysOf lists the keys of fields.
func keysOf(fields []field) []string {
	keys := make([]string, len(fields))
	for i, f := range fields {
		keys[i] = f.key
	}
	return keys
}

// required lists the keys below a section type that have no default.
func required(t reflect.Type, prefix string) []string {
	var keys []string
	for _, f := range fieldsOf(t) {
		if s, ok := f.section(); ok {
			if !f.optional {
				keys = append(keys, required(s, prefix+f.key+".")...)
			}
		} else if !f.hasDef {
			keys = append(keys, prefix+f.key)
		}
	}
	return keys
}

// read sets v, of the field's scalar type, from the text of a scalar.
func (f field) read(text string, v reflect.Value) error {
	switch {
	case f.isRange():
		r, err := f.readRange(text)
		if err != nil {
			return err
		}
		v.Set(reflect.ValueOf(r))
	case v.Kind() == reflect.Float64:
		x, err := ParseQuantity(text, f.kind)
		if err != nil {
			return err
		}
		v.SetFloat(x)
	case v.Kind() == reflect.Int:
		i, err := strconv.ParseInt(text, 10, 32)
		if err != nil {
			return &fault{message: wording.Quote(text) + " is not a whole number"}
		}
		v.SetInt(i)
	case v.Kind() == reflect.String:
		for _, r := range text {
			if !unicode.IsPrint(r) {
				return &fault{fmt.Sprintf("%s holds a character that does not print, U+%04X", wording.Quote(text), r), "write the text on one line"}
			}
		}
		if !utf8.ValidString(text) {
			return &fault{message: wording.Quote(text) + " is not UTF-8"}
		}
		v.SetString(text)
	default:
		panic("specs: no scalar of type " + v.Type().String())
	}
	return nil
}

// readRange reads "20 deg..60 deg".
func (f field) readRange(text string) (Range, error) {
	from, to, ok := strings.Cut(text, "..")
	if !ok || strings.HasPrefix(to, ".") {
		example := f.def
		if example == "" {
			example = f.min + ".." + f.max
		}
		return Range{}, &fault{wording.Quote(text) + " is not a range", "write " + example}
	}
	var r Range
	var err error
	if r.From, err = ParseQuantity(from, f.kind); err != nil {
		return Range{}, err
	}
	if r.To, err = ParseQuantity(to, f.kind); err != nil {
		return Range{}, err
	}
	return r, nil
}

// write is the text of a scalar as it stands in a file, the inverse of read.
func (f field) write(v reflect.Value) string {
	switch {
	case f.isRange():
		r := v.Interface().(Range)
		return f.kind.format(r.From) + ".." + f.kind.format(r.To)
	case v.Kind() == reflect.Float64:
		return f.kind.format(v.Float())
	case v.Kind() == reflect.Int:
		return strconv.FormatInt(v.Int(), 10)
	}
	return v.String()
}

// bound is a min or max tag in inside units.
func (f field) bound(text string) float64 {
	x, err := ParseQuantity(text, f.kind)
	if err != nil {
		panic("specs: bound of " + f.key + ": " + err.Error())
	}
	return x
}

// join appends a key to a path.
func join(path, key string) string {
	if path == "" {
		return key
	}
	return path + "." + key
}

// child is the path of an item of a list.
func child(path string, i int) string { return fmt.Sprintf("%s[%d]", path, i) }
