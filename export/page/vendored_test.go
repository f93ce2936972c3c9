package page

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
)

// What starts the program in a browser is that of the Go release it is built with.
func TestStarterIsThatOfGo(t *testing.T) {
	own, err := assets.ReadFile("assets/wasm_exec.js")
	if err != nil {
		t.Fatal(err)
	}
	root, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		t.Skipf("the Go command is not at hand: %v", err)
	}
	of, err := os.ReadFile(filepath.Join(strings.TrimSpace(string(root)), "lib", "wasm", "wasm_exec.js"))
	if err != nil {
		t.Skipf("the Go release's files are not at hand: %v", err)
	}
	if !bytes.Equal(own, of) {
		t.Errorf("assets/wasm_exec.js is not that of %s: copy lib/wasm/wasm_exec.js and LICENSE again", runtime.Version())
	}
}
