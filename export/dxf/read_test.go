package dxf_test

import (
	"bytes"
	"errors"
	"strings"
	"testing"

	"armwright/export/dxf"
)

// What cannot be read is refused with the line it stands on.
func TestReadRefuses(t *testing.T) {
	tests := []struct {
		name, pattern, with, want string
	}{
		{"stray empty line", `^  0\nLINE\n`, "\n$0", "empty line"},
		{"no group code", `^  0\nLINE\n`, "LINE\n0\n", "not a number"},
		{"cut short", `^  0\nEOF\n`, "", "no EOF"},
		{"open section", `^  0\nENDSEC\n  0\nEOF`, "  0\nEOF", "does not end"},
		{"outside a section", `^  0\nSECTION\n  2\nTABLES`, "  0\nLINE\n$0", "outside a section"},
		{"newer version", `AC1015`, "AC1032", "version AC1032"},
		{"feet", `INSUNITS\n 70\n4`, "INSUNITS\n 70\n2", "units"},
		{"NaN", `^ 40\n12.5000`, " 40\nNaN", "not a finite number"},
		{"too large", `^ 40\n12.5000`, " 40\n1e999", "not a finite number"},
		{"larger than is written", `^ 40\n12.5000`, " 40\n1e12", "not a finite number within ±1e+09"},
		{"half an integer", `^( 90\n4\n 70\n)1\n`, "${1}1.5\n", "not a whole number"},
		{"UTF-8", `plain`, "plåin", "outside ASCII"},
		{"foreign entity", `^  0\nLINE\n`, "  0\nWIPEOUT\n", `"WIPEOUT"`},
		{"vertex count", `^ 90\n4\n`, " 90\n5\n", "announces 5"},
		{"paper space", `^(  0\nLINE\n)`, "$1 67\n1\n", "paper space"},
		{"mirrored plane", `^(  0\nLINE\n)`, "${1}230\n-1.0\n", "tilted or mirrored"},
		{"dimension without block", `^(100\nAcDbDimension\n  2\n)\*D1`, "${1}*D99", "without its block"},
		{"angle between two lines", `^ 70\n37\n`, " 70\n34\n", "kind 2"},
		{"unequal scales", `^ 42\n2.000000\n`, " 42\n3.000000\n", "unequal scales"},
		{"text fitted between points", `^ 72\n2\n`, " 72\n5\n", "alignment"},
	}
	sound := string(encode(t, everything(), dxf.AC1015))
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			_, err := dxf.Read(strings.NewReader(damage(t, sound, tt.pattern, tt.with)))
			var bad *dxf.SyntaxError
			if !errors.As(err, &bad) || bad.Line < 1 || !strings.Contains(err.Error(), tt.want) {
				t.Errorf("got %v, want a SyntaxError with %q", err, tt.want)
			}
		})
	}
}

func TestReadRefusesBrokenChains(t *testing.T) {
	head := "0\nSECTION\n2\nENTITIES\n0\nPOLYLINE\n66\n1\n"
	tail := "0\nENDSEC\n0\nEOF\n"
	for _, tt := range []struct{ name, body, want string }{
		{"no SEQEND", "0\nVERTEX\n10\n1.0\n20\n1.0\n", "without SEQEND"},
		{"one vertex", "0\nVERTEX\n10\n1.0\n20\n1.0\n0\nSEQEND\n", "needs two"},
		{"mesh", "70\n16\n0\nSEQEND\n", "spatial"},
		{"stray vertex", "0\nVERTEX\n0\nVERTEX\n0\nSEQEND\n0\nVERTEX\n", `"VERTEX" is not read`},
	} {
		_, err := dxf.Read(strings.NewReader(head + tt.body + tail))
		if err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: got %v, want %q", tt.name, err, tt.want)
		}
	}
}

// Line ends of either kind, padding, comments between groups, extended data
// and application groups make no difference.
func TestReadIsTolerantOfForm(t *testing.T) {
	sound := string(encode(t, everything(), dxf.AC1015))
	want, err := dxf.Read(strings.NewReader(sound))
	if err != nil {
		t.Fatal(err)
	}
	forms := map[string]string{
		"CRLF":              strings.ReplaceAll(sound, "\n", "\r\n"),
		"no last line end":  strings.TrimSuffix(sound, "\n"),
		"comment":           damage(t, sound, `^100\nAcDbLine\n`, "999\na comment\n$0"),
		"extended data":     damage(t, sound, `^(100\nAcDbCircle\n.*?)(  0\n)`, "${1}1001\nACAD\n1040\n7.0\n$2"),
		"application group": damage(t, sound, `^100\nAcDbLine\n`, "102\n{ACAD_REACTORS\n330\n1\n102\n}\n$0"),
		"unpadded codes":    strings.ReplaceAll(sound, "\n 10\n", "\n10\n"),
	}
	var a, b bytes.Buffer
	if err := dxf.Write(&a, want, dxf.AC1015); err != nil {
		t.Fatal(err)
	}
	for name, text := range forms {
		got, err := dxf.Read(strings.NewReader(text))
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		b.Reset()
		if err := dxf.Write(&b, got, dxf.AC1015); err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(a.Bytes(), b.Bytes()) {
			t.Errorf("%s: reads as another drawing", name)
		}
	}
}

// The escapes of the format reference: %%c, %%d, %%p and \U+XXXX, in either
// case, and unknown ones as they stand.
func TestReadEscapes(t *testing.T) {
	const file = "0\nSECTION\n2\nENTITIES\n0\nTEXT\n40\n1.0\n1\n%s\n0\nENDSEC\n0\nEOF\n"
	for _, tt := range []struct{ in, want string }{
		{"%%c20", "⌀20"}, {"%%C20", "⌀20"}, {"30%%d", "30°"}, {"%%P1", "±1"}, {`\U+00E9t\U+00E9`, "été"},
		{`\U+D83D\U+DE00`, "😀"}, {`\U+D83Dx`, "\uFFFDx"}, {`\U+12`, `\U+12`}, {`\u+00e9`, `\u+00e9`},
		{"50%", "50%"}, {"%%x", "%%x"}, {"a^ b", "a^b"}, {"a^J", "a^J"}, {`C:\D`, `C:\D`},
	} {
		d, err := dxf.Read(strings.NewReader(strings.Replace(file, "%s", tt.in, 1)))
		if err != nil {
			t.Errorf("%q: %v", tt.in, err)
			continue
		}
		if got := d.Entities[0].(dxf.Text).Value; got != tt.want {
			t.Errorf("%q reads as %q, want %q", tt.in, got, tt.want)
		}
	}
}
