package report

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"slices"
	"testing"

	"armwright/export/stationtest"
)

const checkedIn = "schema/report-1.json"

func TestSchemaIsCheckedIn(t *testing.T) {
	got := SchemaJSON()
	if *update {
		if err := os.WriteFile(checkedIn, got, 0o666); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(checkedIn)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got, want) {
		t.Errorf("%s is out of date: run go test ./export/report -update", checkedIn)
	}
}

// Reports of every kind follow the schema, and the schema leaves no key out.
func TestReportsFollowTheSchema(t *testing.T) {
	data, err := os.ReadFile(checkedIn)
	if err != nil {
		t.Fatal(err)
	}
	var schema map[string]any
	if err := json.Unmarshal(data, &schema); err != nil {
		t.Fatal(err)
	}
	for _, kind := range kinds {
		var b bytes.Buffer
		if err := JSON(&b, New(stationtest.Result(t, kind), "p", []File{{Path: "a", SHA256: "b", Bytes: 1}})); err != nil {
			t.Fatal(err)
		}
		var doc any
		if err := json.Unmarshal(b.Bytes(), &doc); err != nil {
			t.Fatal(err)
		}
		for _, fault := range violations(schema, doc, "report") {
			t.Errorf("%s: %s", kind, fault)
		}
	}
}

// The keys of DESIGN.md 10, by path, which readers count on.
func TestContractKeys(t *testing.T) {
	paths := []string{
		"schema", "verdict", "notice",
		"pivots.left.x", "pivots.left.y", "pivots.left.z", "pivots.left.toe", "pivots.left.cant", "pivots.left.axis",
		"pivots.right.x", "pivots.right.y", "pivots.right.z", "pivots.right.toe", "pivots.right.cant", "pivots.right.axis",
		"pad.slope", "pad.offset", "pad.edge_height", "seat.positions", "seat.pitch",
		"resistance.drive", "resistance.load_mass", "resistance.angles", "resistance.strength", "resistance.target",
		"resistance.delivered", "resistance.rms", "resistance.max_error", "resistance.worst_angle", "resistance.hardest_angle",
		"resistance.cam.ratio", "resistance.cam.centre.x", "resistance.cam.centre.y",
		"resistance.cam.guide.x", "resistance.cam.guide.y", "resistance.cam.guide.radius", "resistance.cam.guide.side",
		"resistance.cam.cable_diameter", "resistance.cam.cable_tension", "resistance.cam.moment_arm",
		"resistance.cam.least_radius", "resistance.cam.required_radius", "resistance.gravity",
		"footprint.length", "footprint.width", "footprint.feet", "stability.least_tilt", "stability.cases",
		"people.coverage", "people.low", "people.high", "people.turned_away",
		"elbow.least_hand_path", "elbow.worst_hand_path", "elbow.common_axis_hand_path",
		"requirements", "conflict", "parts", "files",
	}
	for _, kind := range kinds {
		var b bytes.Buffer
		if err := JSON(&b, New(stationtest.Result(t, kind), "p", nil)); err != nil {
			t.Fatal(err)
		}
		var doc map[string]any
		if err := json.Unmarshal(b.Bytes(), &doc); err != nil {
			t.Fatal(err)
		}
		for _, path := range paths {
			at := any(doc)
			for key := range bytes.SplitSeq([]byte(path), []byte(".")) {
				object, ok := at.(map[string]any)
				if !ok {
					t.Errorf("%s: %s: nothing to look %q up in", kind, path, key)
					break
				}
				if at, ok = object[string(key)]; !ok {
					t.Errorf("%s: %s is missing", kind, path)
				}
			}
		}
	}
}

func TestValidatorFindsFaults(t *testing.T) {
	schema := map[string]any{
		"type": "object", "required": []any{"a"},
		"properties": map[string]any{
			"a": map[string]any{"type": "array", "maxItems": 1.0, "items": map[string]any{"type": "integer"}},
			"b": map[string]any{"type": []any{"string", "null"}, "enum": []any{"x", nil}},
		},
	}
	for doc, want := range map[string]int{
		`{"a": [1], "b": "x"}`:   0,
		`{"a": [], "b": null}`:   0,
		`{"b": "x"}`:             1, // a missing
		`{"a": [1.5]}`:           1, // no integer
		`{"a": [1, 2]}`:          1, // too long
		`{"a": [1], "c": 1}`:     1, // unknown key
		`{"a": [1], "b": "y"}`:   1, // not in the enum
		`{"a": [true], "b": 12}`: 3, // wrong type, wrong type and not in the enum
		`[]`:                     1,
	} {
		var v any
		if err := json.Unmarshal([]byte(doc), &v); err != nil {
			t.Fatal(err)
		}
		if got := violations(schema, v, ""); len(got) != want {
			t.Errorf("%s: %d faults, want %d: %v", doc, len(got), want, got)
		}
	}
}

// violations lists where a document departs from the part of JSON Schema that
// our schemas use. Unlike the standard it takes a key without a schema for a
// fault, so that the schema stays complete.
func violations(schema map[string]any, v any, at string) (faults []string) {
	fault := func(format string, args ...any) {
		faults = append(faults, at+": "+fmt.Sprintf(format, args...))
	}
	types, ok := schema["type"].([]any)
	if !ok {
		types = []any{schema["type"]}
	}
	if !slices.ContainsFunc(types, func(t any) bool { return hasType(v, t.(string)) }) {
		fault("%T is none of %v", v, types)
	}
	if words, ok := schema["enum"].([]any); ok && !slices.Contains(words, v) {
		fault("%v is none of %v", v, words)
	}
	switch v := v.(type) {
	case map[string]any:
		properties, _ := schema["properties"].(map[string]any)
		required, _ := schema["required"].([]any)
		for _, key := range required {
			if _, ok := v[key.(string)]; !ok {
				fault("%s is missing", key)
			}
		}
		for key, item := range v {
			if sub, ok := properties[key].(map[string]any); ok {
				faults = append(faults, violations(sub, item, at+"."+key)...)
			} else {
				fault("the schema does not know %s", key)
			}
		}
	case []any:
		if most, ok := schema["maxItems"].(float64); ok && float64(len(v)) > most {
			fault("%d items", len(v))
		}
		if least, ok := schema["minItems"].(float64); ok && float64(len(v)) < least {
			fault("%d items", len(v))
		}
		items, _ := schema["items"].(map[string]any)
		for i, item := range v {
			faults = append(faults, violations(items, item, fmt.Sprintf("%s[%d]", at, i))...)
		}
	}
	return faults
}

func hasType(v any, name string) bool {
	switch v := v.(type) {
	case nil:
		return name == "null"
	case bool:
		return name == "boolean"
	case string:
		return name == "string"
	case float64:
		return name == "number" || name == "integer" && v == math.Trunc(v)
	case []any:
		return name == "array"
	case map[string]any:
		return name == "object"
	}
	return false
}
