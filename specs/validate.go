package specs

import (
	"errors"
	"fmt"
	"math"
	"reflect"
	"slices"
	"strings"
	"time"
	"unicode/utf8"

	"armwright/specs/aims"
	"armwright/specs/prices"
	"armwright/specs/stock"
	"armwright/specs/wording"
)

// Validate checks a brief made or changed in memory as ParseBrief checks one
// that was read: ranges, choices, names, and how values relate. The error is
// a *Problems without places.
func (b Brief) Validate() error {
	return validate(reflect.ValueOf(b), b.relations)
}

// Validate checks a frame made or changed in memory as ParseFrame checks one
// that was read.
func (f Frame) Validate() error {
	return validate(reflect.ValueOf(f), f.relations)
}

func validate(v reflect.Value, relations func() []relation) error {
	var list []Problem
	check(v, relations, new(spoiled), func(path string, f *fault) {
		list = append(list, Problem{Path: path, Message: f.message, Hint: f.hint})
	})
	return asError(list)
}

// spoiled holds the paths of values that could not be read or are not
// allowed, so that nothing further is concluded from them.
type spoiled []string

func (s *spoiled) add(path string) { *s = append(*s, path) }

// covers reports whether the value at path, or one it lies in, or one in it, is
// spoiled.
func (s spoiled) covers(path string) bool {
	return slices.ContainsFunc(s, func(b string) bool { return within(path, b) || within(b, path) })
}

// within reports whether inner is outer or lies in it.
func within(inner, outer string) bool {
	rest, ok := strings.CutPrefix(inner, outer)
	return ok && (rest == "" || rest[0] == '.' || rest[0] == '[')
}

// relation is a rule between values of a file.
type relation struct {
	path    string   // where it is reported
	with    []string // the other values it rests on
	holds   bool
	message string
	hint    string
}

// check reports every value of the struct v that its tags do not allow, then
// every relation that does not hold between values that are not spoiled.
func check(v reflect.Value, relations func() []relation, bad *spoiled, report func(path string, f *fault)) {
	c := &checker{names: KnownNames(), finite: true}
	c.report = func(path string, f *fault) {
		if !bad.covers(path) {
			report(path, f)
			bad.add(path)
		}
	}
	c.section(v, "")
	if !c.finite {
		return // relations compare and print values
	}
	for _, r := range relations() {
		if !r.holds && !bad.covers(r.path) && !slices.ContainsFunc(r.with, bad.covers) {
			report(r.path, &fault{r.path + ": " + r.message, r.hint})
		}
	}
}

type checker struct {
	report func(path string, f *fault)
	names  Names
	finite bool // no value met is NaN or infinite
}

func (c *checker) section(v reflect.Value, path string) {
	for _, f := range fieldsOf(v.Type()) {
		c.value(f, v.FieldByIndex(f.index), join(path, f.key))
	}
}

func (c *checker) value(f field, v reflect.Value, path string) {
	fail := func(hint, format string, args ...any) {
		c.report(path, &fault{label(path) + fmt.Sprintf(format, args...), hint})
	}
	if _, ok := f.section(); ok {
		if v.Kind() == reflect.Pointer {
			if v.IsNil() {
				return
			}
			v = v.Elem()
		}
		c.section(v, path)
		return
	}
	switch {
	case f.isList():
		if n := v.Len(); n < f.least || n > f.most {
			fail(f.doc, "%d items; %d to %d are allowed", n, f.least, f.most)
		}
		for i := range v.Len() {
			c.value(f.item(), v.Index(i), child(path, i))
		}
	case f.isRange():
		r := v.Interface().(Range)
		if c.bounded(f, r.From, join(path, "from")) && c.bounded(f, r.To, join(path, "to")) && r.From > r.To {
			from, to := f.kind.format(r.From), f.kind.format(r.To)
			fail(fmt.Sprintf("write %s..%s", to, from), "the range %s..%s runs backwards", from, to)
		}
	case v.Kind() == reflect.Float64:
		c.bounded(f, v.Float(), path)
	case v.Kind() == reflect.Int:
		c.bounded(f, float64(v.Int()), path)
	case v.Kind() == reflect.String:
		c.text(f, v.String(), fail)
	}
}

// digitsTold is how many digits of a value a message gives, enough to tell
// it from the bound it breaks.
const digitsTold = -9

// bounded checks a number against the field's closed range.
func (c *checker) bounded(f field, x float64, path string) bool {
	told := func(x float64) string { return FormatQuantity(x, f.kind, digitsTold) }
	fail := func(format string, args ...any) bool {
		hint := ""
		if f.min != "" {
			hint = fmt.Sprintf("%s to %s are allowed", f.min, f.max)
		}
		c.report(path, &fault{label(path) + fmt.Sprintf(format, args...), hint})
		return false
	}
	switch {
	case !isFinite(x):
		c.finite = false
		return fail("the value is not finite")
	case f.min != "" && x < f.bound(f.min):
		return fail("%s is below %s", told(x), f.min)
	case f.max != "" && x > f.bound(f.max):
		return fail("%s is above %s", told(x), f.max)
	}
	return true
}

func isFinite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }

// text checks a text against the field's words, length and form.
func (c *checker) text(f field, text string, fail func(hint, format string, args ...any)) {
	words := f.choice
	if f.names != "" {
		words = c.names.list(f.names)
	}
	n := utf8.RuneCountInString(text)
	switch {
	case f.names == "curves" && IsCurveFile(text): // only the command opens it
	case f.names == "populations" && IsPopulationFile(text):
	case f.names == "members" && lopsided(text):
		fail("square ones: "+listed(words), "%s is a rectangular tube; stations are built from square ones", wording.Quote(text))
	case len(words) > 0 && !slices.Contains(words, text):
		hint := "allowed: " + listed(words)
		if near, ok := wording.Nearest(text, words); ok {
			hint = "did you mean " + near + "? " + hint
		}
		fail(hint, "%s is not a known value", wording.Quote(text))
	case utf8.RuneCountInString(strings.TrimSpace(text)) < f.least:
		fail(f.doc, "the text is empty")
	case f.most > 0 && n > f.most:
		fail(fmt.Sprintf("at most %d characters", f.most), "%s has %d characters", wording.Quote(text), n)
	case f.form == "date" && text != "":
		if _, err := time.Parse(time.DateOnly, text); err != nil {
			fail("write it as YYYY-MM-DD", "%s is not a calendar date", wording.Quote(text))
		}
	case f.form == "prices" && text != "":
		var bad *prices.Error
		if _, err := prices.Parse(text); errors.As(err, &bad) {
			fail(bad.Hint(), "%s", bad)
		}
	case f.form == "aims":
		var bad *aims.Error
		if _, err := aims.Parse(text); errors.As(err, &bad) {
			fail(bad.Hint(), "%s", bad)
		}
	case f.form == "population" && text != "":
		var bad *PopulationError
		if _, err := ParsePopulation(text); errors.As(err, &bad) {
			fail(bad.Hint(), "%s", bad)
		}
	case f.form == "curve" && text != "":
		if _, err := ParseCurve(text); err != nil {
			fail("write 15 deg 41, 30 deg 46, 60 deg 52, 105 deg 43", "%s", err)
		}
	}
}

// lopsided reports whether a name is that of a tube of stock that is not square.
func lopsided(name string) bool {
	m, err := stock.Member(name)
	return err == nil && !m.Square()
}

// listed names words, the first few of many.
func listed(words []string) string {
	const most = 10
	if n := len(words); n > most {
		return strings.Join(words[:most], ", ") + fmt.Sprintf(" and %d more", n-most)
	}
	return strings.Join(words, ", ")
}

// relations are the rules between the values that brief and frame share.
func (a Asked) relations() []relation {
	load, res := a.Resistance.Load, a.Resistance
	return []relation{
		{"resistance.load.light", []string{"resistance.load.middle"}, load.Light < load.Middle,
			fmt.Sprintf("the light load %s is not below the middle load %s", Mass.format(load.Light), Mass.format(load.Middle)), "light < middle < heavy"},
		{"resistance.load.heavy", []string{"resistance.load.middle"}, load.Middle < load.Heavy,
			fmt.Sprintf("the heavy load %s is not above the middle load %s", Mass.format(load.Heavy), Mass.format(load.Middle)), "light < middle < heavy"},
		{"resistance.loaded", nil, res.Loaded.From != res.Loaded.To,
			"the range is empty", "for example 5 deg..130 deg"},
		{"resistance.least_arm", []string{"resistance.greatest_arm"}, res.LeastArm < res.GreatestArm,
			fmt.Sprintf("%s is not below greatest_arm, %s", Length.format(res.LeastArm), Length.format(res.GreatestArm)), "least_arm < greatest_arm"},
		{"resistance.curve", []string{"resistance.curve_table"}, res.Curve != CurveTable || res.CurveTable != "",
			"there is no curve_table", "write the pairs into resistance.curve_table, or the name of a curve"},
		res.covered(),
		{"people.population", []string{"people.table"}, a.People.Population != PopulationTable || a.People.Table != "",
			"there is no table", "write means and deviations into people.table, or the name of a population"},
		{"resistance.drive", []string{"kind"}, a.Kind != "cam-study" || res.Drive != "lever",
			"a cam-study has no lever", "write drive: cam or linkage, or another kind"},
		{"resistance.counterweight", []string{"resistance.drive"}, res.Drive != "linkage" || res.Counter == "as-needed" || res.Counter == "none",
			"the bars of a linkage leave no room for a counterweight", "write counterweight: none; the linkage matches the arm's weight with the rest"},
	}
}
