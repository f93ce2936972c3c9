package dxf

import (
	"fmt"
	"strconv"
	"strings"
	"unicode/utf16"
	"unicode/utf8"
)

const (
	diameterSign  = '⌀' // U+2300
	degreeSign    = '°'
	plusMinusSign = '±'
)

// escape returns s in the ASCII of the format: %%c, %%d and %%p for diameter,
// degree and plus-minus, \U+XXXX for every other rune outside ASCII (as a
// surrogate pair beyond the basic plane), and escapes for the characters that
// would read as escapes. With plain set, as in comments and names, the %%
// codes are not used.
func escape(s string, plain bool) (string, error) {
	if !utf8.ValidString(s) {
		return "", fmt.Errorf("text %q is not valid UTF-8", s)
	}
	var b strings.Builder
	for i, r := range s {
		switch {
		case r < ' ' || r == 0x7f:
			return "", fmt.Errorf("text %q holds the control character %U", s, r)
		case r == '\\' && strings.HasPrefix(s[i:], `\U+`):
			b.WriteString(`\U+005C`)
		case r == '%' && !plain && besidePercent(s, i):
			b.WriteString(`\U+0025`)
		case r == '^':
			b.WriteString("^ ")
		case r < 0x7f:
			b.WriteRune(r)
		case r == diameterSign && !plain:
			b.WriteString("%%c")
		case r == degreeSign && !plain:
			b.WriteString("%%d")
		case r == plusMinusSign && !plain:
			b.WriteString("%%p")
		case r > 0xffff:
			hi, lo := utf16.EncodeRune(r)
			fmt.Fprintf(&b, `\U+%04X\U+%04X`, hi, lo)
		default:
			fmt.Fprintf(&b, `\U+%04X`, r)
		}
	}
	return b.String(), nil
}

// plainer puts a plain character where one says the same: readers of release 12 show
// escapes as they stand.
func plainer(s string) string {
	return strings.Map(func(r rune) rune {
		switch r {
		case '²':
			return '2'
		case '³':
			return '3'
		case '×':
			return 'x'
		case '·', '⋅':
			return '.'
		case '‐', '‑', '–', '—', '−':
			return '-'
		case '‘', '’':
			return '\''
		case '“', '”':
			return '"'
		case '\u00a0', '\u202f':
			return ' '
		case 'Ø':
			return diameterSign
		}
		return r
	}, s)
}

func besidePercent(s string, i int) bool {
	return strings.HasPrefix(s[i+1:], "%") || strings.HasSuffix(s[:i], "%")
}

// unescape is the inverse of escape. Unknown sequences stand for themselves.
func unescape(s string, plain bool) string {
	if !strings.ContainsAny(s, `\%^`) {
		return s
	}
	var b strings.Builder
	for len(s) > 0 {
		r, n := unescapeOne(s, plain)
		b.WriteRune(r)
		s = s[n:]
	}
	return b.String()
}

// unescapeOne decodes the rune at the start of s and returns how many bytes
// it takes.
func unescapeOne(s string, plain bool) (rune, int) {
	if !plain && len(s) >= 3 && s[:2] == "%%" {
		switch s[2] {
		case 'c', 'C':
			return diameterSign, 3
		case 'd', 'D':
			return degreeSign, 3
		case 'p', 'P':
			return plusMinusSign, 3
		}
	}
	if strings.HasPrefix(s, "^ ") {
		return '^', 2
	}
	if r, ok := codeUnit(s); ok {
		if utf16.IsSurrogate(r) {
			if lo, ok := codeUnit(s[unitLen:]); ok {
				return utf16.DecodeRune(r, lo), 2 * unitLen
			}
			return utf8.RuneError, unitLen
		}
		return r, unitLen
	}
	return utf8.DecodeRuneInString(s)
}

// unitLen is the length of \U+XXXX.
const unitLen = 7

func codeUnit(s string) (rune, bool) {
	if len(s) < unitLen || s[:3] != `\U+` {
		return 0, false
	}
	v, err := strconv.ParseUint(s[3:unitLen], 16, 16)
	return rune(v), err == nil
}
