package page

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"maps"
	"path"
	"reflect"
	"slices"
	"strings"

	"armwright/specs"
)

// text is a brief as its file.
func text(b specs.Brief) (string, error) {
	var out bytes.Buffer
	err := specs.WriteBrief(&out, b)
	return out.String(), err
}

// same reports whether two quantised frames are one.
func same(a, b specs.Frame) bool { return reflect.DeepEqual(a, b) }

// numbered is a short number of a text.
func numbered(s string) string {
	h := sha256.Sum256([]byte(s))
	return hex.EncodeToString(h[:4])
}

// change makes changes in a brief, all that can be made, and tells the others.
func change(b *specs.Brief, changes map[string]string) *specs.Problems {
	bad := &specs.Problems{}
	for _, path := range slices.Sorted(maps.Keys(changes)) {
		var one *specs.Problems
		if err := b.Set(path, changes[path]); errors.As(err, &one) {
			bad.List = append(bad.List, one.List...)
		}
	}
	return bad
}

// refuse tells what a valid brief may not ask of a page.
func refuse(b specs.Brief) error {
	if specs.IsCurveFile(b.Resistance.Curve) {
		return &specs.Problems{List: []specs.Problem{{
			Path: "resistance.curve", Message: "resistance.curve: a page opens no files", Hint: "write the points into resistance.curve_table, with curve: table",
		}}}
	}
	if specs.IsPopulationFile(b.People.Population) {
		return &specs.Problems{List: []specs.Problem{{
			Path: "people.population", Message: "people.population: a page opens no files", Hint: "write the means and deviations into people.table, with population: table",
		}}}
	}
	return nil
}

// Examples are the names of the briefs that come with the program.
func Examples() []string {
	list, err := specs.Examples.ReadDir("examples")
	if err != nil {
		panic("page: " + err.Error()) // they are embedded
	}
	var out []string
	for _, e := range list {
		out = append(out, strings.TrimSuffix(e.Name(), ".yaml"))
	}
	return out
}

func example(name string) (specs.Brief, error) {
	data, err := specs.Examples.ReadFile("examples/" + path.Base(name) + ".yaml")
	if err != nil {
		return specs.Brief{}, &specs.Problems{List: []specs.Problem{{Message: "there is no example of this name", Hint: strings.Join(Examples(), ", ")}}}
	}
	return specs.ParseBrief(name, data)
}
