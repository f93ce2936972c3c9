package specs

import (
	"errors"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// The conversion factors are those of NIST Special Publication 811 (2008),
// appendix B.8, where the inch, foot, pound and pound-force are exact (M).
func TestParseQuantity(t *testing.T) {
	for _, c := range []struct {
		text string
		kind Kind
		want float64
	}{
		{"25 mm", Length, 25},
		{"25mm", Length, 25},
		{"  25   mm  ", Length, 25},
		{"-3.5 mm", Length, -3.5},
		{"2.5 cm", Length, 25},
		{"0.3 m", Length, 300},
		{"0.07 m", Length, 70}, // 0.07*1000 is 70.00000000000001 in float64
		{"1 in", Length, 25.4},
		{"1 ft", Length, 304.8},
		{"1 1/2 in", Length, 38.1},
		{"-1 1/2 in", Length, -38.1},
		{"3/4 in", Length, 19.05},
		{"1e2 mm", Length, 100},
		{"2.5E-1 m", Length, 250},
		{"180 deg", Angle, math.Pi},
		{"45°", Angle, math.Pi / 4},
		{"0.78 rad", Angle, 0.78},
		{"80 kg", Mass, 80},
		{"500 g", Mass, 0.5},
		{"1 lb", Mass, 0.45359237},
		{"176 lb", Mass, 79.83225712},
		{"200 N", Force, 200},
		{"2 kN", Force, 2000},
		{"45 lbf", Force, 200.1699726867225},
		{"12 N m", Torque, 12000},
		{"12 N·m", Torque, 12000},
		{"12 Nm", Torque, 12000},
		{"12 N mm", Torque, 12},
		{"1 lbf in", Torque, 112.9848290276167},
		{"1 lbf ft", Torque, 1355.8179483314004},
		{"5 %", Percent, 0.05},
		{"0.67%", Percent, 0.0067},
		{"30 y", Time, 30},
		{"1.5", Number, 1.5},
		{"1/4", Number, 0.25},
	} {
		got, err := ParseQuantity(c.text, c.kind)
		if err != nil {
			t.Errorf("ParseQuantity(%q, %q): %v", c.text, c.kind, err)
		} else if got != c.want { // exact: decimal factors leave one rounding
			t.Errorf("ParseQuantity(%q, %q) = %v, want %v", c.text, c.kind, got, c.want)
		}
	}
}

func TestParseQuantityFaults(t *testing.T) {
	for _, c := range []struct {
		text          string
		kind          Kind
		message, hint string
	}{
		{"25", Length, "25 has no unit", "write 25 mm or 25 in"},
		{"45", Angle, "45 has no unit", "write 45 deg or 45 rad"},
		{"80", Mass, "80 has no unit", "write 80 kg or 80 lb"},
		{"5", Percent, "5 has no unit", "write 5 %"},
		{"0.05", Percent, "0.05 has no unit", "write 5 % for a share of 0.05"},
		{"30", Time, "30 has no unit", "write 30 y"},
		{"12", Torque, "12 has no unit", "write 12 N m"},
		{"25 kg", Length, `"25 kg" is a mass where a length is due`, "units of length: mm, cm, m, in, ft"},
		{"25 mm", Angle, `"25 mm" is a length where an angle is due`, "units of angle: deg, °, rad"},
		{"25 furlong", Length, `unknown unit "furlong"`, "units of length: mm, cm, m, in, ft"},
		{"25 MM", Length, `unknown unit "MM"`, "units of length: mm, cm, m, in, ft"},
		{"2 mm", Number, `"2 mm" carries a unit where a plain number is due`, "write 2"},
		{"2,5 mm", Length, `"2,5 mm" has a comma`, "the decimal sign is a point, and thousands are not set apart"},
		{"about 3 mm", Length, `"about 3 mm" is not a length`, ""},
		{".5 kg", Mass, `".5 kg" has no digit before its point`, "write 0.5 kg"},
		{"-.25 in", Length, `"-.25 in" has no digit before its point`, "write -0.25 in"},
		{".5", Mass, "0.5 has no unit", "write 0.5 kg or 0.5 lb"},
		{"..5 kg", Mass, `"..5 kg" is not a mass`, ""},
		{"", Length, `"" is not a length`, ""},
		{"1/0 in", Length, `"1/0 in" is not a length`, ""},
		{".inf", Length, ".inf is not a finite number", ""},
		{"nan mm", Length, "nan mm is not a finite number", ""},
		{"1e15 mm", Length, "1e15 mm is too large", ""},
		{"1e400 mm", Length, "1e400 mm is too large", ""},
		{"1e99999999999999999999 mm", Length, "1e99999999999999999999 mm is too large", ""},
		{"1e-400 mm", Length, "1e-400 mm is too small to mean anything", ""},
	} {
		_, err := ParseQuantity(c.text, c.kind)
		var q *QuantityError
		if !errors.As(err, &q) {
			t.Errorf("ParseQuantity(%q, %q): error %v, want a *QuantityError", c.text, c.kind, err)
		} else if q.Message != c.message || q.Hint != c.hint {
			t.Errorf("ParseQuantity(%q, %q): %q, hint %q; want %q, hint %q", c.text, c.kind, q.Message, q.Hint, c.message, c.hint)
		}
	}
}

func TestFormatQuantity(t *testing.T) {
	for _, c := range []struct {
		value    float64
		kind     Kind
		decimals int
		want     string
	}{
		{25, Length, 4, "25 mm"},
		{25.00004, Length, 4, "25 mm"},
		{-0.00001, Length, 4, "0 mm"},
		{812.34567, Length, 1, "812.3 mm"},
		{math.Pi / 6, Angle, 6, "30 deg"},
		{0.0067, Percent, -6, "0.67 %"},
		{12345.678, Torque, 2, "12.35 N m"},
		{1234567, Number, -6, "1234570"},
		{0.000123456789, Number, -6, "0.000123457"},
		{1.5e20, Force, -6, "1.50000e+20 N"},
		{1e-12, Mass, -6, "0 kg"},
	} {
		if got := FormatQuantity(c.value, c.kind, c.decimals); got != c.want {
			t.Errorf("FormatQuantity(%v, %q, %d) = %q, want %q", c.value, c.kind, c.decimals, got, c.want)
		}
	}
	defer func() {
		if recover() == nil {
			t.Error("FormatQuantity of NaN did not panic")
		}
	}()
	FormatQuantity(math.NaN(), Length, 4)
}

// A quantity written and read back lies within half a unit of the last digit
// kept, and from then on stays put to the last bit.
func TestQuantityRoundTrip(t *testing.T) {
	half := map[Kind]float64{Length: 0.5e-4, Angle: 0.5e-6 * math.Pi / 180}
	rapid.Check(t, func(t *rapid.T) {
		kind := rapid.SampledFrom(append(kindsWithUnit, Number)).Draw(t, "kind")
		x := rapid.Float64Range(-1e5, 1e5).Draw(t, "x")
		once, err := ParseQuantity(kind.format(x), kind)
		if err != nil {
			t.Fatal(err)
		}
		tolerance, absolute := half[kind]
		if !absolute {
			tolerance = 0.5e-5*math.Abs(x) + 1e-6 // 1e-9 N m is written as 0
		}
		if math.Abs(once-x) > tolerance*(1+1e-6)+1e-15*math.Abs(x) {
			t.Fatalf("%v came back as %v", x, once)
		}
		if twice, err := ParseQuantity(kind.format(once), kind); err != nil || twice != once {
			t.Fatalf("%v moved to %v (%v)", once, twice, err)
		}
	})
}

func FuzzParseQuantity(f *testing.F) {
	for _, s := range []string{"25 mm", "1 1/2 in", "45°", "5 %", "-1e3 N m", "1/0 y", ".inf", "1..2", "9e99999 kg", strings.Repeat("9", 100) + " mm"} {
		for i := range kindsWithUnit {
			f.Add(s, i)
		}
	}
	f.Fuzz(func(t *testing.T, text string, i int) {
		kinds := append(kindsWithUnit, Number)
		kind := kinds[uint(i)%uint(len(kinds))]
		x, err := ParseQuantity(text, kind)
		if err != nil {
			var q *QuantityError
			if !errors.As(err, &q) || q.Message == "" {
				t.Fatalf("%q: error %#v", text, err)
			}
			return
		}
		if !isFinite(x) {
			t.Fatalf("%q is %v", text, x)
		}
		if math.Abs(x) > 1e12 {
			return // rounded up it may be too large; no tag allows a millionth of it
		}
		once, err := ParseQuantity(kind.format(x), kind)
		if err != nil {
			t.Fatalf("%q is written as %q: %v", text, kind.format(x), err)
		}
		if twice, _ := ParseQuantity(kind.format(once), kind); twice != once {
			t.Fatalf("%q: %v moved to %v", text, once, twice)
		}
	})
}
