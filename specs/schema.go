package specs

import (
	"bytes"
	"encoding/json"
	"fmt"
	"reflect"
	"regexp"
	"strings"

	"armwright/specs/wording"
)

// Schema returns the JSON Schema (draft 2020-12) of a "brief" or a "frame",
// for editors that complete and check as one types. It is made from the same
// tags as the reader and has the same keys, words, units and counts; the range
// of a quantity is in its description only, and how values relate is left to
// the reader. Another kind of file is an error.
func Schema(kind string) ([]byte, error) {
	var t reflect.Type
	switch kind {
	case "brief":
		t = reflect.TypeFor[Brief]()
	case "frame":
		t = reflect.TypeFor[Frame]()
	default:
		return nil, fmt.Errorf("no schema of %s: there is one of a brief and one of a frame", wording.Quote(kind))
	}
	top := sectionSchema(t)
	top["$schema"] = "https://json-schema.org/draft/2020-12/schema"
	top["title"] = "armwright " + kind
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	if err := enc.Encode(top); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}

// schema is one JSON object; encoding/json writes its keys in order.
type schema map[string]any

func sectionSchema(t reflect.Type) schema {
	properties, need := schema{}, []string{}
	for _, f := range fieldsOf(t) {
		properties[f.key] = f.schema()
		if section, ok := f.section(); ok {
			if !f.optional && len(required(section, "")) > 0 {
				need = append(need, f.key)
			}
		} else if !f.hasDef {
			need = append(need, f.key)
		}
	}
	s := schema{"type": "object", "properties": properties, "additionalProperties": false}
	if len(need) > 0 {
		s["required"] = need
	}
	return s
}

func (f field) schema() schema {
	if section, ok := f.section(); ok {
		s := sectionSchema(section)
		f.describe(s)
		return s
	}
	s := f.valueSchema()
	f.describe(s)
	return s
}

// describe adds doc and default.
func (f field) describe(s schema) {
	if f.doc != "" {
		s["description"] = f.doc
		if f.min != "" {
			s["description"] = fmt.Sprintf("%s (%s to %s)", f.doc, f.min, f.max)
		}
	}
	if f.us != "" {
		s["description"] = fmt.Sprintf("%s; in region us by default %s", s["description"], f.us)
	}
	if !f.hasDef {
		return
	}
	v := reflect.New(f.typ).Elem()
	switch _ = f.read(f.def, v); {
	case f.typ.Kind() == reflect.Int, f.typ.Kind() == reflect.Float64 && f.kind == Number:
		s["default"] = v.Interface()
	default:
		s["default"] = f.def
	}
}

// valueSchema is the schema of a list or scalar.
func (f field) valueSchema() schema {
	switch {
	case f.isList():
		item := f.item()
		item.doc = ""
		return schema{"type": "array", "items": item.schema(), "minItems": f.least, "maxItems": f.most}
	case f.isRange():
		from := f.ends()[0]
		end := from.valueSchema()
		return schema{"anyOf": []schema{
			{"type": "string", "pattern": "^" + f.quantityPattern() + `\.\. *` + f.quantityPattern() + "$"},
			{"type": "object", "properties": schema{"from": end, "to": end}, "required": []string{"from", "to"}, "additionalProperties": false},
		}}
	case f.typ.Kind() == reflect.Int:
		return f.numberSchema("integer")
	case f.typ.Kind() == reflect.Float64 && f.kind == Number:
		return f.numberSchema("number")
	case f.typ.Kind() == reflect.Float64:
		return schema{"type": "string", "pattern": "^" + f.quantityPattern() + "$"}
	}
	return f.textSchema()
}

func (f field) numberSchema(kind string) schema {
	s := schema{"type": kind}
	if f.min != "" {
		s["minimum"], s["maximum"] = f.bound(f.min), f.bound(f.max)
	}
	return s
}

func (f field) textSchema() schema {
	s := schema{"type": "string"}
	words := f.choice
	if f.names != "" {
		words = KnownNames().list(f.names)
	}
	if f.names == "curves" {
		return schema{"anyOf": []schema{{"type": "string", "enum": words}, {"type": "string", "pattern": `\.[cC][sS][vV]$`}}}
	}
	if f.names == "populations" {
		return schema{"anyOf": []schema{{"type": "string", "enum": words}, {"type": "string", "pattern": `\.([cC][sS][vV]|[yY][aA]?[mM][lL])$`}}}
	}
	if len(words) > 0 {
		s["enum"] = words
	}
	if f.most > 0 {
		s["minLength"], s["maxLength"] = f.least, f.most
	}
	if f.form == "date" {
		s["pattern"] = "^([0-9]{4}-[0-9]{2}-[0-9]{2})?$"
	}
	return s
}

// quantityPattern matches what ParseQuantity reads, up to the size of the
// number.
func (f field) quantityPattern() string {
	if f.kind == Number {
		return " *" + numberPattern + " *"
	}
	symbols := f.kind.symbols()
	for i, s := range symbols {
		symbols[i] = regexp.QuoteMeta(s)
	}
	return " *" + numberPattern + " *(?:" + strings.Join(symbols, "|") + ") *"
}
