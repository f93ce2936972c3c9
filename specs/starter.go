package specs

import (
	"bytes"
	"reflect"
	"slices"
	"strings"
)

// Starter returns a brief of the given kind, arm-pad, reclined or cam-study,
// with every key at its default and what it means above it, to be changed at
// will. It is nil for another kind.
func Starter(kind string) []byte { return StarterIn(kind, "iso") }

// StarterIn is Starter with the defaults of a region, iso or us. It is nil for
// another one.
func StarterIn(kind, region string) []byte {
	var s starter
	fields := fieldsOf(reflect.TypeFor[Brief]())
	i := slices.IndexFunc(fields, func(f field) bool { return f.key == "kind" })
	r := slices.IndexFunc(fields, func(f field) bool { return f.key == "region" })
	if !slices.Contains(fields[i].choice, kind) || !slices.Contains(fields[r].choice, region) {
		return nil
	}
	s.kind, s.region = kind, region
	s.comment("", "A brief for armwright. Every quantity carries its unit: 25 mm or 1 in, 45 deg, 80 kg or 176 lb, 5 %. A line may be left out unless it says required; it then has the value shown here.")
	s.section(fields, "", "")
	return s.Bytes()
}

type starter struct {
	bytes.Buffer
	kind, region string
}

// example is a value for a key without a default.
func (s *starter) example(path string) string {
	switch path {
	case "armwright":
		return BriefFormat
	case "name":
		return quoted("New station")
	case "kind":
		return s.kind
	case "resistance.load.light":
		return "10 kg"
	case "resistance.load.middle":
		return "40 kg"
	case "resistance.load.heavy":
		return "80 kg"
	}
	panic("specs: no example for " + path)
}

func (s *starter) section(fields []field, path, indent string) {
	for _, f := range fields {
		p := join(path, f.key)
		if indent == "" {
			s.WriteByte('\n')
		}
		if section, ok := f.section(); ok {
			s.comment(indent, f.doc)
			s.WriteString(indent + f.key + ":\n")
			s.section(fieldsOf(section), p, indent+indentStep)
			continue
		}
		value := f.defaultIn(s.region)
		switch {
		case !f.hasDef:
			value = s.example(p)
		case p == "region":
			value = s.region
		case f.typ.Kind() == reflect.String && len(f.choice) == 0:
			value = quoted(value)
		}
		s.comment(indent, f.remark())
		s.WriteString(indent + f.key + ": " + value + "\n")
	}
}

// remark is the doc with what is allowed in brackets.
func (f field) remark() string {
	var allowed []string
	switch {
	case len(f.choice) > 1:
		allowed = append(allowed, strings.Join(f.choice, " or "))
	case f.min != "":
		allowed = append(allowed, f.min+" to "+f.max)
	}
	if !f.hasDef {
		allowed = append(allowed, "required")
	}
	if len(allowed) == 0 {
		return f.doc
	}
	return f.doc + " [" + strings.Join(allowed, "; ") + "]"
}

// commentWidth is the column after which a comment goes on in the next line.
const commentWidth = 78

// comment writes text as comment lines.
func (s *starter) comment(indent, text string) {
	line := indent + "#"
	for _, word := range strings.Fields(text) {
		if len(line)+1+len(word) > commentWidth {
			s.WriteString(line + "\n")
			line = indent + "#"
		}
		line += " " + word
	}
	s.WriteString(line + "\n")
}
