package sheet

import (
	"strconv"
	"strings"

	"armwright/specs/angle"
)

const millimetresPerInch = 25.4

// number writes v with at most the given decimals, trailing zeros trimmed.
func number(v float64, decimals int) string {
	s := strconv.FormatFloat(v, 'f', decimals, 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	return Unsigned(s)
}

// Unsigned drops the sign of a number that is written as zero.
func Unsigned(s string) string {
	if strings.Trim(s, "-0.") == "" {
		return strings.TrimPrefix(s, "-")
	}
	return s
}

// Degrees writes an angle, rad, in degrees with so many decimals, without their sign.
func Degrees(rad float64, decimals int) string {
	return Unsigned(strconv.FormatFloat(rad/angle.Degree, 'f', decimals, 64))
}

// Length writes a length given in mm: in mm with at most the given decimals
// (0 takes 1) and no trailing zeros, or in inches with one more, all shown, followed
// by mm in square brackets when dual.
func (u Units) Length(mm float64, decimals int) string {
	if decimals == 0 {
		decimals = 1
	}
	switch u {
	case Inches:
		return inch(mm, decimals+1)
	case InchesDual:
		return inch(mm, decimals+1) + " [" + number(mm, decimals) + "]"
	}
	return number(mm, decimals)
}

// inch writes a length given in mm in inches, all decimals shown, without a zero before
// the point (ASME Y14.5, M).
func inch(mm float64, decimals int) string {
	return Pointed(strconv.FormatFloat(mm/millimetresPerInch, 'f', decimals, 64))
}

// Pointed drops the sign of a number that is written as zero, and the zero before the
// point.
func Pointed(s string) string {
	s, minus := strings.CutPrefix(Unsigned(s), "-")
	if rest, ok := strings.CutPrefix(s, "0."); ok {
		s = "." + rest
	}
	if minus {
		return "-" + s
	}
	return s
}

// Figure writes a length given in mm for a table or a note: in mm with at most one
// decimal, else in inches with three.
func (u Units) Figure(mm float64) string {
	if u != Millimetres {
		return inch(mm, 3)
	}
	return number(mm, 1)
}

// Fine writes a length given in mm to the hundredth of a millimetre or the thousandth
// of an inch, all decimals shown.
func (u Units) Fine(mm float64) string {
	if u != Millimetres {
		return u.Figure(mm)
	}
	return Unsigned(strconv.FormatFloat(mm, 'f', 2, 64))
}

// Symbol is the unit of what [Units.Figure] and [Units.Fine] write.
func (u Units) Symbol() string {
	if u != Millimetres {
		return "in"
	}
	return "mm"
}

// String names the unit of the values.
func (u Units) String() string {
	switch u {
	case Inches:
		return "in"
	case InchesDual:
		return "in [mm]"
	}
	return "mm"
}

// Text is the dimension as written on the sheet: symbol, value, tolerance.
func (d Dimension) Text(u Units) string {
	value, symbol := d.Value(), ""
	write := func(v float64, decimals int) string { return u.Length(v, decimals) }
	deviation := func(v float64) string {
		if u == Millimetres {
			return number(v, 3)
		}
		return Pointed(number(v/millimetresPerInch, 4))
	}
	switch d.Kind {
	case Radius:
		symbol = "R"
	case Diameter:
		symbol = "Ø"
	case Angular:
		write = func(v float64, decimals int) string { return number(v/angle.Degree, max(decimals, 1)) + "°" }
		deviation = func(v float64) string { return number(v/angle.Degree, 3) + "°" }
	}
	s := d.Prefix + symbol + write(value, d.Decimals)
	switch t := d.Tolerance; {
	case t.Plus == 0 && t.Minus == 0:
	case t.Plus == t.Minus:
		s += " ±" + deviation(t.Plus)
	default:
		s += " +" + deviation(t.Plus) + "/-" + deviation(t.Minus)
	}
	s += d.Suffix
	if d.Reference {
		s = "(" + s + ")"
	}
	return s
}
