package specs

import (
	"fmt"
	"math"
	"math/big"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"armwright/specs/angle"
	"armwright/specs/wording"
)

// Degree is [angle.Degree], which a brief is read with.
const Degree = angle.Degree

// Kind is the kind of a quantity, which settles the units it may carry.
type Kind string

// The kinds of quantity. Number carries no unit.
const (
	Number  Kind = ""
	Length  Kind = "length"  // inside mm
	Angle   Kind = "angle"   // inside rad
	Mass    Kind = "mass"    // inside kg
	Force   Kind = "force"   // inside N
	Torque  Kind = "torque"  // inside N·mm
	Percent Kind = "percent" // inside a fraction, 5 % is 0.05
	Time    Kind = "time"    // inside years
)

// Decimals kept in a written file. A length is quantised to 1e-4 mm and an
// angle to 1e-6 degrees, both far below what a workshop holds; everything
// else keeps six significant digits.
const (
	lengthDecimals = 4
	angleDecimals  = 6
	significant    = -6
)

// unit is a unit symbol and its size in inside units: the exact decimal
// factor times scale. Only the degree has a scale, since π is no decimal.
type unit struct {
	symbol string
	factor string
	scale  float64
}

// unitsOf lists the units of every kind; the first is the one written. The
// inch is 25.4 mm, the pound 0.45359237 kg, both exact by the international
// yard and pound agreement of 1959; the pound-force takes the standard
// gravity 9.80665 m/s² of the 3rd CGPM, 1901.
func unitsOf(k Kind) []unit {
	switch k {
	case Length:
		return []unit{{"mm", "1", 1}, {"cm", "10", 1}, {"m", "1000", 1}, {"in", "25.4", 1}, {"ft", "304.8", 1}}
	case Angle:
		return []unit{{"deg", "1", Degree}, {"°", "1", Degree}, {"rad", "1", 1}}
	case Mass:
		return []unit{{"kg", "1", 1}, {"g", "0.001", 1}, {"lb", "0.45359237", 1}}
	case Force:
		return []unit{{"N", "1", 1}, {"kN", "1000", 1}, {"lbf", "4.4482216152605", 1}}
	case Torque:
		return []unit{{"N m", "1000", 1}, {"N·m", "1000", 1}, {"Nm", "1000", 1}, {"N mm", "1", 1}, {"N·mm", "1", 1}, {"Nmm", "1", 1},
			{"lbf in", "112.9848290276167", 1}, {"lbf ft", "1355.8179483314004", 1}}
	case Percent:
		return []unit{{"%", "0.01", 1}}
	case Time:
		return []unit{{"y", "1", 1}}
	}
	panic("specs: no units for kind " + strconv.Quote(string(k)))
}

var kindsWithUnit = []Kind{Length, Angle, Mass, Force, Torque, Percent, Time}

// symbols lists the unit symbols of a kind, the written one first.
func (k Kind) symbols() []string {
	var s []string
	for _, u := range unitsOf(k) {
		s = append(s, u.symbol)
	}
	return s
}

// noun is the kind with its article, for messages.
func (k Kind) noun() string {
	switch k {
	case Number:
		return "a plain number"
	case Angle:
		return "an angle"
	case Percent:
		return "a percentage"
	}
	return "a " + string(k)
}

// QuantityError tells why a text is not a quantity of the wanted kind.
type QuantityError struct {
	Text    string // the text as given, shortened
	Message string // what is wrong
	Hint    string // what to write instead, may be empty
}

func (e *QuantityError) Error() string {
	if e.Hint == "" {
		return e.Message
	}
	return e.Message + " (" + e.Hint + ")"
}

// numberPattern is a decimal number or a whole or mixed fraction. It is valid
// both for package regexp and for the ECMA 262 dialect of JSON Schema.
const numberPattern = `[+-]?(?:(?:[0-9]+ +)?[0-9]+/[0-9]+|[0-9]+(?:\.[0-9]+)?(?:[eE][+-]?[0-9]+)?)`

var quantityText = regexp.MustCompile(`^([+-]?)(?:(?:([0-9]+) +)?([0-9]+/[0-9]+)|([0-9]+(?:\.[0-9]+)?(?:[eE][+-]?[0-9]+)?)) *(.*)$`)

// bareFraction is the start of a number that lacks the digit before its point.
var bareFraction = regexp.MustCompile(`^([+-]?)(\.[0-9])`)

// longestQuantity bounds the text of a quantity and largestExponent its
// decimal exponent, so that exact arithmetic on it stays small. From
// tooLarge on, in any unit, a float64 no longer holds the decimals written.
const (
	longestQuantity = 64
	largestExponent = 30
	tooLarge        = 1e15
)

// ParseQuantity reads a number with its unit, "25 mm" or "1 1/2 in", and
// returns it in inside units: mm, rad, kg, N, N·mm, a fraction for percent,
// years. The value is the float64 nearest to the decimal text (for degrees, to
// the text's float64 times π/180). A text without the unit its kind needs,
// with a unit of another kind, or without a finite value is a *QuantityError.
// An unknown kind panics.
func ParseQuantity(text string, kind Kind) (float64, error) {
	text = strings.TrimSpace(text)
	fail := func(hint, format string, args ...any) (float64, error) {
		return 0, &QuantityError{Text: wording.Clip(text), Message: fmt.Sprintf(format, args...), Hint: hint}
	}
	switch word, _, _ := strings.Cut(strings.TrimLeft(strings.ToLower(text), "+-."), " "); word {
	case "inf", "infinity", "nan":
		return fail("", "%s is not a finite number", wording.Clip(text))
	}
	m := quantityText.FindStringSubmatch(text)
	if whole := bareFraction.ReplaceAllString(text, "${1}0$2"); m == nil && len(text) < longestQuantity && quantityText.MatchString(whole) {
		if _, err := ParseQuantity(whole, kind); err != nil {
			return 0, err
		}
		return fail("write "+whole, "%s has no digit before its point", wording.Quote(text))
	}
	if m == nil || len(text) > longestQuantity {
		return fail("", "%s is not %s", wording.Quote(text), kind.noun())
	}
	sign, whole, fraction, decimal, symbol := m[1], m[2], m[3], m[4], m[5]
	if _, exponent, ok := strings.Cut(strings.ToLower(decimal), "e"); ok {
		if e, err := strconv.Atoi(exponent); err != nil || e > largestExponent {
			return fail("", "%s is too large", wording.Clip(text))
		} else if e < -largestExponent {
			return fail("", "%s is too small to mean anything", wording.Clip(text))
		}
	}
	digits := strings.TrimSpace(text[:len(text)-len(symbol)])

	var u unit
	switch {
	case kind == Number && symbol != "":
		return fail("write "+digits, "%s carries a unit where a plain number is due", wording.Quote(text))
	case kind == Number:
		u = unit{factor: "1", scale: 1}
	case symbol == "":
		return fail(unitHint(digits, kind), "%s has no unit", wording.Clip(text))
	default:
		i := slices.IndexFunc(unitsOf(kind), func(u unit) bool { return u.symbol == symbol })
		switch {
		case i < 0 && strings.HasPrefix(symbol, ","):
			return fail("the decimal sign is a point, and thousands are not set apart", "%s has a comma", wording.Quote(text))
		case i < 0:
			return fail("units of "+string(kind)+": "+strings.Join(kind.symbols(), ", "), "%s", wrongUnit(text, symbol, kind))
		}
		u = unitsOf(kind)[i]
	}

	exact, ok := new(big.Rat).SetString(decimal + fraction) // one of the two is empty
	if !ok {
		return fail("", "%s is not %s", wording.Quote(text), kind.noun()) // a zero denominator
	}
	if whole != "" {
		w, _ := new(big.Rat).SetString(whole)
		exact.Add(exact, w)
	}
	if sign == "-" {
		exact.Neg(exact)
	}
	factor, _ := new(big.Rat).SetString(u.factor)
	value, _ := exact.Mul(exact, factor).Float64()
	if value *= u.scale; math.Abs(value) >= tooLarge {
		return fail("", "%s is too large", wording.Clip(text))
	}
	return value, nil
}

// unitHint says how a bare number should have been written.
func unitHint(digits string, k Kind) string {
	switch k {
	case Length:
		return fmt.Sprintf("write %s mm or %s in", digits, digits)
	case Angle:
		return fmt.Sprintf("write %s deg or %s rad", digits, digits)
	case Mass:
		return fmt.Sprintf("write %s kg or %s lb", digits, digits)
	case Force:
		return fmt.Sprintf("write %s N or %s lbf", digits, digits)
	case Percent:
		if x, err := strconv.ParseFloat(digits, 64); err == nil && math.Abs(x) <= 1 && x != 0 {
			return fmt.Sprintf("write %s for a share of %s", FormatQuantity(x, Percent, significant), digits)
		}
	}
	return fmt.Sprintf("write %s %s", digits, unitsOf(k)[0].symbol)
}

// wrongUnit says what a misplaced or unknown unit is.
func wrongUnit(text, symbol string, want Kind) string {
	for _, k := range kindsWithUnit {
		if slices.Contains(k.symbols(), symbol) {
			return fmt.Sprintf("%s is %s where %s is due", wording.Quote(text), k.noun(), want.noun())
		}
	}
	return fmt.Sprintf("unknown unit %s", wording.Quote(symbol))
}

// FormatQuantity writes a finite value in inside units with the unit of its
// kind: mm, deg, kg, N, N m, %, y. It keeps at most the given number of
// decimals, or, if decimals is negative, that many significant digits;
// trailing zeros are dropped and there is no negative zero. A value that is
// not finite panics, as does an unknown kind.
func FormatQuantity(value float64, kind Kind, decimals int) string {
	if math.IsNaN(value) || math.IsInf(value, 0) {
		panic("specs: FormatQuantity of a value that is not finite")
	}
	symbol := ""
	switch kind {
	case Number:
	case Angle:
		value /= Degree
	case Torque:
		value /= 1000
	case Percent:
		value *= 100
	}
	if kind != Number {
		symbol = " " + unitsOf(kind)[0].symbol
	}
	return formatNumber(value, decimals) + symbol
}

// formatNumber writes plain digits; an exponent appears only from tooLarge
// on, where digits would be invented, and what is below 1e-9 is zero.
func formatNumber(x float64, decimals int) string {
	const tiny = 1e-9
	var s string
	switch {
	case math.Abs(x) < tiny:
		return "0"
	case math.Abs(x) >= tooLarge:
		return strconv.FormatFloat(x, 'e', 5, 64)
	case decimals >= 0:
		s = strconv.FormatFloat(x, 'f', decimals, 64)
	default:
		rounded, _ := strconv.ParseFloat(strconv.FormatFloat(x, 'e', -decimals-1, 64), 64)
		s = strconv.FormatFloat(rounded, 'f', -1, 64)
	}
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	if s == "-0" {
		return "0"
	}
	return s
}

// format writes a quantity as it stands in a file.
func (k Kind) format(value float64) string {
	switch k {
	case Length:
		return FormatQuantity(value, k, lengthDecimals)
	case Angle:
		return FormatQuantity(value, k, angleDecimals)
	}
	return FormatQuantity(value, k, significant)
}
