package specs

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io/fs"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"armwright/specs/stock"
	"armwright/specs/wording"

	"github.com/goccy/go-yaml"
)

func TestSchemaGolden(t *testing.T) {
	for _, kind := range []string{"brief", "frame"} {
		got, err := Schema(kind)
		if err != nil {
			t.Fatal(err)
		}
		golden(t, kind+".schema.json", got)
	}
	if _, err := Schema("sketch"); err == nil {
		t.Error("a schema of a sketch came back")
	}
}

// What the reader takes, the schema takes: examples, starters and a frame.
func TestSchemaTakes(t *testing.T) {
	files := map[string][]byte{"starter": Starter("arm-pad"), "least": []byte(least)}
	names, _ := fs.Glob(Examples, "examples/*.yaml")
	for _, name := range names {
		files[name], _ = Examples.ReadFile(name)
	}
	for name, data := range files {
		if err := validates("brief", data); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
	if err := validates("frame", frameText(t)); err != nil {
		t.Error(err)
	}
}

// What the schema is there to catch, it catches.
func TestSchemaRefuses(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{strings.Replace(least, "name: Station\n", "", 1), "/: no name"},
		{least + "colour: red\n", "/: colour is not a key"},
		{strings.Replace(least, "arm-pad", "arm-pat", 1), "/kind: arm-pat is not in the list"},
		{least + "people: {shoe: 25}\n", "/people/shoe: not a string"},
		{least + "people: {shoe: 25 kg}\n", "/people/shoe: 25 kg does not match"},
		{least + "people: {sample: 99}\n", "/people/sample: 99 is below 100"},
		{least + "people: {sample: 1000.5}\n", "/people/sample: not a integer"},
		{least + "posture: {lean: 20 deg}\n", "/posture/lean: no alternative fits"},
		{least + "posture: {lean: {from: 20 deg}}\n", "/posture/lean: no alternative fits"},
		{least + "drawing: {date: tomorrow}\n", "/drawing/date: tomorrow does not match"},
		{least + "drawing: {number: A-12345678901234567}\n", "/drawing/number: 19 characters"},
	} {
		if err := validates("brief", []byte(c.text)); err == nil || err.Error() != c.want {
			t.Errorf("%s\ngot  %v\nwant %s", c.text, err, c.want)
		}
	}
}

// Every pattern takes exactly what the reader takes, for every unit.
func TestSchemaPatterns(t *testing.T) {
	numbers := []string{"0", "25", "-3.5", "+1", "1e2", "1.5E-3", "1/2", "1 1/2", "-1 1/2", "1.", ".5", "1,5", "", "x", "1 / 2", "--1"}
	for _, kind := range append(kindsWithUnit, Number) {
		pattern := regexp.MustCompile("^" + field{kind: kind}.quantityPattern() + "$")
		for _, of := range kindsWithUnit {
			for _, n := range numbers {
				for _, u := range append(of.symbols(), "") {
					for _, text := range []string{n + " " + u, n + u} {
						_, err := ParseQuantity(text, kind)
						if pattern.MatchString(text) != (err == nil) {
							t.Errorf("%s: pattern %v, reader %v", wording.Quote(text), pattern.MatchString(text), err)
						}
					}
				}
			}
		}
	}
}

// validates checks a YAML file against a schema of ours, with the part of
// JSON Schema that Schema uses.
func validates(kind string, file []byte) error {
	raw, err := Schema(kind)
	if err != nil {
		return err
	}
	var s map[string]any
	if err := json.Unmarshal(raw, &s); err != nil {
		return err
	}
	text, err := yaml.YAMLToJSON(file)
	if err != nil {
		return err
	}
	var v any
	d := json.NewDecoder(bytes.NewReader(text))
	if err := d.Decode(&v); err != nil {
		return err
	}
	return conforms(v, s, "/")
}

func conforms(v any, s map[string]any, path string) error {
	fail := func(format string, args ...any) error {
		return fmt.Errorf("%s: "+format, append([]any{path}, args...)...)
	}
	for key, want := range s {
		switch key {
		case "$schema", "title", "description", "default", "properties", "additionalProperties":
		case "type":
			x, isNumber := v.(float64)
			got := map[string]bool{"object": is[map[string]any](v), "array": is[[]any](v), "string": is[string](v),
				"number": isNumber, "integer": isNumber && x == float64(int(x))}
			if known, ok := got[want.(string)]; !ok || !known {
				return fail("not a %s", want)
			}
		case "enum":
			if !slices.Contains(want.([]any), v) {
				return fail("%v is not in the list", v)
			}
		case "pattern":
			if text, ok := v.(string); ok && !regexp.MustCompile(want.(string)).MatchString(text) {
				return fail("%s does not match", text)
			}
		case "minimum":
			if x, ok := v.(float64); ok && x < want.(float64) {
				return fail("%v is below %v", x, want)
			}
		case "maximum":
			if x, ok := v.(float64); ok && x > want.(float64) {
				return fail("%v is above %v", x, want)
			}
		case "minLength", "maxLength":
			if text, ok := v.(string); ok {
				if n := float64(utf8.RuneCountInString(text)); key == "minLength" && n < want.(float64) || key == "maxLength" && n > want.(float64) {
					return fail("%v characters", n)
				}
			}
		case "minItems", "maxItems":
			if n := float64(len(v.([]any))); key == "minItems" && n < want.(float64) || key == "maxItems" && n > want.(float64) {
				return fail("%v items", n)
			}
		case "items":
			for i, item := range v.([]any) {
				if err := conforms(item, want.(map[string]any), fmt.Sprintf("%s/%d", path, i)); err != nil {
					return err
				}
			}
		case "required":
			for _, name := range want.([]any) {
				if m, ok := v.(map[string]any); ok && m[name.(string)] == nil {
					return fail("no %s", name)
				}
			}
		case "anyOf":
			if !slices.ContainsFunc(want.([]any), func(one any) bool { return conforms(v, one.(map[string]any), path) == nil }) {
				return fail("no alternative fits")
			}
		default:
			return fail("the schema word %s is unknown to this check", key)
		}
	}
	properties, _ := s["properties"].(map[string]any)
	m, _ := v.(map[string]any)
	if s["additionalProperties"] != false {
		m = nil // an alternative, whose own schema checks the keys
	}
	for name, value := range m {
		of, ok := properties[name].(map[string]any)
		if !ok {
			return fail("%s is not a key", name)
		}
		if err := conforms(value, of, strings.TrimSuffix(path, "/")+"/"+name); err != nil {
			return err
		}
	}
	return nil
}

func is[T any](v any) bool { _, ok := v.(T); return ok }

// Every tag is sound: known unit, default and bounds that read and agree, a
// sentence for the user, and bounds on every number.
func TestTags(t *testing.T) {
	for _, top := range []reflect.Type{reflect.TypeFor[Brief](), reflect.TypeFor[Frame]()} {
		checkTags(t, top, "")
	}
	var p People
	fields := fieldsOf(reflect.TypeOf(p))
	low := fields[slices.IndexFunc(fields, func(f field) bool { return f.key == "low" })]
	high := fields[slices.IndexFunc(fields, func(f field) bool { return f.key == "high" })]
	if low.bound(low.max) >= high.bound(high.min) {
		t.Error("people.low may reach people.high: a rule between the two is due")
	}
	var s Stock
	for _, f := range fieldsOf(reflect.TypeOf(s)) {
		if f.key == "steel" && !slices.Equal(f.choice, stock.SteelNames()) {
			t.Errorf("steels %v are offered, %v are described", f.choice, stock.SteelNames())
		}
	}
}

func checkTags(t *testing.T, top reflect.Type, path string) {
	keys := map[string]bool{}
	for _, f := range fieldsOf(top) {
		p := join(path, f.key)
		if keys[f.key] {
			t.Errorf("%s: key used twice", p)
		}
		keys[f.key] = true
		if f.doc == "" {
			t.Errorf("%s: no doc", p)
		}
		if s, ok := f.section(); ok {
			if f.typ.Kind() == reflect.Pointer && !f.optional {
				t.Errorf("%s: a pointer that is not optional", p)
			}
			checkTags(t, s, p)
			continue
		}
		leaf := f
		if f.isList() {
			if f.most == 0 {
				t.Errorf("%s: a list without a count", p)
			}
			leaf = f.item()
			if s, ok := leaf.section(); ok {
				checkTags(t, s, p)
				continue
			}
		}
		switch leaf.typ.Kind() {
		case reflect.String:
			if len(f.choice) == 0 && f.names == "" && f.most == 0 && f.form == "" {
				t.Errorf("%s: a text without bounds", p)
			}
		default:
			if f.min == "" || f.max == "" {
				t.Errorf("%s: a number without bounds", p)
			} else if f.bound(f.min) >= f.bound(f.max) {
				t.Errorf("%s: min %s is not below max %s", p, f.min, f.max)
			}
		}
		if f.hasDef {
			v := reflect.New(f.typ).Elem()
			if err := f.read(f.def, v); err != nil {
				t.Errorf("%s: default: %v", p, err)
				continue
			}
			c := &checker{names: KnownNames(), report: func(path string, f *fault) { t.Errorf("default: %s", f.message) }}
			c.value(f, v, p)
		}
	}
}
