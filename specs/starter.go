package specs

import (
	"bytes"
	"math"
	"reflect"
	"slices"
	"strings"

	"armwright/specs/stock"
)

// Starter returns a brief of the given kind, arm-pad, reclined or cam-study,
// with every key at its default and what it means above it, to be changed at
// will. It is nil for another kind.
func Starter(kind string) []byte { return StarterIn(kind, "iso") }

// StarterIn is Starter with the defaults of a region, iso or us, nil for another; in us
// lengths and masses are rounded to what an inch rule and a scale in pounds show.
func StarterIn(kind, region string) []byte { return starterOf(kind, region, false) }

// ShortStarter is StarterIn with the keys alone that a brief of that kind is mostly
// about: who, what resistance, what space and stock, the first limits.
func ShortStarter(kind, region string) []byte { return starterOf(kind, region, true) }

func starterOf(kind, region string, short bool) []byte {
	fields := fieldsOf(reflect.TypeFor[Brief]())
	i := slices.IndexFunc(fields, func(f field) bool { return f.key == "kind" })
	r := slices.IndexFunc(fields, func(f field) bool { return f.key == "region" })
	if !slices.Contains(fields[i].choice, kind) || !slices.Contains(fields[r].choice, region) {
		return nil
	}
	s := starter{kind: kind, region: region, short: short}
	head := "A brief for armwright. Every quantity carries its unit: 25 mm or 1 in, 45 deg, 80 kg or 176 lb, 5 %. A line may be left out unless it says required; it then has the value shown here"
	if region == regionUS {
		head += ", or the round metric one next to it"
	}
	head += "."
	if short {
		head += " These are the keys that matter first; armwright new --full writes all of them."
	}
	s.comment("", head)
	s.section(fields, "", "")
	return s.Bytes()
}

type starter struct {
	bytes.Buffer
	kind, region string
	short        bool
}

// told says whether a key, or a section that holds one, is to be written.
func (s *starter) told(path string) bool {
	if !s.short {
		return true
	}
	keys := []string{"armwright", "name", "kind", "resistance.curve", "resistance.loaded", "resistance.load.light", "resistance.load.middle", "resistance.load.heavy",
		"stock.cable", "limits.torque_match", "drawing.units", "drawing.number"}
	if s.region == regionUS {
		keys = append(keys, "region")
	}
	if s.kind != "cam-study" {
		keys = append(keys, "people.population", "people.women", "people.low", "people.high", "resistance.drive", "space.length", "space.width", "space.height",
			"stock.member", "stock.max_user", "limits.hand_path")
	}
	return slices.ContainsFunc(keys, func(k string) bool { return k == path || strings.HasPrefix(k, path+".") })
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
		return s.loads()[0]
	case "resistance.load.middle":
		return s.loads()[1]
	case "resistance.load.heavy":
		return s.loads()[2]
	}
	panic("specs: no example for " + path)
}

// loads are whole plates of a stack in the region.
func (s *starter) loads() [3]string {
	if s.region == regionUS {
		return [3]string{"20 lb", "90 lb", "180 lb"}
	}
	return [3]string{"10 kg", "40 kg", "80 kg"}
}

func (s *starter) section(fields []field, path, indent string) {
	for _, f := range fields {
		p := join(path, f.key)
		if !s.told(p) {
			continue
		}
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
		case s.region == regionUS:
			value = f.ruled(value)
		}
		s.comment(indent, f.remark(s.region))
		s.WriteString(indent + f.key + ": " + value + "\n")
	}
}

// remark is the doc with what is allowed in brackets.
func (f field) remark(region string) string {
	var allowed []string
	switch {
	case len(f.choice) > 1:
		allowed = append(allowed, strings.Join(f.choice, " or "))
	case f.min != "":
		least, most := f.min, f.max
		if region == regionUS {
			least, most = f.customary(least), f.customary(most)
		}
		allowed = append(allowed, least+" to "+most)
	}
	if !f.hasDef {
		allowed = append(allowed, "required")
	}
	if len(allowed) == 0 {
		return f.doc
	}
	return f.doc + " [" + strings.Join(allowed, "; ") + "]"
}

// ruled is a quantity of the file, or a range of it, as an inch rule or a scale in pounds
// shows it: whole sixteenths of an inch, from half a foot on quarters; fives of pounds and
// pounds-force. Other kinds, torque too, and what is in those units, stay as they are.
func (f field) ruled(text string) string {
	if from, to, ok := strings.Cut(text, ".."); ok {
		return f.ruled(from) + ".." + f.ruled(to)
	}
	x, err := ParseQuantity(text, f.kind)
	metric := f.symbol()
	if err != nil || f.kind == Torque || !strings.HasSuffix(text, " "+metric) || InchPound.Symbol(metric) == metric {
		return text
	}
	x = InchPound.In(x, metric)
	step := 5.0
	switch {
	case f.kind == Length && math.Abs(x) < 6:
		step = 1. / 16
	case f.kind == Length:
		step = 1. / 4
	}
	return fraction(math.Round(x/step)*step) + " " + InchPound.Symbol(metric)
}

// customary is a bound of the file in inches or pounds, where it is none of
// another kind.
func (f field) customary(text string) string {
	x, err := ParseQuantity(text, f.kind)
	metric := f.symbol()
	if err != nil || f.kind == Torque || InchPound.Symbol(metric) == metric {
		return text
	}
	return InchPound.Size(x, metric)
}

// fraction writes a number of whole sixteenths as people read a rule.
func fraction(x float64) string {
	sign := ""
	if x < 0 {
		sign, x = "-", -x
	}
	return sign + stock.Fraction(int(16*x), 16)
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
