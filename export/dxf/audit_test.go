package dxf_test

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"armwright/export/dxf"
)

// damage returns text with the first match of pattern replaced. Patterns match
// across lines, with ^ at line starts.
func damage(t *testing.T, text, pattern, with string) string {
	t.Helper()
	re := regexp.MustCompile("(?ms)" + pattern)
	at := re.FindStringSubmatchIndex(text)
	if at == nil {
		t.Fatalf("pattern %q does not occur", pattern)
	}
	return text[:at[0]] + string(re.ExpandString(nil, with, text, at)) + text[at[1]:]
}

// Each defect of check 41 (standards 10, S/E) and those of standards 8.3 and
// 8.4, put into a sound file, is found under its number.
func TestAuditFindsDamage(t *testing.T) {
	tests := []struct {
		name          string
		pattern, with string
		want          dxf.Code
	}{
		{"stray empty line", `^  0\nLINE\n`, "\n$0", dxf.BadTag},
		{"word for a group code", `^  0\nLINE\n`, "zero\nLINE\n", dxf.BadTag},
		{"cut short", `  0\nEOF\n$`, "  0\n", dxf.BadTag},
		{"no EOF", `  0\nEOF\n$`, "", dxf.NoEOF},
		{"goes on after EOF", `  0\nEOF\n$`, "$0  0\nEOF\n", dxf.NoEOF},
		{"UTF-8", `plain`, "plåin", dxf.NotASCII},
		{"NaN", `^ 40\n12.5000`, " 40\nnan", dxf.BadNumber},
		{"Inf", `^ 10\n50.0000`, " 10\n-inf", dxf.BadNumber},
		{"word for an integer", `^ 70\n1\n`, " 70\none\n", dxf.BadNumber},
		{"long text", `plain`, strings.Repeat("x", 256), dxf.LongValue},
		{"unknown version", `AC1015`, "AC1099", dxf.BadVersion},
		{"section missing", `^  0\nSECTION\n  2\nCLASSES.*?ENDSEC\n`, "", dxf.BadSection},
		{"section doubled", `^(  0\nSECTION\n  2\nCLASSES.*?ENDSEC\n)`, "$1$1", dxf.BadSection},
		{"section open", `ENDSEC\n  0\nSECTION\n  2\nENTITIES`, "SECTION\n  2\nENTITIES", dxf.BadSection},
		{"sections swapped", `^(  0\nSECTION\n  2\nTABLES.*?ENDSEC\n)(  0\nSECTION\n  2\nBLOCKS.*?ENDSEC\n)`, "$2$1", dxf.BadSection},
		{"table missing", `^  0\nTABLE\n  2\nUCS.*?ENDTAB\n`, "", dxf.BadTable},
		{"table open", `^  0\nENDTAB\n`, "", dxf.BadTable},
		{"foreign record", `^  0\nAPPID\n`, "  0\nUCS\n", dxf.BadTable},
		{"layer 0 missing", `^  0\nLAYER\n.*?(  0\nLAYER)`, "$1", dxf.MissingEntry},
		{"root dictionary missing", `^  0\nDICTIONARY\n.*?(  0\nDICTIONARY)`, "$1", dxf.MissingEntry},
		{"no layout of model space", `^  3\nModel\n`, "  3\nOther\n", dxf.MissingEntry},
		{"layer twice", `^  2\nHIDDEN\n`, "  2\nVISIBLE\n", dxf.DoubleEntry},
		{"no hand seed", `^  9\n\$HANDSEED\n  5\n\w+\n`, "", dxf.MissingHeader},
		{"no units", `^  9\n\$INSUNITS\n 70\n4\n`, "", dxf.MissingHeader},
		{"handle missing", `^(  0\nLINE\n)  5\n\w+\n`, "$1", dxf.NoHandle},
		{"dimension style with an entity's handle code", `^105\n`, "  5\n", dxf.NoHandle},
		{"handle twice", `^(  0\nLINE\n  5\n)\w+\n`, "${1}1\n", dxf.DoubleHandle},
		{"handle zero", `^(  0\nLINE\n  5\n)\w+\n`, "${1}0\n", dxf.BadHandle},
		{"handle no number", `^(  0\nLINE\n  5\n)\w+\n`, "${1}xyz\n", dxf.BadHandle},
		{"low hand seed", `^(  9\n\$HANDSEED\n  5\n)\w+\n`, "${1}2\n", dxf.HighHandle},
		{"owner missing", `^(  0\nLINE\n  5\n\w+\n)330\n\w+\n`, "$1", dxf.BadOwner},
		{"owner is nobody", `^(  0\nLINE\n  5\n\w+\n330\n)\w+\n`, "${1}fff\n", dxf.BadOwner},
		{"owner is a layout", `^(  0\nTEXT\n  5\n\w+\n330\n)\w+\n`, "${1}4\n", dxf.BadOwner},
		{"owner is paper space", `^(  0\nARC\n  5\n\w+\n330\n)\w+\n`, "${1}5\n", dxf.BadOwner},
		{"record owned by another table", `^(  0\nLAYER\n  5\n\w+\n330\n)\w+\n`, "${1}7\n", dxf.BadOwner},
		{"dangling pointer", `^390\n\w+\n`, "390\nfff\n", dxf.BadPointer},
		{"layer undefined", `^  8\nHIDDEN\n`, "  8\nNOWHERE\n", dxf.NoLayer},
		{"no layer", `^  8\nHIDDEN\n`, "", dxf.NoLayer},
		{"line type undefined", `^  6\nDASHED\n`, "  6\nWAVY\n", dxf.NoLinetype},
		{"text style undefined", `^  7\nNARROW\n`, "  7\nWIDE\n", dxf.NoTextStyle},
		{"dimension style with a wrong text style", `^(278\n46\n340\n)\w+\n`, "${1}1\n", dxf.NoTextStyle},
		{"dimension style undefined", `^  3\nSCALE_1_5\n`, "  3\nSCALE_1_7\n", dxf.NoDimStyle},
		{"block undefined", `^(100\nAcDbBlockReference\n  2\n)PAIR\n`, "${1}TRIO\n", dxf.NoBlock},
		{"record without block", `^(BLOCK_RECORD\n[^*]*?  2\n)PAIR\n`, "${1}TRIO\n", dxf.NoBlock},
		{"dimension without block", `^(100\nAcDbDimension\n)  2\n\*D1\n`, "$1", dxf.NoPicture},
		{"dimension with a plain block", `^(100\nAcDbDimension\n  2\n)\*D1\n`, "${1}PAIR\n", dxf.NoPicture},
		{"dimension with another's block", `^(100\nAcDbDimension\n  2\n)\*D2\n`, "${1}*D1\n", dxf.NoPicture},
		{"dimension in a block", `^  0\nSOLID\n`, "  0\nDIMENSION\n", dxf.NestedDim},
		{"vertex count", `^ 90\n4\n`, " 90\n5\n", dxf.VertexCount},
		{"no vertex count", `^ 90\n4\n`, "", dxf.VertexCount},
		{"vertex count after the vertices", `^ 90\n2\n( 70\n0\n 10\n.*?)(  0\nTEXT)`, "$1 90\n2\n$2", dxf.VertexCount},
		{"one vertex", `^ 90\n2\n( 70\n0\n) 10\n1.0000\n 20\n2.0000\n`, " 90\n1\n$1", dxf.FewVertices},
		{"no radius", `^ 40\n12.5000`, " 40\n0.0", dxf.BadSize},
		{"no scale", `^ 41\n2.000000`, " 41\n0.0", dxf.BadSize},
		{"colour", `^ 62\n5\n`, " 62\n257\n", dxf.BadColor},
		{"line weight", `^370\n35\n`, "370\n36\n", dxf.BadWeight},
		{"no subclass marker", `^100\nAcDbPolyline\n`, "", dxf.NoSubclass},
		{"measurement", `^ 42\n500.0000\n`, " 42\n100.0000\n", dxf.BadMeasurement},
		{"no measurement", `^ 42\n500.0000\n`, "", dxf.BadMeasurement},
		{"empty dimension text", `^  1\nR62.5\n 71`, "  1\n\n 71", dxf.NoText},
		{"entity of another kind", `^  0\nLINE\n`, "  0\nWIPEOUT\n", dxf.UnknownEntity},
	}
	sound := string(encode(t, everything(), dxf.AC1015))
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			findings := dxf.Audit([]byte(damage(t, sound, tt.pattern, tt.with)))
			if !slices.ContainsFunc(findings, func(f dxf.Finding) bool { return f.Code == tt.want }) {
				t.Errorf("got %v, want code %d", findings, int(tt.want))
			}
		})
	}
}

func TestAuditFindsDamageR12(t *testing.T) {
	tests := []struct {
		name          string
		pattern, with string
		want          dxf.Code
	}{
		{"no SEQEND", `^  0\nSEQEND\n  8\nVISIBLE\n`, "", dxf.OpenChain},
		{"stray vertex", `^  0\nLINE\n`, "  0\nVERTEX\n  8\n0\n  0\nLINE\n", dxf.OpenChain},
		{"LWPOLYLINE", `^  0\nLINE\n`, "  0\nLWPOLYLINE\n  8\n0\n 90\n2\n 10\n0\n 20\n0\n 10\n1\n 20\n0\n  0\nLINE\n", dxf.WrongVersion},
		{"one vertex", `^  0\nVERTEX\n  8\n0\n.*?(  0\nVERTEX)`, "$1", dxf.FewVertices},
		{"units variable", `^  9\n\$INSBASE`, "  9\n$$INSUNITS\n 70\n4\n$0", dxf.WrongVersion},
		{"objects", `^  0\nEOF`, "  0\nSECTION\n  2\nOBJECTS\n  0\nENDSEC\n$0", dxf.WrongVersion},
		{"line weight", `^  8\nHIDDEN\n`, "${0}370\n25\n", dxf.WrongVersion},
		{"subclass marker", `^  8\nHIDDEN\n`, "100\nAcDbEntity\n$0", dxf.NoSubclass},
	}
	sound := string(encode(t, everything(), dxf.AC1009))
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			findings := dxf.Audit([]byte(damage(t, sound, tt.pattern, tt.with)))
			if !slices.ContainsFunc(findings, func(f dxf.Finding) bool { return f.Code == tt.want }) {
				t.Errorf("got %v, want code %d", findings, int(tt.want))
			}
		})
	}
}

func TestAuditPassesSoundFiles(t *testing.T) {
	docs := map[string]*dxf.Document{"everything": everything(), "empty": dxf.New(), "inches": {Units: dxf.Inches}}
	for name, d := range docs {
		for _, v := range versions {
			if f := dxf.Audit(encode(t, d, v)); f != nil {
				t.Errorf("%s %s: %v", name, v, f)
			}
		}
	}
}
