package page

import (
	"bytes"
	"os"
	"path/filepath"
	"runtime"
	"testing"
)

// What starts the program in a browser is that of the Go release it is built with.
func TestStarterIsThatOfGo(t *testing.T) {
	own, err := assets.ReadFile("assets/wasm_exec.js")
	if err != nil {
		t.Fatal(err)
	}
	root := runtime.GOROOT()
	of, err := os.ReadFile(filepath.Join(root, "lib", "wasm", "wasm_exec.js"))
	if err != nil {
		t.Skipf("the Go release's files are not at hand: %v", err)
	}
	if !bytes.Equal(own, of) {
		t.Errorf("assets/wasm_exec.js is not that of %s: copy lib/wasm/wasm_exec.js and LICENSE again", runtime.Version())
	}
}
