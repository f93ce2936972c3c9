package dxf_test

import (
	"bytes"
	"errors"
	"testing"

	"armwright/export/dxf"
)

// FuzzRead demands that the reader and the audit never panic, that a refusal
// names its line, and that what was read and can be written reads back the
// same.
func FuzzRead(f *testing.F) {
	for _, v := range versions {
		f.Add(encode(f, everything(), v))
		f.Add(encode(f, dxf.New(), v))
	}
	f.Add([]byte("0\nSECTION\n2\nENTITIES\n0\nLINE\n8\n0\n10\n0.0\n20\n0.0\n11\n5.0\n21\n6.0\n0\nENDSEC\n0\nEOF\n"))
	f.Add([]byte("0\nSECTION\n2\nENTITIES\n0\nPOLYLINE\n66\n1\n0\nVERTEX\n10\n1\n0\nENDSEC\n0\nEOF"))
	f.Add([]byte("0\nSECTION\n2\nENTITIES\n0\nLWPOLYLINE\n90\n2\n42\n1\n10\n0\n20\n0\n10\n9\n20\nnan\n0\nENDSEC\n0\nEOF"))
	f.Add([]byte("0\nSECTION\n2\nTABLES\n0\nTABLE\n0\nLAYER\n62\n-9223372036854775808\n0\nENDSEC\n0\nEOF\n"))
	f.Add([]byte("  0\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		dxf.Audit(data)
		d, err := dxf.Read(bytes.NewReader(data))
		if err != nil {
			var bad *dxf.SyntaxError
			if !errors.As(err, &bad) || bad.Line < 1 {
				t.Fatalf("%v is no SyntaxError with a line", err)
			}
			return
		}
		var first, second bytes.Buffer
		if dxf.Write(&first, d, dxf.AC1015) != nil {
			return
		}
		again, err := dxf.Read(bytes.NewReader(first.Bytes()))
		if err != nil {
			t.Fatalf("written, but not read again: %v", err)
		}
		if err := dxf.Write(&second, again, dxf.AC1015); err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(first.Bytes(), second.Bytes()) {
			t.Fatal("written, read and written again, the bytes differ")
		}
		if found := dxf.Audit(first.Bytes()); found != nil {
			t.Fatalf("audit of what was written: %v", found)
		}
	})
}
