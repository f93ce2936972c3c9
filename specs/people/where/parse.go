package where

import (
	"fmt"
	"math"
	"strings"

	"armwright/specs"
	"armwright/specs/people"
)

// SyntaxError tells what of a condition is not understood.
type SyntaxError struct {
	Text   string
	Column int // in characters, from 1
	What   string
	Advice string
}

func (e *SyntaxError) Error() string { return fmt.Sprintf("character %d: %s", e.Column, e.What) }

// Hint says what to write instead.
func (e *SyntaxError) Hint() string { return e.Advice }

const example = `such as "women under 1.60 m", "men over 100 kg and under 1.70 m", "people with BMI between 30 and 40"`

// longest bounds the text of a condition, in bytes: a dozen bounds take some 300.
const longest = 1000

// Parse reads a condition. Women, men or people come first, then bounds joined by
// "and": a measure (stature, mass, BMI, age or another dimension of people.Dimensions),
// under, over or between, and quantities with their units. A length alone is a
// stature, a mass a body mass, years an age. "or" begins another group of persons, of
// the same sex where none is named. Between holds its ends, under and over do not. The
// error is a *SyntaxError.
func Parse(text string) (*Condition, error) {
	text = strings.Join(strings.Fields(text), " ")
	p := &parser{text: text}
	switch {
	case len(text) > longest:
		return nil, &SyntaxError{text, 1, fmt.Sprintf("more than %d characters", longest), "ask for fewer things at a time"}
	case text == "":
		return nil, p.fault("no condition", example)
	}
	p.cut()
	c := &Condition{text: text}
	sexes := [2]bool{true, true}
	for {
		g := group{sexes: sexes}
		named := p.sexes(&g.sexes)
		sexes = g.sexes
		if err := p.bounds(&g, named); err != nil {
			return nil, err
		}
		c.groups = append(c.groups, g)
		if p.done() {
			return c, nil
		}
		if !p.take("or") {
			return nil, p.fault(fmt.Sprintf("%q is not understood here", p.word()), `bounds are joined by "and", groups of people by "or"`)
		}
	}
}

// parser is a condition being read word by word.
type parser struct {
	text   string
	words  []string // lower case
	starts []int    // column of each
	next   int
}

func (p *parser) cut() {
	column := 1
	for _, w := range strings.Split(p.text, " ") {
		bare := strings.TrimRight(w, ",;")
		if bare != "" {
			p.words, p.starts = append(p.words, bare), append(p.starts, column)
		}
		column += len([]rune(w)) + 1
	}
}

func (p *parser) done() bool { return p.next >= len(p.words) }

// word is the next word in lower case, "" after the last.
func (p *parser) word() string {
	if p.done() {
		return ""
	}
	return strings.ToLower(p.words[p.next])
}

// take passes over one of some words.
func (p *parser) take(any ...string) bool {
	for _, w := range any {
		if p.word() == w {
			p.next++
			return true
		}
	}
	return false
}

func (p *parser) fault(what, hint string) *SyntaxError { return p.faultAt(p.next, what, hint) }

// faultAt is a fault at a word, or at the end.
func (p *parser) faultAt(word int, what, hint string) *SyntaxError {
	column := len([]rune(p.text)) + 1
	if word < len(p.words) {
		column = p.starts[word]
	}
	return &SyntaxError{p.text, column, what, hint}
}

// sexes reads who is meant, if anybody is named.
func (p *parser) sexes(of *[2]bool) (named bool) {
	var who [2]bool
	switch {
	case p.take("women", "woman"):
		who[people.Woman] = true
	case p.take("men", "man"):
		who[people.Man] = true
	case p.take("people", "persons", "everybody", "anybody"):
		who = [2]bool{true, true}
	default:
		return false
	}
	*of = who
	return true
}

// bounds reads the bounds of a group; a group that names nobody must have one.
func (p *parser) bounds(g *group, named bool) error {
	for first := true; ; first = false {
		if p.done() || p.word() == "or" {
			if first && !named || !first {
				return p.fault("a bound is due here", example)
			}
			return nil
		}
		b, err := p.bound()
		if err != nil {
			return err
		}
		g.bounds = append(g.bounds, b...)
		if !p.take("and", "but") && !p.begins() {
			return nil
		}
	}
}

// bound reads a measure, if one is named, under, over or between, and the quantities.
func (p *parser) bound() (list []bound, err error) {
	p.take("with", "of", "who", "whose")
	p.take("are", "is", "have", "a", "an")
	p.take("a", "an")
	at := p.next
	m, ok := p.measure()
	p.take("is", "of")
	b := bound{measure: m, from: math.Inf(-1), to: math.Inf(1)}
	switch {
	case p.take("under", "below"):
		b.to, err = p.read(p.figure(), &b.measure, ok)
	case p.take("over", "above"):
		b.from, err = p.read(p.figure(), &b.measure, ok)
	case p.take("between"):
		b.including = true
		return p.between(b, ok)
	default:
		if !ok {
			p.next = at
		}
		return nil, p.fault(p.met()+" where a measure, under, over or between is due", example)
	}
	return []bound{b}, err
}

// met names what stands next.
func (p *parser) met() string { return p.metAt(p.next) }

func (p *parser) metAt(word int) string {
	if word >= len(p.words) {
		return "the end"
	}
	return fmt.Sprintf("%q", p.words[word])
}

// measure reads the longest run of words that names one.
func (p *parser) measure() (measure, bool) {
	const most = 3 // words of a name
	for n := min(most, len(p.words)-p.next); n > 0; n-- {
		if m, ok := named(strings.ToLower(strings.Join(p.words[p.next:p.next+n], " "))); ok {
			p.next += n
			return m, true
		}
	}
	return measure{}, false
}

// between reads both ends. An end without a unit has the other's: of 1.50 and 1.60 m.
func (p *parser) between(b bound, known bool) ([]bound, error) {
	low := p.figure()
	if !p.take("and") {
		return nil, p.fault(p.met()+` where "and" is due`, "write between 1.50 m and 1.60 m")
	}
	high := p.figure()
	if low.digits != "" && low.unit == "" {
		low.unit = high.unit
	}
	var err error
	if b.to, err = p.read(high, &b.measure, known); err != nil {
		return nil, err
	}
	if b.from, err = p.read(low, &b.measure, true); err != nil {
		return nil, err
	}
	if b.from > b.to {
		return nil, p.faultAt(low.at, fmt.Sprintf("between %s and %s is nobody", low, high), "write the smaller first")
	}
	return []bound{b}, nil
}

// figure is a number with its unit, as written.
type figure struct {
	digits, unit string
	at           int // index of its first word
}

func (f figure) String() string { return strings.TrimSpace(f.digits + " " + f.unit) }

// figure takes the words of a number and its unit. Words after the unit that only
// repeat the measure are passed over: 30 years old.
func (p *parser) figure() figure {
	f := figure{at: p.next}
	for !p.done() && p.word() != "and" && p.word() != "or" && p.word() != "but" && (p.next == f.at || !p.begins()) {
		p.next++
	}
	text := strings.Join(p.words[f.at:p.next], " ")
	p.take("tall", "old", "heavy")
	i := strings.IndexFunc(text, func(r rune) bool { return !strings.ContainsRune("0123456789.+-/ ", r) })
	if i < 0 {
		i = len(text)
	}
	f.digits, f.unit = strings.TrimSpace(text[:i]), text[i:]
	switch f.unit {
	case "years", "year", "yr":
		f.unit = "y"
	}
	return f
}

// begins says whether another bound begins with the next word.
func (p *parser) begins() bool {
	switch p.word() {
	case "under", "below", "over", "above", "between", "with", "of", "who", "whose", "tall", "old", "heavy":
		return true
	}
	return false
}

// read turns a figure into inside units; where no measure was named the unit tells
// which one it is.
func (p *parser) read(f figure, m *measure, known bool) (float64, error) {
	if f.String() == "" {
		return 0, p.faultAt(f.at, p.metAt(f.at)+" where a number with its unit is due", example)
	}
	if strings.HasPrefix(f.unit, ",") {
		return 0, p.faultAt(f.at, fmt.Sprintf("%q has a comma", f.digits+f.unit), "the decimal sign is a point, and thousands are not set apart")
	}
	switch f.unit {
	case "kg/m²", "kg/m2", "kg/m^2":
		if !known {
			*m, known = must("bmi"), true
		}
		if m.kind == specs.Number {
			f.unit = ""
		}
	}
	if !known {
		name := measuredIn(f.unit)
		if name == "" {
			return 0, p.faultAt(f.at, fmt.Sprintf("%q is no stature, mass or age", f), "write the unit, as 1.60 m, 63 in, 80 kg or 40 y, or name the measure: BMI over 30")
		}
		*m = must(name)
	}
	v, err := quantity(f, m.kind)
	if err != nil {
		e := p.faultAt(f.at, err.Error(), example)
		if q, ok := err.(*specs.QuantityError); ok {
			e.What = q.Message
			if q.Hint != "" {
				e.Advice = q.Hint
			}
		}
		return 0, e
	}
	return v, nil
}

// measuredIn is the measure that a unit alone tells, "" for none.
func measuredIn(unit string) string {
	unit, _, _ = strings.Cut(unit, " ") // the feet of 5 ft 3 in
	for _, k := range []struct {
		kind specs.Kind
		name string
	}{{specs.Length, "stature"}, {specs.Mass, "mass"}, {specs.Time, "age"}} {
		if _, err := specs.ParseQuantity("1 "+unit, k.kind); err == nil {
			return k.name
		}
	}
	return ""
}

// quantity reads a figure; a length may be in feet and inches: 5 ft 3 in.
func quantity(f figure, k specs.Kind) (float64, error) {
	inches, split := strings.CutPrefix(f.unit, "ft ")
	if !split || k != specs.Length {
		return specs.ParseQuantity(f.String(), k)
	}
	whole, err := specs.ParseQuantity(f.digits+" ft", k)
	if err != nil {
		return 0, err
	}
	rest, err := specs.ParseQuantity(inches, k)
	return whole + rest, err
}

func must(name string) measure {
	m, ok := named(name)
	if !ok {
		panic("where: no measure " + name)
	}
	return m
}
