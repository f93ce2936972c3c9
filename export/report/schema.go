package report

import (
	"bytes"
	"reflect"
	"strings"
)

// SchemaJSON returns the JSON Schema (draft 2020-12) of a report, made from
// the tags of Report. The checked-in schema/report-1.json is its output.
func SchemaJSON() []byte {
	top := schemaOf(reflect.TypeFor[Report]())
	top["$schema"] = "https://json-schema.org/draft/2020-12/schema"
	top["title"] = "armwright report"
	var b bytes.Buffer
	if err := Encode(&b, top); err != nil {
		panic(err) // maps of strings and lists always encode
	}
	return b.Bytes()
}

// node is one object of a schema; encoding/json writes its keys in order.
type node map[string]any

func schemaOf(t reflect.Type) node {
	switch t.Kind() {
	case reflect.Pointer:
		n := schemaOf(t.Elem())
		n["type"] = []any{n["type"], "null"}
		return n
	case reflect.Struct:
		properties, required := node{}, []string{}
		for _, f := range reflect.VisibleFields(t) {
			key := f.Tag.Get("json")
			if key == "" || key == "-" { // an embedded struct, whose fields follow, or no key of the file
				continue
			}
			n := schemaOf(f.Type)
			if doc := f.Tag.Get("doc"); doc != "" {
				n["description"] = doc
			}
			if words, ok := f.Tag.Lookup("enum"); ok {
				n["enum"] = allowed(words, f.Type.Kind() == reflect.Pointer)
			}
			properties[key] = n
			required = append(required, key)
		}
		return node{"type": "object", "properties": properties, "required": required}
	case reflect.Slice:
		return node{"type": "array", "items": schemaOf(t.Elem())}
	case reflect.Array:
		return node{"type": "array", "items": schemaOf(t.Elem()), "minItems": t.Len(), "maxItems": t.Len()}
	case reflect.Float64:
		return node{"type": "number"}
	case reflect.Int:
		return node{"type": "integer"}
	case reflect.Bool:
		return node{"type": "boolean"}
	case reflect.String:
		return node{"type": "string"}
	}
	panic("report: no schema for " + t.String())
}

func allowed(words string, null bool) []any {
	var list []any
	for _, w := range strings.Split(words, "|") {
		list = append(list, w)
	}
	if null {
		list = append(list, nil)
	}
	return list
}
