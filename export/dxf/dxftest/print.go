//go:build !js

package dxftest

import (
	"bytes"
	"fmt"
	"image"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"armwright/export/readertest"
)

// printDots is the resolution of printed pages, dots an inch: a CAD program fits a sheet
// to its own page, on which the smallest lettering is half a millimetre high.
const printDots = 600

// Print prints files with LibreCAD, each on a page that its drawing fills, and hands on the
// pages in their order, one at a time: a page takes 35 MB.
func Print(t testing.TB, files [][]byte, each func(i int, page *image.Gray)) {
	t.Helper()
	for _, program := range [...][2]string{{"librecad", "librecad"}, {"pdftoppm", "poppler-utils"}} {
		if _, err := exec.LookPath(program[0]); err != nil {
			readertest.Absent(t, program[0], "install the package "+program[1])
		}
	}
	dir := t.TempDir()
	names := make([]string, len(files))
	for i, data := range files {
		names[i] = filepath.Join(dir, fmt.Sprintf("%03d.dxf", i))
		if err := os.WriteFile(names[i], data, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	print := exec.Command("librecad", append([]string{"dxf2pdf", "-a", "-m"}, names...)...)
	print.Env = append(os.Environ(), "QT_QPA_PLATFORM=offscreen", "HOME="+dir, "XDG_RUNTIME_DIR="+dir)
	if out, err := print.CombinedOutput(); err != nil {
		t.Fatalf("librecad: %v: %s", err, out)
	}
	for i, name := range names {
		base := strings.TrimSuffix(name, ".dxf")
		out, err := exec.Command("pdftoppm", "-r", fmt.Sprint(printDots), "-gray", "-aaVector", "no", "-singlefile", base+".pdf").Output()
		if err != nil {
			t.Fatalf("page %d: %v", i, err)
		}
		each(i, greymap(t, out))
	}
}

// greymap reads a portable greymap, P5 (netpbm), of one byte a dot.
func greymap(t testing.TB, data []byte) *image.Gray {
	t.Helper()
	var width, height, most int
	head := bytes.SplitAfterN(data, []byte{'\n'}, 4)
	if len(head) != 4 {
		t.Fatal("no greymap")
	}
	if _, err := fmt.Sscanf(string(bytes.Join(head[:3], nil)), "P5\n%d %d\n%d\n", &width, &height, &most); err != nil || most != 255 || len(head[3]) != width*height {
		t.Fatalf("no greymap: %d by %d dots of %d: %v", width, height, most, err)
	}
	return &image.Gray{Pix: head[3], Stride: width, Rect: image.Rect(0, 0, width, height)}
}
